package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// ruleStep is how near to each other the lines of a repeat are drawn at most, mm
// of paper.
const ruleStep = 1.5

// every is how many repeats lie between two lines that are drawn, at a scale.
func every(repeat, k float64) float64 { return math.Max(1, math.Ceil(ruleStep*k/repeat)) }

// ruling draws the lines of the repeat inside a ring on the page; origin is the
// point where the repeat starts.
func (r Repeat) ruling(ring orb.Ring, origin orb.Point, k float64) []Item {
	var items []Item
	add := func(repeat, angle float64) {
		if !(repeat > 0) || math.IsInf(repeat, 1) { // none, or not a number
			return
		}
		for _, l := range ruled(ring, origin, angle, repeat*every(repeat, k)) {
			items = append(items, Line{RoleRepeat, l})
		}
	}
	add(r.Along, 90)
	add(r.Across, 0)
	return items
}

// sign says how the repeat is drawn, as part of the key of signs.
func (r Repeat) sign(k float64) string {
	one := func(repeat float64, way string) string {
		switch n := every(repeat, k); {
		case !(repeat > 0):
			return ""
		case n > 1:
			return fmt.Sprintf(" %s, one line for %.0f repeats", way, n)
		}
		return " " + way
	}
	along, across := one(r.Along, "along"), one(r.Across, "across")
	if along != "" && across != "" {
		along += " and"
	}
	return "faint lines, repeat" + along + across
}

// Letters gives the names of match points one letter each, in order.
type Letters struct {
	of    map[string]string
	names []string
}

// Of is the letter of a name: A to Z, then A1 and so on; "" has none.
func (l *Letters) Of(name string) string {
	if name == "" {
		return ""
	}
	if l.of == nil {
		l.of = map[string]string{}
	}
	if l.of[name] == "" {
		n := len(l.names)
		l.names = append(l.names, name)
		l.of[name] = string(rune('A' + n%26))
		if n >= 26 {
			l.of[name] += strconv.Itoa(n / 26)
		}
	}
	return l.of[name]
}

// Match marks in mm of paper.
const (
	markRadius = 1.1
	markReach  = 1.9 // of the cross
	markText   = 2.4
)

// matchItems draws the match points of a piece that is on the page already, each with its
// letter, as it is named, inside the piece, and returns what a label keeps clear of.
func matchItems(points []Match, o Outline, tint int, k float64) (items []Item, clear []orb.LineString) {
	for _, m := range points {
		x, y := m.At[0], m.At[1]
		var circle orb.LineString
		for i := range 17 {
			d := turned(orb.Point{markRadius * k, 0}, float64(i%16)*22.5)
			circle = append(circle, orb.Point{x + d[0], y + d[1]})
		}
		level, upright := orb.LineString{{x - markReach*k, y},
			{x + markReach*k, y}}, orb.LineString{{x, y - markReach*k}, {x, y + markReach*k}}
		items = append(items, Line{RoleMatch, circle}, Line{RoleMatch, level}, Line{RoleMatch, upright})
		clear = append(clear, level, upright)
	}
	var taken []orb.Point // by letters
	for _, m := range points {
		if m.Name == "" {
			continue
		}
		w, h := textWidth(m.Name, markText*k)/2, markText*k/2
		if at, ok := letterPlace(m.At, o, clear, taken, math.Hypot(w, h), k); ok {
			ground := Box(at[0]-w, at[1]-h, at[0]+w, at[1]+h)
			taken, clear = append(taken, at), append(clear, filled(ground)...)
			items = append(items, Shape{Role: RolePlate, Ring: ground, Tint: tint},
				Text{Role: RoleNote, At: at, Anchor: Middle, Size: markText * k, Body: m.Name})
		}
	}
	return items, clear
}

// filled gives a box, its diagonals and its middle lines: nothing that can be read
// fits between them.
func filled(b orb.Ring) []orb.LineString {
	c := b.Bound().Center()
	return []orb.LineString{{b[0], b[1], b[2], b[3], b[0], b[2]}, {b[1], b[3]}, {{b[0][0], c[1]}, {b[2][0], c[1]}},
		{{c[0], b[0][1]}, {c[0], b[2][1]}}}
}

// letterPlace looks around a mark for the place of its letter, of a radius: in
// the piece, off other letters, and as far as can be from the piece's lines and
// from what is kept clear.
func letterPlace(mark orb.Point, o Outline, clear []orb.LineString, taken []orb.Point, radius, k float64) (orb.Point,
	bool) {
	lines := slices.Concat([]orb.LineString{orb.LineString(o.Cut), orb.LineString(o.Seam), o.Grain}, clear, o.Inside)
	best, room := orb.Point{}, 0.7*radius // the corners of a letter's circle are empty
	for i := range 16 {
		d := turned(orb.Point{(markReach + 1.4) * k, 0}, float64(i)*22.5)
		at := orb.Point{mark[0] + d[0], mark[1] + d[1]}
		near := func(p orb.Point) bool { return planar.Distance(p, at) < 2*radius }
		if len(o.Cut) < 4 || !planar.RingContains(o.Cut, at) || slices.ContainsFunc(taken, near) {
			continue
		}
		nearest := math.Inf(1)
		for _, l := range lines {
			for j := 1; j < len(l); j++ {
				nearest = math.Min(nearest, planar.DistanceFromSegment(l[j-1], l[j], at))
			}
		}
		if nearest > room {
			best, room = at, nearest
		}
	}
	return best, room > 0.7*radius
}
