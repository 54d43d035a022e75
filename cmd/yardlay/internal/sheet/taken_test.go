package sheet

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// someTaken draws a drawing made elsewhere: pieces in a row with lines in them, some lines beside, some faults.
func someTaken(t *rapid.T) Taken {
	d := Taken{Title: "what was drawn", Unit: measure.Inch, Notes: []string{"1 unit is 1 mm"}}
	roles := []Role{RoleSeam, RoleGrain, RoleFold, RoleNotch, RoleDart, RoleInside}
	x := rapid.Float64Range(-500, 500).Draw(t, "x")
	for n := range rapid.IntRange(1, 5).Draw(t, "pieces") {
		w, h := rapid.Float64Range(40, 700).Draw(t, "w"), rapid.Float64Range(40, 900).Draw(t, "h")
		ring := orb.Ring{{x, 0}, {x + w, h / 9}, {x + w, h}, {x, h}, {x, 0}}
		d.Pieces = append(d.Pieces, TakenPiece{n + 1, fmt.Sprintf("part %d", n+1), ring})
		d.Lines = append(d.Lines, TakenLine{RoleEdge, n + 1, orb.LineString(ring)})
		for range rapid.IntRange(0, 2).Draw(t, "lines") {
			d.Lines = append(d.Lines, TakenLine{rapid.SampledFrom(roles).Draw(t, "role"), n + 1,
				orb.LineString{{x + w/4, h / 2}, {x + w/2, h / 2}}})
		}
		if rapid.Bool().Draw(t, "fault") {
			d.Faults = append(d.Faults, TakenFault{len(d.Faults) + 1, n + 1, orb.Point{x + w, h}, "an end is joined"})
		}
		x += w + 60
	}
	if rapid.Bool().Draw(t, "beside") {
		d.Lines = append(d.Lines, TakenLine{RoleLeftOut, 0, orb.LineString{{x, 0}, {x + 30, 40}}})
		d.Faults = append(d.Faults, TakenFault{len(d.Faults) + 1, 0, orb.Point{x, 0}, "a line is left out"})
	}
	return d
}

// Lines are drawn where they lie, in their size with y up, each in its role; the key explains the roles that occur
// and no others; the number of a piece stands in it; a ring lies around each fault, which the foot says in words.
func TestTakenDrawings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := someTaken(t)
		drawing := d.Drawing()
		all := drawnOf(drawing)
		var origin orb.Point // of the drawing, by the first line
		first := slices.IndexFunc(all.lines, func(l Line) bool { return l.Role == RoleEdge && len(l.Path) == 5 })
		origin = orb.Point{all.lines[first].Path[0][0] - d.Lines[0].Path[0][0],
			all.lines[first].Path[0][1] + d.Lines[0].Path[0][1]}
		at := func(p orb.Point) orb.Point { return orb.Point{origin[0] + p[0], origin[1] - p[1]} }
		roles := map[Role]bool{}
		for k, l := range d.Lines {
			got := all.lines[first+k]
			roles[l.Role] = true
			if got.Role != l.Role || len(got.Path) != len(l.Path) {
				t.Fatalf("line %d is drawn as %+v", k, got)
			}
			for i, p := range l.Path {
				if planar.Distance(at(p), got.Path[i]) > 1e-6 {
					t.Fatalf("%v is drawn at %v", p, got.Path[i])
				}
			}
		}
		for _, s := range takenSigns {
			said := slices.ContainsFunc(all.texts, func(x Text) bool { return x.Body == s.what })
			if said != roles[s.role] {
				t.Fatalf("%q is explained: %v", s.what, said)
			}
		}
		for _, p := range d.Pieces {
			i := slices.IndexFunc(all.texts, func(x Text) bool {
				return x.Role == RoleHeading &&
					x.Body == fmt.Sprint(p.Number)
			})
			ring := make(orb.Ring, len(p.Ring))
			for k, q := range p.Ring {
				ring[k] = at(q)
			}
			for _, corner := range textBox(all.texts[i]) {
				if !planar.RingContains(ring, corner) {
					t.Fatalf("number %d stands at %v, beyond %v", p.Number, all.texts[i].At, ring)
				}
			}
		}
		for _, f := range d.Faults {
			around := slices.ContainsFunc(all.lines, func(l Line) bool {
				return l.Role == RoleFault && planar.Distance(l.Path.Bound().Center(), at(f.At)) < 1e-6 &&
					planar.Distance(l.Path[0], at(f.At)) < 5*drawing.Scale
			})
			said := fmt.Sprintf("%d: %s", f.Number, f.What)
			if !around || !slices.ContainsFunc(all.texts, func(x Text) bool { return x.Body == said }) {
				t.Fatalf("fault %q, a ring around it: %v", said, around)
			}
		}
		for _, l := range all.lines {
			b := l.Path.Bound()
			if l.Role != RoleFault && (b.Min[0] < margin*drawing.Scale-1e-6 || b.Min[1] < margin*drawing.Scale-1e-6 ||
				b.Max[0] > drawing.Width-margin*drawing.Scale+1e-6 || b.Max[1] > drawing.Height) {
				t.Fatalf("%v lies beyond the page of %g by %g", b, drawing.Width, drawing.Height)
			}
		}
	})
}

// What is finer than a tenth of a mm on paper is drawn with fewer points, but never loses its end.
func TestTakenLinesAreThinned(t *testing.T) {
	var fine orb.LineString
	for i := range 1001 {
		fine = append(fine, orb.Point{float64(i) / 100, 0})
	}
	d := Taken{Lines: []TakenLine{{RoleEdge, 0, fine}}}.Drawing()
	for _, l := range drawnOf(d).lines {
		if l.Role != RoleEdge || l.Path[0][1] != l.Path[1][1] || len(l.Path) == 2 {
			continue
		}
		if n := len(l.Path); n > 110 || n < 90 || l.Path[n-1][0]-l.Path[0][0] != 10 {
			t.Errorf("%d points from %v to %v", n, l.Path[0], l.Path[n-1])
		}
		return
	}
	t.Error("the line is not drawn")
}

// Moved apart, a piece takes what belongs to it along, and what belongs to none goes; nothing else changes.
func TestMoveTakesAPieceWithAllOfIt(t *testing.T) {
	d := Taken{Lines: []TakenLine{{RoleEdge, 1, orb.LineString{{0, 0}, {9, 0}}}, {RoleGrain, 2,
		orb.LineString{{5, 5}, {6, 5}}},
		{RoleLeftOut, 0, orb.LineString{{50, 50}, {60, 50}}}}, Pieces: []TakenPiece{{1, "a", Box(0, 0, 9, 9)},
		{2, "b", Box(4, 4, 8, 8)}},
		Faults: []TakenFault{{1, 2, orb.Point{4, 4}, "x"}, {2, 0, orb.Point{50, 50}, "y"}}}
	d.Move(map[int]orb.Point{1: {100, 0}, 2: {0, -10}})
	want := Taken{Lines: []TakenLine{{RoleEdge, 1, orb.LineString{{100, 0}, {109, 0}}}, {RoleGrain, 2,
		orb.LineString{{5, -5}, {6, -5}}}},
		Pieces: []TakenPiece{{1, "a", Box(100, 0, 109, 9)}, {2, "b", Box(4, -6, 8, -2)}},
		Faults: []TakenFault{{1, 2, orb.Point{4, -6}, "x"}}}
	if diff := cmp.Diff(want, d); diff != "" {
		t.Error(diff)
	}
}

// The place for a number lies within a piece of any shape.
func TestInnerLiesWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		if ring := star(t); !planar.RingContains(ring, inner(ring)) {
			t.Fatalf("%v lies beyond %v", inner(ring), ring)
		}
	})
	horseshoe := orb.Ring{{0, 0}, {90, 0}, {90, 80}, {60, 80}, {60, 20}, {20, 20}, {20, 80}, {0, 80}, {0, 0}}
	if p := inner(horseshoe); !planar.RingContains(horseshoe, p) ||
		planar.DistanceFrom(orb.LineString(horseshoe), p) < 4 {
		t.Errorf("the number of a horseshoe stands at %v", p)
	}
}
