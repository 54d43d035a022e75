package outline

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// part is one line, or a stretch of one, on its way round an outline.
type part struct {
	line    int
	points  orb.LineString
	corners []int // as of a line
}

// loop is a closed line, of one or several lines of the drawing.
type loop struct {
	parts []part   // end to end, counter-clockwise
	way   []vertex // they, point by point
	ring  orb.Ring // the same, closed
	bound orb.Bound
	area  float64
	role  Role
	of    pieceKey
	bad   bool // it crosses itself

	within *loop   // the one that it lies in directly; nil: none
	inner  []*loop // that lie in it directly
	shape  int     // index of the shape whose outline it is; -1: of none
	faults []int   // what was told of it, among the faults
}

// pieceKey is what lines of one piece have in common: the block of pattern data, and how
// often it is inserted, and the size. Drawings of other kinds have none.
type pieceKey struct{ block, group, size string }

func keyOf(m Marks) pieceKey {
	if m.Block == "" {
		return pieceKey{size: m.Size}
	}
	group := m.Group
	return pieceKey{m.Block, group, m.Size}
}

// pen is what lines of one outline have in common as a rule.
type pen struct {
	of            pieceKey
	layer, colour string
	dashed        bool
	role          Role
}

// close makes loops of closed lines and of lines whose ends meet: first of those drawn
// with the same pen, then of all of a piece.
func (a *assembler) close() {
	var open []int
	for i, l := range a.Lines {
		if r := a.Roles[i].Role; r != Unnamed && r != CutLine && r != SeamLine {
			continue
		}
		if !l.Closed {
			open = append(open, i)
			continue
		}
		a.loop([]part{{i, l.Points, l.Corners}})
	}
	byPen := func(i int) pen {
		m := a.Lines[i].Marks
		return pen{keyOf(m), m.Layer, m.Colour, m.Dashed, a.Roles[i].Role}
	}
	byPiece := func(i int) pen { return pen{of: keyOf(a.Lines[i].Marks), role: a.Roles[i].Role} }
	open = a.closeBy(open, byPen)
	a.open = a.closeBy(open, byPiece)
	a.closeOnFolds()
	slices.SortStableFunc(a.loops, func(p, q *loop) int { return cmp.Compare(p.parts[0].line, q.parts[0].line) })
}

// closeBy closes the lines of each pen and returns those that are in no loop.
func (a *assembler) closeBy(lines []int, by func(line int) pen) (open []int) {
	var order []pen
	of := map[pen][]int{}
	for _, i := range lines {
		p := by(i)
		if of[p] == nil {
			order = append(order, p)
		}
		of[p] = append(of[p], i)
	}
	for _, p := range order {
		open = append(open, a.closeLines(of[p])...)
	}
	slices.Sort(open)
	return open
}

// closeLines closes lines whose ends are the same, then those whose ends lie within the
// tolerance, and returns the rest.
func (a *assembler) closeLines(lines []int) (open []int) {
	open = a.cycles(newWeb(a.Lines, lines))
	if len(open) == 0 {
		return nil
	}
	w := newWeb(a.Lines, open)
	w.tieLoose(a.Tolerance)
	return a.cycles(w)
}

// cycles makes loops of the outer walks round a web, and returns the lines in none.
func (a *assembler) cycles(w *web) (open []int) {
	walks, chords := w.walks()
	taken := map[int]bool{}
	for _, walk := range walks {
		parts := make([]part, len(walk))
		for k, half := range walk { // the outside of a web is walked clockwise
			parts[len(walk)-1-k] = a.part(w.lines[half/2], half%2 == 0)
			taken[w.lines[half/2]] = true
		}
		a.loop(parts)
	}
	for _, c := range chords {
		a.fault(Fault{Kind: Doubtful, What: say.Textf("several lines meet: this one is taken to lie inside"),
			Hint: "give outlines a layer or colour of their own", At: a.Lines[w.lines[c]].Points[0],
			Place: a.Lines[w.lines[c]].Place})
	}
	for _, i := range w.lines {
		if !taken[i] {
			open = append(open, i)
		}
	}
	return open
}

// part is a whole line, either way round.
func (a *assembler) part(line int, reversed bool) part {
	l := a.Lines[line]
	if !reversed {
		return part{line, l.Points, l.Corners}
	}
	return part{line, l.Points, l.Corners}.turned()
}

func (p part) turned() part {
	q := part{line: p.line, points: slices.Clone(p.points)}
	q.points.Reverse()
	for _, c := range slices.Backward(p.corners) {
		q.corners = append(q.corners, len(p.points)-1-c)
	}
	return q
}

// loop adds a closed line. Its parts follow each other; where their ends are apart, the end
// of the one counts as the beginning of the next, and that is told.
func (a *assembler) loop(parts []part) {
	l := &loop{shape: -1, role: a.Roles[parts[0].line].Role, of: keyOf(a.Lines[parts[0].line].Marks)}
	a.about = l
	defer func() { a.about = nil }()
	first := 0
	for k := range parts { // the line that is drawn first begins
		if parts[k].line < parts[first].line {
			first = k
		}
	}
	l.parts = append(slices.Clone(parts[first:]), parts[:first]...)
	for k := range l.parts {
		p := l.parts[(k+len(parts)-1)%len(parts)]
		end, start := p.points[len(p.points)-1], l.parts[k].points[0]
		if end == start {
			continue
		}
		if gap := math.Hypot(end[0]-start[0], end[1]-start[1]); gap > told {
			a.fault(Fault{Kind: Joined, What: say.Textf("two ends %.2g apart are joined", say.MM(gap)), At: start,
				Place: between2(a.Lines[p.line].Place, a.Lines[l.parts[k].line].Place)})
		}
		l.parts[k].points = slices.Clone(l.parts[k].points)
		l.parts[k].points[0] = end
	}
	l.trace()
	if !(math.Abs(l.area) >= MinArea) && !l.hasLobes() {
		a.fault(Fault{Kind: Hair, What: say.Textf("a closed line round less than %g square millimetre is left out",
			MinArea), At: parts[0].points[0], Place: a.Lines[parts[0].line].Place})
		for _, p := range parts {
			a.Roles[p.line] = LineRole{Role: Ignored, Because: "nothing is in it"}
		}
		return
	}
	if l.area < 0 {
		slices.Reverse(l.parts)
		for k := range l.parts {
			l.parts[k] = l.parts[k].turned()
		}
		if n := len(l.parts); n > 1 { // the line that is drawn first still begins
			l.parts = append([]part{l.parts[n-1]}, l.parts[:n-1]...)
		}
		l.trace()
	}
	a.loops = append(a.loops, l)
}

// hasLobes says whether a line that encloses nothing in sum goes round something all the same, once one way and once
// the other, as a figure of eight does, and is not a line there and back.
func (l *loop) hasLobes() bool {
	bare := &loop{way: slices.Clone(l.way)}
	bare.unspike(nil)
	return len(bare.way) > 3 && plane.Area(plane.Hull(l.ring)) >= MinArea
}

// told is the least gap whose joining is told, mm: less is how coordinates are rounded.
const told = 0.02

// between2 is the place of two lines.
func between2(a, b string) string {
	if a == b {
		return a
	}
	return a + " and " + b
}

// mostFolds is how many lines of fold are tried at each open line.
const mostFolds = 64

// closeOnFolds closes what begins and ends on a line of fold along that.
func (a *assembler) closeOnFolds() {
	folds := map[pieceKey][]int{}
	for i, l := range a.Lines {
		if k := keyOf(l.Marks); a.Roles[i].Role == Fold && straight(l.Points, ChordError) && len(folds[k]) < mostFolds {
			folds[k] = append(folds[k], i)
		}
	}
	if len(folds) == 0 {
		return
	}
	w := newWeb(a.Lines, a.open)
	w.tieLoose(a.Tolerance)
	closed := map[int]bool{}
	for _, chain := range w.chains() {
		parts := make([]part, len(chain))
		for k, half := range chain {
			parts[k] = a.part(w.lines[half/2], half%2 == 1)
		}
		last := parts[len(parts)-1].points
		from, to := last[len(last)-1], parts[0].points[0]
		for _, f := range folds[keyOf(a.Lines[parts[0].line].Marks)] {
			l := a.Lines[f].Points
			if onSegment(from, l, a.Tolerance) && onSegment(to, l, a.Tolerance) && !near(from, to, 4*a.Tolerance) {
				a.loop(append(parts, part{f, orb.LineString{from, to}, []int{0, 1}}))
				for _, p := range parts {
					closed[p.line] = true
				}
				break
			}
		}
	}
	a.open = slices.DeleteFunc(a.open, func(i int) bool { return closed[i] })
}

// straight says whether a line is, within a distance, and runs one way.
func straight(line orb.LineString, within float64) bool {
	a, b := line[0], line[len(line)-1]
	whole := math.Hypot(b[0]-a[0], b[1]-a[1])
	if whole == 0 {
		return false
	}
	far := 0.
	for _, p := range line {
		along := ((p[0]-a[0])*(b[0]-a[0]) + (p[1]-a[1])*(b[1]-a[1])) / whole
		aside := ((p[0]-a[0])*(b[1]-a[1]) - (p[1]-a[1])*(b[0]-a[0])) / whole
		if math.Abs(aside) > within || along < far-within {
			return false
		}
		far = max(far, along)
	}
	return far <= whole+within
}

// onSegment says whether a point lies on the segment between the ends of a line.
func onSegment(p orb.Point, line orb.LineString, within float64) bool {
	a, b := line[0], line[len(line)-1]
	dx, dy := b[0]-a[0], b[1]-a[1]
	whole := math.Hypot(dx, dy)
	along, aside := ((p[0]-a[0])*dx+(p[1]-a[1])*dy)/whole, ((p[0]-a[0])*dy-(p[1]-a[1])*dx)/whole
	return math.Abs(aside) <= within && along >= -within && along <= whole+within
}
