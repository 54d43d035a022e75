package paper

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// ringPattern is a pattern of its outline alone.
func ringPattern(name string, ring orb.Ring, copies int) Pattern {
	ring = plane.SnapRing(ring)
	return Pattern{Name: name, Outline: ring, Copies: copies,
		Draw: func(pose plane.Pose, origin orb.Point) sheet.Group {
			drawn := pose.Apply(ring)
			for i, p := range drawn {
				drawn[i] = orb.Point{origin[0] + p[0], origin[1] - p[1]}
			}
			return sheet.Group{Title: name, Items: []sheet.Item{sheet.Shape{Role: sheet.RolePiece, Ring: drawn}}}
		}}
}

var a4 = Sheets{Name: "A4", Width: 210, Height: 297, Margin: 10, Overlap: 10}

// tiledOn is a print of some patterns.
func tiledOn(s Sheets) Tiled {
	return Tiled{Head: Head{Title: "Lantern Court gown", Facts: []string{"mark a2b3"}}, Date: day,
		Mark: "31 May 2026 · mark a2b3", Sheets: s}
}

// Patterns laid on sheets keep apart, each is there as often as it is asked for, all lie on
// sheets, and they never take more sheets than their boxes do.
func TestPatternsOnSheets(t *testing.T) {
	type print struct {
		sheets   Sheets
		patterns []Pattern
	}
	any := rapid.Custom(func(t *rapid.T) print {
		p := print{sheets: rapid.Custom(anySheets).Filter(func(s Sheets) bool { return s.Check() == nil }).Draw(t,
			"sheets")}
		for range rapid.IntRange(1, 3).Draw(t, "patterns") {
			p.patterns = append(p.patterns, ringPattern("panel", anyRing(t, orb.Point{300, 300}, 300),
				rapid.IntRange(1, 2).Draw(t, "copies")))
		}
		return p
	})
	for seed := range often.Full(6, 12) { // each takes as long as a print
		p := any.Example(seed)
		s, all := p.sheets, p.patterns
		laid, boxes, err := s.onSheets(context.Background(), all)
		if err != nil {
			t.Fatal(err)
		}
		if laid.sheets > boxes || laid.sheets < 1 {
			t.Fatalf("%d sheets, by boxes %d", laid.sheets, boxes)
		}
		count := make([]int, len(all))
		rings := laid.rings(all)
		for i, at := range laid.spots {
			count[at.pattern]++
			for _, p := range rings[i] {
				on := false
				for r, row := range laid.printed {
					for c, is := range row {
						on = on || is && laid.grid.window(r, c).Contains(p)
					}
				}
				if !on {
					t.Fatalf("%v is on no sheet", p)
				}
			}
		}
		if err := apartAll(rings); err != nil {
			t.Fatal(err)
		}
		for i, n := range count {
			if n != all[i].Copies {
				t.Fatalf("pattern %d is there %d times, not %d", i, n, all[i].Copies)
			}
		}
	}
}

// apartAll lets the judge say whether rings keep off each other.
func apartAll(rings []orb.Ring) error {
	const far = 10_000.0 // all lie in the judge's reach
	var p nest.Problem
	var l nest.Layout
	p.Strip.Width = 6 * far
	for i, r := range rings {
		r = r.Clone()
		r.Reverse()
		for k := range r {
			r[k] = orb.Point{r[k][0] + far, r[k][1] + far}
		}
		p.Pieces = append(p.Pieces, nest.Piece{Name: "panel", Outline: r, Count: 1})
		l.Placed = append(l.Placed, nest.Placed{Piece: i})
		l.Length = max(l.Length, r.Bound().Max[0])
	}
	return nest.Verify(p, l)
}

// Each view of a page shows what lies there on the joined sheets.
func TestPagesShowTheirPart(t *testing.T) {
	ring := orb.Ring{{0, 0}, {700, 0}, {500, 600}, {0, 300}, {0, 0}}
	made, err := tiledOn(a4).Pieces(context.Background(), []Pattern{ringPattern("panel", ring, 1)})
	if err != nil {
		t.Fatal(err)
	}
	if len(made.Document.Pages) != made.Sheets+made.Firsts {
		t.Fatalf("%d pages", len(made.Document.Pages))
	}
	drawings := map[*sheet.Drawing]bool{}
	for i, p := range made.Document.Pages {
		if p.Width != a4.Width || p.Height != a4.Height {
			t.Errorf("page %d is %g by %g", i, p.Width, p.Height)
		}
		for _, v := range p.Views {
			if v.Window.Min[0] < a4.Margin-1e-9 || v.Window.Max[1] > a4.Height-a4.Margin+1e-9 {
				t.Errorf("page %d shows %q in the margin: %v", i, v.Drawing.Title, v.Window)
			}
			if v.Drawing.Title == "panel" {
				drawings[v.Drawing] = true
			}
		}
	}
	if len(drawings) != 1 {
		t.Errorf("the panel is drawn %d times", len(drawings))
	}
	if b, err := made.Document.PDF(); err != nil || len(b) > 200_000 {
		t.Errorf("%d bytes, %v", len(b), err)
	}
}

func TestSheetsSameBytesTwice(t *testing.T) {
	print := func() []byte {
		all := []Pattern{ringPattern("a", orb.Ring{{0, 0}, {700, 0}, {500, 600}, {0, 300}, {0, 0}}, 2),
			ringPattern("b", sheet.Box(0, 0, 900, 90), 3)}
		made, err := tiledOn(a4).Pieces(context.Background(), all)
		if err != nil {
			t.Fatal(err)
		}
		b, err := made.Document.PDF()
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	if !bytes.Equal(print(), print()) {
		t.Error("two prints differ")
	}
}

// What nobody tapes is refused before it is laid, and a run that is cancelled still prints.
func TestTooManySheets(t *testing.T) {
	for _, all := range [][]Pattern{
		{ringPattern("field", sheet.Box(0, 0, 20_000, 20_000), 1)},
		{ringPattern("patch", sheet.Box(0, 0, 20, 20), 2001)},
		{ringPattern("tape", orb.Ring{{0, 0}, {60_000, 59_990}, {60_000, 60_000}, {0, 0}}, 20)},
	} {
		if _, err := tiledOn(a4).Pieces(context.Background(), all); err == nil ||
			!strings.Contains(err.Error(), "--roll") {
			t.Errorf("%s: %v", all[0].Name, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	made, err := tiledOn(a4).Pieces(ctx, []Pattern{ringPattern("panel", sheet.Box(0, 0, 400, 300), 4)})
	if err != nil || made.Sheets == 0 {
		t.Errorf("cancelled: %d sheets, %v", made.Sheets, err)
	}
}
