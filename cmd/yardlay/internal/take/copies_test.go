package take

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/outline"
)

// closed makes a shape of corners, turned and moved.
func closed(corners []orb.Point, turn float64, by orb.Point) outline.Shape {
	sin, cos := math.Sincos(turn)
	var line orb.LineString
	for _, p := range append(slices.Clone(corners), corners[0]) {
		line = append(line, orb.Point{cos*p[0] - sin*p[1] + by[0], sin*p[0] + cos*p[1] + by[1]})
	}
	return outline.Shape{Number: 1, Fold: -1, Edges: []outline.Edge{{Name: "outline", Line: line}}}
}

// A shape that is the same left and right is found to be so however it lies; one that leans is
// not, and is told from its mirror image, which is found.
func TestLeftAndRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(0, 7).Draw(t, "turn")
		by := orb.Point{rapid.Float64Range(-900, 900).Draw(t, "x"), 40}
		wide, high := rapid.Float64Range(100, 300).Draw(t, "wide"), rapid.Float64Range(350, 700).Draw(t, "high")
		top := rapid.Float64Range(.3, .8).Draw(t, "top") * wide
		same := []orb.Point{{-wide, 0}, {wide, 0}, {top, high}, {-top, high}}
		if c := copiesOf([]outline.Shape{closed(same, turn, by)}); c[0].Count != 1 || c[0].Said {
			t.Fatalf("the same left and right: %+v", c)
		}
		lean := rapid.Float64Range(60, 90).Draw(t, "lean")
		leans := []orb.Point{{-wide, 0}, {wide, 0}, {top + lean, high}, {-top + lean, high}}
		if c := copiesOf([]outline.Shape{closed(leans, turn, by)}); c[0].Count != 2 || !c[0].Pair {
			t.Fatalf("leaning: %+v", c)
		}
		mirror := []orb.Point{{-wide, 0}, {wide, 0}, {top - lean, high}, {-top - lean, high}}
		if c := copiesOf([]outline.Shape{closed(leans, turn, by), closed(mirror, 1, orb.Point{})}); c[0].Count != 1 ||
			c[1].Count != 1 {
			t.Fatalf("left and right: %+v", c)
		}
		if c := copiesOf([]outline.Shape{closed(leans, turn, by), closed(leans, 1, orb.Point{})}); c[0].Count != 2 {
			t.Fatalf("twice the same: %+v", c)
		}
	})
}

// What the file says counts, and a fold.
func TestCopiesSaid(t *testing.T) {
	box := closed([]orb.Point{{0, 0}, {100, 0}, {120, 80}, {0, 90}}, 0, orb.Point{})
	said, folded := box, box
	said.Quantity, said.Paired, folded.Fold = 4, true, 0
	c := copiesOf([]outline.Shape{said, folded})
	if c[0] != (Copies{4, true, true, "the file says so"}) || c[1].Count != 1 || c[1].Pair {
		t.Errorf("%+v", c)
	}
	if c[0].String() != "2 pairs" || c[1].String() != "1" {
		t.Errorf("%v %v", c[0], c[1])
	}
}
