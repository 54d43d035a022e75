package judge

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// The slow twin of all the rules: pieces are sets of unit cells, a lattice step wide, and
// each rule is a statement about cells. Turns are quarter turns, so that cells stay cells.

// cell is the lower left corner of a square of one lattice step.
type cell struct{ x, y int }

// quarter brings a cell of a piece to where it lies: mirrored about the grain first, then
// turned, then moved.
func (c cell) quarter(pl Placed) cell {
	x, y := 2*c.x+1, 2*c.y+1 // of the middle, in half steps
	if pl.Mirrored {
		y = -y
	}
	for range (int(pl.Turn)/90%4 + 4) % 4 {
		x, y = -y, x
	}
	return cell{(x-1)/2 + inSteps(pl.At[0]), (y-1)/2 + inSteps(pl.At[1])}
}

func inSteps(mm float64) int { return int(mm * steps) }

// cellsOf lists the cells within an outline of upright and level edges, by where a ray to
// the left of a cell's middle crosses them.
func cellsOf(ring orb.Ring) []cell {
	var cells []cell
	box := plane.Bounds(ring)
	for x := inSteps(box.Min[0]); x < inSteps(box.Max[0]); x++ {
		for y := inSteps(box.Min[1]); y < inSteps(box.Max[1]); y++ {
			inside := false
			for i := 1; i < len(ring); i++ {
				low, high := inSteps(min(ring[i-1][1], ring[i][1])), inSteps(max(ring[i-1][1], ring[i][1]))
				if low <= y && y < high && inSteps(ring[i][0]) <= x {
					inside = !inside
				}
			}
			if inside {
				cells = append(cells, cell{x, y})
			}
		}
	}
	return cells
}

// stage is when a rule is judged: those of stage 0 of each piece by itself, the others of
// the whole layout, one after the other.
var stage = map[Rule]int{WrongCount: 1, OffPin: 2, MixedGrain: 3, OffRepeat: 4, WrongLength: 5, InForbidden: 6,
	Overlap: 7, TooClose: 7}

// brokenRules lists all rules that a layout breaks, with cells for shapes.
func brokenRules(p Problem, l Layout) []Rule {
	var rules []Rule
	broken := func(r Rule, yes bool) {
		if yes && !slices.Contains(rules, r) {
			rules = append(rules, r)
		}
	}
	lies := make([][]cell, len(l.Placed))
	for i, pl := range l.Placed {
		for _, c := range cellsOf(p.Pieces[pl.Piece].Outline) {
			lies[i] = append(lies[i], c.quarter(pl))
		}
		cellsByThemselves(p, pl, lies[i], broken)
	}
	cellsTogether(p, l, lies, broken)
	return rules
}

// cellsByThemselves judges one placed piece.
func cellsByThemselves(p Problem, pl Placed, lies []cell, broken func(Rule, bool)) {
	piece := p.Pieces[pl.Piece]
	asDrawn := pl.Turn
	if pl.Mirrored {
		asDrawn = -asDrawn
	}
	allowed := false
	for _, turn := range append([]float64{0}[:max(0, 1-len(piece.Turns))], piece.Turns...) {
		allowed = allowed || math.Mod(turn-asDrawn, 360) == 0
	}
	level := math.Mod(pl.Turn, 180) == 0
	broken(WrongTurn, !allowed || piece.OnFold && !level)
	if !piece.OnFold {
		broken(WrongMirror, piece.Mirror == AsDrawn && pl.Mirrored ||
			piece.Mirror == Paired && pl.Mirrored != (pl.Copy%2 == 1))
	}
	least, most := math.Inf(1), math.Inf(-1) // across, steps
	for _, c := range lies {
		least, most = min(least, float64(c.y)), max(most, float64(c.y+1))
		broken(OutsideStrip, c.y < 0 || float64(c.y+1) > p.Width*steps || c.x < 0 ||
			p.MaxLength > 0 && float64(c.x+1) > p.MaxLength*steps)
	}
	width, middle := p.Width*steps, p.Width*steps/2
	switch {
	case !p.FoldBelow:
		return
	case piece.OnFold && level:
		// The cell drawn lowest lies at the bottom of what is cut, or, turned over, at its top.
		drawn := slices.MinFunc(cellsOf(piece.Outline), func(a, b cell) int { return a.y - b.y }).quarter(pl)
		below := float64(drawn.y) == least
		broken(WrongMirror, !below && !p.FoldAbove)
		broken(OffFold, below && least != 0 || !below && p.FoldAbove && most != width)
	case !piece.OnFold:
		broken(NearFold, least < p.Gap*steps/2 || p.FoldAbove && width-most < p.Gap*steps/2)
	}
	broken(OverMiddle, p.FoldAbove && most > middle-p.Middle*steps && least < middle+p.Middle*steps)
}

// cellsTogether judges what placed pieces are to each other.
func cellsTogether(p Problem, l Layout, lies [][]cell, broken func(Rule, bool)) {
	copies, most := map[[2]int]int{}, 0
	for i, pl := range l.Placed {
		piece := p.Pieces[pl.Piece]
		copies[[2]int{pl.Piece, pl.Copy}]++
		broken(WrongCount, pl.Copy < 0 || pl.Copy >= piece.Count || copies[[2]int{pl.Piece, pl.Copy}] > 1)
		for k, other := range l.Placed[:i] {
			if piece.Alike && other.Piece == pl.Piece && other.Copy/2 == pl.Copy/2 {
				broken(MixedGrain, math.Mod(pl.Turn-other.Turn, 180) != 0)
			}
			switch d := squareBetween(lies[i], lies[k]); {
			case d < 0:
				broken(Overlap, true)
			default:
				broken(TooClose, float64(d) < p.Gap*steps*p.Gap*steps)
			}
		}
		for _, c := range lies[i] {
			most = max(most, c.x+1)
		}
		for _, zone := range p.Forbidden {
			broken(InForbidden, squareBetween(lies[i], cellsOf(zone)) < 0)
		}
	}
	for _, pin := range p.Pins {
		broken(OffPin, !slices.ContainsFunc(l.Placed, func(pl Placed) bool {
			turned := math.Mod(pl.Turn-pin.Turn, 360) != 0
			pl.Turn = pin.Turn
			return pl == pin && !turned
		}))
	}
	wanted := 0
	for _, piece := range p.Pieces {
		wanted += piece.Count
	}
	broken(WrongCount, len(copies) < wanted)
	broken(WrongLength, l.Length*steps != float64(most))
	broken(OffRepeat, !onRepeat(p, l))
}

// squareBetween is the squared distance of two sets of closed cells, and below 0 when
// they share one.
func squareBetween(a, b []cell) int {
	least := math.MaxInt
	for _, c := range a {
		for _, d := range b {
			if c == d {
				return -1
			}
			x, y := max(0, max(c.x-d.x, d.x-c.x)-1), max(0, max(c.y-d.y, d.y-c.y)-1)
			least = min(least, x*x+y*y)
		}
	}
	return least
}

// onRepeat tries every phase of each group, in quarters of a step, repeats being whole
// quarters: one must be within half a step of each match point, or be the one given.
func onRepeat(p Problem, l Layout) bool {
	for axis, repeat := range p.Repeat {
		for g := range 3 {
			var points []int // quarters of a step
			for _, pl := range l.Placed {
				m := p.Pieces[pl.Piece].Match
				if m != nil && pl.Copy >= 0 && pl.Copy < p.Pieces[pl.Piece].Count && m.group(pl.Copy) == g {
					// A match point is the corner of a cell: the middle of one half a step on.
					at := [2]float64{m.Point[0] * steps, m.Point[1] * steps}
					if pl.Mirrored {
						at[1] = -at[1]
					}
					for range (int(pl.Turn)/90%4 + 4) % 4 {
						at = [2]float64{-at[1], at[0]}
					}
					points = append(points, int(4*(at[axis]+pl.At[axis]*steps)))
				}
			}
			found := repeat == 0
			for phase := 0; phase < int(4*repeat*steps) && !found; phase++ {
				given, is := p.Phases[g]
				found = !is || wraps(phase-int(4*given[axis]*steps), int(4*repeat*steps)) == 0
				for _, at := range points {
					found = found && wraps(at-phase, int(4*repeat*steps)) <= 2
				}
			}
			if !found {
				return false
			}
		}
	}
	return true
}

// wraps is how far d is from a multiple of n.
func wraps(d, n int) int {
	d = (d%n + n) % n
	return min(d, n-d)
}
