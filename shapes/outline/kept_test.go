package outline

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// What lies in a shape keeps what the file says of it: where it stands, its layer, its name.
func TestMarksOfWhatLiesInside(t *testing.T) {
	d := drawn(t, "cut:"+sheet, "a/roll:50,50 90,60 120,50", "b/eye:200,50 210,50 210,60 z", "fold/f:100,0 100,200",
		"~c:0,0 0,200")
	d.Points = []Point{{At: orb.Point{150, 100}, Marks: Marks{Layer: "drill", ID: "p"}, Place: "point 1"}}
	d.Lines[1].Label = "Roll of the collar"
	s := assemble(t, Options{}, d).Shapes[0]
	var got []string
	for _, in := range s.Inside {
		got = append(got, fmt.Sprintf("%s, layer %s, id %s, called %q, %d points", in.Place, in.Layer, in.ID,
			in.Called(), len(in.Line)))
	}
	want := []string{`line 3, layer b, id eye, called "eye", 4 points`,
		`line 4, layer fold, id f, called "f", 2 points`,
		`line 2, layer a, id roll, called "Roll of the collar", 3 points`,
		`point 1, layer drill, id p, called "p", 2 points`,
		`point 1, layer drill, id p, called "p", 2 points`}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	for m, want := range map[Marks]string{{Label: "hem", ID: "x1"}: "hem", {ID: "hem"}: "hem", {ID: "path12"}: "",
		{Label: "hem", Block: "FRONT"}: "", {ID: "hem", Block: "FRONT"}: "", {Label: "grain"}: "",
		{ID: "notches"}: ""} {
		if got := (Inner{Marks: m}).Called(); got != want {
			t.Errorf("%+v is called %q", m, got)
		}
	}
}

// Of closed lines within a cut line the largest that may be its seam line is it, by its name before all others, and
// one that crosses itself is none.
func TestWhichLineIsTheSeamLine(t *testing.T) {
	const large = "cut:0,0 600,0 600,600 0,600 z"
	inset := func(layer string, mm float64) string {
		return fmt.Sprintf("%s:%[2]g,%[2]g %[3]g,%[2]g %[3]g,%[3]g %[2]g,%[3]g z", layer, mm, 600-mm)
	}
	crossed := func(layer string) string { return layer + ":10,10 590,590 590,10 10,595 z" }
	for name, c := range map[string]struct {
		lines []string
		area  float64
	}{
		"the larger first": {[]string{large, inset("a", 10), inset("b", 30)}, 580 * 580},
		"the larger last":  {[]string{large, inset("b", 30), inset("a", 10)}, 580 * 580},
		"side by side": {[]string{large, "a:20,20 580,20 580,400 20,400 z", "b:20,410 580,410 580,580 20,580 z"},
			600 * 600},
		"two so called": {[]string{large, "seam:20,20 580,20 580,400 20,400 z",
			"seam:20,410 580,410 580,580 20,580 z"}, 560 * 380},
		"the same, the other way round": {[]string{large, "seam:20,410 580,410 580,580 20,580 z",
			"seam:20,20 580,20 580,400 20,400 z"}, 560 * 380},
		"a name before size": {[]string{large, inset("b", 10), inset("seam", 30)}, 580 * 580},
		"a crossed one":      {[]string{large, crossed("a"), inset("b", 30)}, 540 * 540},
		"a crossed name":     {[]string{large, crossed("seam"), inset("b", 30)}, 540 * 540},
	} {
		a := assemble(t, Options{}, drawn(t, c.lines...))
		if got := fmt.Sprintf("%.0f", areaOf(a.Shapes[0])); got != fmt.Sprint(c.area) {
			t.Errorf("%s: %s, want %v: %q", name, got, c.area, seen(a))
		}
	}
}

func areaOf(s Shape) (area float64) { // by the shoelace formula
	ring := s.Ring()
	for i := 1; i < len(ring); i++ {
		area += (ring[i-1][0]*ring[i][1] - ring[i][0]*ring[i-1][1]) / 2
	}
	return area
}

// Pattern data is told by lines in blocks: one of them is a boundary, and more are on layers that it knows than are
// not.
func TestWhatIsPatternData(t *testing.T) {
	for layers, want := range map[string]bool{"1": true, "1 7": true, "7 8": false, "": false, "1 x": false,
		"1 4 x":   true,
		"1 4 x y": false, "8 1": true, "8 1 x y z": false, "-1": false, "-1 8": false, "1 -x -y": true, "14 1": true,
		"cut": false, "x 1 1": true} {
		var d Drawing
		for _, layer := range strings.Fields(layers) {
			l := Line{Marks: Marks{Layer: strings.TrimPrefix(layer, "-"), Block: "FRONT"}}
			if strings.HasPrefix(layer, "-") { // in no block
				l.Block = ""
			}
			d.Lines = append(d.Lines, l)
		}
		if got := IsPatternData(d); got != want {
			t.Errorf("layers %s: %v", layers, got)
		}
	}
}

// Ends are joined up to a distance that may be asked for, and no farther than what lies side by side.
func TestHowFarEndsAreJoined(t *testing.T) {
	d := drawn(t, "0,0 300,0", "300,19 300,200", "300,200 0,200 0,0")
	for tolerance, want := range map[float64]string{0: "open", 18.9: "open", 19: "joined", MaxTolerance: "joined"} {
		all := seen(assemble(t, Options{Tolerance: tolerance}, d))
		if got := all[len(all)-1]; !strings.HasPrefix(got, want) {
			t.Errorf("joined up to %g: %q", tolerance, got)
		}
	}
	for tolerance, want := range map[float64]string{20.01: "ends 20 mm apart cannot be joined, the most is 20 mm",
		-1: "ends -1 mm apart cannot be joined, the most is 20 mm"} {
		if _, err := Assemble(d, Options{Tolerance: tolerance}); err == nil || err.Error() != want {
			t.Errorf("joined up to %g: %v", tolerance, err)
		}
	}
	if _, err := Assemble(Drawing{}, Options{}); err == nil ||
		err.Error() != "the file does not say how long its unit is" {
		t.Errorf("no unit: %v", err)
	}
}

// Edges have names of their own: those of their lines, numbered where two have one, by their place where they have
// none or all have the same; a ragged outline is one edge.
func TestNamesOfEdges(t *testing.T) {
	ragged := func(teeth int) string {
		text := ""
		for i := range teeth {
			text += fmt.Sprintf("%d,%d ", 10*i, 300+20*(i%2))
		}
		return fmt.Sprintf("0,0 %d,0 %[1]d,400 ", 10*teeth) + backwards(text) + "0,400 z"
	}
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"two alike": {[]string{"/hem:0,0 300,0", "/side:300,0 300,200", "/side:300,200 0,200", "/hem:0,200 0,0"},
			"hem, side, side 2, hem 2"},
		"all alike": {[]string{"/cutter:" + sheet}, "edge 1, edge 2, edge 3, edge 4"},
		"one without": {[]string{"/hem:0,0 300,0", ":300,0 300,200 0,200", "/side:0,200 0,0"},
			"hem, edge 2, edge 3, side"},
		"numbered": {[]string{"/a1:0,0 300,0", "/a2:300,0 300,200 0,200", "/top:0,200 0,0"},
			"edge 1, edge 2, edge 3, top"},
		"a number is taken": {[]string{"/hem:0,0 300,0", "/hem 2x:300,0 300,200", "/edge:300,200 0,200 0,0"},
			"hem, edge 2, edge, edge 3"},
		"round": {[]string{roundLine(40)}, "outline"},
	} {
		var got []string
		for _, e := range assemble(t, Options{}, drawn(t, c.lines...)).Shapes[0].Edges {
			got = append(got, e.Name)
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: %s, want %s", name, s, c.want)
		}
	}
	for teeth, want := range map[int]int{20: 21, 58: 59, 59: 1, 80: 1} {
		if n := len(assemble(t, Options{}, drawn(t, ragged(teeth))).Shapes[0].Edges); n != want {
			t.Errorf("%d teeth: %d edges, want %d", teeth, n, want)
		}
	}
}

func backwards(text string) string {
	words := strings.Fields(text)
	out := ""
	for i := range words {
		out += words[len(words)-1-i] + " "
	}
	return out
}

func roundLine(points int) string {
	text := ""
	for _, p := range wheel(points, 0, 1, even).Points[:points] {
		text += fmt.Sprintf("%g,%g ", p[0], p[1])
	}
	return text + "z"
}
