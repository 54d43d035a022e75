package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// wheel is a closed line of so many points round a circle of 500 mm, drawn from one of them on, either way round.
func wheel(points, from, step int, radius func(i int) float64) Line {
	var l Line
	for k := range points + 1 {
		i := ((from+step*k)%points + points) % points
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(points))
		l.Points, l.Corners = append(l.Points, orb.Point{radius(i) * cos, radius(i) * sin}), append(l.Corners, k)
	}
	l.Closed, l.Place = true, fmt.Sprintf("from %d by %d", from, step)
	return l
}

func even(int) float64 { return 500 }

// A closed line of many points is one drawn twice from whichever of its points and whichever way round the second is
// drawn, and two where a point lies elsewhere.
func TestTwinsOfManyPoints(t *testing.T) {
	const n = 1500
	dented := func(mm float64) func(int) float64 {
		return func(i int) float64 { return 500 + map[bool]float64{true: mm}[i == 700] }
	}
	for _, c := range []struct {
		second Line
		twice  bool
	}{
		{wheel(n, 0, 1, even), true}, {wheel(n, 400, 1, even), true}, {wheel(n, 0, -1, even), true},
		{wheel(n, 1499, -1, even), true}, {wheel(n, 400, -1, dented(.015)), true}, {wheel(n, 1, 1, dented(.05)), false},
		{wheel(n, 0, -1, dented(-.05)), false}, {wheel(n+2, 0, 1, even), false},
	} {
		d := Drawing{Unit: Unit{Millimetres: 1}, Lines: []Line{wheel(n, 0, 1, even), c.second}}
		words := strings.Join(seen(assemble(t, Options{}, d)), "; ")
		if got := strings.Contains(words, "twice"); got != c.twice {
			t.Errorf("%s: %s", c.second.Place, words)
		}
	}
}

// An outline of more corners than are read is drawn with fewer, within the error of a curve, and one that would still
// have too many is refused by their number; one with as many as are read keeps them all.
func TestOutlinesOfTooManyCorners(t *testing.T) {
	teeth := func(i int) float64 { return 500 + 20*float64(i%2) }
	for _, c := range []struct {
		line          Line
		corners, most int // of the outline
		fault         string
	}{
		{wheel(MaxVertices, 0, 1, even), MaxVertices, MaxVertices, ""},
		{wheel(MaxVertices+1, 0, 1, even), 100, 1000, ""},
		{wheel(MaxVertices, 0, 1, teeth), MaxVertices, MaxVertices, ""},
		{wheel(MaxVertices+2, 0, 1, teeth), 0, 0,
			"0 corners: the outline has 5002 corners, the most is 5000, however near to it " +
				"fewer would come at (500.000 mm, 0.000 mm) (from 0 by 1)\n  hint: trace or draw it with fewer points"},
	} {
		a := assemble(t, Options{}, Drawing{Unit: Unit{Millimetres: 1}, Lines: []Line{c.line}})
		if got := strings.Join(toldOf(a), "; "); got != c.fault {
			t.Errorf("%d points: %q", len(c.line.Points), got)
		}
		if len(a.Shapes) != map[bool]int{true: 1}[c.fault == ""] {
			t.Fatalf("%d points: %d shapes", len(c.line.Points), len(a.Shapes))
		}
		if c.fault != "" {
			continue
		}
		ring := a.Shapes[0].Ring()
		if n := len(ring) - 1; n < c.corners || n > c.most {
			t.Errorf("%d points: %d corners", len(c.line.Points), n)
		}
		for i := 1; i < len(ring); i++ { // its sides pass the circle at their middles
			p := orb.Point{(ring[i-1][0] + ring[i][0]) / 2, (ring[i-1][1] + ring[i][1]) / 2}
			if off := 500 - math.Hypot(p[0], p[1]); c.most < MaxVertices && (off > ChordError+2*plane.Lattice ||
				off < 0) {
				t.Fatalf("a side of %d lies %g within the circle", len(ring)-1, off)
			}
		}
	}
}

// Shapes of one file whose corners come to no more than are cut stay as they are; more are thinned, cut lines too,
// within the error of a curve, and what is still too many is refused by their number.
func TestFewerCornersOfAFile(t *testing.T) {
	shapes := func(n, points int, radius func(int) float64) (all []Shape) {
		for range n {
			l := wheel(points, 0, 1, radius)
			all = append(all, Shape{Edges: []Edge{{Line: l.Points}}})
		}
		return all
	}
	asIs, err := Fewer(shapes(4, MaxCorners/4, even))
	if err != nil || cornersIn(asIs) != MaxCorners {
		t.Errorf("as many as are cut: %d, %v", cornersIn(asIs), err)
	}
	many := shapes(4, MaxCorners/4, even)
	many[3].Cut = orb.Ring(wheel(2000, 0, 1, func(int) float64 { return 510 }).Points)
	fewer, err := Fewer(many)
	if err != nil || cornersIn(fewer) > MaxCorners/10 || len(fewer[3].Cut) > 500 ||
		len(many[0].Edges[0].Line) != MaxCorners/4+1 {
		t.Errorf("%d are left, %d of the cut line, %d were, %v", cornersIn(fewer), len(fewer[3].Cut),
			len(many[0].Edges[0].Line), err)
	}
	for _, line := range []orb.LineString{fewer[0].Edges[0].Line, orb.LineString(fewer[3].Cut)} {
		radius := math.Hypot(line[0][0], line[0][1])
		for i := 1; i < len(line); i++ {
			if off := radius - math.Hypot((line[i][0]+line[i-1][0])/2,
				(line[i][1]+line[i-1][1])/2); off > ChordError+1e-9 {
				t.Fatalf("a side lies %g within its circle", off)
			}
		}
	}
	_, err = Fewer(shapes(4, MaxCorners/4+2, func(i int) float64 { return 500 + 20*float64(i%2) }))
	if err == nil ||
		err.Error() != "the outlines have 20008 corners in all, the most that is cut from one file is 20000\n"+
			"  hint: draw curves with fewer corners, or share the shapes out over several files" {
		t.Errorf("%v", err)
	}
}
