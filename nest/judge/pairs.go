package judge

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// judgeZones judges whether the pieces keep clear of the insides of the
// forbidden zones.
func judgeZones(p Problem, cut []cutPiece, stop func() bool) error {
	var j pairing
	for i, zone := range p.Forbidden {
		line, err := newCutLine(zone)
		if err != nil {
			return err
		}
		for _, c := range cut {
			if stop() {
				return errInterrupted
			}
			if where, yes := j.overlap(c.cutLine, line); yes {
				return c.broken(InForbidden, where, "zone %d", i+1)
			}
		}
	}
	return nil
}

// judgePairs judges overlaps and, where a gap is asked for, distances: by a
// sweep along the cloth over the pieces' boxes.
func judgePairs(p Problem, cut []cutPiece, stop func() bool) error {
	var j pairing
	gap := newClearance(p.Gap)
	cut = slices.Clone(cut)
	slices.SortStableFunc(cut, func(a, b cutPiece) int { return cmp.Compare(a.low.x, b.low.x) })
	for i := range cut {
		a := &cut[i]
		for k := i + 1; k < len(cut); k++ {
			b := &cut[k]
			if b.low.x > a.high.x+gap.reach {
				break
			}
			if b.low.y > a.high.y+gap.reach || a.low.y > b.high.y+gap.reach {
				continue
			}
			if stop() {
				return errInterrupted
			}
			if where, yes := j.overlap(a.cutLine, b.cutLine); yes {
				return pairBroken(Overlap, a, b, where)
			}
			if p.Gap == 0 {
				continue
			}
			if where, yes := j.tooClose(a.cutLine, b.cutLine, gap); yes {
				broken := pairBroken(TooClose, a, b, where)
				broken.Detail = say.Textf("the gap is %v", plane.MM(p.Gap))
				return broken
			}
		}
	}
	return nil
}

func pairBroken(rule Rule, a, b *cutPiece, where orb.Point) *Broken {
	return &Broken{
		Rule: rule, Piece: a.name, Copy: a.copy, Other: b.name, OtherCopy: b.copy,
		At: where, Pair: [2]int{a.index, b.index},
	}
}

// clearance is the distance to keep between pieces.
type clearance struct {
	gap   float64 // lattice steps, exactly as given
	reach int64   // whole steps, at least gap
}

func newClearance(gap float64) clearance {
	gap *= steps
	// Nothing lies farther apart than 2 * farthest on either axis.
	return clearance{gap, int64(math.Ceil(min(gap, 2*farthest)))}
}

// tooClose says whether two cut lines without a common area come nearer than the
// gap, and where. Lines that do not cross are nearest at a vertex of either.
func (j *pairing) tooClose(a, b *cutLine, gap clearance) (orb.Point, bool) {
	r := step{gap.reach, gap.reach}
	low := step{max(a.low.x, b.low.x), max(a.low.y, b.low.y)}.sub(r)
	high := step{min(a.high.x, b.high.x), min(a.high.y, b.high.y)}.add(r)
	j.meet(a, b, low, high, gap.reach)
	for _, pair := range j.met {
		for _, e := range [2][2]*nearEdge{{pair.a, pair.b}, {pair.b, pair.a}} {
			// Each vertex starts one edge, so starts alone are enough: the end is
			// the start of the next edge, whose box is as near.
			if gap.beats(e[0].from, e[1]) {
				return e[0].from.point(), true
			}
		}
	}
	return orb.Point{}, false
}

// beats says whether p is nearer than the gap to e, comparing squares: the
// squared distance is f*g/den with whole f, g, den below 2^57.
func (c clearance) beats(p step, e *nearEdge) bool {
	along, out, back := e.to.sub(e.from), p.sub(e.from), p.sub(e.to)
	f, g, den := int64(0), int64(1), int64(1)
	switch dot := along.dot(out); {
	case dot <= 0:
		f = out.dot(out)
	case dot >= along.dot(along):
		f = back.dot(back)
	default:
		f = cross(e.from, e.to, p)
		g, den = f, along.dot(along)
	}
	// Each side is off by a few parts in 2^53; only a near tie needs big numbers.
	const tie = 1e-12
	have, want := float64(f)*float64(g), c.gap*c.gap*float64(den)
	switch {
	case have > want*(1+tie):
		return false
	case have < want*(1-tie):
		return true
	}
	square := new(big.Rat).SetFloat64(c.gap)
	square.Mul(square, square).Mul(square, new(big.Rat).SetInt64(den))
	exact := new(big.Int).Mul(big.NewInt(f), big.NewInt(g))
	return new(big.Rat).SetInt(exact).Cmp(square) < 0
}
