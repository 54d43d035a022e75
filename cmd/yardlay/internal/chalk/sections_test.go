package chalk

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// winding is a line that bends one way and the other, a little at each vertex.
var winding = rapid.Custom(func(t *rapid.T) []orb.Point {
	heading, p := rapid.Float64Range(0, 6).Draw(t, "heading"), orb.Point{1000, 800}
	line := []orb.Point{p}
	for range rapid.IntRange(2, 80).Draw(t, "vertices") {
		heading += rapid.Float64Range(-0.3, 0.3).Draw(t, "bend")
		step := rapid.Float64Range(2, 20).Draw(t, "step")
		sin, cos := math.Sincos(heading)
		p = orb.Point{p[0] + step*cos, p[1] + step*sin}
		line = append(line, p)
	}
	return line
})

// joined strings sections together again.
func joined(all []section) []orb.Point {
	line := slices.Clone(all[0].line)
	for _, s := range all[1:] {
		if s.line[0] != line[len(line)-1] {
			return nil
		}
		line = append(line, s.line[1:]...)
	}
	return line
}

// However a line is parted, its parts make it up end to end, and each has two points.
func TestPartsMakeUpTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := winding.Draw(t, "line")
		s := section{kind: curve, line: line}
		a, b := s.split()
		for name, all := range map[string][]section{
			"read": read(line, nil), "run": run(line), "gentle": s.gentle(), "split": {a, b},
			"parts": s.parts(rapid.IntRange(1, 9).Draw(t, "parts")),
		} {
			if name == "split" && len(line) < 3 {
				continue
			}
			if !slices.Equal(joined(all), line) {
				t.Errorf("%s: %d sections do not make up the line", name, len(all))
			}
			for _, part := range all {
				if len(part.line) < 2 {
					t.Errorf("%s: a section of %d points", name, len(part.line))
				}
			}
		}
		for _, part := range s.gentle() {
			turned := 0.0
			for i := 1; i < len(part.line)-1; i++ {
				turned += bend(part.line[i-1], part.line[i], part.line[i+1])
				if math.Abs(turned) > steepest {
					t.Errorf("a part turns by %.2f", turned)
				}
			}
		}
	})
}

// A circle is found from part of it, sampled as pieces are, and told from what is none.
func TestFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, centre := rapid.Float64Range(20, 1500).Draw(t, "radius"), orb.Point{700, -300}
		from, turn := rapid.Float64Range(0, 6).Draw(t, "from"), rapid.Float64Range(0.4, 6.2).Draw(t, "turn")
		line := plane.Arc(centre, r, from, from+turn, 0.05)
		if len(line) < leastChords+1 {
			return
		}
		c, ok := fit(line)
		if !ok || distance(c.centre, centre) > 1e-6*r || math.Abs(c.radius-r) > 1e-6*r {
			t.Fatalf("%v for %v about %v", c, r, centre)
		}
		if got := c.turn(line); math.Abs(got-turn) > 1e-6 {
			t.Errorf("it turns by %v, not %v", got, turn)
		}
		there := append(slices.Clone(line), slices.Clone(line[:len(line)-1])...)
		slices.Reverse(there[len(line):])
		if _, ok := fit(there); ok {
			t.Error("there and back is taken for an arc")
		}
		ellipse := make([]orb.Point, len(line))
		for i, p := range line {
			ellipse[i] = orb.Point{p[0], centre[1] + 0.5*(p[1]-centre[1])}
		}
		if c, ok := fit(ellipse); ok && c.strays(ellipse) > endFit {
			t.Error("an ellipse is taken for a circle that it strays from")
		}
	})
}

// No other pivot within reach, with any string, strays less, unless the one chosen is near
// enough with the arc's own.
func TestPivotIsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape := tapes(t)
		centre := orb.Point{rapid.Float64Range(100, 110).Draw(t, "x"), rapid.Float64Range(100, 110).Draw(t, "y")}
		r := rapid.Float64Range(30, 900).Draw(t, "radius")
		line := plane.Arc(centre, r, 0.3, 0.3+rapid.Float64Range(0.2, 6).Draw(t, "turn"), 0.05)
		s := section{arc, line, circle{centre, r}}
		at, worst := tape.pivot([]section{s})
		if worst <= ownShare*tape.Tolerance() {
			return
		}
		first := tape.round(centre)
		for dx := Marks(-2); dx <= 2; dx++ {
			for dy := Marks(-2); dy <= 2; dy++ {
				for dr := Marks(-3); dr <= 3; dr++ {
					c := circle{tape.point(Place{first[0] + dx, first[1] + dy}), tape.MM(tape.Round(r) + dr)}
					if c.strays(line) < worst-1e-9 {
						t.Fatalf("%v strays %.3f, %v with another string %.3f", at, worst, c, c.strays(line))
					}
				}
			}
		}
	})
}

// What is measured off a straight line is where a slow walk along the curve passes the step.
func TestOffsets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape := tapes(t)
		length, high := rapid.Float64Range(100, 800).Draw(t, "length"), rapid.Float64Range(-40, 40).Draw(t, "high")
		pose := plane.Pose{Turn: rapid.Float64Range(0, 360).Draw(t, "turn"), At: orb.Point{2000, 1500}}
		height := func(x float64) float64 { return high * math.Sin(math.Pi*x/length) }
		var line []orb.Point
		for k := range 201 {
			x := length * float64(k) / 200
			line = append(line, pose.ApplyPoint(orb.Point{x, height(x)}))
		}
		from, to := tape.round(line[0]), tape.round(line[200])
		step := rapid.SampledFrom(tape.steps()).Draw(t, "step")
		off := tape.offsets(from, to, step, line)
		if want := int(math.Ceil((length-tape.mark())/tape.MM(step))) - 1; math.Abs(float64(len(off)-want)) > 1 {
			t.Fatalf("%d steps of %v on %v", len(off), tape.MM(step), length)
		}
		for i, o := range off {
			// left of the way is up; ends are rounded, which moves and tilts the straight line
			want := -height(tape.MM(step) * float64(i+1))
			slope := math.Abs(high) * math.Pi / length
			if math.Abs(tape.MM(o)-want) > tape.mark()*(1.3+slope) {
				t.Errorf("step %d: %v off, want %v", i+1, tape.MM(o), want)
			}
		}
	})
}
