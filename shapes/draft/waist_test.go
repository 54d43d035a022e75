package draft

import (
	"errors"
	"math"
	"testing"

	"yardlay/shapes"
)

// sewnAtWaist is the finished side of a draft in a waist seam, mm.
func sewnAtWaist(t *testing.T, d Draft) float64 {
	t.Helper()
	side, err := waistOf(d)
	if err != nil {
		t.Fatalf("%T: %v", d, err)
	}
	_, finished, err := side.Measure(mustDraft(t, d))
	if err != nil {
		t.Fatalf("%T: %v", d, err)
	}
	return finished
}

// What is sewn at the waist goes round it, whatever the family (by the meaning of
// a waist measure): ease added, darts and pleats folded, the gap left open, laps
// laid.
func TestWaistOfEveryFamily(t *testing.T) {
	a := shapes.Allowance{Seam: 12, Waist: 12, Hem: 25}
	block := lanternBlock()
	pleated := block
	pleated.EasePleat = 12
	strapless := lanternStrapless()
	for _, c := range []struct {
		name string
		d    Draft
		want float64
	}{
		{"circle", CircleSkirt{Waist: 720, Length: 900, Fraction: 0.5, Gores: 6, Opening: true, Allowance: a}, 720},
		{"circle on the fold", CircleSkirt{Waist: 720, Length: 900, Fraction: 0.5, Gores: 6, FrontOnFold: true,
			Opening: true, Allowance: a}, 720},
		{"gored", GoredSkirt{Waist: 720, Hip: 980, HipDepth: 200, HemSweep: 2800, Length: 1000, Gores: 7, Opening: true,
			Allowance: a}, 720},
		{"overskirt", Overskirt{Waist: 720, Gap: 80, Length: 900, Fraction: 0.75, Allowance: a}, 640},
		{"petals", Petals{Waist: 720, Length: 600, Count: 6, Overlap: 40, Fraction: 0.5, Allowance: a}, 720},
		{"waistband", Waistband{Waist: 720, Width: 30, Ease: 20, Underlap: 35, Allowance: a}, 740},
		{"block", block, block.Waist + block.WaistEase},
		{"block with an ease pleat", pleated, block.Waist + block.WaistEase},
		{"strapless", strapless, strapless.Figure.Waist + strapless.Ease},
	} {
		if got := sewnAtWaist(t, c.d); math.Abs(got-c.want) > 0.3 {
			t.Errorf("%s: %.2f mm at the waist, want %.2f", c.name, got, c.want)
		}
	}
}

// A corset to the high hip and a handkerchief cut in one have no waist edge.
func TestNoWaistToSew(t *testing.T) {
	for _, d := range []Draft{lanternCorset(), Handkerchief{Waist: 720, Length: 500, Panels: 1, Opening: true}} {
		if _, err := waistOf(d); !errors.Is(err, ErrNoWaist) {
			t.Errorf("%T: %v", d, err)
		}
	}
	if _, err := waistOf(Waistband{}); err == nil || errors.Is(err, ErrNoWaist) {
		t.Errorf("a band of nothing: %v", err)
	}
}
