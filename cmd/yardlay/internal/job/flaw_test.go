package job

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// inches is a ring in millimetres from corners in inches.
func inches(corners ...orb.Point) orb.Ring {
	var ring orb.Ring
	for _, c := range append(corners, corners[0]) {
		ring = append(ring, orb.Point{c[0] * measure.Inches, c[1] * measure.Inches})
	}
	return ring
}

func TestFlawsAreRead(t *testing.T) {
	c := readCloth(t, `flaws = [
  { from = "12", to = "14", low = "3", high = "5" },
  { from = 20, to = 21 },
  { outline = [["12","3"],["14","3"],["13","5"]] },
  { outline = [[12, 3], [13, 5], [14, 3], [12, 3]] },
]`)
	want := []orb.Ring{
		inches(orb.Point{12, 3}, orb.Point{14, 3}, orb.Point{14, 5}, orb.Point{12, 5}),
		inches(orb.Point{20, 0}, orb.Point{21, 0}, orb.Point{21, 58}, orb.Point{20, 58}), // right across
		inches(orb.Point{12, 3}, orb.Point{14, 3}, orb.Point{13, 5}),
		inches(orb.Point{12, 3}, orb.Point{14, 3}, orb.Point{13, 5}), // clockwise and closed in the file
	}
	if len(c.Flaws) != len(want) {
		t.Fatalf("%d flaws", len(c.Flaws))
	}
	near := cmp.Comparer(func(a, b orb.Point) bool { return planar.Distance(a, b) < 1e-9 })
	for i, f := range c.Flaws {
		if diff := cmp.Diff([]orb.Point(want[i]), []orb.Point(f.Outline), near); diff != "" || f.At.Line != 11+i {
			t.Errorf("flaw %d at %v:\n%s", i+1, f.At, diff)
		}
		if err := plane.CheckSimple(f.Outline); err != nil {
			t.Errorf("flaw %d: %v", i+1, err)
		}
	}
}

func TestHaveIsRead(t *testing.T) {
	c := readCloth(t, `selvedge = "1/2"
have = [
  { name = "remnant", length = "40", width = "30", flaws = [ { from = 1, to = 2, high = 30 } ] },
  { length = "1 yd" },
]`)
	if len(c.Have) != 2 {
		t.Fatalf("%+v", c.Have)
	}
	first, second := c.Have[0], c.Have[1]
	if first.Name != "remnant" || first.Length != 1016 || first.Width != 762 || len(first.Flaws) != 1 ||
		first.usable(c) != 29*measure.Inches {
		t.Errorf("%+v, usable %v", first, first.usable(c))
	}
	if second.Name != "leftover 2" || second.Length != measure.Yards || second.Width != 0 ||
		second.usable(c) != 57*measure.Inches {
		t.Errorf("%+v, usable %v", second, second.usable(c))
	}
}

// A flaw between two places of a bolt whose width varies may lie beyond the
// least width, for it does no harm there.
func TestFlawWithinTheGreatestWidth(t *testing.T) {
	src := strings.Replace(onCloth("flaws = [ { from = 1, to = 2, low = 57, high = 60 } ]"), "width = 58",
		"width = [60, 58]", 1)
	if _, err := parse("job.toml", []byte(src)); err != nil {
		t.Error(err)
	}
}

func TestFlawsAndLeftoversAreStrict(t *testing.T) {
	tests := []struct {
		name, keys, at, what, hint string
	}{
		{"from at to", "flaws = [{ from = 4, to = 4 }]", "10:27", "`from` is 4 in, `to` is 4 in",
			"`from` is the smaller"},
		{"from behind to", "flaws = [{ from = 5, to = \"10 cm\" }]", "10:27", "`from` is 5 in, `to` is 3 7/8 in",
			"smaller"},
		{"low above high", "flaws = [{ from = 1, to = 4, low = 3, high = 2 }]", "10:46", "nothing lies between",
			"`low` is the smaller"},
		{"low at the upper edge", "flaws = [{ from = 1, to = 4, low = 58 }]", "10:36", "`high` is 58 in", ""},
		{"beyond the width", "flaws = [{ from = 1, to = 4, low = 57, high = 59 }]", "10:10",
			"up to 59 in across, the cloth is 58 in wide", "lower edge"},
		{"below the lower edge", "flaws = [{ from = 1, to = 4, low = -1 }]", "10:36", "must not be negative", ""},
		{"beyond any lay", "flaws = [{ from = 1, to = \"61 m\" }]", "10:10", "no lay is longer than 65 yd 22.2 in",
			"leave it out"},
		{"no end", "flaws = [{ from = 1 }]", "10:10", "lacks `to`", "cut end"},
		{"no place", "flaws = [{}]", "10:10", "lacks `from`", "cut end"},
		{"rectangle and outline", "flaws = [{ from = 1, outline = [[1,1],[2,1],[1,2]] }]", "10:12",
			"both `outline` and `from`", "or"},
		{"two corners", "flaws = [{ outline = [[1,1],[2,1]] }]", "10:12", "three or more", "[["},
		{"crossing itself", "flaws = [{ outline = [[1,1],[3,3],[3,1],[1,3]] }]", "10:12", "flaw 1 of cloth `satin`",
			"pencil"},
		{"in one line", "flaws = [{ outline = [[1,1],[2,1],[3,1]] }]", "10:12", "flaw 1", "three or more"},
		{"corner of three", "flaws = [{ outline = [[1,1],[2,1,3],[3,1]] }]", "10:12",
			"each point is a list of two lengths", ""},
		{"corner that is text", "flaws = [{ outline = [[1,1],\"2\",[3,1]] }]", "10:29", "each point", ""},
		{"corner beyond the width", "flaws = [{ outline = [[1,1],[2,1],[3,60]] }]", "10:10", "60 in across", ""},
		{"flaw as a table", "flaws = { from = 1, to = 2 }", "10:9", "a list of tables in brackets, not a table", "[ {"},
		{"flaw as a number", "flaws = [3]", "10:10", "lists tables, not a number", "from"},
		{"unknown key of a flaw", "flaws = [{ from = 1, till = 2 }]", "10:22", "no key `till`", ""},
		{"have without length", "have = [{ width = 30 }]", "10:9", "lacks `length`", `length = "40"`},
		{"have of no length", "have = [{ length = 0 }]", "10:20", "more than zero", ""},
		{"have of no width", "have = [{ length = 3, width = 0 }]", "10:31", "more than zero", ""},
		{"have narrower than its selvedges", "selvedge = 2\nhave = [{ length = 3, width = 4 }]", "11:31",
			"leave nothing of a leftover 4 in wide", ""},
		{"two of a name", "have = [{ name = \"r\", length = 3 }, { name = \"r\", length = 4 }]", "10:37",
			"leftover `r` is already on line 10", "name of its own"},
		{"flaw beyond the leftover", "have = [{ name = \"r\", length = 3, flaws = [{ from = 2, to = 4 }] }]", "10:44",
			"up to 4 in along, the leftover is 3 in long", "cut end"},
		{"flaw beside the leftover", "have = [{ length = 3, width = 5, flaws = [{ from = 2, to = 3, high = 6 }] }]",
			"10:43", "the leftover is 5 in wide", ""},
		{"unknown key of a leftover", "have = [{ lenght = 3 }]", "10:11", "no key `lenght`", "did you mean `length`"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { wantError(t, onCloth(tt.keys), tt.at, tt.what, tt.hint) })
	}
}

// checkFlaws fails unless every flaw is the outline of a place on its cloth,
// whatever the file says.
func checkFlaws(t rapid.TB, j *Job) {
	for _, c := range j.Cloths {
		for _, f := range c.Flaws {
			checkFlaw(t, f, longestLay, c.broadest())
		}
		for _, h := range c.Have {
			width := h.Width
			if width == 0 {
				width = c.broadest()
			}
			for _, f := range h.Flaws {
				checkFlaw(t, f, h.Length, width)
			}
		}
	}
}

func checkFlaw(t rapid.TB, f Flaw, length, width float64) {
	if err := plane.CheckSimple(f.Outline); err != nil {
		t.Fatalf("flaw %v: %v", f.Outline, err)
	}
	b := plane.Bounds(f.Outline)
	if b.Min[0] < 0 || b.Min[1] < 0 || b.Max[0] > length || b.Max[1] > width {
		t.Fatalf("flaw %v is not within %v by %v mm", f.Outline, length, width)
	}
}

// An outline drawn either way round, closed or not, is the same flaw.
func TestFlawsRunEitherWayRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corners := star(t)
		drawn := slices.Clone(corners)
		if rapid.Bool().Draw(t, "clockwise") {
			slices.Reverse(drawn)
		}
		if rapid.Bool().Draw(t, "closed") {
			drawn = append(drawn, drawn[0])
		}
		var texts []string
		for _, c := range drawn {
			texts = append(texts, fmt.Sprintf("[\"%.3f mm\", \"%.3f mm\"]", c[0], c[1]))
		}
		j, err := parse("job.toml", []byte(onCloth("flaws = [{ outline = ["+strings.Join(texts, ", ")+"] }]")))
		if err != nil {
			t.Fatal(err)
		}
		ring := j.Cloths[0].Flaws[0].Outline
		if want := plane.Area(append(slices.Clone(corners), corners[0])); math.Abs(plane.Area(ring)-want) > 1 ||
			len(ring) != len(corners)+1 {
			t.Fatalf("area %v of %v, want %v", plane.Area(ring), ring, want)
		}
		checkFlaws(t, j)
	})
}

// star is the corners of an outline round a place on the cloth, counter-clockwise
// and not closed; it may have bays.
func star(t *rapid.T) orb.Ring {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	x, y := rapid.Float64Range(500, 50_000).Draw(t, "x"), rapid.Float64Range(200, 1200).Draw(t, "y")
	var ring orb.Ring
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.4).Draw(t, "angle")) / float64(n))
		r := rapid.Float64Range(2, 150).Draw(t, "radius")
		ring = append(ring, orb.Point{x + r*cos, y + r*sin})
	}
	return ring
}
