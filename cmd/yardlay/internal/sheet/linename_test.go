package sheet

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/measure"
)

// Each named line of a piece has its name beside it, which no line and no other text
// meets; where lines leave no room for the larger letters smaller ones are taken, and a
// name that has none is left out.
func TestNamesOfLinesStandBesideThem(t *testing.T) {
	for _, c := range []struct {
		apart float64 // mm
		lines int
		names int
	}{{100, 4, 4}, {30, 12, 12}, {2, 20, 2}} {
		o := gore(0, 0)
		for i := range c.lines {
			x := 300 + c.apart*float64(i)
			half := 60 + 0.21*x
			o.Names = append(o.Names, LineName{len(o.Inside), fmt.Sprintf("net %d", i+1)})
			o.Inside = append(o.Inside, orb.LineString{{x - 20, 300 - half}, {x, 300}, {x - 20, 300 + half}})
		}
		d := Pieces{Title: "satin", Unit: measure.Inch,
			Pieces: []Pattern{{Name: "gore", Outline: o, Along: 900, Across: 580}}}.Drawing()
		if s := clash(d) + struck(d); s != "" {
			t.Errorf("%g mm apart: %s", c.apart, s)
		}
		found := 0
		for _, g := range d.Groups {
			var inside []orb.LineString
			for _, it := range g.Items {
				if l, ok := it.(Line); ok && l.Role == RoleInside {
					inside = append(inside, l.Path)
				}
			}
			for _, it := range g.Items {
				text, ok := it.(Text)
				var n int
				if _, err := fmt.Sscanf(text.Body, "net %d", &n); !ok || err != nil {
					continue
				}
				found++
				own := planar.DistanceFrom(inside[n-1], text.At)
				for i, l := range inside {
					if i != n-1 && planar.DistanceFrom(l, text.At) < own {
						t.Errorf("%g mm apart: %q stands nearer to line %d", c.apart, text.Body, i+1)
					}
				}
			}
		}
		if found != c.names {
			t.Errorf("%g mm apart: %d of %d names", c.apart, found, c.lines)
		}
	}
}
