package page

import (
	"context"
	"net/http"
	"slices"
	"time"

	"yardlay/cmd/yardlay/internal/book"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/workroom"
)

// quoteView shows what the gown costs, and what the client may see of that.
func quoteView() view {
	within := showLaid("quote", quoteOf)
	show := func(o *opened, r *http.Request) (any, error) {
		f, err := within(o, r)
		return quotePage{f.(follows), r.URL.Query().Has("client"), whatIfOf(o)}, err
	}
	return view{path: "quote", name: "Quote", template: "quote", show: show,
		answers: map[string]answerOf{
			"GET /now":           refresh("quote-now", show),
			"GET /what-if":       showWhatIf,
			"POST /what-if":      beginWhatIf,
			"POST /what-if/stop": stopping(whatIfRun, showWhatIf),
			"POST /what-if/take": takeChoice,
			"GET /file/{file}":   quoteFile,
		},
	}
}

// quotePage is what the view of the quote shows.
type quotePage struct {
	follows
	Client  bool // the page for the client
	Choices whatIf
}

// quoted is a quote as it is printed.
type quoted struct {
	Section  section
	Cautions []string
	Files    []string // to keep
}

// quoteOf makes the pages of a quote. The address says whether it is that of the client.
func quoteOf(o *opened, r *http.Request, l *asLaid) (any, error) {
	q, err := o.quote(r.Context(), l)
	if err != nil {
		return nil, err
	}
	j := l.File.Job()
	shown := quoted{Cautions: spokenAll(slices.Concat(q.Cautions, workroom.OldPrices(j, job.DateOf(time.Now())),
		workroom.Rates(j)))}
	ledger, set := q.Ledger(), files.SetQuote
	if r.URL.Query().Has("client") {
		ledger, set, shown.Cautions = q.ForClient().Ledger(q.Unit), files.SetClient, nil
	}
	list, err := sections(book.Ledger(ledger))
	if err != nil {
		return nil, err
	}
	shown.Section = list[0]
	for i := range ledger.Drawings() {
		shown.Files = append(shown.Files, files.Page(set, i))
	}
	return shown, nil
}

// quoteFile sends a page of the quote, or of the client's or of the shopping list, as the
// commands write them.
func quoteFile(o *opened, w http.ResponseWriter, r *http.Request) error {
	l, err := o.laidNow()
	if err != nil {
		return err
	} else if l == nil {
		return notFound("nothing is laid yet")
	}
	q, err := o.quote(r.Context(), l)
	if err != nil {
		return err
	}
	list, err := q.Shopping()
	if err != nil {
		return err
	}
	client := q.ForClient()
	for _, set := range []struct {
		name    string
		ledger  sheet.Ledger
		figures any
	}{{files.SetQuote, q.Ledger(), q}, {files.SetClient, client.Ledger(q.Unit), client},
		{files.SetShop, list.Ledger(), list}} {
		if !files.PageSet(set.name).Makes(r.PathValue("file")) {
			continue
		}
		made, err := files.Pages(set.name, set.ledger, set.figures)
		if err != nil {
			return err
		}
		return sendOne(w, r, made)
	}
	return notFound("there is no such page")
}

// sendOne sends the file that the address names.
func sendOne(w http.ResponseWriter, r *http.Request, made []folder.File) error {
	for _, f := range made {
		if f.Name == r.PathValue("file") {
			return download(w, f)
		}
	}
	return notFound("there is no such file")
}

// whatIfRun is the kind of run that lays the choices.
const whatIfRun = "what-if"

// choicesFound is what a run has found so far.
type choicesFound struct {
	quote *quote.Quote
	quote.Choices
}

// whatIf is how the choices stand.
type whatIf struct {
	Job     string
	Run     *running // nil: none was asked for
	Quote   *quote.Quote
	Choices []quote.Choice
	Waiting int
	Said    []string
}

func whatIfOf(o *opened) whatIf {
	shown := whatIf{Job: o.Name()}
	now, _, found := o.runOf(whatIfRun)
	shown.Run = now
	if c, ok := found.(choicesFound); ok {
		shown.Quote, shown.Choices, shown.Waiting = c.quote, c.Choices.Choices, len(c.Waiting)
		shown.Said = spokenAll(c.Said())
	}
	return shown
}

func showWhatIf(o *opened, w http.ResponseWriter, _ *http.Request) error {
	o.server.render(w, http.StatusOK, "what-if", whatIfOf(o))
	return nil
}

// beginWhatIf lays the choices that would move the price.
func beginWhatIf(o *opened, w http.ResponseWriter, r *http.Request) error {
	err := o.begin(whatIfRun, func(ctx context.Context, r *run) error {
		qo := quote.Options{Options: planned(r.file, r.search), Today: time.Now(),
			Tried: func(q *quote.Quote, c quote.Choices) { r.set(func() { r.found = choicesFound{q, c} }) }}
		qo.Progress, qo.Begin = r.progress, o.asItLies
		q, c, err := quote.WhatIf(ctx, r.file, qo)
		if err == nil {
			r.set(func() { r.found = choicesFound{q, c} })
		}
		return err
	})
	if err != nil {
		return err
	}
	return showWhatIf(o, w, r)
}

// takeChoice takes a choice over into the job.
func takeChoice(o *opened, w http.ResponseWriter, r *http.Request) error {
	now, of, found := o.runOf(whatIfRun)
	n, err := rowAsked(r)
	c, _ := found.(choicesFound)
	if err != nil || now == nil || n >= len(c.Choices.Choices) {
		return notFound("there is no such choice")
	}
	if err := o.take(of, c.Choices.Choices[n].Changes); err != nil {
		return err
	}
	return showWhatIf(o, w, r)
}

// stopping ends the run of a kind, and shows what it has found.
func stopping(kind string, show answerOf) answerOf {
	return func(o *opened, w http.ResponseWriter, r *http.Request) error {
		o.stop(kind)
		return show(o, w, r)
	}
}
