package judge

import (
	"cmp"
	"errors"

	"yardlay/shapes/say"
)

// VerifyPart judges what of a layout lies already as Verify does a whole one: copies
// may be missing, and there is no length. Broken.Pair are indices into placed.
func (j *Judge) VerifyPart(placed []Placed, stop func() bool) error {
	p, l := j.problem, Layout{Placed: placed}
	cut, err := j.places(l, stop)
	if err != nil {
		return err
	}
	if _, err := judgeOnce(p, l); err != nil {
		return err
	}
	return cmp.Or(judgeAlike(p, l), judgeRepeats(p, l, cut), judgeZones(p, cut, stop), judgePairs(p, cut, stop))
}

// Faults returns all that is wrong with one placed piece, number of, among others: the
// first rule that it breaks by itself, by the way it is turned and by where it lies; each
// zone that it covers; and each piece that it overlaps or comes too near to, itself
// named first. Others that lie where they may not be are not told of, and no two of
// them are judged by each other.
func (j *Judge) Faults(placed []Placed, of int) []*Broken {
	f := faults{}
	p, never := j.problem, func() bool { return false }
	held, err := j.place(of, placed[of], func(rights error) error { f.add(rights); return nil })
	if err != nil {
		f.add(err)
		return f.list
	}
	if _, err := judgeOnce(p, Layout{Placed: placed[of : of+1]}); err != nil {
		f.add(err)
		return f.list
	}
	f.add(cmp.Or(judgeStrip(held, p), judgeFolds(held, p, placed[of])))
	f.add(judgePins(j.pinned(placed[of]), Layout{Placed: placed[of : of+1]}))
	f.add(j.faultBeside(placed, of, judgeAlike))
	f.add(j.faultBeside(placed, of, func(p Problem, l Layout) error {
		cut := make([]cutPiece, len(l.Placed))
		for i, pl := range l.Placed {
			cut[i] = cutPiece{name: p.Pieces[pl.Piece].Name, copy: pl.Copy, index: i}
		}
		return judgeRepeats(p, l, cut)
	}))
	for i := range p.Forbidden {
		one := p
		one.Forbidden = p.Forbidden[i : i+1]
		if err := judgeZones(one, []cutPiece{held}, never); err != nil {
			f.addZone(err, i)
		}
	}
	for i, pl := range placed {
		if i == of {
			continue
		}
		other, err := j.place(i, pl, func(error) error { return nil })
		if err == nil {
			f.addPair(judgePairs(p, []cutPiece{held, other}, never), of)
		}
	}
	return f.list
}

// pinned returns the problem with the pin of a placed copy alone, if it has one.
func (j *Judge) pinned(pl Placed) Problem {
	p := j.problem
	p.Pins = nil
	for _, pin := range j.problem.Pins {
		if pin.Piece == pl.Piece && pin.Copy == pl.Copy {
			p.Pins = append(p.Pins, pin)
		}
	}
	return p
}

// faultBeside judges placed piece number of alone, then beside each other one in turn,
// by a rule of copies that belong together, and returns the first fault that is its own.
func (j *Judge) faultBeside(placed []Placed, of int, rule func(Problem, Layout) error) error {
	held := placed[of]
	own := func(l ...Placed) error {
		err := rule(j.problem, Layout{Placed: l})
		if b, ok := errors.AsType[*Broken](err); ok && (b.Piece != j.problem.Pieces[held.Piece].Name ||
			b.Copy != held.Copy) {
			return nil
		}
		return err
	}
	if err := own(held); err != nil {
		return err
	}
	for i, pl := range placed {
		if i == of || pl.Piece < 0 || pl.Piece >= len(j.problem.Pieces) ||
			pl.Copy < 0 || pl.Copy >= j.problem.Pieces[pl.Piece].Count {
			continue
		}
		if err := own(pl, held); err != nil {
			return err
		}
	}
	return nil
}

// faults collects broken rules.
type faults struct{ list []*Broken }

func (f *faults) add(err error) {
	if b, ok := errors.AsType[*Broken](err); ok {
		f.list = append(f.list, b)
	}
}

// addPair adds the fault of a pair, with the placed piece number of named first.
func (f *faults) addPair(err error, of int) {
	b, ok := errors.AsType[*Broken](err)
	if !ok {
		return
	}
	if b.Pair[0] != of {
		b.Piece, b.Copy, b.Other, b.OtherCopy = b.Other, b.OtherCopy, b.Piece, b.Copy
		b.Pair[0], b.Pair[1] = b.Pair[1], b.Pair[0]
	}
	f.list = append(f.list, b)
}

// addZone adds the fault of covering zone i, which was judged alone.
func (f *faults) addZone(err error, i int) {
	if b, ok := errors.AsType[*Broken](err); ok {
		b.Detail = say.Textf("zone %d", i+1)
		f.list = append(f.list, b)
	}
}
