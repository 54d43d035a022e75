package job

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/plane"
)

// leftover reads one [[leftover]].
func (r *reader) leftover(n *strict.Value, index int, w *Workroom) Leftover {
	t := r.table(n, label("leftover", "", index), leftoverKeys)
	l := Leftover{Have: Have{At: n.At}}
	l.Name = t.named("leftover", index, &l.At)
	l.Cloth = t.must("cloth", "the id of its cloth")
	of, ok := w.Cloth(l.Cloth)
	if !ok && l.Cloth != "" && !slices.Contains(r.unsaid, l.Cloth) {
		t.Fail(t.Field("cloth").Value.At, clothHint(l.Cloth, w.Cloths), "%s: there is no cloth %q", t.Name,
			shortened(l.Cloth))
	}
	l.Washed = t.Truth("washed", false)
	l.sized(t, of)
	l.Lot, _, _ = t.Text("lot")
	l.On = t.date("on")
	l.From, _ = t.jobFile("from")
	l.Promised, _ = t.jobFile("promised")
	l.Used, _ = t.jobFile("used")
	t.Finish()
	return l
}

// sized reads what is left: a rectangle or an outline, and its flaws.
func (l *Leftover) sized(t *table, of Cloth) {
	if !t.Has("outline") {
		l.Length = t.MustLength("length", "40")
		l.Width = t.LengthOr("width", 0)
		l.narrow(t, of)
		l.Flaws = t.flaws(l.extent(of))
		return
	}
	for _, key := range []string{"length", "width"} {
		if t.Has(key) {
			t.Fail(t.Field(key).At, "give length and width, or an outline", "%s has both `outline` and `%s`", t.Name, key)
		}
	}
	l.Outline = t.leftoverOutline()
	if l.Outline == nil {
		return
	}
	bound := l.Outline.Bound()
	l.Length, l.Width = bound.Max[0], bound.Max[1]
	most := of.broadest()
	if l.Washed { // a cloth may grow in the wash
		most *= 1 + of.Shrinkage.Weft
	}
	if most > 0 && l.Width > most+plane.Lattice {
		t.Fail(t.Field("outline").Value.At, "millimetres, from the lower selvedge side",
			"%s lies up to %s across, the cloth is %s wide", t.Name, t.Show(l.Width), t.Show(most))
	}
	l.Flaws = t.flaws(l.extent(of))
}

// Most outlines that one cloth of a job leaves: more than are worth a label.
const mostLeft = 1000

// Most corners of the outline of a leftover: twenty pieces leave less between them.
const mostLeftCorners = 400

const leftoverHint = "millimetres along the grain and across it, three corners or more: " +
	"outline = [[0, 0], [900, 0], [900, 400]]"

// leftoverOutline reads the corners of a leftover, closed and counter-clockwise; nil where
// they are wrong. They are millimetres whatever the book counts in.
func (t *table) leftoverOutline() orb.Ring {
	v := t.Field("outline").Value
	if v.Kind != strict.KindList || len(v.Items) < 3 || len(v.Items) > mostLeftCorners {
		t.Fail(v.At, leftoverHint, "`outline` must be a list of points, 3 to %d", mostLeftCorners)
		return nil
	}
	var ring orb.Ring
	for _, item := range v.Items {
		if item.Kind != strict.KindList || len(item.Items) != 2 || item.Items[0].Kind != strict.KindNumber ||
			item.Items[1].Kind != strict.KindNumber {
			t.Fail(item.At, leftoverHint, "`outline`: each point is a list of two numbers")
			return nil
		}
		p := orb.Point{item.Items[0].Number, item.Items[1].Number}
		if !(p[0] >= 0 && p[1] >= 0 && math.Max(p[0], p[1]) <= longestLay) {
			t.Fail(item.At, leftoverHint, "`outline`: a corner at %g, %g is not on any cloth", p[0], p[1])
			return nil
		}
		ring = append(ring, p)
	}
	if ring[0] != ring[len(ring)-1] {
		ring = append(ring, ring[0])
	}
	if plane.Area(ring) < 0 {
		slices.Reverse(ring)
	}
	if err := plane.CheckSimple(ring); err != nil {
		t.Fail(v.At, "corners in the order in which a pencil runs round it", "%s: %v", t.Name, err)
		return nil
	}
	return ring
}

// clothHint says which cloths there are.
func clothHint(id string, cloths []Cloth) string {
	if hint := strict.OneOf(id, clothIDs(cloths)); hint != "" {
		return hint
	}
	return "give it a [[cloth]] table with that id"
}
