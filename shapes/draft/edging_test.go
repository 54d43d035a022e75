package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes"
)

// polygonOf is a regular polygon hemmed all round, with n sides of a length.
func polygonOf(t failer, n int, length float64) Result {
	r := length / 2 / math.Sin(math.Pi/float64(n))
	var edges []shapes.Edge
	at := func(i int) orb.Point {
		sin, cos := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
		return orb.Point{r * cos, r * sin}
	}
	for i := range n {
		edges = append(edges, shapes.Edge{Name: string(rune('a' + i)), Kind: shapes.Hem,
			Line: orb.LineString{at(i), at(i + 1)}, Allowance: 5})
	}
	p, err := shapes.NewPiece("cloth", edges)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return Result{Pieces: []shapes.Piece{p}}
}

// Round a regular polygon of n sides of a: each corner turns by 2 pi/n, so that lace beyond takes
// n (a + 2 w tan(pi/n)) and one lap, which is the polygon w further out; lace on the cloth n a.
func TestLaceRoundPolygons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 12).Draw(t, "sides")
		a, w := rapid.Float64Range(100, 800).Draw(t, "side"), rapid.Float64Range(5, 60).Draw(t, "width")
		d := polygonOf(t, n, a)
		for _, beyond := range []bool{false, true} {
			made, err := Edging{At: AtHem, Width: w, Lap: 12, Beyond: beyond}.of(d)
			if err != nil {
				t.Fatal(err)
			}
			want := float64(n) * a
			if beyond { // the apothem grows by the width
				want = 2 * float64(n) * math.Tan(math.Pi/float64(n)) * (a/2/math.Tan(math.Pi/float64(n)) + w)
			}
			near(t, "lace", made.Cut, want+12, 0.1)
			if made.Corners != n || made.Joins != 1 {
				t.Fatalf("%d corners, %d joins", made.Corners, made.Joins)
			}
		}
	})
}

// Joins by hand: 2000 mm round in pieces of 700 lapped by 10 are 2000/690, 3 pieces with 3 joins: 2030
// mm. Free ends turned in by 10 each make 2020, of 3 pieces with 2 joins: 2040.
func TestLaceInPieces(t *testing.T) {
	d := polygonOf(t, 4, 500)
	e := Edging{At: AtHem, Width: 20, Lap: 10, Piece: 700}
	made, err := e.of(d)
	if err != nil || made.Joins != 3 || math.Abs(made.Cut-2030) > 0.01 {
		t.Errorf("%d joins, %.1f mm: %v", made.Joins, made.Cut, err)
	}
	d.Ends = &Ends{}
	if made, err = e.of(d); err != nil || made.Joins != 2 || math.Abs(made.Cut-2040) > 0.01 {
		t.Errorf("%d joins, %.1f mm: %v", made.Joins, made.Cut, err)
	}
	if n := made.note().String(); !strings.Contains(n, "2040.0 mm in all, on 2000.0 mm of edge, joins: 2") ||
		!strings.Contains(n, "corners to mitre: 4") {
		t.Error(n)
	}
}

// A half circle of radius r bends its lace by w/r: 20 mm on 1200 lie flat, on 800 they do not. A dart,
// a sharp corner and an edge that is not there are refused too.
func TestLaceRefuses(t *testing.T) {
	half := func(length float64) Draft {
		return CircleSkirt{Waist: 700, Length: length, Fraction: 0.5, Gores: 4, Opening: true,
			Allowance: shapes.Allowance{Seam: 12, Waist: 10, Hem: 25}}
	}
	hemmed := lanternBlock()
	hemmed.Hemmed = true
	for _, c := range []struct {
		of   Draft
		e    Edging
		want string
	}{
		{half(1000), Edging{At: AtHem, Width: 20}, ""},
		{half(500), Edging{At: AtHem, Width: 20}, "would be 3 % longer than the other, the most is 2"},
		{half(500), Edging{At: AtNeck, Width: 20}, "there is no edge at the neck for lace"},
		{half(500), Edging{At: AtHem}, "width of the lace is 0 mm"},
		{half(1000), Edging{At: AtHem, Width: 20, Lap: 30, Piece: 50}, "no room for two laps"},
		{half(1000), Edging{At: AtHem, Width: 20, Piece: 5}, "pieces of lace, at most 500"},
		{hemmed, Edging{At: AtHem, Width: 2}, "a dart opens on its hem"},
	} {
		d, err := c.of.Draft()
		if err != nil {
			t.Fatal(err)
		}
		_, err = c.e.of(d)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	if _, err := (Edging{At: AtHem, Width: 20}).of(polygonOf(t, 3, 500)); err == nil ||
		!strings.Contains(err.Error(), "turns by 120 degrees, and lace is mitred up to 100") {
		t.Error(err)
	}
}
