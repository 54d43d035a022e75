package paper

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// said are the texts of a drawing in their order.
func said(d *sheet.Drawing) string {
	var all []string
	for _, g := range d.Groups {
		for _, it := range g.Items {
			if t, ok := it.(sheet.Text); ok {
				all = append(all, t.Body)
			}
		}
	}
	return strings.Join(all, " ")
}

// Whatever the light covers: lines of the grid lie whole inches or centimetres apart over
// all of it, and the square stands on four of them, within what is lit.
func TestCalibrationGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Projector{Width: rapid.Float64Range(MinPicture, 3000).Draw(t, "width"),
			Height: rapid.Float64Range(MinPicture, 2000).Draw(t, "height"),
			Unit:   rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Centimetre}).Draw(t, "unit")}
		pitch, side := 25.4, 254.0
		if p.Unit.Metric() {
			pitch, side = 10, 250
		}
		d := p.calibration()
		var square orb.Bound
		at := [2]map[int]bool{{}, {}} // lines across and along, in hundredths of a millimetre
		var places [2][]float64
		bold := 0
		for _, g := range d.Groups {
			for _, it := range g.Items {
				switch it := it.(type) {
				case sheet.Shape:
					if it.Role == sheet.RolePiece {
						square = it.Ring.Bound()
					}
				case sheet.Line:
					axis := 0
					if it.Path[0][0] != it.Path[1][0] {
						axis = 1
					}
					if it.Role == sheet.RoleEdge {
						bold++
					}
					if it.Role == sheet.RoleEdge || it.Role == sheet.RoleRepeat {
						places[axis] = append(places[axis], it.Path[0][axis])
						at[axis][int(math.Round(it.Path[0][axis]*100))] = true
					}
				}
			}
		}
		if w, h := square.Max[0]-square.Min[0], square.Max[1]-square.Min[1]; math.Abs(w-side) > 1e-9 ||
			math.Abs(h-side) > 1e-9 {
			t.Fatalf("the square measures %v by %v", w, h)
		}
		if square.Min[0] < 0 || square.Min[1] < 0 || square.Max[0] > p.Width || square.Max[1] > p.Height {
			t.Fatalf("the square stands at %v, beyond %v by %v", square, p.Width, p.Height)
		}
		for axis, length := range []float64{p.Width, p.Height} {
			for _, v := range []float64{square.Min[axis], square.Max[axis]} {
				if !at[axis][int(math.Round(v*100))] {
					t.Fatalf("no line of the grid along the side of the square at %v", v)
				}
			}
			if n := len(places[axis]); n != int(math.Floor(length/pitch))+1 && n != int(math.Floor(length/pitch)) {
				t.Fatalf("%d lines over %v", n, length)
			}
			for _, v := range places[axis] {
				if off := math.Remainder(v-square.Min[axis], pitch); math.Abs(off) > 1e-6 || v < -1e-9 || v > length+1e-9 {
					t.Fatalf("a line at %v, %v off the grid", v, off)
				}
			}
		}
		if bold < 4 {
			t.Fatalf("%d bold lines", bold)
		}
	})
}

// The head of a roll of any width has the largest test square that it has room for, all of
// its words beside it, and takes no more height than there is.
func TestHeadHasRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		high := rapid.Float64Range(MinRoll-2*rollMargin, 1500).Draw(t, "height")
		h := Head{Title: "Lantern Court gown: pieces", Facts: []string{"printed 31 May 2026", "mark a2b3"},
			Notes: []string{"Lay one on the next, cross on cross."}}
		key := []sheet.Paragraph{{Role: sheet.RoleNote, Size: 9, Body: "In the pieces: full line, cut here.", After: 6},
			{Role: sheet.RoleCaution, Body: "Guard the blade."}}
		d := h.drawing(high, key)
		side := 100.0
		if high < 102 {
			side = 50
		}
		square := d.Groups[0].Items[0].(sheet.Line).Path.Bound()
		if got := square.Max[0] - square.Min[0]; got != side || square.Max[1]-square.Min[1] != side {
			t.Fatalf("a square of %v on %v", got, high)
		}
		for _, g := range d.Groups {
			for _, it := range g.Items {
				text, ok := it.(sheet.Text)
				if !ok {
					continue
				}
				if !(text.At[1] > 0 && text.At[1]+text.Size/2 <= high+1e-9) {
					t.Fatalf("%q stands at %v of %v", text.Body, text.At[1], high)
				}
				if text.Anchor == sheet.Start && (text.At[0] < square.Max[0] || text.At[0]+text.Width() > d.Width) {
					t.Fatalf("%q stands on the square or beyond the head", text.Body)
				}
			}
		}
		words := said(d)
		for _, want := range []string{"Lantern Court gown: pieces", "mark a2b3", "print at 100 %", "cross on cross",
			"full line, cut here", "Guard the blade", fmt.Sprintf("%.0f mm", side)} {
			if !strings.Contains(words, want) {
				t.Fatalf("the head does not say %q: %s", want, words)
			}
		}
	})
}

// A pattern that a sheet or a page is said to hold is printed on one, and not cut; one that
// it is not said to hold is.
func TestHoldsMeansWhole(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel() // one alone needs no search
	for _, s := range []Sheets{a4, {Width: 279.4, Height: 215.9, Margin: 6}, {Width: 297, Height: 420, Margin: 10,
		Overlap: 20}} {
		w, h := s.room()
		for _, c := range []struct {
			long, wide float64
			one        bool
		}{{w - 3, h - 3, true}, {h - 3, w - 3, true}, {w + 1, h - 40, false}, {60, 30, true}, {max(w, h) + 5, 20, false}} {
			p := ringPattern("panel", orb.Bound{Max: orb.Point{c.long, c.wide}}.ToRing(), 1)
			laid, _, err := s.onSheets(ctx, []Pattern{p})
			if err != nil {
				t.Fatal(err)
			}
			if s.Holds(p) != c.one {
				t.Errorf("%v by %v on %v by %v: held is %v", c.long, c.wide, w, h, !c.one)
			}
			if !c.one && laid.sheets < 2 {
				t.Errorf("%v by %v is on %d sheet and not said to be held", c.long, c.wide, laid.sheets)
			}
			if c.one && s.Overlap == 0 && laid.sheets != 1 {
				t.Errorf("%v by %v, which a sheet of %v by %v holds, is on %d", c.long, c.wide, w, h, laid.sheets)
			}
		}
	}
	roll := rollOf(914.4)
	for _, c := range []struct {
		long, wide float64
		one        bool
	}{{4000, 800, true}, {800, 4000, true}, {890, 890, true}, {900, 1000, false}, {5000, 300, true}, {5100, 300, false}} {
		p := ringPattern("panel", orb.Bound{Max: orb.Point{c.long, c.wide}}.ToRing(), 1)
		made, err := roll.Pieces(ctx, []Pattern{p})
		if err != nil {
			t.Fatal(err)
		}
		if whole := made.Bands <= 1 && made.Lengths <= 1; roll.Holds(p) != c.one || !c.one && whole {
			t.Errorf("%v by %v on a roll: held %v, printed in %d bands and %d lengths", c.long, c.wide, roll.Holds(p),
				made.Bands, made.Lengths)
		}
	}
}

// The first pages say how many sheets there are, how these are joined, by overlap or edge
// to edge, and what each number on the map is; all of it on the page.
func TestFirstPagesSayAll(t *testing.T) {
	cut, cancel := context.WithCancel(context.Background())
	cancel() // nothing is searched for: the pieces lie apart
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Custom(anySheets).Filter(func(s Sheets) bool { return s.Check() == nil }).Draw(t, "sheets")
		patterns := []Pattern{ringPattern("front", plane.Bounds(orb.Ring{{0, 0}, {700, 300}}).ToRing(), 1),
			ringPattern("back", plane.Bounds(orb.Ring{{0, 0}, {90, 60}}).ToRing(), 1)}
		tiled := tiledOn(s)
		tiled.Head.Notes = []string{"Iron the paper."}
		tiled.Lists = [][]string{{"front", "cut 2"}, {"back", "cut 1 pair"}}
		tiled.Key = []sheet.Paragraph{{Role: sheet.RoleCaution, Body: "Guard the blade."}}
		made, err := tiled.Pieces(cut, patterns)
		if err != nil {
			t.Fatal(err)
		}
		words := ""
		for _, page := range made.Document.Pages[:made.Firsts] {
			for _, v := range page.Views {
				words += " " + said(v.Drawing)
				for _, g := range v.Drawing.Groups {
					for _, it := range g.Items {
						if text, ok := it.(sheet.Text); ok && (text.At[1] > v.Drawing.Height || text.At[1] < 0) {
							t.Fatalf("%q stands beyond the page", text.Body)
						}
					}
				}
			}
		}
		how := "Lay it on its neighbour"
		if s.Overlap == 0 {
			how = "side by side"
		}
		for _, want := range []string{fmt.Sprintf("%d sheets, in %d rows", made.Sheets, made.Rows), how, "Iron the paper.",
			"1 = front · cut 2", "2 = back · cut 1 pair", "Guard the blade.", "test square", "4 in"} {
			if !strings.Contains(words, want) && !(want == "4 in" && s.Width-2*s.Margin < testSquare+9) {
				t.Fatalf("the first pages do not say %q: %s", want, words)
			}
		}
	})
}
