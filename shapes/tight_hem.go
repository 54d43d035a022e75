package shapes

import "math"

// MostHemEase is the share by which the raw edge of a turned hem may differ from the
// line it is sewn to: what is over is eased in, and beyond 4 % lies in pleats (our
// own figure; common practice narrows hems on curves without giving one).
const MostHemEase = 0.04

// TightHem is a hem whose allowance is too wide for the curve of its edge.
type TightHem struct {
	Edge      string
	Allowance float64 // mm
	Radius    float64 // of the edge at its tightest, mm
	Excess    float64 // of the raw edge there, as a share; negative where it is too short
	Widest    float64 // allowance that would still turn up, mm
}

// TightHems returns the hems of a piece whose raw edge is longer or shorter than
// MostHemEase allows. Turned up by h on a radius r, the raw edge of an outward curve
// is longer by h/r, that of an inward one shorter.
func (p Piece) TightHems() []TightHem {
	var out []TightHem
	for _, e := range p.Edges {
		if e.Finish() != Turned {
			continue
		}
		if bend := e.tightest(); math.Abs(bend)*e.Allowance > MostHemEase {
			out = append(out, TightHem{
				Edge: e.Name, Allowance: e.Allowance, Radius: 1 / math.Abs(bend), Excess: bend * e.Allowance,
				Widest: MostHemEase / math.Abs(bend),
			})
		}
	}
	return out
}

// tightest returns the curvature of the edge where it is greatest, 1/mm: the turn at
// a sample over the half chords that meet there. Corners, which turn by more than
// cornered, are mitred and do not count.
func (e Edge) tightest() float64 {
	const cornered = 0.35 // rad, beyond what a sampled curve turns at a point
	most := 0.0
	for i := 2; i < len(e.Line); i++ {
		a, b, c := e.Line[i-2], e.Line[i-1], e.Line[i]
		ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], c[0]-b[0], c[1]-b[1]
		turn := math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)
		length := (math.Hypot(ux, uy) + math.Hypot(vx, vy)) / 2
		if bend := turn / length; length > 0 && math.Abs(turn) < cornered && math.Abs(bend) > math.Abs(most) {
			most = bend
		}
	}
	return most
}
