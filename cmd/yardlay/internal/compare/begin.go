package compare

import (
	"slices"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/say"
)

// begin lets the tasks of the job as written begin as a run is told to (plan.Options.Begin), and those of other rows
// like them where they lay the same. A row may have other pieces of a cloth, or lay them otherwise: a place on one
// cloth means nothing on another, and would only be in the way there. Those are laid anew, and the row says so.
func (w *Row) begin(written *Row, begin func(plan.Task) plan.Task) {
	if begin == nil {
		return
	}
	for i, t := range w.tasks {
		if w == written {
			w.tasks[i] = begin(t)
			continue
		}
		k := slices.IndexFunc(written.tasks, func(one plan.Task) bool { return one.Spread.Cloth.ID == t.Spread.Cloth.ID })
		switch {
		case k < 0:
		case t.LaysAs(written.tasks[k]):
			w.tasks[i] = t.BegunAs(written.tasks[k])
		case written.tasks[k].Begun():
			w.Anew = append(w.Anew, t.Spread.Cloth.ID)
		}
	}
}

// LaidAnew says which cloths of a row do not lie as a hand has laid those of the job as written; "" for none.
func (w Row) LaidAnew() string {
	if len(w.Anew) == 0 {
		return ""
	}
	return say.InWords(w.Anew, "and") + " laid anew, not by hand"
}
