package job

import (
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
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

// turnUpper reads whether the upper layer of a lay is turned.
func (t *table) turnUpper(lay Lay) bool {
	turn := t.Truth("upper_turned", false)
	if turn && lay != CrosswiseFold {
		t.Fail(t.Field("upper_turned").Value.At,
			`only lay = "crosswise-fold" has an upper layer that points the other way and can be turned back`,
			"`upper_turned` on a lay that is %s", lay)
		return false
	}
	return turn
}

// mostWidths is the most places a bolt is measured across at: every yard of it.
const mostWidths = 100

// widths reads the width of a cloth, or a list of widths measured along the
// bolt. The smallest counts; it is 0 when one of them is missing or wrong.
func (t *table) widths() (smallest float64, all []float64) {
	f := t.Field("width")
	if f == nil || f.Value.Kind != strict.KindList {
		if f == nil && t.Has(fromKey) {
			return 0, nil // the cloth of the workroom that is not there would have it
		}
		smallest = t.MustLength("width", "58")
		return smallest, []float64{smallest}
	}
	items := f.Value.Items
	if len(items) == 0 || len(items) > mostWidths {
		t.Fail(f.Value.At, `for example width = ["58", "57 1/2", "57 3/4"]`, "`width` lists %d widths, from 1 to %d",
			len(items), mostWidths)
		return 0, nil
	}
	for _, item := range items {
		mm, ok := t.LengthOf("width", item)
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
		t.Fail(t.Field("selvedge").Value.At, "`selvedge` is the strip along one edge, for example 1/2 in",
			"two selvedges of %s leave nothing of a cloth %s wide", t.Show(c.Selvedge), t.Show(c.Width))
	}
}
