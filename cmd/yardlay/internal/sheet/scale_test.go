package sheet

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/measure"
)

// drawn is what a drawing holds of two kinds of item.
type drawn struct {
	texts []Text
	lines []Line
}

func drawnOf(d Drawing) (all drawn) {
	for _, g := range d.Groups {
		for _, it := range g.Items {
			switch it := it.(type) {
			case Text:
				all.texts = append(all.texts, it)
			case Line:
				all.lines = append(all.lines, it)
			}
		}
	}
	return all
}

// dimension returns the line between two heads that a text stands in the middle of, or, of
// a level one, behind the end of.
func (a drawn) dimension(s Text, k float64) (length float64, ok bool) {
	for _, l := range a.lines {
		if l.Role != RoleDim || len(l.Path) != 2 {
			continue
		}
		from, to := l.Path[0], l.Path[1]
		level := from[1] == s.At[1] && to[1] == s.At[1]
		within := s.Anchor == Middle && math.Abs((from[0]+to[0])/2-s.At[0]) < 1e-6
		behind := s.Anchor == Start && math.Abs(to[0]+2*k-s.At[0]) < 1e-6
		upright := s.Turn == 90 && from[0] == to[0] && math.Abs(from[0]+3.5*k-s.At[0]) < 1e-6
		if level && (within || behind) || upright {
			return planar.Distance(from, to), true
		}
	}
	return 0, false
}

// asked finds the first length of a text, in the unit of the job, and whether it is said of
// two layers.
var asked = regexp.MustCompile(`^(used|with ends|spread|on the shelf|width|folded) (.*?) \(`)

// What is written at a dimension is what is drawn there, to a step of its unit; behind a
// crosswise fold both layers count.
func TestDimensionsAreAsLongAsTheySay(t *testing.T) {
	said := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		m := Marker{Title: "gown", Cloth: "satin", Width: 1500, Selvedge: 10,
			Unit: rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Centimetre}).Draw(t, "unit")}
		s := anyStretch(t)
		m.Stretches = []Stretch{s}
		d := m.Drawing()
		all, step := drawnOf(d), m.Unit.Millimetres()/8
		for _, text := range all.texts {
			match := asked.FindStringSubmatch(text.Body)
			if match == nil {
				continue
			}
			length, ok := all.dimension(text, d.Scale)
			if !ok {
				if match[1] == "width" || strings.Contains(text.Body, " · ") { // facts in the heading
					continue
				}
				t.Fatalf("%q stands at no dimension", text.Body)
			}
			if strings.HasSuffix(text.Body, ", both layers") {
				length = s.Skew + 2*(length-s.Skew)
			}
			if says, err := measure.Parse(match[2], m.Unit); err != nil || says < length-measure.Guard-step ||
				says > length+step {
				t.Fatalf("%q is drawn %v mm long: %v, %v", text.Body, length, says, err)
			}
			said[match[1]]++
		}
	})
	for _, what := range []string{"used", "with ends", "spread", "on the shelf", "width", "folded"} {
		if said[what] < often.Enough(5) {
			t.Errorf("%q is said %d times", what, said[what])
		}
	}
}

// A scale bar is as long as it says, from 0, and no longer than 70 mm of paper.
func TestScaleBarsAreToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Marker{Title: "gown", Cloth: "satin", Width: 1500, Selvedge: 10,
			Unit: rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Millimetre}).Draw(t, "unit")}
		m.Stretches = []Stretch{anyStretch(t)}
		d := m.Drawing()
		all := drawnOf(d)
		zero := slices.IndexFunc(all.texts, func(s Text) bool { return s.Body == "0" })
		from, to := all.texts[zero].At, all.texts[zero+1]
		says, err := measure.Parse(to.Body, measure.Inch)
		if length := to.At[0] - from[0]; err != nil || math.Abs(says-length) > 1e-6 || length > 70*d.Scale+1e-6 {
			t.Fatalf("%q is %v mm long at 1 : %v: %v", to.Body, length, d.Scale, err)
		}
		i := slices.IndexFunc(all.lines, func(l Line) bool {
			return l.Role == RoleDim && l.Path[0][0] == from[0] && math.Abs(l.Path[1][0]-to.At[0]) < 1e-6
		})
		if i < 0 {
			t.Fatal("no bar is drawn between its figures")
		}
	})
}

// Pieces are drawn in their size, where they lie: one like another off the cut end, and up
// from the lower edge.
func TestPiecesAreDrawnWhereTheyLie(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStretch(t)
		m := Marker{Title: "gown", Cloth: "satin", Width: 1500, Selvedge: 10, Unit: measure.Inch,
			Stretches: []Stretch{s}}
		var rings []orb.Ring
		for _, g := range m.Drawing().Groups {
			for _, it := range g.Items {
				if shape, ok := it.(Shape); ok && shape.Role == RolePiece {
					rings = append(rings, shape.Ring)
				}
			}
		}
		if len(rings) != len(s.Pieces) {
			t.Fatalf("%d outlines of %d pieces", len(rings), len(s.Pieces))
		}
		var first orb.Point // where the stretch's (0, 0) lies
		for i, p := range s.Pieces {
			for n, v := range p.Cut {
				at := orb.Point{rings[i][n][0] - v[0], rings[i][n][1] + v[1]}
				if i == 0 && n == 0 {
					first = at
				}
				if planar.Distance(at, first) > 1e-6 {
					t.Fatalf("corner %d of piece %d is drawn %v off where the first one is", n, i,
						orb.Point{at[0] - first[0],
							at[1] - first[1]})
				}
			}
		}
	})
}

// Lines of the repeat that are drawn lie whole repeats apart, and from where pieces begin.
func TestRepeatIsRuledFromItsStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Repeat{rapid.Float64Range(2, 300).Draw(t, "along"), rapid.Float64Range(2, 300).Draw(t, "across")}
		k := rapid.Float64Range(1, 20).Draw(t, "scale")
		origin := orb.Point{rapid.Float64Range(-50, 500).Draw(t, "x"), rapid.Float64Range(-50, 500).Draw(t, "y")}
		level, upright := 0, 0
		for _, it := range r.ruling(Box(0, 0, 900, 400), origin, k) {
			p := it.(Line).Path
			axis, repeat := 0, r.Along
			if p[0][1] == p[1][1] {
				axis, repeat = 1, r.Across
				level++
			} else {
				upright++
			}
			if off := math.Remainder(p[0][axis]-origin[axis], repeat*every(repeat, k)); math.Abs(off) > 1e-6 {
				t.Fatalf("a line at %v is %v off the repeat of %v from %v", p[0], off, repeat, origin)
			}
			if math.Abs(p[0][axis]-p[1][axis]) > 1e-6 {
				t.Fatalf("a line runs from %v to %v", p[0], p[1])
			}
		}
		one := func(size, repeat float64) float64 { return size / (repeat * every(repeat, k)) }
		if math.Abs(float64(upright)-one(900, r.Along)) > 1 || math.Abs(float64(level)-one(400, r.Across)) > 1 {
			t.Fatalf("%d lines across and %d along, every %v and %v mm", upright, level, r.Along*every(r.Along, k),
				r.Across*every(r.Across, k))
		}
		if every(r.Along, k)*r.Along/k < ruleStep-1e-9 {
			t.Fatal("lines run together")
		}
	})
}

// The first 26 names have a letter each, those behind a letter with a number; one name keeps
// its own, and no two share one.
func TestLettersTellPointsApart(t *testing.T) {
	var l Letters
	seen := map[string]string{}
	for round := range 2 {
		for i := range 80 {
			name := strings.Repeat("x", i+1)
			letter := l.Of(name)
			if was := seen[letter]; was != "" && was != name || round == 1 && was != name {
				t.Fatalf("%q is the letter of points %d and %d", letter, len(was), i+1)
			}
			seen[letter] = name
		}
	}
	if l.Of("") != "" || seen["A"] != "x" || seen["Z"] == "" || seen["A1"] != strings.Repeat("x", 27) {
		t.Errorf("letters %v", seen)
	}
}
