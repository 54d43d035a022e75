package chalk

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Each distance of a sketch stands in a row beside it, by a line that runs from the point to the edge of the row;
// figures of a row stand in order, no two of them in one place, and one of several points is led to the farthest.
func TestRunningDimensionsLeadToTheirPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape := tapes(t)
		p, on, d := pieceOf(t, tape, Outline{Cut: outline(t)})
		all := append(slices.Clone(p.Figures.Places), p.Figures.Pivots...)
		low, high := tape.point(all[0]), tape.point(all[0])
		for _, v := range slices.Concat(p.Outline.Cut, points(tape, all)) {
			for axis := range 2 {
				low[axis], high[axis] = min(low[axis], v[axis]), max(high[axis], v[axis])
			}
		}
		for axis := range 2 {
			across := low[1-axis] - 4.6*on.k // where the row begins
			at := func(along, across float64) orb.Point {
				if axis == 0 {
					return orb.Point{along, across}
				}
				return orb.Point{across, along}
			}
			if !on.has(sheet.RoleDim, at(low[axis], across), at(high[axis], across)) {
				t.Fatalf("axis %d has no line from %v to %v", axis, low, high)
			}
			turn := 90 * float64(1-axis)
			last, marks := math.Inf(-1), marksOf(all, axis)
			fits := float64(len(marks)-1)*2.7*on.k <= high[axis]-low[axis]+10*on.k
			for _, m := range marks {
				far := low
				for _, v := range all {
					if pt := tape.point(v); v[axis] == m && pt[1-axis] >= far[1-axis] {
						far = pt
					}
				}
				v := tape.MM(m)
				if !on.has(sheet.RoleHatch, far, at(v, across)) {
					t.Fatalf("no line leads from %v to the row of axis %d", far, axis)
				}
				i := slices.IndexFunc(on.lines[sheet.RoleDim], func(l orb.LineString) bool {
					return distance(l[0], at(v, across)) < 1e-6 && math.Abs(l[1][1-axis]-across+2*on.k) < 1e-6
				})
				if i < 0 && fits {
					t.Fatalf("axis %d: %s of %d has no figure", axis, tape.Show(m), len(marks))
				} else if i < 0 {
					continue
				}
				row := on.lines[sheet.RoleDim][i][1][axis]
				said := slices.IndexFunc(on.texts, func(w sheet.Text) bool {
					return distance(w.At, at(row, across-2.6*on.k)) < 1e-6 && w.Anchor == sheet.End && w.Turn == turn
				})
				if said < 0 || on.texts[said].Body != strings.ReplaceAll(tape.Show(m), noBreak, " ") {
					t.Fatalf("axis %d: %s does not stand at %v", axis, tape.Show(m), at(row, across-2.6*on.k))
				}
				if row < last+2.7*on.k-1e-6 {
					t.Fatalf("axis %d: %s stands %.2f mm beside the one before", axis, tape.Show(m), (row-last)/on.k)
				}
				last = row
			}
			if math.IsInf(last, -1) {
				t.Fatalf("axis %d has no figures", axis)
			}
		}
		if off := 18.5 * on.k; !on.says("from the cut end", orb.Point{low[0], low[1] - off}, 0.01) ||
			!on.says("from the selvedge", orb.Point{low[0] - off, low[1]}, 0.01) {
			t.Fatal("the rows do not say what they are measured from")
		}
		inside(t, d)
	})
}

// A straight line says its length on its left, an arc is led to from its pivot with its string, a curve has a line at
// each step from the straight line between its ends, as far off as its table says.
func TestStrokesSayHowTheyAreDrawn(t *testing.T) {
	seen := map[Kind]int{}
	c := orb.Point{700, 500}
	gore := slices.Concat(plane.Arc(c, 400, -0.5, 0.5, 0.05), plane.Arc(c, 150, 0.5, -0.5, 0.05))
	strokesAreSaid(t, Tape{measure.Inch}, orb.Ring(append(gore, gore[0])), seen)
	strokesAreSaid(t, Tape{measure.Centimetre}, orb.Ring(plane.Arc(c, 210, 0, 2*math.Pi, 0.05)), seen)
	rapid.Check(t, func(t *rapid.T) { strokesAreSaid(t, tapes(t), outline(t), seen) })
	for _, k := range []Kind{Straight, Arc, Circle, Off} {
		if seen[k] == 0 {
			t.Errorf("strokes of each kind: %v", seen)
		}
	}
}

// strokesAreSaid holds the drawing of an outline against its strokes.
func strokesAreSaid(t rapid.TB, tape Tape, ring orb.Ring, seen map[Kind]int) {
	p, on, _ := pieceOf(t, tape, Outline{Cut: ring})
	show := func(m Marks) string { return strings.ReplaceAll(tape.Show(m), noBreak, " ") }
	left := func(a, b orb.Point) orb.Point {
		l := distance(a, b)
		return orb.Point{(a[0]+b[0])/2 - (b[1]-a[1])/l*1.8*on.k, (a[1]+b[1])/2 + (b[0]-a[0])/l*1.8*on.k}
	}
	for _, s := range p.Figures.Outline {
		path := tape.Path(p.Figures, s)
		a, b := path[0], path[len(path)-1]
		long := distance(a, b)
		seen[s.Kind]++
		switch s.Kind {
		case Straight:
			if body := show(tape.Round(long)); long > 25*on.k && !on.says(body, left(a, b), 1e-6) {
				t.Fatalf("%s is not said along %v to %v", body, a, b)
			}
		case Arc, Circle:
			c, end := tape.point(p.Figures.Pivots[s.Pivot]), path[len(path)/2]
			if !on.has(sheet.RoleDim, c, end) ||
				!slices.ContainsFunc(on.heads, func(h orb.Point) bool { return distance(h, end) < 1e-6 }) {
				t.Fatalf("no arrow from %v to %v", c, end)
			}
			if along := left(between(c, end, 0.45), between(c, end, 0.75)); tape.MM(s.Radius) > 25*on.k &&
				!on.says(show(s.Radius), along, 1e-6) {
				t.Fatalf("%s is not said along the string", show(s.Radius))
			}
		case Off:
			if !on.has(sheet.RoleDim, a, b) || long > 31*on.k && !on.says("every "+show(s.Step), left(a, b), 1e-6) {
				t.Fatalf("no line from %v to %v, by %s", a, b, show(s.Step))
			}
			for i, off := range s.Off {
				foot, out := between(a, b, tape.MM(s.Step)*float64(i+1)/long), tape.MM(off)/long
				tip := orb.Point{foot[0] + out*(b[1]-a[1]), foot[1] - out*(b[0]-a[0])}
				if !on.has(sheet.RoleDim, foot, tip) {
					t.Fatalf("step %d: no line from %v to %v", i+1, foot, tip)
				}
			}
		}
	}
	for _, w := range on.texts {
		if w.Turn <= -90 || w.Turn > 91 {
			t.Fatalf("%q is upside down, turned by %v", w.Body, w.Turn)
		}
	}
}

// Points have their numbers beside them, outside the outline, pivots and match points have crosses, and notches strokes
// square to the cut line, half of them on either side.
func TestPointsAreMarkedWhereTheyLie(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape, ring := tapes(t), outline(t)
		i := rapid.IntRange(1, len(ring)-1).Draw(t, "side")
		notch := between(ring[i-1], ring[i], rapid.Float64Range(0.1, 0.9).Draw(t, "share"))
		spot := plane.Bounds(ring).Center()
		p, on, _ := pieceOf(t, tape, Outline{Cut: ring, Notches: []orb.Point{notch}, Points: []Named{{"hip", spot}}})
		for i, v := range p.Figures.Places {
			at := tape.point(v)
			k := slices.IndexFunc(on.texts, func(w sheet.Text) bool {
				return w.Role == sheet.RoleHeading && w.Body == strconv.Itoa(i+1) && math.Abs(distance(w.At, at)-2.4*on.k) < 1e-6
			})
			if k < 0 {
				t.Fatalf("no number %d at %v", i+1, at)
			}
			out := func(p orb.Point) bool { return !planar.RingContains(ring, p) }
			if !out(on.texts[k].At) && slices.ContainsFunc(directions(at, 2.4*on.k), out) {
				t.Fatalf("number %d stands inside at %v", i+1, on.texts[k].At)
			}
		}
		crossed := append(points(tape, p.Figures.Pivots), tape.point(p.Figures.Spots[0].At))
		for _, v := range crossed {
			r := 1.2 * on.k
			if !on.has(sheet.RoleMatch, orb.Point{v[0] - r, v[1]}, orb.Point{v[0] + r, v[1]}) ||
				!on.has(sheet.RoleMatch, orb.Point{v[0], v[1] - r}, orb.Point{v[0], v[1] + r}) {
				t.Fatalf("no cross at %v", v)
			}
		}
		if n := len(on.lines[sheet.RoleMatch]); n != 2*len(crossed) {
			t.Fatalf("%d lines of %d crosses", n, len(crossed))
		}
		for i := range p.Figures.Pivots {
			if !slices.ContainsFunc(on.texts, func(w sheet.Text) bool { return w.Body == p.Figures.PivotLabel(i) }) {
				t.Fatalf("no letter at pivot %d", i+1)
			}
		}
		snip := on.lines[sheet.RoleNotch][0]
		long := distance(snip[0], snip[1])
		if mid := between(snip[0], snip[1], 0.5); distance(mid, notch) > 1e-6 || math.Abs(long-2.4*on.k) > 1e-6 {
			t.Fatalf("a notch at %v is drawn from %v to %v", notch, snip[0], snip[1])
		}
		path := tape.Path(p.Figures, p.Figures.Outline[p.Figures.Notches[0].Stroke])
		_, n := toLine(notch, path, 0, 0)
		dx, dy := path[n+1][0]-path[n][0], path[n+1][1]-path[n][1]
		dot := (dx*(snip[1][0]-snip[0][0]) + dy*(snip[1][1]-snip[0][1])) / math.Hypot(dx, dy)
		if math.Abs(dot) > 1e-6*long {
			t.Fatalf("a notch is not square to its line: %v", dot)
		}
	})
}

// directions are the eight places round a point at a distance.
func directions(at orb.Point, r float64) (all []orb.Point) {
	for i := range 8 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		all = append(all, orb.Point{at[0] + r*cos, at[1] + r*sin})
	}
	return all
}
