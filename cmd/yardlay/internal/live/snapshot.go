package live

import (
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/nest"
)

// State says how a cloth stands.
type State uint8

const (
	Waiting State = iota // for its first layout
	Laying               // there is a layout, and a better one is looked for
	Laid                 // the search is over
	Proved               // nothing less can be bought: the search is over
	Refused              // it cannot be laid
	Paused               // the search was ended: nobody watched, or the job cannot be laid as it is now
)

// String returns the state in a word.
func (s State) String() string {
	return [...]string{"waiting", "laying", "laid", "proved minimal", "refused", "paused"}[s]
}

// Snapshot is what lies on the desk at a moment. It is not to be changed.
type Snapshot struct {
	Version int       // rises with every change
	File    *job.File // that was shown last; nil: none was
	Search  Search
	Refused error // why nothing of the job can be laid: the cloths are then old ones
	Drafted bool  // the cloths are those of File, or refused as it has them
	Busy    bool  // something is being drafted, or laid
	Cloths  []Cloth
	// Report is of the whole job as it stands, once each cloth has a layout that fits it; Final says that it is
	// what report.Run comes to.
	Report *report.Report
	Final  bool
}

// Cloth is how one cloth stands.
type Cloth struct {
	ID, Title string
	State     State
	Old       bool  // its picture does not fit the job as it is now
	Refused   error // why it cannot be laid
	Picture   *Picture
	Done      float64     // share of the search, 0 to 1; below 0 where it is many searches, or goes on and on
	Phase     string      // of the search
	Kept      *kept.State // how it stands to the layout that it is laid from; nil: that has none of it
}

// Picture is a laying to be shown, told in a report of this cloth alone.
type Picture struct {
	Number int // another for each
	Report *report.Report
	laid   *plan.Laid
}

// Laid is the laying that is shown.
func (p *Picture) Laid() plan.Laid { return *p.laid }

// Cloth is the only one of the report.
func (p *Picture) Cloth() report.Cloth { return p.Report.Cloths[0] }

// place is where a cloth of the job lies on the desk.
type place struct {
	job     *job.Job
	task    plan.Task
	search  Search
	from    begun
	refused error
	laying  *laying  // nil when refused
	now     *Picture // of the best layout, once asked for
	old     *Picture // of what lay there before
}

// key is equal for places where the same is laid in the same way.
func (p *place) key() string {
	s := p.search
	return fmt.Sprint(s.Effort, " ", s.Seed, " ", max(s.Gowns, 1), " ", p.task.Key(), p.from.mark)
}

// Snapshot returns what lies on the desk now.
func (k *Desk) Snapshot() Snapshot {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.attend()
	return k.snapshot()
}

func (k *Desk) snapshot() Snapshot {
	s := Snapshot{Version: k.version, File: k.wanted.file, Search: k.wanted.search, Refused: k.refused, Busy: k.drawing}
	s.Drafted = k.wanted == k.drawn
	fits := s.Drafted && k.refused == nil
	for _, p := range k.places {
		c := k.cloth(p)
		c.Old = c.Picture != nil && (c.Old || !fits)
		s.Busy = s.Busy || c.State == Waiting || c.State == Laying
		s.Cloths = append(s.Cloths, c)
	}
	if fits {
		s.Report = k.wholeReport()
		s.Final = s.Report != nil && !s.Busy
	}
	return s
}

// whole is a report of the whole job, and what it is made of.
type whole struct {
	of     wanted
	laid   []*plan.Laid
	report *report.Report
}

// wholeReport is of the job as it stands; nil where a cloth has no layout.
func (k *Desk) wholeReport() *report.Report {
	of := whole{of: k.drawn}
	var laid []plan.Laid
	for _, p := range k.places {
		if k.pictureOf(p) == nil {
			return nil
		}
		of.laid, laid = append(of.laid, p.now.laid), append(laid, p.now.laid.Of(p.task))
	}
	if was := k.report; was != nil && was.of == of.of && slices.Equal(was.laid, of.laid) {
		return was.report
	}
	if len(laid) == 0 {
		return nil
	}
	j := k.drawn.file.Job()
	// A sum that no currency holds is told by report.Run too.
	of.report, _ = report.New(j, laid, k.drawn.search.shown(j))
	k.report = &of
	return of.report
}

// cloth says how a cloth stands.
func (k *Desk) cloth(p *place) Cloth {
	c := Cloth{ID: p.task.Spread.Cloth.ID, Title: p.task.Spread.Cloth.Title, Refused: p.refused}
	if p.from.of != nil && !p.from.state.Missing {
		c.Kept = &p.from.state
	}
	l := p.laying
	if l != nil {
		c.Picture, c.Done, c.Phase = k.pictureOf(p), l.now.Done, l.now.Phase
		if l.found != nil || len(l.task.Stretches) > 1 || l.task.InLengths() || len(l.task.Spread.Cloth.Have) > 0 {
			c.Done = -1
		}
		if c.Refused == nil {
			c.Refused = l.err
		}
	}
	if c.Picture == nil {
		c.Picture, c.Old = p.old, p.old != nil
	}
	switch {
	case c.Refused != nil:
		c.State = Refused
	case l.stop == nil && !l.over(k.onAndOn()):
		c.State = Paused
	case l.best == nil:
		c.State = Waiting
	case !l.over(k.onAndOn()):
		c.State = Laying
	case l.shown(k.onAndOn()).Proved():
		c.State, c.Done = Proved, 1
	default:
		c.State, c.Done = Laid, 1
	}
	return c
}

// pictureOf returns the picture of the best layout at a place; nil where there is none.
func (k *Desk) pictureOf(p *place) *Picture {
	l := p.laying
	if l == nil || l.best == nil || l.err != nil {
		return nil
	}
	if laid := l.shown(k.onAndOn()); p.now == nil || p.now.laid != laid {
		r, err := report.New(p.job, []plan.Laid{laid.Of(p.task)}, p.search.shown(p.job))
		if err != nil {
			l.err = err
			return nil
		}
		k.pictures++
		p.now = &Picture{Number: k.pictures, Report: r, laid: laid}
	}
	return p.now
}

// shown are the options that a report of a job names.
func (s Search) shown(j *job.Job) plan.Options {
	o := s.options(j)
	if s.OnAndOn {
		o.Effort = nest.Endless
	}
	return o
}
