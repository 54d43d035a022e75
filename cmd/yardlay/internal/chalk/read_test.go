package chalk

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// gore is a sector of a ring with its allowances: seams at the sides, waist and hem.
func gore(t rapid.TB, inner, outer, half, seam, waist, hem float64) orb.Ring {
	t.Helper()
	waistLine, hemLine := plane.Arc(orb.Point{}, inner, half, -half, 0.05), plane.Arc(orb.Point{}, outer, -half, half,
		0.05)
	ring, err := plane.Offset([]plane.Side{
		{Line: hemLine, Allowance: hem}, {Line: orb.LineString{hemLine[len(hemLine)-1], waistLine[0]}, Allowance: seam},
		{Line: waistLine, Allowance: waist},
		{Line: orb.LineString{waistLine[len(waistLine)-1], hemLine[0]}, Allowance: seam},
	}, plane.MitreLimit)
	if err != nil {
		t.Fatal(err)
	}
	return plane.Tidy(plane.SnapRing(ring))
}

// at moves a ring so that the centre of its arcs lies somewhere on the cloth.
func at(ring orb.Ring, pose plane.Pose) orb.Ring {
	ring = pose.Apply(ring)
	return plane.SnapRing(ring)
}

// The lines that a gore was drawn from are found again, whichever way it lies.
func TestReadFindsWhatWasDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		inner, half := number("inner", 60, 300), number("half", 0.25, 1.4)
		outer, centre := inner+number("depth", 200, 1000), orb.Point{number("x", 0, 3000), number("y", 0, 1500)}
		ring := at(gore(t, inner, outer, half, 0, 0, 0),
			plane.Pose{Mirrored: rapid.Bool().Draw(t, "mirrored"), Turn: number("turn", 0, 360), At: centre})
		sections := read(ring, nil)
		if len(sections) != 4 {
			t.Fatalf("%d sections", len(sections))
		}
		for i, s := range sections {
			if s.line[len(s.line)-1] != sections[(i+1)%4].line[0] {
				t.Errorf("section %d does not end where the next begins", i)
			}
			switch s.kind {
			case arc:
				want := outer
				if math.Abs(s.circle.radius-inner) < math.Abs(s.circle.radius-outer) {
					want = inner
				}
				if math.Abs(s.circle.radius-want) > 0.5 || distance(s.circle.centre, centre) > 0.5 {
					t.Errorf("an arc of %v about %v, drawn with %v about %v", s.circle.radius, s.circle.centre, want,
						centre)
				}
			case straight:
				if l := distance(s.line[0], s.line[1]); math.Abs(l-(outer-inner)) > 0.1 {
					t.Errorf("a side of %v, drawn %v long", l, outer-inner)
				}
			default:
				t.Errorf("section %d is of kind %d", i, s.kind)
			}
		}
	})
}

// A gore is drawn by one pivot and two strings. Eight gores of 45 degrees for a waist of 28 in
// and a length of 36: the waist lies on a radius of 28 / 2 pi = 4.456 in (common practice),
// less its allowance of 1/2 in, the hem on 40.456 and 1/2 more.
func TestGoreByPivotAndTwoStrings(t *testing.T) {
	waist := 28 * measure.Inches / (2 * math.Pi)
	ring := gore(t, waist, waist+36*measure.Inches, math.Pi/8, measure.Inches/2, measure.Inches/2, measure.Inches/2)
	tape := Tape{measure.Inch}
	for _, centre := range []orb.Point{{254, 762}, {300.1, 700.3}, {12.7, 481.13}} {
		f, err := tape.Figure(Outline{Cut: at(ring, plane.Pose{At: centre})}, table)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Pivots) != 1 || distance(tape.point(f.Pivots[0]), centre) > 1.5*tape.mark() {
			t.Fatalf("pivots %v for a centre at %v", f.Pivots, centre)
		}
		var strings []string
		for _, s := range f.Outline {
			if s.Kind == Arc {
				strings = append(strings, tape.Show(s.Radius))
			}
		}
		if len(strings) != 2 || !slices.Contains(strings, "40\u00a015/16") ||
			!slices.Contains(strings, "3\u00a015/16") {
			t.Errorf("strings of %q", strings)
		}
	}
}

// An arc whose centre lies off the cloth is measured off its chord: s = r - sqrt(r2 - a2) at
// the middle and as much less towards the ends as the circle says.
func TestArcOffTheCloth(t *testing.T) {
	const r = 1000.0
	arc := plane.Arc(orb.Point{500, -900}, r, math.Pi/2+0.3047, math.Pi/2-0.3047, 0.05) // a chord of 600
	ring := orb.Ring{{200, 350}}
	ring = append(ring, orb.Point{arc[len(arc)-1][0], 350})
	for i := range arc {
		ring = append(ring, arc[len(arc)-1-i])
	}
	ring[0] = orb.Point{arc[0][0], 350}
	ring = plane.Tidy(plane.SnapRing(append(ring, ring[0])))
	for i := range ring { // the arc bows out, above
		ring[i][1] = 2000 - ring[i][1]
	}
	ring = plane.Tidy(ring)
	tape := Tape{measure.Millimetre}
	cloth := orb.Bound{Max: orb.Point{3000, 1900}}
	f, err := tape.Figure(Outline{Cut: ring}, cloth)
	if err != nil {
		t.Fatal(err)
	}
	var found *Stroke
	for i := range f.Outline {
		if f.Outline[i].Kind == Off {
			found = &f.Outline[i]
		}
	}
	if found == nil || found.Radius != 1000 {
		t.Fatalf("no arc of 1000 in %+v", f.Outline)
	}
	chord := float64(f.chord(tape, *found))
	for i, off := range found.Off {
		x := float64(found.Step)*float64(i+1) - chord/2
		want := math.Sqrt(r*r-x*x) - math.Sqrt(r*r-chord*chord/4)
		if math.Abs(math.Abs(float64(off))-want) > 1 {
			t.Errorf("at %v it is measured off by %d, the circle has %.2f", x, off, want)
		}
	}
}

// comb is an outline of three corners a tooth and three more.
func comb(teeth int) orb.Ring {
	ring := orb.Ring{{0, 0}, {float64(teeth) * 9, 0}}
	for i := range teeth {
		x := float64(teeth-i) * 9
		ring = append(ring, orb.Point{x, 50}, orb.Point{x - 3, 90}, orb.Point{x - 6, 50})
	}
	ring = append(ring, orb.Point{0, 50})
	return append(ring, ring[0])
}

// What would take too many points is refused by its number; corners that follow a curve are
// few figures however many they are.
func TestManyCorners(t *testing.T) {
	tape := Tape{measure.Millimetre}
	cut := comb(200)
	_, err := tape.Figure(Outline{Cut: cut}, table)
	if len(cut) != 604 || err == nil || !strings.Contains(err.Error(), "more than 400 points") {
		t.Errorf("a comb of %d corners: %v", len(cut)-1, err)
	}
	l := Marker{Cloth: table, Pieces: []Piece{{Name: "comb", Outline: Outline{Cut: cut}}}}
	err = l.Figure(tape)
	if what, hint := say.Parts(err, nil); !strings.Contains(what, `piece "comb" is not for tape and chalk`) ||
		!strings.Contains(hint, "--roll") {
		t.Errorf("%q, hint %q", what, hint)
	}
	l = Marker{Cloth: table, Edge: "selvedge", Pieces: []Piece{{Name: "comb", Outline: Outline{Cut: comb(40)}}}}
	if err := l.Figure(tape); err != nil || !strings.Contains(strings.Join(l.Facts(tape), " "),
		"Long tables, of more") {
		t.Errorf("a long table is not called long: %v", err)
	}
	var smooth orb.Ring // an ellipse of 5,000 corners
	for k := range 5000 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 5000)
		smooth = append(smooth, orb.Point{1000 + 900*cos, 700 + 400*sin})
	}
	smooth = plane.SnapRing(append(smooth, smooth[0]))
	f, err := tape.Figure(Outline{Cut: smooth}, table)
	if err != nil || len(f.Places) > 20 {
		t.Errorf("an ellipse takes %d points: %v", len(f.Places), err)
	}
	if off := slowlyApart(tape.Rebuild(f), smooth[:5001:5001], 50); off > tape.Tolerance()+0.02 {
		t.Errorf("and is %.2f off", off)
	}
}

// The corner that a piece is laid by comes first in its table, however it is turned.
func TestTableBeginsAtTheCorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape, ring := tapes(t), outline(t)
		corner := Corner(ring)
		pose := plane.Pose{Mirrored: rapid.Bool().Draw(t, "also mirrored"),
			Turn: rapid.SampledFrom([]float64{0, 90, 180, 270}).Draw(t, "also turned"), At: orb.Point{6000, 1500}}
		first := pose.ApplyPoint(corner)
		f, err := tape.Figure(Outline{Cut: pose.Apply(ring), First: &first}, table)
		if err != nil {
			t.Fatal(err)
		}
		if f.Outline[0].Kind == Circle {
			if d := distance(tape.point(f.Pivots[0]), first); d > 2*tape.mark() {
				t.Errorf("a pivot %.2f mm off the centre", d)
			}
			return
		}
		if !slices.Contains(ring, corner) {
			return // a circle too small for a pivot that lies off its centre
		}
		if f.Outline[0].From != 0 || f.Places[0] != tape.round(first) {
			t.Errorf("the table begins at %v, the corner is %v", f.Places[0], tape.round(first))
		}
	})
}
