package shapes

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// markedPanel is a panel with notches on all cut edges, a dart at the waist and a line across.
func markedPanel(t *rapid.T, onFold bool) Piece {
	p := panelOf(t, "panel", onFold)
	for _, name := range cutEdges {
		e, _ := p.Edge(name)
		for _, share := range []float64{0.2, 0.5, 0.9} {
			if err := p.AddNotch(name, share*e.Length()); err != nil {
				t.Fatal(err)
			}
		}
	}
	w, _ := p.Edge("waist")
	from, width := 0.4*w.Length(), 0.1*w.Length()
	a, _ := w.At(from)
	b, _ := w.At(from + width)
	_, outward := w.At(from + width/2)
	deep := rapid.Float64Range(20, 80).Draw(t, "dart")
	apex := orb.Point{(a[0]+b[0])/2 - deep*outward[0], (a[1]+b[1])/2 - deep*outward[1]}
	_ = p.AddDart("waist", Mouth{from, width}, apex) // legs that differ are refused
	box := plane.Bounds(p.Seam)
	p.Inside = append(p.Inside, orb.LineString{box.Min, box.Max})
	p.Names = append(p.Names, LineName{len(p.Inside) - 1, "balance line"})
	p.Count, p.Pair, p.Bias = 2, !onFold, rapid.Bool().Draw(t, "bias")
	return p
}

// pieced cuts a piece at a share of its extent; ok where it is not refused.
func pieced(t *rapid.T, p Piece) (c Piecing, out Pieced, err error) {
	c = Piecing{Across: rapid.Bool().Draw(t, "across"), Allowance: rapid.SampledFrom([]float64{0, 6, 12.7}).Draw(t, "a")}
	box := plane.Bounds(p.Seam)
	k := c.axis()
	c.At = box.Min[k] + rapid.Float64Range(-0.05, 1.05).Draw(t, "at")*(box.Max[k]-box.Min[k])
	if rapid.Bool().Draw(t, "corner") { // exactly where a vertex lies
		e := p.Edges[rapid.IntRange(0, len(p.Edges)-1).Draw(t, "edge")]
		c.At = e.Line[rapid.IntRange(0, len(e.Line)-1).Draw(t, "vertex")][k]
	}
	out, err = p.Piece(c, "corner")
	return c, out, err
}

// The finished parts of a piece are as large together as the whole, each is simple, every edge
// of the whole is on them as long as it was, and both sides of the new seam are one line.
func TestPartsMakeTheWhole(t *testing.T) {
	cut, refused := 0, map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		p := markedPanel(t, rapid.Bool().Draw(t, "on fold"))
		c, out, err := pieced(t, p)
		if err != nil {
			for _, known := range []string{"misses it", "not in two", "crosses a dart", "cut line", "tip is thinner",
				"bends inwards", "seam line", "out of range"} {
				if strings.Contains(err.Error(), known) {
					refused[known]++
					return
				}
			}
			t.Fatalf("%+v: %v", c, err)
		}
		cut++
		main, corner := out.Main, out.Corner
		whole, sum := plane.Area(p.Seam), plane.Area(main.Seam)+plane.Area(corner.Seam)
		if math.Abs(whole-sum) > 1e-9*whole+0.01 || plane.Area(main.Seam) < plane.Area(corner.Seam)-0.01 {
			t.Errorf("%+v: parts of %v and %v mm2 of %v", c, plane.Area(main.Seam), plane.Area(corner.Seam), whole)
		}
		for _, part := range []Piece{main, corner} {
			if err := plane.CheckSimple(part.Cut); err != nil {
				t.Errorf("%+v: %s: %v", c, part.Name, err)
			}
			if part.Bias != p.Bias || part.Count*layersOf(part) != p.Count*layersOf(p) {
				t.Errorf("%+v: %s: %d copies, on the fold %v, of %d", c, part.Name, part.Count, part.OnFold, p.Count)
			}
			for i := 1; i < len(part.Grain); i++ {
				if part.Grain[i][1] != part.Grain[0][1] {
					t.Errorf("%+v: %s: grain %v", c, part.Name, part.Grain)
				}
			}
		}
		parts := []Piece{main, corner}
		for _, e := range p.Edges {
			s, err := out.Sewn(JoinSide{Edges: []SewnEdge{{Piece: "panel", Edge: e.Name}}})
			if err != nil {
				t.Fatal(err)
			}
			if length, _, err := s.Measure(parts); err != nil || math.Abs(length-e.Length()) > 1e-5 {
				t.Errorf("%+v: %q is %v long on %v, of %v: %v", c, e.Name, length, s, e.Length(), err)
			}
		}
		sameSeam(t, c, out)
		stillMarked(t, c, p, out)
	})
	if cut < 20 {
		t.Errorf("only %d cut; refused %v", cut, refused)
	}
}

func layersOf(p Piece) int {
	if p.OnFold {
		return 2
	}
	return 1
}

// sameSeam holds both sides of the new seam to be one line, on the grain or across it, with
// their notches at one place.
func sameSeam(t *rapid.T, c Piecing, out Pieced) {
	a, ok := out.Main.Edge(PiecingSeam)
	b, ok2 := out.Corner.Edge(PiecingSeam)
	if !ok || !ok2 || math.Abs(a.Length()-b.Length()) > 1e-6 || a.Allowance != c.Allowance || b.Allowance != c.Allowance {
		t.Fatalf("%+v: seams %v and %v", c, a, b)
	}
	if k := c.axis(); math.Abs(a.Line[0][k]-a.Line[1][k]) > 1e-6 || math.Abs(b.Line[0][k]-b.Line[1][k]) > 1e-6 {
		t.Errorf("%+v: the seam is not straight on the grain: %v, %v", c, a.Line, b.Line)
	}
	at := func(p Piece, e Edge, from int) (list []float64) {
		for _, n := range p.Notches {
			if n.Edge == e.Name {
				v := e.Line[from]
				list = append(list, math.Hypot(n.At[0]-v[0], n.At[1]-v[1]))
			}
		}
		return list
	}
	of, on := at(out.Main, a, 0), at(out.Corner, b, 1)
	if len(of) != len(on) || len(of) != len(out.Join.Notches) {
		t.Errorf("%+v: notches %v and %v", c, of, on)
		return
	}
	for i := range of {
		if math.Abs(of[i]-on[i]) > 1e-6 || math.Abs(of[i]-a.Length()/2) < 1 {
			t.Errorf("%+v: notches at %v and %v of %v", c, of, on, a.Length())
		}
	}
}

// stillMarked holds notches, darts and lines inside to be on the parts, but notches at the seam.
func stillMarked(t *rapid.T, c Piecing, p Piece, out Pieced) {
	near := 0
	for _, n := range p.Notches {
		if math.Abs(n.At[c.axis()]-c.At) < 30 {
			near++
		}
	}
	was, is := len(p.Notches), len(out.Main.Notches)+len(out.Corner.Notches)-2*len(out.Join.Notches)
	if is > was || is < was-near {
		t.Errorf("%+v: %d notches of %d, %d of them near the line", c, is, was, near)
	}
	if n := len(out.Main.Darts) + len(out.Corner.Darts); n != len(p.Darts) {
		t.Errorf("%+v: %d darts of %d", c, n, len(p.Darts))
	}
	was2, is2, named := 0.0, 0.0, 0
	for _, l := range p.Inside {
		was2 += plane.Length(l)
	}
	for _, part := range []Piece{out.Main, out.Corner} {
		named += len(part.Names)
		for _, l := range part.Inside {
			is2 += plane.Length(l)
		}
		for _, n := range part.Notches {
			e, ok := part.Edge(n.Edge)
			if _, on := e.Along(n.At); !ok || !on {
				t.Errorf("%+v: %s: notch %v is not on its edge", c, part.Name, n)
			}
		}
		for _, d := range part.Darts {
			e, ok := part.Edge(d.Edge)
			if at, _ := e.At(d.Mouth.From); !ok || len(part.Inside) == 0 || !onALine(part.Inside, at) {
				t.Errorf("%+v: %s: dart %v has no leg at %v", c, part.Name, d, at)
			}
		}
	}
	if math.Abs(was2-is2) > 1e-5 || named < 1 {
		t.Errorf("%+v: lines inside %v long of %v, %d named", c, is2, was2, named)
	}
}

func onALine(lines []orb.LineString, at orb.Point) bool {
	for _, l := range lines {
		if math.Hypot(l[0][0]-at[0], l[0][1]-at[1]) < 1e-6 {
			return true
		}
	}
	return false
}

// A gore of 200 by 100 whose hem corner is cut 20 up, by hand: a corner of 20 x 60 with 10 of
// allowance, and a main part of 80 across.
func TestACornerByHand(t *testing.T) {
	p, err := NewPiece("gore", []Edge{
		{Name: "lower", Kind: Seam, Line: orb.LineString{{140, 0}, {200, 0}}, Allowance: 10},
		{Name: "hem", Kind: Hem, Line: orb.LineString{{200, 0}, {200, 100}}, Allowance: 10},
		{Name: "upper", Kind: Seam, Line: orb.LineString{{200, 100}, {0, 100}}, Allowance: 10},
		{Name: "waist", Kind: Waist, Line: orb.LineString{{0, 100}, {0, 20}}, Allowance: 10},
		{Name: "step", Kind: Seam, Line: orb.LineString{{0, 20}, {140, 20}, {140, 0}}, Allowance: 10},
	})
	if err != nil {
		t.Fatal(err)
	}
	hem, _ := p.Edge("hem")
	out, err := p.Piece(Piecing{At: hem.Line[0][1] + 20, Allowance: 10}, "hem corner")
	if err != nil {
		t.Fatal(err)
	}
	along, across := out.Corner.CutSize()
	if along != 80 || across != 40 {
		t.Errorf("the corner is cut %v x %v, want 80 x 40", along, across)
	}
	if along, across = out.Main.CutSize(); along != 220 || across != 100 {
		t.Errorf("the main part is cut %v x %v, want 220 x 100", along, across)
	}
	if s, err := out.Sewn(JoinSide{Edges: []SewnEdge{{Piece: "gore", Edge: "hem"}}}); err != nil ||
		s.String() != "hem corner: hem + gore: hem" {
		t.Errorf("the hem is on %v: %v", s, err)
	}
	three, err := out.Sewn(JoinSide{Edges: []SewnEdge{{Piece: "gore", Edge: "hem", Copies: 3}}})
	if err != nil || len(three.Edges) != 6 {
		t.Errorf("three hems end to end are on %v: %v", three, err)
	}
	if long, _, err := three.Measure([]Piece{out.Main, out.Corner}); err != nil || math.Abs(long-300) > 1e-9 {
		t.Errorf("three hems are %v long, want 300: %v", long, err)
	}
}
