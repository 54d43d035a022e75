package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// sameLines holds that two drawings have the same lines, point by point.
func sameLines(t rapid.TB, a, b string) {
	t.Helper()
	read := func(body string) []Line {
		d, err := ReadSVG(strings.NewReader(page(body)))
		if err != nil {
			t.Fatalf("%s: %v", body, err)
		}
		return d.Lines
	}
	p, q := read(a), read(b)
	if len(p) != len(q) {
		t.Fatalf("%d lines and %d of\n%s\n%s", len(p), len(q), a, b)
	}
	for i := range p {
		if p[i].Closed != q[i].Closed || fmt.Sprint(p[i].Corners) != fmt.Sprint(q[i].Corners) {
			t.Fatalf("corners %v, %v of\n%s\n%s", p[i].Corners, q[i].Corners, a, b)
		}
		for k := range p[i].Points {
			if planar.Distance(p[i].Points[k], q[i].Points[k]) > 1e-7 {
				t.Fatalf("point %d: %v, %v of\n%s\n%s", k, p[i].Points[k], q[i].Points[k], a, b)
			}
		}
	}
}

// writtenPath is a path written three ways: with absolute coordinates alone, with relative ones, and
// each command in the shortest words that there are for it.
type writtenPath struct{ absolute, relative, short strings.Builder }

// Relative commands, shorthands (H and V; S and T, whose first control point is the reflection of
// the one before: SVG 1.1, 8.3.6 and 8.3.7) and commands left out (8.3.1) draw what the long words draw.
func TestWaysToWriteAPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var w writtenPath
		coordinate := rapid.Map(rapid.IntRange(-80, 80), func(i int) float64 { return float64(i) / 2 })
		draw := func() orb.Point { return orb.Point{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")} }
		start := draw()
		at, control, last := start, start, "M"
		w.all(fmt.Sprintf("M%g %g", at[0], at[1]), fmt.Sprintf("m%g %g", at[0], at[1]), fmt.Sprintf("M%g,%g",
			at[0], at[1]))
		for range rapid.IntRange(1, 8).Draw(t, "commands") {
			c := rapid.SampledFrom([]string{"M", "L", "H", "V", "C", "S", "Q", "T", "A", "Z"}).Draw(t, "command")
			to := draw()
			mirror := at
			if last != "" && strings.Contains(map[string]string{"S": "CS", "T": "QT"}[c], last) {
				mirror = orb.Point{2*at[0] - control[0], 2*at[1] - control[1]}
			}
			again := func(words string) string { // the same command once more needs no letter
				if c == last && c != "M" {
					return " " + words
				}
				return c + words
			}
			switch c {
			case "M":
				w.points(c, at, to)
				w.short.WriteString(fmt.Sprintf("m%g %g", to[0]-at[0], to[1]-at[1]))
				start = to
			case "L":
				w.points(c, at, to)
				w.short.WriteString(again(fmt.Sprintf("%g %g", to[0], to[1])))
			case "H", "V":
				k := strings.Index("HV", c)
				to[1-k] = at[1-k]
				w.points("L", at, to)
				w.short.WriteString(again(fmt.Sprint(to[k])))
			case "C":
				a, b := draw(), draw()
				w.points(c, at, a, b, to)
				w.short.WriteString(again(fmt.Sprintf("%g,%g,%g,%g,%g,%g", a[0], a[1], b[0], b[1], to[0], to[1])))
				control = b
			case "S":
				b := draw()
				w.points("C", at, mirror, b, to)
				w.short.WriteString(again(fmt.Sprintf("%g %g %g %g", b[0], b[1], to[0], to[1])))
				control = b
			case "Q":
				a := draw()
				w.points(c, at, a, to)
				w.short.WriteString(again(fmt.Sprintf("%g %g %g %g", a[0], a[1], to[0], to[1])))
				control = a
			case "T":
				w.points("Q", at, mirror, to)
				w.short.WriteString(again(fmt.Sprintf("%g %g", to[0], to[1])))
				control = mirror
			case "A":
				rx, ry := rapid.IntRange(1, 90).Draw(t, "rx"), rapid.IntRange(1, 90).Draw(t, "ry")
				turn, large, sweep := rapid.IntRange(-90, 90).Draw(t, "turn"), rapid.IntRange(0, 1).Draw(t, "large"),
					rapid.IntRange(0, 1).Draw(t, "sweep")
				long := fmt.Sprintf("%d %d %d %d %d ", rx, ry, turn, large, sweep)
				w.absolute.WriteString(fmt.Sprintf("A%s%g %g", long, to[0], to[1]))
				w.relative.WriteString(fmt.Sprintf("a%s%g %g", long, to[0]-at[0], to[1]-at[1]))
				w.short.WriteString(again(fmt.Sprintf("%d,%d,%d,%d%d%g,%g", rx, ry, turn, large, sweep, to[0], to[1])))
			case "Z":
				to = start
				w.all("Z", "z", "z")
			}
			at, last = to, c
		}
		path := func(d string) string { return `<path d="` + d + `"/>` }
		sameLines(t, path(w.absolute.String()), path(w.relative.String()))
		sameLines(t, path(w.absolute.String()), path(w.short.String()))
	})
}

func (w *writtenPath) all(absolute, relative, short string) {
	w.absolute.WriteString(absolute)
	w.relative.WriteString(relative)
	w.short.WriteString(short)
}

func (w *writtenPath) points(command string, at orb.Point, points ...orb.Point) {
	w.absolute.WriteString(command)
	w.relative.WriteString(strings.ToLower(command))
	for _, p := range points {
		fmt.Fprintf(&w.absolute, "%g %g ", p[0], p[1])
		fmt.Fprintf(&w.relative, "%g %g ", p[0]-at[0], p[1]-at[1])
	}
}

// A rectangle is the path that SVG 2, 10.2 gives for it, with its corners rounded and without; line,
// polyline and polygon are those of 10.5 to 10.7.
func TestShapesAreTheirEquivalentPaths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) }
		x, y, w, h := n("x", -20, 20), n("y", -20, 20), n("w", 1, 60), n("h", 1, 60)
		rx, ry := n("rx", 1, 40), n("ry", 1, 40)
		rect := fmt.Sprintf(`<rect x="%g" y="%g" width="%g" height="%g" rx="%g" ry="%g"/>`, x, y, w, h, rx, ry)
		rx, ry = min(rx, w/2), min(ry, h/2)
		path := fmt.Sprintf(`<path d="M%[1]g %[2]g H%[3]g A%[4]g %[5]g 0 0 1 %[6]g %[7]g V%[8]g A%[4]g %[5]g 0 0 1 %[3]g %[9]g
			H%[1]g A%[4]g %[5]g 0 0 1 %[10]g %[8]g V%[7]g A%[4]g %[5]g 0 0 1 %[1]g %[2]g z"/>`,
			x+rx, y, x+w-rx, rx, ry, x+w, y+ry, y+h-ry, y+h, x)
		sameLines(t, rect, path)
		points := fmt.Sprintf("%g,%g %g,%g %g,%g", x, y, x+w, y+ry, x+rx, y+h)
		sameLines(t, `<polyline points="`+points+`"/>`, `<path d="M`+points+`"/>`)
		sameLines(t, `<polygon points="`+points+`"/>`, `<path d="M`+points+`z"/>`)
		sameLines(t, fmt.Sprintf(`<line x1="%g" y1="%g" x2="%g" y2="%g"/>`, x, y, w, h),
			fmt.Sprintf(`<path d="M%g,%gL%g,%g"/>`, x, y, w, h))
	})
}

// matrixOf is a map as matrices have it; gonum multiplies them.
func matrixOf(m affine) *mat.Dense {
	return mat.NewDense(3, 3, []float64{m.a, m.c, m.e, m.b, m.d, m.f, 0, 0, 1})
}

// A list of transforms is the product of their matrices in the order in which they are written
// (SVG 1.1, 7.5 and 7.6, whose matrices these are; CSS Transforms 1, 13 has those along one axis),
// and what a map stretches most is its largest singular value.
func TestTransformsAreMatrices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want, text := mat.NewDense(3, 3, []float64{1, 0, 0, 0, 1, 0, 0, 0, 1}), ""
		for range rapid.IntRange(1, 4).Draw(t, "transforms") {
			number := rapid.Map(rapid.IntRange(-24, 24), func(i int) float64 { return float64(i) / 4 })
			p, q := number.Draw(t, "p"), number.Draw(t, "q")
			angle := rapid.IntRange(-720, 720).Draw(t, "angle")
			if rapid.Bool().Draw(t, "quarter") {
				angle = angle / 90 * 90
			}
			a := float64(angle) * math.Pi / 180
			if math.Abs(math.Cos(a)) < .1 && angle%90 != 0 {
				angle, a = 30, math.Pi/6
			}
			sin, cos := math.Sincos(a)
			tan := math.Tan(math.Pi / 180 * float64(angle%80))
			all := []struct {
				text string
				m    []float64
			}{
				{fmt.Sprintf("translate(%g %g)", p, q), []float64{1, 0, p, 0, 1, q}},
				{fmt.Sprintf("translate(%g)", p), []float64{1, 0, p, 0, 1, 0}},
				{fmt.Sprintf("translateX(%gpx)", p), []float64{1, 0, p, 0, 1, 0}},
				{fmt.Sprintf("translateY(%gin)", q), []float64{1, 0, 0, 0, 1, 96 * q}},
				{fmt.Sprintf("scale(%g,%g)", p, q), []float64{p, 0, 0, 0, q, 0}},
				{fmt.Sprintf("scale(%g)", p), []float64{p, 0, 0, 0, p, 0}},
				{fmt.Sprintf("scaleX(%g)", p), []float64{p, 0, 0, 0, 1, 0}},
				{fmt.Sprintf("scaleY(%g)", q), []float64{1, 0, 0, 0, q, 0}},
				{fmt.Sprintf("rotate(%d)", angle), []float64{cos, -sin, 0, sin, cos, 0}},
				{fmt.Sprintf("rotate(%.12gturn)", float64(angle)/360), []float64{cos, -sin, 0, sin, cos, 0}},
				{fmt.Sprintf("rotate(%.15grad)", a), []float64{cos, -sin, 0, sin, cos, 0}},
				{fmt.Sprintf("rotate(%d %g %g)", angle, p, q),
					[]float64{cos, -sin, p - p*cos + q*sin, sin, cos, q - p*sin - q*cos}},
				{fmt.Sprintf("skewX(%d)", angle%80), []float64{1, tan, 0, 0, 1, 0}},
				{fmt.Sprintf("skewY(%ddeg)", angle%80), []float64{1, 0, 0, tan, 1, 0}},
				{fmt.Sprintf("skew(%d)", angle%80), []float64{1, tan, 0, 0, 1, 0}},
				{fmt.Sprintf("skew(0,%d)", angle%80), []float64{1, 0, 0, tan, 1, 0}},
				{fmt.Sprintf("matrix(%g %g 1,2 3 4)", p, q), []float64{p, 1, 3, q, 2, 4}},
			}
			one := all[rapid.IntRange(0, len(all)-1).Draw(t, "which")]
			text += one.text + rapid.SampledFrom([]string{"", " ", ",", " , "}).Draw(t, "between")
			next := &mat.Dense{}
			next.Mul(want, mat.NewDense(3, 3, append(one.m, 0, 0, 1)))
			want = next
		}
		got, err := parseSVGTransform(text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		size := 1 + mat.Norm(want, 2)
		if diff := new(mat.Dense); true {
			diff.Sub(matrixOf(got), want)
			if mat.Norm(diff, 2) > 1e-9*size {
				t.Fatalf("%s: %v, want %v", text, got, mat.Formatted(want))
			}
		}
		var svd mat.SVD
		if !svd.Factorize(matrixOf(got).Slice(0, 2, 0, 2), mat.SVDNone) {
			t.Fatal("no singular values")
		}
		if largest := svd.Values(nil)[0]; math.Abs(got.stretch()-largest) > 1e-6*size {
			t.Fatalf("%s: stretches by %g, want %g", text, got.stretch(), largest)
		}
	})
}

// Turns by quarters are exact, so that what lies along the grain stays so.
func TestQuarterTurnsAreExact(t *testing.T) {
	for degrees, want := range map[string]affine{"0": identity, "360": identity, "-360": identity,
		"90": {b: 1, c: -1}, "-270": {b: 1, c: -1}, "180": {a: -1, d: -1}, "-180": {a: -1, d: -1},
		"540": {a: -1, d: -1},
		"270": {b: -1, c: 1}, "-90": {b: -1, c: 1}, "100grad": {b: 1, c: -1}, ".75turn": {b: -1, c: 1}} {
		if got, err := parseSVGTransform("rotate(" + degrees + ")"); err != nil || got != want {
			t.Errorf("rotate(%s): %v, %v", degrees, got, err)
		}
	}
}
