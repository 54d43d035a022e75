package compare

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

func svgOf(t *testing.T, r *Result) string {
	t.Helper()
	svg, err := r.Picture().SVG()
	if err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		if _, err := d.Token(); err == io.EOF {
			return string(svg)
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

func has(t *testing.T, svg string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !strings.Contains(svg, ">"+text+"<") {
			t.Errorf("the picture lacks %q", text)
		}
	}
}

// A length or number that is varied alone is an axis with its unit; all else
// gives bars of what each row costs.
func TestPictureChoosesItsAxis(t *testing.T) {
	o := plan.Options{Unit: measure.Inch}
	width := run(t, flags, o, "satin.width=6,26,34")
	has(t, svgOf(t, width), "satin width, in", "bought length, yd", "6", "26", "30", "34", "not laid", "best",
		"Lantern flags, compared")
	count := run(t, flags, o, "flag.count=4")
	has(t, svgOf(t, count), "flag count", "2", "4")
	linked := run(t, flags, o, "satin.width+satin.price=28+9/yd,34+15/yd")
	has(t, svgOf(t, linked), "satin width, in", "28", "30", "34", linked.Rows[1].Cost)
	nap := run(t, flags, o, "satin.nap=one-way,two-way")
	has(t, svgOf(t, nap), "cost of cloth, USD", "satin", "net", "satin nap two-way", "as written (satin nap one-way)")
	both := run(t, flags, o, "satin.nap=one-way,two-way", "satin.width=26,30")
	has(t, svgOf(t, both), "cost of cloth, USD", "satin nap two-way, width 26")
	unpriced := run(t, strings.Replace(flags, "price = \"12.00/yd\"\n", "", 1), o, "satin.nap=two-way")
	has(t, svgOf(t, unpriced), "bought length of all cloths, yd")
}

// One length in two units is two points side by side, not an axis of no length.
func TestPictureOfEqualValues(t *testing.T) {
	r := run(t, flags, plan.Options{Unit: measure.Inch}, "satin.gap=1in,25.4mm")
	has(t, svgOf(t, r), "satin gap, in", "1")
}

func TestLongComparisonsShowTheBest(t *testing.T) {
	r := run(t, flags, plan.Options{Unit: measure.Inch}, "satin.nap=one-way,two-way")
	for len(r.Rows) < 3*mostBars {
		r.Rows = append(r.Rows, r.Rows[1])
	}
	if rows := r.drawn(mostBars); len(rows) != mostBars || rows[0] != &r.Rows[0] {
		t.Errorf("%d rows are drawn", len(rows))
	}
	if svg := svgOf(t, r); !strings.Contains(svg, "The 59 best of 180 rows") {
		t.Error("it does not say which rows are drawn")
	}
}

// A quantity is read as the job reads it: numbers, fractions and lengths in its unit.
func TestQuantitiesAreReadAsTheJobReadsThem(t *testing.T) {
	for _, c := range []struct {
		value  string
		length bool
		want   float64
		ok     bool
	}{
		{"2.5", false, 2.5, true}, {"2 1/2", false, 2.5, true}, {`"2 1/2"`, false, 2.5, true}, {"3/4", false, 0.75, true},
		{"1e1", false, 10, true}, {"inf", false, 0, false}, {"wide", false, 0, false}, {"", false, 0, false},
		{"2 1/2", true, 63.5, true}, {"10 cm", true, 100, true}, {"cm", true, 0, false},
	} {
		if got, ok := read(c.value, c.length, measure.Inch); ok != c.ok || ok && math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s is read as %v, %v, want %v", c.value, got, ok, c.want)
		}
	}
}
