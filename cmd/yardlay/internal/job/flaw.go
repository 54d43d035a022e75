package job

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Flaw is a place on a cloth that no piece may cover.
type Flaw struct {
	// Outline is closed, counter-clockwise and simple, mm as given in the file: x
	// from the cut end, y from the lower edge of the full width, selvedge included.
	Outline orb.Ring
	At      Position
}

// extent is what flaws have to lie in, mm; 0 where it is not known.
type extent struct {
	length, width float64
	called        string // how messages call it
}

// longestLay is farther from the cut end than any lay reaches, mm.
const longestLay = 60 * measure.Metres

// Most flaws of a cloth, and points of the outline of one.
const maxFlaws, maxCorners = 100, 100

const flawExample = `{ from = "12", to = "14", low = "3", high = "5" }`

// flaws reads the places that no piece may cover. Those of a cloth as bought
// have no length to lie in.
func (t *table) flaws(within extent) []Flaw {
	var flaws []Flaw
	for i, n := range t.inlineTables("flaws", flawExample, maxFlaws) {
		f := t.table(n, label("flaw", "", i)+" of "+t.name)
		outline := f.flawOutline(within)
		f.finish()
		if outline != nil {
			flaws = append(flaws, Flaw{outline, n.at})
		}
	}
	return flaws
}

// flawOutline reads one flaw, a rectangle or an outline; nil when it is wrong.
func (t *table) flawOutline(within extent) orb.Ring {
	if !t.has("outline") {
		return t.flawRectangle(within)
	}
	for _, key := range []string{"from", "to", "low", "high"} {
		if t.has(key) {
			t.fail(t.field(key).at, "give a rectangle or an outline", "%s has both `outline` and `%s`", t.name, key)
			return nil
		}
	}
	points, ok := t.corners()
	if !ok || !t.inside(points, within) {
		return nil
	}
	ring := orb.Ring(points)
	if len(ring) > 0 && ring[0] != ring[len(ring)-1] {
		ring = append(ring, ring[0])
	}
	if plane.Area(ring) < 0 {
		slices.Reverse(ring)
	}
	if err := plane.CheckSimple(ring); err != nil {
		t.fail(t.field("outline").value.at, "corners in the order in which a pencil runs round the flaw, three or more", "%s: %v", t.name, err)
		return nil
	}
	return ring
}

// flawRectangle reads a flaw from one place along the cloth to another; without
// `low` and `high` it goes right across.
func (t *table) flawRectangle(within extent) orb.Ring {
	wrong := len(t.errors)
	for _, key := range []string{"from", "to"} {
		if !t.has(key) {
			t.need(key, "both are measured from the cut end: "+flawExample)
		}
	}
	from, to := t.lengthOr("from", 0, measure.ParseNonNegative), t.lengthOr("to", 0, measure.ParseNonNegative)
	low, high := t.lengthOr("low", 0, measure.ParseNonNegative), t.lengthOr("high", within.width, measure.ParseNonNegative)
	if len(t.errors) > wrong {
		return nil
	}
	t.rises("from", from, "to", to)
	if within.width > 0 {
		t.rises("low", low, "high", high)
	}
	corners := []orb.Point{{from, low}, {to, low}, {to, high}, {from, high}}
	if len(t.errors) > wrong || !t.inside(corners, within) {
		return nil
	}
	return append(orb.Ring(corners), corners[0])
}

// rises refuses a stretch that ends where it begins, or before.
func (t *table) rises(first string, a float64, last string, b float64) {
	if a < b {
		return
	}
	at := t.node.at
	for _, key := range []string{first, last} {
		if f := t.field(key); f != nil {
			at = f.value.at
		}
	}
	t.fail(at, "`"+first+"` is the smaller one", "%s: `%s` is %s, `%s` is %s: nothing lies between", t.name,
		first, t.show(a), last, t.show(b))
}

// corners reads the points of an outline.
func (t *table) corners() (points []orb.Point, ok bool) {
	const example = `[["12","3"],["14","3"],["13","5"]]`
	v := t.field("outline").value
	if v.kind != kindList || len(v.items) < 3 || len(v.items) > maxCorners {
		t.wrong("outline", v, "a list of points, three or more", example)
		return nil, false
	}
	for _, item := range v.items {
		if item.kind != kindList || len(item.items) != 2 {
			t.fail(item.at, "how far along the cloth and how far across: outline = "+example, "`outline`: each point is a list of two lengths")
			return nil, false
		}
		x, good := t.lengthOf("outline", item.items[0], measure.ParseNonNegative)
		y, fine := t.lengthOf("outline", item.items[1], measure.ParseNonNegative)
		if !good || !fine {
			return nil, false
		}
		points = append(points, orb.Point{x, y})
	}
	return points, true
}

// inside refuses a flaw that does not lie on the cloth. An extent of 0 is not
// known, for its own value is wrong.
func (t *table) inside(points []orb.Point, within extent) bool {
	x, y := 0.0, 0.0
	for _, p := range points {
		x, y = math.Max(x, p[0]), math.Max(y, p[1])
	}
	limit := within.length
	if limit == 0 {
		limit = longestLay
	}
	switch {
	case within.width > 0 && y > within.width:
		t.fail(t.node.at, "measured from the lower edge, selvedge included", "%s lies up to %s across, %s is %s wide", t.name,
			t.show(y), within.called, t.show(within.width))
		return false
	case x > limit && within.length == 0:
		t.fail(t.node.at, "leave it out", "%s lies up to %s along, no lay is longer than %s", t.name,
			t.show(x), t.show(limit))
		return false
	case x > limit:
		t.fail(t.node.at, "measured from the cut end", "%s lies up to %s along, %s is %s long", t.name,
			t.show(x), within.called, t.show(limit))
		return false
	}
	return true
}
