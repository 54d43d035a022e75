package outline

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// cells is a board of squares of which some are taken, with a free rim.
type cells [7][7]bool

// filled are the squares that nobody can reach from the rim without crossing a side of a taken one:
// the slow twin of the ways round a web.
func (c cells) filled() (n int) {
	var out cells
	reached := []([2]int){{0, 0}}
	for len(reached) > 0 {
		x, y := reached[0][0], reached[0][1]
		reached = reached[1:]
		if x < 0 || y < 0 || x > 6 || y > 6 || out[x][y] || c[x][y] {
			continue
		}
		out[x][y] = true
		reached = append(reached, [2]int{x - 1, y}, [2]int{x + 1, y}, [2]int{x, y - 1}, [2]int{x, y + 1})
	}
	for x := range 7 {
		for y := range 7 {
			if !out[x][y] {
				n++
			}
		}
	}
	return n
}

// sides are the sides of the taken squares, each once, as lines of a drawing.
func (c cells) sides(size float64) (lines []string) {
	seen := map[string]bool{}
	side := func(x0, y0, x1, y1 int) {
		line := fmt.Sprintf("%g,%g %g,%g", float64(x0)*size, float64(y0)*size, float64(x1)*size, float64(y1)*size)
		if !seen[line] {
			seen[line] = true
			lines = append(lines, line)
		}
	}
	for x := range 7 {
		for y := range 7 {
			if c[x][y] {
				side(x, y, x+1, y)
				side(x, y, x, y+1)
				side(x, y+1, x+1, y+1)
				side(x+1, y, x+1, y+1)
			}
		}
	}
	return lines
}

// Of lines that meet in any number, the outlines are the ways round their outside: together they
// enclose just what cannot be reached from without, each simple, whatever hangs loose from them,
// and whether ends meet exactly or nearly.
func TestOutlinesOfAWebOfLines(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var c cells
		for range rapid.IntRange(1, 12).Draw(rt, "squares") {
			at := rapid.IntRange(1, 5)
			c[at.Draw(rt, "x")][at.Draw(rt, "y")] = true
		}
		const size = 120.
		lines := rapid.Permutation(c.sides(size)).Draw(rt, "order")
		d := drawn(t, lines...)
		for range rapid.IntRange(0, 3).Draw(rt, "loose") { // one end at a corner, the other anywhere
			l := d.Lines[rapid.IntRange(0, len(lines)-1).Draw(rt, "at")]
			p, by := l.Points[0], rapid.IntRange(-30, 30)
			q := orb.Point{p[0] + float64(by.Draw(rt, "dx")) + .5, p[1] + float64(by.Draw(rt, "dy")) + .5}
			d.Lines = append(d.Lines, Line{Points: orb.LineString{p, q}, Corners: []int{0, 1}, Place: "loose"})
		}
		for i := range d.Lines {
			if rapid.Bool().Draw(rt, "back") {
				d.Lines[i].Points.Reverse()
			}
		}
		a := assemble(t, Options{}, d)
		area := 0.
		for _, s := range a.Shapes {
			if err := plane.CheckSimple(s.Ring()); err != nil {
				rt.Fatalf("%q: %v", lines, err)
			}
			area += plane.Area(s.Ring())
		}
		if want := float64(c.filled()) * size * size; math.Abs(area-want) > 1 {
			rt.Fatalf("%q: %d shapes cover %v, want %v", lines, len(a.Shapes), area, want)
		}
		for i, r := range a.Roles {
			if r.Role == Unnamed {
				rt.Fatalf("%q: nobody says what line %d is for", lines, i+1)
			}
		}
	})
}

// At a knot of many lines the way goes on by the next one clockwise, by where lines head that leave
// it in curves: here two lens shapes side by side, which touch in both ends.
func TestCurvesThatMeetInOnePlace(t *testing.T) {
	bow := func(bulge float64) string { // from 0,0 to 0,400, flat at its ends
		text := ":"
		for i := range 41 {
			s := float64(i) / 40
			text += fmt.Sprintf("%g,%g ", bulge*math.Pow(math.Sin(math.Pi*s), 2), 400*s)
		}
		return text
	}
	rapid.Check(t, func(rt *rapid.T) {
		bulges := rapid.Permutation([]float64{-150, -60, 60, 150}).Draw(rt, "order")
		var lines []string
		for _, b := range bulges {
			lines = append(lines, bow(b))
		}
		d := drawn(t, lines...)
		for i := range d.Lines {
			if rapid.Bool().Draw(rt, "back") {
				d.Lines[i].Points.Reverse()
			}
		}
		a := assemble(t, Options{}, d)
		// The mean of the square of a sine is a half: 400 x (150 + 150) / 2.
		outer := a.Shapes[0].Ring()
		if cut := a.Shapes[0].Cut; cut != nil { // the lens within may be its seam line
			outer = cut
		}
		if len(a.Shapes) != 1 || math.Abs(plane.Area(outer)/60000-1) > .01 {
			rt.Fatalf("%v: %q", bulges, seen(a))
		}
		for _, r := range a.Roles {
			if r.Shape != 1 || r.Role == Unnamed || r.Role == Ignored {
				rt.Fatalf("%v: a line is %+v", bulges, r)
			}
		}
	})
}

var joinHint = regexp.MustCompile(`join ends that lie up to ([0-9.]+) mm apart`)

// What an open outline is told to need is enough: with ends joined that lie so far apart it closes,
// and with any less it does not.
func TestTheHintOfAnOpenOutlineClosesIt(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		corners := []orb.Point{{0, 0}, {300, 0}, {330, 200}, {150, 260}, {0, 200}}
		var lines []string
		widest := 0.
		for i, p := range corners {
			q := corners[(i+1)%len(corners)]
			gap := rapid.SampledFrom([]float64{0, 0, .3, 2, 7.5, 15}).Draw(rt, "gap")
			long := math.Hypot(q[0]-p[0], q[1]-p[1])
			q = between(p, q, 1-gap/long) // the line stops short of the next
			widest = max(widest, gap)
			lines = append(lines, fmt.Sprintf(":%.6f,%.6f %.6f,%.6f", p[0], p[1], q[0], q[1]))
		}
		d := drawn(t, rapid.Permutation(lines).Draw(rt, "order")...)
		a := assemble(t, Options{}, d)
		open := slices.IndexFunc(a.Faults, func(f Fault) bool { return f.Kind == Open })
		if widest <= DefaultTolerance {
			if open >= 0 || len(a.Shapes) != 1 {
				rt.Fatalf("%q: %q", lines, seen(a))
			}
			return
		}
		if open < 0 || len(a.Shapes) != 0 {
			rt.Fatalf("%q: %q", lines, seen(a))
		}
		m := joinHint.FindStringSubmatch(a.Faults[open].Hint)
		if m == nil {
			rt.Fatalf("%q: the hint is %q", lines, a.Faults[open].Hint)
		}
		join, err := strconv.ParseFloat(m[1], 64)
		if err != nil || join < widest-.01 || join > widest+.2 {
			rt.Fatalf("%q: the widest gap is %v, the hint %q", lines, widest, a.Faults[open].Hint)
		}
		if closed := assemble(t, Options{Tolerance: join}, d); len(closed.Shapes) != 1 || closed.Faults[0].Kind.Stops() {
			rt.Fatalf("%q, joined by %v: %q", lines, join, seen(closed))
		}
		if still := assemble(t, Options{Tolerance: widest - .1}, d); len(still.Shapes) != 0 {
			rt.Fatalf("%q, joined by %v: %q", lines, widest-.1, seen(still))
		}
	})
}

// A spike is taken off, wherever the outline begins and whichever way round it is drawn.
func TestSpikesAreTakenOffFromAnyStart(t *testing.T) {
	for name, c := range map[string]struct {
		ring orb.Ring
		area float64
	}{
		"outwards":      {orb.Ring{{0, 0}, {300, 0}, {300, 100}, {340, 100}, {300, 100.01}, {300, 200}, {0, 200}}, 60000},
		"inwards":       {orb.Ring{{0, 0}, {300, 0}, {300, 100}, {260, 100}, {300, 100.01}, {300, 200}, {0, 200}}, 60000},
		"along an edge": {orb.Ring{{0, 0}, {340, 0}, {300, 0}, {300, 200}, {0, 200}}, 60000},
		"at a corner":   {orb.Ring{{0, 0}, {300, 0}, {300, 200}, {330, 230}, {300, 200}, {0, 200}}, 60000},
		"of two lines": {orb.Ring{{0, 0}, {300, 0}, {300, 90}, {320, 90}, {340, 100}, {320, 90}, {300, 90}, {300, 200},
			{0, 200}}, 60000},
		"two on one edge": {orb.Ring{{0, 0}, {150, 0}, {150, -30}, {150, 0}, {200, 0}, {200, -30}, {200, 0}, {300, 0},
			{300, 200}, {0, 200}}, 60000},
	} {
		n := len(c.ring)
		for start := range n {
			for _, back := range []bool{false, true} {
				var line orb.LineString
				for i := range n + 1 {
					line = append(line, c.ring[(start+i)%n])
				}
				if back {
					line.Reverse()
				}
				d := Drawing{Unit: Unit{Millimetres: 1}, Lines: []Line{{Points: line, Closed: true, Place: "line 1"}}}
				for i := range line {
					d.Lines[0].Corners = append(d.Lines[0].Corners, i)
				}
				a := assemble(t, Options{}, d)
				hairs := 0
				for _, f := range a.Faults {
					if f.Kind == Hair {
						hairs++
					}
				}
				if len(a.Shapes) != 1 || math.Abs(plane.Area(a.Shapes[0].Ring())-c.area) > 1 || hairs == 0 ||
					len(a.Shapes[0].Edges) != 4 {
					t.Errorf("%s, begun at %v, back %v: %q", name, c.ring[start], back, seen(a))
				}
			}
		}
	}
}
