package quote

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// good is one thing to buy, as every supplier of it would sell it.
type good struct {
	cost.Goods
	cloth     int             // index of the laid cloth; -1 of a notion
	purchases []cost.Purchase // of a cloth, one a choice
	offers    []cost.Offer    // likewise
	item      bought          // of a notion
}

// sourced is what is bought where.
type sourced struct {
	suppliers []cost.Supplier
	goods     []good
	orders    cost.Orders
	laid      []plan.Laid
	metric    bool // lengths are shown so
	notes     []string
	many      bool // things for many gowns: the cheapest orders found are taken
	untold    bool // whether they are the cheapest there are
}

// cheapest finds the orders that cost least.
func (s *sourced) cheapest(currency string) (err error) {
	if !s.many {
		s.orders, err = cost.Cheapest(currency, s.suppliers, s.plain())
		return err
	}
	var told bool
	s.orders, told, err = cost.CheapestFound(currency, s.suppliers, s.plain())
	s.untold = !told
	return err
}

// nameless is the counter without a name, which ships nothing.
const nameless = 0

// source finds the cheapest way to buy what is laid and the notions.
func (m *maker) source(ctx context.Context) (sourced, error) {
	s := sourced{suppliers: []cost.Supplier{{}}, laid: m.laid, metric: m.options.Unit.Metric(),
		many: m.many}
	for _, one := range m.job.Suppliers {
		s.suppliers = append(s.suppliers, one.Supplier)
	}
	for i, l := range m.laid {
		c := l.Task.Spread.Cloth
		if !c.Priced || l.Needed == 0 {
			continue
		}
		g, err := m.cloth(ctx, s, i)
		if err != nil {
			return s, say.Errorf("cloth `%s`: %w", c.ID, err)
		}
		s.goods = append(s.goods, g)
	}
	for _, n := range m.notions {
		if n.none() {
			continue
		}
		g := good{cloth: -1, item: n, Goods: cost.Goods{Name: n.notion.Name, Kind: cost.KindNotion}}
		g.Choices = []cost.Choice{{Supplier: s.index(n.notion.Supplier), Cost: n.Cost}}
		s.goods = append(s.goods, g)
	}
	if err := s.cheapest(m.job.Currency); err != nil {
		return s, err
	}
	return s.withMore(m.job.Currency)
}

// withMore buys more of a cloth than is needed where that brings free shipping and
// costs less in all. Where there are too many ways to tell, nothing more is bought.
func (s sourced) withMore(currency string) (sourced, error) {
	more := s
	more.goods = slices.Clone(s.goods)
	for i := range more.goods {
		more.goods[i] = s.longer(s.goods[i])
	}
	err := more.cheapest(currency)
	switch {
	case errors.Is(err, cost.ErrTooManyWays):
		return s, nil
	case err != nil:
		return s, err
	case more.orders.Total.Minor >= s.orders.Total.Minor:
		return s, nil
	}
	for i, g := range more.goods {
		if p := more.chosenPurchase(i); g.cloth >= 0 && more.orders.Choice[i] >= len(s.goods[i].Choices) {
			from := s.suppliers[g.Choices[more.orders.Choice[i]].Supplier].Name
			more.notes = append(more.notes,
				fmt.Sprintf("%s: %s is bought, more than is needed, so that %s ships for nothing.",
					g.Name, g.offers[more.orders.Choice[i]].InWords(p), from))
		}
	}
	more.notes = append(more.notes, fmt.Sprintf("With free shipping the orders come to %v, without it to %v.",
		more.orders.Total, s.orders.Total))
	return more, nil
}

// longer adds to the choices of a cloth longer cuts at suppliers that ship for nothing
// from some sum on, up to what their shipping costs.
func (s sourced) longer(g good) good {
	if g.cloth < 0 {
		return g
	}
	g.Choices, g.purchases, g.offers = slices.Clone(g.Choices), slices.Clone(g.purchases), slices.Clone(g.offers)
	for k, c := range slices.Clone(g.Choices) {
		seller := s.suppliers[c.Supplier]
		if seller.Shipping.Minor == 0 || seller.FreeFrom == (cost.Money{}) {
			continue
		}
		for _, p := range g.offers[k].Longer(g.purchases[k], seller.Shipping) {
			g.Choices = append(g.Choices, cost.Choice{Supplier: c.Supplier, Cost: p.Cost})
			g.purchases, g.offers = append(g.purchases, p), append(g.offers, g.offers[k])
		}
	}
	return g
}

// chosenPurchase is what is bought of a cloth among the goods.
func (s sourced) chosenPurchase(i int) cost.Purchase {
	if s.goods[i].cloth < 0 {
		return cost.Purchase{}
	}
	return s.goods[i].purchases[s.orders.Choice[i]]
}

// index finds a supplier, which the job has been asked for.
func (s sourced) index(name string) int {
	return max(nameless, slices.IndexFunc(s.suppliers, func(one cost.Supplier) bool { return one.Name == name }))
}

// plain are the goods as cost knows them.
func (s sourced) plain() []cost.Goods {
	all := make([]cost.Goods, len(s.goods))
	for i, g := range s.goods {
		all[i] = g.Goods
	}
	return all
}

// cloth asks every supplier of a cloth what the lengths cost that hold its pieces.
// Who sells nothing that would do is passed over, as long as somebody does.
func (m *maker) cloth(ctx context.Context, s sourced, i int) (good, error) {
	c := m.laid[i].Task.Spread.Cloth
	g := good{Goods: cost.Goods{Name: c.Title, Kind: cost.KindCloth}, cloth: i}
	var bad error
	for _, o := range c.Offers {
		p, err := m.purchase(ctx, i, o.Offer)
		if err != nil {
			bad = err
			continue
		}
		g.Choices = append(g.Choices, cost.Choice{Supplier: s.index(o.Supplier), Cost: p.Cost})
		g.purchases, g.offers = append(g.purchases, p), append(g.offers, o.Offer)
	}
	if len(g.Choices) == 0 {
		return g, bad
	}
	return g, nil
}

// purchase is what is bought of a cloth by an offer. Lengths of other suppliers may
// hold other pieces: then it is laid on those.
func (m *maker) purchase(ctx context.Context, i int, offer cost.Offer) (cost.Purchase, error) {
	l := m.laid[i]
	switch {
	case reflect.DeepEqual(offer, l.Task.Spread.Cloth.Offer):
		return l.Buy, nil
	case len(offer.Sizes()) == 0 && !l.Several():
		return offer.Buy(l.Needed)
	}
	l, err := m.layFor(ctx, i, offer)
	return l.Buy, err
}

// layFor lays a cloth for another offer than it was laid for, once.
func (m *maker) layFor(ctx context.Context, i int, offer cost.Offer) (plan.Laid, error) {
	task, err := m.laid[i].Task.SoldBy(m.job.ShownIn(m.options.Unit), offer)
	if err != nil {
		return plan.Laid{}, err
	}
	key := task.Key()
	if l, ok := m.tried[key]; ok {
		return l, nil
	}
	l, err := plan.Do(ctx, task, m.options.Options, task.OpenStart(m.laid[i]))
	if err != nil {
		return l, say.Errorf("cloth `%s`: %w", task.Spread.Cloth.ID, err)
	}
	if was := m.laid[i]; l.Lengths == nil && was.Lengths == nil && l.Needed > was.Needed {
		l = was // cut short by a ceiling: the layout at hand is the better one
		l.Task.Spread.Cloth.Offer = offer
	}
	if m.tried == nil {
		m.tried = map[string]plan.Laid{}
	}
	m.tried[key] = l
	return l, nil
}

// mostRounds bounds how often the choice of suppliers may change what is laid.
const mostRounds = 4

// settle lays cloths anew that are bought at another counter than they were laid
// for: its step decides which length is worth searching for. That may change the
// choice again, so it goes on until nothing changes.
func (m *maker) settle(ctx context.Context) (sourced, error) {
	for round := 0; ; round++ {
		s, err := m.source(ctx)
		if err != nil {
			return s, err
		}
		again := s.elsewhere()
		if len(again) == 0 || round == mostRounds || ctx.Err() != nil {
			return s, nil
		}
		m.laid = slices.Clone(m.laid)
		for i := range m.laid {
			if offer, ok := again[i]; ok {
				if m.laid[i], err = m.layFor(ctx, i, offer); err != nil {
					return s, err
				}
			}
		}
	}
}

// elsewhere returns the offers of cloths that are bought by another one than they
// were laid for, by the index of the cloth.
func (s sourced) elsewhere() map[int]cost.Offer {
	again := map[int]cost.Offer{}
	for i, g := range s.goods {
		if g.cloth < 0 {
			continue
		}
		o := g.offers[s.orders.Choice[i]]
		if !reflect.DeepEqual(o, s.laid[g.cloth].Task.Spread.Cloth.Offer) {
			again[g.cloth] = o
		}
	}
	return again
}

// chosen returns the offer a cloth is bought by, or would be; ok when it has one.
func (s sourced) chosen(cloth int) (o cost.Offer, ok bool) {
	for i, g := range s.goods {
		if g.cloth == cloth {
			return g.offers[s.orders.Choice[i]], true
		}
	}
	c := s.laid[cloth].Task.Spread.Cloth
	return c.Offer, c.Priced
}

// per is the unit of the counter that a cloth is bought at; of all else, yards or
// metres, as the job counts.
func (s sourced) per(id string) measure.Unit {
	for i, l := range s.laid {
		if l.Task.Spread.Cloth.ID == id {
			o, _ := s.chosen(i)
			return o.Per
		}
	}
	if s.metric {
		return measure.Metre
	}
	return measure.Yard
}

// list describes the orders.
func (s sourced) list() []Order {
	list := []Order{}
	for _, o := range s.orders.Orders {
		order := Order{Supplier: s.suppliers[o.Supplier].Name, Goods: o.Cost, Tax: o.Tax,
			Shipping: o.Shipping, Total: o.Total}
		for _, money := range []*cost.Money{&order.Tax, &order.Shipping} {
			money.Currency = o.Total.Currency
		}
		for _, i := range o.Goods {
			order.Items = append(order.Items, s.item(i))
		}
		list = append(list, order)
	}
	return list
}

// item describes one of the goods as it is bought.
func (s sourced) item(i int) Item {
	g, choice := s.goods[i], s.orders.Choice[i]
	if g.cloth < 0 {
		return g.item.describe()
	}
	c, p := s.laid[g.cloth].Task.Spread.Cloth, g.purchases[choice]
	item := Item{
		ID: c.ID, Name: c.Title, Kind: cost.KindCloth, Width: c.Width, NeededLength: p.Used, BoughtLength: p.Bought,
		Leftover: p.Leftover, Reason: p.Reason, Cost: p.Cost, words: report.PurchaseWords(g.offers[choice], p),
	}
	if c.Spare > 0 {
		item.Spare = fmt.Sprintf("%.4g %%", 100*c.Spare)
	}
	item.Quantity, item.Price = parts(p, g.offers[choice].Per)
	return item
}

// parts says what a purchase is made of, and at which prices.
func parts(p cost.Purchase, per measure.Unit) (quantity, price string) {
	var what, at []string
	for _, part := range p.Parts {
		switch length := measure.BothUp(part.Length, per); {
		case part.Bolt && part.Count == 1:
			what, at = append(what, "1 bolt of "+measure.FormatUp(part.Length, per)), append(at,
				part.Price.Amount()+"/bolt")
		case part.Bolt:
			what = append(what, fmt.Sprintf("%d bolts of %s", part.Count, measure.FormatUp(part.Length, per)))
			at = append(at, part.Price.Amount()+"/bolt")
		default:
			what, at = append(what, length), append(at, part.Price.Amount()+"/"+per.String())
		}
	}
	return strings.Join(what, " and "), strings.Join(at, " and ")
}

// lines are the orders as lines of a quote, with what the maker wants to know.
func (s sourced) lines() []cost.Line {
	lines := s.orders.Lines(s.suppliers, s.plain())
	k := 0
	for _, o := range s.orders.Orders {
		from := from(s.suppliers[o.Supplier].Name)
		for _, i := range o.Goods {
			item := s.item(i)
			lines[k].Detail = item.Quantity + " at " + item.Price + from
			k++
		}
		for ; k < len(lines) && lines[k].Kind == cost.KindSupply; k++ {
			lines[k].Detail = strings.TrimPrefix(from, " from ")
		}
	}
	return lines
}

// from names a supplier at the end of a detail.
func from(supplier string) string {
	if supplier == "" {
		return ""
	}
	return " from " + supplier
}
