package quote

import (
	"context"
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// list writes out the best way to buy for all gowns.
func (j *joint) list(ctx context.Context, best weighed) (*Joint, error) {
	s := best.sourced
	l := &Joint{List: List{Currency: j.all.Currency, Gowns: len(j.gowns), Orders: s.list(), Total: s.orders.Total,
		Unit: j.options.Unit, per: s.per}, PerGown: []Takes{}, Shared: []Shared{}}
	for o, order := range s.orders.Orders {
		for i, g := range order.Goods {
			l.Orders[o].Items[i].For = j.whoseGood(s, best, g)
		}
	}
	var err error
	best.maker.laid = s.laid
	if l.Shelf, err = best.maker.shelf(s); err != nil {
		return nil, err
	}
	j.shelfFor(l.Shelf, best)
	if err := j.perGown(ctx, l); err != nil {
		return nil, err
	}
	j.shared(ctx, l, best)
	l.Cloths = j.laidCloths(best)
	l.Notes = slices.Concat(best.maker.notes(), j.notes, s.notes)
	if s.untold {
		l.Notes = append(l.Notes, "So much is bought that not all ways to reach free shipping were weighed: other orders "+
			"may cost less.")
	}
	for _, o := range l.Orders {
		for _, i := range o.Items {
			if i.words != "" {
				l.Notes = append(l.Notes, i.Name+": "+i.words)
			}
		}
	}
	var spreads []plan.Spread
	for _, one := range s.laid {
		spreads = append(spreads, one.Task.Spread)
	}
	l.Cautions = report.Cautions(spreads)
	return l, nil
}

// laidCloths are the cloths as they are laid, with the gowns of each.
func (j *joint) laidCloths(best weighed) []JointCloth {
	var all []JointCloth
	for i, c := range j.cloths {
		k := slices.Index(j.groups, c.group)
		together := k >= 0 && best.together[k]
		if together && c.group.cloths[0] != i {
			continue
		}
		cloths := []int{i}
		if together {
			cloths = c.group.cloths
		}
		l := JointCloth{Laid: best.sourced.laid[len(all)]}
		var needed []float64
		for _, one := range cloths {
			l.Gowns, l.IDs = append(l.Gowns, j.cloths[one].gown), append(l.IDs, j.calledInJob(one))
			needed = append(needed, j.cloths[one].laid.Needed)
		}
		l.Shares = shares(l.Laid.Buy.Bought, needed)
		all = append(all, l)
	}
	return all
}

// shares divides a length by what is needed, in tenths of mm; the first has what is over.
func shares(bought float64, needed []float64) []float64 {
	sum := 0.0
	for _, n := range needed {
		sum += n
	}
	all, rest := make([]float64, len(needed)), bought
	for i := len(needed) - 1; i > 0; i-- {
		all[i] = math.Floor(10*bought*needed[i]/max(sum, 1)+measure.Guard) / 10
		rest -= all[i]
	}
	all[0] = rest
	return all
}

// whoseGood names the gowns that one of the goods is for.
func (j *joint) whoseGood(s sourced, w weighed, good int) []string {
	g := s.goods[good]
	if g.cloth >= 0 {
		return w.whose[g.cloth]
	}
	k := slices.IndexFunc(j.notions, func(b bought) bool { return sameNotion(b, g.item) })
	return j.whose[k]
}

// shelfFor names the gowns that what is used from the shelf is for.
func (j *joint) shelfFor(owned []Owned, w weighed) {
	for i, o := range owned {
		for k, l := range w.sourced.laid {
			if o.ID != "" && l.Task.Spread.Cloth.ID == o.ID {
				owned[i].For = w.whose[k]
			}
		}
		for k, b := range j.notions {
			if o.ID == "" && b.notion.Name == o.Name {
				owned[i].For = j.whose[k]
			}
		}
	}
}

// perGown says what each gown takes, and what it would cost to buy for it by itself.
func (j *joint) perGown(ctx context.Context, l *Joint) (err error) {
	l.Apart = cost.Money{Currency: j.all.Currency}
	for i, m := range j.makers {
		s, err := m.settle(ctx)
		if err != nil {
			return err
		}
		g := j.gowns[i]
		t := Takes{Name: g.Name, Title: g.Job.Title, Due: g.Due.String(), What: []Take{}, Alone: s.orders.Total}
		for _, one := range s.laid {
			c := one.Task.Spread.Cloth
			if one.Needed > 0 {
				t.What = append(t.What, Take{Name: c.Title, Length: one.Needed, per: s.per(c.ID)})
			}
			for _, h := range usedLeftovers(one) {
				t.What = append(t.What, Take{Name: c.Title, Shelf: h.Name})
			}
		}
		for _, b := range m.notions {
			if !b.none() {
				t.What = append(t.What, take(b, s.per("")))
			}
		}
		l.PerGown = append(l.PerGown, t)
		if l.Apart, err = l.Apart.Add(t.Alone); err != nil {
			return err
		}
	}
	return nil
}

// take is what a gown takes of a notion.
func take(b bought, per measure.Unit) Take {
	t := Take{Name: b.notion.Name, per: per}
	if b.NeededCount > 0 {
		t.Count = b.NeededCount
	} else {
		t.Length = b.NeededLength
	}
	return t
}

// shared says of every cloth that several gowns are cut from whether it is laid together, and what that saves.
func (j *joint) shared(ctx context.Context, l *Joint, best weighed) {
	for k, g := range j.groups {
		first := j.cloths[g.cloths[0]].laid.Task.Spread.Cloth
		one := Shared{ID: first.ID, Name: first.Title, Gowns: j.gownsOf(g), Together: best.together[k], Why: g.why,
			Saves: cost.Money{Currency: l.Currency}, Bought: g.laid.Buy.Bought}
		for _, i := range g.cloths {
			one.Apart += j.cloths[i].laid.Buy.Bought
		}
		if one.Together {
			other := slices.Clone(best.together)
			other[k] = false
			if w := j.weigh(ctx, other); w.err == nil {
				one.Saves.Minor = w.total() - best.total()
			}
			at := slices.IndexFunc(best.sourced.laid,
				func(l plan.Laid) bool { return l.Task.Spread.Cloth.ID == first.ID })
			one.Laid = best.sourced.laid[at]
			one.Bought = one.Laid.Buy.Bought
		}
		l.Shared = append(l.Shared, one)
	}
}

// Ledger is the list as it is printed.
func (l Joint) Ledger() sheet.Ledger {
	p := l.List.Ledger()
	p.Title, p.Facts = "Shopping list for "+say.Count(len(l.PerGown), "gown"), nil
	entry := func(kind sheet.EntryKind, text string) {
		p.Lines = append(p.Lines, sheet.Entry{Kind: kind, Text: text})
	}
	for _, t := range l.PerGown {
		name := t.Name
		if t.Title != "" {
			name += ", " + t.Title
		}
		if t.Due != "" {
			name += ", to deliver " + t.Due
		}
		entry(sheet.EntryHead, "Takes: "+name)
		for _, w := range t.What {
			entry(sheet.EntryItem, w.words())
		}
	}
	p.Notes = slices.Concat(l.said(), p.Notes)
	return p
}

// words says how much of what it is.
func (t Take) words() string {
	switch {
	case t.Shelf != "":
		return "`" + t.Shelf + "` off the shelf, " + t.Name
	case t.Length > 0:
		return measure.FormatUp(t.Length, t.per) + ", " + t.Name
	}
	return fmt.Sprintf("%d, %s", t.Count, t.Name)
}

// said says what buying for all at once changes.
func (l Joint) said() []string {
	var notes []string
	for _, s := range l.Shared {
		who := say.InWords(s.Gowns, "and")
		switch together, apart := measure.FormatUp(s.Bought, l.per(s.ID)), measure.FormatUp(s.Apart, l.per(s.ID)); {
		case s.Together:
			notes = append(notes, fmt.Sprintf("%s: %s are laid together on %s, apart they take %s. That saves %v over all "+
				"orders.", s.Name, who, together, apart, s.Saves))
		case s.Why != "":
			notes = append(notes, fmt.Sprintf("%s: %s are laid apart, since together they cannot be: %s", s.Name, who,
				s.Why))
		default:
			notes = append(notes, fmt.Sprintf("%s: %s are laid apart, since laying them together saves nothing.", s.Name,
				who))
		}
	}
	if saved, err := l.Apart.Sub(l.Total); err == nil && saved.Minor != 0 {
		notes = append(notes, fmt.Sprintf("Bought for one gown after the other, the orders would come to %v: %v more.",
			l.Apart, saved))
	}
	return notes
}
