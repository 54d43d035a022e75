package job

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Flaw is a place on a cloth that no piece may cover.
type Flaw struct {
	// Outline is closed, counter-clockwise and simple, mm as given in the file: x
	// from the cut end, y from the lower edge of the full width, selvedge included.
	Outline orb.Ring
	At      strict.Position
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
	for i, n := range t.InlineTables("flaws", flawExample, maxFlaws) {
		f := t.within("flaws", n, label("flaw", "", i)+" of "+t.Name)
		outline := f.flawOutline(within)
		f.Finish()
		if outline != nil {
			flaws = append(flaws, Flaw{outline, n.At})
		}
	}
	return flaws
}

// flawOutline reads one flaw, a rectangle or an outline; nil when it is wrong.
func (t *table) flawOutline(within extent) orb.Ring {
	if !t.Has("outline") {
		return t.flawRectangle(within)
	}
	for _, key := range []string{"from", "to", "low", "high"} {
		if t.Has(key) {
			t.Fail(t.Field(key).At, "give a rectangle or an outline", "%s has both `outline` and `%s`", t.Name, key)
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
		t.Fail(t.Field("outline").Value.At, "corners in the order in which a pencil runs round the flaw, three or more",
			"%s: %v", t.Name, err)
		return nil
	}
	return ring
}

// flawRectangle reads a flaw from one place along the cloth to another; without
// `low` and `high` it goes right across.
func (t *table) flawRectangle(within extent) orb.Ring {
	wrong := len(t.Errors)
	for _, key := range []string{"from", "to"} {
		if !t.Has(key) {
			t.Need(key, "both are measured from the cut end: "+flawExample)
		}
	}
	from, to := t.LengthOr("from", 0), t.LengthOr("to", 0)
	low, high := t.LengthOr("low", 0), t.LengthOr("high", within.width)
	if len(t.Errors) > wrong {
		return nil
	}
	t.rises("from", from, "to", to)
	if within.width > 0 {
		t.rises("low", low, "high", high)
	}
	corners := []orb.Point{{from, low}, {to, low}, {to, high}, {from, high}}
	if len(t.Errors) > wrong || !t.inside(corners, within) {
		return nil
	}
	return append(orb.Ring(corners), corners[0])
}

// rises refuses a stretch that ends where it begins, or before.
func (t *table) rises(first string, a float64, last string, b float64) {
	if a < b {
		return
	}
	at := t.Value.At
	for _, key := range []string{first, last} {
		if f := t.Field(key); f != nil {
			at = f.Value.At
		}
	}
	t.Fail(at, "`"+first+"` is the smaller one", "%s: `%s` is %s, `%s` is %s: nothing lies between", t.Name,
		first, t.Show(a), last, t.Show(b))
}

// corners reads the points of an outline.
func (t *table) corners() (points []orb.Point, ok bool) {
	const example = `[["12","3"],["14","3"],["13","5"]]`
	v := t.Field("outline").Value
	if v.Kind != strict.KindList || len(v.Items) < 3 || len(v.Items) > maxCorners {
		t.Wrong("outline", v, "a list of points, three or more", example)
		return nil, false
	}
	for _, item := range v.Items {
		if item.Kind != strict.KindList || len(item.Items) != 2 {
			t.Fail(item.At, "how far along the cloth and how far across: outline = "+example,
				"`outline`: each point is a list of two lengths")
			return nil, false
		}
		x, good := t.LengthOf("outline", item.Items[0])
		y, fine := t.LengthOf("outline", item.Items[1])
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
		t.Fail(t.Value.At, "measured from the lower edge, selvedge included", "%s lies up to %s across, %s is %s wide",
			t.Name,
			t.Show(y), within.called, t.Show(within.width))
		return false
	case x > limit && within.length == 0:
		t.Fail(t.Value.At, "leave it out", "%s lies up to %s along, no lay is longer than %s", t.Name,
			t.Show(x), t.Show(limit))
		return false
	case x > limit:
		t.Fail(t.Value.At, "measured from the cut end", "%s lies up to %s along, %s is %s long", t.Name,
			t.Show(x), within.called, t.Show(limit))
		return false
	}
	return true
}
