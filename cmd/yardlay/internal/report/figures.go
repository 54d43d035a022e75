package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// New puts together what was found for the cloths of a job, with lengths
// in words in the unit of the options. Each Laid comes from Do.
func New(j *job.Job, laid []plan.Laid, o plan.Options) (*Report, error) {
	r := &Report{
		Title: j.Title, Currency: j.Currency, Effort: o.Effort.String(), Seed: o.Seed,
		Gowns: max(o.Gowns, 1), Unit: o.Unit,
	}
	var spreads []plan.Spread
	for _, l := range laid {
		c := laying{l}.report(o.Unit)
		if l.Task.Spread.Cloth.Priced {
			c.Cost = l.Buy.Cost.Amount()
			if err := r.Bill.Add(c.ID, l.Buy.Cost); err != nil {
				return nil, say.Errorf("cloth `%s`: %w", c.ID, err)
			}
		}
		r.Cloths = append(r.Cloths, c)
		spreads = append(spreads, l.Task.Spread)
	}
	if len(r.Bill.Lines) > 0 {
		r.Total = r.Bill.Total.Amount()
	}
	r.Cautions = Cautions(spreads)
	r.Wearers = r.wearers(j.Bodies)
	said, err := remarks(j, o.Unit)
	r.Remarks = texts(said)
	return r, err
}

// laying is what has been laid on one cloth, to be told of.
type laying struct{ plan.Laid }

// report says what was found for one cloth, and how much less could ever be
// bought.
func (l laying) report(unit measure.Unit) Cloth {
	t, s := l.Task, l.Task.Spread
	used, bound := l.Taken()
	c := Cloth{
		ID: s.Cloth.ID, Title: s.Cloth.Title, Nap: string(s.Cloth.Nap), Lay: string(s.Cloth.Lay),
		UpperTurned: s.Cloth.TurnUpper, Width: t.Problem.Strip.Width,
		Pieces: s.Copies(), Pinned: t.Pinned(), Used: used, Needed: l.Needed,
		Bought: l.Buy.Bought, Bolts: l.Buy.Bolts, Leftover: l.Buy.Leftover,
		Bound: bound, Argument: l.argument(), Reason: l.reason(showIn(unit)), Because: l.because(),
		Steps: l.steps(l.LeastBuy), Proved: l.Proved(), Marker: l.opened(),
		StepsAsShared: l.steps(l.LeastFor), ProvedAsShared: l.ProvedAsShared(),
		Added: l.added(used), Instructions: l.instructions(unit),
		Spread: s, Problem: l.Rest, Layout: l.Opened, Laid: l.Laid, Elapsed: l.Elapsed, Ended: l.ended(), Buy: l.Buy,
	}
	c.Status = l.status(c.Ended)
	if l.Lengths != nil {
		c.LeastCost = l.LeastCost().Amount()
		if c.Proved {
			c.Steps = 0
		}
		if c.ProvedAsShared {
			c.StepsAsShared = 0
		}
	}
	if used > 0 {
		c.Gap = max(0, used/bound-1)
		c.Utilisation = l.covered().Utilisation(l.Rest.Strip.Width, used)
	}
	if w := s.Cloth.Shrinkage; w.Warp != 0 || w.Weft != 0 {
		c.Shrinkage = &Shrinkage{Warp: w.Warp, Weft: w.Weft, By: washing(w)}
	}
	bought := l.stretches(showIn(unit))
	if t.Lay != nest.Open {
		c.Stretches = bought
	}
	bolts := l.bolts()
	c.Lengths = l.boughtLengths(bought, bolts)
	c.Markers = slices.Concat(bought, bolts, l.leftovers())
	if l.Shelf != nil {
		c.Shelf = l.shelf()
	}
	if l.Plain != nil {
		c.Repeat = l.beside(laying{*l.Plain})
	}
	if l.Alone != nil {
		c.PerGown = l.perGown(laying{*l.Alone})
	}
	return c
}

// steps are those of the counter from a length bought to what is bought.
func (l laying) steps(least float64) int {
	step, _ := l.Task.Spread.Cloth.Offer.CutStep().Float64()
	return int(math.Round((l.Buy.Bought - least) / step))
}

func washing(w job.Shrinkage) string {
	if w.Prewash {
		return "prewash"
	}
	return "pieces"
}

// argument is the kind of proof of the first stretch's bound or, where several
// lengths are bought, of that of an open lay of everything.
func (l laying) argument() string {
	switch {
	case len(l.BoltCuts()) > 0:
		return string(l.Lengths.Bound.Kind)
	case len(l.Results) == 0:
		return ""
	}
	return string(l.Results[0].Bound.Kind)
}

// reason says in words why no markers of these stretches can be shorter.
func (l laying) reason(show func(mm float64) string) string {
	if l.Shelf != nil && l.Buy.Lengths() > 0 {
		l.Shelf = nil
		return "as the shelf is used, " + l.reason(show)
	}
	switch n := l.Buy.Lengths(); {
	case len(l.BoltCuts()) > 0:
		text := "laid open in one length, " + l.Lengths.Bound.Reason(show)
		if gap := l.Task.Problem.Gap; gap > 0 && n > 1 {
			text += fmt.Sprintf("; %d lengths need no gap between them", n)
		}
		return text
	case n == 0:
		return "nothing is cut from bought cloth"
	}
	if len(l.Results) == 1 {
		return l.Results[0].Bound.Reason(show)
	}
	parts := make([]string, len(l.Results))
	for i, r := range l.Results {
		parts[i] = fmt.Sprintf("on the %s stretch, %s", [...]string{"folded", "open"}[i], r.Bound.Reason(show))
	}
	return strings.Join(parts, "; ")
}

// because says why in a few words: of several stretches, of the longest.
func (l laying) because() string {
	switch {
	case l.Several():
		return l.Lengths.Bound.Brief()
	case len(l.Results) == 0:
		return "nothing is cut from bought cloth"
	}
	longest := slices.MaxFunc(l.Results,
		func(a, b nest.Result) int { return cmp.Compare(a.Bound.Length, b.Bound.Length) })
	return longest.Bound.Brief()
}

// ended says how the searches of the stretches, and of the lengths to buy, ended:
// the worst of them.
func (l laying) ended() nest.Status {
	if l.Lengths == nil && len(l.Results) == 1 {
		return l.Results[0].Status
	}
	all := nest.Finished
	if l.Lengths != nil {
		all = l.Lengths.Ended
	}
	for _, r := range l.Results {
		switch {
		case r.Status == nest.Stopped, all == nest.Stopped:
			all = nest.Stopped
		case r.Status == nest.OutOfTime, all == nest.OutOfTime:
			all = nest.OutOfTime
		}
	}
	if l.Proved() {
		return nest.Proved
	}
	return all
}

// status is how the searches ended in words. It says proved just where the purchase
// is, whatever use is made of stretches and shelf.
func (l laying) status(ended nest.Status) string {
	switch {
	case l.Proved():
		ended = nest.Proved
	case ended == nest.Proved:
		ended = nest.Finished
	}
	return ended.String()
}

// added says what makes the needed length of the used one; nil when nothing is
// added.
func (l laying) added(used float64) *Added {
	x := plan.LossOf(l.Task.Spread.Cloth)
	if x == (plan.Loss{Washed: 1}) || l.Buy.Lengths() == 0 {
		return nil
	}
	laid := 0.0
	if len(l.Results) > 0 {
		lengths, _ := plan.LengthsOf(l.Results)
		_, laid = l.Task.Along(lengths)
	}
	for _, c := range l.BoltCuts() {
		laid += c.Layout.Length + 2*x.Ends
	}
	a := &Added{Ends: laid - used, Skew: float64(l.Buy.Lengths()) * x.Skew}
	a.Shrinkage = (laid + a.Skew) * (1/x.Washed - 1)
	a.Spare = (laid+a.Skew)/x.Washed*x.Spare + l.Spare
	return a
}

// shelf says what the leftovers are good for.
func (l laying) shelf() *Shelf {
	s := &Shelf{Verdict: l.Shelf.Verdict.String(), Without: l.Shelf.Whole, Leftovers: []Leftover{}}
	if len(l.Results) > 0 {
		s.Steps = l.steps(l.LeastFor)
	}
	for i, m := range l.leftovers() {
		s.Leftovers = append(s.Leftovers, Leftover{
			Name: m.Name, Width: m.Width, Length: l.Shelf.Cuts[i].Strip.MaxLength, Used: m.Used, Marker: m.Marker,
		})
	}
	return s
}

// beside compares a laying on a repeat with the same pieces on plain cloth.
func (l laying) beside(plain laying) *Repeat {
	c := l.Task.Spread.Cloth
	used, least := l.Taken()
	plainUsed, plainLeast := plain.Taken()
	return &Repeat{
		PlainLoose: max(0, plainUsed-plainLeast), Loose: max(0, used-least), Counted: l.countsRepeat(),
		Along: c.Repeat.Along, Across: c.Repeat.Across, PlainUsed: plainUsed, PlainBought: plain.Buy.Bought,
		Extra: used - plainUsed, ExtraBought: l.Buy.Bought - plain.Buy.Bought,
	}
}

// countsRepeat says whether the bound of what is bought counts the repeat, on any stretch.
func (l laying) countsRepeat() bool {
	return !l.Several() && slices.ContainsFunc(l.Results, func(r nest.Result) bool { return r.Bound.OnRepeat() })
}

// perGown sets the share of one gown beside one that is laid alone.
func (l laying) perGown(alone laying) *PerGown {
	used, _ := l.Taken()
	aloneUsed, _ := alone.Taken()
	n := float64(l.Task.Gowns)
	p := &PerGown{Used: used / n, Bought: l.Buy.Bought / n, AloneUsed: aloneUsed, AloneBought: alone.Buy.Bought}
	if alone.Task.Spread.Cloth.Priced {
		p.AloneCost = alone.Buy.Cost.Amount()
	}
	return p
}

// showIn prints lengths within a sentence.
func showIn(unit measure.Unit) func(mm float64) string {
	unit = measure.SizeUnit(unit)
	return func(mm float64) string { return measure.FormatDown(mm, unit) }
}
