package page

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/measure"
)

// clothSize is how large cloths are shown.
type clothSize uint8

const (
	clothLarge clothSize = iota // each with its lists
	clothSmall                  // beside a form
)

// clothsShown is what the view of the cloths shows.
type clothsShown struct {
	Job    string
	Small  bool
	Search searchShown
	Cloths []clothShown
	Wrong  []wrongShown // why nothing of the job can be laid
	Total  string       // of all cloths that have a price
	Notes  []string     // what the maker is told of the whole job
}

// clothShown is one cloth.
type clothShown struct {
	Index  int
	ID     string
	Title  string
	State  string // in words
	Busy   bool   // a search runs
	Done   int    // percent of it
	Old    bool   // what is shown does not fit the job as it is
	Proved bool
	Wrong  []wrongShown
	Facts  []fact
	Words  []string // how it is spread, cut and bought

	Hand   string // what of it a hand laid, while it is not in hand
	NoHand string // why no piece of it can be moved by hand
	Push   push   // how far keys move a piece

	Shape   string // equal where figures and markers can be put into what stands there
	Markers *markersShown
	Changed bool // the markers are others than those seen
}

// fact is a figure of a cloth.
type fact struct {
	Name, Value string
	Main        bool
	More        bool // left out where there is little room
}

// Mark is what a page sends to say what it has seen.
func (c clothShown) Mark() string {
	if c.Markers == nil {
		return c.Shape + " -"
	}
	return c.Shape + " " + c.Markers.Mark
}

// shapeSeen is the shape in a mark.
func shapeSeen(mark string) string { return mark[:max(0, strings.LastIndex(mark, " "))] }

// clothsNow is how the cloths stand.
func (o *opened) clothsNow(size clothSize) clothsShown {
	text, now := o.State(), o.desk.Snapshot()
	shown := clothsShown{Job: o.Name(), Small: size == clothSmall, Search: shownSearch(now.Search, o.sameAs())}
	shown.Wrong = wrongOf(now.Refused)
	for i, c := range now.Cloths {
		one := o.clothNow(i, c, size, !text.Holds)
		one.Hand = o.hand.standing(c)
		shown.Cloths = append(shown.Cloths, one)
	}
	if r := now.Report; r != nil && text.Holds {
		if r.Total != "" && len(r.Cloths) > 1 {
			shown.Total = r.Total + " " + r.Currency
		}
		shown.Notes = spokenAll(slices.Concat(r.Remarks, workroom.OldPrices(text.File.Job(), job.DateOf(time.Now())),
			r.Cautions))
	}
	return shown
}

// clothNow is how one cloth stands; stale says that the text of the job does not hold.
func (o *opened) clothNow(i int, c live.Cloth, size clothSize, stale bool) clothShown {
	shown := clothShown{Index: i, ID: c.ID, Title: c.Title, Old: c.Picture != nil && (c.Old || stale),
		Proved: c.State == live.Proved, Busy: c.State == live.Laying || c.State == live.Waiting}
	if shown.Title == "" {
		shown.Title = c.ID
	}
	shown.State, shown.Done = stateWords(c, shown.Old), int(math.Floor(100*c.Done))
	shown.Wrong = wrongOf(c.Refused)
	shown.Shape = fmt.Sprintf("%d %s %v", i, c.ID, c.Picture != nil)
	if c.Picture == nil {
		return shown
	}
	r, laid := c.Picture.Report, c.Picture.Cloth()
	shown.Facts = factsOf(r, laid)
	shown.Words = r.Lines(laid)
	if c.Kept != nil && c.Kept.Stale() {
		shown.Words = append(c.Kept.Lines(o.hand.name, measure.SizeUnit(r.Unit).Size), shown.Words...)
	}
	if words := laid.SharedOtherwise(); words != "" {
		shown.Words = append(shown.Words, words)
	}
	shown.Words = spokenAll(shown.Words)
	var err error
	if shown.Markers, err = o.drawn.of(c.Picture, i, size); err != nil {
		shown.Wrong = append(shown.Wrong, wrongOf(err)...)
		return shown
	}
	shown.NoHand, shown.Push = unreachable(c), pushOf(r.Unit)
	shown.Shape += fmt.Sprintf(" %d %v", len(shown.Markers.Stretches), shown.NoHand == "")
	return shown
}

// stateWords says how a cloth stands.
func stateWords(c live.Cloth, old bool) string {
	switch {
	case c.State == live.Refused && old:
		return "It cannot be laid as you want it. This is how it lay before."
	case c.State == live.Refused:
		return "It cannot be laid as you want it."
	case old:
		return "Old: this is how it lay before your last change."
	case c.State == live.Laid && c.Picture != nil && c.Picture.Cloth().AllPinned():
		return "All pieces stay where you have them."
	}
	switch c.State {
	case live.Waiting:
		return "Laying the pieces."
	case live.Laying:
		return "Looking for a shorter marker."
	case live.Proved:
		return "Proved minimal: no less can be bought."
	case live.Paused:
		if c.Picture == nil {
			return "Not laid yet."
		}
		return "The search rests. This is the best marker so far."
	}
	return "The search is over."
}

// factsOf are the figures of a cloth.
func factsOf(r *report.Report, c report.Cloth) []fact {
	facts := []fact{{Name: "To buy", Value: c.ToBuy(), Main: true}}
	if c.Cost != "" {
		facts = append(facts, fact{Name: "Costs", Value: c.Cost + " " + r.Currency, Main: true})
	}
	if c.Used > 0 {
		facts = append(facts, fact{Name: "Used", Value: measure.BothUp(c.Used, r.Unit)})
		if !c.AllPinned() { // there is no other marker to be under
			facts = append(facts, fact{Name: "No marker is under", Value: measure.FormatDown(c.Bound, r.Unit)},
				fact{Name: "Over that by", Value: report.GapWords(c.Gap)}) // "gap" is between pieces in the form
		}
		facts = append(facts, fact{Name: "Filled", Value: report.Percent(c.Utilisation), More: true})
	}
	if c.AllPinned() && !c.Proved {
		return facts
	}
	return append(facts, fact{Name: "Could save at most", Value: c.CouldSave(), More: true})
}

// wrongShown is one thing that is wrong with the job, and where: "Line 12", "" for nowhere.
type wrongShown struct {
	Where      string
	What, Hint string
}

// draftsWithin is how long a form waits to hear what cannot be drafted: no cloth needs so long, but on a
// machine that does much else.
const draftsWithin = 150 * time.Millisecond

// refused lists what the cloths of a text that holds are refused for, as far as that is known once they
// are drafted.
func (o *opened) refused(now document.State) (all strict.Errors) {
	if !now.Holds {
		return nil
	}
	ctx, done := context.WithTimeout(context.Background(), draftsWithin)
	defer done()
	s := o.desk.Snapshot()
	for s.File != now.File || !s.Drafted {
		next, err := o.desk.Await(ctx, s.Version)
		if err != nil {
			return nil
		}
		s = next
	}
	all = append(all, placedIn(s.Refused)...)
	for _, c := range s.Cloths {
		if s.Refused == nil {
			all = append(all, placedIn(c.Refused)...)
		}
	}
	return all
}

// placedIn returns what of an error has a place in the text.
func placedIn(err error) strict.Errors {
	var placed strict.Errors
	var one *strict.Error
	if errors.As(err, &placed) {
		return placed
	} else if errors.As(err, &one) {
		return strict.Errors{one}
	}
	return nil
}

// wrongOf lists what an error tells.
func wrongOf(err error) []wrongShown {
	if err == nil {
		return nil
	}
	placed := placedIn(err)
	if placed == nil {
		t := troubleOf(err)
		return []wrongShown{{What: t.What, Hint: t.Hint}}
	}
	var list []wrongShown
	for _, e := range placed {
		list = append(list, wrongShown{whereIn(e), spoken(e.What), spoken(e.Hint)})
	}
	return list
}
