package judge

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// judgeFolds judges whether a piece that must lie against a fold does, whether
// the others keep half the gap from it, and whether all keep clear of the middle
// where the selvedges of a cloth folded twice meet.
func judgeFolds(c cutPiece, p Problem, pl Placed) error {
	if !p.FoldBelow {
		return nil
	}
	above := int64(p.Width * steps) // of use with FoldAbove, where the width is on the lattice
	if p.Pieces[pl.Piece].OnFold {
		// As drawn the least y is the fold; mirroring and half a turn send it up.
		up := pl.Mirrored != sameTurn(pl.Turn, 180)
		switch {
		case !up && c.low.y != 0:
			return c.broken(OffFold, c.lowest(), "its fold edge belongs on y = 0")
		case up && c.high.y != above:
			return c.broken(OffFold, c.highest(), "its fold edge belongs on y = %v", plane.MM(p.Width))
		}
	} else {
		keep := foldClearance(p.Gap)
		const detail = "half the gap is %v"
		switch {
		case c.low.y < keep:
			return c.broken(NearFold, c.lowest(), detail, plane.MM(p.Gap/2))
		case p.FoldAbove && above-c.high.y < keep:
			return c.broken(NearFold, c.highest(), detail, plane.MM(p.Gap/2))
		}
	}
	if !p.FoldAbove {
		return nil
	}
	low, high, middle := c.low.point()[1], c.high.point()[1], p.Width/2
	if high > middle-p.Middle && low < middle+p.Middle {
		where := c.highest()
		if low+high > 2*middle {
			where = c.lowest()
		}
		return c.broken(OverMiddle, where, "%v are to be kept clear on either side of y = %v",
			plane.MM(p.Middle), plane.MM(middle))
	}
	return nil
}

// foldClearance is half a gap in whole lattice steps, rounded up.
func foldClearance(gap float64) int64 {
	return int64(math.Ceil(min(gap*steps, 2*farthest) / 2))
}

// lowest and highest return a vertex of least and of greatest y, mm.
func (c *cutLine) lowest() orb.Point {
	for _, v := range c.points {
		if v.y == c.low.y {
			return v.point()
		}
	}
	return c.low.point()
}

func (c *cutLine) highest() orb.Point {
	for _, v := range c.points {
		if v.y == c.high.y {
			return v.point()
		}
	}
	return c.high.point()
}
