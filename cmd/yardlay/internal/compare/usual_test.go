package compare

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// values are those that some ways give their only key.
func values(t rapid.TB, ways [][]job.Change, key string) (all []string) {
	t.Helper()
	for _, way := range ways {
		if len(way) != 1 || way[0].Key != key {
			t.Fatalf("%+v changes more than %s", way, key)
		}
		all = append(all, way[0].Value)
	}
	return all
}

// The next usual widths of a cloth are what a counter has of its kind, in the units of the job (common practice): of
// satin of 59 1/2 in 54 and 72, since 60 is sold as the same.
func TestNextUsualWidths(t *testing.T) {
	for _, c := range []struct {
		unit            measure.Unit
		cloth           job.Cloth
		width           float64
		narrower, wider int
		want            []string
	}{
		{measure.Inch, job.Cloth{Title: "Satin"}, 58, 1, 1, []string{"54 in", "60 in"}},
		{measure.Inch, job.Cloth{Title: "Satin"}, 59.5, 1, 1, []string{"54 in", "72 in"}},
		{measure.Yard, job.Cloth{Title: "Satin"}, 36, 2, 2, []string{"45 in", "54 in"}},
		{measure.Inch, job.Cloth{Net: true}, 108, 1, 1, []string{"72 in", "118 in"}},
		{measure.Inch, job.Cloth{Title: "Fusible"}, 58, 9, 9, []string{"36 in", "45 in"}},
		{measure.Centimetre, job.Cloth{Title: "Satin"}, 150 / 2.54, 2, 2, []string{"114 cm", "137 cm"}},
		{measure.Metre, job.Cloth{Net: true}, 200 / 2.54, 2, 2, []string{"137 cm", "150 cm", "280 cm", "300 cm"}},
		{measure.Millimetre, job.Cloth{ID: "hair-canvas"}, 150 / 2.54, 2, 2, []string{"90 cm", "110 cm"}},
	} {
		c.cloth.ID = fmt.Sprint(c.cloth.ID, "x")
		c.cloth.Width = c.width * measure.Inches
		got := values(t, widths(c.unit, c.cloth, c.narrower, c.wider), c.cloth.ID+".width")
		if !slices.Equal(got, c.want) {
			t.Errorf("beside %v in of %q are %q, want %q", c.width, c.cloth.Title, got, c.want)
		}
	}
}

// Whatever a cloth measures, the widths beside it are the nearest of those that are usual and an inch from it or
// more, so many at most on either side, in their order.
func TestUsualWidthsAreTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cm := rapid.Bool().Draw(t, "cm")
		unit, one, system := measure.Inch, measure.Inches, 0
		if cm {
			unit, one, system = measure.Centimetre, measure.Centimetres, 1
		}
		c := job.Cloth{ID: "satin", Net: rapid.Bool().Draw(t, "net"), Width: rapid.Float64Range(200, 4000).Draw(t, "width")}
		most := [2]int{rapid.IntRange(0, 4).Draw(t, "narrower"), rapid.IntRange(0, 4).Draw(t, "wider")}
		var below, above []string
		for _, w := range usualWidths[kindOf(c)][system] {
			value := fmt.Sprintf("%g %v", w, unit)
			switch mm := w * one; {
			case math.Abs(mm-c.Width) < measure.Inches:
			case mm < c.Width:
				below = append(below, value)
			default:
				above = append(above, value)
			}
		}
		want := append(below[max(0, len(below)-most[0]):], above[:min(len(above), most[1])]...)
		if got := values(t, widths(unit, c, most[0], most[1]), "satin.width"); !slices.Equal(got, want) {
			t.Fatalf("beside %v mm, %v: %q, want %q", c.Width, most, got, want)
		}
	})
}

// How full a row is beside the job as written is said with its name: less full as soon as one part is.
func TestFullerAndLessFull(t *testing.T) {
	more := Fullness{Part: "net", Fullness: 3, Written: 2.5}
	less := Fullness{Part: "frill", Fullness: 2, Written: 2.5, Widths: 7}
	for title, full := range map[string][]Fullness{"a": nil, "a (fuller)": {more}, "a (less full)": {more, less}} {
		if got := (Row{Name: "a", Fullness: full}).Title(); got != title {
			t.Errorf("%q, want %q", got, title)
		}
	}
	for want, f := range map[string]Fullness{"net is fuller: 3.0 in place of 2.5.": more,
		"frill is less full: 2.0 in place of 2.5. With widths = 7 it is at least as full.": less} {
		if got := f.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A value of a picture is a length in its unit, or a number, a fraction or not; nothing that has no end.
func TestValuesOfAPicture(t *testing.T) {
	for _, c := range []struct {
		text   string
		length bool
		want   float64
	}{
		{"45in", true, 1143}, {"45", true, 1143}, {`"90 cm"`, true, 900}, {"2 1/2", false, 2.5}, {"'3/8'", false, 0.375},
		{"-4", false, -4}, {"1e2", false, 100},
	} {
		if got, ok := read(c.text, c.length, measure.Inch); !ok || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%q is read as %v, %v", c.text, got, ok)
		}
	}
	for _, text := range []string{"nan", "inf", "-inf", "open", "", "1/0"} {
		if got, ok := read(text, false, measure.Inch); ok {
			t.Errorf("%q is read as %v", text, got)
		}
	}
	if got, ok := read("much", true, measure.Inch); ok {
		t.Errorf("much is %v mm", got)
	}
}
