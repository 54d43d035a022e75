package ways

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/chalk"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// toldPiece is a piece as a maker reads it off the text: points by their names, and lines.
type toldPiece struct {
	points map[string]orb.Point
	lines  [][2]string // what it joins, how
	sides  [][2]string // marks: notches, lines inside
}

var (
	pieceLine = regexp.MustCompile(`^(\d+)\. `)
	pointLine = regexp.MustCompile(`^   (\d+|P\d*) {2,}(\S+(?: \d+/\d+)?) {2,}(\S+(?: \d+/\d+)?)$`)
	joinLine  = regexp.MustCompile(`^   (\d+ to \d+|about P\d*|notch|match) +(.*)$`)
)

// readChalk reads the tables off a text, lengths in mm.
func readChalk(t *testing.T, text string, unit measure.Unit) []toldPiece {
	t.Helper()
	var all []toldPiece
	var last *string
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if pieceLine.MatchString(line) {
			all, last = append(all, toldPiece{points: map[string]orb.Point{}}), nil
			continue
		}
		if len(all) == 0 {
			continue
		}
		p := &all[len(all)-1]
		if m := pointLine.FindStringSubmatch(line); m != nil {
			p.points[m[1]] = orb.Point{tapeMM(t, m[2], unit), tapeMM(t, m[3], unit)}
		} else if m := joinLine.FindStringSubmatch(line); m != nil {
			row := [2]string{m[1], m[2]}
			to := &p.lines
			if m[1] == "notch" || m[1] == "match" || !regexp.MustCompile(`^(straight|arc|circle|curve|on the fold)`).
				MatchString(m[2]) {
				to = &p.sides
			}
			*to = append(*to, row)
			last = &(*to)[len(*to)-1][1]
		} else if last != nil && strings.HasPrefix(line, strings.Repeat(" ", 13)) {
			*last += " " + strings.TrimSpace(line)
		} else {
			last = nil
		}
	}
	return all
}

// tapeMM reads a distance off a tape.
func tapeMM(t *testing.T, s string, unit measure.Unit) float64 {
	t.Helper()
	mm, err := measure.Parse(s+" "+unit.String(), unit)
	if err != nil {
		t.Fatal(err)
	}
	return mm
}

const tapeLength = `(\d+(?:\.\d+)?(?: \d+/\d+)?|\d+/\d+)`

var (
	stringWords = regexp.MustCompile(`about (P\d*), string ` + tapeLength)
	offWords    = regexp.MustCompile(`off that at every ` + tapeLength + ` from (\d+): (.*)$`)
)

// follow draws a piece as its lines say, knowing nothing but them.
func (p toldPiece) follow(t *testing.T, unit measure.Unit) orb.Ring {
	t.Helper()
	var ring orb.Ring
	add := func(points ...orb.Point) { ring = append(ring, points...) }
	for _, l := range p.lines {
		from, to, _ := strings.Cut(l[0], " to ")
		a, b := p.points[from], p.points[to]
		switch m := stringWords.FindStringSubmatch(l[1]); {
		case m != nil:
			c, r := p.points[m[1]], tapeMM(t, m[2], unit)
			start, turn := 0.0, 2*math.Pi
			if strings.HasPrefix(l[1], "arc") {
				start = math.Atan2(a[1]-c[1], a[0]-c[0])
				turn = math.Atan2(b[1]-c[1], b[0]-c[0]) - start
				for turn > math.Pi {
					turn -= 2 * math.Pi
				}
				for turn < -math.Pi {
					turn += 2 * math.Pi
				}
				add(a)
			}
			for k := range 401 {
				sin, cos := math.Sincos(start + turn*float64(k)/400)
				add(orb.Point{c[0] + r*cos, c[1] + r*sin})
			}
		case strings.HasPrefix(l[1], "straight") || strings.HasPrefix(l[1], "on the fold"):
			add(a)
		default:
			add(offLine(t, l[1], a, b, unit)...)
		}
	}
	return append(ring, ring[0])
}

// offLine measures off the straight line from a to b.
func offLine(t *testing.T, words string, a, b orb.Point, unit measure.Unit) []orb.Point {
	t.Helper()
	m := offWords.FindStringSubmatch(words)
	if m == nil {
		t.Fatalf("cannot follow %q", words)
	}
	step, line := tapeMM(t, m[1], unit), []orb.Point{a}
	length, side := math.Hypot(b[0]-a[0], b[1]-a[1]), 0.0
	u := orb.Point{(b[0] - a[0]) / length, (b[1] - a[1]) / length}
	for i, word := range strings.Split(m[3], ", ") {
		for _, s := range []struct {
			word string
			sign float64
		}{{"out ", 1}, {"right ", 1}, {"in ", -1}, {"left ", -1}} {
			if rest, ok := strings.CutPrefix(word, s.word); ok {
				word, side = rest, s.sign
			}
		}
		off, along := 0.0, step*float64(i+1)
		if word != "0" {
			off = side * tapeMM(t, word, unit)
		}
		// Against the clock round the piece, its outside is on the right.
		line = append(line, orb.Point{a[0] + along*u[0] + off*u[1], a[1] + along*u[1] - off*u[0]})
	}
	return line
}

// strays is how far points along one ring lie from another at the most: each against every side.
func strays(a, b orb.Ring) float64 {
	worst := 0.0
	for i := 1; i < len(a); i++ {
		n := max(1, int(planar.Distance(a[i-1], a[i])/4))
		for k := range n {
			s := float64(k) / float64(n)
			p := orb.Point{a[i-1][0] + s*(a[i][0]-a[i-1][0]), a[i-1][1] + s*(a[i][1]-a[i-1][1])}
			worst = math.Max(worst, planar.DistanceFrom(orb.LineString(b), p))
		}
	}
	return worst
}

// deepest is how deep a ring's points lie inside another.
func deepest(a, b orb.Ring) float64 {
	worst := 0.0
	bound := plane.Bounds(b)
	for _, p := range a {
		if bound.Contains(p) && planar.RingContains(b, p) {
			worst = math.Max(worst, planar.DistanceFrom(orb.LineString(b), p))
		}
	}
	return worst
}

// Whoever follows the printed figures of any job, and nothing else, draws each piece within a
// millimetre, or a sixteenth of an inch, of its cut line, and no two over each other.
func TestChalkRebuildsEveryJob(t *testing.T) {
	for _, file := range jobFiles(t) {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".toml"), func(t *testing.T) {
			t.Parallel()
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			f, err := job.Read(file, src)
			if err != nil {
				t.Fatal(err)
			}
			p := &Printing{file: f, unit: f.Job().Unit}
			p.lay.Effort, p.lay.Unit = nest.Trial, p.unit
			r, err := p.chalked(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range r.Cloths {
				d, err := p.chalkOf(r, c, nil)
				if err != nil {
					t.Fatal(err)
				}
				worst, points := 0.0, 0
				for _, l := range d.Markers {
					worst = max(worst, checkFollowed(t, l, d.Tape, c.Spread.Steps))
					for _, p := range l.Pieces {
						points += len(p.Figures.Places)
					}
				}
				t.Logf("%s: %d points, at most %.2f mm off", c.ID, points, worst)
			}
		})
	}
}

// checkFollowed follows the text of a lay and returns how far that strays at the most, mm.
func checkFollowed(t *testing.T, l chalk.Marker, tape chalk.Tape, steps nest.Repeat) (worst float64) {
	t.Helper()
	tolerance := 1.0
	if tape.Unit == measure.Inch {
		tolerance = 1.6
	}
	told := readChalk(t, l.Text(tape), tape.Unit)
	if len(told) != len(l.Pieces) {
		t.Fatalf("%d pieces told of %d", len(told), len(l.Pieces))
	}
	var rings []orb.Ring
	for i, p := range l.Pieces {
		ring := told[i].follow(t, tape.Unit)
		off := math.Max(strays(ring, p.Outline.Cut), strays(p.Outline.Cut, ring))
		if off > tolerance {
			t.Errorf("%s: drawn %.2f mm off its cut line", p.Title(), off)
		}
		worst = math.Max(worst, off)
		for axis, step := range []float64{steps.Along, steps.Across} {
			first, ok := told[i].points["1"]
			if !ok {
				first = told[i].points["P"]
			}
			if step > 0 && math.Abs(math.Remainder(first[axis], step)) > 1e-6 {
				t.Errorf("%s: its first point, %v, lies off the step of %v", p.Title(), first, step)
			}
		}
		checkChalkNotches(t, told[i], p, tape.Unit, tolerance)
		for k, other := range rings {
			if deep := math.Max(deepest(ring, other), deepest(other, ring)); deep > 0 {
				t.Errorf("%s lies %.2f mm over %s", p.Title(), deep, l.Pieces[k].Title())
			}
		}
		rings = append(rings, ring)
	}
	return worst
}

var notchWords = regexp.MustCompile(`^on [^,]*, ` + tapeLength + ` straight from (\d+)$`)

// checkChalkNotches checks that each notch lies as far from the corner named as its words say.
func checkChalkNotches(t *testing.T, told toldPiece, p chalk.Piece, unit measure.Unit, tolerance float64) {
	t.Helper()
	n := 0
	for _, s := range told.sides {
		if s[0] != "notch" {
			continue
		}
		if m := notchWords.FindStringSubmatch(s[1]); m != nil {
			d := planar.Distance(told.points[m[2]], p.Outline.Notches[n])
			if math.Abs(d-tapeMM(t, m[1], unit)) > tolerance {
				t.Errorf("%s: notch %q lies %.2f mm from there", p.Title(), s[1], d)
			}
		}
		n++
	}
	if n != len(p.Outline.Notches) {
		t.Errorf("%s: %d notches told of %d", p.Title(), n, len(p.Outline.Notches))
	}
}

// Points off the tape are read as they were written.
func TestChalkFiguresReadBack(t *testing.T) {
	for _, unit := range []measure.Unit{measure.Inch, measure.Centimetre, measure.Millimetre} {
		tape := chalk.Tape{Unit: unit}
		for n := chalk.Marks(0); n < 400; n += 7 {
			text := strings.ReplaceAll(tape.Show(n), "\u00a0", " ")
			if got := tapeMM(t, text, unit); math.Abs(got-tape.MM(n)) > 1e-9 {
				t.Errorf("%d marks of %v are written %q", n, unit, text)
			}
		}
	}
}

// What chalk costs is said against the plain layout, and nothing where that is no shorter.
func TestChalkCost(t *testing.T) {
	inch := measure.Inches
	c := report.Cloth{Used: 100 * inch, Bought: 108 * inch}
	for want, plain := range map[string]*report.Cloth{
		"Chalk costs 1/4 yd more to buy":               {Used: 95 * inch, Bought: 99 * inch},
		"Chalk takes 2 in more, and no more to buy":    {Used: 98 * inch, Bought: 108 * inch},
		"Chalk costs nothing: no shorter plain layout": {Used: 120 * inch, Bought: 126 * inch},
		"since the run was interrupted":                nil,
	} {
		if got := chalkCost(c, plain, measure.Inch); !strings.Contains(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Lines inside are called by what they are for.
func TestChalkNamesLinesInside(t *testing.T) {
	const src = `unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 90
both_faces = true
nap = "all-way"
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "full"
gores = 1
length = 30
[[part]]
name = "band"
draft = "waistband"
cloth = "satin"
width = 1
[[part]]
name = "belt"
draft = "sash"
cloth = "satin"
length = 40
width = 4
`
	p := &Printing{file: testjobs.File(t, "job.toml", src), unit: measure.Inch}
	p.lay.Effort = nest.Trial
	r, err := p.chalked(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	d, err := p.chalkOf(r, r.Cloths[0], nil)
	if err != nil {
		t.Fatal(err)
	}
	text := d.Text()
	for _, want := range []string{"about P circle about P, string 3", "hole: circle about P",
		"fold line: straight, 28"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("it does not say %q:\n%s", want, text)
		}
	}
}
