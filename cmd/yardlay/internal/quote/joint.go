package quote

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Gown is one of several jobs that are shopped for at once.
type Gown struct {
	Name string // that it is called by, unlike any other
	Job  *job.Job
	Due  job.Date // when it is to be delivered; may be none
}

// MostGowns is how many jobs are shopped for at once: more than any workroom has open.
const MostGowns = 100

// mostSuppliers is as many as cost.Cheapest looks at, one less for the counter that has no name; a job has no more.
const mostSuppliers = 9

// Joint is a shopping list over several jobs.
type Joint struct {
	List                  // one order a supplier, over all
	Apart    cost.Money   `json:"apart"`    // what the orders would come to, bought for one gown after the other
	PerGown  []Takes      `json:"per_gown"` // what each of them takes
	Shared   []Shared     `json:"shared"`   // cloths that several are cut from
	Cautions []string     `json:"-"`
	Cloths   []JointCloth `json:"-"` // every cloth as it is laid for this list
}

// JointCloth is one cloth of one gown, or of several that are laid together.
type JointCloth struct {
	Gowns  []int    // of those that were asked for
	IDs    []string // what each of their jobs calls it
	Laid   plan.Laid
	Shares []float64 // mm of what is bought for it, of each of the gowns: as what they need apart
}

// Takes is what one of several gowns takes by itself.
type Takes struct {
	Name  string     `json:"name"`
	Title string     `json:"title"`
	Due   string     `json:"due,omitempty"`
	What  []Take     `json:"what"`
	Alone cost.Money `json:"alone"` // what its orders would come to
}

// Take is a cloth or a notion that a gown takes. Lengths are in mm.
type Take struct {
	Name   string  `json:"name"`
	Length float64 `json:"length,omitempty"`
	Count  int     `json:"count,omitempty"`
	Shelf  string  `json:"shelf,omitempty"` // the leftover that it is cut from

	per measure.Unit
}

// Shared is a cloth that several gowns are cut from.
type Shared struct {
	ID       string     `json:"id"`
	Name     string     `json:"name"`
	Gowns    []string   `json:"gowns"`
	Together bool       `json:"together"` // they are laid together, on what is bought at once
	Saves    cost.Money `json:"saves"`    // that does, over all orders; nothing where they are laid apart
	Bought   float64    `json:"bought"`   // mm, laid together
	Apart    float64    `json:"apart"`    // mm, laid apart
	Why      string     `json:"why,omitempty"`

	Laid plan.Laid `json:"-"` // together
}

// joint is several jobs as they are laid and bought for.
type joint struct {
	options Options
	gowns   []Gown
	makers  []*maker // of each gown, its cloths laid by itself
	all     *job.Job // what suppliers, money and counting all gowns have in common
	notions []bought
	whose   [][]string // the gowns that each of the notions is for
	cloths  []clothOf
	groups  []*group
	tried   map[string]plan.Laid
	weighed map[string]weighed // by which groups are laid together
	notes   []string
}

// clothOf is a cloth of one gown as it is laid by itself, under an id that no other has.
type clothOf struct {
	gown  int
	laid  plan.Laid
	group *group // with which others share it; nil for none
}

// Together lays several jobs and says what to buy for all of them: one order a supplier, with bolts, price breaks and
// free shipping reckoned over all. A cloth that several are cut from is laid for them together where that costs less.
// Nothing on a shelf is used twice. Errors about a job are a strict.Errors.
func Together(ctx context.Context, gowns []Gown, o Options) (*Joint, error) {
	j := &joint{options: o, gowns: gowns, tried: map[string]plan.Laid{}, weighed: map[string]weighed{}}
	return j.shop(ctx)
}

func (j *joint) shop(ctx context.Context) (*Joint, error) {
	if err := j.common(); err != nil {
		return nil, err
	}
	if err := j.layApart(ctx); err != nil {
		return nil, err
	}
	if err := j.joinNotions(); err != nil {
		return nil, err
	}
	j.group()
	j.layTogether(ctx)
	best, err := j.best(ctx)
	if err != nil {
		return nil, err
	}
	return j.list(ctx, best)
}

// common finds what all jobs have in common, and refuses jobs that cannot be bought for at once.
func (j *joint) common() error {
	if len(j.gowns) > MostGowns {
		return say.Errorf("%d jobs are more than the %d that are shopped for at once", len(j.gowns), MostGowns)
	}
	first := j.gowns[0].Job
	j.all = &job.Job{File: first.File, Unit: j.options.Unit, Currency: first.Currency}
	j.all.Terms.Owned = first.Terms.Owned
	for _, g := range j.gowns {
		if g.Job.Currency != first.Currency {
			return say.Errorf("the prices of %s are in %s, those of %s in %s", g.Job.File, g.Job.Currency, first.File,
				first.Currency).Hint("shop for them apart: nothing is converted")
		}
		for _, one := range g.Job.Suppliers {
			k := slices.IndexFunc(j.all.Suppliers, func(s job.Supplier) bool { return s.Name == one.Name })
			if k < 0 {
				j.all.Suppliers = append(j.all.Suppliers, one)
			} else if j.all.Suppliers[k].Supplier != one.Supplier {
				return say.Errorf("supplier `%s` of %s has other shipping or tax than in a job before it", one.Name,
					g.Job.File).Hint("say the same of a supplier in all jobs, best in one file of `rates`")
			}
		}
	}
	if n := len(j.all.Suppliers); n > mostSuppliers {
		return say.Errorf("%d suppliers over all jobs, at most %d are weighed at once", n, mostSuppliers).
			Hint("shop for fewer jobs at once")
	}
	return nil
}

// layApart lays every gown by itself, each on what those before it leave on the shelf.
func (j *joint) layApart(ctx context.Context) error {
	taken := map[string]bool{}
	ids := map[string]bool{}
	for i, g := range j.gowns {
		o := j.options
		o.Check = Check(o)
		one := *g.Job
		one.Cloths = slices.Clone(one.Cloths)
		for k, c := range one.Cloths {
			one.Cloths[k].Have = slices.DeleteFunc(slices.Clone(c.Have),
				func(h job.Have) bool { return taken[leftoverKey(c, h)] })
		}
		within, done := plan.InTurn(ctx, len(j.gowns)-i+1) // one more for what is laid together
		laid, err := plan.Lay(within, &one, o.Options)
		done()
		if i > 0 && errors.Is(err, plan.ErrInterrupted) { // those before it are there to keep
			lapsed, done := plan.Lapsed(ctx)
			laid, err = plan.Lay(lapsed, &one, o.Options)
			done()
		}
		if err != nil {
			return err
		}
		m := newMaker(&one, o)
		m.laid, m.tried = laid, j.tried
		if err := m.count(); err != nil {
			return err
		}
		j.makers = append(j.makers, m)
		for _, l := range laid {
			for _, h := range usedLeftovers(l) {
				taken[leftoverKey(l.Task.Spread.Cloth, h)] = true
			}
			c := &l.Task.Spread.Cloth
			c.ID = unlike(ids, c.ID)
			j.cloths = append(j.cloths, clothOf{gown: i, laid: l})
		}
	}
	return nil
}

// unlike returns an id that is not among those taken, and takes it.
func unlike(taken map[string]bool, id string) string {
	one := id
	for n := 2; taken[one]; n++ {
		one = fmt.Sprintf("%s-%d", id, n)
	}
	taken[one] = true
	return one
}

// usedLeftovers are the leftovers that a layout lies on.
func usedLeftovers(l plan.Laid) []job.Have {
	var used []job.Have
	if l.Shelf == nil {
		return nil
	}
	for _, cut := range l.Shelf.Cuts {
		for _, h := range l.Task.Spread.Cloth.Have {
			if h.Name == cut.Name {
				used = append(used, h)
			}
		}
	}
	return used
}

// leftoverKey is equal for two leftovers that are the same thing on the shelf.
func leftoverKey(c job.Cloth, h job.Have) string {
	return fmt.Sprintf("%s\x00%s\x00%v\x00%v", cmp.Or(c.From, c.Title), h.Name, h.Length, h.Width)
}
