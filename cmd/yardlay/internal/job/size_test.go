package job

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/strict"
)

// repeated writes a text n times, with its number for each %d.
func repeated(n int, text string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.ReplaceAll(text, "%d", fmt.Sprint(i)))
	}
	return b.String()
}

// What would take long to read is refused at a limit that is named, at its place.
// Each of these took a minute or more, or a gigabyte.
func TestReadingIsBounded(t *testing.T) {
	const head = "unit = \"in\"\n[allowance]\nseam = 1\nhem = 1\n"
	cloths := repeated(64, "[[cloth]]\nid = \"c%d\"\nwidth = 58\n")
	everyCloth := "[" + repeated(64, `"c%d",`) + "]"
	const part = "[[part]]\nname = \"p%d\"\ndraft = \"rectangle\"\nlength = 9\nwidth = 9\ncloth = "
	for name, c := range map[string]struct{ src, want string }{
		"dots": {head + "a" + strings.Repeat(".a", 200_000) + " = 1\n",
			":5:1: more than 16 names, lists and tables within each other"},
		"dots in a table": {head + "[a" + strings.Repeat(".a", 200_000) + "]\n", ":5:2: more than 16 names"},
		"lists": {head + "a = " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000),
			":5:1: more than 16 names"},
		"tables in lists": {head + "a = " + strings.Repeat("[{a=", 1000) + "1" + strings.Repeat("}]", 1000),
			":5:1: more than 16 names"},
		"keys": {head + repeated(70_000, "k%d = 1\n"), ":1003:1: more than 1000 keys in one table"},
		"keys in a line": {head + "a = {" + repeated(70_000, "k%d=1,") + "z=1}\n",
			":5:1: more than 1000 keys in one table"},
		"headers": {head + repeated(40_000, "[a%d.b]\n"), "more than 4000 tables"},
		"drafts": {head + cloths + repeated(256, part+everyCloth+"\n"),
			":197:3: the parts, for each body and in each cloth, are more than 2000 drafts"},
		"bodies": {head + repeated(64, "[[body]]\nname = \"b%d\"\n") + cloths + repeated(256, part+"\"c0\"\n"),
			"are more than 2000 drafts"},
		"cloths of a part": {head + cloths + strings.ReplaceAll(part, "%d", "") + "[" + repeated(90_000, `"z%d",`) +
			"]\n", "`cloth` names 90000 cloths, a job has at most 64"},
		"bodies of a part": {head + "[[body]]\nname = \"b\"\n" + cloths + part + "\"c0\"\nbodies = [" +
			repeated(90_000, `"z%d",`) + "]\n", "`bodies` names 90000 bodies"},
		"parts": {head + cloths + repeated(3000, "[[part]]\n"),
			":197:3: 3000 tables [[part]], a job takes at most 256"},
		"flaws": {head + "[[cloth]]\nid = \"c\"\nwidth = 58\nflaws = [" + repeated(50_000, "{from=1,to=2},") + "]\n",
			"`flaws` lists 50000"},
		"errors": {head + repeated(60, "[[part]]\n"+repeated(900, "k%d = 1\n")), "and more is wrong than these 100"},
	} {
		t.Run(name, func(t *testing.T) {
			began := processor.Time()
			_, err := parse("gown.toml", []byte(c.src))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error is %.500v, want %s", err, c.want)
			}
			if n := strings.Count(err.Error(), "\n"); n > 2*strict.MostErrors+2 {
				t.Errorf("%d lines of errors", n)
			}
			if took := processor.Time() - began; processor.Exceeds(took, 5*time.Second) { // a tenth of a second to one
				t.Errorf("it took %v", took)
			}
		})
	}
}

// Outlines are counted for each cloth that they are cut in.
func TestOutlinesOfAJobAreBounded(t *testing.T) {
	dir := t.TempDir()
	os.WriteFile(filepath.Join(dir, "big.geojson"), make([]byte, maxOutlined/3+1), 0o644)
	src := "unit = \"in\"\n[allowance]\nseam = 1\nhem = 1\n" + repeated(3, "[[cloth]]\nid = \"c%d\"\nwidth = 58\n") +
		"[[part]]\nname = \"p\"\ndraft = \"outline\"\nfile = \"big.geojson\"\ncloth = [\"c0\", \"c1\"]\n"
	if _, err := parse(filepath.Join(dir, "gown.toml"), []byte(src)); err != nil {
		t.Error(err)
	}
	src = strings.Replace(src, `"c1"]`, `"c1", "c2"]`, 1)
	_, err := parse(filepath.Join(dir, "gown.toml"), []byte(src))
	if err == nil || !strings.Contains(err.Error(),
		"gown.toml:17:8: the outlines of all parts, for each cloth and body, are over 4 MiB") {
		t.Errorf("error is %v", err)
	}
}
