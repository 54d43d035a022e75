package nest

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// foldable draws an open problem with pieces of every kind that a folded lay
// treats in its own way, and mostly what the lay allows.
func foldable(t *rapid.T, lay Lay) Problem {
	p := Problem{Strip: Strip{Width: float64(rapid.IntRange(150, 260).Draw(t, "width")) + rapid.Float64Range(0,
		1).Draw(t, "off the lattice")}}
	p.Gap = rapid.SampledFrom([]float64{0, 0, 1.5, 0.3}).Draw(t, "gap")
	if rapid.IntRange(0, 3).Draw(t, "limited") == 0 {
		p.Strip.MaxLength = rapid.Float64Range(200, 500).Draw(t, "longest")
	}
	if lay.lengthwise() && rapid.IntRange(0, 2).Draw(t, "patterned") == 0 {
		p.Strip.Repeat.Along = rapid.SampledFrom([]float64{31.7, 12}).Draw(t, "repeat")
	}
	if lay <= LengthwiseFold && rapid.IntRange(0, 2).Draw(t, "flawed") == 0 {
		x, y := float64(rapid.IntRange(0, 90).Draw(t, "flaw x")), float64(rapid.IntRange(0, 150).Draw(t, "flaw y"))
		p.Strip.Forbidden = []orb.Ring{ring(orb.Point{x, y}, orb.Point{x + 9, y + 2}, orb.Point{x + 4, y + 22})}
	}
	turns := rapid.SampledFrom([][]float64{nil, {0}, {0, 180}, {180}, {0, 90, 180, 270}, {90, 270}, {3.3, 0, -3.3},
		{45}, {2.5, 182.5}})
	if lay == CrosswiseFold {
		turns = rapid.SampledFrom([][]float64{{0, 180}, {0, 90, 180, 270}, {90, 270}, {2.5, 182.5}, {180, 1, 0}})
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "kinds") {
		p.Pieces = append(p.Pieces, foldablePiece(t, fmt.Sprint("piece ", i), turns.Draw(t, "turns")))
	}
	return p
}

func foldablePiece(t *rapid.T, name string, turns []float64) Piece {
	a, b := float64(rapid.IntRange(10, 60).Draw(t, "a")), float64(rapid.IntRange(6, 60).Draw(t, "b"))
	half := ring(orb.Point{0, 0}, orb.Point{a, 0}, orb.Point{a + 3, b}, orb.Point{a / 2, b / 3}, orb.Point{0, b / 2})
	half = plane.SnapRing(half)
	piece := Piece{Name: name, Outline: plane.Unfold(half, 0), Count: rapid.IntRange(1, 4).Draw(t, "count"),
		Turns: turns}
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0: // may lie on a fold
		piece.Half = shifted(half, 5, -7)
		if piece.Mirror = rapid.SampledFrom([]Mirror{AsDrawn, Paired, Free}).Draw(t, "mirror"); piece.Mirror == Paired {
			piece.Count *= 2
		}
	case 1: // its own mirror image, of rounded size
		piece.Outline = rect(0, 0, plane.Snap(a/7), plane.Snap(b/3))
	case 2: // left and right
		piece.Outline, piece.Mirror, piece.Count = half, Paired, 2*piece.Count
	case 3: // either way up
		piece.Outline, piece.Mirror = shifted(half, 0.3, 0), Free
	case 4: // one way up, unlike its mirror image
		piece.Outline = half
	}
	if rapid.Bool().Draw(t, "matched") {
		piece.Match = &Match{Point: orb.Point{rapid.Float64Range(0, 60).Draw(t, "point x"),
			rapid.Float64Range(0, 60).Draw(t, "point y")}}
		for range piece.Count {
			piece.Match.Groups = append(piece.Match.Groups, rapid.IntRange(0, 2).Draw(t, "group"))
		}
	}
	return piece
}

// rows lays a problem in columns of upright boxes, each piece at the first free
// level of the column in hand, however its turns and mirroring were drawn: a
// layout of each kind, not a short one.
func rows(t *rapid.T, p Problem) Layout {
	var l Layout
	var taken [][2]float64 // levels of the column in hand
	start, end := 0.0, 0.0
	gap := plane.Ceil(p.Gap)
	for i, piece := range p.Pieces {
		for k := range piece.Count {
			pl, levels := rapid.SampledFrom(waysAndLevels(p, i, k)).Draw(t, "way").split()
			box := plane.Bounds(p.Outline(pl))
			high := box.Max[1] - box.Min[1]
			for {
				y, free := freeLevel(levels, taken, high, gap)
				pl.At = orb.Point{onRepeat(p, pl, start-box.Min[0]), y - box.Min[1]}
				clear := pastFlaws(p, plane.Bounds(p.Outline(pl)))
				if free && clear == 0 {
					taken = append(taken, [2]float64{y, y + high})
					break
				}
				if len(taken) > 0 {
					start = end + gap
				}
				start = max(start, plane.Snap(clear+1))
				taken = nil
			}
			end = max(end, pl.At[0]+box.Max[0])
			l.Placed = append(l.Placed, pl)
		}
	}
	l.Length = end
	return l
}

// seatedWay is a way to lie with the ranges of its least level.
type seatedWay struct {
	pl     Placed
	levels [][2]float64
}

func (w seatedWay) split() (Placed, [][2]float64) { return w.pl, w.levels }

// waysAndLevels lists how copy k of piece i may lie, by the rules as they are
// written beside the fields of a problem.
func waysAndLevels(p Problem, i, k int) []seatedWay {
	piece, s := p.Pieces[i], p.Strip
	turns := piece.Turns
	if turns == nil {
		turns = []float64{0}
	}
	keep := plane.Ceil(p.Gap / 2)
	var out []seatedWay
	for _, mirrored := range []bool{false, true} {
		if !piece.OnFold && (piece.Mirror == AsDrawn && mirrored || piece.Mirror == Paired && mirrored != (k%2 == 1)) {
			continue
		}
		for _, turn := range turns {
			if mirrored {
				turn = -turn
			}
			pl := Placed{Piece: i, Copy: k, Turn: turn, Mirrored: mirrored}
			box := plane.Bounds(p.Outline(pl))
			high := box.Max[1] - box.Min[1]
			about := math.Abs(turn) == 180
			levels := [][2]float64{{0, math.Floor((s.Width-high)*1024) / 1024}}
			switch {
			case piece.OnFold && mirrored == about:
				levels = [][2]float64{{0, 0}}
			case piece.OnFold && s.Folds == FoldBoth:
				levels = [][2]float64{{s.Width - high, s.Width - high}}
			case piece.OnFold:
				continue
			case s.Folds == FoldBelow:
				levels[0][0] = keep
			case s.Folds == FoldBoth:
				levels = [][2]float64{{keep, s.Width/2 - s.Middle - high},
					{s.Width/2 + s.Middle, s.Width - keep - high}}
			}
			levels = slices.DeleteFunc(levels, func(r [2]float64) bool { return r[0] > r[1] })
			if len(levels) > 0 {
				out = append(out, seatedWay{pl, levels})
			}
		}
	}
	return out
}

// freeLevel returns the first level in the ranges where a piece so high is clear
// of what is taken.
func freeLevel(levels, taken [][2]float64, high, gap float64) (float64, bool) {
	for _, r := range levels {
		tries := []float64{r[0], r[1]}
		for _, o := range taken {
			tries = append(tries, o[1]+gap, o[0]-gap-high)
		}
		for _, y := range tries {
			if y >= r[0] && y <= r[1] &&
				!slices.ContainsFunc(taken, func(o [2]float64) bool { return y < o[1]+gap && o[0] < y+high+gap }) {
				return y, true
			}
		}
	}
	return 0, false
}

// onRepeat returns the first place along, from least on, where the match point is
// on the repeat: at a phase of its own for each group.
func onRepeat(p Problem, pl Placed, least float64) float64 {
	m, repeat := p.Pieces[pl.Piece].Match, p.Strip.Repeat.Along
	if m == nil || repeat == 0 {
		return least
	}
	phase := 11.3 * float64(m.group(pl.Copy))
	sin, cos := plane.SinCos(pl.Turn)
	y := m.Point[1]
	if pl.Mirrored {
		y = -y
	}
	point := cos*m.Point[0] - sin*y
	for k := math.Floor((least + point - phase) / repeat); ; k++ {
		if at := plane.Snap(phase - point + k*repeat); at >= least {
			return at
		}
	}
}

// pastFlaws returns how far along a flaw reaches that the box meets; 0 for none.
func pastFlaws(p Problem, box orb.Bound) float64 {
	for _, zone := range p.Strip.Forbidden {
		if z := plane.Bounds(zone); z.Intersects(box) {
			return z.Max[0]
		}
	}
	return 0
}
