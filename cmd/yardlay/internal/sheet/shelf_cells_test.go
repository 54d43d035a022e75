package sheet

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// Each leftover is drawn at its size, with its flaws where they are in it, its name and notes over it and the arrow of
// its grain below; cells keep off each other and to the page, over the bar of the scale.
func TestLeftoversHaveACellEach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Shelf{Title: "moon-satin", Unit: measure.Inch}
		for i := range rapid.IntRange(1, 7).Draw(t, "left") {
			x, y := rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")
			w, h := rapid.Float64Range(20, 3000).Draw(t, "long"), rapid.Float64Range(20, 1500).Draw(t, "wide")
			s.Left = append(s.Left, Left{Name: fmt.Sprint("rest ", i+1), Notes: []string{fmt.Sprint("from gown ", i+1), "faded"},
				Ring:  orb.Ring{{x, y}, {x + w, y}, {x + w/2, y + h}, {x, y}},
				Flaws: []orb.Ring{{{x + w/2, y + h/8}, {x + 0.6*w, y + h/8}, {x + w/2, y + h/4}, {x + w/2, y + h/8}}}})
		}
		d := s.Drawing()
		if words := clash(d); words != "" {
			t.Fatal(words)
		}
		if len(d.Groups) != len(s.Left)+2 || d.Title != "Shelf: moon-satin" ||
			d.Description != fmt.Sprintf("What is left: %d outlines.", len(s.Left)) {
			t.Fatalf("%d groups, %q, %q", len(d.Groups), d.Title, d.Description)
		}
		page := orb.Bound{Min: orb.Point{8 * d.Scale, 8 * d.Scale}, Max: orb.Point{d.Width - 8*d.Scale, d.Height - 8*d.Scale}}
		var cells []orb.Bound
		for i, l := range s.Left {
			g := d.Groups[i+1]
			var cell orb.Bound
			var first, flaw orb.Ring
			var arrow orb.LineString
			said := ""
			for k, it := range g.Items {
				var box orb.Bound
				switch it := it.(type) {
				case Shape:
					if box = it.Ring.Bound(); it.Role == RoleCloth {
						first = it.Ring
					} else if it.Role == RoleFlaw {
						flaw = it.Ring
					}
				case Line:
					if box = it.Path.Bound(); it.Role == RoleGrain {
						arrow = it.Path
					}
				case Text:
					box = textBox(it).Bound()
					said += it.Body + "; "
					if first != nil {
						t.Fatalf("%q stands below the outline", it.Body)
					}
				}
				if cell = cell.Union(box); k == 0 {
					cell = box
				}
			}
			if want := l.Name + "; " + l.Notes[0] + "; faded; "; said != want || g.Title != l.Name {
				t.Fatalf("a cell says %q, not %q", said, want)
			}
			for k, rings := range [][2]orb.Ring{{l.Ring, first}, {l.Flaws[0], flaw}} {
				for n, v := range rings[0] {
					want := orb.Point{first[0][0] + v[0] - l.Ring[0][0], first[0][1] - v[1] + l.Ring[0][1]}
					if got := rings[1][n]; math.Hypot(got[0]-want[0], got[1]-want[1]) > 1e-6 {
						t.Fatalf("corner %d of ring %d is drawn at %v, not at %v", n, k, got, want)
					}
				}
			}
			low := first.Bound()
			if len(arrow) != 2 || arrow[0][1] != arrow[1][1] || math.Abs(arrow[1][0]-arrow[0][0]-12*d.Scale) > 1e-6 ||
				math.Abs(arrow[0][1]-low.Max[1]-3*d.Scale) > 1e-6 || math.Abs(arrow[0][0]-low.Min[0]) > 1e-6 {
				t.Fatalf("its grain is %v below %v", arrow, low)
			}
			if !page.Pad(1e-6).Contains(cell.Min) || !page.Pad(1e-6).Contains(cell.Max) {
				t.Fatalf("cell %d at %v leaves the page of %v", i, cell, page)
			}
			for _, other := range cells {
				if other.Pad(d.Scale).Intersects(cell) {
					t.Fatalf("cell %d at %v comes near %v", i, cell, other)
				}
			}
			cells = append(cells, cell)
		}
		for _, it := range d.Groups[len(d.Groups)-1].Items {
			if l, ok := it.(Line); ok {
				for _, c := range cells {
					if c.Intersects(l.Path.Bound()) {
						t.Fatalf("the scale at %v lies on %v", l.Path, c)
					}
				}
			}
		}
	})
}
