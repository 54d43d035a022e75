package plan

import (
	"errors"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// matched drafts the first cloth of a job and matches its pieces.
func matched(t *testing.T, src string) (Spread, nest.Problem, error) {
	t.Helper()
	j := testjobs.Read(t, src)
	spreads, err := Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	s := spreads[0]
	p := s.Problem()
	matches, _, err := s.Match(j, p.Strip.Repeat)
	for i := range matches {
		p.Pieces[i].Match = matches[i]
	}
	return s, p, err
}

// onRepeat lays every copy of p in its first turn, one after the other along the
// cloth, each on the first place that its group allows, and lets the judge confirm
// it. Along the cloth nothing lies nearer the cut end in this order. The width is left out of it.
func onRepeat(t rapid.TB, p nest.Problem) nest.Layout {
	t.Helper()
	p.Strip.Width = 1e4
	var l nest.Layout
	phases := map[int]orb.Point{}
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			pl := nest.Placed{Piece: i, Copy: c, Mirrored: piece.Mirror == nest.Paired && c%2 == 1}
			pl.Turn = piece.Turns[c/2%len(piece.Turns)]
			if pl.Mirrored {
				pl.Turn = math.Mod(360-pl.Turn, 360)
			}
			least := plane.Bounds(p.Outline(pl)).Min
			point := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn}.Apply(orb.Ring{piece.Match.Point})[0]
			phase, settled := phases[piece.Match.Groups[c]]
			for axis, repeat := range []float64{p.Strip.Repeat.Along, p.Strip.Repeat.Across} {
				from := -least[axis]
				if axis == 0 {
					from += l.Length
				}
				pl.At[axis] = from
				if repeat > 0 && settled {
					// The least place from here on; the judge rounds to the nearest step.
					k := math.Ceil((from+point[axis]-phase[axis]-0.5*plane.Lattice)/repeat - 1e-9)
					pl.At[axis] = plane.Snap(phase[axis] + k*repeat - point[axis])
				}
			}
			if !settled {
				phases[piece.Match.Groups[c]] = add(point, pl.At)
			}
			l.Length = plane.Bounds(p.Outline(pl)).Max[0]
			l.Placed = append(l.Placed, pl)
		}
	}
	if err := nest.Verify(p, l); err != nil {
		t.Fatal(err)
	}
	return l
}

// laidAt returns where a point of a piece lies once the copy is placed.
func laidAt(pl nest.Placed, point orb.Point) orb.Point {
	return plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn, At: pl.At}.Apply(orb.Ring{point})[0]
}

// agreeOn fails unless two points on the cloth agree modulo the repeat, to a step
// of the lattice for either piece and the tolerance of drafted arcs.
func agreeOn(t rapid.TB, r nest.Repeat, a, b orb.Point, what string) {
	t.Helper()
	for axis, repeat := range []float64{r.Along, r.Across} {
		if repeat == 0 {
			continue
		}
		off := a[axis] - b[axis]
		if off -= math.Round(off/repeat) * repeat; math.Abs(off) > 2*plane.Lattice+matchTolerance {
			t.Fatalf("%s: %v and %v are %.3f mm apart modulo %v mm", what, a, b, off, repeat)
		}
	}
}

const checked = `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "check"
width = 60
nap = "two-way"
repeat = { along = "4 1/2", across = "3 3/4" }
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "check"
circle = "half"
gores = 6
waist = 28
length = 30
`

const skirtSeams = `[[match]]
name = "back seams"
cloth = "check"
points = [
  { piece = "skirt centre back gore", edge = "front seam", at = 9 },
  { piece = "skirt side gore", edge = "back seam", at = 9, from = "end" },
]
[[match]]
name = "front seams"
cloth = "check"
points = [
  { piece = "skirt side gore", edge = "front seam", at = 9 },
  { piece = "skirt centre front gore", edge = "back seam", at = 9, from = "end" },
]
`

// Match points agree modulo the repeat at the stitching line, on both axes
// (Successful Sewing, Goodheart-Willcox 2013, p. 108). The places are reckoned
// from the draft: a half circle in six gores has 15 degrees to either side of a
// gore's middle, and its waist lies 28/pi in from the centre.
func TestMatchPointsAgreeAtTheStitchingLine(t *testing.T) {
	s, p, err := matched(t, checked+skirtSeams)
	if err != nil {
		t.Fatal(err)
	}
	l := onRepeat(t, p)
	radius := (28/math.Pi + 9) * measure.Inches
	lower := orb.Point{radius * math.Cos(math.Pi/12), -radius * math.Sin(math.Pi/12)}
	upper := orb.Point{lower[0], -lower[1]}
	// The centre of the circle in the coordinates of each piece, by its hem: an arc
	// about it through the hem's first point.
	centre := func(piece int) orb.Point {
		hem, _ := s.Cuts[piece].Piece.Edge("hem")
		hemRadius := (28/math.Pi + 30) * measure.Inches
		return orb.Point{hem.Line[0][0] - hemRadius*math.Cos(math.Pi/12),
			hem.Line[0][1] + hemRadius*math.Sin(math.Pi/12)}
	}
	seams := 0
	for _, a := range l.Placed {
		for _, b := range l.Placed {
			// Alike turned and mirrored, from the back to the next one forward.
			if b.Piece != a.Piece+1 || a.Turn != b.Turn || a.Mirrored != b.Mirrored {
				continue
			}
			seams++
			agreeOn(t, p.Strip.Repeat, laidAt(a, add(centre(a.Piece), lower)), laidAt(b, add(centre(b.Piece), upper)),
				s.Cuts[a.Piece].Piece.Name+" and "+s.Cuts[b.Piece].Piece.Name)
		}
	}
	if seams != 4 {
		t.Errorf("%d seams were compared, want two on either side", seams)
	}
}

// Turned copies agree within their set as well: of four on a two-way cloth every
// other one is laid turned.
func TestMatchHoldsInEveryTurn(t *testing.T) {
	s, p, err := matched(t, strings.Replace(checked, "name = \"skirt\"", "name = \"skirt\"\ntimes = 4", 1)+skirtSeams)
	if err != nil {
		t.Fatal(err)
	}
	l := onRepeat(t, p)
	seen := map[float64]bool{}
	group := func(pl nest.Placed) int { return p.Pieces[pl.Piece].Match.Groups[pl.Copy] }
	for _, a := range l.Placed {
		for _, b := range l.Placed {
			if b.Piece != a.Piece+1 || group(a) != group(b) || a.Turn != b.Turn || a.Mirrored != b.Mirrored {
				continue
			}
			seen[a.Turn] = true
			front, _ := s.Cuts[a.Piece].Piece.Edge("front seam")
			back, _ := s.Cuts[b.Piece].Piece.Edge("back seam")
			at, _ := front.At(9 * measure.Inches)
			to, _ := back.At(back.Length() - 9*measure.Inches)
			agreeOn(t, p.Strip.Repeat, laidAt(a, at), laidAt(b, to), s.Cuts[a.Piece].Piece.Name)
		}
	}
	if len(seen) != 2 {
		t.Errorf("turns met: %v", seen)
	}
}

// A piece across the middle of the garment is its own mirror image: both its
// seams agree, the left one with the drawn neighbour, the right one with the
// mirrored one. It is cut on a fold, and its points are those of the half, in the
// coordinates of the opened piece.
func TestMatchOnBothSidesOfTheMiddle(t *testing.T) {
	s, p, err := matched(t, strings.Replace(checked, "gores = 6", "gores = 6\nfront_on_fold = true", 1)+`[[match]]
name = "front seams"
cloth = "check"
points = [
  { piece = "skirt side gore", edge = "front seam", at = 9 },
  { piece = "skirt centre front gore", edge = "side seam", at = 9, from = "end" },
]
`)
	if err != nil {
		t.Fatal(err)
	}
	l := onRepeat(t, p)
	var front, side int
	for i, cut := range s.Cuts {
		piece := cut.Piece
		if piece.OnFold {
			front = i
		} else if strings.Contains(piece.Name, "side") {
			side = i
		}
	}
	whole := s.Cuts[front].Piece.Unfold()
	drawn, _ := whole.Edge("side seam")
	mirrored, _ := whole.Edge("side seam mirrored")
	sew, _ := s.Cuts[side].Piece.Edge("front seam")
	at, _ := sew.At(9 * measure.Inches)
	right, _ := drawn.At(drawn.Length() - 9*measure.Inches)
	left, _ := mirrored.At(9 * measure.Inches)
	for _, pl := range l.Placed {
		to := right
		if pl.Mirrored {
			to = left
		}
		for _, f := range l.Placed {
			if pl.Piece == side && f.Piece == front {
				agreeOn(t, p.Strip.Repeat, laidAt(pl, at), laidAt(f, to), fmt.Sprintf("mirrored %v", pl.Mirrored))
			}
		}
	}
}

// Without matches the pieces of a part agree along at the least x of their seam
// line and across at its middle, and parts need not agree with each other.
func TestPartsAgreeWithoutMatches(t *testing.T) {
	s, p, err := matched(t, checked+`[[part]]
name = "belt"
draft = "rectangle"
cloth = "check"
length = 30
width = 4
`)
	if err != nil {
		t.Fatal(err)
	}
	l := onRepeat(t, p)
	place := func(pl nest.Placed) orb.Point {
		b := plane.Bounds(s.Cuts[pl.Piece].Piece.Seam)
		return laidAt(pl, orb.Point{b.Min[0], (b.Min[1] + b.Max[1]) / 2})
	}
	first := l.Placed[0]
	if first.At != (orb.Point{0, 0}) {
		t.Errorf("the first gore lies at %v, in the corner nothing is lost", first.At)
	}
	for _, pl := range l.Placed {
		if s.Cuts[pl.Piece].Part.Name == "skirt" && pl.Turn == first.Turn {
			agreeOn(t, p.Strip.Repeat, place(first), place(pl), s.Cuts[pl.Piece].Piece.Name)
		}
	}
	// The belt hangs together with nothing.
	groups := map[int]string{}
	for i, piece := range p.Pieces {
		for _, g := range piece.Match.Groups {
			if part := groups[g]; part != "" && part != s.Cuts[i].Part.Name {
				t.Errorf("%s and %s are to agree", part, s.Cuts[i].Part.Name)
			}
			groups[g] = s.Cuts[i].Part.Name
		}
	}
	if len(groups) != 2 {
		t.Errorf("%d groups, want the skirt and the belt", len(groups))
	}
}

// Sets of a part, gowns and wearers are groups of their own; where parts that hang
// together are cut in other numbers of sets, as many sets of all as there can be.
func TestSetsNeedNotAgree(t *testing.T) {
	src := `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "check"
width = 60
repeat = { along = 4 }
[[part]]
name = "front"
draft = "rectangle"
cloth = "check"
length = 20
width = 9
count = 3
times = 4
[[part]]
name = "cuff"
draft = "rectangle"
cloth = "check"
length = 9
width = 3
times = 6
`
	tied := src + `[[match]]
name = "wrist"
cloth = "check"
points = [ { piece = "front", edge = "lower side", at = 3 }, { piece = "cuff", edge = "upper side", at = 3 } ]
`
	for _, c := range []struct {
		src         string
		gowns       int
		front, cuff []int // the group of each copy
	}{
		{src, 1, []int{0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3}, []int{4, 5, 6, 7, 8, 9}},
		{tied, 1, []int{0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1}, []int{0, 0, 0, 1, 1, 1}},
		{tied, 2, slices.Concat(slices.Repeat([]int{0}, 6), slices.Repeat([]int{1}, 6), slices.Repeat([]int{2}, 6),
			slices.Repeat([]int{3}, 6)),
			[]int{0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3}},
	} {
		tasks, err := Tasks(testjobs.Read(t, c.src), c.gowns)
		if err != nil {
			t.Fatal(err)
		}
		p := tasks[0].Problem
		if front, cuff := p.Pieces[0].Match.Groups, p.Pieces[1].Match.Groups; !slices.Equal(front, c.front) ||
			!slices.Equal(cuff, c.cuff) {
			t.Errorf("%d gowns: groups %v and %v, want %v and %v", c.gowns, front, cuff, c.front, c.cuff)
		}
	}
}

// A cloth without a repeat has nothing to match.
func TestNoRepeatNoMatch(t *testing.T) {
	_, p, err := matched(t, strings.Replace(checked, "repeat = { along = \"4 1/2\", across = \"3 3/4\" }", "", 1))
	if err != nil || p.Pieces[0].Match != nil {
		t.Errorf("%v, %v", p.Pieces[0].Match, err)
	}
}

// What cannot be matched is refused at its place in the file, with what would help.
func TestMatchesAreRefused(t *testing.T) {
	for _, c := range []struct{ name, from, to, want, hint string }{
		{"piece", `"skirt side gore", edge = "back seam"`, `"skirt sidegore", edge = "back seam"`,
			"23:3: match `back seams`: no piece \"skirt sidegore\" is cut from `check`",
			"did you mean `skirt side gore`?"},
		{"edge", `"skirt side gore", edge = "back seam"`, `"skirt side gore", edge = "back seem"`,
			"23:3: match `back seams`: piece `skirt side gore` has no edge \"back seem\" to sew",
			"did you mean `back seam`?"},
		{"far", `edge = "back seam", at = 9, from = "end" },`, `edge = "back seam", at = 31 },`,
			"23:3: match `back seams`: the point lies 31 in along the back seam of `skirt side gore`, which is 30 in " +
				"long", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := strings.Replace(checked+skirtSeams, c.from, c.to, 1)
			_, _, err := matched(t, src)
			var bad strict.Errors
			if !errors.As(err, &bad) || len(bad) != 1 {
				t.Fatalf("got %v, want one refusal", err)
			}
			if text := bad[0].Error(); !strings.Contains(text, c.want) || !strings.Contains(text, c.hint) {
				t.Errorf("got %s\nwant %s, %s", text, c.want, c.hint)
			}
		})
	}
}

// Panels 5 in wide meet round a tube: three of them come to 15 in, which is three
// repeats of 5 and no whole number of repeats of 4. The last seam misses by 1 in.
func TestRingsOfMatchesMustClose(t *testing.T) {
	tube := func(repeat string) string {
		src := `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "stripe"
width = 60
repeat = { across = "` + repeat + `" }
`
		names := []string{"one", "two", "three"}
		for _, n := range names {
			src += "[[part]]\nname = \"" + n + "\"\ndraft = \"rectangle\"\ncloth = \"stripe\"\nlength = 20\nwidth = 5\n"
		}
		for i, n := range names {
			src += fmt.Sprintf("[[match]]\nname = \"seam %d\"\ncloth = \"stripe\"\npoints = [\n{ piece = %q, edge = "+
				"\"upper side\", at = 6 },\n{ piece = %q, edge = \"lower side\", at = 6, from = \"end\" },\n]\n",
				i+1, n, names[(i+1)%3])
		}
		return src
	}
	if _, p, err := matched(t, tube("5")); err != nil {
		t.Error(err)
	} else {
		onRepeat(t, p)
	}
	_, _, err := matched(t, tube("4"))
	var bad strict.Errors
	if !errors.As(err, &bad) || len(bad) != 1 {
		t.Fatalf("got %v, want one refusal", err)
	}
	for _, want := range []string{"upper side of `", "lower side of `", "miss each other by 1 in across the cloth",
		"repeat is 4 in", "`seam 1`", "`seam 2`", "`seam 3`"} {
		if !strings.Contains(bad[0].Error(), want) {
			t.Errorf("%q is missing in: %v", want, bad[0])
		}
	}
}

// Both edges of one piece: a tube of one panel closes on whole repeats alone.
func TestOnePieceAgainstItself(t *testing.T) {
	src := `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "stripe"
width = 60
repeat = { across = "WIDE" }
[[part]]
name = "tube"
draft = "rectangle"
cloth = "stripe"
length = 20
width = 12
[[match]]
name = "seam"
cloth = "stripe"
points = [ { piece = "tube", edge = "upper side", at = 6 }, { piece = "tube", edge = "lower side", at = 6 } ]
`
	if _, _, err := matched(t, strings.Replace(src, "WIDE", "4", 1)); err != nil {
		t.Error(err)
	}
	_, _, err := matched(t, strings.Replace(src, "WIDE", "5", 1))
	if err == nil || !strings.Contains(err.Error(),
		"miss each other by 2 in across the cloth, where the repeat is 5 in: both lie on one piece") {
		t.Errorf("got %v", err)
	}
}

// Pieces drawn larger for a cloth that shrinks are matched at the same place of
// the finished seam, and at the same place of the cloth.
func TestMatchOnAClothThatShrinks(t *testing.T) {
	src := strings.Replace(checked, "nap = \"two-way\"",
		"nap = \"one-way\"\nshrinkage = { warp = \"-4 %\", weft = \"-2 %\", by = \"pieces\" }", 1)
	s, p, err := matched(t, src+skirtSeams)
	if err != nil {
		t.Fatal(err)
	}
	l := onRepeat(t, p)
	radius := (28/math.Pi + 9) * measure.Inches
	grown := orb.Point{1 / 0.96, 1 / 0.98}
	lower := orb.Point{radius * math.Cos(math.Pi/12) * grown[0], -radius * math.Sin(math.Pi/12) * grown[1]}
	centre := func(piece int) orb.Point {
		hem, _ := s.Cuts[piece].Piece.Edge("hem")
		r := (28/math.Pi + 30) * measure.Inches
		return orb.Point{hem.Line[0][0] - r*math.Cos(math.Pi/12)*grown[0],
			hem.Line[0][1] + r*math.Sin(math.Pi/12)*grown[1]}
	}
	for _, a := range l.Placed {
		for _, b := range l.Placed {
			if b.Piece == a.Piece+1 && a.Mirrored == b.Mirrored {
				upper := orb.Point{lower[0], -lower[1]}
				agreeOn(t, p.Strip.Repeat, laidAt(a, add(centre(a.Piece), lower)),
					laidAt(b, add(centre(b.Piece), upper)), s.Cuts[a.Piece].Piece.Name)
			}
		}
	}
}

// Random ties between panels, made from places that are known to agree, never
// contradict each other; one of them moved off is refused by as much as it was
// moved when it closes a ring.
func TestRandomMatchesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, least,
			most int) float64 {
			return float64(rapid.IntRange(least, most).Draw(t, name))
		}
		repeat := nest.Repeat{Along: length("repeat", 20, 90)}
		s, j := Spread{Cloth: job.Cloth{ID: "stripe", Nap: job.TwoWay}}, &job.Job{Unit: measure.Millimetre}
		n := rapid.IntRange(2, 5).Draw(t, "pieces")
		hidden := make([]float64, n) // where each origin lies along the cloth
		for i := range n {
			made, err := draft.Rectangle{Name: fmt.Sprint(i), Length: 400, Width: length("width", 10, 50)}.Draft()
			if err != nil {
				t.Fatal(err)
			}
			cut := Cut{Piece: made.Pieces[0], Part: job.Part{Name: "part"}}
			cut.Finished.Along, cut.Finished.Across = cut.Piece.Finished()
			s.Cuts = append(s.Cuts, cut)
			hidden[i] = length("origin", 0, 300)
		}
		point := func(i int, place float64) job.MatchPoint {
			at := place - hidden[i]
			at -= math.Floor(at/repeat.Along) * repeat.Along
			return job.MatchPoint{Piece: fmt.Sprint(i), Edge: "lower side", Distance: at}
		}
		for m := range rapid.IntRange(1, 6).Draw(t, "matches") {
			place := length("place", 0, 300)
			match := job.Match{Name: fmt.Sprint("seam ", m), Cloth: "stripe"}
			for i := range n {
				if rapid.Bool().Draw(t, "in") {
					match.Points = append(match.Points, point(i, place))
				}
			}
			j.Matches = append(j.Matches, match)
		}
		matches, _, err := s.Match(j, repeat)
		if err != nil {
			t.Fatal(err)
		}
		p := s.Problem()
		p.Strip.Repeat = repeat
		for i := range matches {
			p.Pieces[i].Match = matches[i]
		}
		l := onRepeat(t, p)
		for _, match := range j.Matches {
			for k := 1; k < len(match.Points); k++ {
				agreeOn(t, repeat, atEdge(l, match.Points[0]), atEdge(l, match.Points[k]), match.Name)
			}
		}
		// A ring: two seams between the first two panels, the second one moved off.
		off := length("off", 1, int(repeat.Along)-1)
		moved := point(1, 7)
		moved.Distance += off
		j.Matches = append(j.Matches,
			job.Match{Name: "ring 1", Cloth: "stripe", Points: []job.MatchPoint{point(0, 3), point(1, 3)}},
			job.Match{Name: "ring 2", Cloth: "stripe", Points: []job.MatchPoint{point(0, 7), moved}})
		_, _, err = s.Match(j, repeat)
		want := fmt.Sprintf("miss each other by %s along",
			measure.Format(min(off, repeat.Along-off), measure.Millimetre))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Fatalf("got %v, want %q", err, want)
		}
	})
}

// atEdge returns where a point on the lower side of a rectangle lies.
func atEdge(l nest.Layout, p job.MatchPoint) orb.Point {
	for _, pl := range l.Placed {
		if fmt.Sprint(pl.Piece) == p.Piece {
			return laidAt(pl, orb.Point{p.Distance, 0})
		}
	}
	return orb.Point{}
}

// The demo job of a check: the pieces as their file matches them.
func TestDemoOfACheckMatches(t *testing.T) {
	src, err := os.ReadFile("../../../../testdata/plaid-cape.toml")
	if err != nil {
		t.Fatal(err)
	}
	s, p, err := matched(t, string(src))
	if err != nil {
		t.Fatal(err)
	}
	l := onRepeat(t, p)
	front, _ := s.Cuts[0].Piece.Edge("back seam")
	back, _ := s.Cuts[1].Piece.Edge("front seam")
	at, _ := front.At(front.Length() - 12*measure.Inches)
	to, _ := back.At(12 * measure.Inches)
	for _, a := range l.Placed[:2] {
		for _, b := range l.Placed[2:] {
			agreeOn(t, p.Strip.Repeat, laidAt(a, at), laidAt(b, to), "side seams") // one seam: drawn and mirrored alike
		}
	}
}
