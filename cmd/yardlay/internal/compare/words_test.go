package compare

import (
	"testing"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// Lengths stand in the counter's unit, what is bought never rounded down, and a difference
// has a sign unless it is none.
func TestColumnsInWords(t *testing.T) {
	for _, tt := range []struct {
		per                   measure.Unit
		cloth                 Cloth
		bought, with, changed string
	}{
		{measure.Yard, Cloth{Bought: 914.4}, "1", "1 yd", ""},
		{measure.Yard, Cloth{Bought: 914.4 * 2.25, Difference: 914.4 / 4}, "2 1/4", "2 1/4 yd", "+1/4"},
		{measure.Yard, Cloth{Bought: 914.4 * 2.25, Difference: -914.4 * 1.125}, "2 1/4", "2 1/4 yd", "-1 1/8"},
		{measure.Metre, Cloth{Bought: 1201}, "1.21", "1.21 m", ""},
		{measure.Metre, Cloth{Bought: 1200, Difference: measure.Guard / 2}, "1.20", "1.20 m", ""},
		{measure.Metre, Cloth{Bought: 1200, Difference: -measure.Guard / 2}, "1.20", "1.20 m", ""},
		{measure.Yard, Cloth{Bought: 9144, Bolts: 1, Difference: -9144}, "1 bolt", "1 bolt", "-10"},
		{measure.Yard, Cloth{Bought: 18288, Bolts: 2, Difference: 9144}, "2 bolts", "2 bolts", "+10"},
	} {
		c := Column{"satin", tt.per}
		if got := c.Bought(tt.cloth); got != tt.bought {
			t.Errorf("%v: bought %q, want %q", tt.cloth, got, tt.bought)
		}
		if got := c.BoughtOf(tt.cloth); got != tt.with {
			t.Errorf("%v: with its unit %q, want %q", tt.cloth, got, tt.with)
		}
		if got := c.Change(tt.cloth); got != tt.changed {
			t.Errorf("%v: changed %q, want %q", tt.cloth, got, tt.changed)
		}
	}
}

func TestDifferencesOfMoneyInWords(t *testing.T) {
	for more, want := range map[string]string{
		"": "", "0": "", "0.00": "", "0.000": "", "0.50": "+0.50", "-0.50": "-0.50", "100": "+100", "-100": "-100",
		"10.00": "+10.00", "0.01": "+0.01",
	} {
		w := Row{Difference: &Difference{Cost: more, Price: "7"}}
		if got := w.Dearer(); got != want {
			t.Errorf("cloth %q dearer reads %q, want %q", more, got, want)
		}
		w.Difference.Cost, w.Difference.Price = "7", more
		if got := w.DearerGown(); got != want {
			t.Errorf("gowns %q dearer read %q, want %q", more, got, want)
		}
	}
	if w := (Row{}); w.Dearer()+w.DearerGown() != "" {
		t.Error("the job as written differs from itself")
	}
}

// The gap of a row is that of its loosest cloth which may become shorter, however loose the
// ones are of which no less can be bought.
func TestLoosestClothIsNamed(t *testing.T) {
	cloths := []Cloth{
		{ID: "proved", Gap: 0.4, Proved: true}, {ID: "close", Gap: 0.01}, {ID: "loose", Gap: 0.125}, {ID: "last", Gap: 0.1},
	}
	w := Row{Report: &report.Report{}, Cloths: cloths, Gap: 0.125}
	if got, want := w.Loosest(), report.GapWords(0.125)+" loose"; got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	w.Proved = true
	if got := w.Loosest(); got != "proved" {
		t.Errorf("where all is proved it says %q", got)
	}
	w = Row{Gap: 0.125, Cloths: cloths}
	if got := w.Loosest(); got != report.GapWords(0.125) {
		t.Errorf("of a row that is not laid it says %q", got)
	}
}
