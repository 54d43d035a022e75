package shelf

import (
	"fmt"
	"math"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Dealing places anew changes neither what is cut where nor what the judge says.
func TestDealingKeepsTheLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := nest.Problem{Strip: nest.Strip{Width: 200}}
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			piece := oblong(fmt.Sprint(i), float64(10*rapid.IntRange(2, 3).Draw(t, "along")), 30,
				2*rapid.IntRange(1, 4).Draw(t, "pairs"))
			piece.Outline[1][1], piece.Outline[0][1] = 5, 5 // one side shorter: its mirror image is another
			piece.Outline[len(piece.Outline)-1][1] = 5
			piece.Mirror = rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired, nest.Free}).Draw(t, "mirror")
			if piece.Alike = piece.Mirror == nest.Paired; piece.Alike {
				piece.Turns = []float64{0, 90, 180, 270}
			}
			p.Pieces = append(p.Pieces, piece)
		}
		laid := anyHow(t, p)
		if err := nest.Verify(p, laid); err != nil {
			t.Fatal("before:", err)
		}
		dealt := SideBySide(p, laid)
		if err := nest.Verify(p, dealt); err != nil {
			t.Fatal(err)
		}
		cuts := func(l nest.Layout) []string {
			var all []string
			for _, pl := range l.Placed {
				ring := p.Outline(pl)
				all = append(all, fmt.Sprint(plane.Bounds(ring), plane.Area(ring), pl.Turn, pl.Mirrored))
			}
			slices.Sort(all)
			return all
		}
		if diff := gocmp.Diff(cuts(laid), cuts(dealt)); diff != "" || dealt.Length != laid.Length {
			t.Fatal(diff)
		}
		for i, pl := range dealt.Placed {
			if was := laid.Placed[i]; was.Piece != pl.Piece || was.Copy != pl.Copy {
				t.Fatalf("%+v was %+v", pl, was)
			}
		}
		if diff := gocmp.Diff(dealt, SideBySide(p, dealt)); diff != "" {
			t.Fatal("dealt twice:", diff)
		}
	})
}

// anyHow lays pieces that turn within squares of 30, in the way they are drawn and
// wherever a square is free.
func anyHow(t *rapid.T, p nest.Problem) nest.Layout {
	const square = 30.0
	columns := int(p.Strip.Width / square)
	var l nest.Layout
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			pl := nest.Placed{Piece: i, Copy: c, Turn: rapid.SampledFrom(append(slices.Clone(piece.Turns), 0)).Draw(t,
				"turn")}
			switch piece.Mirror {
			case nest.Paired:
				pl.Mirrored = c%2 == 1
			case nest.Free:
				pl.Mirrored = rapid.Bool().Draw(t, "mirrored")
			}
			if piece.Alike && c%2 == 1 { // the other hand lies on the grain of the first
				pl.Turn = math.Mod(360-l.Placed[len(l.Placed)-1].Turn, 360)
			}
			l.Placed = append(l.Placed, pl)
		}
	}
	squares := make([]int, len(l.Placed))
	for i := range squares {
		squares[i] = i
	}
	for i, k := range rapid.Permutation(squares).Draw(t, "squares") {
		pl := &l.Placed[i]
		low := plane.Bounds(p.Outline(*pl)).Min
		pl.At = orb.Point{square*float64(k/columns) - low[0], square*float64(k%columns) - low[1]}
		l.Length = max(l.Length, plane.Bounds(p.Outline(*pl)).Max[0])
	}
	return l
}

// A piece flipped twice is the piece, and flipped once its mirror image, which lies where
// the mirrored piece would.
func TestFlippedPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := func(name string) float64 { return float64(rapid.IntRange(1, 50).Draw(t, name)) }
		piece := nest.Piece{Name: "yoke", Count: 2, Turns: []float64{0, 30, 90, 180, 275},
			Outline: orb.Ring{{0, 0}, {whole("a"), 0}, {whole("b"), 60}, {0, 70}, {0, 0}},
			Match:   &nest.Match{Point: orb.Point{whole("x"), whole("y")}}}
		flip := flipped(piece)
		if diff := gocmp.Diff(piece, flipped(flip)); diff != "" {
			t.Fatal("flipped twice:", diff)
		}
		for i, turn := range flip.Turns {
			drawn, mirrored := plane.Pose{Turn: turn}, plane.Pose{Mirrored: true, Turn: turn}
			if back := math.Mod(turn+piece.Turns[i], 360); back != 0 || turn < 0 || turn >= 360 {
				t.Fatalf("%v is turned %v when flipped", piece.Turns[i], turn)
			}
			if !sameOutline(plane.SnapRing(drawn.Apply(flip.Outline)), plane.SnapRing(mirrored.Apply(piece.Outline))) {
				t.Fatal("the outline lies otherwise than the mirrored piece")
			}
			if drawn.ApplyPoint(flip.Match.Point) != mirrored.ApplyPoint(piece.Match.Point) {
				t.Fatal("the match point lies otherwise than the mirrored piece's")
			}
		}
	})
}

// One ring wherever it starts, and no other: not the other way round, not with a corner moved.
func TestSameOutline(t *testing.T) {
	ring := orb.Ring{{0, 0}, {9, 0}, {9, 5}, {4, 7}, {0, 5}, {0, 0}}
	for from := range 5 {
		turned := append(slices.Concat(ring[from:5], ring[:from]), ring[from])
		if !sameOutline(ring, turned) || !sameOutline(turned, ring) {
			t.Errorf("from corner %d it is another", from)
		}
		moved := slices.Clone(turned)
		moved[3][1]++
		back := slices.Clone(turned)
		slices.Reverse(back)
		if sameOutline(ring, moved) || sameOutline(ring, back) || sameOutline(ring, turned[1:]) {
			t.Errorf("from corner %d another ring is the same", from)
		}
	}
	if sameOutline(nil, nil) {
		t.Error("nothing is an outline")
	}
}

// Copies change places only where they are cut alike with the same rights.
func TestOnlyAlikeCopiesChangePlaces(t *testing.T) {
	base := func() nest.Piece {
		p := oblong("panel", 30, 20, 1)
		p.Turns, p.Match = []float64{0, 180}, &nest.Match{Point: orb.Point{1, 2}}
		return p
	}
	if !alike(base(), base()) {
		t.Error("a piece is not cut like itself")
	}
	for name, change := range map[string]func(*nest.Piece){
		"outline": func(p *nest.Piece) { p.Outline[1][0]++ }, "turns": func(p *nest.Piece) { p.Turns = []float64{0} },
		"mirror": func(p *nest.Piece) { p.Mirror = nest.Free }, "fold": func(p *nest.Piece) { p.OnFold = true },
		"alike": func(p *nest.Piece) { p.Alike = true }, "match": func(p *nest.Piece) { p.Match = nil },
		"match point": func(p *nest.Piece) { p.Match = &nest.Match{Point: orb.Point{1, 3}} },
	} {
		other := base()
		change(&other)
		if alike(base(), other) || alike(other, base()) {
			t.Errorf("with another %s it is cut alike", name)
		}
	}
}

// Turns of one grain are half turns apart as drawn; a mirrored copy's run the other way.
func TestGrainOfTurns(t *testing.T) {
	grain := func(turn float64, mirrored bool) int { return grainOf(nest.Placed{Turn: turn, Mirrored: mirrored}) }
	for _, turn := range []float64{0, 0.001, 2, 45, 90, 135, 179.999, 273.2} {
		for _, same := range []int{grain(turn+180, false), grain(turn-360, false), grain(-turn, true),
			grain(180-turn, true)} {
			if same != grain(turn, false) {
				t.Errorf("half turns from %v are another grain: %v, %v", turn, same, grain(turn, false))
			}
		}
		if grain(turn+0.01, false) == grain(turn, false) || turn != 0 && turn != 90 &&
			grain(turn, true) == grain(turn, false) {
			t.Errorf("other turns are the grain of %v", turn)
		}
	}
}
