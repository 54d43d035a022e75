package testdxf_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// everyKind is what testdata/every.py tells of a file.
type everyKind struct {
	File    string
	Layers  map[string][]orb.LineString // of a POINT one point
	Areas   map[string]float64
	Texts   []string
	Colours []string // of the index, from 1
}

// ezdxf writes files of every release with every kind of entity, and our reader finds the lines
// that ezdxf makes of them: within our chord error and its own, 0.02 mm, which it checks at a
// few places of a curve; the areas within 1e-4.
func TestOutsideDXFOfEveryRelease(t *testing.T) {
	program, err := os.ReadFile("testdata/every.py")
	if err != nil {
		t.Fatal(err)
	}
	told := outside.Run(t, "/usr/bin/python3", "-c", string(program), t.TempDir())
	files := 0
	for decoder := json.NewDecoder(bytes.NewReader(told)); decoder.More(); files++ {
		var want everyKind
		if err := decoder.Decode(&want); err != nil {
			t.Fatal(err)
		}
		compareDrawings(t, want)
		compareAreas(t, want)
	}
	if files != 7 {
		t.Errorf("%d releases", files)
	}
}

func readFile(t *testing.T, name string) outline.Drawing {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	d, err := outline.ReadDXF(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if r12 := strings.HasSuffix(name, "R12.dxf"); (d.Unit.Millimetres == 0) != r12 || len(d.Notes) > 0 {
		t.Errorf("%s: %+v, %q", name, d.Unit, d.Notes)
	}
	return d
}

// theirs is how far ezdxf's chords may stray, mm.
const theirs = 0.03

func compareDrawings(t *testing.T, want everyKind) {
	d := readFile(t, want.File)
	ours, colours := map[string][]orb.LineString{}, []string{}
	for _, l := range d.Lines {
		if l.Layer == "aci" {
			colours = append(colours, l.Colour)
		} else {
			ours[l.Layer] = append(ours[l.Layer], l.Points)
		}
	}
	for _, p := range d.Points {
		ours[p.Layer] = append(ours[p.Layer], orb.LineString{p.At})
	}
	if len(ours) != len(want.Layers) {
		t.Errorf("%s: %d layers, not %d", want.File, len(ours), len(want.Layers))
	}
	for layer, lines := range want.Layers {
		far, missed := strays(ours[layer], lines), strays(lines, ours[layer])
		if max(far, missed) > outline.ChordError+theirs {
			t.Errorf("%s, %s: our points are up to %g from ezdxf's lines, its up to %g from ours", want.File, layer, far,
				missed)
		}
	}
	otherwise := 0
	for i, c := range colours {
		if i+1 != 7 && differ(c, want.Colours[i]) > 1 { // 7 is white there, as on a dark screen
			otherwise++
		}
	}
	if len(colours) != 255 || otherwise > 24 { // of its darkest some are off the scheme
		t.Errorf("%s: %d of %d colours are others", want.File, otherwise, len(colours))
	}
	var texts []string
	for _, x := range d.Texts {
		texts = append(texts, x.Text)
	}
	if !slices.Equal(texts, want.Texts) {
		t.Errorf("%s: texts %q, want %q", want.File, texts, want.Texts)
	}
}

// differ is how far two colours are apart in one primary, at most.
func differ(a, b string) (most int) {
	var x, y [3]int
	fmt.Sscanf(a, "#%02x%02x%02x", &x[0], &x[1], &x[2])
	fmt.Sscanf(b, "#%02x%02x%02x", &y[0], &y[1], &y[2])
	for i := range x {
		most = max(most, x[i]-y[i], y[i]-x[i])
	}
	return most
}

// strays is how far points of some lines lie from others, at most.
func strays(points, lines []orb.LineString) (most float64) {
	for _, l := range points {
		for _, p := range l {
			nearest := math.Inf(1)
			for _, other := range lines {
				if len(other) == 1 {
					nearest = math.Min(nearest, planar.Distance(p, other[0]))
				} else {
					nearest = math.Min(nearest, planar.DistanceFrom(other, p))
				}
			}
			most = math.Max(most, nearest)
		}
	}
	return most
}

func compareAreas(t *testing.T, want everyKind) {
	areas, compared := map[string]float64{}, 0
	for _, l := range readFile(t, want.File).Lines {
		if l.Closed {
			areas[l.Layer] = plane.Area(orb.Ring(l.Points))
		}
	}
	for layer, area := range want.Areas {
		got, ok := areas[layer]
		if !ok {
			continue
		}
		compared++
		if off := math.Abs(math.Abs(got) - math.Abs(area)); off > 1e-4*math.Abs(area) {
			t.Errorf("%s, %s covers %g, not %g", want.File, layer, got, area)
		}
	}
	if compared < 4 {
		t.Errorf("%s: %d areas compared", want.File, compared)
	}
}
