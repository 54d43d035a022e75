package plan

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/nest"
)

// Task is the laying of one cloth: its pieces, the markers to make of them and
// how the length to buy follows from those.
type Task struct {
	Spread    Spread       // with the pieces of all gowns
	Gowns     int          // laid together
	Problem   nest.Problem // of the single, open cloth
	Lay       nest.Lay
	Stretches []nest.Stretch // of the lay, one after the other along the cloth

	shared bool                          // over the stretches otherwise than with all cut double that can be
	start  *Start                        // to begin from where it is allowed; nil: from nothing
	source func(nest.Placed) nest.Placed // the copy of the whole cloth that one of a rest is; nil: itself
}

// Tasks draws a job for a number of gowns and returns one task for each cloth
// that something is cut from. The error is a strict.Errors: everything that cannot
// be drawn or laid, each at its place, with lengths in the job's unit.
func Tasks(j *job.Job, gowns int) ([]Task, error) {
	all, err := EachTask(j, gowns)
	if err != nil {
		return nil, err
	}
	var tasks []Task
	var bad strict.Errors
	for _, d := range all {
		bad = append(bad, d.Refused...)
		tasks = append(tasks, d.Task)
	}
	if len(bad) > 0 {
		bad.Sort()
		return nil, bad
	}
	return tasks, nil
}

// Drawn is the task of a cloth, or why it cannot be laid.
type Drawn struct {
	Task    Task // with its Spread alone when refused
	Refused strict.Errors
}

// EachTask is Tasks cloth by cloth: what one of them refuses does not keep the others from being laid.
// The error is that of a job of which nothing can be.
func EachTask(j *job.Job, gowns int) ([]Drawn, error) {
	spreads, err := Draw(j)
	if err != nil {
		return nil, err
	}
	if bad := tooMany(j, spreads, gowns); bad != nil {
		return nil, bad
	}
	all := make([]Drawn, len(spreads))
	for i, s := range spreads {
		all[i].Task, all[i].Refused = s.task(j, gowns)
	}
	return all, nil
}

// task makes the task of a spread, or says why there is none.
func (s Spread) task(j *job.Job, gowns int) (Task, strict.Errors) {
	t := Task{Spread: s.times(gowns), Gowns: gowns, Lay: layOf(s.Cloth)}
	if bad := s.refuseGrain(j); bad != nil {
		return t, bad
	}
	matches, meets, err := t.Spread.Match(j, t.Spread.strip(s.Cloth.Width, nil).Repeat)
	if err != nil {
		return t, asErrors(j, s.Cloth.At, err)
	}
	t.Spread.match(matches, meets)
	t.Problem = t.Spread.Problem()
	if bad := t.Spread.refuse(j, t.Problem, j.Unit); bad != nil {
		return t, bad
	}
	if t.Stretches, err = t.Spread.fold(t.Problem); err != nil {
		return t, strict.Errors{s.unfoldable(j, err)}
	}
	return t, nil
}

// SoldBy returns the task of a job's cloth as another offer sells it. The error is a
// strict.Errors: pieces that its lengths cannot hold.
func (t Task) SoldBy(j *job.Job, offer cost.Offer) (Task, error) {
	t.Spread.Cloth.Offer = offer
	if bad := t.Spread.refuse(j, t.Problem, j.Unit); bad != nil {
		return t, bad
	}
	return t, nil
}

// match gives each cut its match with the repeat, if the cloth has one.
func (s Spread) match(matches []*nest.Match, meets [][]Meet) {
	for i := range matches {
		s.Cuts[i].Match, s.Cuts[i].Meets = matches[i], meets[i]
	}
}

// asErrors places an error that is not placed yet.
func asErrors(j *job.Job, at strict.Position, err error) strict.Errors {
	var placed strict.Errors
	if errors.As(err, &placed) {
		return placed
	}
	return strict.Errors{j.ErrorAt(at, err)}
}

// Plain returns the task on the same cloth without its repeat; false where it
// has none.
func (t Task) Plain() (Task, bool) {
	c := &t.Spread.Cloth
	if c.Repeat == (job.Repeat{}) {
		return t, false
	}
	c.Repeat, t.Spread.Cuts = job.Repeat{}, slices.Clone(t.Spread.Cuts)
	for i := range t.Spread.Cuts {
		t.Spread.Cuts[i].Match = nil
	}
	t, err := t.of(t.Spread.Problem())
	return t, err == nil
}

// fold spreads the problem of the open cloth as the cloth lies.
func (s Spread) fold(p nest.Problem) ([]nest.Stretch, error) {
	return nest.Fold(p, layOf(s.Cloth), s.WashedAcross(s.Cloth.Selvedge))
}

// layOf returns how a cloth lies, for nest.
func layOf(c job.Cloth) nest.Lay {
	switch {
	case c.Lay == job.LengthwiseFold:
		return nest.LengthwiseFold
	case c.Lay == job.CrosswiseFold && c.TurnUpper:
		return nest.CrosswiseTurned
	case c.Lay == job.CrosswiseFold:
		return nest.CrosswiseFold
	case c.Lay == job.DoubleFold:
		return nest.DoubleFold
	}
	return nest.Open
}

// Key is equal for two tasks exactly when the same is laid on the same cloth and
// sold alike, so that one layout serves both.
func (t Task) Key() string {
	c, x := t.Spread.Cloth, LossOf(t.Spread.Cloth)
	var share []nest.Cutting
	if t.shared {
		share = t.share()
	}
	text, err := json.Marshal(struct {
		Problem  nest.Problem
		Lay      nest.Lay
		Selvedge float64
		Loss     [4]float64
		Offer    cost.Offer
		Shelf    []shelf.Length
		Keep     [2][]string
		Pins     [][]nest.Placed `json:",omitempty"`
		Share    []nest.Cutting  `json:",omitempty"`
	}{t.Problem, t.Lay, c.Selvedge, [...]float64{x.Ends, x.Skew, x.Washed, x.Spare}, c.Offer,
		t.leftovers(), t.keptNames(), t.Pins(), share})
	if err != nil {
		panic(fmt.Sprintf("a task of finite numbers does not encode: %v", err)) // Problem.Check refuses others
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}
