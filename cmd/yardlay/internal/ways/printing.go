package ways

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// Printing is what the ways print from. What several of them need is made once, when
// the first of them asks for it.
type Printing struct {
	o    Options
	file *job.File
	unit measure.Unit // to show lengths in
	lay  plan.Options
	date time.Time
	tell func(stage string) // nil: nobody listens

	spreads []plan.Spread
	list    report.CutList
	mark    string // of the pieces drafted
	pieces  []fullPiece
	report  *report.Report
	stepped *report.Report // laid to be drawn by tape
	chalk   *setOut
	cutter  []cutterWork // pieces or markers, for all formats of machines
}

// New makes ready to print a job in the ways that o asks for, laid by lay, with a date on
// each page; tell hears of each stage. The error is *Refused for an option that does not
// go with the job.
func New(f *job.File, lay plan.Options, o Options, date time.Time, tell func(stage string)) (*Printing, error) {
	p := &Printing{o: o, file: f, unit: lay.Unit, lay: lay, date: date, tell: tell}
	var err error
	if p.lay.Cloths, err = o.onlyCloths(f.Job()); err != nil {
		return nil, err
	}
	for _, w := range o.asked() {
		if w.check != nil {
			if err := w.check(&p.o, f.Job()); err != nil {
				return nil, err
			}
		}
	}
	return p, nil
}

// Laid lets the ways print from cloths that are laid already, as report.Run comes to with
// the same options.
func (p *Printing) Laid(r *report.Report) { p.report = r }

// Cloths are those that are printed alone; none: all are.
func (p *Printing) Cloths() []string { return p.lay.Cloths }

// Tell tells of each stage, and how far searches are.
func (p *Printing) Tell(stage func(string), search func(plan.Progress)) {
	p.tell, p.lay.Progress = stage, search
}

// Sets are what the ways make, in their order.
func (p *Printing) Sets() []folder.Set {
	var sets []folder.Set
	for _, w := range p.o.asked() {
		sets = append(sets, w.set(p.file.Job()))
	}
	return sets
}

// Made is what all ways have made.
type Made struct {
	Files map[string][]folder.File // by the names of their sets
	Facts map[string]any           // the same in figures
	Lines []string                 // what was made, in words, a line each
	Notes []string                 // what to mind with it, each once
}

// Make makes the files of every way. A context that ends leaves the best layouts so far.
func (p *Printing) Make(ctx context.Context) (Made, error) {
	all := Made{Files: map[string][]folder.File{}, Facts: map[string]any{}}
	var notes []string
	sets := p.Sets()
	for i, w := range p.o.asked() {
		done, err := w.make(ctx, p)
		if err != nil {
			return Made{}, err
		}
		all.Files[sets[i].Name], all.Facts[sets[i].Name] = done.files, done.facts
		all.Lines = append(all.Lines, done.lines...)
		for _, n := range done.notes {
			if !slices.Contains(notes, n) {
				notes = append(notes, n)
			}
		}
	}
	if p.report != nil {
		all.Notes = p.report.Unfinished()
	}
	all.Notes = append(all.Notes, notes...)
	return all, nil
}

func (p *Printing) stage(text string) {
	if p.tell != nil {
		p.tell(text)
	}
}

func (p *Printing) gowns() int { return max(p.lay.Gowns, 1) }

// drafted returns the pieces cloth by cloth, and the cut list.
func (p *Printing) drafted(ctx context.Context) ([]plan.Spread, report.CutList, error) {
	if p.spreads != nil {
		return p.spreads, p.list, nil
	}
	p.stage("drafting")
	var spreads []plan.Spread
	list, err := plan.Unless(ctx, func() (list report.CutList, err error) {
		if spreads, err = plan.Draw(p.file.Job()); err == nil {
			list, err = report.List(p.file.Job(), spreads, p.unit)
		}
		return list, err
	})
	if err == nil {
		p.list, p.mark = list, markOf(spreads)
		p.spreads = slices.DeleteFunc(spreads, func(s plan.Spread) bool { return !p.lay.Takes(s.Cloth.ID) })
	}
	return p.spreads, list, err
}

// laid returns the cloths as laid.
func (p *Printing) laid(ctx context.Context) (*report.Report, error) {
	if p.report == nil {
		if p.o.chalk && p.stepped == nil { // which is laid after it
			var done context.CancelFunc
			ctx, done = plan.InTurn(ctx, 2)
			defer done()
		}
		r, err := report.Run(ctx, p.file.Job(), p.lay)
		if err != nil {
			return nil, err
		}
		p.report = r
	}
	return p.report, nil
}

// onlyCloths reads --cloth: ids of cloths of the job, or none for all.
func (o *Options) onlyCloths(j *job.Job) ([]string, error) {
	known := make([]string, len(j.Cloths))
	for i, c := range j.Cloths {
		known[i] = c.ID
	}
	for _, id := range o.cloths {
		if !slices.Contains(known, id) {
			return nil, &Refused{"cloth", fmt.Sprintf("cannot be %q", id), "the job has " + strings.Join(known, ", ")}
		}
	}
	return o.cloths, nil
}
