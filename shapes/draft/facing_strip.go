package draft

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// strip is a facing before it is cut: its finished lines, counter-clockwise.
type strip struct {
	faced              []orb.LineString // edge by edge
	next, free, before orb.LineString
}

// sample is a point of the faced edges, darts folded, and the one of the free edge that
// belongs to it.
type sample struct {
	s      float64 // along all of them, mm
	edge   int
	at, in orb.Point
	hidden bool // the free edge goes past it, within a mitre
}

// mostCorner is the most that faced edges turn at a point, rad: beyond it lies a corner
// where its free edge is mitred, up to mostMitred: further out where the strip opens round the
// corner, as at that of a square neck, further in where it lies within one, as at that of a hem.
const mostCorner, mostMitred = 0.35, 1.75

// strip draws the facing of a piece along a run of its edges.
func (c facedRun) strip(p shapes.Piece, width float64) (strip, error) {
	if err := c.checkEnds(p, width); err != nil {
		return strip{}, err
	}
	var s strip
	n := len(c.darts)
	s.next = firstOf(c.next.Line, width)
	s.before = reversed(firstOf(reversed(c.before.Line), width))
	for i, v := range s.next {
		s.next[i] = c.fold(v, n)
	}
	for i, v := range s.before {
		s.before[i] = c.fold(v, 0)
	}
	list := c.samples()
	first, last := list[0].at, list[len(list)-1].at
	if err := c.draw(list, sub2(s.before[0], first), sub2(s.next[len(s.next)-1], last), width); err != nil {
		return strip{}, err
	}
	s.faced = make([]orb.LineString, len(c.edges))
	for _, v := range list {
		s.faced[v.edge] = appendPoint(s.faced[v.edge], v.at)
		if !v.hidden {
			s.free = appendPoint(s.free, v.in)
		}
	}
	s.free.Reverse()
	// The ends of the free edge are those of the seams, to the last bit.
	s.free[0], s.free[len(s.free)-1] = s.next[len(s.next)-1], s.before[0]
	return s, nil
}

// checkEnds refuses seams at the ends of a facing that are shorter than it is wide, and
// darts that open on them within it.
func (c facedRun) checkEnds(p shapes.Piece, width float64) error {
	for _, e := range []shapes.Edge{c.next, c.before} {
		length := plane.Length(e.Line)
		if need := width * map[bool]float64{true: 2, false: 1}[c.next.Name == c.before.Name]; length < need+leastStrip {
			return say.Errorf("a facing %.1f wide needs %.1f of its %s, which is %.1f", say.MM(width),
				say.MM(need+leastStrip), e.Name, say.MM(length)).
				Hint("a narrower facing")
		}
		for _, d := range p.Darts {
			if d.Edge != e.Name {
				continue
			}
			from := d.Mouth.From
			if e.Name == c.before.Name {
				from = length - d.Mouth.From - d.Mouth.Width
			}
			if from < width {
				return say.Errorf("a dart opens on its %s %.1f from the edge that is faced, within a facing %.1f wide",
					e.Name, say.MM(from), say.MM(width)).
					Hint("a narrower facing")
			}
		}
	}
	for _, d := range c.darts {
		if leg := planar.Distance(d.a, d.apex); leg < width+leastStrip {
			return say.Errorf("a dart %.1f long ends within a facing %.1f wide", say.MM(leg), say.MM(width)).
				Hint("a narrower facing")
		}
	}
	return nil
}

// leastStrip is what is left of a seam or a dart beyond a facing, mm.
const leastStrip = 1

// samples strings the points of the edges together, darts folded: those in the mouths of
// darts are left out, those where they open are among them.
func (c facedRun) samples() []sample {
	var list []sample
	start := 0.0
	for i, e := range c.edges {
		at := 0.0
		for k, v := range e.Line {
			if k > 0 {
				at += planar.Distance(e.Line[k-1], v)
			}
			list = append(list, sample{s: start + at, edge: i, at: v})
		}
		start += at
	}
	for _, d := range c.darts {
		list = append(list, sample{s: d.from, edge: d.edge, at: d.a},
			sample{s: d.from + d.width, edge: d.edge, at: d.b})
	}
	slices.SortStableFunc(list, func(a, b sample) int { return cmp.Compare(a.s, b.s) })
	var out []sample
	for _, v := range list {
		seg, ok := c.segment(v.s)
		if !ok {
			continue
		}
		v.at, v.s = c.fold(v.at, seg), 0
		if n := len(out); n > 0 {
			if v.edge == out[n-1].edge && planar.Distance(v.at, out[n-1].at) < 1e-6 {
				continue
			}
			v.s = out[n-1].s + planar.Distance(v.at, out[n-1].at)
		}
		out = append(out, v)
	}
	return out
}

// draw sets the points of the free edge: the directions swing from that of the seam at
// the start to that of the seam at the end in step with the length of the edge.
func (c facedRun) draw(list []sample, first, end orb.Point, width float64) error {
	n := len(list)
	whole := list[n-1].s
	in, mitre := make([]float64, n), make([]float64, n) // inward directions, rad, and how much further there
	for i := range list {
		var err error
		if in[i], mitre[i], err = c.inward(list, i); err != nil {
			return err
		}
	}
	angle := func(v orb.Point, from float64) float64 { return math.Remainder(math.Atan2(v[1], v[0])-from, 2*math.Pi) }
	a, b := angle(first, in[0]), angle(end, in[n-1])
	la, lb := math.Hypot(first[0], first[1]), math.Hypot(end[0], end[1])
	for _, lean := range []float64{a, b} {
		if math.Abs(lean) > mostLean {
			return say.Errorf("the seam at an end of it leans by %.0f degrees from square to it, the most for a facing "+
				"is %.0f", math.Max(math.Round(math.Abs(lean)*180/math.Pi), mostLean*180/math.Pi+1), mostLean*180/math.Pi).
				Hint("bind that edge, or hem it")
		}
	}
	for i := range list {
		t := list[i].s / whole
		sin, cos := math.Sincos(in[i] + a*(1-t) + b*t)
		l := (la*(1-t) + lb*t) * mitre[i]
		list[i].in = orb.Point{list[i].at[0] + l*cos, list[i].at[1] + l*sin}
	}
	if err := c.mitred(list, mitre, width); err != nil {
		return err
	}
	last := 0
	for i := range list {
		if list[i].hidden || list[i].at == list[last].at {
			continue
		}
		along, free := sub2(list[i].at, list[last].at), sub2(list[i].in, list[last].in)
		last = i
		if along[0]*free[0]+along[1]*free[1] <= 0 {
			near, end := c.nearest(list, i)
			return say.Errorf("%.1f from its %s it bends more tightly than a facing %.1f wide can follow", near, end,
				say.MM(width)).
				Hint("a narrower facing")
		}
	}
	return nil
}

// mitred hides what of a strip lies beyond the mitre of a corner that it lies within, on both sides
// of it.
func (c facedRun) mitred(list []sample, mitre []float64, width float64) error {
	for i := 1; i < len(list)-1; i++ {
		if mitre[i] == 1 || !c.convex(list, i) {
			continue
		}
		reach := width * math.Tan(math.Acos(1/mitre[i]))
		for k := range list {
			if list[k].at == list[i].at || math.Abs(list[k].s-list[i].s) > reach {
				continue
			}
			if k == 0 || k == len(list)-1 {
				near, end := c.nearest(list, i)
				return say.Errorf("%.1f from its %s it turns a corner, within the %.1f that a facing %.1f wide takes up there",
					near, end, say.MM(reach), say.MM(width)).Hint("a narrower facing")
			}
			list[k].hidden = true
		}
	}
	return nil
}

// convex says whether the strip lies within the corner at a sample.
func (c facedRun) convex(list []sample, i int) bool {
	before, after := i, i
	for before > 0 && list[before].at == list[i].at {
		before--
	}
	for after < len(list)-1 && list[after].at == list[i].at {
		after++
	}
	u, v := sub2(list[i].at, list[before].at), sub2(list[after].at, list[i].at)
	return u[0]*v[1]-u[1]*v[0] > 0
}

// mostLean is how far from square to a faced edge the seams at its ends may lean, rad:
// beyond 60 degrees a facing is less than half as deep as its width.
const mostLean = math.Pi / 3

// inward is the direction into the piece at a sample, square to the edge: half way between
// those of its chords, at the ends turned on by the chord's share of the next turn. At a corner
// that the strip goes round, mitre is how much further it reaches there.
func (c facedRun) inward(list []sample, i int) (dir, mitre float64, err error) {
	chord := func(k, step int) (dir, length float64, ok bool) { // of the chord from sample k on, by step
		for m := k + step; m >= 0 && m < len(list); m += step {
			if list[m].at != list[k].at {
				d := sub2(list[m].at, list[k].at)
				if step < 0 {
					d = orb.Point{-d[0], -d[1]}
				}
				return math.Atan2(d[1], d[0]), math.Hypot(d[0], d[1]), true
			}
		}
		return 0, 0, false
	}
	next, _, after := chord(i, 1)
	last, _, before := chord(i, -1)
	const left = math.Pi / 2
	switch {
	case after && before:
		turn := math.Remainder(next-last, 2*math.Pi)
		if math.Abs(turn) > mostCorner && math.Abs(turn) <= mostMitred {
			return last + turn/2 + left, 1 / math.Cos(turn/2), nil
		}
		if math.Abs(turn) > mostCorner {
			near, end := c.nearest(list, i)
			return 0, 0, say.Errorf("%.1f from its %s it turns a corner of %.0f degrees, which a facing does not follow",
				near, end, math.Abs(turn)*180/math.Pi).
				Hint("face it by an `outline`, or turn it up")
		}
		return last + turn/2 + left, 1, nil
	case after:
		return endDirection(list, i, 1, next) + left, 1, nil
	}
	return endDirection(list, i, -1, last) + left, 1, nil
}

// nearest says how far from the nearer end of the faced edges a sample lies, and which edge
// meets them there.
func (c facedRun) nearest(list []sample, i int) (say.MM, string) {
	from, to := list[i].s, list[len(list)-1].s-list[i].s
	if from <= to {
		return say.MM(from), c.before.Name
	}
	return say.MM(to), c.next.Name
}

// endDirection turns the direction of the chord at an end of the edge on, as the curve does.
func endDirection(list []sample, i, step int, dir float64) float64 {
	var points []orb.Point
	for k := i; k >= 0 && k < len(list) && len(points) < 3; k += step {
		if len(points) == 0 || points[len(points)-1] != list[k].at {
			points = append(points, list[k].at)
		}
	}
	if len(points) < 3 {
		return dir
	}
	u, v := sub2(points[1], points[0]), sub2(points[2], points[1])
	turn := math.Atan2(u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1])
	if math.Abs(turn) > mostCorner {
		return dir // a straight edge up to a corner
	}
	l, m := math.Hypot(u[0], u[1]), math.Hypot(v[0], v[1])
	return dir - turn*l/(l+m)
}

// firstOf is the first stretch of a line, so long, mm.
func firstOf(line orb.LineString, length float64) orb.LineString {
	out := orb.LineString{line[0]}
	for i := 1; i < len(line); i++ {
		step := planar.Distance(line[i-1], line[i])
		if step >= length {
			t := length / step
			return append(out, orb.Point{line[i-1][0] + t*(line[i][0]-line[i-1][0]),
				line[i-1][1] + t*(line[i][1]-line[i-1][1])})
		}
		out = append(out, line[i])
		length -= step
	}
	return out
}

func sub2(a, b orb.Point) orb.Point { return orb.Point{a[0] - b[0], a[1] - b[1]} }

// appendPoint adds a point to a line unless it ends there.
func appendPoint(line orb.LineString, v orb.Point) orb.LineString {
	if n := len(line); n > 0 && planar.Distance(line[n-1], v) < 1e-6 {
		return line
	}
	return append(line, v)
}
