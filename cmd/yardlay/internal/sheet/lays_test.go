package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// halfGore is half of an invented gore at a place along the cloth, its fold edge
// on y = 0 or, upside down, on y = fold.
func halfGore(name string, x, fold float64) Placed {
	o := Outline{
		Cut:   orb.Ring{{x, 0}, {x + 900, 0}, {x + 890, 300}, {x, 90}, {x, 0}},
		Seam:  orb.Ring{{x + 12, 0}, {x + 880, 0}, {x + 871, 283}, {x + 12, 80}, {x + 12, 0}},
		Grain: orb.LineString{{x + 300, 90}, {x + 700, 90}},
	}
	edge := orb.LineString{{x, 0}, {x + 900, 0}}
	if fold > 0 {
		for _, line := range [][]orb.Point{o.Cut, o.Seam, o.Grain, edge} {
			for i := range line {
				line[i][1] = fold - line[i][1]
			}
		}
		o.Cut.Reverse()
		o.Seam.Reverse()
	}
	return Placed{Name: name, Size: "35 1/2 x 11 3/4 in", Fold: edge, Outline: o}
}

func copyAt(name, copy string, o Outline) Placed {
	return Placed{Name: name, Copy: copy, Size: "36 1/4 x 23 5/8 in", Outline: o}
}

// lengthwise is a lay on the fold, the odd piece on an open stretch behind it,
// and two pieces from the shelf, one of them with a flaw.
func lengthwise() Marker {
	return Marker{
		Title: "Lantern Court gown", Cloth: "bridal satin, moon grey", Nap: "two-way", Width: 60 * in, Selvedge: in / 2,
		Needed: 2342, Bought: 2400.3, Unit: measure.Inch, Notes: []string{"spare 5 %"},
		Cautions: []string{"Blades: cut away from the hand."},
		Stretches: []Stretch{
			{Lay: LengthwiseFold, Used: 1620, Ends: in, Skew: 19, Pieces: []Placed{
				halfGore("centre front gore", 0, 0),
				copyAt("side front gore", "both", gore(700, 145)),
				{Name: "placket facing", Size: "14 x 3 in", Outline: strip(40, 660, 356, 76, 12)},
				{Name: "loop", Size: "2 x 1/2 in", Outline: strip(420, 660, 51, 13, 3)},
				{Name: "bow half", Size: "3 x 3 in", Fold: orb.LineString{{960, 0}, {1036, 0}},
					Outline: Outline{Cut: Box(960, 0, 1036, 76)}},
			}},
			{Lay: Open, Used: 490, Ends: in, Pieces: []Placed{
				{Name: "train panel", Size: "19 1/4 x 55 in", Outline: strip(0, 0, 490, 1400, 12)},
			}},
			{Name: "remnant", Shelf: true, Width: 30 * in, Used: 800, Ends: in / 2, Length: 40 * in, Pieces: []Placed{
				{Name: "waistband", Size: "31 1/2 x 3 3/4 in", Outline: creased(strip(0, 10, 800, 95, 12.7))},
			}, Flaws: []Flaw{{Outline: Box(200, 300, 420, 520)},
				{Name: "stain", Outline: orb.Ring{{650, 400}, {720, 420}, {690, 480}, {650, 400}}}}},
		},
	}
}

func crosswise(l Lay) Marker {
	nap := "two-way"
	if l == CrosswiseTurned {
		nap = "one-way"
	}
	return Marker{
		Title: "Lantern Court gown", Cloth: "silk velvet, ink", Nap: nap, OneWay: nap == "one-way", Width: 45 * in,
		Unit: measure.Inch, Needed: 2 * 1991.6 * 1.01, Bought: 4 * 1028.7,
		Stretches: []Stretch{{Lay: l, Used: 1890, Ends: 2 * in, Length: 2 * 1028.7, Pieces: []Placed{
			copyAt("side front gore", "both", gore(0, 10)), copyAt("side back gore", "both", gore(960, 10)),
		}}},
	}
}

func double() Marker {
	return Marker{
		Title: "Lantern Court gown", Cloth: "lining", Nap: "two-way", Width: 150 * 10, Selvedge: 15,
		Unit: measure.Centimetre, Needed: 940, Bought: 1000,
		Stretches: []Stretch{{Lay: DoubleFold, Used: 900, Ends: 20, Length: 1000, Pieces: []Placed{
			halfGore("centre front gore", 0, 0), halfGore("centre back gore", 0, 750),
		}}},
	}
}

func repeats() Marker {
	a, b := copyAt("side front gore", "left", gore(0, 10)), copyAt("side front gore", "right", gore(960, 30))
	a.Matches = []Match{{"side seams, hip", orb.Point{446, 134}}, {"hem, centre", orb.Point{900, 310}}}
	b.Matches = []Match{{"side seams, hip", orb.Point{1406, 154}}, {"", orb.Point{972, 400}}}
	band := Placed{Name: "waistband", Size: "31 1/2 x 3 3/4 in", Outline: strip(0, 700, 800, 95, 12.7),
		Matches: []Match{{"waist, centre front", orb.Point{400, 712.7}}}}
	return Marker{
		Title: "Lantern Court gown", Cloth: "checked wool", Nap: "one-way", OneWay: true, Width: 58 * in,
		Selvedge: in / 2, Unit: measure.Inch, Needed: 1950, Bought: 2057.4,
		Stretches: []Stretch{{Lay: Open, Used: 1880, Length: 2057.4, Repeat: Repeat{Along: 120, Across: 96},
			Pieces: []Placed{a, b, band}}},
	}
}

// striped has a stripe too fine for the scale, and flaws on a folded lay.
func striped() Marker {
	return Marker{
		Title: "Lantern Court gown", Cloth: "striped cotton", Nap: "two-way", Width: 45 * in, Selvedge: in / 4,
		Unit: measure.Inch,
		Stretches: []Stretch{{Name: "end of the bolt", Shelf: true, Lay: LengthwiseFold, Used: 950, Ends: 10, Skew: 12,
			Length: 1000, Repeat: Repeat{Along: 3.2}, Pieces: []Placed{
				halfGore("centre front gore", 0, 0)}, Flaws: []Flaw{
				{Name: "hole, lower layer", Outline: Box(300, 350, 560, 480)},
				{Name: "hole, upper layer", Outline: Box(700, 330, 760, 540)}}, Notes: []string{"Washed before cutting."}}},
	}
}

var lays = map[string]func() Marker{
	"lengthwise.svg": lengthwise, "double.svg": double, "repeats.svg": repeats, "striped.svg": striped,
	"crosswise.svg":        func() Marker { return crosswise(CrosswiseFold) },
	"crosswise-turned.svg": func() Marker { return crosswise(CrosswiseTurned) },
}

func TestLayGoldens(t *testing.T) {
	for name, marker := range lays {
		golden(t, name, marker().Drawing())
	}
}

// A marker whose only stretch is open and plain is the plain marker, to the byte.
func TestPlainStretchIsThePlainMarker(t *testing.T) {
	plain := sampleMarker()
	m := sampleMarker()
	m.Stretches = []Stretch{{Used: m.Used, Length: m.Bought, Pieces: m.Pieces}}
	m.Pieces, m.Used = nil, 0
	if diff := cmp.Diff(string(svg(t, plain.Drawing())), string(svg(t, m.Drawing()))); diff != "" {
		t.Errorf("another drawing:\n%s", diff)
	}
}

func TestLaysSayEverything(t *testing.T) {
	for name, want := range map[string][]string{
		"lengthwise.svg": {"fold", "selvedges", "on the fold",
			"remnant, from the shelf: open lay, cloth 30 in (76.2 cm) wide", "on the shelf 40 in (101.6 cm)", "flaw",
			"needed 92 1/4 in (234.2 cm)", "cut end, 3/4 in off square"},
		"crosswise.svg":        {"cut ends", "fold", "to buy 4 1/2 yd (4.12 m), both layers"},
		"crosswise-turned.svg": {"fold: cut along it, turn the upper layer"},
		"double.svg": {"selvedges meet: do not cut across", "folded 75.0 cm (29 1/2 in)",
			"needed 94.0 cm (37 1/8 in)"},
		"repeats.svg": {"A", "A = side seams, hip", "B = hem, centre", "C = waist, centre front"},
		"striped.svg": {"nothing to buy", "along, one line for 2 repeats", "hole, lower layer"},
	} {
		said := texts(t, svg(t, lays[name]().Drawing()), "text")
		for _, w := range want {
			found := false
			for _, s := range said {
				found = found || s == w || len(w) > 12 && strings.Contains(s, w)
			}
			if !found {
				t.Errorf("%s does not say %q in %q", name, w, said)
			}
		}
	}
}

// What is not a finite number is refused, wherever it stands.
func TestNoSuchNumberOnALay(t *testing.T) {
	for name, spoil := range map[string]func(*Stretch){
		"flaw":         func(s *Stretch) { s.Flaws[0].Outline[1][0] = math.NaN() },
		"endless flaw": func(s *Stretch) { s.Flaws[0].Outline[1][0] = math.Inf(1) },
		"match":        func(s *Stretch) { s.Pieces[0].Matches[0].At[1] = math.NaN() },
		"fold":         func(s *Stretch) { s.Pieces[0].Fold[1][0] = math.NaN() },
		"ends":         func(s *Stretch) { s.Ends = math.Inf(1) },
		"skew":         func(s *Stretch) { s.Skew = math.NaN() },
		"width":        func(s *Stretch) { s.Width = math.Inf(1) },
		"length":       func(s *Stretch) { s.Length = math.Inf(1) },
	} {
		m := striped()
		s := &m.Stretches[0]
		s.Width, s.Pieces[0].Matches = m.Width, []Match{{"hem", orb.Point{880, 100}}}
		spoil(s)
		if b, err := m.Drawing().SVG(); err == nil || b != nil {
			t.Errorf("%s: drawn with a number that is not finite: %v", name, err)
		}
	}
}

// A lay with nothing on it, nothing said and nothing bought is still a drawing,
// and so is one whose rings and folds are empty.
func TestOddLays(t *testing.T) {
	for l := Open; l <= DoubleFold; l++ {
		m := Marker{Width: 1000, Stretches: []Stretch{{Lay: l}, {Lay: l, Used: 10, Pieces: []Placed{{Name: "nothing",
			Fold: orb.LineString{{0, 0}, {5, 0}}, Matches: []Match{{"a", orb.Point{}}}}}, Flaws: []Flaw{{}}}}}
		if s := clash(m.Drawing()); s != "" {
			t.Errorf("%s: %s", layNames[l], s)
		}
		texts(t, svg(t, m.Drawing()), "text")
	}
}

// A pair counts twice, what lies on the fold once.
func TestPiecesAreCountedAsCut(t *testing.T) {
	for name, want := range map[string]string{"lengthwise.svg": "10 pieces", "double.svg": "2 pieces",
		"crosswise.svg": "4 pieces", "repeats.svg": "3 pieces"} {
		if d := lays[name]().Drawing(); !strings.HasPrefix(d.Description, want+" on ") {
			t.Errorf("%s: %q, want %s", name, d.Description, want)
		}
	}
}

// Hatching lies inside its ring, and no two of its lines are nearer than the step.
func TestRuledStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := star(t)
		angle := rapid.Float64Range(-90, 90).Draw(t, "angle")
		through := orb.Point{rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")}
		step := rapid.Float64Range(5, 300).Draw(t, "step")
		for _, l := range ruled(ring, through, angle, step) {
			if mid := (orb.Point{(l[0][0] + l[1][0]) / 2, (l[0][1] + l[1][1]) / 2}); math.Hypot(l[1][0]-l[0][0],
				l[1][1]-l[0][1]) > 1e-6 && !planar.RingContains(ring, mid) {
				t.Fatalf("%v lies outside of %v", l, ring)
			}
			if n := (turned(l[0], angle)[1] - turned(through, angle)[1]) / step; math.Abs(n-math.Round(n)) > 1e-6 {
				t.Fatalf("%v is %v steps from the first line", l, n)
			}
		}
	})
}
