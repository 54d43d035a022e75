package sheet

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Taken is a drawing made elsewhere as it was read: every line by what it is for. Lengths are
// mm, y up.
type Taken struct {
	Title  string
	Unit   measure.Unit
	Notes  []string // under the title
	Lines  []TakenLine
	Pieces []TakenPiece
	Faults []TakenFault
}

// TakenLine is one line, by the role in which it is drawn.
type TakenLine struct {
	Role  Role
	Piece int // number of that which it belongs to; 0: none
	Path  orb.LineString
}

// TakenPiece is one outline with its number.
type TakenPiece struct {
	Number int
	Name   string
	Ring   orb.Ring
}

// TakenFault is what is wrong somewhere, or was mended.
type TakenFault struct {
	Number int
	Piece  int // as of a line
	At     orb.Point
	What   string
}

// takenSigns explain the roles of lines, in the order of the key.
var takenSigns = []struct {
	role Role
	what string
}{{RoleEdge, "cut line"}, {RoleSeam, "seam line"}, {RoleGrain, "grain"}, {RoleFold, "fold"}, {RoleNotch, "notch"},
	{RoleDart, "dart"}, {RoleInside, "line inside"}, {RoleLeftOut, "left out"}}

// Paper measures of the picture of a drawing, mm.
const (
	takenWide, takenHigh = 270.0, 180.0
	takenLeast           = 150.0 // for its words
	faultRing            = 2.4
	takenFine            = 0.1  // lines are drawn to this
	takenNumber          = 7.0  // the largest number in a piece
	signLong, signRoom   = 9, 3 // of the key
)

// Drawing draws the picture, with a key of its lines, numbers in the pieces and rings with
// numbers around faults.
func (t Taken) Drawing() Drawing {
	area := t.bound()
	wide, high := area.Max[0]-area.Min[0], area.Max[1]-area.Min[1]
	k := math.Max(1, math.Ceil(math.Max(wide/takenWide, high/takenHigh)))
	width := math.Max(wide, takenLeast*k) + 2*margin*k
	head := &column{x: margin * k, y: margin * k, width: width - 2*margin*k}
	head.add(RoleHeading, textHeading*k, t.Title)
	for _, n := range t.Notes {
		head.add(RoleNote, textNote*k, n)
	}
	key, y := t.key(orb.Point{margin * k, head.y + 3*k}, head.width, k)
	origin := orb.Point{margin*k - area.Min[0], y + 4*k + area.Max[1]}
	at := func(p orb.Point) orb.Point { return orb.Point{origin[0] + p[0], origin[1] - p[1]} }
	groups := append([]Group{{Items: append(head.items, key...)}}, t.placed(at, k)...)
	bottom := y + 4*k + high + 8*k
	foot := &column{x: margin * k, y: bottom + 5*k, width: head.width}
	for _, f := range t.Faults {
		foot.add(RoleNote, textDim*k, fmt.Sprintf("%d: %s", f.Number, f.What))
	}
	groups = append(groups, Group{Items: append(scaleBar(orb.Point{margin * k, bottom}, k, t.Unit), foot.items...)})
	return Drawing{Title: t.Title, Description: inPieces(len(t.Pieces)) + " found in a drawing, numbered, its lines by " +
		"what they are for.", Width: width, Height: foot.y + margin*k, Scale: k, Groups: groups}
}

// Move moves pieces, by their numbers, with what belongs to them. Other lines and faults go.
func (t *Taken) Move(by map[int]orb.Point) {
	to := func(p, by orb.Point) orb.Point { return orb.Point{p[0] + by[0], p[1] + by[1]} }
	moved := func(line orb.LineString, by orb.Point) orb.LineString {
		out := make(orb.LineString, len(line))
		for i, p := range line {
			out[i] = to(p, by)
		}
		return out
	}
	lines, faults := t.Lines, t.Faults
	t.Lines, t.Faults = nil, nil
	for _, l := range lines {
		if d, ok := by[l.Piece]; ok {
			l.Path = moved(l.Path, d)
			t.Lines = append(t.Lines, l)
		}
	}
	for _, f := range faults {
		if d, ok := by[f.Piece]; ok {
			f.At = to(f.At, d)
			t.Faults = append(t.Faults, f)
		}
	}
	for i, p := range t.Pieces {
		t.Pieces[i].Ring = orb.Ring(moved(orb.LineString(p.Ring), by[p.Number]))
	}
}

// bound is the box around all that is drawn.
func (t Taken) bound() orb.Bound {
	area := orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	for _, l := range t.Lines {
		area = area.Union(l.Path.Bound())
	}
	if len(t.Lines) == 0 {
		return orb.Bound{}
	}
	return area
}

// key explains the roles that occur, in lines of a width; y is where they end.
func (t Taken) key(at orb.Point, width, k float64) (items []Item, y float64) {
	used := [roleCount]bool{}
	for _, l := range t.Lines {
		used[l.Role] = true
	}
	x, y := at[0], at[1]+textNote*k/2
	for _, s := range takenSigns {
		if !used[s.role] {
			continue
		}
		long := (signLong+1.5)*k + textWidth(s.what, textNote*k)
		if x > at[0] && x+long > at[0]+width {
			x, y = at[0], y+1.5*textNote*k
		}
		items = append(items, Line{s.role, orb.LineString{{x, y}, {x + signLong*k, y}}},
			Text{Role: RoleNote, At: orb.Point{x + (signLong+1.5)*k, y}, Size: textNote * k, Body: s.what})
		x += long + signRoom*k
	}
	return items, y + textNote*k/2
}

// placed draws pieces, lines and faults.
func (t Taken) placed(at func(orb.Point) orb.Point, k float64) []Group {
	moved := func(line orb.LineString) orb.LineString {
		out := make(orb.LineString, 0, len(line))
		for i, p := range line {
			q := at(p)
			if n := len(out); n > 0 && i < len(line)-1 && math.Abs(q[0]-out[n-1][0]) < takenFine*k &&
				math.Abs(q[1]-out[n-1][1]) < takenFine*k {
				continue
			}
			out = append(out, q)
		}
		return out
	}
	var pieces, numbers []Group
	for _, p := range t.Pieces {
		ring := orb.Ring(moved(orb.LineString(p.Ring)))
		pieces = append(pieces, Group{Title: fmt.Sprintf("%d: %s", p.Number, p.Name),
			Items: []Item{Shape{Role: RolePlate, Ring: ring, Tint: p.Number}}})
		b := ring.Bound()
		size := min(takenNumber*k, (b.Max[1]-b.Min[1])/2, (b.Max[0]-b.Min[0])/2)
		numbers = append(numbers, Group{Items: []Item{Text{Role: RoleHeading, At: inner(ring), Anchor: Middle,
			Size: size, Body: fmt.Sprint(p.Number)}}})
	}
	var lines, faults []Item
	for _, l := range t.Lines {
		lines = append(lines, Line{l.Role, moved(l.Path)})
	}
	for _, f := range t.Faults {
		faults = append(faults, faultSign(at(f.At), f.Number, k)...)
	}
	return append(append(append(pieces, Group{Items: lines}), numbers...), Group{Items: faults})
}

// faultSign is a ring around a place, with a number beside it.
func faultSign(at orb.Point, n int, k float64) []Item {
	var ring orb.LineString
	for i := 0; i <= 24; i++ {
		sin, cos := math.Sincos(float64(i) * math.Pi / 12)
		ring = append(ring, orb.Point{at[0] + faultRing*k*cos, at[1] + faultRing*k*sin})
	}
	return []Item{Line{RoleFault, ring}, Text{Role: RoleCaution, At: orb.Point{at[0] + 1.4*faultRing*k,
		at[1] - faultRing*k}, Size: textNote * k, Body: fmt.Sprint(n)}}
}

// inner is a place well within a ring: the middle of the widest stretch of a few levels.
func inner(ring orb.Ring) orb.Point {
	const levels = 15
	b := ring.Bound()
	f := newFrame(ring, nil, 0)
	best, widest := b.Center(), 0.
	for i := 1; i <= levels; i++ {
		y := b.Min[1] + (b.Max[1]-b.Min[1])*float64(i)/(levels+1)
		share := 1 - math.Abs(float64(2*i)/(levels+1)-1)/2 // rather in the middle
		for _, g := range f.gaps(y, y, 0, 0) {
			if wide := (g[1] - g[0]) * share; wide > widest {
				best, widest = orb.Point{(g[0] + g[1]) / 2, y}, wide
			}
		}
	}
	return best
}
