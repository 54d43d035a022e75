package live

import (
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// A job that leaves open where its corners are cut off lies on the desk with the place chosen: the file says it to all
// that draw by it, and the report tells it.
func TestPlacesOfCutsAreChosenOnTheDesk(t *testing.T) {
	f := testjobs.File(t, "job.toml", testjobs.PiecedSkirt(70, "sold_by = \"1/2 yd\"\n", 2, 20, 100, ""))
	k := open(t, Options{Search: Search{Effort: nest.Trial}, Workers: 1})
	k.Show(f)
	s := until(t, k, "the laid job", func(s Snapshot) bool { return s.Final })
	if s.File != f || f.Job().Parts[0].Place.Within == 0 {
		t.Errorf("the job on the desk: %+v", f.Job().Parts[0].Place)
	}
	if !slices.ContainsFunc(s.Report.Remarks, func(r string) bool { return strings.Contains(r, "skirt: pieced within") }) {
		t.Errorf("remarks: %q", s.Report.Remarks)
	}
	if n := s.Report.Cloths[0].Pieces; n != 4 {
		t.Errorf("%d pieces are laid, want 4", n)
	}
}
