package job_test

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
)

// What is open of where a part is pieced: a width that is not said, but beside a length, and each that is said to be
// chosen, beside a figure of the other, too.
func TestWhatIsOpenOfAPlace(t *testing.T) {
	src := testjobs.PiecedSkirt(45, "", 4, 26, 120, "")
	for keys, open := range map[string][2]bool{ // along and across the grain
		"": {true, false}, "within = \"40\"": {}, "length = \"30\"": {}, "length = \"chosen\"": {true, true},
		"within = \"chosen\"": {true, false}, "within = \"chosen\", length = \"30\"": {true, false},
		"within = \"40\", length = \"chosen\"": {false, true}, "within = \"chosen\", length = \"chosen\"": {true, true},
	} {
		j := testjobs.Read(t, strings.Replace(src, "pieced = {}", "pieced = { "+keys+" }", 1))
		if at := j.Parts[0].Place; [2]bool{at.Along, at.Across} != open {
			t.Errorf("%q: %+v, want open %v", keys, at, open)
		}
		if got := len(j.PlacesOpen()); got > 0 != (open != [2]bool{}) {
			t.Errorf("%q: %d parts are open", keys, got)
		}
	}
}
