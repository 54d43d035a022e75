package chalk

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// maker draws a piece by the words of its tables alone, as HowTo says they are read: no figure reaches her but as
// print. She is another reader of them than Rebuild.
type maker struct {
	t     *rapid.T
	tape  Tape
	cross map[string]orb.Point // by label, as she has marked them
}

// length reads a length as printed.
func (m maker) length(words string) float64 {
	mm, err := measure.Parse(strings.ReplaceAll(strings.TrimSpace(words), noBreak, " "), m.tape.Unit)
	if err != nil {
		m.t.Fatalf("%q: %v", words, err)
	}
	return mm
}

func (m maker) at(label string) orb.Point {
	p, ok := m.cross[label]
	if !ok {
		m.t.Fatalf("no point is called %q", label)
	}
	return p
}

var (
	arcWords   = regexp.MustCompile(`^arc about (P\d*), string (.*), straight across (.*)$`)
	roundWords = regexp.MustCompile(`^circle about (P\d*), string (.*)$`)
	curveWords = regexp.MustCompile(`^(?:curve|arc, radius .*, its centre off the cloth); straight across (.*); ` +
		`off that at every (.*) from (\d+): (.*)$`)
	placedWords = regexp.MustCompile(`^(.*) from the cut end, (.*) from the edge$`)
)

// draw draws a line of the table; what is right of the way is called by the second of sides.
func (m maker) draw(label, words string, sides [2]string) []orb.Point {
	if w := roundWords.FindStringSubmatch(words); w != nil {
		if label != "about "+w[1] {
			m.t.Fatalf("%q is called %q", words, label)
		}
		return plane.Arc(m.at(w[1]), m.length(w[2]), 0, 2*math.Pi, .01)
	}
	first, last, ok := strings.Cut(label, " to ")
	if !ok {
		m.t.Fatalf("%q, %q", label, words)
	}
	a, b := m.at(first), m.at(last)
	across := func(said string) { // a length to check by
		if off := math.Abs(distance(a, b) - m.length(said)); off > m.tape.mark()/2+1e-6 {
			m.t.Fatalf("%s: it is %.2f off the %s that are said", label, off, said)
		}
	}
	if said, ok := strings.CutPrefix(words, "straight, "); ok {
		across(strings.TrimSuffix(said, " long"))
		return []orb.Point{a, b}
	}
	if w := arcWords.FindStringSubmatch(words); w != nil {
		across(w[3])
		c, r := m.at(w[1]), m.length(w[2])
		from := math.Atan2(a[1]-c[1], a[0]-c[0])
		short := math.Remainder(math.Atan2(b[1]-c[1], b[0]-c[0])-from, 2*math.Pi)
		return slices.Concat([]orb.Point{a}, plane.Arc(c, r, from, from+short, .01), []orb.Point{b})
	}
	w := curveWords.FindStringSubmatch(words)
	if w == nil || w[3] != first {
		m.t.Fatalf("%s: nobody can draw %q", label, words)
	}
	across(w[1])
	line, step, side := []orb.Point{a}, m.length(w[2]), 0.
	long := distance(a, b)
	ux, uy := (b[0]-a[0])/long, (b[1]-a[1])/long
	for i, off := range strings.Split(w[4], ", ") {
		for k, name := range sides {
			if said, ok := strings.CutPrefix(off, name+" "); ok {
				off, side = said, float64(2*k-1)
			}
		}
		along, right := step*float64(i+1), side*m.length(off)
		line = append(line, orb.Point{a[0] + along*ux + right*uy, a[1] + along*uy - right*ux})
	}
	return append(line, b)
}

// notch finds the place of a notch on what she has drawn so far, line by line.
func (m maker) notch(words string, drawn map[string][]orb.Point) orb.Point {
	if label, ok := strings.CutPrefix(words, "at "); ok {
		return m.at(label)
	}
	label, where, ok := strings.Cut(strings.TrimPrefix(words, "on "), ", ")
	line := drawn[label]
	if !ok || line == nil {
		m.t.Fatalf("a notch %q", words)
	}
	if w := placedWords.FindStringSubmatch(where); w != nil {
		return orb.Point{m.length(w[1]), m.length(w[2])}
	}
	far, from, ok := strings.Cut(where, " straight from ")
	if !ok {
		m.t.Fatalf("a notch %q", words)
	}
	centre, r := m.at(from), m.length(far)
	if distance(line[0], centre) > 1e-6 {
		line = slices.Clone(line)
		slices.Reverse(line)
	}
	for i := 1; i < len(line); i++ {
		if near, far := distance(line[i-1], centre), distance(line[i], centre); near <= r+1e-9 &&
			r <= far+1e-9 && far > near {
			return between(line[i-1], line[i], (r-near)/(far-near))
		}
	}
	m.t.Fatalf("a notch %q lies nowhere on %s", words, label)
	return orb.Point{}
}

// Who has the printed tables alone draws the piece within the tolerance, its notches and the lines inside too.
func TestTheWordsAloneDrawThePiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := maker{t, tapes(t), map[string]orb.Point{}}
		o := Outline{Cut: outline(t)}
		for i := range rapid.IntRange(0, 2).Draw(t, "notches") {
			k := rapid.IntRange(1, len(o.Cut)-1).Draw(t, fmt.Sprint("side ", i))
			o.Notches = append(o.Notches, between(o.Cut[k-1], o.Cut[k], rapid.Float64Range(0, 1).Draw(t, "share")))
		}
		b := plane.Bounds(o.Cut)
		bowed := plane.Arc(between(b.Min, b.Max, .5), 180, .2, 1.9, .05)
		o.Inside = []Inside{{"dart", orb.LineString{b.Min, between(b.Min, b.Max, .4), {b.Max[0], b.Min[1]}}},
			{"bow", bowed}}
		o.Points = []Named{{"side seams", between(b.Min, b.Max, .3)}}
		cloth := table
		if rapid.Bool().Draw(t, "on a narrow cloth") { // so that pivots lie off it
			cloth = b
		}
		f, err := m.tape.Figure(o, cloth)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range f.Points() {
			if _, twice := m.cross[p.Label]; twice {
				t.Fatalf("two points are called %q", p.Label)
			}
			m.cross[p.Label] = orb.Point{m.length(m.tape.Show(p.At[0])), m.length(m.tape.Show(p.At[1]))}
		}
		var cut []orb.Point
		lines, drawn, notches := map[string][]orb.Point{}, map[string][]orb.Point{}, 0
		for i, row := range f.Lines(m.tape) {
			name, words, named := strings.Cut(row.Words, ": ")
			switch {
			case row.Label == "notch":
				if off := distance(m.notch(row.Words, drawn), o.Notches[notches]); off > m.tape.Tolerance()+.02 {
					t.Fatalf("notch %d is drawn %.2f off: %s", notches+1, off, row.Words)
				}
				notches++
			case row.Label == "match":
				w := placedWords.FindStringSubmatch(words)
				if w == nil || name != "side seams" {
					t.Fatalf("%q", row.Words)
				}
				if off := distance(orb.Point{m.length(w[1]), m.length(w[2])},
					o.Points[0].At); off > m.tape.Tolerance() {
					t.Fatalf("a match point lies %.2f off", off)
				}
			case i < len(f.Outline):
				line := m.draw(row.Label, row.Words, [2]string{"in", "out"})
				cut, drawn[row.Label] = append(cut, line...), line
			case named:
				lines[name] = append(lines[name], m.draw(row.Label, words, [2]string{"left", "right"})...)
			}
		}
		if off := slowlyApart(cut, o.Cut, 3); off > m.tape.Tolerance()+.03 {
			t.Fatalf("the piece is drawn %.2f off", off)
		}
		for _, in := range o.Inside {
			if off := slowlyApart(lines[in.Name], in.Line, 3); off > m.tape.Tolerance()+.03 {
				t.Fatalf("%s is drawn %.2f off", in.Name, off)
			}
		}
		if notches != len(o.Notches) {
			t.Fatalf("%d notches are said of %d", notches, len(o.Notches))
		}
	})
}
