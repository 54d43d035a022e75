package job

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes"
)

// dartKeys are what gives a draft of the registry its darts; those without an entry
// are drafted as their example is.
var dartKeys = map[string]string{"cape": "dart = \"1\"\ndart_length = \"4\"\n",
	"hood": "dart = \"3/4\"\ndart_length = \"3\"\n"}

// Every dart that any draft of the registry marks has equal legs, and none leaves a
// corner in its edge when it is folded: nothing sharper than the chords of a curve.
// Held for the examples of all drafts, and on other bodies for those with darts.
func TestNoDartLeavesACorner(t *testing.T) {
	darted := map[string]string{}
	for _, d := range drafts {
		if d.name == outlineFile.name {
			continue // reads a file
		}
		text := exampleJob(d) + "\n" + dartKeys[d.name]
		if foldedDarts(t, text) > 0 {
			darted[d.name] = text
		}
	}
	for _, name := range []string{"cape", "hood", "bodice-block"} {
		if darted[name] == "" {
			t.Errorf("no dart of a %s was folded", name)
		}
	}
	girths := regexp.MustCompile(`(?m)^\w+_girth = [\d.]+`)
	rapid.Check(t, func(t *rapid.T) {
		text := darted[rapid.SampledFrom(slices.Sorted(maps.Keys(darted))).Draw(t, "draft")]
		foldedDarts(t, girths.ReplaceAllStringFunc(text, func(line string) string {
			name, value, _ := strings.Cut(line, " = ")
			girth, err := strconv.ParseFloat(value, 64)
			if err != nil {
				t.Fatal(err)
			}
			return fmt.Sprintf("%s = %.2f", name, girth*rapid.Float64Range(0.9, 1.15).Draw(t, name))
		}))
	})
}

type failer interface {
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func foldedDarts(t failer, text string) int {
	j, err := parse("gown.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, l := range j.Parts[0].Layers {
		made, err := l.Drafted()
		if err != nil {
			continue // measures that do not go together
		}
		for _, p := range made.Pieces {
			n += foldDarts(t, p)
		}
	}
	return n
}

func foldDarts(t failer, p shapes.Piece) int {
	const most = 6 * math.Pi / 180 // chords of 0.1 mm on a neck turn by as much
	n := 0
	for _, l := range p.Inside {
		for _, e := range p.Edges {
			if len(l) != 3 {
				continue
			}
			before, after, ok := beside(e.Line, l[0], l[2])
			if !ok {
				continue
			}
			n++
			if first, second := planar.Distance(l[0], l[1]),
				planar.Distance(l[2], l[1]); math.Abs(first-second) > 0.01 {
				t.Errorf("%s, %s: legs of %.3f and %.3f mm", p.Name, e.Name, first, second)
			}
			// Each side of the edge leaves its leg at an angle; folded, both make one line.
			into := angleAt(l[0], l[1], before)
			onward := angleAt(l[2], l[1], after)
			if corner := math.Abs(math.Pi - into - onward); corner > most {
				t.Errorf("%s, %s: folded, a corner of %.1f degrees", p.Name, e.Name, corner*180/math.Pi)
			}
		}
	}
	return n
}

// beside returns the points of a line before and after two of its vertices.
func beside(line orb.LineString, a, b orb.Point) (before, after orb.Point, ok bool) {
	found := 0
	for i := 1; i < len(line)-1; i++ {
		if planar.Distance(line[i], a) < 1e-6 {
			before, found = line[i-1], found+1
		}
		if planar.Distance(line[i], b) < 1e-6 {
			after, found = line[i+1], found+1
		}
	}
	return before, after, found == 2
}

// angleAt is the angle at a corner between the ways to two points, rad.
func angleAt(corner, a, b orb.Point) float64 {
	u, v := orb.Point{a[0] - corner[0], a[1] - corner[1]}, orb.Point{b[0] - corner[0], b[1] - corner[1]}
	return math.Acos((u[0]*v[0] + u[1]*v[1]) / math.Hypot(u[0], u[1]) / math.Hypot(v[0], v[1]))
}
