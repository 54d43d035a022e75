package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// wearer is a body that every draft's example fits, in inches.
const wearer = `unit = "in"
[body]
waist_girth = 28
hip_girth = 38
bust_girth = 36
neck_base_girth = 15
waist_to_hips = 8
underbust_girth = 30
upper_arm_girth = 11
shoulder_length = 5
back_neck_point_to_waist = 16
over_bust_girth = 34
high_hip_girth = 35
waist_to_over_bust = 9
waist_to_bust = "6 1/2"
waist_to_underbust = 4
waist_to_high_hip = 4
armhole_depth = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
[[cloth]]
id = "fusible"
width = 36
[[part]]
name = "p"
cloth = "satin"
`

// family drafts the example that the reference shows.
func family(t *testing.T, example string) []Pattern {
	t.Helper()
	j := testjobs.Read(t, wearer+strings.ReplaceAll(example, ", ", "\n"))
	var all []Pattern
	for _, l := range j.Parts[0].Layers {
		made, err := l.Drafted()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range made.Pieces {
			all = append(all, patternOf(p))
		}
	}
	return all
}

func patternOf(p shapes.Piece) Pattern {
	pattern := Pattern{Name: p.Name, Facts: []string{fmt.Sprintf("cut %d, cut size 14 1/2 x 10 5/8 in", p.Count)},
		Outline: Outline{Cut: p.Cut, Seam: p.Seam, Grain: p.Grain, Inside: p.Inside}}
	pattern.Along, pattern.Across = p.Finished()
	for _, n := range p.Notches {
		pattern.Notches = append(pattern.Notches, Notch{At: n.At, Outward: n.Outward})
	}
	for _, e := range p.Edges {
		if e.Kind == shapes.Fold {
			pattern.Fold = e.Line
		}
	}
	return pattern
}

// struck finds a text that a line of its piece runs through.
func struck(d Drawing) string {
	for _, g := range d.Groups {
		var lines []orb.LineString
		for _, it := range g.Items {
			switch it := it.(type) {
			case Line:
				lines = append(lines, it.Path)
			case Shape:
				lines = append(lines, orb.LineString(it.Ring))
			}
		}
		for _, it := range g.Items {
			t, ok := it.(Text)
			if !ok {
				continue
			}
			b := textBox(t).Bound()
			middle := orb.Point{(b.Min[0] + b.Max[0]) / 2, (b.Min[1] + b.Max[1]) / 2}
			if !clearBox(middle, 1, 0, b.Max[0]-b.Min[0], b.Max[1]-b.Min[1], lines) {
				return fmt.Sprintf("a line runs through %q", t.Body)
			}
		}
	}
	return ""
}

// Of no family of pieces, alone or all on a sheet, does a text meet another text
// or a line.
func TestFamiliesAreDrawnClearly(t *testing.T) {
	check := func(t *testing.T, patterns []Pattern) {
		t.Helper()
		for _, unit := range []measure.Unit{measure.Inch, measure.Centimetre} {
			d := Pieces{Title: "Lantern Court gown: satin", Unit: unit, Pieces: patterns,
				Cautions: []string{"Cut away from yourself."}}.Drawing()
			if s := clash(d); s != "" {
				t.Error(s)
			}
			if s := struck(d); s != "" {
				t.Error(s)
			}
		}
	}
	var all []Pattern
	for _, s := range job.Reference() {
		if !s.Draft || s.Title == "outline" { // which reads a file
			continue
		}
		t.Run(s.Title, func(t *testing.T) {
			patterns := family(t, s.Example)
			check(t, patterns)
			all = append(all, patterns...)
		})
	}
	t.Run("all", func(t *testing.T) { check(t, all) })
}
