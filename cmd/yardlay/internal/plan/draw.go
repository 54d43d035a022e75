package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Spread is a cloth with all that is cut from it.
type Spread struct {
	Cloth job.Cloth
	Cuts  []Cut
	Gowns int // that the cuts are for

	// Steps are those that the pieces lie on along and across the cloth, mm: see the type.
	Steps  nest.Repeat
	corner func(orb.Ring) orb.Point
}

// Cut is a piece that is cut from a cloth.
type Cut struct {
	Piece    shapes.Piece // as cut, drawn larger where the cloth shrinks: a piece on the fold is one half
	Finished Size         // of the whole piece as drafted
	Part     job.Part     // it belongs to, with the grain of its layer
	Match    *nest.Match  // with the cloth's repeat; nil without one
	Meets    []Meet       // the points that Match is made of
}

// Size is the extent of a whole piece along and across the grain.
type Size struct {
	Along  float64 `json:"along"`
	Across float64 `json:"across"`
}

// maxDrawn is the most pieces that are drawn for one job, each counted once however
// often it is cut, and maxTold the most drafts that are told to have failed.
const maxDrawn, maxTold = 4000, 100

// Draw drafts every part of a job in each of its cloths. Cloths that nothing is
// cut from are left out. The error is a strict.Errors: each draft that fails, at
// the place of its part.
func Draw(j *job.Job) ([]Spread, error) {
	spreads := make([]Spread, len(j.Cloths))
	index := map[string]int{}
	for i, c := range j.Cloths {
		spreads[i].Cloth, spreads[i].Gowns = c, 1
		index[c.ID] = i
	}
	drawn, err := drawParts(j)
	if err != nil {
		return nil, err
	}
	for _, mark := range []func(*job.Job, [][][]shapes.Piece) error{markWhole, matchNotches, markStops} {
		if err := mark(j, drawn); err != nil {
			return nil, err
		}
	}
	for i, part := range j.Parts {
		for k, layer := range part.Layers {
			part.Grain = layer.Grain
			spreads[index[layer.Cloth]].add(part, drawn[i][k])
		}
	}
	var used []Spread
	for _, s := range spreads {
		if len(s.Cuts) > 0 {
			used = append(used, s)
		}
	}
	return used, nil
}

// drawParts drafts each part in each of its cloths.
func drawParts(j *job.Job) ([][][]shapes.Piece, error) {
	drawn := make([][][]shapes.Piece, len(j.Parts))
	var bad strict.Errors
	pieces := 0
	for i, part := range j.Parts {
		drawn[i] = make([][]shapes.Piece, len(part.Layers))
		var told []string // of this part
		for k, layer := range part.Layers {
			made, err := layer.Drafted()
			if err == nil {
				err = draft.CheckEntry(made, part.Girths)
			}
			if err != nil {
				what, _ := say.Parts(err, j.Unit.Size)
				why, _ := say.Parts(cause(err), j.Unit.Size)
				if slices.Contains(told, why) {
					continue // a lining, or a facing, that follows from what cannot be drafted itself
				}
				told = append(told, why)
				if len(bad) < maxTold {
					bad = append(bad, briefly(part.Name+": "+what, j.ErrorAt(part.At,
						say.Errorf("part `%s` in `%s`: %w", part.Name, layer.Cloth, err))))
				}
				continue
			}
			drawn[i][k] = made.ToMark()
			if pieces += len(drawn[i][k]); pieces > maxDrawn {
				return nil, strict.Errors{j.ErrorAt(part.At, say.Errorf("the parts up to this one have over %d "+
					"pieces, the most of a job", maxDrawn).
					Hint("share them out over several jobs"))}
			}
		}
	}
	if len(bad) > 0 {
		return nil, bad
	}
	return drawn, nil
}

// cause is what an error came from at first.
func cause(err error) error {
	for {
		from := errors.Unwrap(err)
		if from == nil {
			return err
		}
		err = from
	}
}

// add takes up the pieces of a part, each under a name of its own, as often as
// the part is cut for one gown.
func (s *Spread) add(part job.Part, pieces []shapes.Piece) {
	taken := map[string]bool{}
	for _, c := range s.Cuts {
		taken[c.Piece.Name] = true
	}
	for _, p := range pieces {
		name := fullName(part.Name, p.Name)
		p.Name = name
		for n := 2; taken[p.Name]; n++ {
			p.Name = fmt.Sprintf("%s %d", name, n)
		}
		taken[p.Name] = true
		var finished Size
		finished.Along, finished.Across = p.Unfold().Finished()
		p = enlarged(p, s.Cloth.Shrinkage, part.Grain)
		s.Cuts = append(s.Cuts, Cut{Piece: again(p, part.Count, "set"), Finished: finished, Part: part})
	}
}

// times returns the spread with the pieces of so many gowns.
func (s Spread) times(gowns int) Spread {
	s.Gowns *= gowns
	s.Cuts = slices.Clone(s.Cuts)
	for i, c := range s.Cuts {
		s.Cuts[i].Piece = again(c.Piece, gowns, "gown")
	}
	return s
}

// setsOf returns how many sets of the part that piece i belongs to are cut: one for
// each wearer, gown and time. The copies of one set come one after the other.
func (s Spread) setsOf(i int) int { return max(s.Cuts[i].Part.Count, 1) * max(s.Gowns, 1) }

// again cuts a piece n times over; copies that had a label say which time.
func again(p shapes.Piece, n int, word string) shapes.Piece {
	if n <= 1 {
		return p
	}
	var labels []string
	for k := range n {
		for _, label := range p.Labels {
			labels = append(labels, fmt.Sprintf("%s, %s %d", label, word, k+1))
		}
	}
	p.Count, p.Labels = p.Count*n, labels
	return p
}

// fullName names a piece by its part and itself, words that end the one and begin
// the other once: "collar flounce" and "flounce section" make "collar flounce
// section", and "sleeve" and "upper sleeve" that.
func fullName(part, piece string) string {
	first, then := strings.Fields(part), strings.Fields(piece)
	for n := min(len(first), len(then)); n > 0; n-- {
		if slices.Equal(first[len(first)-n:], then[:n]) {
			return strings.Join(append(first, then[n:]...), " ")
		}
	}
	if n := len(then) - len(first); n > 0 && slices.Equal(then[n:], first) {
		return strings.Join(then, " ")
	}
	return part + " " + piece
}

// Problem returns the layout problem of a cloth on an open lay: pieces on the
// fold are opened out, a pair needs mirrored copies, and a cloth alike on both
// faces lets any copy be mirrored. The gap is rounded down to the lattice, as
// rectangles are, so that what fits exactly in inches fits.
func (s Spread) Problem() nest.Problem {
	p := nest.Problem{Strip: s.strip(s.Cloth.Width, s.Cloth.Flaws), Gap: plane.SnapDown(s.Cloth.Gap)}
	for i, cut := range s.Cuts {
		piece := cut.Piece
		laid := nest.Piece{
			Name: piece.Name, Outline: piece.Unfold().Cut, Count: piece.Count, Turns: turns(s.Cloth.Nap,
				s.Cuts[i].Part),
		}
		switch {
		case s.Cloth.BothFaces:
			laid.Mirror = nest.Free
		case piece.Pair:
			laid.Mirror = nest.Paired
		}
		if piece.Pair && piece.Count > 1 && (len(grains(s.Cloth.Nap, s.Cuts[i].Part.Grain)) > 1 ||
			s.Cuts[i].Part.Tilt > 0) {
			laid = s.alike(i, laid, p.Strip)
		}
		if piece.OnFold && onFold(laid.Turns) {
			laid.Half = upperHalf(piece, laid.Outline)
		}
		laid.Match = s.Cuts[i].Match
		p.Pieces = append(p.Pieces, laid)
	}
	s.stepped(&p)
	return p
}

// upperHalf returns the half of a whole outline that lies above its fold, in the
// outline's coordinates. half is the piece as drafted, its fold above or below.
func upperHalf(half shapes.Piece, whole orb.Ring) orb.Ring {
	return HalfPose(half, whole).Apply(half.Cut)
}

// HalfPose says how a half as drafted comes to lie on the upper half of its
// opened cut outline.
func HalfPose(half shapes.Piece, whole orb.Ring) plane.Pose {
	b, h := plane.Bounds(whole), plane.Bounds(half.Cut)
	pose := plane.Pose{}
	for _, e := range half.Edges {
		if e.Kind == shapes.Fold && e.Line[1][0] < e.Line[0][0] { // the inside lies below
			pose.Mirrored = true
			h.Min[1] = -h.Max[1]
		}
	}
	pose.At = orb.Point{b.Min[0] - h.Min[0], (b.Min[1]+b.Max[1])/2 - h.Min[1]}
	return pose
}

// Copies counts what is cut from the cloth.
func (s Spread) Copies() int {
	sum := 0
	for _, c := range s.Cuts {
		sum += c.Piece.Count
	}
	return sum
}
