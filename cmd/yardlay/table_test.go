package main

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// A shelf's steps are told apart: those of the marker, and those that another use
// of the shelf might save.
func TestStepsOfAShelfAreToldApart(t *testing.T) {
	c := report.Cloth{ID: "velvet", Steps: 13, Shelf: &report.Shelf{}, ProvedAsShared: true}
	if got := c.CouldSave(); got != "nothing, as the shelf is used" {
		t.Error(got)
	}
	c.StepsAsShared, c.ProvedAsShared = 1, false
	c.Spread.Cloth.Offer.Per = measure.Yard
	if got := c.CouldSave(); got != "1/8 yd (0.12 m)" {
		t.Error(got)
	}
	var out strings.Builder
	layPrinter{&report.Report{Cloths: []report.Cloth{c}}, &out, usualColumns, false}.bounds()
	if got := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(got,
		"Another use of the shelf could save 1 5/8 yd (1.49 m) at most") {
		t.Error(got)
	}
}

// On a fold what is proved of its stretches is told apart from what is proved of
// the purchase.
func TestStepsOfAFoldAreToldApart(t *testing.T) {
	c := report.Cloth{ID: "wool", Steps: 1, ProvedAsShared: true, Stretches: make([]report.Stretch, 2)}
	c.Spread.Cloth.Offer.Per = measure.Metre
	if got := c.CouldSave(); got != "nothing on these stretches" {
		t.Error(got)
	}
	var out strings.Builder
	layPrinter{&report.Report{Cloths: []report.Cloth{c}}, &out, usualColumns, false}.bounds()
	if got := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(got,
		"With others cut double 0.10 m (1/8 yd) could be saved at most. That was not tried.") {
		t.Error(got)
	}
	c.Proved = true
	if got := c.CouldSave(); got != "nothing: proved minimal" {
		t.Error(got)
	}
	out.Reset()
	layPrinter{&report.Report{Cloths: []report.Cloth{c}}, &out, usualColumns, false}.bounds()
	if strings.Contains(out.String(), "cut double") {
		t.Error(out.String())
	}
}
