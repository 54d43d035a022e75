package job

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// allPieces are those that the examples of all drafts draw.
func allPieces(t *testing.T) (all []shapes.Piece) {
	for _, d := range drafts {
		f, err := Example(d.name)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range f.Job().Parts[0].Layers {
			made, err := l.Drafted()
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range made.Pieces {
				if len(p.Cut) <= outline.MaxVertices {
					all = append(all, p)
				}
			}
		}
	}
	return all
}

// pulled is how far ends are pulled apart, mm: within the tolerance.
const pulled = 0.15

// inLines draws a ring as lines of a pen, cut at random corners, in any order and either way
// round, some of them twice, their ends a little apart.
func inLines(t *rapid.T, ring orb.Ring, marks outline.Marks, apart bool) (lines []outline.Line) {
	n := len(ring) - 1
	var cuts []int
	for range rapid.IntRange(1, min(6, n)).Draw(t, "cuts") {
		cuts = append(cuts, rapid.IntRange(0, n-1).Draw(t, "cut"))
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	for k, from := range cuts {
		to := cuts[(k+1)%len(cuts)]
		if to <= from {
			to += n
		}
		var line orb.LineString
		for i := from; i <= to; i++ {
			line = append(line, ring[i%n])
		}
		if apart && len(line) > 2 && plane.Length(line) > 20 {
			off := rapid.Float64Range(-pulled, pulled)
			line[0] = orb.Point{line[0][0] + off.Draw(t, "x"), line[0][1] + off.Draw(t, "y")}
		}
		if rapid.Bool().Draw(t, "back") {
			line.Reverse()
		}
		l := outline.Line{Points: line, Corners: []int{0, len(line) - 1}, Closed: line[0] == line[len(line)-1],
			Marks: marks}
		lines = append(lines, l)
		if rapid.IntRange(0, 4).Draw(t, "again") == 0 {
			l.Points = slices.Clone(line)
			l.Points.Reverse()
			lines = append(lines, l)
		}
	}
	return lines
}

// Our own pieces, drawn as a person would and taken apart into lines, come back as the shapes
// that they were: as many, in the same size, with both lines, notches and grain.
func TestOwnPiecesComeBack(t *testing.T) {
	pieces := allPieces(t)
	if len(pieces) < 60 {
		t.Fatalf("only %d pieces", len(pieces))
	}
	rapid.Check(t, func(t *rapid.T) {
		apart := rapid.Bool().Draw(t, "ends apart")
		sewn := rapid.Bool().Draw(t, "seam lines")
		called := rapid.Bool().Draw(t, "layers")
		var lines []outline.Line
		var drawn []shapes.Piece
		x := 0.
		for range rapid.IntRange(1, 4).Draw(t, "pieces") {
			p := pieces[rapid.IntRange(0, len(pieces)-1).Draw(t, "piece")]
			at := plane.Pose{At: orb.Point{x, rapid.Float64Range(-50, 50).Draw(t, "y")},
				Mirrored: rapid.Bool().Draw(t, "mirrored")}
			cut, seam := plane.SnapRing(at.Apply(p.Cut)), at.Apply(p.Seam)
			if x += p.Cut.Bound().Max[0] + 100; x > outline.MaxCoordinate {
				break
			}
			on := func(layer, colour string) outline.Marks {
				if called {
					return outline.Marks{Layer: layer}
				}
				return outline.Marks{Colour: colour}
			}
			lines = append(lines, inLines(t, cut, on("cut", "#000000"), apart)...)
			if both := allowed(p); sewn && both && called {
				lines = append(lines, inLines(t, seam, on("seam", "#008000"), apart)...)
			}
			for _, n := range p.Notches {
				a := at.ApplyPoint(n.At)
				b := at.ApplyPoint(orb.Point{n.At[0] - 3*n.Outward[0], n.At[1] - 3*n.Outward[1]})
				if called {
					lines = append(lines, outline.Line{Points: orb.LineString{a, b}, Corners: []int{0, 1},
						Marks: on("notches", "")})
				}
			}
			drawn = append(drawn, p)
		}
		order := make([]int, len(lines))
		for i := range order {
			order[i] = i
		}
		shuffled := make([]outline.Line, len(lines))
		for i, k := range rapid.Permutation(order).Draw(t, "order") {
			shuffled[i] = lines[k]
		}
		lines = shuffled
		for i := range lines {
			lines[i].Place = fmt.Sprintf("line %d", i+1)
		}
		a, err := outline.Assemble(outline.Drawing{Unit: outline.Unit{Millimetres: 1}, Lines: lines}, outline.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range a.Faults {
			if f.Kind.Stops() || f.Kind == outline.Stray {
				t.Fatalf("%v: %v", f.Kind, f.Error())
			}
		}
		if len(a.Shapes) != len(drawn) {
			t.Fatalf("%d shapes of %d pieces", len(a.Shapes), len(drawn))
		}
		slices.SortFunc(a.Shapes, func(p, q outline.Shape) int {
			return int(p.Ring().Bound().Min[0] - q.Ring().Bound().Min[0])
		})
		for i, s := range a.Shapes {
			sameShape(t, s, drawn[i], apart, sewn && called && allowed(drawn[i]), called)
		}
	})
}

// allowed says whether a piece has a seam line that is not the cut line, and lies within it.
func allowed(p shapes.Piece) bool {
	for _, e := range p.Edges {
		if e.Allowance < 1 {
			return false
		}
	}
	return true
}

func sameShape(t *rapid.T, s outline.Shape, p shapes.Piece, apart, both, notched bool) {
	t.Helper()
	slack := .002
	if apart {
		slack += pulled
	}
	cut := s.Ring()
	if both {
		if s.Outline != outline.SeamLine || s.Cut == nil {
			t.Fatalf("%s: its seam line is not found", p.Name)
		}
		if d := math.Abs(plane.Area(s.Ring()) - plane.Area(p.Seam)); d > slack*plane.Length(p.Seam) {
			t.Fatalf("%s: within the seam line %g, was %g", p.Name, plane.Area(s.Ring()), plane.Area(p.Seam))
		}
		cut = s.Cut
	} else if s.Cut != nil || s.Outline != outline.CutLine {
		t.Fatalf("%s has %v and %d", p.Name, s.Outline, len(s.Cut))
	}
	if d := math.Abs(plane.Area(cut) - plane.Area(p.Cut)); d > slack*plane.Length(p.Cut) {
		t.Fatalf("%s covers %g, was %g", p.Name, plane.Area(cut), plane.Area(p.Cut))
	}
	if err := plane.CheckSimple(plane.Tidy(cut)); err != nil {
		t.Fatalf("%s: %v", p.Name, err)
	}
	if !notched {
		return
	}
	var at []orb.Point
	for _, n := range p.Notches {
		if !slices.ContainsFunc(at, func(o orb.Point) bool { return planar.Distance(o, n.At) < .05 }) {
			at = append(at, n.At)
		}
	}
	if len(s.Notches) != len(at) {
		t.Fatalf("%s: %d notches of %d", p.Name, len(s.Notches), len(at))
	}
}
