package draft

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes"
)

// stops are the notches that a closing added to the pieces of a draft.
func stops(before, after Result) (all []shapes.Notch) {
	for i, p := range after.Pieces {
		all = append(all, p.Notches[len(before.Pieces[i].Notches):]...)
	}
	return all
}

// A block that opens at a side from the waist up: both edges bear the stop as far from the
// waist, on the copy of that side alone, and the seam is left open as far. Above the bust
// dart that is farther along the front as cut, by the dart.
func TestSideSeamsThatOpen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		b.EasePleat = 0
		d, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		side := rapid.SampledFrom([]string{OnLeft, OnRight}).Draw(t, "side")
		c := Closing{At: side, By: Zip, Length: rapid.Float64Range(20, 300).Draw(t, "length")}
		closed, err := c.Of(d)
		back, _ := d.Pieces[1].Edge("side seam")
		if err != nil {
			if c.Length <= back.Length() {
				t.Fatal(err)
			}
			return
		}
		got := closed.Closed[0]
		if got.From != TheWaist || got.Times != 1 || math.Abs(got.Opening-back.Length()) > 0.5 {
			t.Fatalf("%+v", got)
		}
		if got.Opening-got.Length <= lipsDiffer {
			return // all of it
		}
		i := slices.IndexFunc(closed.Joins, func(j shapes.Join) bool { return j.Name == SideSeam })
		if o := closed.Joins[i].Opened; o.To != c.Length || o.On != side || o.For != string(Zip) {
			t.Fatalf("%+v", o)
		}
		marks := stops(d, closed)
		if len(marks) != 2 {
			t.Fatalf("%d stops", len(marks))
		}
		for k, n := range marks {
			e, _ := closed.Pieces[k].Edge("side seam")
			at, ok := e.Along(n.At)
			want := c.Length
			if k == 1 { // the back's side runs down
				at = e.Length() - at
			} else if dart := closed.Joins[i].A.Treatment.Darts; len(dart) > 0 && want > dart[0].From {
				want += dart[0].Width
			}
			if p := closed.Pieces[k]; !ok || math.Abs(at-want) > 1e-6 ||
				p.Pair && (n.Of != 2 || p.Labels[n.Copy-1] != side) {
				t.Fatalf("%s: the stop lies at %g, want %g; %+v", p.Name, at, want, n)
			}
		}
	})
}

// A centre that opens all along is no seam; one that opens part of the way is left open as
// far, and both its edges are notched there.
func TestOpeningsAreNoSeams(t *testing.T) {
	skirt := CircleSkirt{Fraction: 0.5, Waist: 700, Length: 900, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 25}}
	d, err := skirt.Draft()
	if err != nil {
		t.Fatal(err)
	}
	named := func(d Result, name string) *shapes.Join {
		for i := range d.Joins {
			if d.Joins[i].Name == name {
				return &d.Joins[i]
			}
		}
		return nil
	}
	part, err := Closing{At: "centre back", By: Zip, Length: 220}.Of(d)
	if err != nil {
		t.Fatal(err)
	}
	if j := named(part, "centre back"); j == nil || j.Opened.To != 220 || named(d, "centre back").Opened.To != 0 {
		t.Errorf("%+v", j)
	}
	marks := stops(d, part)
	waist, _ := part.Pieces[0].Edge("centre back")
	if len(marks) != 1 || math.Abs(planar.Distance(marks[0].At, waist.Line[len(waist.Line)-1])-220) > 1e-6 {
		t.Errorf("%+v", marks)
	}
	c := lanternCorset()
	c.FrontOpening = true
	if d, err = c.Draft(); err != nil || named(d, "centre front") == nil {
		t.Fatal(err)
	}
	whole, err := Closing{At: "centre front", By: Busk, First: 10, Inset: 12.7}.Of(d)
	if err != nil || named(whole, "centre front") != nil {
		t.Fatalf("%+v, %v", whole.Joins, err)
	}
	front := d.Pieces[0].Edges[0]
	got := whole.Closed[0]
	if math.Abs(got.Length-(front.Length()-20)) > 1e-6 || got.Times != 1 {
		t.Errorf("%+v on %g", got, front.Length())
	}
	line := marksOf(d, whole)["front panel"][0]
	near(t, "busk", planar.Distance(line[0], line[1]), got.Length, 1e-6)
	near(t, "its inner side", planar.DistanceFrom(whole.Pieces[0].Edges[0].Line, line[0]), 12.7, 1e-6)
	if inner, err := (Closing{At: "centre front", By: Busk, First: 10, Inner: true}).Of(d); err != nil ||
		len(inner.Closed) != 0 || named(inner, "centre front") != nil || len(marksOf(d, inner)) != 0 {
		t.Errorf("a lining: %+v, %v", inner.Closed, err)
	}
}

func TestSideOpeningsThatAreRefused(t *testing.T) {
	skirt := CircleSkirt{Fraction: 0.5, Waist: 700, Length: 900, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 25}}
	d, err := skirt.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for want, c := range map[string]Closing{
		`there is no seam "side seam" to open`: {At: OnLeft, By: Zip, Length: 200},
		`seam "centre front" is not one that is sewn on the left`: {At: OnLeft, Seam: "centre front", By: Zip,
			Length: 200},
		`"side seam" is named, and it opens at the centre back`: {At: "centre back", Seam: "side seam", By: Zip},
		"901.0 mm long does not go into an opening of 900.0 mm": {At: OnLeft, Seam: "back gore to front gore",
			By: Zip, Length: 901},
		"a busk that ends 150.0 mm from both ends of a closing":      {At: "centre front", By: Busk, First: 150},
		"behind a lacing gap of 50.0 mm, with 10 mm on either side,": {},
	} {
		_, err := c.Of(d)
		switch c.By {
		case Busk:
			open := lanternCorset()
			open.FrontOpening = true
			if d, err := open.Draft(); err == nil {
				_, err = c.Of(d)
				if err == nil || !strings.Contains(err.Error(), want) {
					t.Errorf("%+v: %v, want %s", c, err, want)
				}
			}
			continue
		case "":
			_, err = ClosingPanel{Of: lanternCorset(), Width: 60,
				Closing: Closing{At: "centre back", By: Lacing, Spacing: 25, First: 12}}.Draft()
		}
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %s", c, err, want)
		}
	}
}
