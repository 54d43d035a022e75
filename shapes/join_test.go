package shapes

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// sideOf is one side of a seam: one to three edges of pieces of their own, some reversed,
// some as several copies end to end.
func sideOf(t *rapid.T, name string) ([]Piece, JoinSide) {
	var pieces []Piece
	var s JoinSide
	for i := range rapid.IntRange(1, 3).Draw(t, "edges") {
		p := panelOf(t, name+string(rune('1'+i)), false)
		pieces = append(pieces, p)
		s.Edges = append(s.Edges, SewnEdge{Piece: p.Name, Edge: rapid.SampledFrom(cutEdges).Draw(t, "edge"),
			Reversed: rapid.Bool().Draw(t, "reversed"),
			Copies:   rapid.SampledFrom([]int{0, 0, 1, 2, 3}).Draw(t, "copies")})
	}
	s.Treatment = treatments.Draw(t, "treatment")
	return pieces, s
}

// laidOut lists the edges of a side as cut, copy by copy, each with where it starts, its
// copy from 0, and its piece: the slow twin of how sides are measured.
type laidOut struct {
	sewn   SewnEdge
	edge   Edge
	piece  Piece
	copy   int
	start  float64
	length float64
}

func layOut(pieces []Piece, s JoinSide) (all []laidOut, cut float64) {
	for _, sewn := range s.Edges {
		p := pieces[slices.IndexFunc(pieces, func(p Piece) bool { return p.Name == sewn.Piece })]
		e, _ := p.Edge(sewn.Edge)
		for k := range max(sewn.Copies, 1) {
			all = append(all, laidOut{sewn, e, p, k, cut, e.Length()})
			cut += e.Length()
		}
	}
	return all, cut
}

// The length of a side is that of its edges, and what its treatment leaves of that.
func TestSidesAreMeasured(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pieces, s := sideOf(t, "a")
		_, want := layOut(pieces, s)
		cut, finished, err := s.Measure(pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "cut", cut, want, 1e-6)
		back, err := s.Treatment.Cut(finished)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "cut back", back, cut, 1e-6)
	})
	if cut, finished, err := (JoinSide{Onto: "skirt", Length: 7}).Measure(nil); cut != 7 || finished != 7 ||
		err != nil {
		t.Errorf("a line of another part: %g, %g, %v", cut, finished, err)
	}
}

// A notch at a finished distance stands where its place on the cut side lies, on the edge and
// the copy that lie there, and nowhere else; set again, none is added.
func TestNotchesStandWhereTheyAreSet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pieces, s := sideOf(t, "a")
		_, finished, err := s.Measure(pieces)
		if err != nil {
			t.Fatal(err)
		}
		d := rapid.Float64Range(0, 1).Draw(t, "share") * finished
		if err := s.Notch(pieces, []float64{d, finished + 5}); err != nil {
			t.Fatal(err)
		}
		all, _ := layOut(pieces, s)
		want := s.Treatment.OnCut(d, finished)
		found := 0
		for _, l := range all {
			for _, n := range l.piece.Notches {
				at, ok := l.edge.Along(n.At)
				if n.Edge != l.edge.Name || !ok || l.sewn.Copies > 1 && !n.On(l.copy) {
					continue
				}
				if l.sewn.Reversed {
					at = l.length - at
				}
				near(t, "notch along the cut side", l.start+at, want, 0.01)
				found++
			}
		}
		atJoin := slices.ContainsFunc(all, func(l laidOut) bool {
			return math.Abs(l.start-want) < atSeam+0.01 || math.Abs(l.start+l.length-want) < atSeam+0.01
		})
		if found != 1 && !(found == 0 && atJoin && len(all) > 1) {
			t.Fatalf("%d notches for %g of %g", found, d, finished)
		}
		before := 0
		for _, p := range pieces {
			before += len(p.Notches)
		}
		if err := s.Notch(pieces, []float64{d}); err != nil {
			t.Fatal(err)
		}
		for _, p := range pieces {
			before -= len(p.Notches)
		}
		if before != 0 {
			t.Fatal("set again, there are more")
		}
	})
}

// Both sides of a seam bear the notches of a join at the finished distances that it names.
func TestJoinsAreNotchedOnBothSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, sideA := sideOf(t, "a")
		b, sideB := sideOf(t, "b")
		pieces := append(a, b...)
		_, fa, errA := sideA.Measure(pieces)
		_, fb, errB := sideB.Measure(pieces)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		at := rapid.Float64Range(0, 1).Draw(t, "share") * math.Min(fa, fb)
		if err := MatchNotches(pieces, []Join{{Name: "side", A: sideA, B: sideB, Notches: []float64{at}}}); err != nil {
			t.Fatal(err)
		}
		for _, s := range []JoinSide{sideA, sideB} {
			notches, seams, err := s.Marks(pieces)
			if err != nil {
				t.Fatal(err)
			}
			_, finished, _ := s.Measure(pieces)
			if !marked(at/finished, append(notches, seams...), 1/finished) {
				t.Fatalf("no mark at %g of %g: notches %v, seams %v", at, finished, notches, seams)
			}
		}
	})
}

// marked says whether one of some shares is one, within a slack.
func marked(share float64, shares []float64, slack float64) bool {
	return slices.ContainsFunc(shares, func(s float64) bool { return math.Abs(s-share) <= slack })
}

// Errors of seams name the seam, and what is not there.
func TestJoinsRefuse(t *testing.T) {
	p, err := NewPiece("skirt", box(100, 40, 10, 5, 25))
	if err != nil {
		t.Fatal(err)
	}
	good := JoinSide{Edges: []SewnEdge{{Piece: "skirt", Edge: "upper"}}}
	for want, bad := range map[string]JoinSide{
		`seam "side": there is no piece "shirt"`:        {Edges: []SewnEdge{{Piece: "shirt", Edge: "upper"}}},
		`seam "side": skirt has no edge "neck"`:         {Edges: []SewnEdge{{Piece: "skirt", Edge: "neck"}}},
		`seam "side": a side has no edges`:              {},
		`seam "side": an edge of 100.0 mm, eased by 10`: {Edges: good.Edges, Treatment: Treatment{Ease: 101}},
	} {
		joins := []Join{{Name: "side", A: good, B: bad, Notches: []float64{10}}}
		_, ofOrder := SewingOrder([]Piece{p}, joins)
		for _, err := range []error{MatchNotches([]Piece{p}, joins), ofOrder} {
			if err == nil || !strings.HasPrefix(err.Error(), want) {
				t.Errorf("got %v, want %q", err, want)
			}
		}
	}
}

// A side says its edges in words.
func TestSidesInWords(t *testing.T) {
	s := JoinSide{Edges: []SewnEdge{{Piece: "front", Edge: "armhole"}, {Piece: "gore", Edge: "waist", Copies: 3}}}
	if d := cmp.Diff("front: armhole + 3 x gore: waist", s.String()); d != "" {
		t.Error(d)
	}
	if got := (JoinSide{Onto: "skirt at 20 in"}).String(); got != "skirt at 20 in" {
		t.Error(got)
	}
}

// Of any seams, each comes after those that it runs over, but where seams wait for each
// other; none is lost, and those that do not matter to each other keep their order.
func TestSeamsAreSewnInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := []string{"a", "b", "c", "d", "e"}
		side := func(n int) (s JoinSide) {
			for range n {
				s.Edges = append(s.Edges, SewnEdge{Piece: rapid.SampledFrom(names).Draw(t, "piece"), Edge: "upper"})
			}
			return s
		}
		var joins []Join
		for i := range rapid.IntRange(1, 7).Draw(t, "joins") {
			joins = append(joins, Join{Name: string(rune('A' + i)), A: side(rapid.IntRange(1, 3).Draw(t, "a")),
				B: side(1)})
		}
		order := sewable(joins)
		place := map[string]int{}
		for i, j := range order {
			place[j.Name] = i
		}
		if len(place) != len(joins) {
			t.Fatalf("%d seams of %d", len(place), len(joins))
		}
		for i, j := range joins {
			for k, other := range joins {
				if i == k || !j.runsOver(other) || place[other.Name] < place[j.Name] {
					continue
				}
				if !waits(joins, k, i, map[int]bool{}) && !inACycle(joins) {
					t.Fatalf("%s runs over %s and is sewn before it: %v", j.Name, other.Name, place)
				}
			}
		}
		if !slices.ContainsFunc(joins, func(j Join) bool {
			return slices.ContainsFunc(joins, func(other Join) bool { return j.runsOver(other) })
		}) && !slices.EqualFunc(joins, order, func(a, b Join) bool { return a.Name == b.Name }) {
			t.Fatalf("free seams have changed places: %v", place)
		}
	})
}

// waits says whether seam i comes to wait for seam k, over whatever seams between.
func waits(joins []Join, i, k int, seen map[int]bool) bool {
	if seen[i] {
		return false
	}
	seen[i] = true
	for n := range joins {
		if n != i && joins[i].runsOver(joins[n]) && (n == k || waits(joins, n, k, seen)) {
			return true
		}
	}
	return false
}

// inACycle says whether any seam comes to wait for itself.
func inACycle(joins []Join) bool {
	for i := range joins {
		if joins[i].runsOver(joins[i]) || waits(joins, i, i, map[int]bool{}) {
			return true
		}
	}
	return false
}

// Edges round the body that are notched to each other bear notches at the same shares of the
// way round, wherever each starts; a second time nothing is added.
func TestSidesRoundTheBodyMatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, sideA := sideOf(t, "a")
		b, sideB := sideOf(t, "b")
		for _, s := range []struct {
			pieces []Piece
			side   *JoinSide
		}{{a, &sideA}, {b, &sideB}} {
			s.side.Open = rapid.SampledFrom([]float64{0, 0, 30}).Draw(t, "open")
			s.side.FromFront = rapid.Bool().Draw(t, "front")
			_, finished, err := s.side.Measure(s.pieces)
			if err != nil {
				t.Fatal(err)
			}
			for range rapid.IntRange(0, 3).Draw(t, "notches") {
				at := rapid.Float64Range(0.02, 0.98).Draw(t, "share") * finished
				if err := s.side.Notch(s.pieces, []float64{at}); err != nil {
					t.Fatal(err)
				}
			}
		}
		if err := MatchSides(a, sideA, b, sideB); err != nil {
			t.Fatal(err)
		}
		checkMatched(t, a, sideA, b, sideB)
		checkMatched(t, b, sideB, a, sideA)
		count := func() (n int) {
			for _, p := range slices.Concat(a, b) {
				n += len(p.Notches)
			}
			return n
		}
		before := count()
		if err := MatchSides(a, sideA, b, sideB); err != nil {
			t.Fatal(err)
		}
		if count() != before {
			t.Fatalf("matched again there are %d notches, before %d", count(), before)
		}
	})
}

// checkMatched holds that each notch of a has a mark on b at its share of the way round,
// unless b is open there or ends.
func checkMatched(t *rapid.T, a []Piece, sideA JoinSide, b []Piece, sideB JoinSide) {
	notches, _, err := sideA.Marks(a)
	if err != nil {
		t.Fatal(err)
	}
	on, seams, err := sideB.Marks(b)
	if err != nil {
		t.Fatal(err)
	}
	_, finished, _ := sideB.Measure(b)
	round := finished + sideB.Open
	for _, of := range notches {
		start := of
		if sideB.FromFront {
			start = math.Mod(of+0.5, 1)
		}
		at := start*round - sideB.Open/2
		if at <= atSeam+0.1 || at >= finished-atSeam-0.1 {
			continue
		}
		slack := sideB.slack(finished) / round
		if !marked(of, append(on, seams...), slack) {
			t.Fatalf("%s has a notch at %.4f of the way round, %s has %.4f and seams at %.4f", sideA, of, sideB, on,
				seams)
		}
	}
}

// slack is how far from its place on the finished side a mark may read back, mm: half a
// millimetre at a seam, and what lies in one pleat.
func (s JoinSide) slack(float64) float64 {
	if s.Treatment.Pleats > 0 {
		return 1 + 2*s.Treatment.PleatDepth
	}
	return 1
}

// A point of a dart's leg is told from other notches, and the sewn dart is a mark of its own.
func TestDartsAreMarksOfTheirOwn(t *testing.T) {
	p, err := NewPiece("front", box(300, 200, 10, 10, 10))
	if err != nil {
		t.Fatal(err)
	}
	upper, _ := p.Edge("upper")
	foot, out := upper.At(100)
	if err := p.AddDart("upper", Mouth{90, 20}, orb.Point{foot[0] - 80*out[0], foot[1] - 80*out[1]}); err != nil {
		t.Fatal(err)
	}
	if err := p.AddNotch("upper", 200); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		reversed       bool
		dart, notch, f float64
	}{{false, 90, 180, 280}, {true, 190, 100, 280}} {
		s := JoinSide{Edges: []SewnEdge{{Piece: "front", Edge: "upper", Reversed: c.reversed}}}
		if err := s.FoldDarts([]Piece{p}); err != nil {
			t.Fatal(err)
		}
		_, finished, err := s.Measure([]Piece{p})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "finished", finished, c.f, 1e-9)
		notches, seams, err := s.Marks([]Piece{p})
		if err != nil {
			t.Fatal(err)
		}
		if len(notches) != 1 || math.Abs(notches[0]*c.f-c.notch) > 0.01 {
			t.Errorf("reversed %v: notches at %v", c.reversed, notches)
		}
		if !marked(c.dart/c.f, seams, 0.001) {
			t.Errorf("reversed %v: the dart at %g is not among %v", c.reversed, c.dart/c.f, seams)
		}
	}
}

// A mark just on a pleat or a dart reads back as it was set, on the same side of its fold.
func TestMarksOnFoldsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.Float64Range(100, 3000).Draw(t, "whole")
		tr := Treatment{Pleats: rapid.IntRange(1, 30).Draw(t, "pleats"),
			PleatDepth: rapid.Float64Range(2, 30).Draw(t, "depth")}
		if rapid.Bool().Draw(t, "darts") {
			tr = Treatment{Gather: rapid.Float64Range(1, 4).Draw(t, "gather")}
			for range rapid.IntRange(1, 4).Draw(t, "number") {
				tr.Darts = append(tr.Darts, Mouth{rapid.Float64Range(0, whole).Draw(t, "from"), 20})
			}
		}
		at := (float64(rapid.IntRange(0, max(tr.Pleats-1, 0)).Draw(t, "pleat")) + 0.5) * whole / float64(
			max(tr.Pleats, 1))
		if tr.Darts != nil {
			at = min(tr.Darts[0].From/tr.Gather, whole)
		}
		s := JoinSide{Treatment: tr, Open: rapid.SampledFrom([]float64{0, 30}).Draw(t, "open")}
		cut := tr.OnCut(at, whole)
		share := s.share(tr.onFinished(cut, whole), whole)
		again := tr.OnCut(share*(whole+s.Open)-s.Open/2, whole)
		near(t, "read back and set again", again, cut, 1e-4)
	})
}
