package nest

import (
	"context"
	"fmt"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// The selvedges of a double fold take their part of the width: on 400 mm with 20
// kept clear on either side of the middle two panels of 180 lie side by side, and
// four of them 100 long take 200, which area alone does not prove on 400 (180).
// A gap of 30 is kept beside the folds and between two rows; of the middle it asks
// for no more than lies there.
func TestBoundLeavesOutTheMiddle(t *testing.T) {
	for _, c := range []struct{ gap, across, least, length float64 }{
		{0, 180, 200, 200},
		{30, 165, 200, 230},
	} {
		p := Problem{
			Strip:  Strip{Width: 400, Folds: FoldBoth, Middle: 20},
			Pieces: []Piece{{Name: "panel", Outline: rect(0, 0, 100, c.across), Count: 4}},
			Gap:    c.gap,
		}
		l := Layout{Length: c.length}
		for i := range 4 {
			pl := Placed{Copy: i}
			pl.At[0] = float64(i/2) * (100 + c.gap)
			pl.At[1] = c.gap/2 + float64(i%2)*(400-c.gap-c.across)
			l.Placed = append(l.Placed, pl)
		}
		if err := Verify(p, l); err != nil {
			t.Fatal(err)
		}
		if got := LowerBound(context.Background(), p).Length; got < c.least || got > c.length {
			t.Errorf("gap %v: bound %v mm, want at least %v and at most %v", c.gap, got, c.least, c.length)
		}
	}
}

// A cloth cut into slices, each drawn turned by an angle of its own: turned back
// they fill the cloth, whatever the outline as drawn covers once it is snapped. No
// bound may lie above that layout, and the area's lies no more than a step below.
func TestBoundOfTurnedSlices(t *testing.T) {
	drawn := rapid.Custom(anySlices)
	for seed := range often.Jobs(often.Full(6, 15), 200) {
		p, l := slices3(drawn.Example(seed))
		if err := Verify(p, l); err != nil {
			t.Fatal(err)
		}
		if b := LowerBound(context.Background(), p); b.Length > l.Length {
			t.Fatalf("bound %v by %s, and the judge accepts %v", b.Length, b.Kind, l.Length)
		}
		if b := simpleBound(p); b > l.Length {
			t.Fatalf("simple bound %v, and the judge accepts %v", b, l.Length)
		}
		if u := p.Utilisation(l); u > 1+1e-9 {
			t.Fatalf("%v of the cloth is covered", u)
		}
	}
}

// Three pieces on 231 mm take 576 mm, and the outlines as drawn, snapped, cover
// more than that cloth.
func TestBoundByTheLeastOfTheWays(t *testing.T) {
	p, l := slices3(sliced{width: 231, length: 576, from: [2]int{170, 401}, to: [2]int{231, 330},
		angles: [3]float64{31, 201.7, 77.3}})
	if err := Verify(p, l); err != nil {
		t.Fatal(err)
	}
	drawn := 0.0
	for i := range p.Pieces {
		drawn += plane.Area(p.Outline(Placed{Piece: i}))
	}
	if cloth := 231 * 576.0; drawn <= cloth*(1+1e-9) {
		t.Fatalf("as drawn the pieces cover %v mm2 of %v: not the case to test", drawn, cloth)
	}
	if b := LowerBound(context.Background(), p); b.Length != 576 {
		t.Errorf("bound %v by %s, want 576", b.Length, b.Kind)
	}
}

// sliced is a cloth cut into three by two straight lines across.
type sliced struct {
	width, length int
	from, to      [2]int     // where the lines begin and end along the cloth, on its lower and its upper edge
	angles        [3]float64 // by which each slice is drawn turned
}

func anySlices(t *rapid.T) sliced {
	s := sliced{width: rapid.IntRange(50, 400).Draw(t, "width"), length: rapid.IntRange(200, 700).Draw(t, "length")}
	for _, edge := range []*[2]int{&s.from, &s.to} {
		edge[0] = rapid.IntRange(1, s.length/2).Draw(t, "first")
		edge[1] = rapid.IntRange(s.length/2+1, s.length-1).Draw(t, "second")
	}
	for i := range s.angles {
		s.angles[i] = rapid.Float64Range(1, 359).Draw(t, "angle")
	}
	return s
}

// slices3 returns the slices as pieces that may lie as drawn or turned back, and
// the layout in which they fill the cloth.
func slices3(s sliced) (Problem, Layout) {
	p := Problem{Strip: Strip{Width: float64(s.width)}}
	l := Layout{Length: float64(s.length)}
	from, to := []int{0, s.from[0], s.from[1], s.length}, []int{0, s.to[0], s.to[1], s.length}
	for i := range 3 {
		at := func(x, y int) orb.Point { return orb.Point{float64(x), float64(y)} }
		slice := orb.Ring{at(from[i], 0), at(from[i+1], 0), at(to[i+1], s.width), at(to[i], s.width), at(from[i], 0)}
		p.Pieces = append(p.Pieces, Piece{
			Name: fmt.Sprint("slice ", i+1), Count: 1,
			Outline: plane.Pose{Turn: -s.angles[i]}.Apply(slice), Turns: []float64{0, s.angles[i]},
		})
		l.Placed = append(l.Placed, Placed{Piece: i, Turn: s.angles[i]})
	}
	return p, l
}
