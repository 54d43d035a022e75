package sheet

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// FullPiece is a pattern piece drawn as large as it is, with all its words in their
// places. It is drawn once and can lie anywhere, turned by quarter turns.
type FullPiece struct {
	// Takes is what it takes up on paper, in the pattern's mm: the cut line or, where the
	// words stand beside a piece that is too small for them, what is around both.
	Takes  orb.Ring
	name   string
	items  []Item // y down, the pattern's (0, 0) at the origin
	labels []label
	square *testSquare
}

// Texts in a piece at full size, mm: from what is read at arm's length to what is read
// from a label (common practice: 6 point type at the least).
var fullStyle = style{[]float64{8, 6.5, 5.2, 4.2, 3.4, 2.7, 2.2}, lineHeight, 0.5}

const (
	fullSigns  = 2.5 // arrow heads, brackets and names, as many times as large as on a small drawing
	besideText = 3.0 // beside a small piece
	besideGap  = 4.0
	besideWide = 62.0
)

// Full draws the piece at full size: its words are its name and its facts.
func (p Pattern) Full() FullPiece {
	const k = fullSigns
	o := p.onto(orb.Point{})
	f := FullPiece{name: p.Name, Takes: p.Cut, items: o.items(0, k)}
	for _, fold := range o.dartFolds() {
		f.items, o.clear = append(f.items, Line{RoleFold, fold}), append(o.clear, fold)
	}
	var fold orb.LineString
	if len(p.Fold) > 1 {
		fold = downward([]orb.LineString{p.Fold})[0]
		sign := foldSign(fold, o, foldDepth*k, "place on fold", k)
		f.items, o.clear = append(f.items, sign...), append(o.clear, grounds(sign)...)
	}
	f.matches(p.Matches, &o)
	f.notes(&o)
	names := o.names(slices.Concat(grounds(f.items), []orb.LineString{o.Grain}), k)
	f.items, o.clear = append(f.items, names...), append(o.clear, grounds(names)...)
	o.Grain = o.roomyGrain(slices.Concat(foldLane(fold, o, k), o.clear), k)
	grain := o.Grain
	if l, ok := fullLabel(o, arrangements(append([]string{p.Name}, p.Facts...)), 1); ok {
		f.labels, grain = append(f.labels, l), l.grain
		o.clear = append(o.clear, l.lanes()...)
	} else {
		f.beside(o, append([]string{p.Name}, p.Facts...))
	}
	f.items = append(f.items, grainItems(grain, k, !p.OneWay)...)
	o.clear = append(o.clear, grain)
	f.squared(o, p.Squares)
	return f
}

// downward turns lines of a pattern onto a drawing.
func downward(lines []orb.LineString) []orb.LineString {
	return Outline{Inside: lines}.onto(orb.Point{}).Inside
}

// matches draws the match points, each with its name as its letter.
func (f *FullPiece) matches(points []Match, o *Outline) {
	moved := make([]Match, len(points))
	for i, m := range points {
		moved[i] = Match{m.Name, orb.Point{m.At[0], -m.At[1]}}
	}
	items, taken := matchItems(moved, *o, 0, fullSigns)
	f.items, o.clear = append(f.items, items...), append(o.clear, taken...)
}

// notes writes beside notches what is said of them, inside the seam line.
func (f *FullPiece) notes(o *Outline) {
	const size = textSelvedge * fullSigns / 2
	for _, n := range o.Notches {
		if n.Note == "" {
			continue
		}
		w, h := textWidth(n.Note, size)/2, size/2
		in := math.Abs(n.Outward[0])*w + math.Abs(n.Outward[1])*h + size/2
		t := Text{Role: RoleNote, At: orb.Point{n.At[0] - in*n.Outward[0], n.At[1] - in*n.Outward[1]}, Anchor: Middle,
			Size: size, Body: n.Note}
		f.items, o.clear = append(f.items, t), append(o.clear, around(t))
	}
}

// fullLabel finds the place of the words within the seam line, clear of all that is marked.
// They are so much larger than on paper; in light, where they are, the smaller sizes cannot
// be read.
func fullLabel(o Outline, blocks [][]string, larger float64) (label, bool) {
	turns := []float64{0, 90}
	if a := longAxis(o.finished()); math.Abs(a) > 3 && math.Abs(a) < 87 {
		turns = append(turns, a)
	}
	marked := slices.Concat(o.Inside, o.clear, []orb.LineString{orb.LineString(o.Cut), orb.LineString(o.Seam)})
	// A line for each thing is read at once: that comes before large letters.
	apart := fullStyle
	apart.sizes = apart.sizes[:4]
	if l, ok := search(o.within(), marked, arrows(o.Grain), turns, blocks[:1], apart, larger); ok {
		return l, true
	}
	set := fullStyle
	if larger > 1 {
		set = apart
	}
	return search(o.within(), marked, arrows(o.Grain), turns, blocks, set, larger)
}

// within is what words stand in: the seam line, or the cut line where the seam line runs
// beyond it, as at the slanting ends of strips that are sewn end to end.
func (o Outline) within() orb.Ring {
	for _, p := range o.Seam {
		if !planar.RingContains(o.Cut, p) && planar.DistanceFrom(orb.LineString(o.Cut), p) > onCut {
			return o.Cut
		}
	}
	return o.finished()
}

// arrangements sets texts in lines, each on its own first, then run together in fewer.
func arrangements(texts []string) [][]string {
	all := [][]string{texts}
	words := strings.Fields(strings.Join(texts, " · "))
	whole := textWidth(strings.Join(words, " "), 1)
	for n := len(texts) + 4; n > 0; n-- {
		lines := atSpaces(words, 1, whole/float64(n)*1.04)
		if len(lines) < len(all[len(all)-1]) || len(all) == 1 {
			all = append(all, lines)
		}
	}
	return all
}

// lanes are lines that cover the words of a label.
func (l label) lanes() []orb.LineString {
	lanes := []orb.LineString{orb.LineString(l.outline())}
	for _, it := range l.items(RoleNote, 0) {
		if t, ok := it.(Text); ok {
			w, h := textWidth(t.Body, t.Size)/2, t.Size*lineHeight/2
			lane := orb.LineString{{-w, 0}, {w, 0}, {w, h}, {-w, h}, {-w, -h}, {w, -h}, {w, 0}}
			for i, p := range lane {
				d := turned(p, -t.Turn)
				lane[i] = orb.Point{t.At[0] + d[0], t.At[1] + d[1]}
			}
			lanes = append(lanes, lane)
		}
	}
	return lanes
}

// beside writes the words next to a piece that has no room for them, with a leader to it:
// on the side where both together take up least.
func (f *FullPiece) beside(o Outline, texts []string) {
	lines := wrap(strings.Join(texts, " · "), besideText, besideWide)
	w, h := widest(lines, besideText)/2+0.5, float64(len(lines))*besideText*lineHeight/2+0.5
	b := o.Cut.Bound()
	var best orb.Ring
	var at orb.Point
	for _, place := range []orb.Point{
		{b.Max[0] + besideGap + w, b.Min[1] + h}, {b.Min[0] + w, b.Max[1] + besideGap + h},
		{b.Max[0] + besideGap + w, b.Max[1] - h}, {b.Min[0] + w, b.Min[1] - besideGap - h},
	} {
		box := orb.Bound{Min: orb.Point{place[0] - w, place[1] - h}, Max: orb.Point{place[0] + w, place[1] + h}}
		points := slices.Clone([]orb.Point(o.Cut))
		for _, p := range box.ToRing() {
			points = append(points, plane.SnapPoint(p))
		}
		if around := plane.Hull(points); best == nil || plane.Area(around) < plane.Area(best)-1e-6 {
			best, at = around, place
		}
	}
	f.Takes = make(orb.Ring, len(best))
	for i, p := range best {
		f.Takes[len(best)-1-i] = orb.Point{p[0], -p[1]}
	}
	f.labels = append(f.labels, label{lines: lines, at: at, size: besideText, line: lineHeight})
	f.items = append(f.items,
		leader(orb.Bound{Min: orb.Point{at[0] - w, at[1] - h}, Max: orb.Point{at[0] + w, at[1] + h}},
			o.Cut)...)
}

// leader points from a box at the nearest place of an outline.
func leader(box orb.Bound, ring orb.Ring) []Item {
	var from, to orb.Point
	nearest := math.Inf(1)
	for _, p := range ring {
		q := orb.Point{max(box.Min[0], min(p[0], box.Max[0])), max(box.Min[1], min(p[1], box.Max[1]))}
		if d := planar.Distance(p, q); d < nearest {
			from, to, nearest = q, p, d
		}
	}
	return arrow(RoleDim, from, to, 2, false)
}

// Square is a test square to draw in a piece: its side, mm, and what it is called.
type Square struct {
	Side float64
	Name string
}

// testSquare is a test square in its place.
type testSquare struct {
	line Line
	said label
}

// WithoutSquare is the piece without its test square: one that is not joined from several
// sheets needs none.
func (f FullPiece) WithoutSquare() FullPiece {
	f.square = nil
	return f
}

// squared places the first of some test squares that has room in the piece.
func (f *FullPiece) squared(o Outline, squares []Square) {
	if len(o.within()) < 4 {
		return
	}
	frame := newFrame(o.within(), slices.Concat(o.Inside, o.clear), 0)
	for _, s := range squares {
		at, ok := frame.box(s.Side+2, s.Side+2, 1)
		if !ok {
			continue
		}
		r := s.Side / 2
		size := min(4, s.Side*0.8/textWidth("test square", 1))
		f.square = &testSquare{Line{RoleDim, orb.LineString(Box(at[0]-r, at[1]-r, at[0]+r, at[1]+r))},
			label{lines: []string{"test square", s.Name}, at: at, size: size, line: lineHeight}}
		return
	}
}

// Group draws the piece as it is posed, turned by a multiple of 90 degrees and not mirrored,
// x to the right and y up; origin is where (0, 0) lies on the drawing.
func (f FullPiece) Group(pose plane.Pose, origin orb.Point) Group {
	onto := func(q orb.Point) orb.Point {
		p := pose.ApplyPoint(orb.Point{q[0], -q[1]})
		return orb.Point{origin[0] + p[0], origin[1] - p[1]}
	}
	path := func(ps []orb.Point) []orb.Point {
		out := make([]orb.Point, len(ps))
		for i, p := range ps {
			out[i] = onto(p)
		}
		return out
	}
	items, labels := f.items, f.labels
	if f.square != nil {
		items, labels = append(items[:len(items):len(items)], f.square.line),
			append(labels[:len(labels):len(labels)], f.square.said)
	}
	g := Group{Title: f.name}
	for _, it := range items {
		switch it := it.(type) {
		case Shape:
			it.Ring = path(it.Ring)
			g.Items = append(g.Items, it)
		case Line:
			it.Path = path(it.Path)
			g.Items = append(g.Items, it)
		case Text:
			it.At, it.Turn = onto(it.At), readable(it.Turn+pose.Turn)
			g.Items = append(g.Items, it)
		}
	}
	for _, l := range labels {
		l.at, l.turn = onto(l.at), readable(l.turn+pose.Turn)
		g.Items = append(g.Items, l.items(RoleNote, 0)...)
	}
	return g
}

// readable is the turn of a text, centred on its place, that is read from below or from
// the right.
func readable(turn float64) float64 {
	turn = math.Remainder(turn, 360)
	switch {
	case turn > 90:
		return turn - 180
	case turn <= -90:
		return turn + 180
	}
	return turn
}

// Numbered writes a number into an outline that is on the drawing, level, as large as
// there is room.
func Numbered(ring orb.Ring, n int) []Item {
	l, ok := numbered(Outline{Cut: ring}, n, "", 1)
	if !ok {
		return nil
	}
	l.plate = false
	return l.items(RoleHeading, 0)
}
