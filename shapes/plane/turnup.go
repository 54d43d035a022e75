package plane

import (
	"math"

	"github.com/paulmach/orb"
)

// Role is what becomes of a side where it meets its neighbours.
type Role int

// Roles of sides.
const (
	Plain    Role = iota
	TurnedUp      // folded back onto the piece, as a hem is
	OnFold        // on a fold, without allowance
	Sewn          // sewn, the seam running on through the allowance of a side turned up
)

// squarely is how far from a right angle, rad, a corner is taken for one: 2 degrees,
// over which an allowance of 30 mm misses its mirror image by 1 mm.
const squarely = 2 * math.Pi / 180

// mirrorSeams puts between a side that is turned up and one that goes on across its
// allowance a stretch of no length along the other's mirror image, with the same
// allowance: so that, turned up, the allowance lies on the piece edge on edge.
//
//	      \       \  seam line, mirrored in the hem
//	cut    \       \_________
//	line   /       / hem line
//	      /       /
//	     /_______/___________ cut line
//
// At a right angle the mirror image is the seam line itself, and none is put.
func mirrorSeams(runs []run, roles []Role) []run {
	n := len(runs)
	out := make([]run, 0, n+2)
	for i := range runs {
		r, next := &runs[i], &runs[(i+1)%n]
		out = append(out, *r)
		from, to := roles[r.side], roles[next.side]
		var seam, hem run
		switch {
		case r.side == next.side:
			continue
		case to == TurnedUp && from == Sewn && next.allowance > 0:
			seam, hem = *r, *next
		case from == TurnedUp && to == Sewn && r.allowance > 0:
			seam, hem = *next, *r
		default:
			continue
		}
		inner := runs[(i+2)%n]
		if hem.side == r.side {
			inner = runs[(i+n-1)%n]
		}
		tangent := tangentAt(hem, inner)
		d := dot(seam.dir, tangent)
		if math.Abs(d) < math.Sin(squarely) {
			continue
		}
		// The way on across the hem is that of the seam, mirrored, the other way round.
		dir := orb.Point{seam.dir[0] - 2*d*tangent[0], seam.dir[1] - 2*d*tangent[1]}
		out = append(out, run{
			a: r.b, b: r.b, dir: dir, out: orb.Point{dir[1], -dir[0]},
			allowance: seam.allowance, side: seam.side, mirror: true,
		})
	}
	return out
}

// tangentAt is the direction of a sampled curve at the outer end of its last chord:
// of an arc the chord's, turned on by the chord's share of the turn to its neighbour.
func tangentAt(last, next run) orb.Point {
	if last.side != next.side {
		return last.dir
	}
	turn := math.Atan2(cross(last.dir, next.dir), dot(last.dir, next.dir))
	if math.Abs(turn) > maxBend {
		return last.dir
	}
	l, m := norm(sub(last.b, last.a)), norm(sub(next.b, next.a))
	sin, cos := math.Sincos(-turn * l / (l + m))
	return orb.Point{last.dir[0]*cos - last.dir[1]*sin, last.dir[0]*sin + last.dir[1]*cos}
}

// maxBend is the most that a sampled curve turns from chord to chord, rad; more is a
// corner.
const maxBend = 0.35
