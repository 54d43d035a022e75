package job

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// jobs are those that come with the program, and the starter.
func jobs(t testing.TB) map[string][]byte {
	all := map[string][]byte{"starter": Starter()}
	names, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil || len(names) == 0 {
		t.Fatal("no jobs to try", err)
	}
	for _, name := range names {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(name)] = src
	}
	return all
}

// Every job that comes with the program is read and drafted.
func TestJobsAreWhole(t *testing.T) {
	for name, src := range jobs(t) {
		j, err := parse(filepath.Join("../../../../testdata", name), src)
		if err != nil {
			t.Errorf("%s:\n%v", name, err)
			continue
		}
		for _, p := range j.Parts {
			for _, l := range p.Layers {
				if _, err := l.Draft.Draft(); err != nil {
					t.Errorf("%s: part %s in %s: %v", name, p.Name, l.Cloth, err)
				}
			}
		}
	}
}

// The demo's figures arrive in millimetres: 58 in with two selvedges of 1/2 in
// leave 57 in; the lining's hem is an inch shorter (common practice).
func TestDemoIsReadExactly(t *testing.T) {
	j, err := parse("lantern-gown.toml", jobs(t)["lantern-gown.toml"])
	if err != nil {
		t.Fatal(err)
	}
	satin := j.Cloths[0]
	if got := satin.Usable() / measure.Inches; math.Abs(got-57) > 1e-9 {
		t.Errorf("usable width of satin is %v in, want 57", got)
	}
	if satin.Nap != OneWay || satin.Offer.Price.Minor != 1350 || satin.Offer.Per != measure.Yard || satin.Net {
		t.Errorf("satin is %+v", satin)
	}
	net := j.Cloths[2]
	if !net.Net || !net.BothFaces || net.Nap != AllWay || net.Offer.Bolt == nil || net.Offer.Bolt.Length != 22860 {
		t.Errorf("net is %+v", net)
	}
	skirt := j.Parts[0].Layers
	outer, lining := skirt[0].Draft.(draft.CircleSkirt), skirt[1].Draft.(draft.CircleSkirt)
	want := outer
	want.HemRaise = measure.Inches
	if diff := cmp.Diff(want, lining); diff != "" || outer.HemRaise != 0 {
		t.Errorf("the lining is not the outer skirt raised by an inch (-want +got):\n%s", diff)
	}
	if math.Abs(outer.Waist-27.5*measure.Inches) > 1e-9 ||
		outer.Allowance != (shapes.Allowance{Seam: 12.7, Waist: 12.7, Hem: 25.4}) {
		t.Errorf("skirt is %+v", outer)
	}
}

// head is a job up to its parts.
const head = `unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
[[part]]
name = "p"
cloth = "satin"
`

// measured is head with all measures of a body, in inches.
var measured = strings.Replace(head, "waist_girth = 28", `waist_girth = 28
hip_girth = 38
bust_girth = 36
neck_base_girth = 15
waist_to_hips = 8
underbust_girth = 30
upper_arm_girth = 11
shoulder_length = 5
back_neck_point_to_waist = 16
over_bust_girth = 34
high_hip_girth = 35
waist_to_over_bust = 9
waist_to_bust = "6 1/2"
waist_to_underbust = 4
waist_to_high_hip = 4
armhole_depth = 8`, 1)

// Every draft documents exactly the keys that it reads.
func TestDraftsDocumentTheirKeys(t *testing.T) {
	for _, d := range drafts {
		root, bad := fileFormat.Parse([]byte(fmt.Sprintf("draft = %q", d.name)))
		if bad != nil {
			t.Fatal(bad)
		}
		r := newReader("", 0, "")
		p := &partTable{table: r.table(root, "part", slices.Concat(partKeys, d.keys)), drawn: &d,
			cloths: []Cloth{{ID: "c"}}}
		d.read(p)
		var documented []string
		for _, k := range d.keys {
			documented = append(documented, k.Name)
		}
		slices.Sort(documented)
		// of every part
		read := slices.DeleteFunc(slices.Clone(p.Asked),
			func(key string) bool {
				return slices.Contains([]string{"lining", "interlining", "underlining", "overlay"}, key)
			})
		slices.Sort(read)
		if diff := cmp.Diff(documented, read); diff != "" {
			t.Errorf("%s: documented and read keys differ (-documented +read):\n%s", d.name, diff)
		}
	}
}

// A length that has to be given is in the example, from which its hint takes a value.
func TestExamplesHaveWhatMustBeGiven(t *testing.T) {
	for _, d := range drafts {
		for _, k := range d.keys {
			if k.Kind.Form == Length && k.Kind.Listed == Single && k.Default == "" && d.exampleOf(k.Name) == "" {
				t.Errorf("%s: `%s` is not in its example", d.name, k.Name)
			}
		}
	}
}

// The example of every draft in the reference is a part that can be drafted.
func TestDraftExamplesHold(t *testing.T) {
	for _, d := range drafts {
		j, err := parse("job.toml", []byte(exampleJob(d)))
		if err != nil {
			t.Errorf("%s: %v", d.name, err)
			continue
		}
		if d.name == outlineFile.name {
			continue // reads a file
		}
		for _, l := range j.Parts[0].Layers {
			if _, err := l.Draft.Draft(); err != nil {
				t.Errorf("%s: %v", d.name, err)
			}
		}
	}
}

// exampleLines puts each key of an example on a line of its own.
func exampleLines(example string) string { return strings.ReplaceAll(example, ", ", "\n") }

func TestErrorsHavePlaceAndHint(t *testing.T) {
	tests := []struct {
		name, src, at, what, hint string
	}{
		{"not UTF-8", "title = \"\xff\"", "1:10", "not UTF-8", "UTF-8"},
		{"after wide letters", "title = \"éü\"x", "1:13", "not TOML", ""},
		{"a table twice", "[body]\n[body]", "2:2", "already exists", "[[part]]"},
		{"a number for a text", "title = 4", "1:9", "`title` must be text in quotes, not a number", "title = "},
		{"a date for a length", head + "draft = \"rectangle\"\nlength = 1979-05-27\nwidth = 2", "14:10", "not a date",
			"27 1/2"},
		{"infinite length", head + "draft = \"rectangle\"\nlength = inf\nwidth = 2", "14:10", "+Inf", "35 1/2"},
		{"a negative width", head + "draft = \"rectangle\"\nlength = 3\nwidth = -2", "15:9", "-2", ""},
		{"an empty text", head + "draft = \" \"", "13:9", "`draft` is empty", "circle-skirt"},
		{"cloth as table", "cloth = 3", "1:1", "[[cloth]]", "own line"},
		{"cloth in a list", "cloth = [3]", "1:10", "must be tables, not a number", "own line"},
		{"body as number", "body = 3", "1:8", "`body` must be a table", ""},
		{"cloth number", head + "draft = \"rectangle\"\nlength = 3\nwidth = 2\n[[part]]\nname = \"q\"\ncloth = 4",
			"18:9", "the id of a cloth", ""},
		{"two parts of a name", head +
			"draft = \"rectangle\"\nlength = 3\nwidth = 2\n[[part]]\nname = \"p\"\ncloth = \"satin\"\ndraft = " +
			"\"rectangle\"\nlength = 3\nwidth = 2", "17:8", "already on line 11", "name of its own"},
		{"odd pair", head + "draft = \"outline\"\nfile = \"a\"\npair = true\ncount = 3", "15:8", "even", "count = 2"},
		{"both edge and length", head + "draft = \"strip\"\nedge = 3\nlength = 4\nfullness = 2\ndepth = 2", "15:1",
			"both", "one of them"},
		{"no fullness", head + "draft = \"strip\"\nedge = 3\ndepth = 2", "10:3", "lacks `fullness`", "2 to 3"},
		{"tiers and depths", head + "draft = \"strip\"\nedge = 3\nfullness = 2\ndepth = [2, 3]\ntiers = 2", "17:1",
			"list of depths", ""},
		{"circle too small", head + "draft = \"circle-skirt\"\ncircle = 0\nlength = 4", "14:10", "cannot be 0",
			"from 0.02"},
		{"circle by zero", head + "draft = \"circle-skirt\"\ncircle = \"1/0\"\nlength = 4", "14:10", `"1/0"`,
			"three-quarter"},
		{"no measure", strings.Replace(head, "waist_girth", "bust_girth", 1) +
			"draft = \"circle-skirt\"\ncircle = 1\nlength = 4", "10:3", "lacks `waist`", "`waist_girth` under [body]"},
		{"selvedges eat the cloth", strings.Replace(head, "width = 58", "width = 58\nselvedge = 29", 1) +
			"draft = \"rectangle\"\nlength = 3\nwidth = 2", "10:12", "leave nothing", "one edge"},
		{"id in capitals", strings.Replace(head, `"satin"`, `"Satin"`, 1), "8:6", `"Satin"`, "small letters"},
		{"price of another currency", strings.Replace(head, "width = 58", "width = 58\nprice = \"3 EUR/yd\"", 1),
			"10:9", "EUR", "13.50/yd"},
		{"unknown key in a part's allowance",
			head + "draft = \"rectangle\"\nlength = 3\nwidth = 2\nallowance = { hemm = 2 }", "16:15", "no key `hemm`",
			"did you mean `hem`"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { wantError(t, tt.src, tt.at, tt.what, tt.hint) })
	}
}

// wantError looks for an error at a place that says what is wrong and hints.
func wantError(t *testing.T, src, at, what, hint string) {
	t.Helper()
	_, err := parse("job.toml", []byte(src))
	if err == nil {
		t.Fatal("no error")
	}
	for _, e := range err.(strict.Errors) {
		if fmt.Sprintf("%d:%d", e.At.Line, e.At.Column) == at && strings.Contains(e.What, what) &&
			strings.Contains(e.Hint, hint) {
			return
		}
	}
	t.Errorf("no error at %s with %q and hint %q among:\n%v", at, what, hint, err)
}

// The nap table: one-way 0 deg; two-way and all-way 0 and 180, along the grain.
func TestNapTurns(t *testing.T) {
	for nap, want := range map[Nap][]float64{OneWay: {0}, TwoWay: {0, 180}, AllWay: {0, 180}} {
		if diff := cmp.Diff(want, nap.Turns()); diff != "" {
			t.Errorf("%s: %s", nap, diff)
		}
	}
}

func TestNearest(t *testing.T) {
	tests := []struct{ word, want string }{
		{"lenght", "length"}, {"waist", "waist_girth"}, {"Circle-Skrit", "circle-skirt"}, {"xyz", ""}, {"", ""},
	}
	for _, tt := range tests {
		if got := strict.Nearest(tt.word, []string{"length", "waist_girth", "circle-skirt"}); got != tt.want {
			t.Errorf("nearest(%q) = %q, want %q", tt.word, got, tt.want)
		}
	}
}

// Whatever the file holds, reading never panics, every error has a place in the
// file, and every flaw that is read is one.
func FuzzParse(f *testing.F) {
	for _, src := range jobs(f) {
		f.Add(src)
	}
	for _, src := range []string{"", "a = [[1], {b = 2}]", "[[cloth]]\n[cloth.bolt]\nlength = 1", "part = {}",
		"[[part]]\n[[part.cloth]]",
		"cloth.id = 3\n[[part]]", "[a.b]\n[[a.c]]\n[a.c.d]", "unit = \"in\"\r\n\tx = 0x1F",
		head + "draft = \"strip\"\ndepth = [[]]"} {
		f.Add([]byte(src))
	}
	for _, keys := range clothSeeds {
		f.Add([]byte(onCloth(keys)))
	}
	for _, tables := range quoteSeeds {
		f.Add([]byte(priced + tables))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		j, err := parse("job.toml", src)
		if err == nil {
			checkFlaws(t, j)
			return
		}
		var all strict.Errors
		if !errors.As(err, &all) || len(all) == 0 {
			t.Fatalf("%T is no Errors: %v", err, err)
		}
		lines := strings.Split(string(src), "\n")
		for _, e := range all {
			if e.File != "job.toml" && strings.Contains(string(src), "rates") {
				continue // a rates file that happens to be there has places of its own
			}
			if e.File != "job.toml" || e.What == "" || e.At.Line < 1 || e.At.Line > len(lines) || e.At.Column < 1 ||
				e.At.Column > len(lines[e.At.Line-1])+1 {
				t.Fatalf("error out of place: %+v", e)
			}
		}
	})
}

// Some editors begin a file with a byte order mark.
func TestByteOrderMarkIsPassedOver(t *testing.T) {
	if _, err := parse("gown.toml", append([]byte("\ufeff"), Starter()...)); err != nil {
		t.Error(err)
	}
}
