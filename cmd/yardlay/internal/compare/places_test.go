package compare

import (
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Where a job leaves the place of its cuts open each row says which was chosen for it: the same where another cloth
// changes, and where it is another one that is told with the rows that have it, and what is sewn less for it. What a
// row weighs is what the job weighs with its change written into it.
func TestRowsSayWherePartsAreCut(t *testing.T) {
	src := testjobs.PiecedSkirt(70, "sold_by = \"1/2 yd\"\nnap = \"one-way\"\n", 2, 20, 100, "")
	ways := [][]job.Change{one("lawn", "width", "50"), one("wool", "width", "54")}
	r, err := Run(t.Context(), testjobs.File(t, "skirt.toml", src), nil, ways, Options{
		Options: plan.Options{Unit: measure.Inch, Effort: nest.Trial}, Price: seamsAlone,
	})
	if err != nil {
		t.Fatal(err)
	}
	written, same, other := r.Rows[0], r.Rows[1], r.Rows[2]
	got := written.Places["skirt"]
	if got != "pieced within 35 in" || same.Places["skirt"] != got || same.Elsewhere() != "" {
		t.Errorf("as written %q, beside another lawn %q, %q", got, same.Places["skirt"], same.Elsewhere())
	}
	narrower := testjobs.Read(t, strings.Replace(src, "width = 70", "width = 54", 1))
	fresh := plan.Placed(t.Context(), narrower, plan.Options{})
	if got, want := other.Job.Parts[0].Place, fresh.Parts[0].Place; got.Within != want.Within || got.Tried != want.Tried {
		t.Errorf("on narrower wool %+v, by itself %+v", got, want)
	}
	if other.Elsewhere() != "skirt "+other.Places["skirt"] || other.Sewn(measure.Inch, "USD") == "" {
		t.Errorf("on narrower wool %q, %q", other.Elsewhere(), other.Sewn(measure.Inch, "USD"))
	}
	want := "skirt is cut where that costs least in each row. Pieced within 35 in: as written; lawn width 50. P" +
		other.Places["skirt"][1:] + ": wool width 54."
	if said := r.Said(); !slices.Contains(said, want) {
		t.Errorf("said %q, want %q", said, want)
	}
}
