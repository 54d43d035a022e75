package nest

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Unfold returns the layout on the single open cloth of p that cutting the
// stretches of Fold by their layouts gives: the stretches one after the other
// along the cloth, on whole repeats where it has one. It passes Verify of p when
// each layout passes that of its stretch, and p sets no MaxLength that they break
// together: a second judge of every folded lay. The copies come in the order of
// the layouts, of an outline cut double the copy in the lower layer first.
func Unfold(p Problem, stretches []Stretch, layouts []Layout) Layout {
	o := opener{problem: p, taken: make([][2]int, len(p.Pieces))}
	for n, s := range stretches {
		o.start(s)
		for _, pl := range layouts[n].Placed {
			o.cut(s, pl, layouts[n].Length)
		}
	}
	return o.layout
}

// opener lays what each stretch cuts on the open cloth.
type opener struct {
	problem Problem
	layout  Layout
	repeats float64  // whole repeats along before the stretch
	offset  float64  // where the stretch begins, mm
	taken   [][2]int // copies of each piece so far, as drawn and mirrored
	before  []int    // copies of each piece in the stretches before
}

// start moves on to the next stretch, clear of what lies before it.
func (o *opener) start(s Stretch) {
	o.before = make([]int, len(o.taken))
	for i, taken := range o.taken {
		o.before[i] = taken[0] + taken[1]
	}
	if len(o.layout.Placed) == 0 {
		return
	}
	o.offset = o.layout.Length + snapUp(s.Problem.Gap)
	if along := o.problem.Strip.Repeat.Along; along > 0 {
		o.repeats = math.Ceil(o.offset / along)
		o.offset = o.repeats * along
	}
}

// cut lays the one or two copies that a placed piece of a stretch stands for, its
// marker being so long.
func (o *opener) cut(s Stretch, pl Placed, marker float64) {
	piece := s.from[pl.Piece]
	box := plane.Bounds(s.Problem.Outline(pl))
	low, high := box.Min, box.Max
	if s.Problem.Pieces[pl.Piece].OnFold {
		o.unfold(s, pl, piece, box)
		return
	}
	if s.Lay == Open {
		o.put(piece, o.before[piece]+pl.Copy, pl.Turn, pl.Mirrored, orb.Point{low[0], low[1]})
		return
	}
	o.put(piece, o.next(piece, pl.Mirrored), pl.Turn, pl.Mirrored, orb.Point{low[0], s.base + low[1]})
	at := orb.Point{low[0], 2*s.folds[0] - s.base - high[1]}
	switch {
	case s.Lay == DoubleFold && low[1] >= s.Problem.Strip.Width/2:
		at[1] = 2*s.folds[1] - s.base - high[1]
	case s.Lay == CrosswiseFold:
		at = orb.Point{s.Cloth(marker) - high[0], low[1]}
	case s.Lay == CrosswiseTurned:
		at = orb.Point{s.Cloth(marker) - marker + low[0], s.upper - high[1]}
	}
	mirrored := !pl.Mirrored && o.problem.Pieces[piece].Mirror != AsDrawn // else it is its own mirror image
	o.put(piece, o.next(piece, mirrored), otherTurn(pl.Turn, s.Lay), mirrored, at)
}

// unfold lays the whole of a half that lies in box on a fold. Of a pair every
// other one is the mirrored copy, which the whole is as well.
func (o *opener) unfold(s Stretch, pl Placed, piece int, box orb.Bound) {
	fold := s.folds[0]
	if upper, _ := foldOf(pl.Turn, pl.Mirrored); upper {
		fold = s.folds[1]
	}
	taken := o.taken[piece]
	mirrored := o.problem.Pieces[piece].Mirror == Paired && taken[0] > taken[1]
	o.put(piece, o.next(piece, mirrored), pl.Turn, mirrored, orb.Point{box.Min[0], fold - (box.Max[1] - box.Min[1])})
}

// next returns the next copy of a piece: of a pair the next as drawn or mirrored.
func (o *opener) next(piece int, mirrored bool) int {
	taken := o.taken[piece]
	switch {
	case o.problem.Pieces[piece].Mirror != Paired:
		return taken[0] + taken[1]
	case mirrored:
		return 2*taken[1] + 1
	}
	return 2 * taken[0]
}

// put lays a copy of a piece with its least corner at corner of the stretch, across
// the open cloth.
func (o *opener) put(piece, copyOf int, turn float64, mirrored bool, corner orb.Point) {
	pl := Placed{Piece: piece, Copy: copyOf, Turn: turn, Mirrored: mirrored}
	if t, ok := nearTurn(o.problem.Pieces[piece].turnsOf(mirrored), turn); ok {
		pl.Turn = t
	}
	side := 0
	if mirrored {
		side = 1
	}
	o.taken[piece][side]++
	box := plane.Bounds(o.problem.Outline(pl))
	pl.At = orb.Point{corner[0] - box.Min[0], corner[1] - box.Min[1]}
	pl.At[0] = o.along(pl)
	o.layout.Placed = append(o.layout.Placed, pl)
	o.layout.Length = max(o.layout.Length, pl.At[0]+box.Max[0])
}

// along returns where a piece comes to lie along the cloth once the stretch is
// moved to its offset: by so much, or on the same place of a later repeat.
func (o *opener) along(pl Placed) float64 {
	match, repeat := o.problem.Pieces[pl.Piece].Match, o.problem.Strip.Repeat.Along
	if match == nil || repeat == 0 || o.repeats == 0 {
		return plane.Snap(pl.At[0] + o.offset)
	}
	point := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn}.ApplyPoint(match.Point)
	k := math.Round((pl.At[0] + point[0] - match.Phase[0]) / repeat)
	return plane.Snap((k+o.repeats)*repeat + match.Phase[0] - point[0])
}
