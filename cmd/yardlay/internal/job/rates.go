package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"yardlay/cost"
)

// rates is what a shared rates file says: what a job need not say again.
type rates struct {
	labour    Labour
	terms     Terms
	suppliers []Supplier
	notions   []Notion
}

// shared reads the rates file that the job names, if it names one. Errors in it
// stand at their places in that file.
func (r *reader) shared(t *table, currency string) rates {
	var none rates
	name, at, ok := t.text("rates", `"rates.toml"`)
	if !ok {
		return none
	}
	path := name
	if !filepath.IsAbs(name) {
		path = filepath.Join(filepath.Dir(r.file), name)
	}
	src, err := readWhole(path)
	if err != nil {
		r.noRate = true
		t.fail(at, "it is looked for beside the job file", "the rates file: %v", err)
		return none
	}
	in := &reader{file: path, unit: r.unit, money: currency}
	root, bad := readTree(bytes.TrimPrefix(src, []byte("\ufeff")))
	if bad != nil {
		bad.File = path
		r.errors = append(r.errors, bad)
		return none
	}
	found := in.rates(root)
	r.errors = append(r.errors, in.told()...)
	return found
}

// readWhole reads a plain file that is no longer than a job.
func readWhole(path string) ([]byte, error) {
	info, err := os.Stat(path)
	var at *fs.PathError
	switch {
	case errors.As(err, &at):
		return nil, fmt.Errorf("%s: %w", path, at.Err)
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is no plain file", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	src, err := io.ReadAll(io.LimitReader(f, MaxFile+1))
	if len(src) > MaxFile {
		return nil, fmt.Errorf("%s is longer than %d bytes", path, MaxFile)
	}
	return src, err
}

// rates reads a whole rates file. Its bare lengths count in its own unit, or in
// the job's; its prices must be in the job's currency.
func (r *reader) rates(root *node) (found rates) {
	t := r.table(root, "the rates file")
	if t.has("unit") {
		r.jobUnit(t)
	}
	if code, at, ok := t.text("currency", `"EUR"`); ok && code != r.money {
		t.fail(at, "amounts are not converted: a rates file serves jobs of one currency", "the rates are in %s and the job in %s", code, r.money)
		return found
	}
	found.labour = t.labour(Labour{}, r.money)
	found.terms = t.quoteTerms(Terms{}, r.money)
	found.suppliers = r.suppliers(t, r.money, nil)
	for i, n := range t.list("notion", mostNotions, "") {
		found.notions = append(found.notions, r.notion(n, i, Notion{}, nil))
	}
	distinct(r, found.notions, "notion", "a name", func(n Notion) (string, Position) { return n.Name, n.At })
	t.finish()
	return found
}

// quoting reads all of a job that a quote is made of.
func (r *reader) quoting(t *table, j *Job) {
	shared := r.shared(t, j.Currency)
	j.Labour = t.labour(shared.labour, j.Currency)
	j.Terms = t.quoteTerms(shared.terms, j.Currency)
	j.Suppliers = r.suppliers(t, j.Currency, shared.suppliers)
	j.Notions = r.notions(t, j, shared.notions)
	r.known(j)
	l := j.Labour
	if (l.Hours > 0 || l.ByRates || l.Fittings > 0) && l.Rate == (cost.Money{}) && len(r.errors) == 0 {
		at := t.node.at
		if f := t.field("labour"); f != nil {
			at = f.at
		}
		r.fail(at, `what an hour of yours costs: rate = "24.00/h"`, "[labour] lacks `rate`")
	}
}
