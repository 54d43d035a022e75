package shapes

import (
	"math"

	"github.com/paulmach/orb"
)

// MostHemEase is the share by which the raw edge of a turned hem may differ from the
// line it is sewn to: what is over is eased in, and beyond 8 % lies in pleats (our own
// figure; common practice narrows hems on curves without giving one).
const MostHemEase = 0.08

// TightHem is a hem whose allowance is too wide for the curve of its edge.
type TightHem struct {
	Edge      string
	Allowance float64 // mm
	Radius    float64 // of the edge at its tightest, mm
	Excess    float64 // of the raw edge over the line it is sewn to there, as a share; negative where it is too short
	Widest    float64 // allowance that would still turn up, mm
}

// TightHems returns the hems of a piece whose raw edge is longer or shorter than
// MostHemEase allows. Turned up by h on an outward curve of radius r, a raw edge of
// radius r + h comes to lie on a line of radius r - h, and is too long by 2 h/(r - h); on
// an inward curve it is too short by 2 h/(r + h).
func (p Piece) TightHems() []TightHem {
	var out []TightHem
	for _, e := range p.Edges {
		if e.Finish() != Turned {
			continue
		}
		bend := e.tightest()
		excess := overTurned(bend, e.Allowance)
		if math.Abs(excess) <= MostHemEase {
			continue
		}
		out = append(out, TightHem{
			Edge: e.Name, Allowance: e.Allowance, Radius: 1 / math.Abs(bend), Excess: excess,
			Widest: MostHemEase / (2*math.Abs(bend) + MostHemEase*bend),
		})
	}
	return out
}

// overTurned is by what share the raw edge of a hem of allowance h is longer than the
// line it is sewn to, where the edge bends by so much, 1/mm, outward curves positive. A
// hem as wide as its radius has no line to lie on.
func overTurned(bend, h float64) float64 {
	if bend*h >= 1 {
		return math.Inf(1)
	}
	return 2 * h * bend / (1 - h*bend)
}

// HemEase is what has to be eased in of the raw edge of a turned hem, mm, over the whole
// of it; negative where the raw edge is stretched. An edge that turns by an angle is, h
// further out, longer by h times the angle, and h further in as much shorter (J. Steiner's
// formula for parallel curves): 2 h angle in all. Corners are mitred and do not count. Of
// a hem that is not turned up it is 0.
func (e Edge) HemEase() float64 {
	if e.Finish() != Turned {
		return 0
	}
	return 2 * e.Allowance * e.turn()
}

// turn is the angle, rad, by which the curves of an edge turn from its start to its end,
// outward curves positive. At its ends a sampled curve turns on for its share of the last
// turn between two chords, which for an arc is half of it.
func (e Edge) turn() float64 {
	sum, n := 0.0, len(e.Line)
	for i := 2; i < n; i++ {
		turn, before, after := turnAt(e.Line, i-1)
		if math.Abs(turn) >= cornered {
			continue
		}
		sum += turn
		if i == 2 && before > 0 {
			sum += turn * before / (before + after)
		}
		if i == n-1 && after > 0 {
			sum += turn * after / (before + after)
		}
	}
	return sum
}

// cornered is beyond what a sampled curve turns at a point, rad.
const cornered = 0.35

// turnAt returns the angle by which a line turns at a sample, and the chords that meet there.
func turnAt(line orb.LineString, i int) (turn, before, after float64) {
	a, b, c := line[i-1], line[i], line[i+1]
	ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], c[0]-b[0], c[1]-b[1]
	return math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy), math.Hypot(ux, uy), math.Hypot(vx, vy)
}

// tightest returns the curvature of the edge where it is greatest, 1/mm: the turn at
// a sample over the half chords that meet there. Corners are mitred and do not count.
func (e Edge) tightest() float64 {
	most := 0.0
	for i := 1; i < len(e.Line)-1; i++ {
		turn, before, after := turnAt(e.Line, i)
		length := (before + after) / 2
		if bend := turn / length; length > 0 && math.Abs(turn) < cornered && math.Abs(bend) > math.Abs(most) {
			most = bend
		}
	}
	return most
}
