package draft

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Ten layers that climb 2 in at a time, cut depths 18, 20 ... 36 in, each four
// full widths of 3 m net. The depths need a first seam line 18 in above the hem:
// 23 in below the waist of a 41 in skirt.
func workedNet() NetLayers {
	return NetLayers{Waist: 28 * inch, SkirtFraction: 0.5, SkirtLength: 41 * inch,
		FirstSeam: 23 * inch, Gap: 2 * inch, Layers: 10, Widths: 4, ClothWidth: 3000}
}

// 4 x 270 in = 1080 in = 27.4 m from the bolt before any extra for lift, 120 m
// of edge gathered: common practice, no published source.
func TestNetWorkedExample(t *testing.T) {
	n := workedNet()
	table, err := layersOf(n)
	if err != nil {
		t.Fatal(err)
	}
	var cloth, edge float64
	for k, l := range table {
		inches(t, fmt.Sprintf("cut depth of layer %d", l.Layer), l.CutDepth, 18+2*float64(k))
		inches(t, fmt.Sprintf("seam line of layer %d", l.Layer), l.Depth, 23-2*float64(k))
		cloth += l.Cloth
		edge += l.Flat
	}
	inches(t, "cloth", cloth, 1080)
	near(t, "cloth in metres", cloth/1000, 27.4, 0.05)
	near(t, "edge in metres", edge/1000, 120, 0.01)
	// Each of the 40 strips is rounded down to the lattice, none up.
	pieces := clothUsed(mustDraft(t, n))
	if pieces > 1080*inch || pieces < 1080*inch-40*plane.Lattice {
		t.Errorf("the pieces take %.6f in of cloth, want 1080 less at most 40 lattice steps", pieces/inch)
	}
}

// Makers report 28 to 30 m for that skirt (common practice, no published
// source). The default lift lands there: 1.03 x 27.432 = 28.255 m.
func TestNetDefaultLiftAgreesWithMakers(t *testing.T) {
	n := workedNet()
	n.Lift = DefaultLift
	used := clothUsed(mustDraft(t, n)) / 1000
	if used < 28 || used > 30 {
		t.Errorf("takes %.2f m, makers report 28 to 30", used)
	}
	near(t, "metres", used, 28.255, 0.001)
}

// Every layer is cut deeper by the lift's share of the way from its seam line to
// the hem; allowances are not lifted.
func TestNetLift(t *testing.T) {
	n := NetLayers{Waist: 700, SkirtFraction: 1, SkirtLength: 1000, FirstSeam: 600, Gap: 300, Layers: 3, Fullness: 4,
		Lift: 0.05, ClothWidth: 2700, Join: 10, HemAllowance: 7, Allowance: shapes.Allowance{Seam: 12, Hem: 99}}
	table, err := layersOf(n)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{12 + 400*1.05 + 7, 12 + 700*1.05 + 7, 12 + 1000*1.05 + 7} {
		near(t, "cut depth", table[i].CutDepth, want, 1e-9)
	}
	p := mustDraft(t, n)[0]
	along, _ := p.Finished()
	near(t, "finished depth", along, 420, 1e-9)
	hem, _ := p.Edge("hem")
	top, _ := p.Edge("gathered edge")
	if hem.Kind != shapes.Hem || hem.Allowance != 7 || top.Kind != shapes.Top || top.Allowance != 12 {
		t.Errorf("hem %v %g, top %v %g", hem.Kind, hem.Allowance, top.Kind, top.Allowance)
	}
	n.HemAllowance = 0
	if hem, _ = mustDraft(t, n)[0].Edge("hem"); hem.Allowance != 0 {
		t.Errorf("a raw hem has an allowance of %g", hem.Allowance)
	}
}

// Girth at depth d is W + 2 pi f d (plain geometry): waist 28 in, full circle,
// 40 in down it is 279.327 in, the hem of such a skirt. Fullness 3 of it is
// 837.981 in, and ceil(837.981/107) = 8 strips of 108 in net with 1/2 in joins.
func TestNetByFullness(t *testing.T) {
	n := NetLayers{Waist: 28 * inch, SkirtFraction: 1, SkirtLength: 48 * inch, FirstSeam: 40 * inch, Layers: 1,
		Fullness: 3, ClothWidth: 108 * inch, Join: 0.5 * inch}
	table, err := layersOf(n)
	if err != nil {
		t.Fatal(err)
	}
	l := table[0]
	inches(t, "girth", l.Girth, 279.327)
	near(t, "flat edge in inches", l.Flat/inch, 837.982, 0.001)
	near(t, "fullness", l.Fullness, 3, 1e-6)
	if l.Strips != 8 {
		t.Errorf("%d strips, want 8", l.Strips)
	}
	inches(t, "cloth", l.Cloth, 64)
	pieces := mustDraft(t, n)
	if len(pieces) != 2 || pieces[0].Name != "net layer 1 strip" || pieces[0].Count != 7 ||
		pieces[1].Name != "net layer 1 part strip" {
		t.Errorf("pieces %v", pieces)
	}
	_, across := pieces[0].CutSize()
	inches(t, "strip across the cloth", across, 108)
}

// Half a width is a strip of half the cloth, with joins of its own.
func TestNetByWidths(t *testing.T) {
	n := workedNet()
	n.Widths, n.Join, n.Layers = 3.5, 10, 1
	pieces := mustDraft(t, n)
	if len(pieces) != 2 || pieces[0].Count != 3 {
		t.Fatalf("pieces %v", pieces)
	}
	if _, across := pieces[1].CutSize(); across != 1500 {
		t.Errorf("half a width is cut %g mm, want 1500", across)
	}
	near(t, "flat edge", flatEdge(pieces), 3*2980+1480, 1e-6)
	table, err := layersOf(n)
	if err != nil || table[0].Strips != 4 {
		t.Errorf("table %+v, %v", table, err)
	}
	near(t, "flat edge of the table", table[0].Flat, 3*2980+1480, 1e-6)
}

// The gap may change on the way up: 100, 80, 60 mm.
func TestNetGapChange(t *testing.T) {
	n := NetLayers{Waist: 700, SkirtFraction: 1, SkirtLength: 1000, FirstSeam: 500, Gap: 100, GapChange: -20, Layers: 4,
		Fullness: 4, ClothWidth: 2700}
	table, err := layersOf(n)
	if err != nil {
		t.Fatal(err)
	}
	var depths []float64
	for _, l := range table {
		depths = append(depths, l.Depth)
	}
	if d := cmp.Diff([]float64{500, 400, 320, 260}, depths); d != "" {
		t.Error(d)
	}
}

// Quarter marks lie a quarter of the girth apart, and an eighth of it from
// centre back and from centre front, half way round.
func TestNetQuarters(t *testing.T) {
	table, err := layersOf(workedNet())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range table {
		for i, q := range l.Quarters {
			near(t, "quarter", q, l.Girth*(1+2*float64(i))/8, 1e-9)
			for _, centre := range []float64{0, l.Girth / 2, l.Girth} {
				if math.Abs(q-centre) < l.Girth/8-1e-9 {
					t.Errorf("layer %d: mark at %.1f of %.1f mm is too near a centre", l.Layer, q, l.Girth)
				}
			}
		}
	}
}

// Eleven layers of 2.3 in from 23 in down end at the waist itself, though sums
// of converted inches may fall a hair above it.
func TestNetReachesTheWaist(t *testing.T) {
	n := workedNet()
	n.Gap, n.Layers = 2.3*inch, 11
	table, err := layersOf(n)
	if err != nil {
		t.Fatal(err)
	}
	last := table[10]
	near(t, "last seam line", last.Depth, 0, 1e-9)
	near(t, "girth there", last.Girth, n.Waist, 1e-9)
}

func TestNetRefuses(t *testing.T) {
	with := func(change func(*NetLayers)) NetLayers { n := workedNet(); change(&n); return n }
	refuses(t, []refusal{
		{"no waist", with(func(n *NetLayers) { n.Waist = 0 }), "net layers: waist is 0 mm"},
		{"no skirt", with(func(n *NetLayers) { n.SkirtLength = 0 }), "skirt length is 0 mm"},
		{"no fraction", with(func(n *NetLayers) { n.SkirtFraction = 0 }), "fraction of a circle is 0"},
		{"above the waist", with(func(n *NetLayers) { n.FirstSeam = -1 }), "first seam line below the waist is -1 mm"},
		{"below the hem", with(func(n *NetLayers) { n.FirstSeam = 2000 }), "lies 2000 mm below the waist"},
		{"no layers", with(func(n *NetLayers) { n.Layers = 0 }), "layers: 0"},
		{"climbs out", with(func(n *NetLayers) { n.Layers = 13 }),
			"layer 13 of 13 would be sewn 25.4 mm above the waist"},
		{"no gap", with(func(n *NetLayers) { n.Gap = 0 }), "gap below layer 2 is 0 mm"},
		{"gap used up", with(func(n *NetLayers) { n.GapChange = -1 * inch }), "gap below layer 4 is 0 mm"},
		{"gap change not a number", with(func(n *NetLayers) { n.GapChange = math.NaN() }), "change of the gap is NaN"},
		{"lift below 0", with(func(n *NetLayers) { n.Lift = -0.01 }), "lift is -0.01"},
		{"lift in percent", with(func(n *NetLayers) { n.Lift = 3 }), "lift is 3"},
		{"widths and fullness", with(func(n *NetLayers) { n.Fullness = 4 }),
			"both widths of cloth (4) and fullness (4)"},
		{"neither", with(func(n *NetLayers) { n.Widths = 0 }), "neither widths of cloth nor fullness"},
		{"fullness below 1", with(func(n *NetLayers) { n.Widths, n.Fullness = 0, 0.5 }), "fullness is 0.5"},
		{"negative widths", with(func(n *NetLayers) { n.Widths = -4 }), "-4 widths"},
		{"widths not a number", with(func(n *NetLayers) { n.Widths = math.NaN() }), "NaN widths"},
		{"too few widths", with(func(n *NetLayers) { n.Widths, n.ClothWidth = 1, 1000 }), "at least 3 widths"},
		{"a sliver of a width", with(func(n *NetLayers) { n.Widths, n.Join = 4.001, 10 }), "leave nothing"},
		{"too many strips", with(func(n *NetLayers) { n.Widths = 5000 }), "takes 5000 strips"},
		{"no cloth", with(func(n *NetLayers) { n.ClothWidth = -1 }), "layer 1: cloth width is -1 mm"},
		{"negative hem", with(func(n *NetLayers) { n.HemAllowance = -1 }), "hem allowance is -1 mm"},
		{"negative seam", with(func(n *NetLayers) { n.Allowance.Seam = -1 }), "seam allowance is -1 mm"},
	})
}

// Net as wide as its line is cut a hair narrower, on the lattice; it is sewn on flat.
func TestNetOfNoFullness(t *testing.T) {
	n := NetLayers{
		Waist: 755.625, SkirtFraction: 0.79296875, SkirtLength: 425.326171875, FirstSeam: 94.483305, Gap: 47.2416525,
		Layers: 2, Fullness: 1, Lift: 0.2, ClothWidth: 1024, Join: 16.5, Allowance: shapes.Allowance{Seam: 1},
	}
	mustDraft(t, n)
}

// For any skirt: pieces and table agree, no strip is wider than the cloth, the
// flat edge is girth x fullness, eased by 2 % at most where whole widths go round, layers climb, and outer layers are
// deeper, on a shorter line.
func TestNetPiecesAgreeWithTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		n := NetLayers{Waist: mm("waist", 400, 1500), SkirtFraction: mm("fraction", 0.1, 2),
			SkirtLength: mm("length", 400, 1500),
			Layers:      rapid.IntRange(1, 8).Draw(t, "layers"), Fullness: mm("fullness", 1, 8),
			Lift:       mm("lift", 0, 0.2),
			ClothWidth: mm("cloth width", 900, 3000), Join: mm("join", 0,
				20), Allowance: shapes.Allowance{Seam: mm("seam", 0, 20)}}
		n.FirstSeam = n.SkirtLength * mm("first seam", 0.2, 0.95)
		n.Gap = n.FirstSeam / float64(n.Layers)
		table, err := layersOf(n)
		if err != nil {
			t.Fatalf("%v", err)
		}
		pieces := mustDraft(t, n)
		for k, l := range table {
			of := slices.DeleteFunc(slices.Clone(pieces), func(p shapes.Piece) bool {
				return p.Name != fmt.Sprintf("net layer %d strip", l.Layer) &&
					p.Name != fmt.Sprintf("net layer %d part strip", l.Layer)
			})
			slack := plane.Lattice * float64(l.Strips+1)
			near(t, "flat edge", flatEdge(of), l.Flat, slack)
			near(t, "flat edge in the table", l.Flat, n.Fullness*l.Girth, easedBy(of, n.Fullness*l.Girth)+slack)
			near(t, "cloth", clothUsed(of), l.Cloth, slack)
			if k > 0 && !(l.Depth < table[k-1].Depth && l.CutDepth > table[k-1].CutDepth &&
				l.Girth < table[k-1].Girth) {
				t.Errorf("layer %d %+v does not climb over %+v", l.Layer, l, table[k-1])
			}
		}
		for _, p := range pieces {
			if _, across := p.CutSize(); across > n.ClothWidth {
				t.Errorf("%s is %g mm wide, the cloth %g", p.Name, across, n.ClothWidth)
			}
		}
	})
}
