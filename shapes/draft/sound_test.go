package draft

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// soundGore holds what sound does and what pieces with curved, notched edges
// promise besides: a tidy cut line, an area that two sums agree on, edges that
// meet, notches on their edges, a grain arrow inside, a label a copy or none.
func soundGore(t failer, p shapes.Piece) {
	t.Helper()
	sound(t, p)
	if len(plane.Tidy(p.Cut)) != len(p.Cut) {
		t.Errorf("%s: cut line is not tidy", p.Name)
	}
	if slow := areaByStrips(p.Cut); math.Abs(slow-p.Area()) > 1e-6*p.Area() {
		t.Errorf("%s: area %.3f, by strips %.3f", p.Name, p.Area(), slow)
	}
	soundGrain(t, p)
	if len(p.Labels) != 0 && len(p.Labels) != p.Count {
		t.Errorf("%s: %d labels for %d copies", p.Name, len(p.Labels), p.Count)
	}
	for i, e := range p.Edges {
		next := p.Edges[(i+1)%len(p.Edges)].Line[0]
		if end := e.Line[len(e.Line)-1]; math.Hypot(end[0]-next[0], end[1]-next[1]) > 1e-6 {
			t.Errorf("%s: edge %q does not meet the next", p.Name, e.Name)
		}
	}
	for _, n := range p.Notches {
		e, ok := p.Edge(n.Edge)
		if !ok || fromStart(e, n.At) < 0 {
			t.Errorf("%s: notch at %v is not on edge %q", p.Name, n.At, n.Edge)
		}
	}
}

// fromStart returns how far along an edge a point on it lies, or -1.
func fromStart(e shapes.Edge, p orb.Point) float64 {
	sum := 0.0
	for i := 1; i < len(e.Line); i++ {
		a, b := e.Line[i-1], e.Line[i]
		whole := math.Hypot(b[0]-a[0], b[1]-a[1])
		first, second := math.Hypot(p[0]-a[0], p[1]-a[1]), math.Hypot(b[0]-p[0], b[1]-p[1])
		if first+second-whole < 1e-9 {
			return sum + first
		}
		sum += whole
	}
	return -1
}

// areaByStrips sums signed trapezia between the ring and the x axis.
func areaByStrips(r orb.Ring) float64 {
	sum := 0.0
	for i := 1; i < len(r); i++ {
		sum += (r[i-1][0] - r[i][0]) * (r[i-1][1] + r[i][1]) / 2
	}
	return sum
}

// soundGrain holds the arrow to run along +x inside the seam line.
func soundGrain(t failer, p shapes.Piece) {
	t.Helper()
	if len(p.Grain) != 2 || p.Grain[0][1] != p.Grain[1][1] || p.Grain[0][0] >= p.Grain[1][0] {
		t.Fatalf("%s: grain arrow %v", p.Name, p.Grain)
	}
	for i := 1; i < len(p.Seam); i++ {
		if plane.SegmentsMeet(p.Grain[0], p.Grain[1], p.Seam[i-1], p.Seam[i]) {
			t.Errorf("%s: grain arrow %v crosses the seam line at %v", p.Name, p.Grain, p.Seam[i])
		}
	}
}

// matchSeams holds that both sides of each seam are equally long, with notches
// at the same distances from the waist.
func matchSeams(t failer, pieces []shapes.Piece, gores int, doubleFront bool) {
	t.Helper()
	seams := map[int][]seamSide{}
	for i, place := range places(gores, doubleFront) {
		for _, e := range pieces[i].Edges {
			if e.Kind != shapes.Seam && e.Kind != shapes.Opening {
				continue
			}
			at := place.back
			if e.Name == "front seam" || e.Name == "centre front" {
				at++
			}
			seams[at] = append(seams[at], newSeamSide(pieces[i], e))
		}
	}
	for at, sides := range seams {
		first := sides[0]
		if len(first.notches) == 0 {
			t.Errorf("seam %d has no notch", at)
		}
		for _, s := range sides[1:] {
			if d := math.Abs(s.length - first.length); d > 1e-6+DefaultChord {
				t.Errorf("seam %d: one side is %.6f longer", at, d)
			}
			if len(s.notches) != len(first.notches) {
				t.Fatalf("seam %d has notches at %v and %v", at, s.notches, first.notches)
			}
			for i, n := range s.notches {
				if math.Abs(n-first.notches[i]) > 1e-6+DefaultChord {
					t.Errorf("seam %d has notches at %v and %v", at, s.notches, first.notches)
				}
			}
		}
	}
}

// seamSide is one of the edges of a seam.
type seamSide struct {
	length  float64
	notches []float64 // distances from the waist, mm
}

func newSeamSide(p shapes.Piece, e shapes.Edge) seamSide {
	s := seamSide{length: e.Length()}
	at := slices.IndexFunc(p.Edges, func(o shapes.Edge) bool { return o.Name == e.Name })
	before := p.Edges[(at+len(p.Edges)-1)%len(p.Edges)]
	for _, n := range p.Notches {
		if n.Edge != e.Name {
			continue
		}
		d := fromStart(e, n.At)
		if before.Kind == shapes.Hem {
			d = s.length - d
		}
		s.notches = append(s.notches, d)
	}
	slices.Sort(s.notches)
	return s
}
