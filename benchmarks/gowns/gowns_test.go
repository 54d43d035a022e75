package main

import (
	"bytes"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestCloths: enough of them, each named and drawn but once, each of a size that the
// survey is about, and all the same when listed again.
func TestCloths(t *testing.T) {
	cloths, err := listed()
	if err != nil {
		t.Fatal(err)
	}
	if len(cloths) < 60 {
		t.Errorf("%d cloths, want at least 60", len(cloths))
	}
	names, marks := map[string]bool{}, map[string]string{}
	for _, c := range cloths {
		if names[c.name] {
			t.Errorf("two cloths are called %q", c.name)
		}
		m, err := mark(c.problem)
		if err != nil {
			t.Fatal(err)
		}
		if other, ok := marks[m]; ok {
			t.Errorf("%q is the same as %q", c.name, other)
		}
		names[c.name], marks[m] = true, c.name
		if err := c.problem.Check(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if n := copies(c.problem); n < fewestLaid || n > mostLaid {
			t.Errorf("%s: %d pieces, want %d to %d", c.name, n, fewestLaid, mostLaid)
		}
	}
	again, err := list()
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range again {
		if diff := cmp.Diff(cloths[i].problem, c.problem); c.name != cloths[i].name || diff != "" {
			t.Fatalf("%q is %q when listed again: %s", cloths[i].name, c.name, diff)
		}
	}
}

// TestReport: runs come back from the file as written, and the table takes the best of
// all, the seeds of the default work apart.
func TestReport(t *testing.T) {
	cloths, err := listed()
	if err != nil {
		t.Fatal(err)
	}
	c := cloths[0]
	m, err := mark(c.problem)
	if err != nil {
		t.Fatal(err)
	}
	var runs []record
	file := filepath.Join(t.TempDir(), "runs")
	for _, r := range []record{
		{Work: 1, Seed: 1, Length: 10.2 * inch, Bound: 9 * inch},
		{Work: 1, Seed: 2, Length: 11 * inch, Bound: 9.5 * inch},
		{Work: 10, Seed: 1, Length: 10 * inch, Bound: 9.5 * inch},
	} {
		r.Mark, r.Cloth = m, c.name
		if err := add(file, r); err != nil {
			t.Fatal(err)
		}
		runs = append(runs, r)
	}
	got, err := read(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(runs, got); diff != "" {
		t.Fatal(diff)
	}
	all, err := lines(cloths, got)
	if err != nil {
		t.Fatal(err)
	}
	want := line{
		name: c.name, pieces: 24, runs: 3, normal: 10.2 * inch, seeds: []float64{10.2 * inch, 11 * inch},
		longer: 10 * inch, best: 10 * inch, bound: 9.5 * inch, hardest: 10,
	}
	if diff := cmp.Diff([]line{want}, all, cmp.AllowUnexported(line{})); diff != "" {
		t.Error(diff)
	}
	var table bytes.Buffer
	if err := report(&table, cloths, got); err != nil {
		t.Fatal(err)
	}
	if want := "| " + c.name +
		" | 24 | 10.20 | 11.00 (of 2) | 10.00 | 10.00 | 2.00 % | 10.00 % | 5.26 % |"; !bytes.Contains(table.Bytes(),
		[]byte(want)) {
		t.Errorf("no line %s in\n%s", want, &table)
	}
	once := record{Work: 1, Seed: 1, Length: 7 * inch, Bound: 6 * inch, Cloth: cloths[1].name}
	near := record{Work: 1, Seed: 1, Length: 7 * inch, Bound: 6.95 * inch, Cloth: cloths[2].name}
	if once.Mark, err = mark(cloths[1].problem); err != nil {
		t.Fatal(err)
	}
	if near.Mark, err = mark(cloths[2].problem); err != nil {
		t.Fatal(err)
	}
	table.Reset()
	if err := report(&table, cloths, append(got, once, near)); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"3 of 73 cloths laid, 1 of them but once",
		"2 cloths compared in 4 runs, 1 of them with ten times the work; 1 lie within 1 % of their bounds.",
	} {
		if !bytes.Contains(table.Bytes(), []byte(want)) {
			t.Errorf("a cloth laid but once: no %q in\n%s", want, &table)
		}
	}
}
