package outline

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// drawPieces draws one to three pieces side by side with what pieces carry, as a person might:
// outlines of one line or of several, with seam lines, notches, darts in any of four ways, grain,
// folds, holes to drill and lines inside. Lines of names lie on layers, the others are plain.
func drawPieces(t *rapid.T) (lines []string) {
	chance := func(what string) bool { return rapid.Bool().Draw(t, what) }
	add := func(layer, format string, args ...any) {
		lines = append(lines, layer+":"+fmt.Sprintf(format, args...))
	}
	for k := range rapid.IntRange(1, 3).Draw(t, "pieces") {
		x := float64(1000 * k)
		w, h := float64(rapid.IntRange(10, 30).Draw(t, "wide")*20), float64(rapid.IntRange(10, 30).Draw(t, "high")*20)
		lean := float64(rapid.IntRange(0, 4).Draw(t, "lean") * 10) // of the right side
		layer := ""
		if chance("layer") {
			layer = "cut"
		}
		folded := chance("fold")
		switch way := rapid.IntRange(0, 3).Draw(t, "outline"); {
		case way == 0 && folded: // open along the fold
			add("cut", "%g,0 %g,0 %g,%g %g,%g", x, x+w, x+w+lean, h, x, h)
		case way == 1: // a line for each side
			add(layer, "%g,0 %g,0", x, x+w)
			add(layer, "%g,0 %g,%g", x+w, x+w+lean, h)
			add(layer, "%g,%g %g,%g", x+w+lean, h, x, h)
			add(layer, "%g,%g %g,0", x, h, x)
		case way == 2: // two, the ends of which are apart a little
			add(layer, "%g,0 %g,0 %g,%g", x, x+w, x+w+lean, h)
			add(layer, "%g,%g %g,%g %g,0.25", x+w+lean, h+.25, x, h, x)
		default:
			add(layer, "%g,0 %g,0 %g,%g %g,%g z", x, x+w, x+w+lean, h, x, h)
		}
		if folded {
			add("fold", "%g,0 %g,%g", x, x, h)
		} else if chance("seam line") {
			add("seam", "%g,15 %g,15 %g,%g %g,%g z", x+15, x+w-20, x+w+lean-20, h-15, x+15, h-15)
		}
		if chance("notch") {
			at := float64(rapid.IntRange(3, 15).Draw(t, "notch at") * 10)
			add(rapid.SampledFrom([]string{"", "notch"}).Draw(t, "notch layer"), "%g,-4 %g,6", x+at, x+at)
		}
		if chance("dart") {
			from, apex := x+w/2-30, h-90.
			to := from + 40
			dart := rapid.SampledFrom([]string{"", "dart"}).Draw(t, "dart layer")
			switch rapid.IntRange(0, 2).Draw(t, "dart drawn") {
			case 0:
				add(dart, "%g,%g %g,%g %g,%g", from, h, from+20, apex, to, h)
			case 1:
				add(dart, "%g,%g %g,%g", from, h, from+20, apex)
				add(dart, "%g,%g %g,%g", from+20, apex, to, h)
			case 2: // with its mouth
				add("dart", "%g,%g %g,%g", from, h, from+20, apex)
				add("dart", "%g,%g %g,%g", from+20, apex, to, h)
				add("dart", "%g,%g %g,%g", from, h, to, h)
			}
		}
		if chance("grain") {
			layer := rapid.SampledFrom([]string{"", "grain"}).Draw(t, "grain layer")
			add(layer, "%g,50 %g,%g", x+70, x+70, h-61) // never a quarter of the size
		}
		if chance("hole") {
			add("", "%g,60 %g,60 %g,65 %g,65 z", x+90, x+95, x+95, x+90)
		}
		if chance("inside") {
			add("grey", "%g,30 %g,70 %g,90", x+110, x+150, x+120)
		}
	}
	return lines
}

// motion is how a drawing is drawn otherwise and is the same: moved by whole mm, turned by
// quarters, mirrored, and counted in another unit.
type motion struct {
	m    affine
	back affine
	unit float64
}

func drawMotion(t *rapid.T) motion {
	shift := rapid.IntRange(-5000, 5000)
	x, y := float64(shift.Draw(t, "x")), float64(shift.Draw(t, "y"))
	quarters := [4][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	q := quarters[rapid.IntRange(0, 3).Draw(t, "quarters")]
	mirror := float64(rapid.SampledFrom([]int{1, -1}).Draw(t, "mirror"))
	turn := affine{a: q[0], b: q[1], c: -q[1] * mirror, d: q[0] * mirror}
	return motion{m: translation(x, y).times(turn),
		back: affine{a: turn.a, b: turn.c, c: turn.b, d: turn.d}.times(translation(-x, -y)),
		unit: rapid.SampledFrom([]float64{1, 25.4, 10, .5}).Draw(t, "unit")}
}

// otherwise is a drawing after a motion, its lines in another order, open ones drawn from
// either end and closed ones from any corner, either way round. from tells which line each was.
func otherwise(t *rapid.T, d Drawing, by motion) (out Drawing, from []int) {
	for i := range d.Lines {
		from = append(from, i)
	}
	from = rapid.Permutation(from).Draw(t, "order")
	slip := rapid.Float64Range(-.0015, .0015) // of numbers that are rounded
	out = d
	out.Unit.Millimetres, out.Lines = 0, nil
	for _, i := range from {
		l := d.Lines[i]
		l.Points = slices.Clone(l.Points)
		if l.Closed {
			n := len(l.Points) - 1
			k := rapid.IntRange(0, n-1).Draw(t, "begun")
			l.Points = append(append(l.Points[k:n:n], l.Points[:k]...), l.Points[k])
		}
		if rapid.Bool().Draw(t, "back") {
			l.Points.Reverse()
		}
		for k, p := range l.Points {
			p = by.m.apply(orb.Point{p[0] + slip.Draw(t, "slip"), p[1] + slip.Draw(t, "slip")})
			l.Points[k] = orb.Point{p[0] / by.unit, p[1] / by.unit}
		}
		if l.Closed {
			l.Points[len(l.Points)-1] = l.Points[0]
		}
		out.Lines = append(out.Lines, l)
	}
	return out, from
}

// comesTo is what an assembly comes to, whatever the order in which it was drawn: of each shape
// where its parts lie, after a map; and what each line was taken for.
func comesTo(a Assembly, m affine, from []int) (words []string) {
	at := func(p orb.Point) string {
		p = m.apply(p)
		for i := range p { // what is drawn lies on a grid of 2.5, but for a gap of 0.25
			p[i] = math.Floor((p[i]+1.2)/2.5)*2.5 + 0
		}
		return fmt.Sprintf("%g,%g", p[0], p[1])
	}
	ends := func(line orb.LineString) string {
		both := []string{at(line[0]), at(line[len(line)-1])}
		slices.Sort(both)
		return strings.Join(both, "-")
	}
	for _, s := range a.Shapes {
		box := plane.Bounds(s.Ring())
		w := []string{fmt.Sprintf("round %s: %v, holes %d", at(box.Center()), s.Outline, s.Holes)}
		var parts []string
		for i, e := range s.Edges {
			what := "edge "
			if i == s.Fold {
				what = "fold "
			}
			parts = append(parts, what+ends(e.Line))
		}
		for _, n := range s.Notches {
			parts = append(parts, "notch "+at(pointAt(s.Edges, n)))
		}
		for _, d := range s.Darts {
			parts = append(parts, "dart "+at(d.Apex)+" on "+ends(orb.LineString{
				pointAt(s.Edges, NotchAt{d.Edge, d.From}), pointAt(s.Edges, NotchAt{d.Edge, d.To})}))
		}
		for _, in := range s.Inside {
			if in.Line[0] == in.Line[len(in.Line)-1] {
				b := plane.Bounds(orb.Ring(in.Line))
				parts = append(parts, "inside round "+at(b.Center()))
				continue
			}
			parts = append(parts, "inside "+ends(in.Line))
		}
		if s.Grain != nil {
			parts = append(parts, "grain "+ends(s.Grain))
		}
		if s.Cut != nil {
			parts = append(parts, "cut line round "+at(plane.Bounds(s.Cut).Center()))
		}
		slices.Sort(parts)
		words = append(words, strings.Join(append(w, parts...), "; "))
	}
	slices.Sort(words)
	roles := make([]string, len(a.Roles))
	for i, r := range a.Roles {
		roles[from[i]] = fmt.Sprintf("line %d: %v", from[i]+1, r.Role)
	}
	var faults []string
	for _, f := range a.Faults {
		faults = append(faults, "fault "+f.Kind.String())
	}
	slices.Sort(faults)
	return append(append(words, roles...), faults...)
}

// However a drawing is turned, mirrored, moved, measured, and in whatever order and direction its
// lines were drawn, it is read as the same pieces with the same parts at the same places.
func TestTheSameDrawingIsReadAlike(t *testing.T) {
	identically := func(n int) (all []int) {
		for i := range n {
			all = append(all, i)
		}
		return all
	}
	rapid.Check(t, func(rt *rapid.T) {
		lines := drawPieces(rt)
		d := drawn(t, lines...)
		want := comesTo(assemble(t, Options{}, d), identity, identically(len(lines)))
		by := drawMotion(rt)
		other, from := otherwise(rt, d, by)
		got := comesTo(assemble(t, Options{Millimetres: by.unit}, other), by.back, from)
		if diff := cmp.Diff(want, got); diff != "" {
			rt.Fatalf("%s\nafter %+v, lines in the order %v (-as drawn +otherwise):\n%s", strings.Join(lines, "\n"), by,
				from, diff)
		}
	})
}
