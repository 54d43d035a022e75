package depict

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Allowances are said kind by kind, as a span where edges of a kind differ.
func TestAllowanceWords(t *testing.T) {
	edges := []shapes.Edge{{Kind: shapes.Seam, Allowance: 15}, {Kind: shapes.Hem, Allowance: 0}, {Kind: shapes.Fold},
		{Kind: shapes.Seam, Allowance: 25}, {Kind: shapes.Waist, Allowance: 10}}
	if got := Allowances(edges, measure.Millimetre); got !=
		"allowances drawn: seam 15.0 to 25.0 mm, hem none, waist 10.0 mm" {
		t.Errorf("says %q", got)
	}
}

// On markers for the table each piece says what it is cut as, for whom, its allowances, its
// cloth and face, the gown and the mark, whichever way its cloth is laid; on others none
// of it.
func TestMarkersForTheTableCarryFacts(t *testing.T) {
	for _, cloth := range []string{
		"", "nap = \"all-way\"\nboth_faces = true", "lay = \"lengthwise-fold\"",
		"shrinkage = { warp = \"-2 %\", weft = \"-2 %\", by = \"pieces\" }",
	} {
		j := testjobs.Read(t, grainJob(cloth))
		r, err := report.Run(context.Background(), j,
			plan.Options{Effort: nest.Trial, Workers: 1, Unit: measure.Centimetre})
		if err != nil {
			t.Fatalf("%s: %v", cloth, err)
		}
		c := r.Cloths[0]
		carried := Carried{Gown: "Weir Street gown", Gowns: 3, Unit: measure.Centimetre, Mark: "31 May 2026 · mark a2b3"}
		plain, n := Marker(r, c), 0
		for k, s := range carried.MarkerAtTable(r, c).Stretches {
			for i, pl := range s.Pieces {
				n++
				said := strings.Join(slices.Concat(pl.Facts...), "\n")
				face := "right side up"
				if strings.Contains(cloth, "both_faces") {
					face = "either face up"
				}
				for _, want := range []string{"Weir Street gown", "mark a2b3", "crepe, " + face, "allowances drawn: ", "cut "} {
					if !strings.Contains(said, want) {
						t.Errorf("%s: %s does not say %q:\n%s", cloth, pl.Name, want, said)
					}
				}
				if strings.HasPrefix(pl.Name, "panel") && !strings.Contains(said, "cut 6") {
					t.Errorf("%s: %s of three gowns says\n%s", cloth, pl.Name, said)
				}
				if strings.Contains(said, "drawn larger") != strings.Contains(cloth, "shrink") {
					t.Errorf("%s: %s says\n%s", cloth, pl.Name, said)
				}
				if plain.Stretches[k].Pieces[i].Facts != nil {
					t.Errorf("%s carries facts on a small marker", pl.Name)
				}
			}
		}
		if n == 0 {
			t.Error("nothing is laid")
		}
	}
}

// A dart of a piece on a fold is there twice once the piece is opened out, each with its
// apex and its feet.
func TestDartsOpenOut(t *testing.T) {
	p, err := shapes.NewPiece("front", []shapes.Edge{
		{Name: "fold", Kind: shapes.Fold, Line: orb.LineString{{0, 0}, {300, 0}}},
		{Name: "hem", Line: orb.LineString{{300, 0}, {300, 220}}, Allowance: 10},
		{Name: "side", Line: orb.LineString{{300, 220}, {0, 220}}, Allowance: 10},
		{Name: "waist", Line: orb.LineString{{0, 220}, {0, 0}}, Allowance: 10}})
	if err != nil {
		t.Fatal(err)
	}
	p.Inside = append(p.Inside, orb.LineString{{150, 20}, {250, 20}, {250, 40}}) // no dart
	if err := p.AddDart("waist", shapes.Mouth{From: 80, Width: 40}, orb.Point{130, 120}); err != nil {
		t.Fatal(err)
	}
	half, whole := Outline(p), p.Unfold()
	if len(half.Darts) != 1 || half.Darts[0] != 1 {
		t.Fatalf("darts are lines %v of the half", half.Darts)
	}
	o := opened(p, whole, []nest.Placed{{}})
	if len(o.Darts) != 2 {
		t.Fatalf("darts are lines %v of the whole", o.Darts)
	}
	middle := plane.Bounds(whole.Cut).Center()[1]
	a, b := o.Inside[o.Darts[0]], o.Inside[o.Darts[1]]
	for i := range a {
		if c := b[len(b)-1-i]; a[i][0] != c[0] || math.Abs(a[i][1]+c[1]-2*middle) > 1e-9 {
			t.Errorf("darts %v and %v are no mirror images about %g", a, b, middle)
		}
	}
}
