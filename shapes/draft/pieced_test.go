package draft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Pieced gores are cut no wider than asked for, are together as large as whole ones, and every
// seam is as long as before, its notches as far along; piecing seams stay off the waist and the
// centre front, and are alike on both sides.
func TestPiecedGoresMakeTheSkirt(t *testing.T) {
	pieced := 0
	rapid.Check(t, func(t *rapid.T) {
		waist := rapid.Float64Range(600, 900).Draw(t, "waist")
		s := GoredSkirt{
			Waist: waist, Hip: waist + 250, HipDepth: 200, Length: rapid.Float64Range(700, 1200).Draw(t, "length"),
			Gores: rapid.IntRange(4, 9).Draw(t, "gores"), HemSweep: rapid.Float64Range(2000, 6000).Draw(t, "sweep"),
			Opening: true, Allowance: shapes.Allowance{Seam: 12.7, Waist: 12.7, Hem: 25},
		}
		whole, err := s.Draft()
		if err != nil {
			return
		}
		widest := 0.0
		for _, p := range whole.Pieces {
			_, across := p.Unfold().CutSize()
			widest = max(widest, across)
		}
		c := Corners{
			Within: widest * rapid.Float64Range(0.6, 0.97).Draw(t, "within"), Most: rapid.IntRange(1, 2).Draw(t, "most"),
			FromWaist: 300, Allowance: rapid.SampledFrom([]float64{6, 12.7}).Draw(t, "allowance"),
		}
		made, err := c.Of(whole)
		if err != nil {
			if len(err.Error()) == 0 || !strings.Contains(err.Error(), "gore") {
				t.Fatal(err)
			}
			return
		}
		if len(made.Pieces) > len(whole.Pieces) {
			pieced++
		}
		was, is := 0.0, 0.0
		for _, p := range whole.Pieces {
			was += float64(p.Count*layers(p)) * plane.Area(p.Seam)
		}
		for _, p := range made.Pieces {
			is += float64(p.Count*layers(p)) * plane.Area(p.Seam)
			if _, across := p.Unfold().CutSize(); across > c.Within+plane.Lattice {
				t.Errorf("%s is %v wide, of %v", p.Name, across, c.Within)
			}
		}
		if math.Abs(was-is) > 1e-6*was {
			t.Errorf("%v mm2 together, of %v", is, was)
		}
		sameJoins(t, whole, made)
	})
	if pieced < often.Enough(10) {
		t.Errorf("only %d were pieced", pieced)
	}
}

func layers(p shapes.Piece) int {
	if p.OnFold {
		return 2
	}
	return 1
}

// sameJoins holds the seams of a draft to be those of the whole one behind new ones.
func sameJoins(t *rapid.T, whole, made Result) {
	before, err := shapes.SewingOrder(whole.Pieces, whole.Joins)
	if err != nil {
		t.Fatal(err)
	}
	after, err := shapes.SewingOrder(made.Pieces, made.Joins)
	if err != nil {
		t.Fatal(err)
	}
	fresh := len(after) - len(before)
	for i, step := range after {
		if i < fresh {
			if step.CutA != step.CutB && math.Abs(step.CutA-step.CutB) > 1e-6 ||
				!strings.Contains(step.Join.Name, "corner") && !strings.Contains(step.Join.Name, " part") {
				t.Errorf("piecing %q: %v and %v", step.Join.Name, step.CutA, step.CutB)
			}
			continue
		}
		old := before[i-fresh]
		if step.Join.Name != old.Join.Name || math.Abs(step.CutA-old.CutA) > 1e-5 ||
			math.Abs(step.CutB-old.CutB) > 1e-5 {
			t.Errorf("seam %q: %v and %v, were %v and %v", step.Join.Name, step.CutA, step.CutB, old.CutA, old.CutB)
		}
	}
}

// What may not be pieced is refused by name, with the rule that keeps it whole.
func TestPiecingIsRefused(t *testing.T) {
	skirt := GoredSkirt{
		Waist: 700, Hip: 950, HipDepth: 200, Length: 900, Gores: 4, HemSweep: 3600, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 25},
	}
	whole, err := skirt.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		corners Corners
		want    string
	}{
		{Corners{Within: 700, Most: 2, FromWaist: 850, Allowance: 12}, "of its waist"},
		{Corners{Within: 250, Most: 2, FromWaist: 0, Allowance: 12}, "a corner of it would be"},
		{Corners{Within: 20, Most: 2, FromWaist: 0, Allowance: 12}, "no line along the grain"},
	} {
		if _, err := c.corners.Of(whole); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.corners, err, c.want)
		}
	}
}
