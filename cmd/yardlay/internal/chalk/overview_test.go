package chalk

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// A marker is drawn with its cloth and its pieces where they lie, numbers inside them, its ends named, and of flaws
// what lies before the end of the last piece.
func TestTheOverviewIsTrue(t *testing.T) {
	for _, edge := range []string{"fold", "selvedge"} {
		l := sample(t)
		l.Edge = edge
		l.Flaws = []orb.Ring{{{300, 600}, {5000, 600}, {5000, 650}, {300, 650}, {300, 600}}}
		tape := Tape{measure.Inch}
		d := l.Overview(tape, 190, 130)
		inside(t, d)
		on := cloth(d, orb.Point{0, l.Cloth.Max[1]})
		if got := on.rings[sheet.RoleCloth][0].Bound(); distance(got.Min, orb.Point{}) > 1e-6 ||
			distance(got.Max, orb.Point{l.Used, l.Cloth.Max[1]}) > 1e-6 {
			t.Errorf("the cloth is drawn as %v", got)
		}
		if got := on.rings[sheet.RoleFlaw][0].Bound(); distance(got.Min, orb.Point{300, 600}) > 1e-6 ||
			distance(got.Max, orb.Point{l.Used, 650}) > 1e-6 || !on.has(sheet.RoleFlaw, got.Min, got.Max) {
			t.Errorf("the flaw is drawn as %v", got)
		}
		for i, p := range l.Pieces {
			for k, v := range on.rings[sheet.RolePiece][i] {
				if distance(v, p.Outline.Cut[k]) > 1e-6 {
					t.Fatalf("corner %d of piece %d is drawn at %v", k, i+1, v)
				}
			}
			large := slices.IndexFunc(on.texts, func(w sheet.Text) bool {
				return w.Body == strconv.Itoa(p.Number) && math.Abs(w.Size-5.2*on.k) < 1e-6
			})
			if large < 0 || !planar.RingContains(p.Outline.Cut, on.texts[large].At) {
				t.Errorf("piece %d has no number in it", p.Number)
			}
			for n := range p.Figures.corners() {
				at := tape.point(p.Figures.Places[n])
				k := slices.IndexFunc(on.texts, func(w sheet.Text) bool {
					return w.Body == strconv.Itoa(n+1) && w.Size < 3*on.k && math.Abs(distance(w.At, at)-2.4*on.k) < 1e-6
				})
				if k < 0 || !planar.RingContains(p.Outline.Cut, on.texts[k].At) {
					t.Errorf("piece %d: point %d has no number inside", p.Number, n+1)
				}
			}
		}
		role := map[string]sheet.Role{"fold": sheet.RoleFoldEdge, "selvedge": sheet.RoleEdge}[edge]
		far := orb.Point{l.Used, 0}
		if !on.has(role, orb.Point{}, far) || !on.has(sheet.RoleEdge, orb.Point{}, orb.Point{l.Used, l.Cloth.Max[1]}) {
			t.Error("the edges are not drawn")
		}
		if !on.says("cut end", orb.Point{-3 * on.k, l.Cloth.Max[1] / 2}, 0.1) ||
			!on.says(edge+": across is measured from here", orb.Point{0, -3 * on.k}, 0.1) ||
			!on.says("last line at 20", orb.Point{l.Used, -3 * on.k}, 0.1) {
			t.Errorf("the ends are not named: %+v", on.texts)
		}
	}
}

// An overview is as large as its paper allows: as wide as that, or as high.
func TestTheOverviewFillsItsPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Marker{Edge: "selvedge", Used: rapid.Float64Range(50, 9000).Draw(t, "used"),
			Cloth: orb.Bound{Max: orb.Point{1e5, rapid.Float64Range(200, 3000).Draw(t, "width")}}}
		wide, high := rapid.Float64Range(100, 300).Draw(t, "wide"), rapid.Float64Range(60, 200).Draw(t, "high")
		d := l.Overview(Tape{measure.Inch}, wide, high)
		w, h := d.Width/d.Scale/wide, d.Height/d.Scale/high
		if math.Abs(max(w, h)-1) > 1e-9 || math.Abs(d.Width-l.Used-17*d.Scale) > 1e-6 ||
			math.Abs(d.Height-l.Cloth.Max[1]-14*d.Scale) > 1e-6 {
			t.Fatalf("%v of the width and %v of the height", w, h)
		}
	})
}

// Piece drawings are named by their pieces, for whoever cannot see them.
func TestDrawingsAreNamed(t *testing.T) {
	l := sample(t)
	d := l.Pieces[0].Sketch(Tape{measure.Inch}, "fold", 190, 92)
	if want := "1. disc, left"; d.Title != want || d.Groups[0].Title != want || d.Description != "to be drawn with chalk" {
		t.Errorf("%q, %q: %q", d.Title, d.Groups[0].Title, d.Description)
	}
	if o := l.Overview(Tape{measure.Inch}, 190, 130); o.Description != fmt.Sprint(len(l.Pieces), " pieces") {
		t.Errorf("%q", o.Description)
	}
}
