package plan

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Options steer a run. The zero value searches with nest's defaults on all
// processors and shows lengths in inches.
type Options struct {
	Effort  nest.Effort
	Seed    uint64
	Workers int           // processors; 0: all. The layouts do not depend on it
	Time    time.Duration // ceiling for all cloths together; 0: none
	Unit    measure.Unit  // to show lengths in
	Exact   bool          // go on shortening the used length when no less can be bought

	// Progress, when set, is told how the search on a cloth goes. It is called
	// by one goroutine at a time.
	Progress func(cloth string, p nest.Progress)
}

// Run takes a job through the whole pipeline. Every layout in the report has
// passed nest.Verify. A cancelled context keeps the best layouts so far, and
// the report says so. Errors about the job are a job.Errors.
func Run(ctx context.Context, j *job.Job, o Options) (*Report, error) {
	start := time.Now()
	spreads, err := Draw(j)
	if err != nil {
		return nil, err
	}
	problems := make([]nest.Problem, len(spreads))
	var bad job.Errors
	for i, s := range spreads {
		problems[i] = s.Problem()
		bad = append(bad, s.refuse(j, problems[i], o.Unit)...)
	}
	if len(bad) > 0 {
		bad.Sort()
		return nil, bad
	}
	results, err := layAll(ctx, j, spreads, problems, o)
	if err != nil {
		return nil, err
	}
	r := &Report{
		Title: j.Title, Currency: j.Currency, Effort: o.Effort.String(), Seed: o.Seed,
		Unit: o.Unit, Cautions: Cautions(spreads),
	}
	for i, s := range spreads {
		c, err := s.report(problems[i], results[i], o.Unit, &r.Bill)
		if err != nil {
			return nil, fmt.Errorf("cloth `%s`: %w", s.Cloth.ID, err)
		}
		r.Cloths = append(r.Cloths, c)
	}
	if len(r.Bill.Lines) > 0 {
		r.Total = r.Bill.Total.Amount()
	}
	r.Elapsed = time.Since(start)
	return r, nil
}

// layAll lays every cloth: as many at a time as there are processors, which
// they share out evenly.
func layAll(ctx context.Context, j *job.Job, spreads []Spread, problems []nest.Problem, o Options) ([]nest.Result, error) {
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	abreast := max(1, min(workers, len(problems)))
	share := nest.Options{Effort: o.Effort, Seed: o.Seed, Workers: max(1, workers/abreast)}
	if rounds := (len(problems) + abreast - 1) / abreast; o.Time > 0 {
		share.Time = max(o.Time/time.Duration(rounds), 1)
	}
	results := make([]nest.Result, len(problems))
	errs := make([]error, len(problems))
	free := make(chan struct{}, abreast)
	var all sync.WaitGroup
	var telling sync.Mutex
	for i, p := range problems {
		id, options := spreads[i].Cloth.ID, share
		if !o.Exact {
			options.Bought = spreads[i].bought
		}
		if o.Progress != nil {
			options.Progress = func(p nest.Progress) {
				telling.Lock()
				defer telling.Unlock()
				o.Progress(id, p)
			}
		}
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			results[i], errs[i] = lay(ctx, p, options)
		})
	}
	all.Wait()
	var bad job.Errors
	for i, err := range errs {
		if err != nil {
			bad = append(bad, spreads[i].unlaid(j, problems[i], err))
		}
	}
	if len(bad) > 0 {
		return nil, bad
	}
	return results, nil
}

// lay lays one cloth. When the run is interrupted before there is a layout, the
// first one is still made, which takes well under a second: a run that is
// interrupted ends with a layout for every cloth.
func lay(ctx context.Context, p nest.Problem, o nest.Options) (nest.Result, error) {
	r, err := nest.Solve(ctx, p, o)
	if !errors.Is(err, context.Canceled) {
		return r, err
	}
	o.Time = 1 // over at once: only the first layout
	r, err = nest.Solve(context.WithoutCancel(ctx), p, o)
	if r.Status == nest.OutOfTime {
		r.Status = nest.Stopped
	}
	return r, err
}

// bought is the length bought for a used one; where an offer fails, the report
// says why.
func (s Spread) bought(used float64) float64 {
	buy, err := s.Cloth.Offer.Buy(used)
	if err != nil {
		return used
	}
	return buy.Bought
}

// report judges a layout once more and works out what to buy for it, and how
// much less could ever be bought.
func (s Spread) report(p nest.Problem, r nest.Result, unit measure.Unit, bill *cost.Bill) (Cloth, error) {
	if err := nest.Verify(p, r.Layout); err != nil {
		return Cloth{}, fmt.Errorf("the layout does not hold and is thrown away: %w", err)
	}
	buy, err := s.Cloth.Offer.Buy(r.Layout.Length)
	if err != nil {
		return Cloth{}, err
	}
	least := s.bought(r.Bound.Length)
	step, _ := s.Cloth.Offer.CutStep().Float64()
	c := Cloth{
		ID: s.Cloth.ID, Title: s.Cloth.Title, Nap: string(s.Cloth.Nap), Width: p.Strip.Width,
		Pieces: len(r.Layout.Placed), Used: r.Layout.Length,
		Bought: buy.Bought, Bolts: buy.Bolts, Split: buy.Split,
		Bound: r.Bound.Length, Argument: string(r.Bound.Kind), Reason: r.Bound.Reason(showIn(unit)),
		Gap: max(0, r.Layout.Length/r.Bound.Length-1), Steps: int(math.Round((buy.Bought - least) / step)),
		Proved:      buy.Bought <= least,
		Utilisation: r.Utilisation, Status: r.Status.String(), Marker: marker(p, r.Layout),
		Spread: s, Problem: p, Layout: r.Layout, Stats: r.Stats, Ended: r.Status, Buy: buy,
	}
	if !s.Cloth.Priced {
		return c, nil
	}
	c.Cost = buy.Cost.Amount()
	return c, bill.Add(s.Cloth.ID, buy.Cost)
}

// showIn prints lengths within a sentence.
func showIn(unit measure.Unit) func(mm float64) string {
	unit = SizeUnit(unit)
	return func(mm float64) string { return measure.FormatDown(mm, unit) }
}
