package page

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
)

func TestSpoken(t *testing.T) {
	for text, want := range map[string]string{
		"nothing to say": "nothing to say",
		"the job gives no hours ([labour]), no overhead and no markup ([quote])": `the job gives no hours ("Your time"), ` +
			`no overhead and no markup ("Price")`,
		"`waist_girth` cannot be 0":                        `"Waist girth" cannot be 0`,
		"give a `count` or a `length`":                     `give a "count" or a "length"`,
		`say unusual = true under [body]`:                  `say Unusual: yes under "Measures"`,
		`[allowance] with seam = "5/8" and hem = 1`:        `"Allowances" with Seam: 5/8 and Hem: 1`,
		"Two remnants are two entries with `in_stock = 1`": `Two remnants are two entries with "In stock: 1"`,
		"cloth `satin` could not be laid":                  `cloth "satin" could not be laid`,
		"`lay` counts by the first, `{ along = \"4\" }`":   `"lay" counts by the first, "{ along = "4" }"`,
		"a smaller round_to":                               `a smaller "Round to"`,
		"the file my_gown.toml, [wool] = 3 and a_b_c":      "the file my_gown.toml, [wool] = 3 and a_b_c",
	} {
		if got := spoken(text); got != want {
			t.Errorf("%q is said as %q, want %q", text, got, want)
		}
	}
}

// named is what only whoever has seen the file understands: a table in brackets, a key with its underscore, a word in
// backquotes.
var named = regexp.MustCompile("\\[\\[?[a-z]+\\]|`|\\b[a-z]+_[a-z_]+\\b")

// No view but that of the text speaks the language of the file, whatever job it shows and whatever is wrong with it.
func TestViewsSpeakAsTheForm(t *testing.T) {
	quickly(t)
	s := newSite(t)
	views := slices.DeleteFunc(views(), func(v view) bool { return v.path == "text" })
	datalist := regexp.MustCompile(`(?s)<datalist.*?</datalist>`)
	looks := func(what, job string) {
		t.Helper()
		for _, v := range views {
			_, page := s.get(jobPath(job, v.path))
			for _, found := range named.FindAllStringIndex(words(datalist.ReplaceAllString(page, "")), -1) {
				said := words(datalist.ReplaceAllString(page, ""))
				t.Errorf("%s, %s: ...%s...", what, v.path, said[max(0, found[0]-60):min(len(said), found[1]+60)])
			}
		}
	}
	s.put("gown.toml", []byte(job.Starter()))
	s.until("an end", laid)
	looks("the starter", "gown.toml")
	for what, change := range map[string][2]string{
		"a waist of nothing":  {`waist_girth = "28"`, `waist_girth = "0"`},
		"no waist":            {`waist_girth = "28"`, ``},
		"an odd waist":        {`waist_girth = "28"`, `waist_girth = "3"`},
		"a narrow cloth":      {`width    = "58"`, `width    = "12"`},
		"no allowance":        {`[allowance]`, `[allowances]`},
		"a price of nonsense": {`waist_girth = "28"`, "waist_girth = \"28\"\n[labour]\nhours = 3"},
	} {
		before := ""
		s.set(func(text string) string {
			before = text
			if !strings.Contains(text, change[0]) {
				t.Fatalf("%s: the starter has no %s", what, change[0])
			}
			return strings.Replace(text, change[0], change[1], 1)
		})
		s.until("what is wrong", func(now live.Snapshot) bool {
			o := s.server.open["gown.toml"].State()
			return !now.Busy && now.Drafted && (!o.Holds || now.File == o.File)
		})
		looks(what, "gown.toml")
		s.set(func(string) string { return before })
	}
}
