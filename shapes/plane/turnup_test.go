package plane

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// cornered is a piece above a hem along the x axis, whose seams lean in from both ends:
// at the origin by an angle, rad.
func cornered(angle, seam, hem float64) ([]Side, []Role) {
	const width, height = 1000, 400
	top := orb.Point{height / math.Tan(angle), height}
	return []Side{
		{orb.LineString{{0, 0}, {width, 0}}, hem},
		{orb.LineString{{width, 0}, {width + height, height}}, seam},
		{orb.LineString{{width + height, height}, top}, seam},
		{orb.LineString{top, {0, 0}}, seam},
	}, []Role{TurnedUp, Sewn, Sewn, Sewn}
}

// beyond is how far the hem allowance, turned up along the x axis, reaches over the
// cut line of the seam that leans by an angle at the origin, mm.
func beyond(ring orb.Ring, angle, seam float64) float64 {
	most := 0.0
	for _, v := range ring {
		if v[1] < 0 && v[0] < 500 {
			// The seam runs along (cos, sin); outward is to its left.
			most = max(most, -v[0]*math.Sin(angle)-v[1]*math.Cos(angle)-seam)
		}
	}
	return most
}

// A gore of a train ends at 41 degrees: cut straight on, its hem of 30 mm, turned
// up, stands out over the seam's cut line by 2 h cos 41 = 45 mm, 34 mm past the seam's
// end along the hem (30 / tan 41). Mirrored it lies edge on edge.
func TestHemsLieEdgeOnEdge(t *testing.T) {
	angle := 41 * math.Pi / 180
	sides, roles := cornered(angle, 15, 30)
	plain, err := Offset(sides, 10)
	if err != nil {
		t.Fatal(err)
	}
	if got := beyond(plain, angle, 15); math.Abs(got-2*30*math.Cos(angle)) > 1e-6 {
		t.Errorf("cut straight on it stands out by %.2f mm", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(25, 155).Draw(t, "degrees") * math.Pi / 180
		seam, hem := rapid.Float64Range(0, 30).Draw(t, "seam"), rapid.Float64Range(1, 60).Draw(t, "hem")
		sides, roles = cornered(angle, seam, hem)
		ring, err := OffsetTurnedUp(sides, roles, MitreLimit)
		if err != nil {
			t.Fatal(err)
		}
		limit := 1e-6
		if math.Abs(angle-math.Pi/2) < squarely {
			limit = 2 * hem * math.Sin(squarely)
		}
		if got := beyond(ring, angle, seam); got > limit {
			t.Errorf("at %.1f degrees it stands out by %.3f mm", angle*180/math.Pi, got)
		}
		if err := CheckSimple(Tidy(SnapRing(ring))); err != nil {
			t.Error(err)
		}
	})
}

// At right angles, and where nothing is turned up, the cut line is that of Offset.
func TestSquareHemsAreCutStraightOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(25, 155).Draw(t, "degrees") * math.Pi / 180
		seam, hem := rapid.Float64Range(0, 30).Draw(t, "seam"), rapid.Float64Range(0, 60).Draw(t, "hem")
		sides, roles := cornered(angle, seam, hem)
		roles[0] = Plain
		sides[1].Line[1] = orb.Point{1000, 400}
		sides[2].Line[0] = orb.Point{1000, 400}
		a, bad := Offset(sides, MitreLimit)
		b, err := OffsetTurnedUp(sides, roles, MitreLimit)
		if bad != nil || err != nil || !a.Equal(b) {
			t.Fatalf("%v, %v\n%v\n%v", bad, err, a, b)
		}
		// The far seam stands square: its corner stays as it is.
		roles[0], roles[3] = TurnedUp, Plain
		if c, err := OffsetTurnedUp(sides, roles, MitreLimit); err != nil || !a.Equal(c) {
			t.Fatalf("%v\n%v\n%v", err, a, c)
		}
	})
}

// The tangent at the end of a sampled arc is that of the arc.
func TestTangentsOfArcs(t *testing.T) {
	arc := Arc(orb.Point{}, 300, 0.3, 1.4, 0.1)
	o := newOffsetter([]Side{{Line: arc}, {Line: orb.LineString{arc[len(arc)-1], {}, arc[0]}}}, nil, MitreLimit)
	n := len(arc) - 1
	for _, c := range []struct {
		got   orb.Point
		angle float64
	}{{tangentAt(o.runs[0], o.runs[1]), 0.3}, {tangentAt(o.runs[n-1], o.runs[n-2]), 1.4}} {
		if want := (orb.Point{-math.Sin(c.angle), math.Cos(c.angle)}); norm(sub(c.got, want)) > 1e-9 {
			t.Errorf("%v, want %v", c.got, want)
		}
	}
}
