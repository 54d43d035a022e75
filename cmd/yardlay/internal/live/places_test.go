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
	f := testjobs.File(t, "job.toml", `unit = "in"
[body]
waist_girth = 28
hip_girth = 38
waist_to_hips = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "wool"
width = 58
price = "24.00/yd"
nap = "one-way"
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "wool"
gores = 6
length = 42
hem_sweep = 220
pieced = {}
`)
	k := open(t, Options{Search: Search{Effort: nest.Trial}, Workers: 1})
	k.Show(f)
	s := until(t, k, "the laid job", func(s Snapshot) bool { return s.Final })
	if s.File != f || f.Job().Parts[0].Place.Within == 0 {
		t.Errorf("the job on the desk: %+v", f.Job().Parts[0].Place)
	}
	if !slices.ContainsFunc(s.Report.Remarks, func(r string) bool { return strings.Contains(r, "skirt: pieced within") }) {
		t.Errorf("remarks: %q", s.Report.Remarks)
	}
	if n := s.Report.Cloths[0].Pieces; n != 16 {
		t.Errorf("%d pieces are laid, want 16", n)
	}
}
