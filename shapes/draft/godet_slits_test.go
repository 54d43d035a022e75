package draft

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
)

// Where a godet is set in, both edges of its seam bear a line and a notch as far from the hem as it is
// long.
func TestSlitsOfGoredSkirts(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawGored(t)
		made, err := s.Draft()
		if err != nil {
			t.Skip(err)
		}
		g := Godet{Length: 0.3 * (s.Length - s.HemRaise), Hem: 100}
		_, n, err := g.slits(Slits{Of: s})
		if err != nil {
			t.Skip(err)
		}
		drawn++
		g.Count = n
		if err := g.Into(Slits{Of: s}); err != nil {
			t.Fatal(err)
		}
		pieces := made.ToMark()
		if err := g.MarkInto(Slits{Of: s}, pieces); err != nil {
			t.Fatal(err)
		}
		lines := 0
		for i, p := range pieces {
			for _, name := range p.Names[len(made.Pieces[i].Names):] {
				foot := p.Inside[name.Line][0]
				for k, e := range p.Edges {
					at, ok := e.Along(foot)
					if !ok || e.Kind != shapes.Seam {
						continue
					}
					if p.Edges[(k+1)%len(p.Edges)].Kind == shapes.Hem {
						at = e.Length() - at
					}
					near(t, p.Name+" "+e.Name, at, g.Length, 1e-3)
					lines++
				}
			}
		}
		sides := 0
		for _, j := range made.Joins {
			if j.Times == 2 {
				sides += 2
			}
		}
		if lines < sides/2 || lines > sides { // gores that are alike bear those of several seams
			t.Errorf("%d lines on %d edges", lines, sides)
		}
	})
	if least := often.Enough(40); drawn < least {
		t.Errorf("only %d skirts could be slit, want %d", drawn, least)
	}
}

func TestSlitsRefuse(t *testing.T) {
	s := CircleSkirt{Waist: 700, Length: 600, Fraction: 0.5, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 10, Hem: 25}}
	cape := Cape{Neck: 400, Length: 500, Fraction: 0.5}
	for want, c := range map[string]struct {
		g Godet
		s Slits
	}{
		`there is no seam "hip" to set a godet into`:   {Godet{Length: 200}, Slits{Of: s, Seams: []string{"hip"}}},
		"a godet 590.0 mm long leaves 10.0 mm of it":   {Godet{Length: 590, Count: 2}, Slits{Of: s}},
		"there are 7, and the seams of the skirt take": {Godet{Length: 200, Count: 7}, Slits{Of: s}},
		"does not run to the hem":                      {Godet{Length: 50}, Slits{Of: lanternBlock()}},
		"it has no seam for a godet":                   {Godet{Length: 50}, Slits{Of: cape}},
	} {
		if err := c.g.Into(c.s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
