package ways

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// draftedFor drafts a job to be printed.
func draftedFor(t *testing.T, src string) (*Printing, []plan.Spread) {
	t.Helper()
	p := &Printing{file: testjobs.File(t, "job.toml", src), unit: measure.Inch,
		mark: "a2b3"}
	spreads, err := plan.Draw(p.file.Job())
	if err != nil {
		t.Fatal(err)
	}
	return p, spreads
}

// With every copy the copies printed are those that are cut, however they are grouped: each
// once, mirrored ones apart from others.
func TestEveryCopyIsPrinted(t *testing.T) {
	p, spreads := draftedFor(t, string(job.Starter()))
	p.o.everyCopy = true
	pieces, err := p.drawFull(spreads)
	if err != nil {
		t.Fatal(err)
	}
	printed, cut := map[string]int{}, map[string]int{}
	for _, f := range pieces {
		printed[f.name+" in "+f.cloth] += f.copies
		if (f.copies == 1) == strings.Contains(f.cut, "cut each of these") {
			t.Errorf("%s is printed %d times and says %q", f.name, f.copies, f.cut)
		}
	}
	for _, s := range spreads {
		for _, c := range s.Cuts {
			cut[c.Piece.Name+" in "+s.Cloth.Title] += c.Piece.Count
			for _, of := range printedAlike(c.Piece) {
				for _, k := range of {
					if mirroredCopy(c.Piece, k) != mirroredCopy(c.Piece, of[0]) {
						t.Errorf("%s: copies %d and %d are drawn alike", c.Piece.Name, k, of[0])
					}
				}
			}
		}
	}
	for name, n := range cut {
		if printed[name] != n {
			t.Errorf("%s is cut %d times and printed %d times", name, n, printed[name])
		}
	}
}

// Match points of a piece on a fold lie on the half that is drawn, where those of the whole
// piece come to lie once the half is opened out.
func TestMatchPointsOnAHalf(t *testing.T) {
	half, err := shapes.NewPiece("front", []shapes.Edge{
		{Name: "fold", Kind: shapes.Fold, Line: orb.LineString{{0, 0}, {300, 0}}},
		{Name: "hem", Line: orb.LineString{{300, 0}, {300, 120}}, Allowance: 10},
		{Name: "side", Line: orb.LineString{{300, 120}, {0, 120}}, Allowance: 10},
		{Name: "waist", Line: orb.LineString{{0, 120}, {0, 0}}, Allowance: 10}})
	if err != nil {
		t.Fatal(err)
	}
	whole := half.Unfold()
	at, _ := whole.Edges[1].At(100)
	got := onDrafted([]plan.Meet{{Name: "side seams", At: at}}, half, &sheet.Letters{})
	if len(got) != 1 || got[0].Name != "A" {
		t.Fatalf("%v", got)
	}
	pose := plan.HalfPose(half, whole.Cut)
	back := pose.ApplyPoint(got[0].At)
	middle := plane.Bounds(whole.Cut).Center()
	if onWhole := at; onWhole != back && (orb.Point{at[0], 2*middle[1] - at[1]}) != back {
		t.Errorf("%v of the whole piece is marked at %v", at, back)
	}
	if b := plane.Bounds(half.Cut); !b.Contains(got[0].At) {
		t.Errorf("%v lies beyond the half", got[0].At)
	}
}
