package kept

import (
	"errors"
	"slices"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/nest/judge"
)

// State is how a kept layout stands to the job as it is now.
type State struct {
	Cloth    string
	Missing  bool     // the file has no layout of the cloth
	Ground   []string // what of the cloth is another now: "width", "gap", "repeat", "flaws", "lay"
	Changed  []string // pieces with another outline, by name
	Fresh    []string // pieces, or copies of them, that the file does not have
	Gone     []string // pieces, or copies, that are not cut from the cloth any more
	Kept     int      // copies that are as they were
	Pinned   int      // of those, pinned where they were
	Unpinned []Unpinned
	Broken   *nest.Broken // why the layout as a whole, complete, does not hold any more; nil: it does, or is not complete
	Begun    bool         // the search begins from where everything lies
}

// Unpinned is a copy that was pinned where it may not lie any more.
type Unpinned struct {
	Piece string
	Copy  int // from 0
	Why   *nest.Broken
}

// Stale says whether anything is not as it was when the layout was kept.
func (s State) Stale() bool {
	return s.Missing || len(s.Ground)+len(s.Changed)+len(s.Fresh)+len(s.Gone)+len(s.Unpinned) > 0 || s.Broken != nil
}

// Begin returns a task with the pieces pinned that the file pins, as far as they may still
// lie there, to be begun from where all of them lie if that holds; and how the file stands
// to the task. What changed, and what the file does not have, is laid free.
func (f *File) Begin(t plan.Task) (plan.Task, State) {
	state := State{Cloth: t.Spread.Cloth.ID}
	k := slices.IndexFunc(f.Cloths, func(c Cloth) bool { return c.ID == state.Cloth })
	if k < 0 {
		state.Missing = true
		return t, state
	}
	c := f.Cloths[k]
	t = c.shared(t)
	state.Ground = c.differs(t)
	pins, layouts := make([][]nest.Placed, len(t.Stretches)), make([]nest.Layout, len(t.Stretches))
	state.Begun = true
	for i, s := range t.Stretches {
		var on Stretch
		if n := slices.IndexFunc(c.Stretches, func(o Stretch) bool { return o.Lay == s.Lay }); n >= 0 {
			on = c.Stretches[n]
		}
		m := on.match(s.Problem, &state)
		pins[i] = state.pin(s.Problem, m)
		layouts[i] = nest.Layout{Placed: m.placed, Length: on.Length}
		s.Problem.Pins = pins[i]
		state.Begun = m.complete && state.holds(s.Problem, &layouts[i]) && state.Begun
	}
	for _, o := range c.Stretches {
		if !slices.ContainsFunc(t.Stretches, func(s nest.Stretch) bool { return s.Lay == o.Lay }) {
			for _, p := range o.Pieces {
				note(&state.Gone, p.Name)
			}
		}
	}
	t = t.WithPins(pins)
	if state.Begun {
		t = t.From(layouts)
	}
	return t, state
}

// shared returns a task with its pieces shared out over the stretches of a fold as they were
// when the layout was kept; as it is where the layout is not of the same pieces.
func (c Cloth) shared(t plan.Task) plan.Task {
	share, copies := make([]nest.Cutting, len(t.Problem.Pieces)), 0
	for _, s := range c.Stretches {
		for _, one := range s.Pieces {
			i := slices.IndexFunc(t.Problem.Pieces, func(p nest.Piece) bool { return p.Name == one.Name })
			if i < 0 {
				return t
			}
			copies++
			half := t.Problem.Pieces[i].Half
			switch {
			case s.Lay == nest.Open:
			case half != nil && one.Mark == markOf(nest.Piece{Outline: half}):
				share[i].OnFold = true
			default:
				share[i].Double++
				copies++
			}
		}
	}
	for _, p := range t.Problem.Pieces {
		copies -= p.Count
	}
	if copies != 0 || slices.Equal(share, nest.ShareOf(t.Stretches, len(share))) {
		return t
	}
	t, _ = t.SharedBy(share)
	return t
}

// differs lists what of the cloth of a task is another than the one that was laid on.
func (c Cloth) differs(t plan.Task) (list []string) {
	now := groundOf(t)
	for _, one := range []struct {
		differs bool
		name    string
	}{
		{c.Width != now.Width, "width"}, {c.Gap != now.Gap, "gap"}, {c.Repeat != now.Repeat, "repeat"},
		{c.Flaws != now.Flaws, "flaws"},
		{c.Stretches[0].Lay != t.Stretches[0].Lay, "lay"},
	} {
		if one.differs {
			list = append(list, one.name)
		}
	}
	return list
}

// matched are the copies of a stretch that are as they were.
type matched struct {
	placed   []nest.Placed
	pinned   []bool
	complete bool // every copy is there
}

// match finds the copies of a problem that a stretch of the file has as they are now.
func (s Stretch) match(p nest.Problem, state *State) (m matched) {
	index, marks := map[string]int{}, make([]string, len(p.Pieces))
	copies := 0
	for i, piece := range p.Pieces {
		index[piece.Name], marks[i] = i, markOf(piece)
		copies += piece.Count
	}
	had := make([]int, len(p.Pieces))
	for _, one := range s.Pieces {
		i, there := index[one.Name]
		switch {
		case !there || one.Copy >= p.Pieces[i].Count:
			note(&state.Gone, one.Name)
			continue
		case marks[i] != one.Mark:
			note(&state.Changed, one.Name)
			had[i]++
			continue
		}
		had[i]++
		m.placed = append(m.placed, nest.Placed{Piece: i, Copy: one.Copy, Turn: one.Turn, Mirrored: one.Mirrored, At: one.At})
		m.pinned = append(m.pinned, one.Pinned)
	}
	for i, piece := range p.Pieces {
		if had[i] < piece.Count {
			note(&state.Fresh, piece.Name)
		}
	}
	state.Kept += len(m.placed)
	m.complete = len(m.placed) == copies
	return m
}

// note adds a name once.
func note(list *[]string, name string) {
	if !slices.Contains(*list, name) {
		*list = append(*list, name)
	}
}

// pin returns those pinned copies that may lie where they do: all but those that break a rule
// as they lie.
func (s *State) pin(p nest.Problem, m matched) []nest.Placed {
	asked := make([]nest.Placed, 0, len(m.placed))
	for i, pl := range m.placed {
		if m.pinned[i] {
			asked = append(asked, pl)
		}
	}
	p.Pins = nil
	j := p.Judge()
	for n := 0; ; n++ {
		why := verify(j, asked)
		if why == nil {
			s.Pinned += len(asked)
			return asked
		}
		of := offender(p, asked, why)
		s.Unpinned = append(s.Unpinned, Unpinned{p.Pieces[asked[of].Piece].Name, asked[of].Copy, why})
		if asked = slices.Delete(asked, of, of+1); n == mostUnpinned {
			asked = nil // the job is another one: no pin means anything any more
		}
	}
}

// mostUnpinned bounds how many pins of a stretch are taken out one by one.
const mostUnpinned = 60

// offender returns which of some copies breaks a rule: of two that lie over each other the
// later one.
func offender(p nest.Problem, list []nest.Placed, why *nest.Broken) int {
	if why.Other != "" {
		return max(why.Pair[0], why.Pair[1])
	}
	return max(0, slices.IndexFunc(list, func(pl nest.Placed) bool {
		return p.Pieces[pl.Piece].Name == why.Piece && pl.Copy == why.Copy
	}))
}

// verify returns the rule that copies break as they lie; nil where they break none.
func verify(j *judge.Judge, list []nest.Placed) *nest.Broken {
	placed := make([]judge.Placed, len(list))
	for i, pl := range list {
		placed[i] = judge.Placed(pl)
	}
	err := j.VerifyPart(placed, func() bool { return false })
	broken, _ := errors.AsType[*nest.Broken](err)
	return broken
}

// holds says whether a layout of all copies may be cut as it lies; its length is that of
// the pieces, whatever the file says.
func (s *State) holds(p nest.Problem, l *nest.Layout) bool {
	l.Length = p.Used(l.Placed)
	err := nest.Verify(p, *l)
	if broken, ok := errors.AsType[*nest.Broken](err); ok && s.Broken == nil {
		s.Broken = broken
	}
	return err == nil
}
