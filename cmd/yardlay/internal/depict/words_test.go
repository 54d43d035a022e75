package depict

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
)

// What a marker says of its length is what is proved of it, and of what: never more.
func TestMarkersSayWhatIsProved(t *testing.T) {
	length, fold, shelf := make([]report.Length, 2), make([]report.Stretch, 1), &report.Shelf{}
	for _, c := range []struct {
		cloth report.Cloth
		want  []string
	}{
		{report.Cloth{}, nil},
		{report.Cloth{Used: 900, Bound: 700}, []string{"no marker is under 70.0 cm"}},
		{report.Cloth{Used: 900, Bound: 700, Proved: true},
			[]string{"no marker is under 70.0 cm", "purchase proved minimal"}},
		{report.Cloth{Used: 900, Bound: 700, Lengths: length, Pinned: 1},
			[]string{"together no markers are under 70.0 cm"}},
		{report.Cloth{Used: 900, Bound: 700, Pinned: 1, Stretches: fold},
			[]string{"around the pins, no marker is under 70.0 cm"}},
		{report.Cloth{Used: 900, Bound: 700, Pinned: 1, Proved: true},
			[]string{"no marker is under 70.0 cm", "purchase proved minimal"}},
		{report.Cloth{Used: 900, Bound: 700, Pinned: 1, ProvedAsShared: true},
			[]string{"around the pins, no marker is under 70.0 cm", "purchase proved minimal around the pins"}},
		{report.Cloth{Used: 900, Bound: 700, Stretches: fold},
			[]string{"with these pieces cut double, no marker is under 70.0 cm"}},
		{report.Cloth{Used: 900, Bound: 700, Stretches: fold, Proved: true},
			[]string{"no marker is under 70.0 cm", "purchase proved minimal"}},
		{report.Cloth{Used: 900, Bound: 700, Stretches: fold, ProvedAsShared: true},
			[]string{"with these pieces cut double, no marker is under 70.0 cm",
				"purchase proved minimal for what each stretch holds"}},
		{report.Cloth{Used: 900, Bound: 700, Shelf: shelf}, []string{"no marker is under 70.0 cm"}},
		{report.Cloth{Used: 900, Bound: 700, Shelf: shelf, Pinned: 2, ProvedAsShared: true},
			[]string{"around the pins, no marker is under 70.0 cm", "purchase proved minimal as the shelf is used"}},
		{report.Cloth{Used: 900, Bound: 700, Shelf: shelf, Proved: true, ProvedAsShared: true},
			[]string{"no marker is under 70.0 cm", "purchase proved minimal"}},
	} {
		if c.cloth.Used > 0 {
			c.cloth.Utilisation = .857
			c.want = append([]string{report.Percent(.857) + " filled"}, c.want...)
		}
		if diff := cmp.Diff(c.want, Marker(&report.Report{Unit: measure.Centimetre}, c.cloth).Notes); diff != "" {
			t.Errorf("%+v: %s", c.cloth, diff)
		}
	}
}

// A cloth that is washed first is drawn as wide as it is then; one that is not, as it is bought.
func TestMarkersAreAsWideAsTheClothIsLaid(t *testing.T) {
	for by, want := range map[bool][2]float64{true: {1372, 19.6}, false: {1400, 20}} {
		cloth := job.Cloth{Width: 1400, Selvedge: 20, Shrinkage: job.Shrinkage{Warp: -.05, Weft: -.02, Prewash: by}}
		m := Marker(&report.Report{}, report.Cloth{Spread: plan.Spread{Cloth: cloth}})
		if fmt.Sprintf("%.4f %.4f", m.Width, m.Selvedge) != fmt.Sprintf("%.4f %.4f", want[0], want[1]) {
			t.Errorf("washed first %v: %v wide, selvedges %v", by, m.Width, m.Selvedge)
		}
	}
}

// The names of copies that one outline cuts: both of them, short where both are counted.
func TestNamesOfCopies(t *testing.T) {
	cut := func(copies ...int) (all []nest.Placed) {
		for _, c := range copies {
			all = append(all, nest.Placed{Copy: c})
		}
		return all
	}
	for _, c := range []struct {
		piece  shapes.Piece
		copies []nest.Placed
		want   string
	}{
		{shapes.Piece{Count: 1}, cut(0), ""},
		{shapes.Piece{Count: 4}, cut(1), "2 of 4"},
		{shapes.Piece{Count: 4}, cut(1, 3), "2 and 4 of 4"},
		{shapes.Piece{Count: 2, Labels: []string{"left", "right"}}, cut(1), "right"},
		{shapes.Piece{Count: 2, Labels: []string{"left", "right"}}, cut(0, 1), "left and right"},
		{shapes.Piece{Count: 2, Labels: []string{"half of it", "most of it"}}, cut(0, 1), "half of it and most of it"},
	} {
		if got := CopyNames(c.piece, c.copies); got != c.want {
			t.Errorf("%v of %d: %q, want %q", c.copies, c.piece.Count, got, c.want)
		}
	}
}

// Of a drawing with more faults than are ringed the rest is counted; those of other sizes and those
// that count others are not ringed. Roles of lines are theirs, and lines of other sizes are not drawn.
func TestFaultsOfADrawing(t *testing.T) {
	f := &take.Found{File: "a.dxf", Size: "38"}
	f.Pieces = []take.Piece{{Shape: outline.Shape{Number: 2, Name: "cuff", Edges: []outline.Edge{
		{Line: orb.LineString{{0, 0}, {50, 0}, {50, 40}, {0, 0}}}}}}}
	for i := range mostRinged + 30 {
		fault := outline.Fault{Kind: outline.Stray, Shape: []int{0, 2, 1}[i%3], Place: "line 7"}
		if i%10 == 0 {
			fault.Place = ""
		}
		f.Faults = append(f.Faults, fault)
	}
	for i, shape := range []int{0, 1, 2, 2} {
		f.Lines = append(f.Lines, outline.Line{Points: orb.LineString{{0, 0}, {float64(i), 9}}})
		f.Roles = append(f.Roles, outline.LineRole{Shape: shape, Role: []outline.Role{outline.Ignored, outline.Grain,
			outline.Fold, outline.Dart}[i]})
	}
	drawn := Taken(f, measure.Centimetre, nil)
	if drawn.Title != "a.dxf, size 38" || len(drawn.Pieces) != 1 || len(drawn.Notes) != 0 {
		t.Errorf("%q, %d pieces, notes %q", drawn.Title, len(drawn.Pieces), drawn.Notes)
	}
	want := 0
	for i, fault := range f.Faults {
		if fault.Shape != 1 && fault.Place != "" {
			if got := drawn.Faults[want]; got.Number != i+1 || got.Piece != fault.Shape ||
				!strings.HasPrefix(got.What, "stray: ") {
				t.Fatalf("fault %d is ringed as %+v", i+1, got)
			}
			want++
		}
	}
	if len(drawn.Faults) != want {
		t.Errorf("%d faults are ringed, want %d", len(drawn.Faults), want)
	}
	var roles []string
	for _, l := range drawn.Lines {
		roles = append(roles, fmt.Sprint(l.Piece, l.Role == takenRoles[outline.Ignored],
			l.Role == takenRoles[outline.Fold], l.Role == takenRoles[outline.Dart], l.Path[1][0]))
	}
	if diff := cmp.Diff([]string{"0 true false false 0", "2 false true false 2", "2 false false true 3"},
		roles); diff != "" {
		t.Error(diff)
	}
	for i := range f.Faults {
		f.Faults[i] = outline.Fault{Place: "line 7"}
	}
	drawn = Taken(f, measure.Centimetre, nil)
	if len(drawn.Faults) != mostRinged || cmp.Diff([]string{"30 more faults are not ringed."}, drawn.Notes) != "" {
		t.Errorf("%d faults are ringed, notes %q", len(drawn.Faults), drawn.Notes)
	}
}

// Pieces that lie over each other by more than half of the smaller are drawn apart, none over another
// and each as it was; others stay where they are.
func TestPiecesAreDrawnApartOnlyWhereTheyLieOverEachOther(t *testing.T) {
	box := func(x, y, w, h float64) orb.LineString {
		return orb.LineString{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}, {x, y}}
	}
	for name, c := range map[string]struct {
		boxes []orb.LineString
		moved bool
	}{
		"side by side":            {[]orb.LineString{box(0, 0, 100, 100), box(100, 0, 100, 100)}, false},
		"above each other":        {[]orb.LineString{box(0, 0, 100, 100), box(0, 100, 100, 100)}, false},
		"over each other by less": {[]orb.LineString{box(0, 0, 100, 100), box(51, 0, 100, 100)}, false},
		"over each other by more": {[]orb.LineString{box(0, 0, 100, 100), box(49, 0, 100, 100)}, true},
		"by more from below":      {[]orb.LineString{box(0, 49, 100, 100), box(0, 0, 100, 100)}, true},
		"a small one in a large":  {[]orb.LineString{box(0, 0, 900, 900), box(700, 10, 20, 30)}, true},
		"a small one beside it":   {[]orb.LineString{box(0, 0, 900, 900), box(-21, 10, 20, 30), box(3, 901, 9, 9)}, false},
		"many of them": {[]orb.LineString{box(0, 0, 300, 100), box(5, 5, 100, 300), box(-50, 0, 100, 100),
			box(0, 0, 90, 80), box(0, 0, 70, 500), box(3000, 0, 20, 20)}, true},
	} {
		f := &take.Found{}
		for i, b := range c.boxes {
			f.Pieces = append(f.Pieces, take.Piece{Shape: outline.Shape{Number: i + 1,
				Edges: []outline.Edge{{Line: b}}}})
			f.Lines = append(f.Lines, outline.Line{Points: b})
			f.Roles = append(f.Roles, outline.LineRole{Role: outline.CutLine, Shape: i + 1})
		}
		drawn := Taken(f, measure.Centimetre, nil)
		if said := len(drawn.Notes) == 1 && strings.Contains(drawn.Notes[0], "side by side"); said != c.moved {
			t.Errorf("%s: notes %q", name, drawn.Notes)
		}
		for i, p := range drawn.Pieces {
			b, was := p.Ring.Bound(), c.boxes[i].Bound()
			if b.Max[0]-b.Min[0] != was.Max[0]-was.Min[0] || b.Max[1]-b.Min[1] != was.Max[1]-was.Min[1] {
				t.Errorf("%s: piece %d is %v, was %v", name, i+1, b, was)
			}
			if !c.moved && b != was || drawn.Lines[i].Path.Bound() != b {
				t.Errorf("%s: piece %d is at %v, its line at %v, they were at %v", name, i+1, b,
					drawn.Lines[i].Path.Bound(), was)
			}
			for k := range i {
				o := drawn.Pieces[k].Ring.Bound()
				if c.moved && o.Pad(10).Intersects(b) {
					t.Errorf("%s: %d at %v lies over %d at %v", name, i+1, b, k+1, o)
				}
			}
		}
	}
}
