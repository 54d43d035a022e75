package plan

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
)

// What cannot be drafted is told once for a part: its lining and its facing follow from it.
// Another part is told for itself.
func TestPartIsRefusedOnce(t *testing.T) {
	part := func(name string) string {
		return "[[part]]\nname = \"" + name + "\"\ndraft = \"bodice-block\"\ncloth = [\"satin\", \"lawn\"]\n" +
			"facings = [ { at = \"neck\" } ]\n"
	}
	_, err := Draw(testjobs.Read(t, `unit = "in"
[body]
standard = "US misses 14"
estimate = true
armhole_depth = 15
[allowance]
seam = 1
hem = 1
[[cloth]]
id = "satin"
width = 60
[[cloth]]
id = "lawn"
width = 60
`+part("bodice")+part("jacket")))
	if err == nil {
		t.Fatal("it is drafted")
	}
	for _, name := range []string{"`bodice`", "`jacket`"} {
		if n := strings.Count(err.Error(), name); n != 1 {
			t.Errorf("%s is refused %d times: %v", name, n, err)
		}
	}
}
