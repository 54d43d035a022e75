package sheet

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// sameBound tells whether two boxes are the same but for a hair.
func sameBound(a, b orb.Bound) bool {
	return planar.Distance(a.Min, b.Min)+planar.Distance(a.Max, b.Max) < 1e-6
}

// The cloth is drawn as it lies: what is laid on with its ends, what is left beyond, the strips that are not laid on,
// the wedge that is lost where the cut end is off square; all together as the stretch itself tells it.
func TestTheClothIsDrawnAsItLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStretch(t)
		d := Marker{Title: "gown", Cloth: "satin", Width: 1500, Selvedge: 10, Unit: measure.Inch,
			Stretches: []Stretch{s}}.Drawing()
		i := slices.IndexFunc(d.Groups, func(g Group) bool { return g.Origin != nil })
		zero := *d.Groups[i].Origin
		shapes := map[Role][]orb.Ring{}
		for _, it := range d.Groups[i].Items {
			if shape, ok := it.(Shape); ok {
				var ring orb.Ring
				for _, p := range shape.Ring {
					ring = append(ring, orb.Point{p[0] - zero[0], zero[1] - p[1]})
				}
				if b := ring.Bound(); b.Max[0]-b.Min[0] > 1e-6 { // of rounding there is nothing to see
					shapes[shape.Role] = append(shapes[shape.Role], ring)
				}
			}
		}
		low, wide := -s.below(), s.Width
		if s.Lay == LengthwiseFold || s.Lay == DoubleFold {
			low, wide = 0, s.Width/2
		}
		end := s.Used + s.Ends
		far := max(end, s.Length-s.Skew-s.Ends)
		want := orb.Bound{Min: orb.Point{-s.Ends, low}, Max: orb.Point{end, low + wide}}
		if got := shapes[RoleCloth]; len(got) != 1 || !sameBound(got[0].Bound(), want) {
			t.Fatalf("the cloth laid on is drawn as %v, not %v", got, want)
		}
		spare := 0
		if far > end+1e-9 {
			want := orb.Bound{Min: orb.Point{end, low}, Max: orb.Point{far, low + wide}}
			if got := shapes[RoleSpare]; len(got) == 0 || !sameBound(got[0].Bound(), want) {
				t.Fatalf("what is left is drawn as %v, not %v", got, want)
			}
			spare++
		}
		if s.Skew > 0 {
			got := shapes[RoleSpare]
			for _, corner := range []orb.Point{{-s.Ends, low}, {-s.Ends, low + wide}, {-s.Ends - s.Skew, low + wide}} {
				if len(got) != spare+1 || len(got[spare]) != 4 || !slices.ContainsFunc(got[spare], func(p orb.Point) bool {
					return planar.Distance(p, corner) < 1e-6
				}) {
					t.Fatalf("the wedge off square is drawn as %v, without %v", got, corner)
				}
			}
			spare++
		}
		if len(shapes[RoleSpare]) != spare {
			t.Fatalf("%d parts are left, not %d", len(shapes[RoleSpare]), spare)
		}
		ground, bounds := s.Ground()
		if !sameBound(ground, orb.Bound{Min: want.Min, Max: orb.Point{far, low + wide}}) {
			t.Fatalf("the ground is %v", ground)
		}
		var strips []orb.Bound
		switch {
		case s.Selvedge == 0:
		case s.Lay == DoubleFold: // its selvedges meet along the middle
			strips = []orb.Bound{{Min: orb.Point{-s.Ends, wide/2 - s.Selvedge}, Max: orb.Point{far, wide/2 + s.Selvedge}}}
		case s.Lay == LengthwiseFold:
			strips = []orb.Bound{{Min: orb.Point{-s.Ends, wide - s.Selvedge}, Max: orb.Point{far, wide}}}
		default:
			strips = []orb.Bound{{Min: orb.Point{-s.Ends, low + wide - s.Selvedge}, Max: orb.Point{far, low + wide}},
				{Min: orb.Point{-s.Ends, low}, Max: orb.Point{far, 0}}}
		}
		if s.Lay != DoubleFold && len(shapes[RoleSelvedge]) != len(strips) {
			t.Fatalf("%d selvedges, not %d", len(shapes[RoleSelvedge]), len(strips))
		}
		for _, strip := range strips {
			if s.Lay != DoubleFold && !slices.ContainsFunc(shapes[RoleSelvedge], func(r orb.Ring) bool {
				return sameBound(r.Bound(), strip)
			}) {
				t.Fatalf("no selvedge is drawn at %v: %v", strip, shapes[RoleSelvedge])
			}
			for _, y := range []float64{strip.Min[1], strip.Max[1]} {
				inner := y > low+1e-9 && y < low+wide-1e-9
				if inner != slices.ContainsFunc(bounds, func(l orb.LineString) bool {
					return math.Abs(l[0][1]-y) < 1e-9 && l[0][1] == l[1][1] && l[0][0] == -s.Ends && math.Abs(l[1][0]-far) < 1e-6
				}) {
					t.Fatalf("what is laid on is bounded by %v, the strip is %v", bounds, strip)
				}
			}
		}
	})
}

// A notch is drawn from the seam line to the cut line, whatever way it points; where they are one it is a millimetre
// of paper outward.
func TestNotchesReachTheCutLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction")
		sin, cos := math.Sincos(a)
		var cut, seam orb.Ring
		const allowance = 15.0
		for i := range 13 {
			s, c := math.Sincos(2 * math.Pi * float64(i%12) / 12)
			seam = append(seam, orb.Point{200 * c, 200 * s})
			cut = append(cut, orb.Point{(200 + allowance) * c, (200 + allowance) * s})
		}
		at := orb.Point{190 * cos, 190 * sin}
		for planar.RingContains(seam, at) {
			at = orb.Point{at[0] + 0.05*cos, at[1] + 0.05*sin}
		}
		n := Notch{At: at, Outward: orb.Point{cos, sin}}
		o := Outline{Cut: cut, Seam: seam, Notches: []Notch{n}}
		walked := 0.0
		for planar.RingContains(cut, orb.Point{at[0] + walked*cos, at[1] + walked*sin}) {
			walked += 0.05
		}
		if got := o.Reach(n); math.Abs(got-walked) > 0.051 {
			t.Fatalf("it reaches %v, walked %v", got, walked)
		}
		line := o.items(0, 3)[2].(Line)
		if line.Role != RoleNotch || line.Path[0] != at || planar.DistanceFrom(orb.LineString(cut), line.Path[1]) > 1e-6 {
			t.Fatalf("it is drawn as %v", line)
		}
		bare := Outline{Cut: cut, Notches: []Notch{{At: line.Path[1], Outward: n.Outward}}}
		if got := bare.items(0, 3)[1].(Line).Path; math.Abs(planar.Distance(got[0], got[1])-3) > 1e-9 ||
			bare.Reach(bare.Notches[0]) != 0 || planar.RingContains(cut, got[1]) {
			t.Fatalf("on a bare edge it is drawn as %v", got)
		}
	})
	if got := (Outline{Cut: Box(0, 0, 9, 9)}).Reach(Notch{At: orb.Point{20, 5}, Outward: orb.Point{1, 0}}); got != 0 {
		t.Errorf("away from the piece it reaches %v", got)
	}
}

// Match points are drawn as a ring with a cross where they lie; each that has a name has its letter beside it, in the
// piece, off all marks and all other letters.
func TestMatchPointsHaveTheirLettersBeside(t *testing.T) {
	named, left := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.5, 4).Draw(t, "scale")
		o := Outline{Cut: orb.Ring{{0, 0}, {400, 0}, {360, 300}, {40, 260}, {0, 0}}, Seam: orb.Ring{{15, 15}, {380, 15},
			{346, 284}, {52, 246}, {15, 15}}, Grain: orb.LineString{{80, 140}, {300, 140}}}
		var points []Match
		for i := range rapid.IntRange(1, 5).Draw(t, "points") {
			at := orb.Point{rapid.Float64Range(10, 380).Draw(t, "x"), rapid.Float64Range(10, 280).Draw(t, "y")}
			name := rapid.SampledFrom([]string{"", fmt.Sprint(i), fmt.Sprint("A", i)}).Draw(t, "name")
			points = append(points, Match{name, at})
		}
		items, clear := matchItems(points, o, 4, k)
		var lines []orb.LineString
		for i, m := range points {
			ring, level, upright := items[3*i].(Line), items[3*i+1].(Line), items[3*i+2].(Line)
			for _, p := range ring.Path {
				if math.Abs(planar.Distance(p, m.At)-1.1*k) > 1e-6 {
					t.Fatalf("the ring about %v runs through %v", m.At, p)
				}
			}
			for _, l := range []Line{level, upright} {
				if math.Abs(planar.Distance(l.Path[0], l.Path[1])-3.8*k) > 1e-6 || planar.DistanceFrom(l.Path, m.At) > 1e-6 {
					t.Fatalf("the cross at %v has %v", m.At, l.Path)
				}
				lines = append(lines, l.Path)
			}
		}
		var boxes []orb.Ring
		said := map[string]bool{}
		for i := 3 * len(points); i < len(items); i += 2 {
			plate, w := items[i].(Shape), items[i+1].(Text)
			said[w.Body] = true
			n := slices.IndexFunc(points, func(m Match) bool { return m.Name == w.Body })
			box := textBox(w)
			if d := planar.Distance(w.At, points[n].At); math.Abs(d-3.3*k) > 1e-6 || !planar.RingContains(o.Cut, w.At) {
				t.Fatalf("%q stands at %v, its point lies at %v", w.Body, w.At, points[n].At)
			}
			if plate.Role != RolePlate || plate.Tint != 4 || !holds(plate.Ring, box) {
				t.Fatalf("%q stands on %v", w.Body, plate)
			}
			for _, other := range boxes {
				if touches(box, other) {
					t.Fatalf("%q meets another letter", w.Body)
				}
			}
			if c := w.At; !slices.ContainsFunc(clear, func(l orb.LineString) bool { return planar.DistanceFrom(l, c) < 1e-6 }) {
				t.Fatalf("a label may stand on %q", w.Body)
			}
			boxes = append(boxes, box)
		}
		for _, m := range points {
			if m.Name == "" {
				continue
			}
			if named++; !said[m.Name] {
				left++
			}
		}
		if len(clear) < 2*len(points) {
			t.Fatalf("%d lines of %d crosses are kept clear", len(clear), len(lines))
		}
	})
	if left > named/2 {
		t.Errorf("%d letters of %d had no room", left, named)
	}
}
