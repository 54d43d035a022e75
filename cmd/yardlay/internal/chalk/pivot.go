package chalk

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// pivot is a place that a string turns about, chosen for arcs about one centre.
type pivot struct {
	centre orb.Point // before rounding
	at     Place
}

const (
	oneCentre = 4.0  // mm that the centres of arcs lie apart at the most which one pivot may serve
	reachMark = 2    // marks from the centre up to which a pivot is looked for
	ownShare  = 0.85 // of the tolerance that the own radius of an arc may stray
	longShare = 0.9  // of the tolerance that may be used up before a pivot for one arc alone is better
)

// findPivots looks for one pivot for all arcs of a piece about one centre: waist and hem
// of a gore, before and after its allowances.
func (w *writer) findPivots(sections []section) {
	var groups [][]section
	for _, s := range sections {
		if s.kind != arc && s.kind != whole {
			continue
		}
		found := false
		for i, g := range groups {
			if distance(g[0].circle.centre, s.circle.centre) <= oneCentre {
				groups[i], found = append(g, s), true
				break
			}
		}
		if !found {
			groups = append(groups, []section{s})
		}
	}
	for _, g := range groups {
		at, worst := w.tape.pivot(g)
		if len(g) > 1 && worst > longShare*w.tape.Tolerance() {
			for _, s := range g {
				alone, _ := w.tape.pivot([]section{s})
				w.shared = append(w.shared, pivot{s.circle.centre, alone})
			}
			continue
		}
		for _, s := range g {
			w.shared = append(w.shared, pivot{s.circle.centre, at})
		}
	}
}

// pivot returns the place near the centre of arcs about which strings of whole marks stay
// near enough to them, and how far they stray, mm: the nearest one that does with the
// strings that the arcs have, or else the one that strays least. So pieces that are alike
// have the same strings wherever they lie.
func (t Tape) pivot(arcs []section) (at Place, worst float64) {
	var middle orb.Point
	for _, s := range arcs {
		middle[0] += s.circle.centre[0] / float64(len(arcs))
		middle[1] += s.circle.centre[1] / float64(len(arcs))
	}
	first := t.round(middle)
	var tries []Place
	for dx := Marks(-reachMark); dx <= reachMark; dx++ {
		for dy := Marks(-reachMark); dy <= reachMark; dy++ {
			tries = append(tries, Place{first[0] + dx, first[1] + dy})
		}
	}
	slices.SortStableFunc(tries, func(a, b Place) int {
		return cmp.Compare(distance(t.point(a), middle), distance(t.point(b), middle))
	})
	strays := func(try Place) float64 {
		off := 0.0
		for _, s := range arcs {
			off = math.Max(off, circle{t.point(try), t.MM(t.radius(try, s))}.strays(s.line))
		}
		return off
	}
	worst = math.Inf(1)
	for _, try := range tries {
		if off := strays(try); off < worst-1e-9 {
			if at, worst = try, off; worst <= ownShare*t.Tolerance() {
				break
			}
		}
	}
	return at, worst
}

// radius returns the string for an arc about a pivot: its own, to the nearest mark, or the
// one that stays nearest to it where that strays too far.
func (t Tape) radius(at Place, s section) Marks {
	c := t.point(at)
	own := t.Round(s.circle.radius)
	if (circle{c, t.MM(own)}).strays(s.line) <= ownShare*t.Tolerance() {
		return own
	}
	least, most := away(s.line, c)
	return t.Round((least + most) / 2)
}

// about returns the pivot of a section, and whether it lies on the cloth.
func (w *writer) about(s section) (Place, bool) {
	for _, p := range w.shared {
		if p.centre == s.circle.centre {
			return p.at, w.cloth.Contains(w.tape.point(p.at))
		}
	}
	return Place{}, false
}

// circle draws a whole circle.
func (w *writer) circle(s section) (drawn, bool) {
	d := drawn{Stroke: Stroke{Kind: Circle}, line: s.line}
	on := false
	if d.pivot, on = w.about(s); !on {
		return d, false
	}
	d.Radius = w.tape.radius(d.pivot, s)
	return d, w.holds(d)
}

// arcs draws an arc about a pivot on the cloth, in parts of which the short way round is
// plain to see; else off straight lines.
func (w *writer) arcs(s section) []drawn {
	at, on := w.about(s)
	parts := s.parts(int(math.Ceil(s.circle.turn(s.line) / widestArc)))
	var all []drawn
	for _, part := range parts {
		d := w.begin(part, Arc)
		d.pivot = at
		d.Radius = w.tape.radius(at, s)
		if on && d.Radius > 0 && w.holds(d) {
			all = append(all, d)
			continue
		}
		for _, gentle := range part.gentle() {
			all = append(all, w.measured(gentle)...)
		}
	}
	return all
}

// parts cuts a section at vertices into n parts that are about as long.
func (s section) parts(n int) []section {
	var all []section
	whole, so, from := plane.Length(s.line), 0.0, 0
	for i := 1; i < len(s.line)-1; i++ {
		so += distance(s.line[i-1], s.line[i])
		if so >= whole*float64(len(all)+1)/float64(n) {
			all = append(all, section{s.kind, s.line[from : i+1], s.circle})
			from = i
		}
	}
	return append(all, section{s.kind, s.line[from:], s.circle})
}
