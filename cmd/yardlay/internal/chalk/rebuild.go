package chalk

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// NotchAt returns where a notch comes to lie that is drawn from its figures, mm: first along
// its stroke from the end that it is measured from.
func (t Tape) NotchAt(f Figures, n Notch) (orb.Point, bool) {
	if n.From < 0 {
		return t.point(n.At), true
	}
	if n.Distance == 0 {
		return t.point(f.Places[n.From]), true
	}
	s := f.Outline[n.Stroke]
	line := t.Path(f, s)
	if n.From == s.To {
		slices.Reverse(line)
	}
	centre, r := t.point(f.Places[n.From]), t.MM(n.Distance)
	for i := 1; i < len(line); i++ {
		near, far := distance(line[i-1], centre), distance(line[i], centre)
		if near <= r && r <= far && far > near {
			return between(line[i-1], line[i], (r-near)/(far-near)), true
		}
	}
	return orb.Point{}, false
}

// Path returns the line that a stroke draws, mm.
func (t Tape) Path(f Figures, s Stroke) []orb.Point {
	d := drawn{Stroke: s}
	if s.Kind != Circle {
		d.from, d.to = f.Places[s.From], f.Places[s.To]
	}
	if s.Kind == Arc || s.Kind == Circle {
		d.pivot = f.Pivots[s.Pivot]
	}
	return d.path(t)
}

// Rebuild returns the closed outline drawn from figures alone, mm.
func (t Tape) Rebuild(f Figures) orb.Ring {
	var ring orb.Ring
	for _, s := range f.Outline {
		for _, p := range t.Path(f, s) {
			if len(ring) == 0 || ring[len(ring)-1] != p {
				ring = append(ring, p)
			}
		}
	}
	if len(ring) > 0 && ring[0] != ring[len(ring)-1] {
		ring = append(ring, ring[0])
	}
	return ring
}

// chordError is how far chords may stray from an arc that is drawn in small or compared, mm.
const chordError = 0.01

// path is the line that the stroke draws.
func (d drawn) path(t Tape) []orb.Point {
	a, b, c := t.point(d.from), t.point(d.to), t.point(d.pivot)
	switch d.Kind {
	case Circle:
		return plane.Arc(c, t.MM(d.Radius), 0, 2*math.Pi, chordError)
	case Arc:
		from := math.Atan2(a[1]-c[1], a[0]-c[0])
		turn := math.Remainder(math.Atan2(b[1]-c[1], b[0]-c[0])-from, 2*math.Pi)
		line := append([]orb.Point{a}, plane.Arc(c, t.MM(d.Radius), from, from+turn, chordError)...)
		return append(line, b)
	case Off:
		length := distance(a, b)
		ux, uy := (b[0]-a[0])/length, (b[1]-a[1])/length
		line := []orb.Point{a}
		for k, off := range d.Off {
			along, right := t.MM(d.Step*Marks(k+1)), t.MM(off)
			line = append(line, orb.Point{a[0] + along*ux + right*uy, a[1] + along*uy - right*ux})
		}
		return append(line, b)
	}
	return []orb.Point{a, b}
}
