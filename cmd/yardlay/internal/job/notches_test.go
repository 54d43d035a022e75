package job

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// drawing is a part in one of its cloths as drafted.
type drawing struct {
	name string
	made draft.Result
}

// families are the drafts of the whole registry, from their examples and some with
// other numbers of pieces.
func families(t *testing.T) []drawing {
	t.Helper()
	var all []drawing
	add := func(name, src string) {
		for _, l := range parsed(t, src).Parts[0].Layers {
			made, err := l.Drafted()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if made.Fused {
				continue // cut within the seams
			}
			all = append(all, drawing{name + " in " + l.Cloth, made})
		}
	}
	for _, d := range drafts {
		if d.name != outlineFile.name {
			add(d.name, exampleJob(d))
		}
	}
	for d, keys := range map[*family]string{
		&strip:   `edge = "120", fullness = 2.5, depth = "9", tiers = 2`,
		&flounce: `top = "72", bottom = "160", depth = "12"`,
		&binding: `length = "140", width = "1/2"`,
	} {
		closed := *d
		closed.example = fmt.Sprintf("draft = %q, %s, closed = true", d.name, keys)
		add(d.name+" in a ring", exampleJob(closed))
	}
	for _, gores := range []int{1, 2, 3, 5, 6, 7, 10} {
		d := circleSkirt
		d.example = fmt.Sprintf(`draft = "circle-skirt", circle = "half", gores = %d, length = "40"`, gores)
		add(fmt.Sprintf("circle-skirt of %d", gores), exampleJob(d))
		d = peplum
		d.example = fmt.Sprintf(`draft = "peplum", length = "7", circle = "half", sections = %d, opening = "front"`,
			gores)
		add(fmt.Sprintf("peplum of %d", gores), exampleJob(d))
		if gores > 3 {
			d = goredSkirt
			d.example = fmt.Sprintf(`draft = "gored-skirt", gores = %d, hem_sweep = "100", length = "40", train = "20"`,
				gores)
			add(fmt.Sprintf("train of %d", gores), exampleJob(d))
		}
	}
	return all
}

// marked says whether a share is among others within half a millimetre of a length,
// its start and its end being one place of what goes round.
func marked(of float64, among []float64, length float64) bool {
	return slices.ContainsFunc(among, func(m float64) bool {
		apart := math.Abs(m - of)
		return min(apart, 1-apart)*length < 0.5
	})
}

// Every joined edge of every family carries the marks of its partner at the same
// length: a notch, or the seam or the fold that marks the place.
func TestJoinedEdgesCarryTheMarksOfTheirPartners(t *testing.T) {
	seams := 0
	for _, f := range families(t) {
		for _, j := range f.made.Joins {
			if len(j.B.Edges) == 0 {
				continue // onto a line of another part
			}
			seams++
			compareSides(t, f.name+", "+j.Name, f.made.Pieces, j.A, f.made.Pieces, j.B)
		}
	}
	if seams < 50 {
		t.Errorf("only %d seams", seams)
	}
}

// onSeam is how far along a seam, cut, the notches of one of its edges stand.
func onSeam(t *testing.T, p shapes.Piece, sewn shapes.SewnEdge) (length float64, at []float64) {
	t.Helper()
	side := shapes.JoinSide{Edges: []shapes.SewnEdge{sewn}}
	notches, _, err := side.Marks([]shapes.Piece{p})
	if err != nil {
		t.Fatal(err)
	}
	if length, _, err = side.Measure([]shapes.Piece{p}); err != nil {
		t.Fatal(err)
	}
	slices.Sort(notches)
	for _, n := range notches {
		at = append(at, n*length)
	}
	return length, at
}

// Where edges of two pieces meet, one to one, they bear as many notches: one, two or
// three, as each counts when they are sewn.
func TestSeamsBearEqualNotchCounts(t *testing.T) {
	groups := map[int]int{}
	for _, f := range families(t) {
		for _, j := range f.made.Joins {
			if len(j.A.Edges) != 1 || len(j.B.Edges) != 1 || j.A.Edges[0].Copies > 1 || j.B.Edges[0].Copies > 1 {
				continue // seams mark places there too
			}
			count := func(s shapes.SewnEdge) int {
				_, at := onSeam(t, pieceNamed(f.made.Pieces, s.Piece), s)
				return len(at)
			}
			a, b := count(j.A.Edges[0]), count(j.B.Edges[0])
			if a != b {
				t.Errorf("%s, %s: %d notches meet %d", f.name, j.Name, a, b)
			}
			groups[a]++
		}
	}
	for n := 1; n <= 3; n++ {
		if groups[n] == 0 {
			t.Errorf("no seam has %d notches: %v", n, groups)
		}
	}
}

func pieceNamed(pieces []shapes.Piece, name string) shapes.Piece {
	i := slices.IndexFunc(pieces, func(p shapes.Piece) bool { return p.Name == name })
	return pieces[i]
}

// No panel of a skirt, a cape or a corset has two seams to different neighbours that bear
// the same notches, and could be sewn in the wrong way round.
func TestPanelsCannotBeSwitchedRound(t *testing.T) {
	checked := 0
	for _, f := range families(t) {
		type use struct {
			join string
			of   shapes.SewnEdge
		}
		uses := map[string][]use{}
		for _, j := range f.made.Joins {
			if len(j.A.Edges) != 1 || len(j.B.Edges) != 1 || j.A.Edges[0].Piece == j.B.Edges[0].Piece &&
				j.A.Edges[0].Edge != j.B.Edges[0].Edge {
				continue // strips, and ends of a piece that are sewn to each other
			}
			for _, s := range []shapes.JoinSide{j.A, j.B} {
				uses[s.Edges[0].Piece] = append(uses[s.Edges[0].Piece], use{j.Name, s.Edges[0]})
			}
		}
		for name, of := range uses {
			p := pieceNamed(f.made.Pieces, name)
			_, isPanel := p.Edge("front seam")
			if _, back := p.Edge("back seam"); !isPanel && !back {
				continue
			}
			for i, a := range of {
				for _, b := range of[i+1:] {
					left, _, leftIs := strings.Cut(a.join, ", left")
					right, _, rightIs := strings.Cut(b.join, ", right")
					if a.of.Edge == b.of.Edge || leftIs && rightIs && left == right {
						continue // mirror images of each other
					}
					lengthA, atA := onSeam(t, p, a.of)
					lengthB, atB := onSeam(t, p, b.of)
					checked++
					if math.Abs(lengthA-lengthB) < 3 && slices.EqualFunc(atA, atB, func(a, b float64) bool {
						return math.Abs(a-b) < 3
					}) {
						t.Errorf("%s: %s bears %.0f on %s (%s) and on %s (%s)", f.name, name, atA, a.of.Edge, a.join,
							b.of.Edge, b.join)
					}
				}
			}
		}
	}
	if checked < 30 {
		t.Errorf("only %d pairs of seams", checked)
	}
}

func compareSides(t *testing.T, name string, a []shapes.Piece, sideA shapes.JoinSide, b []shapes.Piece,
	sideB shapes.JoinSide) {
	t.Helper()
	notchesA, seamsA, err := sideA.Marks(a)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	notchesB, seamsB, err := sideB.Marks(b)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	_, length, err := sideA.Measure(a)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	for _, m := range notchesA {
		if !marked(m, slices.Concat(notchesB, seamsB), length) {
			t.Errorf("%s: %s is marked at %.4f, %s only at %.4f and by seams at %.4f", name, sideA, m, sideB, notchesB,
				seamsB)
		}
	}
	for _, m := range notchesB {
		if !marked(m, slices.Concat(notchesA, seamsA), length) {
			t.Errorf("%s: %s is marked at %.4f, %s only at %.4f and by seams at %.4f", name, sideB, m, sideA, notchesA,
				seamsA)
		}
	}
}

// Whatever is sewn at the waist or the neck has its quarters marked, so that a
// waistband's or a hood's meet them; sewn together any two have all the marks of each
// other.
func TestWaistsAndNecksMatchEachOther(t *testing.T) {
	all := families(t)
	matchRound(t, all, 20, draft.WaistOf, draft.ErrNoWaist)
	matchRound(t, all, 3, draft.NeckOf, draft.ErrNoNeck)
}

func matchRound(t *testing.T, all []drawing, least int, sideOf func(draft.Result) (shapes.JoinSide, error),
	none error) {
	t.Helper()
	var round []drawing
	for _, f := range all {
		side, err := sideOf(f.made)
		if errors.Is(err, none) {
			continue
		}
		if err != nil {
			t.Fatalf("%s: %v", f.name, err)
		}
		notches, seams, err := side.Marks(f.made.Pieces)
		if err != nil {
			t.Fatalf("%s: %v", f.name, err)
		}
		_, length, err := side.Measure(f.made.Pieces)
		if err != nil {
			t.Fatalf("%s: %v", f.name, err)
		}
		for _, of := range []float64{0.25, 0.5, 0.75} {
			if side.Open > 0 && of == 0.5 {
				continue // in the gap
			}
			if !marked(of, slices.Concat(notches, seams), length) {
				t.Errorf("%s: no mark at %.2f, only notches at %.4f and seams at %.4f", f.name, of, notches, seams)
			}
		}
		round = append(round, f)
	}
	if len(round) < least {
		t.Errorf("only %d go round", len(round))
	}
	for _, f := range round {
		for _, g := range round {
			if f.name != g.name {
				matchPair(t, f, g, sideOf)
			}
		}
	}
}

func matchPair(t *testing.T, f, g drawing, sideOf func(draft.Result) (shapes.JoinSide, error)) {
	t.Helper()
	a, b := f.made.ToMark(), g.made.ToMark()
	sideA, wrongA := sideOf(f.made)
	sideB, wrongB := sideOf(g.made)
	if err := errors.Join(wrongA, wrongB); err != nil {
		t.Fatal(err)
	}
	if sideA.Open > 0 || sideB.Open > 0 {
		return // what lies in the gap has no partner
	}
	if err := shapes.MatchSides(a, sideA, b, sideB); err != nil {
		t.Fatalf("%s to %s: %v", f.name, g.name, err)
	}
	compareSides(t, f.name+" to "+g.name, a, sideA, b, sideB)
}
