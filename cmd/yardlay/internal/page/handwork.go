package page

import (
	"errors"
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/nest/hand"
)

// handwork is one cloth in hand.
type handwork struct {
	version int
	key     string // of the task, without pins
	laid    plan.Laid
	tables  []*hand.Table // one for each stretch
	now     handStep
	past    []handStep
	future  []handStep
}

// handStep is how the pieces of a cloth lie at a time: one list for each stretch.
type handStep [][]handPiece

// handPiece is one piece on the table.
type handPiece struct {
	nest.Placed
	pinned bool
	wrong  []*nest.Broken // why it may not lie there; none
}

// mostSteps is how many steps by hand can be taken back.
const mostSteps = 200

// takenInHand is a cloth as it lies, taken in hand; pinned says what was pinned before.
func takenInHand(p *live.Picture, pinned kept.Cloth) (*handwork, error) {
	l := p.Laid()
	w := &handwork{laid: l, key: l.Task.WithPins(nil).Key()}
	for i, s := range l.Task.Stretches {
		problem := s.Problem
		problem.Pins = nil
		table, err := hand.New(problem)
		if err != nil {
			return nil, err
		}
		was := map[string]bool{}
		if i < len(pinned.Stretches) {
			for _, one := range pinned.Stretches[i].Pieces {
				was[copyName(one.Name, one.Copy)] = one.Pinned
			}
		}
		w.tables = append(w.tables, table)
		var list []handPiece
		for _, pl := range l.Results[i].Layout.Placed {
			list = append(list, handPiece{Placed: pl, pinned: slices.Contains(s.Problem.Pins, pl) &&
				was[copyName(problem.Pieces[pl.Piece].Name, pl.Copy)]})
		}
		w.now = append(w.now, list)
	}
	return w, nil
}

func copyName(piece string, n int) string { return fmt.Sprint(n, " ", piece) }

// clone copies a step, so that it can be changed.
func (s handStep) clone() handStep {
	c := slices.Clone(s)
	for i := range c {
		c[i] = slices.Clone(c[i])
	}
	return c
}

// placed are the pieces of a stretch.
func placed(list []handPiece) (all []nest.Placed) {
	for _, p := range list {
		all = append(all, p.Placed)
	}
	return all
}

// step makes a step, after which the pieces lie otherwise.
func (w *handwork) step(now handStep) {
	w.past, w.future = append(w.past, w.now), nil
	if len(w.past) > mostSteps {
		w.past = w.past[1:]
	}
	w.now = now
	w.version++
}

// back takes the last step back, or makes it again.
func (w *handwork) back(from, to *[]handStep) {
	if n := len(*from); n > 0 {
		*to = append(*to, w.now)
		w.now, *from = (*from)[n-1], (*from)[:n-1]
		w.version++
	}
}

// snapWithin is how near a contact draws a piece that is let go, mm.
const snapWithin = 4

// move lays a piece of a stretch where it was let go, in contact where one is near. It stays there, and
// is pinned.
func (w *handwork) move(stretch, piece int, wish nest.Placed) {
	now := w.now.clone()
	list := now[stretch]
	wish.Piece, wish.Copy = list[piece].Piece, list[piece].Copy
	c := w.tables[stretch].Contact(wish, slices.Delete(placed(list), piece, piece+1), snapWithin)
	list[piece].Placed, list[piece].pinned = c.Place, true
	w.judge(stretch, list, piece)
	w.step(now)
}

// judge says what is wrong with a piece that was moved, and with those that lay wrong before.
func (w *handwork) judge(stretch int, list []handPiece, moved int) {
	all, right := placed(list), true
	for i := range list {
		if i == moved || len(list[i].wrong) > 0 {
			list[i].wrong = w.tables[stretch].Faults(list[i].Placed, all)
			right = right && len(list[i].wrong) == 0
		}
	}
	if broken := w.verify(stretch, all); right && broken != nil { // one of those that stayed has to lie like it
		list[moved].wrong = []*nest.Broken{broken}
	}
}

// verify judges a stretch as a whole.
func (w *handwork) verify(stretch int, all []nest.Placed) *nest.Broken {
	p := w.laid.Task.Stretches[stretch].Problem
	p.Pins = nil
	broken, _ := errors.AsType[*nest.Broken](nest.Verify(p, nest.Layout{Placed: all, Length: p.Used(all)}))
	return broken
}

// right says whether all pieces lie as they may, by the judge of the whole.
func (w *handwork) right() bool {
	for i, list := range w.now {
		if slices.ContainsFunc(list, func(p handPiece) bool { return len(p.wrong) > 0 }) ||
			w.verify(i, placed(list)) != nil {
			return false
		}
	}
	return true
}

// layout is what the file keeps of a cloth as it lies.
func (w *handwork) layout() kept.Cloth {
	l := w.laid
	l.Results = slices.Clone(l.Results)
	pins := make([][]nest.Placed, len(w.now))
	for i, list := range w.now {
		all := placed(list)
		l.Results[i].Layout = nest.Layout{Placed: all, Length: l.Task.Stretches[i].Problem.Used(all)}
		for _, p := range list {
			if p.pinned {
				pins[i] = append(pins[i], p.Placed)
			}
		}
	}
	l.Task = l.Task.WithPins(pins)
	f, _ := kept.Of([]plan.Laid{l})
	return f.Cloths[0]
}

// pose is a place in the hand of a browser.
type pose struct {
	At       orb.Point `json:"at"`
	Turn     float64   `json:"turn"`
	Mirrored bool      `json:"mirrored"`
}

func poseOf(p nest.Placed) pose { return pose{p.At, p.Turn, p.Mirrored} }
