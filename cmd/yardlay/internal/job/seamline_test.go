package job

import (
	"testing"

	"github.com/paulmach/orb/planar"
)

// TestSeamLinesLieWithin: no seam line of any draft runs outside the line it is cut by.
func TestSeamLinesLieWithin(t *testing.T) {
	const nearest = 0.005 // mm: cut lines are rounded to the lattice
	for _, d := range families(t) {
		for _, p := range d.made.Pieces {
			for _, v := range p.Seam {
				if !planar.RingContains(p.Cut, v) && planar.DistanceFrom(p.Cut, v) > nearest {
					t.Errorf("%s, %s: the seam line at %v lies %.3f mm outside the cut line", d.name, p.Name, v,
						planar.DistanceFrom(p.Cut, v))
				}
			}
		}
	}
}
