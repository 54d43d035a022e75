package page

import (
	"context"
	"net/http"
	"slices"
	"strconv"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/book"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// asLaid is a job whose cloths are all laid, with what follows from that.
type asLaid struct {
	Number int // another for each report
	Text   int // another for each text
	File   *job.File
	Report *report.Report
	Search live.Search
	Old    bool // of another text than the job has now
	Busy   bool // better layouts are being looked for

	once     sync.Once
	priced   *quote.Quote
	unpriced error
}

// laidNow returns the job as its cloths lie on the desk, or the last one that was whole;
// where none was yet, why.
func (o *opened) laidNow() (*asLaid, error) {
	now, on := o.State(), o.desk.Snapshot()
	fits := now.Holds && on.File == now.File
	o.bench.mu.Lock()
	defer o.bench.mu.Unlock()
	last := o.laidLast
	if on.Report != nil && (last == nil || last.Report != on.Report) {
		next := &asLaid{Number: 1, File: on.File, Report: on.Report, Search: on.Search}
		if last != nil {
			if next.Number, next.Text = last.Number+1, last.Text; next.File != last.File {
				next.Text++
			}
		}
		o.laidLast, last = next, next
	}
	switch {
	case last != nil:
		shown := &asLaid{Number: last.Number, Text: last.Text, File: last.File, Report: last.Report, Search: last.Search,
			Busy: on.Busy, Old: !fits || on.Report == nil}
		return shown, nil
	case on.Refused != nil:
		return nil, on.Refused
	case !now.Holds:
		return nil, errUnread
	}
	for _, c := range on.Cloths {
		if c.Refused != nil {
			return nil, c.Refused
		}
	}
	return nil, nil // it is on its way
}

// mark tells one state of what follows from a job from the next.
func (l *asLaid) mark() string {
	if l == nil {
		return "none"
	}
	return strconv.Itoa(l.Number) + map[bool]string{true: "-old"}[l.Old] + map[bool]string{true: "-busy"}[l.Busy]
}

// ByHand names the cloths of which a hand laid pieces; "" for none.
func (l *asLaid) ByHand() string {
	var names []string
	for _, c := range l.Report.Cloths {
		if c.Pinned > 0 {
			names = append(names, c.Title)
		}
	}
	return say.InWords(names, "and")
}

// planned is how cloths are laid: as they are on the desk, and as the command does.
func planned(f *job.File, s live.Search) plan.Options {
	return plan.Options{Effort: s.Effort, Seed: s.Seed, Gowns: max(s.Gowns, 1), Unit: f.Job().Unit}
}

// quote prices the job as laid.
func (o *opened) quote(ctx context.Context, l *asLaid) (*quote.Quote, error) {
	o.bench.mu.Lock()
	keep := o.laidLast
	o.bench.mu.Unlock()
	if keep == nil || keep.Report != l.Report {
		keep = l
	}
	keep.once.Do(func() { // for all who ask; it may lay for other suppliers
		const longest = 20 * time.Second
		all, done := plan.WithCeiling(context.WithoutCancel(ctx), time.Now().Add(longest))
		defer done()
		keep.priced, keep.unpriced = quote.OfLaid(all, l.File.Job(), l.Report.Laid(),
			quote.Options{Options: planned(l.File, l.Search), Today: time.Now(), GoesOn: l.Busy})
	})
	return keep.priced, keep.unpriced
}

// gown is what the workbook and the page say alike; what to buy only where it is priced.
func (o *opened) gown(ctx context.Context, l *asLaid, priced bool) (book.Gown, error) {
	var spreads []plan.Spread
	for _, c := range l.Report.Cloths {
		spreads = append(spreads, c.Spread)
	}
	g := book.Gown{Report: l.Report}
	if l.Busy { // it is not cut short
		going := *l.Report
		going.Cloths = slices.Clone(going.Cloths)
		for i := range going.Cloths {
			going.Cloths[i].Ended = nest.Finished
		}
		g.Report = &going
	}
	var err error
	if g.List, err = report.List(l.File.Job(), spreads, l.Report.Unit); err != nil || !priced {
		return g, err
	}
	q, err := o.quote(ctx, l)
	if err != nil {
		return g, err
	}
	g.Shopping, err = q.Shopping()
	return g, err
}

// follows is what a view shows that follows from the job as laid.
type follows struct {
	Job, View string
	Mark      string  // of what is shown
	Laid      *asLaid // nil where nothing is laid yet
	Why       error   // why not; nil where it is on its way
	Shown     any
}

// showLaid makes a view that shows what follows from the job as laid.
func showLaid(view string, make func(o *opened, r *http.Request, l *asLaid) (any, error)) func(*opened,
	*http.Request) (any, error) {
	return func(o *opened, r *http.Request) (any, error) {
		f := follows{Job: o.Name(), View: view}
		f.Laid, f.Why = o.laidNow()
		f.Mark = f.Laid.mark()
		if f.Laid != nil {
			var err error
			if f.Shown, err = make(o, r, f.Laid); err != nil {
				f.Laid, f.Why = nil, err
			}
		}
		return f, nil
	}
}

// withMark is shown anew only where its mark is another.
type withMark interface{ mark() string }

func (f follows) mark() string { return f.Mark }

// refresh answers with a view anew, or with nothing where the page has it already.
func refresh(template string, show func(*opened, *http.Request) (any, error)) answerOf {
	return func(o *opened, w http.ResponseWriter, r *http.Request) error {
		data, err := show(o, r)
		if err != nil {
			return err
		}
		if f, ok := data.(withMark); ok && f.mark() == r.URL.Query().Get("seen") {
			w.WriteHeader(http.StatusNoContent)
			return nil
		}
		o.server.render(w, http.StatusOK, template, data)
		return nil
	}
}
