package job

import (
	"fmt"
	"slices"

	"yardlay/shapes/measure"
)

// Lay says how a cloth is spread for cutting.
type Lay string

// The lays. A double fold has both selvedges brought to the middle, so that
// both edges are folds.
const (
	Open           Lay = "open"
	LengthwiseFold Lay = "lengthwise-fold"
	CrosswiseFold  Lay = "crosswise-fold"
	DoubleFold     Lay = "double-fold"
)

// lay reads how the cloth is spread, and whether the upper layer is turned.
func (t *table) lay() (lay Lay, turnUpper bool) {
	lay = Lay(t.choice("lay", string(Open), string(LengthwiseFold), string(CrosswiseFold), string(DoubleFold)))
	turnUpper = t.truth("upper_turned", false)
	if turnUpper && lay != CrosswiseFold {
		t.fail(t.field("upper_turned").value.at, `only lay = "crosswise-fold" has an upper layer that points the other way and can be turned back`,
			"`upper_turned` on a lay that is %s", lay)
		turnUpper = false
	}
	return lay, turnUpper
}

// mostWidths is the most places a bolt is measured across at: every yard of it.
const mostWidths = 100

// widths reads the width of a cloth, or a list of widths measured along the
// bolt. The smallest counts; it is 0 when one of them is missing or wrong.
func (t *table) widths() (smallest float64, all []float64) {
	f := t.field("width")
	if f == nil || f.value.kind != kindList {
		smallest = t.mustLength("width", "58")
		return smallest, []float64{smallest}
	}
	items := f.value.items
	if len(items) == 0 || len(items) > mostWidths {
		t.fail(f.value.at, `for example width = ["58", "57 1/2", "57 3/4"]`, "`width` lists %d widths, from 1 to %d", len(items), mostWidths)
		return 0, nil
	}
	for _, item := range items {
		mm, ok := t.lengthOf("width", item, measure.ParsePositive)
		if !ok {
			return 0, nil
		}
		all = append(all, mm)
	}
	return slices.Min(all), all
}

// usable refuses selvedges that leave nothing of the width.
func (t *table) usable(c Cloth) {
	if c.Width > 0 && c.Usable() <= 0 {
		t.fail(t.field("selvedge").value.at, "`selvedge` is the strip along one edge, for example 1/2 in",
			"two selvedges of %s leave nothing of a cloth %s wide", t.show(c.Selvedge), t.show(c.Width))
	}
}

// show prints a length in the job's unit.
func (r *reader) show(mm float64) string { return measure.Format(mm, r.unit) }

// inlineTables reads a list of tables in brackets, or [[key]] tables.
func (t *table) inlineTables(key, example string, most int) []*node {
	f := t.field(key)
	if f == nil {
		return nil
	}
	if f.value.kind != kindList {
		t.wrong(key, f.value, "a list of tables in brackets", "[ "+example+" ]")
		return nil
	}
	items := f.value.items
	if len(items) > most {
		t.fail(f.value.at, fmt.Sprintf("at most %d", most), "`%s` lists %d", key, len(items))
		return nil
	}
	var tables []*node
	for _, item := range items {
		if item.kind != kindTable {
			t.fail(item.at, "for example "+key+" = [ "+example+" ]", "`%s` lists tables, not %s", key, item.kind)
			continue
		}
		tables = append(tables, item)
	}
	return tables
}
