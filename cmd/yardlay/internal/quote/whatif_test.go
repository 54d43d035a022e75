package quote

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// skirt is a job with every kind of choice.
const skirt = `unit = "in"
[body]
waist_girth = "27 1/2"
[allowance]
seam = "1/2"
hem = "2"
[[cloth]]
id = "satin"
width = "54"
price = "13.00/yd"
bolt = { length = "15 yd", price = "140.00" }
[[cloth]]
id = "velvet"
width = "45"
price = "20.00/yd"
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
gores = 3
length = "24"
[[part]]
name = "sash"
draft = "rectangle"
cloth = "velvet"
length = "60"
width = "5"
[labour]
rate = "24.00/h"
seam = "6 min/yd"
hem = "9 min/yd"
[quote]
margin = "30 %"
tax = "8.25 %"
`

// written says how a person would write each choice into the job.
var written = map[string][2]string{
	"satin laid two-way":            {`width = "54"`, "width = \"54\"\nnap = \"two-way\""},
	"satin 45 in wide":              {`width = "54"`, `width = "45"`},
	"satin 36 in wide":              {`width = "54"`, `width = "36"`},
	"satin 60 in wide":              {`width = "54"`, `width = "60"`},
	"velvet 36 in wide":             {`width = "45"`, `width = "36"`},
	"velvet 54 in wide":             {`width = "45"`, `width = "54"`},
	"skirt in 2 gores":              {`gores = 3`, `gores = 2`},
	"skirt in 4 gores":              {`gores = 3`, `gores = 4`},
	"hem allowance of 1 1/2 in":     {`hem = "2"`, `hem = "1 1/2"`},
	"skirt pieced within 30 1/4 in": {`gores = 3`, "gores = 3\npieced = { within = \"30 1/4\" }"},
	"skirt pieced within 23 3/4 in": {`gores = 3`, "gores = 3\npieced = { within = \"23 3/4\" }"},
	"skirt tilt 2 degrees":          {`gores = 3`, "gores = 3\ntilt = 2"},
	"1 in shorter":                  {`length = "24"`, `length = "23"`},
	"whole bolts of satin":          {`bolt = {`, "whole_bolts = true\nbolt = {"},
}

// A choice costs what the job would cost if it were written so: each is laid and
// priced, not estimated. They are sorted by what they save.
func TestChoicesCostWhatTheJobWouldCost(t *testing.T) {
	ctx := context.Background()
	q, found, err := WhatIf(ctx, testjobs.File(t, "job.toml", skirt), quick(1))
	if err != nil {
		t.Fatal(err)
	}
	if len(found.Choices) < 3 || len(found.Choices) > mostChoices {
		t.Fatalf("%d choices: %+v", len(found.Choices), found)
	}
	if plain := made(t, skirt); plain.Total != q.Total {
		t.Errorf("the job costs %v beside its choices and %v alone", q.Total, plain.Total)
	}
	for i, c := range found.Choices {
		edit, ok := written[c.Name]
		if !ok || !strings.Contains(skirt, edit[0]) {
			t.Errorf("%q is not known here", c.Name)
			continue
		}
		fresh := made(t, strings.Replace(skirt, edit[0], edit[1], 1))
		if fresh.Total != c.Total || fresh.Cost != c.Quote.Cost {
			t.Errorf("%s: %v, a fresh quote says %v", c.Name, c.Total, fresh.Total)
		}
		if c.Saves.Minor != q.Total.Minor-c.Total.Minor {
			t.Errorf("%s saves %v of %v and costs %v", c.Name, c.Saves, q.Total, c.Total)
		}
		if i > 0 && c.Saves.Minor > found.Choices[i-1].Saves.Minor {
			t.Errorf("%s saves more than what stands before it", c.Name)
		}
	}
}

// A cloth is laid for the counter that it is bought at: where another supplier cuts
// by finer steps than the one that stands first, as little is bought as if he stood
// there alone.
func TestClothIsLaidForItsCounter(t *testing.T) {
	mill := "price = \"12.00/yd\"\nsold_by = \"1/8 yd\"\nsupplier = \"mill\"\n"
	job := strings.Replace(skirt, "price = \"13.00/yd\"\nbolt = { length = \"15 yd\", price = \"140.00\" }\n", "%s",
		1) + "[[supplier]]\nname = \"mill\"\nshipping = \"1.00\"\n"
	alone := made(t, strings.Replace(job, "%s", mill, 1))
	both := made(t, strings.Replace(job, "%s", "price = \"13.00/yd\"\nsold_by = \"3 yd\"\noffers = [ { "+
		strings.ReplaceAll(strings.TrimSpace(mill), "\n", ", ")+" } ]\n", 1))
	bought := func(q *Quote) (mm float64) {
		for _, o := range q.Orders {
			for _, i := range o.Items {
				if i.ID == "satin" && o.Supplier == "mill" {
					mm = i.BoughtLength
				}
			}
		}
		return mm
	}
	if bought(both) == 0 || bought(both) != bought(alone) || both.Total != alone.Total {
		t.Errorf("%v mm for %v beside another counter, %v mm for %v alone", bought(both), both.Total,
			bought(alone), alone.Total)
	}
}

// What may be otherwise: a freer nap where the cloth permits, no gores below one,
// no hem below nothing, and shorter only what hangs.
func TestCandidates(t *testing.T) {
	names := func(src string) string {
		f := testjobs.File(t, "job.toml", src)
		var all []string
		for _, w := range candidates(f) {
			if _, err := f.With(w.changes); err != nil {
				t.Errorf("%s: %v", w.name, err)
			}
			all = append(all, w.name)
		}
		return strings.Join(all, "; ")
	}
	all := names(skirt)
	for _, want := range []string{"satin laid two-way", "satin 45 in wide", "skirt in 2 gores", "skirt in 4 gores",
		"hem allowance of 1 1/2 in", "1 in shorter", "whole bolts of satin"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not among %s", want, all)
		}
	}
	if strings.Contains(names(strings.ReplaceAll(skirt, "satin", "panne-velvet")), "laid two-way") {
		t.Error("a pile is laid both ways")
	}
	if strings.Contains(names(strings.Replace(skirt, `hem = "2"`, `hem = "1/4"`, 1)), "hem allowance") {
		t.Error("a hem below nothing")
	}
	metric := names(strings.NewReplacer(`unit = "in"`, `unit = "cm"`, `"27 1/2"`, "70", `hem = "2"`, `hem = "4"`,
		`width = "54"`, `width = "140"`,
		`width = "45"`, `width = "115"`, `length = "24"`, `length = "61"`).Replace(skirt))
	for _, want := range []string{"hem allowance of 3.0 cm", "2 cm shorter"} {
		if !strings.Contains(metric, want) {
			t.Errorf("%q is not among %s", want, metric)
		}
	}
}

// Whatever a job holds, several bodies among it, its choices are ways that the job
// file takes.
func TestCandidatesOfEveryJob(t *testing.T) {
	names, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil || len(names) == 0 {
		t.Fatal("no jobs to try", err)
	}
	for _, name := range names {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f := testjobs.File(t, name, string(src))
		ways := candidates(f)
		if len(ways) == 0 {
			t.Errorf("%s: nothing to choose", name)
		}
		for _, w := range ways {
			if _, err := f.With(w.changes); err != nil {
				t.Errorf("%s: %s: %v", name, w.name, err)
			}
		}
	}
}

// A client of a gown with net reads that it burns, and nothing of blades.
func TestTheClientIsCautioned(t *testing.T) {
	read := func(src string) string {
		return strings.Join(made(t, src).ForClient().Ledger(measure.Inch).Notes, "\n")
	}
	if text := read(sash(36, "", "")); text != "" {
		t.Errorf("without net: %q", text)
	}
	if text := read(sash(36, `title = "soft net"`, "")); !strings.Contains(text, "fire") ||
		strings.Contains(text, "blade") {
		t.Errorf("with net: %q", text)
	}
}

// Interrupted after the job itself is laid, the quote stands, and the choices that
// were not tried are named as such, not as impossible.
func TestInterruptedChoicesAreNotImpossible(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	o := quick(1)
	o.Workers = 1
	o.Progress = func(p plan.Progress) {
		if p.Finished == 2 { // both cloths as written
			cancel()
		}
	}
	q, found, err := WhatIf(ctx, testjobs.File(t, "job.toml", skirt), o)
	if err != nil {
		t.Fatal(err)
	}
	if q.Total.Minor == 0 || len(found.Skipped) == 0 {
		t.Errorf("total %v, skipped %q", q.Total, found.Skipped)
	}
	for _, l := range found.LeftOut {
		if strings.Contains(l.Why, "interrupted") {
			t.Errorf("%s cannot be made: %s", l.Name, l.Why)
		}
	}
}
