package nest

import (
	"math"
	"slices"

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
	o := unfolding{problem: p, phases: phasesOf(stretches, layouts)}
	for n, s := range stretches {
		o.start(s)
		for _, pl := range layouts[n].Placed {
			o.cut(s, pl, layouts[n].Length)
		}
	}
	return o.layout
}

// unfolding lays what each stretch cuts on the open cloth.
type unfolding struct {
	problem Problem
	layout  Layout
	phases  map[int]orb.Point // of the groups of the stretches
	repeats float64           // whole repeats along before the stretch
	offset  float64           // where the stretch begins, mm
}

// start moves on to the next stretch, clear of what lies before it.
func (o *unfolding) start(s Stretch) {
	if len(o.layout.Placed) == 0 {
		return
	}
	o.offset = o.layout.Length + plane.Ceil(s.Problem.Gap)
	if along := o.problem.Strip.Repeat.Along; along > 0 {
		o.repeats = math.Ceil(o.offset / along)
		o.offset = o.repeats * along
	}
}

// cut lays the one or two copies that a placed piece of a stretch stands for, its
// marker being so long.
func (o *unfolding) cut(s Stretch, pl Placed, marker float64) {
	cut, copies := cutOf(s, pl)
	box := plane.Bounds(s.Problem.Outline(pl))
	low, high := box.Min, box.Max
	if s.Problem.Pieces[pl.Piece].OnFold {
		o.unfold(s, pl, cut, box)
		return
	}
	cut.Mirrored = pl.Mirrored
	if len(copies) == 2 && pl.Mirrored && o.problem.Pieces[cut.Piece].Mirror == Paired {
		copies[0], copies[1] = copies[1], copies[0]
	}
	cut.Copy = copies[0]
	o.put(s, pl, cut, orb.Point{low[0], s.base + low[1]})
	if len(copies) == 1 {
		return
	}
	at := orb.Point{low[0], 2*s.folds[0] - s.base - high[1]}
	switch {
	case s.Lay == DoubleFold && low[1] >= s.Problem.Strip.Width/2:
		at[1] = 2*s.folds[1] - s.base - high[1]
	case s.Lay == CrosswiseFold:
		at = orb.Point{s.Cloth(marker) - high[0], low[1]}
	case s.Lay == CrosswiseTurned:
		at = orb.Point{s.Cloth(marker) - marker + low[0], s.upper - high[1]}
	}
	cut.Copy, cut.Turn = copies[1], otherTurn(pl.Turn, s.Lay)
	cut.Mirrored = !pl.Mirrored && o.problem.Pieces[cut.Piece].Mirror != AsDrawn // else it is its own mirror image
	o.put(s, pl, cut, at)
}

// cutOf says which piece of the open problem a placed one is cut for, in its turn,
// and which copies of it: those of an outline cut double are two.
func cutOf(s Stretch, pl Placed) (cut Placed, copies []int) {
	list := s.copies[pl.Piece]
	layers := len(list) / s.Problem.Pieces[pl.Piece].Count
	return Placed{Piece: s.from[pl.Piece], Turn: pl.Turn, Copy: list[layers*pl.Copy]},
		slices.Clone(list[layers*pl.Copy : layers*(pl.Copy+1)])
}

// unfold lays the whole of a half that lies in box on a fold. Of a pair every
// other one is the mirrored copy, which the whole is as well.
func (o *unfolding) unfold(s Stretch, pl, cut Placed, box orb.Bound) {
	fold := s.folds[0]
	if upper, _ := foldOf(pl.Turn, pl.Mirrored); upper {
		fold = s.folds[1]
	}
	cut.Mirrored = o.problem.Pieces[cut.Piece].Mirror == Paired && cut.Copy%2 == 1
	o.put(s, pl, cut, orb.Point{box.Min[0], fold - (box.Max[1] - box.Min[1])})
}

// put lays a copy that pl of a stretch stands for with its least corner at corner
// of the stretch, across the open cloth.
func (o *unfolding) put(s Stretch, pl, cut Placed, corner orb.Point) {
	if t, ok := nearTurn(o.problem.Pieces[cut.Piece].turnsOf(cut.Mirrored), cut.Turn); ok {
		cut.Turn = t
	}
	box := plane.Bounds(o.problem.Outline(cut))
	cut.At = orb.Point{corner[0] - box.Min[0], corner[1] - box.Min[1]}
	cut.At[0] = o.along(s, pl, cut)
	o.layout.Placed = append(o.layout.Placed, cut)
	o.layout.Length = max(o.layout.Length, cut.At[0]+box.Max[0])
}

// along returns where a piece comes to lie along the cloth once the stretch is
// moved to its offset: by so much, or on the same place of a later repeat.
func (o *unfolding) along(s Stretch, pl, cut Placed) float64 {
	match, repeat := o.problem.Pieces[cut.Piece].Match, o.problem.Strip.Repeat.Along
	if match == nil || repeat == 0 || o.repeats == 0 {
		return plane.Snap(cut.At[0] + o.offset)
	}
	phase := o.phases[s.Problem.Pieces[pl.Piece].Match.group(pl.Copy)][0]
	point := plane.Pose{Mirrored: cut.Mirrored, Turn: cut.Turn}.ApplyPoint(match.Point)[0]
	k := math.Round((cut.At[0] + point - phase) / repeat)
	return plane.Snap((k+o.repeats)*repeat + phase - point)
}

// phasesOf returns a phase of each group that does for all layouts of stretches.
func phasesOf(stretches []Stretch, layouts []Layout) map[int]orb.Point {
	var all Problem
	var l Layout
	for n, s := range stretches {
		all.Strip.Repeat, all.Phases = s.Problem.Strip.Repeat, nil
		for _, pl := range layouts[n].Placed {
			pl.Piece += len(all.Pieces)
			l.Placed = append(l.Placed, pl)
		}
		all.Pieces = append(all.Pieces, s.Problem.Pieces...)
	}
	return all.PhasesOf(l)
}
