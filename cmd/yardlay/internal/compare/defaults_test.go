package compare

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"yardlay/cmd/yardlay/internal/testjobs"

	"github.com/google/go-cmp/cmp"
)

const demo = "../../../../testdata/lantern-gown.toml"

func defaultsOf(t *testing.T, name string, replace ...string) []string {
	t.Helper()
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(replace...).Replace(string(src))
	f := testjobs.File(t, name, text)
	var list []string
	for _, way := range Defaults(f.Job()) {
		list = append(list, Name(way))
		if _, err := f.With(way); err != nil {
			t.Errorf("%s: %v", Name(way), err)
		}
	}
	return list
}

// One thing at a time, about a dozen, and two places for one cut; 58 in satin is sold at 60 too, 108 in net
// has the next widths 72 and 118 (common practice).
func TestDefaultsOfTheDemo(t *testing.T) {
	want := []string{
		"satin nap two-way", "satin lay lengthwise-fold", "satin width 45 in", "satin width 54 in", "satin width 60 in",
		"skirt gores 9", "skirt gores 11",
		"skirt pieced within 25 1/8 in", "skirt pieced within 20 5/8 in", "skirt centre front cut in one",
		"skirt tilt 2 degrees",
		"lining lay lengthwise-fold", "lining width 36 in", "lining width 54 in",
		"net lay lengthwise-fold", "net width 72 in",
	}
	if diff := cmp.Diff(want, defaultsOf(t, demo)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestDefaultsFollowTheJob(t *testing.T) {
	want := []string{
		"satin nap one-way", "satin lay open",
		"satin width 114 cm", "satin width 137 cm", "satin width 150 cm",
		"skirt gores 8", "skirt gores 12", // an even number, for the front on its fold
	}
	got := defaultsOf(t, demo, `"58"`, `"147 cm"`, `unit     = "in"`, `unit = "cm"`, `nap      = "one-way"`,
		`nap = "two-way"`+"\nlay = \"lengthwise-fold\"",
		`gores  = 10`, "gores = 10\nfront_on_fold = true", `"27 1/2"`, `70`, `length = "41"`, `length = 104`,
		`skirt_length = "41"`, `skirt_length = 104`, `"23"`, `58`)
	if diff := cmp.Diff(want, got[:min(len(got), len(want))]); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// An all-way row is for parts whose grain is free, and never bends that of others.
func TestDefaultsKeepTheGrain(t *testing.T) {
	const job = `unit = "in"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "lawn"
width = 44
nap = "two-way"
[[part]]
name = "panel"
draft = "rectangle"
cloth = "lawn"
length = 20
width = 10
`
	const ties = "[[part]]\nname = \"tie\"\ndraft = \"ties\"\ncloth = \"lawn\"\nlength = 20\nwidth = 1\n"
	for _, c := range []struct {
		job  string
		want []string
	}{
		{job, []string{"lawn nap one-way"}},
		{strings.Replace(job, "two-way", "all-way", 1), []string{"lawn nap one-way"}},
		{job + ties, []string{"lawn nap one-way", "lawn nap all-way"}},
		{strings.Replace(job, "two-way", "all-way", 1) + ties, []string{"lawn nap two-way"}},
		{job + ties + "grain = \"cross\"\n", []string{"lawn nap one-way"}},
	} {
		name := filepath.Join(t.TempDir(), "job.toml")
		if err := os.WriteFile(name, []byte(c.job), 0o644); err != nil {
			t.Fatal(err)
		}
		var naps []string
		for _, row := range defaultsOf(t, name) {
			if strings.Contains(row, " nap ") {
				naps = append(naps, row)
			}
			if strings.Contains(row, "grain") {
				t.Errorf("%s is recommended", row)
			}
		}
		if diff := cmp.Diff(c.want, naps); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	}
}

// Whatever a job holds, its defaults are ways that the job file takes.
func TestDefaultsOfEveryJob(t *testing.T) {
	names, _ := filepath.Glob("../../../../testdata/*.toml")
	for _, name := range names {
		if n := len(defaultsOf(t, name)); n == 0 || n >= mostDefault+3 {
			t.Errorf("%s has %d defaults", name, n)
		}
	}
}
