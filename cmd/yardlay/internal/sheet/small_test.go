package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// A small drawing keeps to its room unless the cloth is so long that it would be a
// thread; it shows every piece, says its stamp, and lies at a whole scale.
func TestSmallMarkersKeepToTheirRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		long, wide := rapid.Float64Range(100, 40000).Draw(t, "long"), rapid.Float64Range(200, 3000).Draw(t, "wide")
		s := Stretch{Lay: Lay(rapid.IntRange(0, int(DoubleFold)).Draw(t, "lay")), Width: wide, Selvedge: 12,
			Used: long, Ends: rapid.Float64Range(0, 50).Draw(t, "ends"),
			Skew: rapid.Float64Range(0, 80).Draw(t, "skew")}
		for i := range rapid.IntRange(0, 4).Draw(t, "pieces") {
			x := 20 * float64(i)
			s.Pieces = append(s.Pieces, Placed{Name: "gore", ID: "cut", Outline: Outline{
				Cut: orb.Ring{{x, 0}, {x + 15, 0}, {x + 15, 40}, {x, 40}, {x, 0}}}})
		}
		m := Marker{Title: "skirt", Cloth: "satin", Width: wide, Selvedge: 12, Used: long, Bought: long + 200,
			Unit: measure.Inch, Stretches: []Stretch{s}}
		width, height := rapid.Float64Range(200, 300).Draw(t, "room"), rapid.Float64Range(100, 250).Draw(t, "high")
		small := m.Small(0, width, height, "skirt · 2026-05-31 · mark a2b3")
		d := small.Drawing
		if d.Scale != math.Trunc(d.Scale) || d.Scale < 1 {
			t.Fatalf("1 : %g", d.Scale)
		}
		thread := s.folded()/d.Scale < smallLeast*(1+2/d.Scale)
		if w, h := d.Width/d.Scale, d.Height/d.Scale; w > width+1e-6 && !thread || h > height+2*levelStep {
			t.Fatalf("%.1f by %.1f in a room of %.1f by %.1f, cloth %.1f wide", w, h, width, height, s.folded()/d.Scale)
		}
		ids, stamped := 0, ""
		for _, g := range d.Groups {
			if g.ID == "cut" {
				ids++
			}
			for _, it := range g.Items {
				if text, ok := it.(Text); ok {
					stamped += " " + text.Body
				}
			}
		}
		if ids != len(s.Pieces) || !strings.Contains(stamped, "mark a2b3") {
			t.Fatalf("%d of %d pieces; it says %q", ids, len(s.Pieces), stamped)
		}
	})
}

// A drawing within a page has its own id and looks; alone it is as it ever was.
func TestSVGWithinAPageIsOnItsOwn(t *testing.T) {
	d := Drawing{Title: "a", Width: 10, Height: 10, Scale: 1, Groups: []Group{{Title: "gore", ID: "cut-1 cut-2",
		Items: []Item{Line{RoleDim, orb.LineString{{0, 0}, {5, 5}}}, Text{Role: RoleHeading, Size: 2, Body: "x"}}}}}
	within, err := d.Within("drawing-1")
	if err != nil {
		t.Fatal(err)
	}
	alone, err := d.SVG()
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string][2]bool{`id="drawing-1"`: {true, false}, `data-of="cut-1 cut-2"`: {true, false},
		"\n.dim{": {false, true}, "\n#drawing-1 .dim{": {true, false}, "<title>gore</title>": {true, true}} {
		if got := [2]bool{strings.Contains(string(within), text), strings.Contains(string(alone), text)}; got != want {
			t.Errorf("%q: within a page and alone %v, want %v", text, got, want)
		}
	}
	if got := strings.NewReplacer("#drawing-1 ", "", ` id="drawing-1"`, "", ` data-of="cut-1 cut-2"`, "").Replace(
		string(within)); got != string(alone) {
		t.Errorf("they differ in more than that:\n%s\n%s", got, alone)
	}
}
