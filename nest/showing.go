package nest

import (
	"yardlay/nest/bound"
	"yardlay/nest/search"
)

// showing shows Options.Better how a search stands: four times a second at the most, from one
// goroutine at a time, for which the search waits.
type showing struct {
	*searcher
	options Options
	bound   bound.Bound // the plainest, until another is proved
	best    *Layout     // that was shown last
}

func newShowing(s *searcher, o Options) *showing {
	w := &showing{searcher: s, options: o}
	if o.Better != nil {
		w.bound = bound.Plain(s.of.toBound())
	}
	return w
}

// layout returns what the search shows its layouts; nil where nobody looks.
func (w *showing) layout() func(search.Layout) {
	if w.options.Better == nil {
		return nil
	}
	return func(l search.Layout) {
		found := w.searcher.layout(l)
		w.best = &found
		w.show()
	}
}

// proved shows the best layout with its bound, and returns the length of that.
func (w *showing) proved(b bound.Bound) float64 {
	if w.bound = b; w.best != nil {
		w.show()
	}
	return b.Length
}

// show shows the best layout, unless the bound lies above it: then one of them is wrong, as
// Solve is going to say.
func (w *showing) show() {
	r := Result{Layout: *w.best, Bound: w.bound, Utilisation: w.of.Utilisation(*w.best), Status: Stopped}
	if consistent(r.Bound, r.Layout) != nil {
		return
	}
	if w.options.enough(r.Layout.Length, r.Bound.Length) {
		r.Status = Proved
	}
	w.options.Better(r)
}
