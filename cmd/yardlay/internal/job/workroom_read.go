package job

import (
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// workroom reads the whole book.
func (r *reader) workroom(root *strict.Value) *Workroom {
	t := r.table(root, "the workroom", roomKeys)
	w := &Workroom{File: r.File, root: root}
	w.Unit = r.jobUnit(t)
	w.Currency = r.currency(t)
	r.money = w.Currency
	w.PricesHold = t.Count("prices_hold", usualHold)
	w.rates = r.sharedRates(t, mostRoomSuppliers)
	for i, n := range t.List("cloth", mostRoomCloths, "") {
		c := r.table(n, label("cloth", "", i), roomClothKeys)
		w.Cloths = append(w.Cloths, c.cloth(i, 0))
		c.Finish()
	}
	strict.Distinct(r.Reader, w.Cloths, "cloth", "an id", func(c Cloth) (string, strict.Position) { return c.ID, c.At })
	r.known(w.rates.suppliers, w.Cloths, w.rates.notions)
	for i, n := range t.List("person", mostPeople, "") {
		w.People = append(w.People, r.person(n, i))
	}
	strict.Distinct(r.Reader, w.People, "person", "a name",
		func(p Person) (string, strict.Position) { return p.Name, p.At })
	for i, n := range t.List("leftover", mostLeftovers, "take out those that are gone") {
		w.Leftovers = append(w.Leftovers, r.leftover(n, i, w))
	}
	strict.Distinct(r.Reader, w.Leftovers, "leftover", "a name",
		func(l Leftover) (string, strict.Position) { return l.Name, l.At })
	for i, n := range t.List("gown", mostGowns, "take out those of years ago") {
		w.Gowns = append(w.Gowns, r.gown(n, i))
	}
	strict.Distinct(r.Reader, w.Gowns, "gown", "a job", func(g Gown) (string, strict.Position) { return g.Job, g.At })
	t.Finish()
	return w
}

// person reads one [[person]].
func (r *reader) person(n *strict.Value, index int) Person {
	t := r.table(n, label("person", "", index), personKeys)
	p := Person{At: n.At}
	p.Name = t.named("person", index, &p.At)
	p.Unusual = t.Truth(unusualKey, false)
	days := map[Date]bool{}
	for i, n := range t.InlineTables("measured", measuredExample, mostMeasured) {
		m := t.within("measured", n, label("measuring", "", i)+" of "+t.Name)
		one := Measuring{On: m.mustDate("on"), Measures: map[string]float64{}, At: n.At}
		for _, k := range bodyMeasures {
			if mm, ok := m.Length(k.name); ok {
				one.Measures[k.name] = mm
				m.ask(Body{unusual: p.Unusual}, k.name, k.name, mm)
			}
		}
		if days[one.On] {
			m.Fail(m.Field("on").Value.At, "one table for a day, with all that was taken on it",
				"%s: `on` is the day of another one", m.Name)
		}
		days[one.On] = !one.On.IsZero()
		m.Finish()
		p.Measured = append(p.Measured, one)
	}
	slices.SortStableFunc(p.Measured, func(a, b Measuring) int { return a.On.DaysSince(b.On) })
	t.Finish()
	return p
}

const measuredExample = `{ on = ` + dateExample + `, waist_girth = "27 1/2" }`

// gown reads one [[gown]].
func (r *reader) gown(n *strict.Value, index int) Gown {
	t := r.table(n, label("gown", n.TextOf("job"), index), gownKeys)
	g := Gown{At: n.At}
	if !t.Has("job") {
		t.Need("job", `the name of its file: job = "lantern.toml"`)
	} else if name, ok := t.jobFile("job"); ok {
		g.Job, g.At = name, t.Field("job").Value.At
	}
	g.Ordered, g.Deliver = t.date("ordered"), t.date("deliver")
	if !g.Deliver.IsZero() && g.Deliver.Before(g.Ordered) {
		t.Fail(t.Field("deliver").Value.At, "the day it has to be ready",
			"%s is to be delivered %s, before it was ordered %s", t.Name, g.Deliver, g.Ordered)
	}
	g.Fittings = t.dates("fittings", mostFitted)
	var priced, due bool
	g.Price, priced = t.amount("price")
	g.Deposit, due = t.amount("deposit")
	if priced && due && g.Deposit.Minor > g.Price.Minor {
		t.Fail(t.Field("deposit").Value.At, "the part of the price that is due first",
			"%s has a deposit of %s, more than its price of %s", t.Name, g.Deposit, g.Price)
	}
	for i, n := range t.InlineTables("paid", `{ on = 2026-10-02, amount = "400.00" }`, mostPaid) {
		p := t.within("paid", n, label("payment", "", i)+" of "+t.Name)
		one := Payment{On: p.mustDate("on")}
		if one.Amount, _ = p.amount("amount"); !p.Has("amount") {
			p.Need("amount", `what was paid: amount = "400.00"`)
		}
		p.Finish()
		g.Paid = append(g.Paid, one)
	}
	g.Cut, g.Took = t.cut(), t.took()
	t.Finish()
	return g
}

// cut reads that a gown was cut; nil where it was not.
func (t *table) cut() *WasCut {
	c := t.sub("cut", "[gown.cut] of "+t.Name, "{ on = "+dateExample+" }")
	if c == nil {
		return nil
	}
	cut := &WasCut{On: c.mustDate("on"), At: c.Value.At}
	cut.Before, _, _ = c.Text("before")
	for i, n := range c.InlineTables("cloths", `{ cloth = "satin", length = "4 1/2 yd" }`, maxCloths) {
		one := c.within("cloths", n, label("cloth", n.TextOf("cloth"), i)+" of "+c.Name)
		cloth := ClothCut{Cloth: one.must("cloth", "the id of the cloth"), Length: one.LengthOr("length", 0)}
		cloth.Lot, _, _ = one.Text("lot")
		cloth.Used, cloth.Left = one.texts("used", mostHave), one.texts("left", mostLeft)
		one.Finish()
		cut.Cloths = append(cut.Cloths, cloth)
	}
	c.Finish()
	return cut
}

// took reads what a gown took; nil where that is not told.
func (t *table) took() *Took {
	k := t.sub("took", "[gown.took] of "+t.Name, "{ on = "+dateExample+", hours = 21 }")
	if k == nil {
		return nil
	}
	took := &Took{On: k.mustDate("on"), At: k.Value.At}
	took.Hours, _ = k.Decimal("hours", "21")
	took.PlannedHours, _ = k.Decimal("planned_hours", "18.5")
	for i, n := range k.InlineTables("cloths", `{ cloth = "satin", length = "4 3/4 yd" }`, maxCloths) {
		one := k.within("cloths", n, label("cloth", n.TextOf("cloth"), i)+" of "+k.Name)
		cloth := ClothTook{Cloth: one.must("cloth", "the id of the cloth")}
		cloth.Planned, cloth.Length = one.LengthOr("planned", 0), one.LengthOr("length", 0)
		cloth.Price, cloth.Per = one.pricePaid()
		one.Finish()
		took.Cloths = append(took.Cloths, cloth)
	}
	k.Finish()
	return took
}

// pricePaid reads a price by length; without a currency where there is none.
func (t *table) pricePaid() (cost.Money, measure.Unit) {
	text, at, ok := t.Text("price")
	if !ok {
		return cost.Money{}, 0
	}
	price, per, err := cost.ParsePrice(text, t.money)
	if err != nil {
		t.Fail(at, priceHint, "`price`: %v", err)
	}
	return price, per
}

// must reads a text that has to be given.
func (t *table) must(key, what string) string {
	if !t.Has(key) {
		t.Need(key, what+": "+key+" = "+t.kind(key).Example)
	}
	text, _, _ := t.Text(key)
	return text
}

// texts reads a list of texts.
func (t *table) texts(key string, most int) []string {
	f := t.Field(key)
	if f == nil {
		return nil
	}
	example := t.kind(key).Example
	if f.Value.Kind != strict.KindList {
		t.Wrong(key, f.Value, "a list of texts", example)
		return nil
	}
	var all []string
	for _, item := range f.Value.Items {
		if item.Kind != strict.KindText || strings.TrimSpace(item.Text) == "" {
			t.Wrong(key, item, "a list of texts", example)
			return nil
		}
		all = append(all, item.Text)
	}
	if len(all) > most {
		t.Fail(f.Value.At, "", "`%s` lists %d, at most %d", key, len(all), most)
	}
	return all
}

// jobFile reads the name of a job beside the book.
func (t *table) jobFile(key string) (name string, ok bool) {
	name, at, ok := t.Text(key)
	if ok && strings.ContainsAny(name, `/\`) || name == "." || name == ".." {
		t.Fail(at, "its jobs stand beside it: "+key+` = "lantern.toml"`, "`%s` is %q, not a file in the workroom",
			key, name)
		return "", false
	}
	return name, ok
}
