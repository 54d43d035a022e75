package plan

import (
	"context"
	"reflect"
	"slices"

	"yardlay/nest"
)

// WithPins returns the task with copies pinned on its stretches, one list for each: they lie
// there and nowhere else, and the others are laid around them. A task with pins is cut from
// one length of bought cloth, whatever leftovers and bolts there are.
func (t Task) WithPins(pins [][]nest.Placed) Task {
	t.Stretches = slices.Clone(t.Stretches)
	for i := range t.Stretches {
		t.Stretches[i].Problem.Pins = nil
		if i < len(pins) && len(pins[i]) > 0 {
			t.Stretches[i].Problem.Pins = slices.Clone(pins[i])
		}
	}
	return t
}

// Pins returns what is pinned on each stretch; nil where nothing is.
func (t Task) Pins() [][]nest.Placed {
	if t.Pinned() == 0 {
		return nil
	}
	pins := make([][]nest.Placed, len(t.Stretches))
	for i, s := range t.Stretches {
		pins[i] = s.Problem.Pins
	}
	return pins
}

// pinsOn returns what is pinned as it lies on other stretches of the same pieces; false where these
// cut any of it otherwise.
func (t Task) pinsOn(stretches []nest.Stretch) (pins [][]nest.Placed, ok bool) {
	if t.Pinned() == 0 {
		return nil, true
	}
	pins = make([][]nest.Placed, len(stretches))
	for _, s := range t.Stretches {
		for _, pin := range s.Problem.Pins {
			ok := false
			for i := 0; i < len(stretches) && !ok; i++ {
				var own nest.Placed
				if own, ok = stretches[i].Takes(s, pin); ok {
					pins[i] = append(pins[i], own)
				}
			}
			if !ok {
				return nil, false
			}
		}
	}
	return pins, true
}

// Pinned counts the placed pieces that are pinned.
func (t Task) Pinned() int {
	n := 0
	for _, s := range t.Stretches {
		n += len(s.Problem.Pins)
	}
	return n
}

// Begun says whether a layout has been given to the task, to be begun from or for what it pins.
func (t Task) Begun() bool { return t.start != nil || t.Pinned() > 0 }

// LaysAs says whether a task lays the same pieces as another on the same cloth, in the same way, whatever is pinned and
// whatever the cloth costs.
func (t Task) LaysAs(o Task) bool {
	return t.Lay == o.Lay && reflect.DeepEqual(t.Problem, o.Problem) &&
		reflect.DeepEqual(t.WithPins(nil).Stretches, o.WithPins(nil).Stretches)
}

// BegunAs returns the task to be begun as another that lays the same, with its pins.
func (t Task) BegunAs(o Task) Task {
	t.Stretches, t.start = o.Stretches, o.start
	return t
}

// From returns the task to be begun from layouts, one for each stretch, where the judge
// allows them there, pins included, and no other start is given.
func (t Task) From(layouts []nest.Layout) Task {
	t.start = &Start{stretches: layouts}
	return t
}

// FromLaid is From with a laying of the same pieces, where that holds on the stretches; or else the task as it is.
func (t Task) FromLaid(l Laid) Task {
	if l.Several() {
		return t
	}
	if layouts := t.Layouts(l); t.holds(layouts) {
		return t.From(layouts)
	}
	if like, ok := t.Like(l.Task); ok && like.holds(like.Layouts(l)) {
		return like.From(like.Layouts(l))
	}
	return t
}

// atTheLeast lowers what is bought at the least to what holds however the pieces are shared
// out over stretches, and wherever they were pinned.
func (l Laid) atTheLeast(ctx context.Context, o Options) Laid {
	switch {
	case !l.Task.shareIsForced():
		return l.overShares(ctx, o)
	case l.Task.Pinned() > 0:
		return l.withoutPins(ctx, o)
	}
	return l
}

// withoutPins lowers what is bought at the least to what holds wherever the pinned pieces
// were to lie, on an open lay.
func (l Laid) withoutPins(ctx context.Context, o Options) Laid {
	if o.Effort == nest.Trial { // as nest.Solve does: the simplest bounds
		done, cancel := context.WithCancel(ctx)
		cancel()
		ctx = done
	}
	var least []float64
	for _, s := range l.Task.WithPins(nil).Stretches {
		least = append(least, o.Proofs.LowerBound(ctx, s.Problem).Length)
	}
	l.LeastBuy = min(l.LeastFor, l.Task.Bought(least))
	return l
}
