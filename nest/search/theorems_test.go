package search

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// Rows laid deepest first, each rectangle in the first row with room for it, are no longer
// than twice the area over the width and the deepest one besides; nor than 1.7 times the
// shortest and that, for which the area and every rectangle alone stand in here: E. G.
// Coffman, M. R. Garey, D. S. Johnson & R. E. Tarjan, "Performance bounds for level-oriented
// two-dimensional packing algorithms", SIAM J. Comput. 9 (1980).
func TestRowsKeepTheirBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{Width: float64(rapid.IntRange(20, 60).Draw(t, "width"))}
		area, deepest := 0.0, 0.0
		for range rapid.IntRange(1, 40).Draw(t, "items") {
			w, h := float64(rapid.IntRange(1, 30).Draw(t, "w")), float64(rapid.IntRange(1, 20).Draw(t, "h"))
			p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(w, h)}}})
			area, deepest = area+w*h, max(deepest, w)
		}
		in := readyInstance(p)
		got := in.rows(in.emptyPlacement(), in.bigFirst(), 0).length
		if most := 2*area/p.Width + deepest; got > most+1e-6 || got < max(area/p.Width, deepest)-1e-6 {
			t.Fatalf("rows of %v, from %v to %v", got, max(area/p.Width, deepest), most)
		}
	})
}

// Alike rectangles that fit the width n times take no more than every nth of them adds, in
// rows, and built one by one, where rounding leaves them a hair's breadth.
func TestAlikeRectanglesFillColumns(t *testing.T) {
	for n := 1; n <= 4; n++ {
		for count := 1; count <= 9; count++ {
			p := Problem{Width: 12*float64(n) + 0.5}
			for range count {
				p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(20, 12)}}})
			}
			in := readyInstance(p)
			want := 20 * math.Ceil(float64(count)/float64(n))
			for what, got := range map[string]float64{"rows": in.rows(in.emptyPlacement(), in.bigFirst(), 0).length,
				"one by one": in.construct(1, never, unreported).length} {
				if math.Abs(got-want) > 1e-3 {
					t.Errorf("%d, %d abreast, %s: %v, want %v", count, n, what, got, want)
				}
			}
		}
	}
}

// aside moves every ring of a problem by a vector of its own, on the lattice, its point on
// the repeat with it.
func aside(t *rapid.T, p Problem) (Problem, []orb.Point) {
	q := p
	q.Items = slices.Clone(p.Items)
	by := make([]orb.Point, len(p.Items))
	vector := map[*Choice]orb.Point{} // alike items stay alike
	for i, it := range p.Items {
		first := &it.Choices[0]
		v, known := vector[first]
		if !known {
			v = orb.Point{float64(rapid.IntRange(-99, 99).Draw(t, "dx")), float64(rapid.IntRange(-99, 99).Draw(t, "dy"))}
			vector[first] = v
		}
		by[i] = v
		choices := slices.Clone(it.Choices)
		for k := range choices {
			choices[k].Ring = plane.Pose{At: v}.Apply(choices[k].Ring)
			choices[k].Seat.Point = orb.Point{choices[k].Seat.Point[0] + v[0], choices[k].Seat.Point[1] + v[1]}
		}
		q.Items[i].Choices = choices
	}
	return q, by
}

// Where a ring is drawn changes nothing: the first layout is the same to the last bit, the
// rings moved there by as much less.
func TestWhereRingsAreDrawnChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		given.Groups = []Group{{}, {}, {}} // phases that are given are of rounded points
		for i := range given.Items {       // on the lattice
			for k := range given.Items[i].Choices {
				s := &given.Items[i].Choices[k].Seat
				s.Point = plane.SnapPoint(s.Point)
			}
		}
		moved, by := aside(t, given)
		a, b := readyInstance(given), readyInstance(moved)
		p, q := a.layout(a.construct(1, never, unreported)), b.layout(b.construct(1, never, unreported))
		if p.Length != q.Length || !slices.Equal(p.Choice, q.Choice) {
			t.Fatalf("%v long, %v: drawn elsewhere %v, %v", p.Length, p.Choice, q.Length, q.Choice)
		}
		for i := range p.At {
			there := orb.Point{q.At[i][0] + by[i][0], q.At[i][1] + by[i][1]}
			if math.Abs(there[0]-p.At[i][0]) > 1e-9 || math.Abs(there[1]-p.At[i][1]) > 1e-9 {
				t.Fatalf("item %d at %v, drawn elsewhere at %v", i, p.At[i], there)
			}
		}
	})
}

// polygon is a ring as the other library has it.
func polygon(ring orb.Ring, at orb.Point) geom.Geometry {
	var flat []float64
	for _, v := range ring {
		flat = append(flat, v[0]+at[0], v[1]+at[1])
	}
	return geom.NewPolygonXY(flat).AsGeometry()
}

// A first layout, and one lined up on the lattice from any state, by another library: no
// two items nearer than their gap, none on a forbidden zone, all within their seats.
func TestLayoutsByAnotherLibrary(t *testing.T) {
	for seed := range 25 {
		given := rapid.Custom(problem).Example(seed)
		given.Groups, given.Repeat = nil, [2]float64{}
		for i := range given.Items {
			given.Items[i].Group = 0
		}
		in := readyInstance(given)
		first := in.construct(1, never, unreported)
		squeezed := first.clone()
		for i := range in.movable {
			squeezed.x[i] *= 0.6
		}
		for what, l := range map[string]Layout{"the first layout": in.layout(first),
			"lined up": in.layout(in.lineUp(squeezed, false)), "one by one": in.layout(in.lineUp(squeezed, true))} {
			var laid []geom.Geometry
			for i, it := range given.Items {
				c := it.Choices[l.Choice[i]]
				box := plane.Bounds(plane.Pose{At: l.At[i]}.Apply(c.Ring))
				low, high := c.Seat.Low, c.Seat.High
				if high == 0 {
					high = given.Width
				}
				if box.Min[0] < -1e-6 || box.Max[0] > l.Length+1e-6 || box.Min[1] < low-1e-6 || box.Max[1] > high+1e-6 {
					t.Errorf("seed %d, %s: item %d lies over %v", seed, what, i, box)
				}
				laid = append(laid, polygon(c.Ring, l.At[i]))
			}
			for i, a := range laid {
				for j, b := range laid[:i] {
					if d, ok := geom.Distance(a, b); ok && d < given.Gap-2*plane.Lattice || overlapping(t, a, b) {
						t.Errorf("seed %d, %s: items %d and %d are %v apart", seed, what, j, i, d)
					}
				}
				for _, zone := range given.Forbidden {
					if overlapping(t, a, polygon(zone, orb.Point{})) {
						t.Errorf("seed %d, %s: item %d lies on the zone", seed, what, i)
					}
				}
			}
		}
	}
}

// overlapping says whether two outlines share more than what rounding makes of a touch.
func overlapping(t *testing.T, a, b geom.Geometry) bool {
	both, err := geom.Intersection(a, b)
	if err != nil {
		t.Fatal(err)
	}
	return both.Area() > 0.2
}
