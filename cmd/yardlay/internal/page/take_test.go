package page

import (
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

// jobsOf are the jobs of testdata, by their names.
func jobsOf(t *testing.T) map[string][]byte {
	t.Helper()
	names, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil || len(names) < 8 {
		t.Fatal(names, err)
	}
	all := map[string][]byte{}
	for _, name := range names {
		if all[name], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// someOf are some of those jobs in a run by hand, else all.
func someOf(t *testing.T, names ...string) map[string][]byte {
	t.Helper()
	all := jobsOf(t)
	maps.DeleteFunc(all, func(path string, _ []byte) bool {
		return often.ByHand() && !slices.Contains(names, filepath.Base(path))
	})
	return all
}

// alike compares jobs whatever they are drafted to and wherever a value stands in the file.
var alike = []cmp.Option{
	cmp.Exporter(func(reflect.Type) bool { return true }),
	cmp.Comparer(func(_, _ strict.Position) bool { return true }),
	cmp.FilterPath(func(p cmp.Path) bool { return p.Last().String() == ".made" }, cmp.Ignore()),
}

// A way that is written into the text of a job, read again, is the job that the comparison
// made of the way, for keys that are given what they have and every way proposed.
func TestWaysAreWrittenAsTheyAreLaid(t *testing.T) {
	for name, src := range someOf(t, "plaid-cape.toml", "quoted-gown.toml", "velvet-train.toml") {
		f, err := job.Read(name, src)
		if err != nil {
			t.Fatal(err)
		}
		ways := compare.Defaults(f.Job())
		for i, key := range f.Variable() {
			if value, _ := f.Written(key); value != "" && i%4 == 0 { // a share of them: each is compared whole
				ways = append(ways, []job.Change{{Key: key, Value: value}})
			}
		}
		if c := f.Job().Cloths[0]; c.ID != "" {
			ways = append(ways, []job.Change{{Key: "cloth." + c.ID + ".gap", Value: "1/4"}, {Key: "body.waist_ease",
				Value: "[1, 2]"}}, []job.Change{{Key: "cloth." + c.ID + ".both_faces", Value: "true"}})
		}
		tried := 0
		for _, way := range ways {
			want, err := f.With(way)
			if err != nil {
				continue
			}
			text, err := written(f, src, way)
			if err != nil {
				t.Errorf("%s, %s: %v", name, compare.Name(way), err)
				continue
			}
			got, err := job.Read(name, text)
			if err != nil {
				t.Errorf("%s: %s: %v", name, compare.Name(way), err)
			} else if diff := cmp.Diff(want, got.Job(), alike...); diff != "" {
				t.Errorf("%s: %s is another job once it is written:\n%s", name, compare.Name(way), diff)
			}
			tried++
		}
		if tried < 10 {
			t.Errorf("%s: %d ways", name, tried)
		}
	}
}
