package plane

import (
	"errors"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// changed applies a map of the plane to sides; one that mirrors turns their order about,
// so that they run counter-clockwise again.
func changed(sides []Side, roles []Role, mirrors bool, by func(orb.Point) orb.Point, scale float64) ([]Side, []Role) {
	out, as := make([]Side, len(sides)), make([]Role, len(roles))
	for i, s := range sides {
		line := make(orb.LineString, len(s.Line))
		for k, v := range s.Line {
			if mirrors {
				line[len(line)-1-k] = by(v)
			} else {
				line[k] = by(v)
			}
		}
		at := i
		if mirrors {
			at = len(sides) - 1 - i
		}
		out[at], as[at] = Side{line, s.Allowance * scale}, roles[i]
	}
	return out, as
}

// rounded is an outline with a curved hem below, seams that lean, a curve in one of
// them, and a top: allowances and angles at random.
func rounded(t *rapid.T) ([]Side, []Role) {
	allowance := rapid.SampledFrom([]float64{0, 6, 12, 25})
	from := -math.Pi/2 - rapid.Float64Range(0.1, 0.5).Draw(t, "left")
	to := -math.Pi/2 + rapid.Float64Range(0.1, 0.5).Draw(t, "right")
	hem := Arc(orb.Point{}, 900, from, to, rapid.Float64Range(0.05, 4).Draw(t, "error"))
	a, b := hem[0], hem[len(hem)-1]
	lean := rapid.Float64Range(-150, 150)
	c, d := orb.Point{b[0] + lean.Draw(t, "ca"), b[1] + 700}, orb.Point{a[0] + lean.Draw(t, "da"), a[1] + 650}
	if c[0] < d[0]+20 {
		c[0] = d[0] + 20
	}
	middle := orb.Point{(b[0] + c[0]) / 2, (b[1] + c[1]) / 2}
	middle[0] += rapid.SampledFrom([]float64{0, 0.01, -0.3, 2, -7, 30}).Draw(t, "bend")
	return []Side{
		{hem, allowance.Draw(t, "hem")}, {orb.LineString{b, middle, c}, allowance.Draw(t, "right seam")},
		{orb.LineString{c, d}, allowance.Draw(t, "top")}, {orb.LineString{d, a}, allowance.Draw(t, "left seam")},
	}, []Role{TurnedUp, Sewn, Plain, Sewn}
}

// A cut line moves, turns, mirrors and grows with its seam line, wherever its first side
// begins.
func TestOffsetMovesAlong(t *testing.T) {
	sin, cos := math.Sincos(0.7)
	maps := []struct {
		name    string
		mirrors bool
		by      func(orb.Point) orb.Point
		scale   float64
	}{
		{"moved", false, func(v orb.Point) orb.Point { return orb.Point{v[0] + 512, v[1] - 2048} }, 1},
		{"turned", false, func(v orb.Point) orb.Point { return orb.Point{cos*v[0] - sin*v[1], sin*v[0] + cos*v[1]} }, 1},
		{"mirrored", true, func(v orb.Point) orb.Point { return orb.Point{-v[0], v[1]} }, 1},
		{"mirrored on the slant", true, func(v orb.Point) orb.Point { return orb.Point{v[1], v[0]} }, 1},
		{"twice as large", false, func(v orb.Point) orb.Point { return orb.Point{2 * v[0], 2 * v[1]} }, 2},
	}
	same := func(t *rapid.T, name string, sides []Side, got, want []orb.Point, bad, err error) {
		if (bad == nil) != (err == nil) {
			t.Fatalf("%s: %v, but %v before; of %v", name, bad, err, sides)
		}
		far, at := farthest(got, want)
		back, there := farthest(want, got)
		if far > Lattice {
			t.Fatalf("%s: a corner at %v, %.3g from where it was", name, at, far)
		}
		if back > Lattice {
			t.Fatalf("%s: no corner within %.3g of %v", name, back, there)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		sides, roles := rounded(t)
		if rapid.Bool().Draw(t, "star") {
			var seam orb.Ring
			for seed := rapid.Uint64Range(0, 1<<30).Draw(t, "seed"); seam == nil; seed++ {
				seam, sides = star(seed, false)
			}
			roles = make([]Role, len(sides))
			for i := range roles {
				roles[i] = Role(i % 3)
			}
		}
		want, err := OffsetTurnedUp(sides, roles, MitreLimit)
		for _, m := range maps {
			moved, as := changed(sides, roles, m.mirrors, m.by, m.scale)
			got, bad := OffsetTurnedUp(moved, as, MitreLimit)
			there := make([]orb.Point, len(want))
			for i, v := range want {
				there[i] = m.by(v)
			}
			same(t, m.name, sides, got, there, bad, err)
		}
		first := rapid.IntRange(0, len(sides)-1).Draw(t, "first")
		got, bad := OffsetTurnedUp(append(append([]Side{}, sides[first:]...), sides[:first]...),
			append(append([]Role{}, roles[first:]...), roles[:first]...), MitreLimit)
		same(t, "begun elsewhere", sides, got, want, bad, err)
	})
}

// farthest is how far the corner of a that is farthest from all of b lies from them, and
// where.
func farthest(a, b []orb.Point) (float64, orb.Point) {
	most, at := 0.0, orb.Point{}
	for _, v := range a {
		near := math.Inf(1)
		for _, w := range b {
			near = math.Min(near, norm(sub(v, w)))
		}
		if near > most {
			most, at = near, v
		}
	}
	return most, at
}

// Steiner's formula for mitred corners: an allowance a around an outline of area A and
// length P adds a P + a^2 sum tan(t/2), t being the turn at each corner (less than nothing
// at those that point inwards); a corner squared off at 2.5 a lacks a triangle of height
// h = a/cos(t/2) - 2.5 a and area h^2 / tan(t/2). It holds where no side is swallowed.
func TestAreaOfAnEvenAllowance(t *testing.T) {
	held, squared := 0, 0
	for seed := range uint64(400) {
		seam, sides := star(seed, true)
		if seam == nil {
			continue
		}
		a, n := sides[0].Allowance, len(sides)
		half := make([]float64, n) // tan(t/2) at the start of each side
		want := Area(seam) + a*Length(seam)
		for i := range n {
			d, e := sub(seam[i], seam[(i+n-1)%n]), sub(seam[i+1], seam[i])
			turn := math.Atan2(cross(d, e), dot(d, e))
			half[i] = math.Tan(turn / 2)
			want += a * a * half[i]
			if high := 1/math.Cos(turn/2) - MitreLimit; high > 0 && turn > 0 {
				want -= a * a * high * high / half[i]
				squared++
			}
		}
		short := false
		for i := range n {
			short = short || norm(sub(seam[i+1], seam[i]))+a*math.Min(half[i], 0)+a*math.Min(half[(i+1)%n], 0) < 1
		}
		if short {
			continue
		}
		ring, err := Offset(sides, MitreLimit)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		held++
		if got := Area(ring); math.Abs(got-want) > 1e-6*want {
			t.Errorf("seed %d: area %.4f, want %.4f", seed, got, want)
		}
	}
	if held < 100 || squared < 20 {
		t.Errorf("only %d outlines, with %d corners squared off", held, squared)
	}
}

// A line that turns back upon itself is cut around, squared off at its end as a spike is;
// no number in the cut line is not finite.
func TestOffsetOfALineThatTurnsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1, 60).Draw(t, "length")
		angle := rapid.Float64Range(-1, 1).Draw(t, "angle") // well off both its neighbours
		allowance := rapid.SampledFrom([]float64{0, 3, 10}).Draw(t, "allowance")
		tip := orb.Point{100 + length*math.Cos(angle), 50 + length*math.Sin(angle)}
		ring, err := Offset([]Side{
			{orb.LineString{{0, 0}, {100, 0}, {100, 50}}, allowance},
			{orb.LineString{{100, 50}, tip, {100, 50}}, allowance},
			{orb.LineString{{100, 50}, {100, 100}, {0, 100}, {0, 0}}, allowance},
		}, MitreLimit)
		if lost := (*Swallowed)(nil); errors.As(err, &lost) && lost.Side == 1 && length < 3*allowance {
			return // shorter than it is wide
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range ring {
			if !finite(v) {
				t.Fatalf("a corner at %v", v)
			}
		}
		if allowance == 0 {
			return
		}
		if err := CheckSimple(Tidy(SnapRing(ring))); err != nil {
			return // two of its corners can cross: it is refused
		}
		reach := 0.0
		for _, v := range ring {
			reach = max(reach, dot(sub(v, orb.Point{100, 50}), orb.Point{math.Cos(angle), math.Sin(angle)}))
		}
		if want := length + MitreLimit*allowance; reach < want-1e-6 {
			t.Errorf("the cut line ends %.3f behind the tip, want %.3f", reach-length, want-length)
		}
	})
}
