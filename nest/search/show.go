package search

import "time"

// A search that is watched secures its best layout more often, and shows what the judge has
// passed. That takes time, and no work that counts.
const (
	showEvery = 250 * time.Millisecond
	showShare = 0.05 // of the time that may go into it
)

// show shows the shortest layout that the judge has passed, if it is shorter than the last
// one shown.
func (f *First) show() {
	l := f.shortestPassed
	if f.options.Better == nil || l == nil || f.shown > 0 && l.Length >= f.shown {
		return
	}
	f.shown = l.Length
	f.options.Better(*l)
}
