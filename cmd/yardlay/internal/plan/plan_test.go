package plan

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Each cloth gets the pieces of its parts, named by part and piece, with the
// rights that pair and faces give; a cloth that nothing is cut from is left out.
func TestDrawSortsPiecesByCloth(t *testing.T) {
	spreads, err := Draw(testjobs.Read(t, testjobs.Small))
	if err != nil {
		t.Fatal(err)
	}
	type laid struct {
		Cloth, Name string
		Count       int
		Mirror      nest.Mirror
		Turns       int
	}
	var got []laid
	for _, s := range spreads {
		for _, p := range s.Problem().Pieces {
			got = append(got, laid{s.Cloth.ID, p.Name, p.Count, p.Mirror, len(p.Turns)})
		}
	}
	want := []laid{
		{"wool", "cape half", 2, nest.Paired, 2},
		{"wool", "belt", 1, nest.AsDrawn, 2},
		{"tulle", "cape half", 2, nest.Free, 1},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if w := spreads[0].Problem().Strip.Width / measure.Inches; math.Abs(w-57) > 1e-9 {
		t.Errorf("usable width is %v in, want 58 less two selvedges of 1/2", w)
	}
}

// A piece on the fold is laid whole: a cape of half a circle from neck 16 has
// radii 16/pi and 16/pi + 14 (plain geometry), so it is twice 19.1 in across.
func TestFoldIsOpenedOut(t *testing.T) {
	src := strings.Replace(testjobs.Small, "back_seam = true", "back_on_fold = true", 1)
	spreads, err := Draw(testjobs.Read(t, src))
	if err != nil {
		t.Fatal(err)
	}
	if !spreads[0].Cuts[0].Piece.OnFold {
		t.Fatal("the cape is not on the fold")
	}
	b := spreads[0].Problem().Pieces[0].Outline.Bound()
	// Hem at the ends: 1 in of allowance outside the radius, 1/2 in beyond the centre front.
	want := 2 * math.Sqrt(math.Pow(16/math.Pi+15, 2)) * measure.Inches
	if got := b.Max[1] - b.Min[1]; math.Abs(got-want) > 1 {
		t.Errorf("the opened cape is %.1f mm across, want %.1f", got, want)
	}
}

func TestNamesSayNothingTwice(t *testing.T) {
	for _, c := range []struct{ part, piece, want string }{
		{"skirt", "centre back gore", "skirt centre back gore"},
		{"cape", "cape front", "cape front"},
		{"collar flounce", "flounce section", "collar flounce section"},
		{"net skirt", "skirt half", "net skirt half"},
		{"ruff", "ruffle strip", "ruff ruffle strip"},
		{"waistband", "waistband", "waistband"}, {"sleeve", "upper sleeve", "upper sleeve"},
		{"long sleeve", "upper sleeve", "long sleeve upper sleeve"},
	} {
		if got := fullName(c.part, c.piece); got != c.want {
			t.Errorf("%q of %q is called %q, want %q", c.piece, c.part, got, c.want)
		}
	}
}
