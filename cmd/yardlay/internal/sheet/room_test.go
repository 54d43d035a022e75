package sheet

import (
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// A pattern with a line marked across its grain arrow: 200 by 100 mm, drawn at
// 1 : 2 or less, so that both halves have room for an arrow.
func darted(inside ...orb.LineString) Pattern {
	return Pattern{Name: "front", Along: 200, Across: 100, Outline: Outline{
		Cut: Box(0, 0, 200, 100), Grain: orb.LineString{{30, 50}, {170, 50}}, Inside: inside,
	}}
}

// crossing says whether an arrow crosses a marked line.
func crossing(o Outline, arrow orb.LineString) bool {
	return !newFrame(o.Cut, o.Inside, 0).holds(arrow, 0.1)
}

func TestGrainArrowsStandClearOfDarts(t *testing.T) {
	dart := orb.LineString{{100, 100}, {104, 45}, {108, 100}}
	p := darted(dart)
	got := p.roomyGrain(nil, 1)
	if crossing(p.Outline, got) || got[1][0]-got[0][0] < 100 || got[0][1] != got[1][1] {
		t.Errorf("the arrow of a piece with a dart is %v", got)
	}
	if plain := darted(); plain.roomyGrain(nil, 1)[0] != plain.Grain[0] {
		t.Error("an arrow that meets nothing is moved")
	}
	// Where no level has room the drafted one stays.
	var bars []orb.LineString
	for x := 10.0; x < 200; x += 10 {
		bars = append(bars, orb.LineString{{x, 0}, {x, 100}})
	}
	if p := darted(bars...); p.roomyGrain(nil, 1)[0] != p.Grain[0] {
		t.Error("an arrow without room is moved")
	}
	backwards := darted(dart)
	backwards.Grain.Reverse()
	if a := backwards.roomyGrain(nil, 1); a[1][0] > a[0][0] || crossing(backwards.Outline, a) {
		t.Errorf("an arrow that points back is %v", a)
	}
}

// The words at a fold meet no line; where there is no room they are left out.
func TestFoldWordsStandClear(t *testing.T) {
	words := func(p Pattern) (n int, at orb.Point) {
		p.Fold = orb.LineString{{0, 0}, {200, 0}}
		for _, g := range (Pieces{Unit: measure.Millimetre, Pieces: []Pattern{p}}).Drawing().Groups {
			for _, it := range g.Items {
				if text, ok := it.(Text); ok && text.Body == "place on fold" {
					n, at = n+1, text.At
				}
			}
		}
		return n, at
	}
	n, middle := words(darted())
	if n != 1 {
		t.Fatalf("%d times the words", n)
	}
	n, moved := words(darted(orb.LineString{{100, 0}, {100, 40}}))
	if n != 1 || moved == middle {
		t.Errorf("with a line in the middle: %d times, at %v as before", n, moved)
	}
	var bars []orb.LineString
	for x := 5.0; x < 200; x += 5 {
		bars = append(bars, orb.LineString{{x, 0}, {x, 100}})
	}
	if n, _ := words(darted(bars...)); n != 0 {
		t.Error("words across lines")
	}
}
