package job

import (
	"errors"
	"path/filepath"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
)

// rates is what a shared rates file says: what a job need not say again.
type rates struct {
	labour    Labour
	terms     Terms
	suppliers []Supplier
	notions   []Notion
}

// shared reads the rates file that the job names; where it names none, those of the
// workroom, if that counts in the same currency. Errors in it stand at their places in
// that file.
func (r *reader) shared(t *table, currency string) (found rates, from string) {
	var none rates
	name, at, ok := t.Text("rates")
	switch {
	case ok:
	case !t.Has("rates") && r.room != nil && r.room.Currency == currency:
		return r.room.rates, r.room.File
	default:
		return none, ""
	}
	path := name
	if !filepath.IsAbs(name) {
		path = filepath.Join(filepath.Dir(r.File), name)
	}
	root, err := r.disk.rates.of(path, r.disk.parse)
	var bad *strict.Error
	switch {
	case errors.As(err, &bad):
		r.Errors = append(r.Errors, bad)
		return none, path
	case err != nil:
		r.noRate = true
		t.Fail(at, "it is looked for beside the job file", "the rates file: %v", err)
		return none, path
	}
	in := newReader(path, r.Unit, currency)
	found = in.rates(root)
	r.Errors = append(r.Errors, in.Told()...)
	return found, path
}

// rates reads a whole rates file. Its bare lengths count in its own unit, or in
// the job's; its prices must be in the job's currency.
func (r *reader) rates(root *strict.Value) (found rates) {
	t := r.table(root, "the rates file", fileKeys)
	if t.Has("unit") {
		r.jobUnit(t)
	}
	if code, at, ok := t.Text("currency"); ok && code != r.money {
		t.Fail(at, "amounts are not converted: a rates file serves jobs of one currency",
			"the rates are in %s and the job in %s", code, r.money)
		return found
	}
	found = r.sharedRates(t, mostSuppliers)
	t.Finish()
	return found
}

// sharedRates reads what a file says for several jobs.
func (r *reader) sharedRates(t *table, suppliers int) (found rates) {
	found.labour = t.labour(Labour{})
	found.terms = t.quoteTerms(Terms{})
	found.suppliers = r.suppliers(t, suppliers)
	for i, n := range t.List("notion", mostNotions, "") {
		found.notions = append(found.notions, r.notion(n, i, Notion{}, nil))
	}
	strict.Distinct(r.Reader, found.notions, "notion", "a name",
		func(n Notion) (string, strict.Position) { return n.Name, n.At })
	return found
}

// quoting reads all of a job that a quote is made of.
func (r *reader) quoting(t *table, j *Job) {
	shared, from := r.shared(t, j.Currency)
	j.RatesFrom = from
	j.Labour = t.labour(shared.labour)
	j.Terms = t.quoteTerms(shared.terms)
	j.Notions = r.notions(t, j, shared.notions)
	j.Suppliers = r.ordersFrom(t, j, shared.suppliers)
	r.known(j.Suppliers, j.Cloths, j.Notions)
	l := j.Labour
	if (l.Hours > 0 || l.ByRates || l.Fittings > 0) && l.Rate == (cost.Money{}) && len(r.Errors) == 0 {
		at := t.Value.At
		if f := t.Field("labour"); f != nil {
			at = f.At
		}
		r.Fail(at, `what an hour of yours costs: rate = "24.00/h"`, "[labour] lacks `rate`")
	}
}
