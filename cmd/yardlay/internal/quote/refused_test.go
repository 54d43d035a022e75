package quote

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// zipped is a skirt of a length in inches, open as far down, and the longest zip there is.
func zipped(length, zip string) string {
	return `unit = "in"
[body]
waist_girth = 28
hip_girth = 38
waist_to_hips = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
price = "12.00/yd"
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "satin"
gores = 4
hem_sweep = 80
length = ` + length + `
opening = true
[[notion]]
name = "zip"
by = "opening"
sizes = [{ length = "` + zip + `", price = "2.10" }]
`
}

// What no notion can be bought for is refused at its place as soon as the pieces are
// drawn, not after minutes of searching for a layout, in every command that prices.
func TestNotionsAreRefusedBeforeTheSearch(t *testing.T) {
	var phases []string
	o := quick(1)
	o.Progress = func(p plan.Progress) { phases = append(phases, p.Phase) }
	file := testjobs.File(t, "job.toml", zipped("20", "12"))
	_, err := Make(t.Context(), file.Job(), o)
	_, _, whatIf := WhatIf(t.Context(), file, o)
	for _, err := range []error{err, whatIf} {
		var placed *strict.Error
		if !errors.As(err, &placed) || placed.At.Line == 0 || !strings.Contains(err.Error(),
			"notion zip: 20 in is longer than any that is sold: the longest is 12 in") {
			t.Errorf("refused as %v", err)
		}
	}
	if slices.ContainsFunc(phases, func(p string) bool { return p != "drafting" }) || len(phases) == 0 {
		t.Errorf("it went through %q", phases)
	}
	if _, err := Make(t.Context(), testjobs.Read(t, zipped("20", "21")), quick(1)); err != nil {
		t.Error(err)
	}
}

// Of rows that are compared, one whose gown cannot be priced says why, without a place in
// the file, which may be none; the others are there, and the best of those is marked.
func TestRowsThatCannotBePriced(t *testing.T) {
	rounded := "[quote]\nround_to = \"10\"\n"
	for _, c := range []struct {
		name, src, why string
		change         job.Change
		unpriced       bool
	}{
		{"a skirt too long for a zip", zipped("20", "22"),
			"notion zip: 24 in is longer than any that is sold: the longest is 22 in", job.Change{
				Key: "skirt.length", Value: "24"}, false},
		{"rounded away", zipped("20", "22") + rounded, "to the nearest 1000.00: nothing is left of the price",
			job.Change{Key: "quote.round_to", Value: "1000"}, true},
	} {
		o := quick(1)
		o.Check = Check(o)
		r, err := compare.Run(t.Context(), testjobs.File(t, "job.toml", c.src), nil, [][]job.Change{{c.change},
			{{Key: "skirt.length", Value: "16"}}}, compare.Options{Options: o.Options, Price: Weigh(o)})
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		bad := r.Rows[1]
		if bad.Report != nil || bad.Price != "" || bad.Cost != "" || len(bad.Cloths) > 0 || bad.Difference != nil ||
			!strings.Contains(bad.Why, c.why) || strings.Contains(bad.Why, ".toml") || bad.Brief != bad.Why ||
			bad.Unpriced != c.unpriced {
			t.Errorf("%s: the row says %q, %q, unpriced: %v, %q", c.name, bad.Why, bad.Brief, bad.Unpriced, bad.Price)
		}
		for _, i := range []int{0, 2} {
			if row := r.Rows[i]; row.Report == nil || row.Price == "" || row.Best != (i == 2) {
				t.Errorf("%s: row %d, the best: %v, is priced %q: %s", c.name, i, row.Best, row.Price, row.Why)
			}
		}
	}
}
