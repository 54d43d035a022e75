package sheet

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// label is a block of lines with its place: centre, size and turn, in the
// drawing's coordinates.
type label struct {
	lines []string
	at    orb.Point
	size  float64
	turn  float64        // degrees counter-clockwise as seen
	line  float64        // height of a line in its size
	grain orb.LineString // the grain arrow to draw beside it
	plate bool           // it lies across lines and needs a ground
}

// style is how densely a label is set, in its text size.
type style struct {
	sizes []float64 // tried in turn, mm of paper
	line  float64   // height of a line
	room  float64   // clear room around
}

// Words get air and sizes down to the least that can be read on a print; numbers,
// which have no parts below the line, are set tight and may be smaller still.
var (
	wordStyle   = style{[]float64{3.2, 2.7, 2.3, 2, 1.7}, lineHeight, 0.35}
	numberStyle = style{[]float64{2.7, 2.3, 2, 1.7, 1.4}, 0.9, 0.1}
	tinyStyle   = style{[]float64{2, 1.7, 1.4, 1.1, 0.8, 0.5}, 0.9, 0.1}
)

// labelled finds the place of the words in a piece: within the seam line or,
// failing that, anywhere within the cut line.
func labelled(o Outline, blocks [][]string, scale float64) (label, bool) {
	if len(o.Seam) > 0 {
		if l, ok := fit(o.Seam, o, blocks, scale); ok {
			return l, true
		}
	}
	l, ok := fit(o.Cut, o, blocks, scale)
	l.plate = l.plate || len(o.Seam) > 0
	return l, ok
}

// numbered finds the place of a number, upright, in a piece too small for words,
// with a note behind it where that has room; where there is no room beside an arrow
// the number stands alone.
func numbered(o Outline, n int, note string, scale float64) (label, bool) {
	number, upright := [][]string{{strconv.Itoa(n)}}, []float64{0}
	if note != "" {
		words := [][]string{{number[0][0], note}, {number[0][0] + " " + note}}
		if l, ok := search(o.Cut, o.clear, arrows(o.Grain), []float64{0, 90, longAxis(o.Cut)}, words,
			numberStyle, scale); ok {
			l.plate = true
			return l, true
		}
	}
	l, ok := search(o.Cut, o.clear, arrows(o.Grain), upright, number, numberStyle, scale)
	if !ok {
		l, ok = search(o.Cut, o.clear, noArrow, upright, number, tinyStyle, scale)
	}
	l.plate = true
	return l, ok
}

// fit finds a place for one of several blocks of words inside a ring: the
// largest size first, with the whole grain arrow before a shortened one, upright
// before turned along the piece, then the blocks in order. Where there is no
// room beside the lines marked in the piece the words lie across them, and where
// there is none beside any arrow across that too. scale is mm of cloth in one of
// paper.
func fit(ring orb.Ring, o Outline, blocks [][]string, scale float64) (label, bool) {
	turns := []float64{0, 90}
	if a := longAxis(ring); math.Abs(a) > 3 && math.Abs(a) < 87 {
		turns = append(turns, a)
	}
	if l, ok := search(ring, slices.Concat(o.Inside, o.clear), arrows(o.Grain), turns, blocks, wordStyle, scale); ok {
		return l, true
	}
	l, ok := search(ring, o.clear, arrows(o.Grain), turns, blocks, wordStyle, scale)
	if !ok {
		l, ok = search(ring, o.clear, noArrow, turns, blocks, wordStyle, scale)
		l.grain = o.Grain
	}
	l.plate = true
	return l, ok
}

// noArrow stands for the grain arrow where none is to be kept clear.
var noArrow = []orb.LineString{nil}

// arrows gives the grain arrow, then its first and its last third.
func arrows(grain orb.LineString) []orb.LineString {
	if len(grain) != 2 {
		return noArrow
	}
	a, b := grain[0], grain[1]
	at := func(t float64) orb.Point { return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])} }
	return []orb.LineString{grain, {a, at(1. / 3)}, {at(2. / 3), b}}
}

// search tries all sizes, arrows, turns and blocks in this order of nesting, for
// a place clear of the marked lines and of the arrow.
func search(ring orb.Ring, marked, arrows []orb.LineString, turns []float64, blocks [][]string, set style,
	scale float64) (label, bool) {
	if len(ring) < 4 {
		return label{}, false
	}
	frames := make([]frame, 0, len(arrows)*len(turns))
	for _, a := range arrows {
		for _, t := range turns {
			frames = append(frames, newFrame(ring, append(slices.Clip(marked), a), t))
		}
	}
	for _, size := range set.sizes {
		for i := range frames {
			for _, lines := range blocks {
				if l, ok := frames[i].place(lines, size*scale, set); ok {
					l.grain = arrows[i/len(turns)]
					return l, true
				}
			}
		}
	}
	return label{}, false
}

// longAxis gives the main axis of an outline (the direction its length spreads
// along most) in degrees counter-clockwise as seen, in [-90, 90].
func longAxis(ring orb.Ring) float64 {
	c, _ := planar.CentroidArea(ring)
	var xx, yy, xy float64
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		w := math.Hypot(b[0]-a[0], b[1]-a[1])
		dx, dy := (a[0]+b[0])/2-c[0], (a[1]+b[1])/2-c[1]
		xx, yy, xy = xx+w*dx*dx, yy+w*dy*dy, xy+w*dx*dy
	}
	return -0.5 * math.Atan2(2*xy, xx-yy) * 180 / math.Pi
}

// frame is a piece turned so that text at one turn lies level in it.
type frame struct {
	turn   float64
	ring   orb.Ring
	clear  []orb.LineString // lines to keep clear of
	centre orb.Point
	bound  orb.Bound
	widest widths
}

func newFrame(ring orb.Ring, clear []orb.LineString, turn float64) frame {
	f := frame{turn: turn, ring: turnedAll(ring, turn)}
	for _, l := range clear {
		f.clear = append(f.clear, turnedAll(l, turn))
	}
	f.centre, _ = planar.CentroidArea(f.ring)
	f.bound = f.ring.Bound()
	f.widest = widthsOf(f.ring, f.bound)
	return f
}

// turned turns a point about the origin, clockwise as seen (y points down);
// quarter turns are exact.
func turned(p orb.Point, degrees float64) orb.Point {
	sin, cos := plane.SinCos(degrees)
	return orb.Point{p[0]*cos - p[1]*sin, p[0]*sin + p[1]*cos}
}

func turnedAll(ps []orb.Point, degrees float64) []orb.Point {
	out := make([]orb.Point, len(ps))
	for i, p := range ps {
		out[i] = turned(p, degrees)
	}
	return out
}

// bands is how many heights a label is tried at.
const bands = 48

// place looks for the box of the lines at a size (mm of cloth) inside the ring.
func (f *frame) place(lines []string, size float64, set style) (label, bool) {
	w := widest(lines, size) + 2*set.room*size
	h := float64(len(lines))*size*set.line + 2*set.room*size
	at, ok := f.box(w, h, size)
	return label{lines: lines, at: turned(at, -f.turn), size: size, turn: f.turn, line: set.line}, ok
}

// box looks for the place of a box inside the ring, of the places tried the one nearest to
// the centre, in the frame's coordinates. Its air is measured in the size of its text.
func (f *frame) box(w, h, size float64) (orb.Point, bool) {
	from, to := f.bound.Min[1]+h/2, f.bound.Max[1]-h/2
	if to < from || w > f.bound.Max[0]-f.bound.Min[0] || f.widest.rules(w, h) {
		return orb.Point{}, false
	}
	best, nearest := orb.Point{}, math.Inf(1)
	for i := 0; i <= bands; i++ {
		y := from + (to-from)*float64(i)/bands
		if math.Abs(y-f.centre[1]) >= nearest || f.widest.within(y-h/2, y+h/2) < w {
			continue
		}
		for _, g := range f.gaps(y-h/2, y+h/2, size, w) {
			x := max(g[0]+w/2, min(f.centre[0], g[1]-w/2))
			// ties, but for noise, go to the first
			if d := math.Hypot(x-f.centre[0], y-f.centre[1]); d < nearest-1e-3*size {
				best, nearest = orb.Point{x, y}, d
			}
		}
	}
	return best, !math.IsInf(nearest, 1)
}

// gaps gives the stretches of x inside the outline, of a least length, that are free
// of it and of the lines to keep clear of everywhere between two heights.
func (f *frame) gaps(y0, y1, size, least float64) [][2]float64 {
	var blocked [][2]float64
	block := func(a, b orb.Point, room float64) {
		if x0, x1, ok := clipToBand(a, b, y0-room, y1+room); ok {
			blocked = append(blocked, [2]float64{x0 - room, x1 + room})
		}
	}
	for i := 1; i < len(f.ring); i++ {
		block(f.ring[i-1], f.ring[i], 0)
	}
	for _, l := range f.clear {
		for i := 1; i < len(l); i++ {
			block(l[i-1], l[i], 0.3*size)
		}
	}
	slices.SortFunc(blocked, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var free [][2]float64
	end := math.Inf(1)
	for _, b := range blocked {
		if b[0] > end && b[0]-end >= least && planar.RingContains(f.ring, orb.Point{(end + b[0]) / 2, (y0 + y1) / 2}) {
			free = append(free, [2]float64{end, b[0]})
		}
		if math.IsInf(end, 1) || b[1] > end {
			end = b[1]
		}
	}
	return free
}

// clipToBand gives the stretch of x that a segment covers between two heights.
func clipToBand(a, b orb.Point, y0, y1 float64) (x0, x1 float64, ok bool) {
	if a[1] > b[1] {
		a, b = b, a
	}
	if b[1] < y0 || a[1] > y1 {
		return 0, 0, false
	}
	at := func(y float64) float64 {
		if b[1] == a[1] {
			return a[0]
		}
		t := max(0, min(1, (y-a[1])/(b[1]-a[1])))
		return a[0] + t*(b[0]-a[0])
	}
	x0, x1 = at(y0), at(y1)
	if b[1] == a[1] {
		x0, x1 = a[0], b[0]
	}
	return min(x0, x1), max(x0, x1), true
}

// blocks arranges the texts of a label in lines, most readable first. Lines break
// between words alone.
func blocks(texts ...string) [][]string {
	texts = slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return s == "" })
	if len(texts) == 0 {
		return nil
	}
	rest := strings.Join(texts[1:], " · ")
	all := [][]string{texts}
	if len(texts) > 2 {
		all = append(all, []string{texts[0], rest})
	}
	if halves := atSpaces(strings.Fields(texts[0]), 1, textWidth(texts[0], 1)*0.62); len(halves) > 1 {
		all = append(all, append(slices.Clone(halves), texts[1:]...))
	}
	if len(texts) > 1 {
		all = append(all, []string{strings.Join(texts, " · ")})
	}
	return all
}

// items draws the label; tint is that of its piece.
func (l label) items(role Role, tint int) []Item {
	var items []Item
	if l.plate {
		items = append(items, Shape{Role: RolePlate, Ring: l.outline(), Tint: tint})
	}
	step := l.size * l.line
	for i, line := range l.lines {
		offset := turned(orb.Point{0, (float64(i) - float64(len(l.lines)-1)/2) * step}, -l.turn)
		at := orb.Point{l.at[0] + offset[0], l.at[1] + offset[1]}
		items = append(items, Text{Role: role, At: at, Anchor: Middle, Size: l.size, Turn: l.turn, Body: line})
	}
	return items
}

// outline is the box around the text.
func (l label) outline() orb.Ring {
	w, h := widest(l.lines, l.size)/2, float64(len(l.lines))*l.size*l.line/2
	ring := Box(-w, -h, w, h)
	for i, p := range ring {
		q := turned(p, -l.turn)
		ring[i] = orb.Point{l.at[0] + q[0], l.at[1] + q[1]}
	}
	return ring
}
