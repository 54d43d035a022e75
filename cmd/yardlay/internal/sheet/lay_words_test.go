package sheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/measure"
)

// boughtStretch is a marker of one stretch off the bolt, its layers, and what it takes at the least, mm.
func boughtStretch(t *rapid.T) (m Marker, layers, least float64) {
	s := anyStretch(t)
	s.Shelf = false
	m = Marker{Title: "gown", Cloth: "satin", Width: 1500, Selvedge: 10, Stretches: []Stretch{s},
		Unit: rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Centimetre}).Draw(t, "unit")}
	layers = 1
	if s.Lay.crosswise() {
		layers = 2
	}
	m.Bought = s.Skew + layers*(s.length()-s.Skew)
	least = s.Skew + layers*(s.Used+2*s.Ends)
	m.Needed = least + rapid.Float64Range(0, 1).Draw(t, "needed")*max(0, m.Bought-least)
	return m, layers, least
}

// What is needed is drawn as the same share of what is bought as it is; both are said, and so is what the pieces use,
// whatever else stands at the lay.
func TestNeededAndBoughtAreAsLongAsTheySay(t *testing.T) {
	needed := 0
	rapid.Check(t, func(t *rapid.T) {
		m, layers, least := boughtStretch(t)
		s, d := m.Stretches[0], m.Drawing()
		all, step := drawnOf(d), m.Unit.Millimetres()/8
		count := map[string]int{}
		for _, text := range all.texts {
			what, said, _ := strings.Cut(text.Body, " ")
			length, ok := all.dimension(text, d.Scale)
			if !ok {
				continue
			}
			count[what]++
			if said, _, _ = strings.Cut(said, " ("); what != "needed" {
				continue
			}
			length = s.Skew + layers*(length-s.Skew)
			if says, err := measure.Parse(said, m.Unit); err != nil || says < length-measure.Guard-step || says > length+step {
				t.Fatalf("%q is drawn %v mm long: %v, %v", text.Body, length, says, err)
			}
			needed++
		}
		if count["used"] != 1 || count["to"] != 1 || count["needed"] > 1 {
			t.Fatalf("dimensions %v", count)
		}
		show := func(mm float64) string { return measure.BothUp(mm, m.Unit) }
		if show(m.Needed) != show(s.Used) && count["needed"] != 1 {
			t.Fatalf("%s is needed, %s used, and dimensions are %v", show(m.Needed), show(s.Used), count)
		}
		if gap := math.Abs(m.Needed - least); s.Ends > 0 && gap > layers*d.Scale && count["with"] != 1 {
			t.Fatalf("the ends make no dimension, needed is %v more: %v", gap, count)
		}
	})
	if needed < often.Enough(30) {
		t.Errorf("needed was said %d times", needed)
	}
}

// atDimension begins what is said at the dimensions along a lay.
var atDimension = regexp.MustCompile(`^(used|with ends|needed|to buy|spread|on the shelf) `)

// seenThrough finds a length through which a line is seen: one that no ground painted over the line covers, or one that
// the line is painted over.
func seenThrough(d Drawing) string {
	var items []Item
	for _, g := range d.Groups {
		items = append(items, g.Items...)
	}
	for i, it := range items {
		w, ok := it.(Text)
		if !ok || !atDimension.MatchString(w.Body) {
			continue
		}
		box, from := textBox(w), 0
		for k, below := range items[:i] {
			ground, ok := below.(Shape)
			if ok && (ground.Role == RoleGround || ground.Role == RolePlate) && holds(ground.Ring, box) {
				from = k
			}
		}
		for _, other := range items[from:] {
			line, _ := other.(Line)
			for k := 1; k < len(line.Path); k++ {
				a, b := line.Path[k-1], line.Path[k]
				if a != b && touches(box, orb.Ring{a, b, a, b}) {
					return fmt.Sprintf("line %v of role %d runs through %q at %v", line.Path, line.Role, w.Body, box)
				}
			}
		}
	}
	return ""
}

// holds tells whether a ring has all corners of another in it, but for a hair.
func holds(ring, inner orb.Ring) bool {
	c := inner.Bound().Center()
	return !slices.ContainsFunc(inner, func(p orb.Point) bool {
		return !planar.RingContains(ring, orb.Point{p[0] + 1e-6*(c[0]-p[0]), p[1] + 1e-6*(c[1]-p[1])})
	})
}

// On any lay no line is seen through what is said at a dimension: it stands clear of them or on a ground that covers
// those painted before.
func TestNoLineIsSeenThroughALength(t *testing.T) {
	for name, m := range lays {
		if s := seenThrough(m().Drawing()); s != "" {
			t.Errorf("%s: %s", name, s)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		m, _, _ := boughtStretch(t)
		if s := seenThrough(m.Drawing()); s != "" {
			t.Fatal(s)
		}
	})
}
