package bound

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// anyRing draws a star-shaped ring on the lattice, most with dents.
func anyRing(t *rapid.T) orb.Ring {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	var out orb.Ring
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		r := float64(rapid.IntRange(10, 200).Draw(t, "radius"))
		out = append(out, plane.SnapPoint(orb.Point{r * cos, r * sin}))
	}
	return newWay(append(out, out[0])).ring
}

func TestProfileIsTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := anyRing(t)
		for _, axis := range []Axis{LinesAlong, LinesAcross} {
			if got, want := chords(ring, axis).total(), plane.Area(ring); math.Abs(got-want) > 1e-9*want {
				t.Fatalf("axis %d: all chords together %v, area %v", axis, got, want)
			}
		}
	})
}

func (p profile) value(s float64) float64 {
	k := p.slab(s)
	if k < 0 || k >= len(p.left) {
		return 0
	}
	return p.left[k] + p.slope[k]*(s-p.at[k])
}

func TestSimplerIsBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := chords(anyRing(t), LinesAlong)
		tol := rapid.SampledFrom([]float64{0.01, 1, 20}).Draw(t, "tolerance")
		q := p.simpler(tol)
		span := p.at[len(p.at)-1] - p.at[0]
		for k := range 400 {
			s := p.at[0] + span*(float64(k)+0.5)/400
			if d := p.value(s) - q.value(s); d < -1e-9 || d > tol+1e-9 {
				t.Fatalf("at %v: %v, simpler %v, tolerance %v", s, p.value(s), q.value(s), tol)
			}
		}
	})
}

// Whatever numbers sum to at most 1, their images do, at the lower value and seen
// through a profile.
func TestFunctionsAreDualFeasible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fns := []function{identity}
		for k := 1; k < 8; k++ {
			fns = append(fns, rounding(k))
		}
		share := rapid.OneOf(rapid.Float64Range(0.001, 0.499), rapid.SampledFrom([]float64{0.25, 1. / 3, 0.2, 0.125}))
		for range 4 {
			p := share.Draw(t, "parameter")
			fns = append(fns, threshold(p), counting(p))
		}
		var xs []float64
		left := 1.0
		for left > 0 && len(xs) < 30 {
			x := rapid.OneOf(rapid.Float64Range(0.01, 1), rapid.SampledFrom([]float64{0.5, 0.25, 1. / 3, 0.2})).Draw(t,
				"x")
			x = min(x, left)
			xs, left = append(xs, x), left-x
		}
		for _, f := range fns {
			sum := 0.0
			for _, x := range xs {
				p := profile{at: []float64{0, 1}, left: []float64{x}, right: []float64{x}}.summed()
				sum += f.on(p, 1).total()
			}
			if sum > 1+1e-9 {
				t.Fatalf("%s of %v sums to %v", f, xs, sum)
			}
		}
	})
}

// A slope through every knot of a function has the image's mean.
func TestFunctionsOnSlopes(t *testing.T) {
	for _, f := range []function{identity, rounding(1), rounding(4), threshold(0.2), counting(0.25), counting(0.3),
		counting(0.11)} {
		for _, ends := range [][2]float64{{0, 1}, {1, 0}, {0.5, 1}, {0.25, 0.75}, {1, 0.2}} {
			p := profile{at: []float64{10, 30}, left: ends[:1], right: ends[1:]}.summed()
			sum, steps := 0.0, 20000
			for k := range steps {
				x := ends[0] + (ends[1]-ends[0])*(float64(k)+0.5)/float64(steps)
				q := profile{at: []float64{0, 1}, left: []float64{x}, right: []float64{x}}.summed()
				sum += f.on(q, 1).total()
			}
			if got, want := f.on(p, 1).total(), 20*sum/float64(steps); math.Abs(got-want) > 1e-3 {
				t.Errorf("%s from %v to %v: %v, want %v", f, ends[0], ends[1], got, want)
			}
		}
	}
}

// The cheapest place is no dearer than any other, and costs what it says.
func TestCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := chords(anyRing(t), LinesAcross)
		const size = 500.0
		prices := make([]float64, 8)
		for k := range prices {
			prices[k] = float64(rapid.IntRange(0, 4).Draw(t, "price"))
		}
		borders := cells(size, len(prices))
		cost := func(y float64) float64 {
			sum := 0.0
			for k, price := range prices {
				sum += price * (upTo(p, borders[k+1]-y) - upTo(p, borders[k]-y))
			}
			return sum
		}
		hi := size - (p.at[len(p.at)-1] - p.at[0])
		place, least, _ := cheapest(terms(nil, &p, borders, prices), 0, hi)
		if got := cost(place); math.Abs(got-least) > 1e-6 {
			t.Fatalf("place %v costs %v, said %v", place, got, least)
		}
		for k := range 300 {
			if y := hi * float64(k) / 299; cost(y) < least-1e-6 {
				t.Fatalf("place %v costs %v, less than %v at %v", y, cost(y), least, place)
			}
		}
	})
}

func upTo(p profile, t float64) float64 { return p.upTo(t, p.slab(t)) }

// The linear program against gonum's.
func TestMaster(t *testing.T) {
	drawn, unsolved := 0, 0
	defer func() {
		if unsolved > drawn/20 {
			t.Errorf("gonum solves all but %d of %d programs: too few were compared", unsolved, drawn)
		}
	}()
	rapid.Check(t, func(t *rapid.T) {
		lines, items := rapid.IntRange(1, 6).Draw(t, "lines"), rapid.IntRange(1, 3).Draw(t, "items")
		var counts []float64
		var pools [][]column
		total := 0
		for range items {
			counts = append(counts, float64(rapid.IntRange(1, 5).Draw(t, "count")))
			var pool []column
			for range rapid.IntRange(1, 5).Draw(t, "places") {
				var c column
				for range lines {
					c = append(c, float64(rapid.IntRange(0, 20).Draw(t, "load")))
				}
				c[0]++ // a piece is somewhere
				pool, total = append(pool, c), total+1
			}
			pools = append(pools, pool)
		}
		// Variables: shares, z, slacks.
		a := mat.NewDense(lines+items, total+1+lines, nil)
		b, cost := make([]float64, lines+items), make([]float64, total+1+lines)
		cost[total] = 1
		for k := range lines {
			a.Set(k, total, -1)
			a.Set(k, total+1+k, 1)
		}
		n := 0
		for i, pool := range pools {
			b[lines+i] = counts[i]
			for _, c := range pool {
				for k, load := range c {
					a.Set(k, n, load)
				}
				a.Set(lines+i, n, 1)
				n++
			}
		}
		drawn++
		want, _, err := lp.Simplex(cost, a, b, 1e-10, nil)
		if err != nil {
			unsolved++ // by gonum
			return
		}
		m := newMaster(lines, counts, pools)
		m.optimise(1000)
		if got := m.fullest(); math.Abs(got-want) > 1e-6*(1+want) {
			t.Fatalf("fullest %v, gonum %v", got, want)
		}
	})
}

// Steps tabulated are no longer than steps between the outlines as they are, at
// any height in the range asked for, and near them for a convex pair.
func TestStepsAreBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := monotonePart(anyRing(t)), monotonePart(anyRing(t))
		if a == nil || b == nil {
			t.Skip("meets no line in one interval")
		}
		wa, wb := rowWay{body: a, room: 30}, rowWay{body: b, room: 40}
		wa.right, wa.left = borders(a, 0.01)
		wb.right, wb.left = borders(b, 0.01)
		table := newStepTable(wa, wb, -wa.room, wb.room, 0)
		from := rapid.Float64Range(-30, 39).Draw(t, "from")
		to := from + rapid.Float64Range(0, 40-from).Draw(t, "range")
		least := table.least(from, to)
		for k := range 20 {
			d := from + (to-from)*float64(k)/19
			most := math.Inf(-1)
			for n := range 2000 { // lines a and b, moved up by d, share
				s := -100 + 600*(float64(n)+0.5)/2000
				_, right, okA := ends(a, s)
				left, _, okB := ends(b, s-d)
				if okA && okB {
					most = max(most, right-left)
				}
			}
			if !math.IsInf(most, -1) && least > most+steep(a, b) {
				t.Fatalf("step %v over %v to %v, and %v at %v", least, from, to, most, d)
			}
		}
	})
}

// ends returns where a line enters and leaves a ring.
func ends(r orb.Ring, s float64) (left, right float64, ok bool) {
	left, right = math.Inf(1), math.Inf(-1)
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if (a[1] <= s) == (b[1] <= s) {
			continue
		}
		x := a[0] + (b[0]-a[0])*(s-a[1])/(b[1]-a[1])
		left, right, ok = min(left, x), max(right, x), true
	}
	return left, right, ok
}

// steep is how much lines 0.3 mm apart may miss of a step.
func steep(rings ...orb.Ring) float64 {
	most := 0.0
	for _, r := range rings {
		for i := 1; i < len(r); i++ {
			if dy := math.Abs(r[i][1] - r[i-1][1]); dy > 0 {
				most = max(most, min(math.Abs(r[i][0]-r[i-1][0]), 0.3*math.Abs(r[i][0]-r[i-1][0])/dy))
			}
		}
	}
	return 2*most + 1e-6
}

// Steps are those of every pair of slabs, asked at every difference in height.
func TestStepsAreThoseOfAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := monotonePart(anyRing(t)), monotonePart(anyRing(t))
		if a == nil || b == nil {
			t.Skip("meets no line in one interval")
		}
		wa, wb := rowWay{body: a}, rowWay{body: b}
		wa.right, wa.left = borders(a, 0.01)
		wb.right, wb.left = borders(b, 0.01)
		from := rapid.Float64Range(-60, 60).Draw(t, "from")
		to := from + rapid.SampledFrom([]float64{0, 1e-9, 1, 90}).Draw(t, "range")
		gap := rapid.Float64Range(0, 5).Draw(t, "gap")
		table := newStepTable(wa, wb, from, to, gap)
		for k, got := range table.steps {
			low, high := table.from+table.cell*float64(k), table.from+table.cell*float64(k+1)
			most := math.Inf(-1)
			for i := range wa.right.left {
				for j := range wb.left.left {
					most = max(most, min(edgeStep(wa.right, i, wb.left, j, low), edgeStep(wa.right, i, wb.left, j, high)))
				}
			}
			if want := most - b.Bound().Max[0] + gap; math.Abs(got-want) > 1e-9 {
				t.Fatalf("from %v to %v: step %v, of all pairs %v", low, high, got, want)
			}
		}
	})
}
