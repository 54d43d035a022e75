package sheet

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Everything on the sheet lies on it, in rows, with its name and its flaws.
func TestShelf(t *testing.T) {
	s := Shelf{Title: "moon-satin", Unit: measure.Centimetre}
	for _, name := range []string{"moon-satin 1", "moon-satin 2", "moon-satin 3", "moon-satin 4"} {
		s.Left = append(s.Left, Left{Name: name, Notes: []string{"90.0 cm x 40.0 cm"},
			Ring:  orb.Ring{{50, 20}, {950, 20}, {50, 420}, {50, 20}},
			Flaws: []orb.Ring{{{60, 30}, {90, 30}, {90, 60}, {60, 30}}}})
	}
	d := s.Drawing()
	on := orb.Bound{Max: orb.Point{d.Width, d.Height}}
	flaws := 0
	for _, g := range d.Groups {
		for _, i := range g.Items {
			if shape, ok := i.(Shape); ok {
				if shape.Role == RoleFlaw {
					flaws++
				}
				for _, v := range shape.Ring {
					if !on.Contains(v) {
						t.Errorf("%v lies off the sheet of %v", v, on.Max)
					}
				}
			}
		}
	}
	svg, err := d.SVG()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range s.Left {
		if !strings.Contains(string(svg), l.Name) {
			t.Errorf("%s is not named", l.Name)
		}
	}
	if flaws != 4 {
		t.Errorf("%d flaws, want 4", flaws)
	}
}
