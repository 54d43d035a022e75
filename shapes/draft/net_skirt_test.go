package draft

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// netOn is three layers, 500, 300 and 100 mm down, on a skirt.
func netOn(t *testing.T, c CircleSkirt, closed float64) NetLayers {
	t.Helper()
	n, err := NetLayers{Waist: 700, SkirtFraction: 1, SkirtLength: 1000, FirstSeam: 500, Gap: 200, Layers: 3,
		Fullness: 4, ClothWidth: 2700, Join: 10, Allowance: shapes.Allowance{Seam: 12}}.on(c, closed, 0)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func netSkirt(gores int) CircleSkirt {
	return CircleSkirt{Fraction: 1, Gores: gores, Waist: 700, Length: 1000, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 20}}
}

// Pins lie on seams that are within a twelfth of the girth of an eighth or three
// eighths of it, by hand: k/10, k/8, k/6, k/5 of it; with four gores the only seams are
// at the sides and the centres, an eighth away.
func TestNetIsPinnedAtSeams(t *testing.T) {
	for _, c := range []struct {
		gores         int
		first, second float64
		seams         [2]bool
	}{
		{1, 1. / 8, 3. / 8, [2]bool{}}, {2, 1. / 8, 3. / 8, [2]bool{}}, {4, 1. / 8, 3. / 8, [2]bool{}},
		{3, 1. / 8, 1. / 3, [2]bool{false, true}}, {5, 1. / 5, 2. / 5, [2]bool{true, true}},
		{6, 1. / 6, 1. / 3, [2]bool{true, true}},
		{8, 1. / 8, 3. / 8, [2]bool{true, true}}, {10, 1. / 10, 4. / 10, [2]bool{true, true}},
		{12, 1. / 12, 4. / 12, [2]bool{true, true}},
	} {
		n := netOn(t, netSkirt(c.gores), 0)
		table, err := layersOf(n)
		if err != nil {
			t.Fatal(err)
		}
		joins, err := joinsOf(n)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range table {
			for i, want := range []float64{c.first, c.second, 1 - c.second, 1 - c.first} {
				near(t, "share of the girth", l.Quarters[i]/l.Girth, want, 1e-9)
				if (l.Seams[i] != "") != c.seams[min(i, 3-i)] {
					t.Errorf("%d gores, place %d: seam %q", c.gores, i, l.Seams[i])
				}
			}
		}
		if last := joins[len(joins)-1]; !slices.Equal(last.Notches, table[2].Quarters[:]) {
			t.Errorf("%d gores: notches at %v, pins at %v", c.gores, last.Notches, table[2].Quarters)
		}
	}
}

// Each named seam is one that the skirt has.
func TestNetNamesSeamsOfTheSkirt(t *testing.T) {
	for gores := 3; gores <= 24; gores++ {
		skirt := netSkirt(gores)
		joins, err := joinsOf(skirt)
		if err != nil {
			t.Fatal(err)
		}
		_, seams := netOn(t, skirt, 0).Skirt.marks(300)
		for _, s := range seams {
			if s != "" && !slices.ContainsFunc(joins,
				func(j shapes.Join) bool { return strings.HasPrefix(j.Name, s) }) {
				t.Errorf("%d gores have no seam %q", gores, s)
			}
		}
	}
}

// The seam lines of a layer, over all gores, are as long as the girth that it is
// gathered onto, W + 2 pi f d; each ends on the seams of its gore, d below the waist;
// what no seam marks has a stroke, left and right.
func TestNetIsMarkedOnTheSkirt(t *testing.T) {
	for _, c := range []struct {
		gores  int
		onFold bool
		marks  int // strokes of a layer on all pieces as cut
	}{{1, false, 4}, {2, false, 4}, {3, false, 2}, {4, true, 4}, {6, true, 0}, {10, false, 0}} {
		skirt := netSkirt(c.gores)
		skirt.FrontOnFold = c.onFold
		n := netOn(t, skirt, 0)
		pieces := mustDraft(t, skirt)
		if c.gores == 1 {
			pieces[0].Inside = nil // the hole and the slit
		}
		if err := n.MarkSkirt(pieces); err != nil {
			t.Fatal(err)
		}
		table, err := layersOf(n)
		if err != nil {
			t.Fatal(err)
		}
		sums, strokes := map[int]float64{}, 0
		for _, p := range pieces {
			copies, layer := float64(p.Count), -1
			if p.OnFold {
				copies *= 2
			}
			for _, l := range p.Inside {
				if math.Abs(plane.Length(l)-2*markReach) < 1e-6 {
					strokes += int(copies)
					continue
				}
				layer++
				sums[layer] += copies * plane.Length(l)
				if c.gores > 1 {
					checkOnSeams(t, p, l, table[layer].Depth)
				}
			}
		}
		for i, l := range table {
			near(t, "seam line", sums[i], l.Girth, 0.002*l.Girth) // chords of 0.1 mm
		}
		if strokes != 3*c.marks {
			t.Errorf("%d gores: %d strokes, want %d", c.gores, strokes, 3*c.marks)
		}
	}
}

// checkOnSeams checks that a line runs from the back of a piece to its front, so far below
// the waist.
func checkOnSeams(t *testing.T, p shapes.Piece, l orb.LineString, depth float64) {
	t.Helper()
	back, front := p.Edges[2].Line, p.Edges[0].Line
	near(t, p.Name+": down the back", planar.Distance(l[0], back[len(back)-1]), depth, 1e-6)
	near(t, p.Name+": off the back", planar.DistanceFrom(back, l[0]), 0, 1e-6)
	near(t, p.Name+": off the front", planar.DistanceFrom(front, l[len(l)-1]), 0, 1e-6)
}

// A layer sewn on above the stop is open: one seam fewer between its strips. Those at
// the stop and below go all round, and all do where the skirt has no opening.
func TestNetIsOpenAcrossTheOpening(t *testing.T) {
	for _, c := range []struct {
		change func(*CircleSkirt)
		closed float64
		open   []bool
		notes  int
	}{
		{func(*CircleSkirt) {}, 300, []bool{false, false, true}, 0},
		{func(*CircleSkirt) {}, 301, []bool{false, true, true}, 0},
		{func(*CircleSkirt) {}, 0, []bool{false, false, false}, 1},
		{func(c *CircleSkirt) { c.Opening = false }, 301, []bool{false, false, false}, 0},
		{func(c *CircleSkirt) { c.Gores = 1 }, 0, []bool{false, false, true}, 0}, // a slit of 203.2 mm
	} {
		skirt := netSkirt(10)
		c.change(&skirt)
		n := netOn(t, skirt, c.closed)
		table, err := layersOf(n)
		if err != nil {
			t.Fatal(err)
		}
		joins, err := joinsOf(n)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range table {
			if l.Open != c.open[i] {
				t.Errorf("closed for %g: layer %d open: %t", c.closed, l.Layer, l.Open)
			}
			seams := 0
			for _, j := range joins {
				if strings.HasPrefix(j.Name, "layer "+string(rune('0'+l.Layer))+", ") {
					seams += max(j.Times, 1)
				}
				if strings.HasPrefix(j.Name, "layer "+string(rune('0'+l.Layer))+" onto") &&
					strings.HasSuffix(j.Name, "back open") != l.Open {
					t.Errorf("open %t: %s", l.Open, j.Name)
				}
			}
			want := l.Strips
			if l.Open {
				want--
			}
			if seams != want {
				t.Errorf("closed for %g: layer %d of %d strips has %d seams", c.closed, l.Layer, l.Strips, seams)
			}
		}
		for hem, want := range map[float64]shapes.Finish{0: shapes.Raw, 8: shapes.Turned} {
			hemmed := n
			hemmed.HemAllowance = hem
			for _, l := range table {
				name, free := netLayerName(l.Layer), 0
				for _, p := range mustDraft(t, hemmed) {
					for _, e := range p.Edges {
						if strings.HasPrefix(p.Name, name) && strings.HasSuffix(e.Name, " end") && e.Finish() == want &&
							e.Allowance == hem {
							free += p.Count
						}
					}
				}
				if (free == 2) != l.Open || free > 2 {
					t.Errorf("closed for %g, hem %g: layer %d, open %t, has %d free ends", c.closed, hem, l.Layer,
						l.Open, free)
				}
			}
		}
		n.Fullness, n.Widths = 0, 12 // notes of eased fullness are others
		if notes, err := notesOf(n); err != nil || len(notes) != c.notes {
			t.Errorf("closed for %g: %v, %v", c.closed, notes, err)
		}
	}
}

func TestNetRefusesOtherSkirts(t *testing.T) {
	n := netOn(t, netSkirt(10), 0)
	for want, change := range map[string]func(*CircleSkirt){
		"waist of 700.0 mm":               func(c *CircleSkirt) { c.Waist = 720 },
		"length of 1000.0 mm":             func(c *CircleSkirt) { c.Length = 900 },
		"1 of a circle, the skirt is 0.5": func(c *CircleSkirt) { c.Fraction = 0.5 },
	} {
		c := netSkirt(10)
		change(&c)
		if _, err := n.on(c, 0, 0); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if _, err := n.on(Godet{}, 0, 0); err != ErrNotOnSkirt {
		t.Error(err)
	}
	if _, err := n.on(Train{Skirt: netSkirt(10), Behind: 100}, 0, 0); err != nil {
		t.Error(err)
	}
}

// The stop is notched on both edges of the opening, as far below the waist; not where
// the opening is closed all the way, and once only.
func TestStopIsMarked(t *testing.T) {
	for _, gores := range []int{1, 2, 3, 10} {
		skirt := netSkirt(gores)
		skirt.Fraction = 0.5
		p := mustDraft(t, skirt)[0]
		before := len(p.Notches)
		for _, down := range []float64{1000, 230, 230} {
			if err := p.MarkStop(down); err != nil {
				t.Fatal(err)
			}
		}
		edges := 0
		for _, e := range p.Edges {
			if e.Kind != shapes.Opening {
				continue
			}
			edges++
			waist := e.Line[0]
			if e.Line[0][0] > e.Line[len(e.Line)-1][0] {
				waist = e.Line[len(e.Line)-1]
			}
			if !slices.ContainsFunc(p.Notches[before:], func(n shapes.Notch) bool {
				return n.Edge == e.Name && math.Abs(planar.Distance(n.At, waist)-230) < 1e-6
			}) {
				t.Errorf("%d gores: no stop on %s: %v", gores, e.Name, p.Notches[before:])
			}
		}
		if len(p.Notches)-before != edges || edges == 0 {
			t.Errorf("%d gores: %d notches for %d edges", gores, len(p.Notches)-before, edges)
		}
	}
}
