package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func netGored(gores int) GoredSkirt {
	return GoredSkirt{Waist: 700, Hip: 1000, HipDepth: 200, HemSweep: 2000, Length: 1000, Gores: gores, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 20}}
}

// netOnGored is four layers, 600 mm down and up to the waist.
func netOnGored(t failer, d Draft, lines int) NetLayers {
	t.Helper()
	n, err := NetLayers{Waist: 700, SkirtLength: 1000, FirstSeam: 600, Gap: 200, Layers: 4,
		Fullness: 3, ClothWidth: 2700, Join: 10, Allowance: shapes.Allowance{Seam: 12}}.on(d, 300, lines)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return n
}

// A gored skirt flares straight from the hip to the hem, so that arcs square to the
// seams grow evenly on the way: 1000 + 1000 x 400/800 = 1500 mm at 600 mm, 1250 at 400,
// 1000 at the hip, 700 at the waist. Layers above the stop, 300 mm down, are open.
func TestNetClimbsAGoredSkirt(t *testing.T) {
	for _, gores := range []int{3, 6, 7, 8, 12} {
		table, err := layersOf(netOnGored(t, netGored(gores), 0))
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range []float64{1500, 1250, 1000, 700} {
			near(t, "girth", table[i].Girth, want, 1e-6)
			if table[i].Open != (i > 1) {
				t.Errorf("layer %d open: %t", i+1, table[i].Open)
			}
		}
	}
}

// Of six gores the seams are at k/6 of the girth, as those of a circle skirt, until the
// front gores take more of the hem than the others: 2 x 700 of 3000 mm leave 400 to each
// of four. At the hip all are equal; at the hem the second seam lies at 800/3000.
func TestNetIsPinnedAtSeamsOfGores(t *testing.T) {
	g := netGored(6)
	g.HemSweep = 3000
	g.FrontHem = 700
	n := netOnGored(t, g, 0)
	for depth, want := range map[float64][2]float64{200: {1. / 6, 2. / 6}, 1000: {400. / 3000, 800. / 3000}} {
		shares, _ := n.Skirt.marks(depth)
		near(t, "first", shares[0], want[0], 1e-9)
		if math.Abs(want[1]-3./8) < nearSeam {
			near(t, "second", shares[1], want[1], 1e-9)
		} else {
			near(t, "second, no seam near", shares[1], 3./8, 0)
		}
	}
}

// The lines of a layer over all gores are as long as its girth; on each gore one runs
// from the back seam to the front seam, as far down both of them as it is told, within
// the piece, and bears its name. Names go on where another part's end.
func TestNetIsMarkedOnGores(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := netGored(rapid.IntRange(2, 16).Draw(t, "gores"))
		g.HemSweep = rapid.Float64Range(1400, 4000).Draw(t, "sweep")
		if rapid.Bool().Draw(t, "trumpet") {
			g.FlareFrom = rapid.Float64Range(200, 700).Draw(t, "flare from")
		}
		if g.Gores > 3 && rapid.Bool().Draw(t, "front") {
			g.FrontHem = 1.3 * g.HemSweep / float64(g.Gores)
		}
		var d Draft = g
		if g.Gores > 4 && g.HemSweep > 2000 && g.FrontHem == 0 && rapid.Bool().Draw(t, "train") {
			d = Train{Skirt: g, Behind: 200}
		}
		if _, err := piecesOf(d); err != nil {
			t.Skip(err)
		}
		n := netOnGored(t, d, 2)
		pieces := mustDraft(t, d)
		if err := n.MarkSkirt(pieces); err != nil {
			t.Fatalf("%v", err)
		}
		table, err := layersOf(n)
		if err != nil {
			t.Fatalf("%v", err)
		}
		sums := make([]float64, len(table))
		for _, p := range pieces {
			if len(p.Names) != len(table) {
				t.Fatalf("%s: %d lines have names", p.Name, len(p.Names))
			}
			for i, name := range p.Names {
				if want := []string{"net 3", "net 4", "net 5", "net 6"}[i]; name.Name != want {
					t.Errorf("%s: %s is called %s", p.Name, want, name.Name)
				}
				line, depth := p.Inside[name.Line], table[i].Depth
				sums[i] += float64(p.Count) * plane.Length(line)
				front, back := p.Edges[0], p.Edges[2]
				down, up := fromStart(front, line[len(line)-1]), fromStart(back, line[0])
				// Seams are sampled: a point of the arc lies off its chord by up to 0.1 mm.
				if down < 0 && planar.DistanceFrom(front.Line, line[len(line)-1]) > DefaultChord ||
					up < 0 && planar.DistanceFrom(back.Line, line[0]) > DefaultChord {
					t.Errorf("%s: %s does not run from seam to seam", p.Name, name.Name)
				}
				if down >= 0 && math.Abs(down-depth) > 1 || up >= 0 && math.Abs(back.Length()-up-depth) > 1 {
					t.Errorf("%s: %s is %.2f and %.2f mm down, not %g", p.Name, name.Name, down, back.Length()-up,
						depth)
				}
			}
		}
		for i, l := range table {
			near(t, "line", sums[i], l.Girth, 0.002*l.Girth)
		}
	})
}

func TestNetRefusesOtherGoredSkirts(t *testing.T) {
	n := NetLayers{Waist: 700, SkirtLength: 1000, FirstSeam: 600, Layers: 1, Fullness: 3, ClothWidth: 2700}
	for want, change := range map[string]func(*GoredSkirt, *NetLayers){
		"waist of 700.0 mm, the skirt has 720.0 mm": func(g *GoredSkirt, _ *NetLayers) { g.Waist = 720 },
		"length of 1000.0 mm":                       func(g *GoredSkirt, _ *NetLayers) { g.Length = 900 },
		"hint: leave out `circle`":                  func(_ *GoredSkirt, n *NetLayers) { n.SkirtFraction = 1 },
		"less than the hip":                         func(g *GoredSkirt, _ *NetLayers) { g.HemSweep = 900 },
	} {
		g, on := netGored(6), n
		change(&g, &on)
		if _, err := on.on(g, 0, 0); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if _, err := layersOf(n); err == nil || !strings.Contains(err.Error(), "fraction of a circle is 0") {
		t.Errorf("onto nothing: %v", err)
	}
}
