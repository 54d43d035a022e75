package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes"
)

// dartOn is a dart marked on a piece: where its legs stand on an edge, as vertices
// of it, and how long they are.
type dartOn struct {
	edge          shapes.Edge
	first, second int // vertices of the edge
	apex          orb.Point
	legs          [2]float64
}

// dartsOf finds the darts of a piece: lines marked inside of three points, the ends
// on an edge.
func dartsOf(t failer, p shapes.Piece) []dartOn {
	t.Helper()
	var out []dartOn
	for _, l := range p.Inside {
		if len(l) != 3 {
			continue
		}
		for _, e := range p.Edges {
			a, b := vertexAt(e, l[0]), vertexAt(e, l[2])
			if a < 0 || b < 0 {
				continue
			}
			d := dartOn{edge: e, first: a, second: b, apex: l[1]}
			d.legs = [2]float64{planar.Distance(l[0], l[1]), planar.Distance(l[2], l[1])}
			out = append(out, d)
		}
	}
	return out
}

func vertexAt(e shapes.Edge, at orb.Point) int {
	for i, v := range e.Line {
		if planar.Distance(v, at) < 1e-6 {
			return i
		}
	}
	return -1
}

// mouths is what the darts of an edge take up along it, mm.
func mouths(t failer, p shapes.Piece, edge string) float64 {
	sum := 0.0
	for _, d := range dartsOf(t, p) {
		if d.edge.Name == edge {
			for i := d.first; i < d.second; i++ {
				sum += planar.Distance(d.edge.Line[i], d.edge.Line[i+1])
			}
		}
	}
	return sum
}

// truedDarts holds of every dart of a piece that its legs are equally long, that the
// edge has no corner once the dart is folded, that what lies between the legs is
// folded onto the edge, and that the cut line follows the seam line over the mouth.
// It returns how many darts there are.
func truedDarts(t failer, p shapes.Piece) int {
	t.Helper()
	const most = 3 * math.Pi / 180 // chords turn by as much
	darts := dartsOf(t, p)
	for _, d := range darts {
		line := d.edge.Line
		if math.Abs(d.legs[0]-d.legs[1]) > 0.01 {
			t.Errorf("%s, %s: legs of %.3f and %.3f mm", p.Name, d.edge.Name, d.legs[0], d.legs[1])
		}
		// Folded: the second side turns about the apex until its leg lies on the first.
		a, b := line[d.first], line[d.second]
		fold := angleOf(d.apex, a) - angleOf(d.apex, b)
		turnedBy := func(v orb.Point) orb.Point {
			return turned(orb.Point{v[0] - d.apex[0], v[1] - d.apex[1]}, fold, d.apex)
		}
		if d.first == 0 || d.second == len(line)-1 {
			t.Errorf("%s, %s: a dart at the end of the edge", p.Name, d.edge.Name)
			continue
		}
		corner := turnAt(line[d.first-1], a, turnedBy(line[d.second+1]))
		if math.Abs(corner) > most {
			t.Errorf("%s, %s: folded, the edge has a corner of %.1f degrees", p.Name, d.edge.Name, corner*180/math.Pi)
		}
		if d.second-d.first != 2 {
			t.Errorf("%s, %s: %d points in the mouth, want the peak", p.Name, d.edge.Name, d.second-d.first-1)
			continue
		}
		// Half the mouth, mirrored in the leg, runs on along the edge.
		peak := line[d.first+1]
		mirrored := mirroredIn(d.apex, a, peak)
		if turn := turnAt(mirrored, a, line[d.first-1]); math.Abs(turn) < math.Pi-most && math.Abs(turn) > most {
			t.Errorf("%s, %s: folded, the mouth stands off the edge by %.1f degrees", p.Name, d.edge.Name,
				turn*180/math.Pi)
		}
		if got, want := distanceToRing(p.Cut, peak), d.edge.Allowance; math.Abs(got-want) > 0.02+0.02*want {
			t.Errorf("%s, %s: the cut line passes the peak at %.2f mm, the allowance is %g", p.Name, d.edge.Name, got,
				want)
		}
	}
	return len(darts)
}

func angleOf(from, to orb.Point) float64 { return math.Atan2(to[1]-from[1], to[0]-from[0]) }

// mirroredIn is a point mirrored in the line through two others.
func mirroredIn(a, b, p orb.Point) orb.Point {
	angle := 2*angleOf(a, b) - angleOf(a, p)
	d := planar.Distance(a, p)
	return orb.Point{a[0] + d*math.Cos(angle), a[1] + d*math.Sin(angle)}
}

func distanceToRing(r orb.Ring, p orb.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(r); i++ {
		least = min(least, planar.DistanceFromSegment(r[i-1], r[i], p))
	}
	return least
}

// Folded, a dart in the neck of this cape used to leave a corner of 23 degrees and
// more, one in this hood of 14.
func TestDartsAreTrued(t *testing.T) {
	for _, change := range []func(*Cape){
		func(*Cape) {},
		func(c *Cape) { c.NeckDrop = 0 },
		func(c *Cape) { c.BackSeam = false },
		func(c *Cape) { c.BackSeam, c.BackOnFold = false, true },
		func(c *Cape) { c.Dart, c.DartLength = 40, 80 },
		func(c *Cape) { c.Fraction, c.Shoulder = 1, 70 },
	} {
		c := fittedCape()
		c.Chord = 0.005
		change(&c)
		darts := 0
		for _, p := range mustDraft(t, c) {
			darts += truedDarts(t, p)
		}
		if darts == 0 {
			t.Errorf("%+v: no darts", c)
		}
	}
	for _, drop := range []float64{0, 45} {
		h := workedHood()
		h.Drop, h.Chord = drop, 0.005
		if n := truedDarts(t, mustDraft(t, h)[0]); n != 1 {
			t.Errorf("%d darts in a side", n)
		}
	}
	b := lanternBlock()
	b.Chord = 0.005
	for _, p := range mustDraft(t, b) {
		truedDarts(t, p)
	}
}

func TestDartsOfAnyBodyAreTrued(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		c := Cape{
			Neck: mm("neck", 260, 550), Length: mm("length", 300, 1400), Fraction: mm("fraction", 0.3, 1.2),
			NeckDrop: mm("drop", 0, 50), Dart: mm("dart", 5, 40), DartLength: mm("dart length", 50, 150),
			Sections: rapid.IntRange(0, 5).Draw(t, "sections"), Allowance: shapes.Allowance{Seam: mm("seam", 0, 12)},
			Chord: 0.005,
		}
		if pieces, err := piecesOf(c); err == nil {
			for _, p := range pieces {
				truedDarts(t, p)
			}
		}
		h := Hood{
			Neck: mm("hood neck", 300, 560), Height: mm("height", 250, 420), Depth: mm("depth", 180, 320),
			Round: mm("round", 40, 110),
			Drop:  mm("hood drop", 0, 45), Dart: mm("hood dart", 5, 40), DartLength: mm("hood dart length", 40, 110),
			HemRaise: mm("raise", 0, 20), Chord: 0.005,
		}
		if pieces, err := piecesOf(h); err == nil {
			truedDarts(t, pieces[0])
		}
		b := drawBlock(t)
		b.Chord = 0.005
		if pieces, err := piecesOf(b); err == nil {
			for _, p := range pieces {
				truedDarts(t, p)
			}
		}
	})
}
