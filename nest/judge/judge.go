// Package judge judges layouts: exactly, in whole steps of the lattice, and by
// nothing that the search or the bounds know.
//
// It states the problem in types of its own, as search and bound do, and nest
// translates. Types shared by all would bring with them one reading of turns, folds
// and repeats for judge and judged alike; so they are read twice, what is shared is
// plane geometry alone, and the import rule of cmd/yardlay keeps it so.
package judge

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Judge judges layouts of one problem. It keeps the cut lines of the pieces as they
// lie from one layout to the next; one goroutine uses it at a time.
type Judge struct {
	problem Problem
	lines   lineStore
}

// New returns a judge of layouts of p.
func New(p Problem) *Judge {
	return &Judge{p, lineStore{problem: p, lines: make(map[lineKey]*cutLine)}}
}

// errInterrupted is the verdict of a judge who was called off.
var errInterrupted = errors.New("verify: interrupted")

// Verify judges whether l can be cut as it stands: every copy of every piece once,
// turned and mirrored as it may be, what is pinned where it is, two that must lie alike
// on the same grain, inside the strip, against a fold where it must be and else half the gap from it, clear of
// the middle of a cloth folded twice and of the forbidden zones, all of a group alike
// on the repeat, no two pieces over each other nor nearer than the gap, and the length
// as stated. It returns nil, or a *Broken with the first rule broken.
//
// All is done in whole steps of the lattice, without a tolerance, but for repeats,
// which need not be whole steps: pieces may touch, and may not share the smallest
// sliver. It gives up with another error once stop says so, which is asked between
// pieces and between pairs of them.
func (j *Judge) Verify(l Layout, stop func() bool) error {
	p := j.problem
	cut, err := j.places(l, stop)
	if err != nil {
		return err
	}
	if err := judgeCounts(p, l); err != nil {
		return err
	}
	if err := judgePins(p, l); err != nil {
		return err
	}
	if err := judgeAlike(p, l); err != nil {
		return err
	}
	if err := judgeRepeats(p, l, cut); err != nil {
		return err
	}
	if err := judgeLength(cut, l.Length); err != nil {
		return err
	}
	if err := judgeZones(p, cut, stop); err != nil {
		return err
	}
	return judgePairs(p, cut, stop)
}

// cutPiece is a placed piece as the judge sees it.
type cutPiece struct {
	*cutLine
	name  string
	copy  int
	index int // into Layout.Placed
}

func (c cutPiece) broken(rule Rule, where orb.Point, detail string, args ...any) *Broken {
	return &Broken{Rule: rule, Piece: c.name, Copy: c.copy, At: where, Detail: say.Textf(detail, args...)}
}

// places judges each placed piece by itself and returns the cut lines in the order
// of l.Placed.
func (j *Judge) places(l Layout, stop func() bool) ([]cutPiece, error) {
	p := j.problem
	cut := make([]cutPiece, len(l.Placed))
	for i, pl := range l.Placed {
		if stop() {
			return nil, errInterrupted
		}
		c, err := j.place(i, pl, func(rights error) error { return rights })
		if err != nil {
			return nil, err
		}
		if err := cmp.Or(judgeStrip(c, p), judgeFolds(c, p, pl)); err != nil {
			return nil, err
		}
		cut[i] = c
	}
	return cut, nil
}

// place returns the cut line of placed piece i. It ends with an error where there is
// none, or where rights, told how the piece may not lie, returns one.
func (j *Judge) place(i int, pl Placed, rights func(error) error) (cutPiece, error) {
	p := j.problem
	if pl.Piece < 0 || pl.Piece >= len(p.Pieces) {
		return cutPiece{}, &Broken{Rule: WrongCount, Piece: fmt.Sprintf("#%d", pl.Piece), Copy: pl.Copy, At: pl.At,
			Detail: say.Textf("the problem has %d pieces", len(p.Pieces))}
	}
	c := cutPiece{name: p.Pieces[pl.Piece].Name, copy: pl.Copy, index: i}
	if err := judgeRights(c, p, pl); err != nil {
		if err = rights(err); err != nil {
			return c, err
		}
	}
	move, ok := latticePoint(pl.At)
	if !ok {
		return c, c.broken(OffLattice, pl.At, "")
	}
	line, err := j.lines.get(pl)
	if err != nil {
		return c, c.broken(OffLattice, pl.At, "%v", err)
	}
	c.cutLine = line.moved(move)
	return c, nil
}

// judgeRights judges the turn and the mirroring of one placed piece.
func judgeRights(c cutPiece, p Problem, pl Placed) error {
	piece := p.Pieces[pl.Piece]
	asDrawn, sense := pl.drawnTurn(), ""
	if pl.Mirrored {
		sense = " clockwise, as it is mirrored"
	}
	turns := piece.Turns
	if len(turns) == 0 {
		turns = []float64{0}
	}
	allowed := slices.ContainsFunc(turns, func(turn float64) bool { return sameTurn(turn, asDrawn) })
	half := sameTurn(pl.Turn, 180)
	switch {
	case !allowed:
		return c.broken(WrongTurn, pl.At, "turned %v degrees, allowed %v%s", pl.Turn, turns, sense)
	case piece.OnFold && !half && !sameTurn(pl.Turn, 0):
		return c.broken(WrongTurn, pl.At, "turned %v degrees, which takes it off every fold", pl.Turn)
	case piece.OnFold && !p.FoldAbove && pl.Mirrored != half:
		return c.broken(WrongMirror, pl.At, "its fold edge would lie away from the fold")
	case piece.OnFold:
		return nil
	case piece.Mirror == AsDrawn && pl.Mirrored:
		return c.broken(WrongMirror, pl.At, "every copy is cut as drawn")
	case piece.Mirror == Paired && pl.Mirrored != (pl.Copy%2 == 1):
		return c.broken(WrongMirror, pl.At, "of a pair the first is as drawn, the second mirrored")
	}
	return nil
}

// sameTurn says whether two turns in degrees differ by whole turns.
func sameTurn(a, b float64) bool {
	switch math.Mod(a, 360) - math.Mod(b, 360) { // Mod is exact
	case 0, 360, -360:
		return true
	}
	return false // NaN and infinite turns too
}

// judgeStrip judges whether c lies on the cloth. Lattice coordinates are exact
// in float64, so the width is compared as it was given.
func judgeStrip(c cutPiece, p Problem) error {
	for _, v := range c.points {
		where := v.point()
		switch {
		case v.y < 0 || where[1] > p.Width:
			return c.broken(OutsideStrip, where, "the strip is %v wide", plane.MM(p.Width))
		case v.x < 0:
			return c.broken(OutsideStrip, where, "the cut end is at x = 0")
		case p.MaxLength > 0 && where[0] > p.MaxLength:
			return c.broken(OutsideStrip, where, "the strip is at most %v long", plane.MM(p.MaxLength))
		case v.x > farthest || v.y > farthest:
			return c.broken(OutsideStrip, where, "more than %v from the origin", say.MM(Reach))
		}
	}
	return nil
}

// judgeCounts judges whether each copy of each piece is placed exactly once.
func judgeCounts(p Problem, l Layout) error {
	seen, err := judgeOnce(p, l)
	if err != nil {
		return err
	}
	for i, piece := range p.Pieces {
		for copy := range piece.Count {
			if !seen[copyID{i, copy}] {
				return &Broken{Rule: WrongCount, Piece: piece.Name, Copy: copy, Detail: say.Textf("not placed")}
			}
		}
	}
	return nil
}

// copyID names a copy of a piece.
type copyID struct{ piece, copy int }

// judgeOnce judges whether what is placed are copies to cut, none of them twice, and
// returns which.
func judgeOnce(p Problem, l Layout) (seen map[copyID]bool, err error) {
	seen = make(map[copyID]bool, len(l.Placed))
	for _, pl := range l.Placed {
		piece := p.Pieces[pl.Piece]
		broken := &Broken{Rule: WrongCount, Piece: piece.Name, Copy: pl.Copy, At: pl.At}
		if pl.Copy < 0 || pl.Copy >= piece.Count {
			broken.Detail = say.Textf("there are %d to cut", piece.Count)
			return nil, broken
		}
		if seen[copyID{pl.Piece, pl.Copy}] {
			broken.Detail = say.Textf("placed twice")
			return nil, broken
		}
		seen[copyID{pl.Piece, pl.Copy}] = true
	}
	return seen, nil
}

// judgeLength judges the stated used length: exactly the largest x.
func judgeLength(cut []cutPiece, stated float64) error {
	last := 0
	for i := range cut {
		if cut[i].high.x > cut[last].high.x {
			last = i
		}
	}
	if reached := cut[last].high.point()[0]; stated != reached {
		return cut[last].broken(WrongLength, cut[last].high.point(),
			"stated %v, the last piece ends at %v", say.MM(stated), say.MM(reached))
	}
	return nil
}
