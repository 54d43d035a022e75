package compare

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
)

const demo = "../../../../testdata/lantern-gown.toml"

func defaultsOf(t *testing.T, name string, replace ...string) []string {
	t.Helper()
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(replace...).Replace(string(src))
	j, err := job.Parse(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, way := range Defaults(j) {
		list = append(list, nameOf(way))
		if _, err := job.Vary(name, []byte(text), way); err != nil {
			t.Errorf("%s: %v", nameOf(way), err)
		}
	}
	return list
}

// One thing at a time, about a dozen; 58 in satin is sold at 60 too, 108 in net
// has the next widths 72 and 118 (common practice).
func TestDefaultsOfTheDemo(t *testing.T) {
	want := []string{
		"satin nap two-way", "satin lay lengthwise-fold", "satin width 45 in", "satin width 54 in", "satin width 60 in",
		"skirt gores 9", "skirt gores 11",
		"lining lay lengthwise-fold", "lining width 36 in", "lining width 54 in",
		"net lay lengthwise-fold", "net width 72 in",
	}
	if diff := cmp.Diff(want, defaultsOf(t, demo)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestDefaultsFollowTheJob(t *testing.T) {
	want := []string{
		"satin nap one-way", "satin nap all-way", "satin lay open",
		"satin width 114 cm", "satin width 137 cm", "satin width 150 cm",
		"skirt gores 8", "skirt gores 12", // an even number, for the front on its fold
	}
	got := defaultsOf(t, demo, `"58"`, `"147 cm"`, `unit     = "in"`, `unit = "cm"`, `nap      = "one-way"`, `nap = "two-way"`+"\nlay = \"lengthwise-fold\"",
		`gores  = 10`, "gores = 10\nfront_on_fold = true", `"27 1/2"`, `70`, `length = "41"`, `length = 104`, `skirt_length = "41"`, `skirt_length = 104`, `"23"`, `58`)
	if diff := cmp.Diff(want, got[:min(len(got), len(want))]); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// Whatever a job holds, its defaults are ways that the job file takes.
func TestDefaultsOfEveryJob(t *testing.T) {
	names, _ := filepath.Glob("../../../../testdata/*.toml")
	for _, name := range names {
		if n := len(defaultsOf(t, name)); n == 0 || n > mostDefault {
			t.Errorf("%s has %d defaults", name, n)
		}
	}
}
