package sheet

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// textBox is the box that a text takes up, capitals and figures at least.
func textBox(t Text) orb.Ring {
	w := textWidth(t.Body, t.Size)
	if t.Role == RoleHeading {
		w *= boldness
	}
	x0 := 0.0
	if t.Anchor == Middle {
		x0 = -w / 2
	}
	ring := Box(x0, -middle*t.Size, x0+w, middle*t.Size)
	for i, p := range ring {
		q := turned(p, -t.Turn)
		ring[i] = orb.Point{t.At[0] + q[0], t.At[1] + q[1]}
	}
	return ring
}

// clash finds two texts that touch, or one that leaves the page.
func clash(d Drawing) string {
	type placed struct {
		body string
		ring orb.Ring
	}
	var all []placed
	for _, g := range d.Groups {
		for _, it := range g.Items {
			t, ok := it.(Text)
			if !ok || t.Body == "" {
				continue
			}
			p := placed{t.Body, textBox(t)}
			if b := p.ring.Bound(); b.Min[0] < 0 || b.Min[1] < 0 || b.Max[0] > d.Width || b.Max[1] > d.Height {
				return fmt.Sprintf("%q leaves the page of %.0f by %.0f: %v", p.body, d.Width, d.Height, b)
			}
			for _, q := range all {
				if touches(p.ring, q.ring) {
					return fmt.Sprintf("%q meets %q", p.body, q.body)
				}
			}
			all = append(all, p)
		}
	}
	return ""
}

func TestNoTextMeetsAnother(t *testing.T) {
	drawings := map[string]Drawing{"marker": sampleMarker().Drawing(), "pieces": samplePieces().Drawing()}
	for name, m := range lays {
		drawings[name] = m().Drawing()
	}
	for name, d := range drawings {
		if s := clash(d); s != "" {
			t.Errorf("%s: %s", name, s)
		}
	}
}

// anyStretch is a lay of rectangles in rows, with whatever there can be to it.
func anyStretch(t *rapid.T) Stretch {
	some := func(from, to float64, name string) float64 {
		if rapid.Bool().Draw(t, name+"?") {
			return rapid.Float64Range(from, to).Draw(t, name)
		}
		return 0
	}
	s := Stretch{
		Name: rapid.SampledFrom([]string{"", "remnant", "end of the bolt"}).Draw(t,
			"name"), Shelf: rapid.Bool().Draw(t, "shelf"),
		Lay: Lay(rapid.IntRange(0, 4).Draw(t, "lay")), Width: rapid.Float64Range(700, 1600).Draw(t, "width"),
		Selvedge: some(3, 25, "selvedge"), Used: rapid.Float64Range(60, 3000).Draw(t, "used"),
		Ends: some(5, 60, "ends"), Skew: some(5, 60, "skew"), Length: some(100, 5000, "length"),
		Repeat: Repeat{some(2, 700, "along"), some(2, 300, "across")},
	}
	top := s.folded() - s.below() - s.above()
	y := 0.0
	for i := range rapid.IntRange(0, 4).Draw(t, "pieces") {
		h := rapid.Float64Range(20, top/4).Draw(t, "height")
		w := rapid.Float64Range(20, s.Used).Draw(t, "length")
		p := Placed{Name: "side back gore", Copy: "left", Size: "34 1/4 x 22 1/4 in", Outline: strip(0, y, w, h, 6)}
		p.Matches = []Match{{"side seams, hip", orb.Point{w * rapid.Float64Range(0, 1).Draw(t, "at"), y + 6}},
			{"hem", orb.Point{w - 6, y + h/2}}}
		if i == 0 && (s.Lay == LengthwiseFold || s.Lay == DoubleFold) {
			p.Fold = orb.LineString{{0, 0}, {w, 0}}
		}
		s.Pieces = append(s.Pieces, p)
		y += h
	}
	if rapid.Bool().Draw(t, "flawed") {
		f := rapid.Float64Range(5, s.Used).Draw(t, "flaw")
		s.Flaws = []Flaw{{Name: "stain", Outline: Box(s.Used-f, y, s.Used, top)}}
	}
	return s
}

func TestNoTextMeetsAnotherOnAnyLay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Marker{
			Title: "Lantern Court gown", Cloth: "bridal satin, moon grey", Nap: "two-way", Width: 1500, Selvedge: 10,
			Unit: rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Centimetre}).Draw(t,
				"unit"), Cautions: []string{"Keep net from flame."},
		}
		total := 0.0
		for range rapid.IntRange(1, 3).Draw(t, "stretches") {
			m.Stretches = append(m.Stretches, anyStretch(t))
			total += m.Stretches[len(m.Stretches)-1].length()
		}
		if rapid.Bool().Draw(t, "said") {
			m.Needed, m.Bought = total, total*rapid.Float64Range(1, 1.3).Draw(t, "bought")
		}
		d := m.Drawing()
		if s := clash(d); s != "" {
			t.Fatal(s)
		}
		if _, err := d.SVG(); err != nil {
			t.Fatal(err)
		}
	})
}
