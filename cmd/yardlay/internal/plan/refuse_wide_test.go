package plan

import (
	"fmt"
	"regexp"
	"strconv"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// fewest finds in a hint how many pieces would fit the cloth.
var fewest = regexp.MustCompile(`(gores|sections) = ([0-9]+) makes each piece narrow enough`)

// What a hint says makes pieces narrow enough does, and no smaller number would have.
func TestFewestPiecesThatFit(t *testing.T) {
	hints := 0
	for _, c := range []struct {
		draft, keys, divided string
		from                 int // pieces that it is tried in first; 0: as many as it chooses
	}{
		{"gored-skirt", "waist = 28\nhip = 38\nhip_depth = 8\nlength = 40\nhem_sweep = 160", "gores", 4},
		{"flounce", "top = 72\nbottom = 180\ndepth = 24", "sections", 0},
		{"circle-skirt", "waist = 28\nlength = 30\ncircle = \"full\"", "gores", 2},
		{"cape", "neck = 16\nlength = 24\ncircle = \"full\"", "sections", 0},
	} {
		for width := 14; width <= 50; width += often.Full(18, 9) {
			refused := func(n int) error {
				src := fmt.Sprintf("unit = \"in\"\n[allowance]\nseam = \"1/2\"\nhem = 1\n[[cloth]]\nid = \"satin\"\n"+
					"width = %d\n[[part]]\nname = \"skirt\"\ndraft = %q\ncloth = \"satin\"\n%s\n", width, c.draft, c.keys)
				if n > 0 {
					src += fmt.Sprintf("%s = %d\n", c.divided, n)
				}
				_, err := Tasks(testjobs.File(t, "job.toml", src).Job(), 1)
				return err
			}
			err := refused(c.from)
			if err == nil {
				continue
			}
			m := fewest.FindStringSubmatch(err.Error())
			if m == nil {
				continue
			}
			hints++
			n, _ := strconv.Atoi(m[2])
			if again := refused(n); m[1] != c.divided || again != nil {
				t.Errorf("%s on %d in: the hint is %q, and then %v", c.draft, width, m[0], again)
			}
			if n-1 > max(c.from, 1) && refused(n-1) == nil {
				t.Errorf("%s on %d in: the hint is %q, and %d fit as well", c.draft, width, m[0], n-1)
			}
		}
	}
	if hints < 5 {
		t.Errorf("only %d hints", hints)
	}
}
