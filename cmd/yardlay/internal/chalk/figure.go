package chalk

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/say"
)

// MostPlaces is the most that one piece is drawn by: what takes more is drawn sooner
// from paper.
const MostPlaces = 400

// Figure puts an outline into figures. Cloth is what lies on the table: pivots stay on it.
func (t Tape) Figure(o Outline, cloth orb.Bound) (Figures, error) {
	w := writer{tape: t, cloth: cloth}
	groups := [][]section{read(o.Cut, o.First)}
	for _, in := range o.Inside {
		groups = append(groups, read(in.Line, nil))
	}
	w.findPivots(slices.Concat(groups...))
	for i, sections := range groups {
		var strokes []drawn
		for _, s := range sections {
			strokes = append(strokes, w.draw(s)...)
		}
		if i == 0 {
			w.outline = w.number(strokes, true)
		} else {
			w.Marks = append(w.Marks, Mark{o.Inside[i-1].Name, strokesOf(w.number(strokes, false))})
		}
		if len(w.Places) > MostPlaces {
			return Figures{}, say.Errorf("it takes more than %d points", MostPlaces)
		}
	}
	for i := range w.outline {
		if s := &w.outline[i]; s.Kind == Straight && alongFold(s.line, o.Fold) {
			s.Kind = OnFold
		}
	}
	w.Figures.Outline = strokesOf(w.outline)
	for _, n := range o.Notches {
		w.notch(n)
	}
	for _, p := range o.Points {
		w.Spots = append(w.Spots, Spot{p.Name, t.round(p.At)})
	}
	if off := apart(t.Rebuild(w.Figures), o.Cut, 2*t.Tolerance()); off > t.Tolerance() {
		return Figures{}, say.Errorf("what is drawn from its figures lies %.2f off", say.MM(off))
	}
	return w.Figures, nil
}

// drawn is a stroke with what it stands for.
type drawn struct {
	Stroke
	from, to Place
	pivot    Place
	line     []orb.Point
}

func strokesOf(all []drawn) []Stroke {
	var out []Stroke
	for _, d := range all {
		out = append(out, d.Stroke)
	}
	return out
}

// writer makes the figures of a piece.
type writer struct {
	Figures
	tape    Tape
	cloth   orb.Bound
	outline []drawn
	shared  []pivot // found before for arcs that have one centre
}

// number gives the ends of strokes that follow each other their numbers. Strokes too short
// for the tape are left out.
func (w *writer) number(strokes []drawn, closed bool) []drawn {
	kept := slices.DeleteFunc(slices.Clone(strokes), func(d drawn) bool { return d.Kind != Circle && d.from == d.to })
	if len(kept) == 0 {
		kept = strokes[:min(1, len(strokes))]
	}
	first := len(w.Places)
	for i := range kept {
		d := &kept[i]
		if d.Kind == Circle || d.Kind == Arc {
			d.Pivot = slices.Index(w.Pivots, d.pivot)
			if d.Pivot < 0 {
				d.Pivot, w.Pivots = len(w.Pivots), append(w.Pivots, d.pivot)
			}
		}
		if d.Kind == Circle {
			continue
		}
		w.Places = append(w.Places, d.from)
		d.From, d.To = len(w.Places)-1, len(w.Places)
		if i == len(kept)-1 {
			if closed || kept[0].from == d.to && len(kept) > 1 {
				d.To = first
			} else {
				w.Places = append(w.Places, d.to)
			}
		}
	}
	return kept
}

// draw makes strokes of a section that keep within the tolerance of it.
func (w *writer) draw(s section) []drawn {
	switch s.kind {
	case whole:
		if d, ok := w.circle(s); ok {
			return []drawn{d}
		}
		s.kind = arc
		fallthrough
	case arc:
		return w.arcs(s)
	case curve:
		var all []drawn
		for _, part := range s.gentle() {
			all = append(all, w.measured(part)...)
		}
		return all
	}
	return w.measured(s)
}

// begin is a stroke between the ends of a section.
func (w *writer) begin(s section, kind Kind) drawn {
	return drawn{Stroke: Stroke{Kind: kind}, line: s.line, from: w.tape.round(s.line[0]),
		to: w.tape.round(s.line[len(s.line)-1])}
}

// holds tells whether a stroke is near enough to what it stands for.
func (w *writer) holds(d drawn) bool {
	limit := w.tape.Tolerance()
	return apart(d.path(w.tape), d.line, limit) <= limit
}

// measured draws a section straight or, where that does not hold, by points off the
// straight line between its ends.
func (w *writer) measured(s section) []drawn {
	d := w.begin(s, Straight)
	if len(s.line) == 2 || w.holds(d) && (s.kind == straight || sagitta(s.line) <= flat) {
		return []drawn{d}
	}
	d.Kind = Off
	if s.kind == arc {
		d.Radius = w.tape.Round(s.circle.radius)
	}
	for _, step := range w.tape.steps() {
		d.Step, d.Off = step, w.tape.offsets(d.from, d.to, step, s.line)
		if len(d.Off) > 0 && w.holds(d) {
			return []drawn{d}
		}
	}
	a, b := s.split()
	return append(w.measured(a), w.measured(b)...)
}

// flat is how far a curve may stray from a straight line, mm, to be drawn as one: what
// bends by more looks like a string of corners.
const flat = 0.5

// sagitta is how far a line strays from its chord.
func sagitta(line []orb.Point) float64 {
	most := 0.0
	for _, p := range line {
		most = math.Max(most, planar.DistanceFromSegment(line[0], line[len(line)-1], p))
	}
	return most
}

// offsets are how far a line lies to the right of the straight one between two places,
// at each step along that.
func (t Tape) offsets(from, to Place, step Marks, line []orb.Point) []Marks {
	a, b := t.point(from), t.point(to)
	length := distance(a, b)
	if length == 0 {
		return nil
	}
	ux, uy := (b[0]-a[0])/length, (b[1]-a[1])/length
	along := func(p orb.Point) (float64, float64) {
		x, y := p[0]-a[0], p[1]-a[1]
		return x*ux + y*uy, x*uy - y*ux
	}
	var all []Marks
	for k := step; t.MM(k) < length-t.mark(); k += step {
		at, off := t.MM(k), 0.0
		for i := 1; i < len(line); i++ {
			x0, y0 := along(line[i-1])
			x1, y1 := along(line[i])
			if x0 <= at && at < x1 {
				off = y0 + (y1-y0)*(at-x0)/(x1-x0)
				break
			}
		}
		all = append(all, t.Round(off))
	}
	return all
}

// alongFold tells whether a line lies on a fold, which goes on beyond the ends given.
func alongFold(line []orb.Point, fold orb.LineString) bool {
	if len(fold) < 2 {
		return false
	}
	a, b := fold[0], fold[len(fold)-1]
	off := func(p orb.Point) float64 {
		return math.Abs((b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0])) / distance(a, b)
	}
	return math.Max(off(line[0]), off(line[len(line)-1])) < 0.01
}

// notch marks a point of the cut line from the nearer end of its stroke.
func (w *writer) notch(p orb.Point) {
	best, least := 0, math.Inf(1)
	for i, d := range w.outline {
		if off, _ := toLine(p, d.line, 0, 0); off < least {
			best, least = i, off
		}
	}
	d := w.outline[best]
	n := Notch{Stroke: best, From: -1, At: w.tape.round(p)}
	if d.Kind != Circle {
		from := d.From
		if distance(w.tape.point(d.to), p) < distance(w.tape.point(d.from), p) {
			from = d.To
		}
		by := n
		by.From, by.Distance = from, w.tape.Round(distance(w.tape.point(w.Places[from]), p))
		if distance(w.tape.point(w.Places[from]), p) <= w.tape.Tolerance() {
			by.Distance = 0
		}
		if at, ok := w.tape.NotchAt(w.Figures, by); ok && distance(at, p) <= w.tape.Tolerance() {
			n = by
		}
	}
	w.Notches = append(w.Notches, n)
}
