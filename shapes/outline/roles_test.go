package outline

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// What names say by themselves, and that other names say nothing.
func TestRolesOfNames(t *testing.T) {
	for name, want := range map[string]Role{
		"cut": CutLine, "Cutting Lines": CutLine, "cut line 2": CutLine, "cut_line-03": CutLine, "CUT": CutLine,
		"Seam allowances": CutLine, "seam": SeamLine, "Stitching lines (net)": SeamLine, "sew-line": SeamLine,
		"Grain": Grain, "grainline: warp": Grain, "grain 45": Grain, "grain-front": Grain, "Straight of grain": Grain,
		"fold": Fold, "On the fold": Fold, "Notches: snip or mark": Notch, "notch-front": Notch, "notch12": Notch,
		"Darts": Dart, "dart elbow": Dart, "drill holes": Internal, "Marking [chalk]": Internal, "pleats": Internal,
		"frame": Ignored, "Dimensions": Ignored, "test square": Ignored, "Defpoints": Ignored, "notes": Ignored,
		"side seam": Unnamed, "front": Unnamed, "": Unnamed, "42": Unnamed, "(cut)": Unnamed, "cutter": Unnamed,
		"cut front": Unnamed, "fold-front": Unnamed, "bodice": Unnamed, "dress": Unnamed, "class": Unnamed,
		"foldover collar": Unnamed, "seam 1 of the back": Unnamed,
	} {
		if got := roleCalled(name); got != want {
			t.Errorf("%q says %v, want %v", name, got, want)
		}
	}
}

// A name counts from the line itself outwards: the id, the label, the layer, the nearest group first;
// of pattern data the label is the name of a piece.
func TestTheNearestNameCounts(t *testing.T) {
	for _, c := range []struct {
		m       Marks
		pattern bool
		want    Role
		because string
	}{
		{Marks{ID: "grain", Label: "cut", Layer: "seam"}, false, Grain, "it is called grain"},
		{Marks{ID: "path12", Label: "Notches", Layer: "seam"}, false, Notch, "it is called Notches"},
		{Marks{ID: "path12", Label: "front", Layer: "seam"}, false, SeamLine, "its layer is called seam"},
		{Marks{ID: "path12", Group: "cut/front/grain"}, false, Grain, "its group is called grain"},
		{Marks{ID: "path12", Group: "cut/front"}, false, CutLine, "its group is called cut"},
		{Marks{ID: "path12", Group: "cut/front", Block: "FRONT"}, false, Unnamed, ""},
		{Marks{Label: "cut", Layer: "seam"}, true, SeamLine, "its layer is called seam"},
		{Marks{Label: "grain"}, true, Unnamed, ""},
	} {
		got := roleOfNames(c.m, c.pattern)
		if got.Role != c.want || c.want != Unnamed && got.Because != c.because {
			t.Errorf("%+v: %+v", c.m, got)
		}
	}
}

// A rule is for lines that all its fields fit, whatever their case, its prefix that of an id or of a
// label; the first one that fits counts, and before what names say.
func TestRulesThatAreGiven(t *testing.T) {
	line := Marks{Layer: "Front", ID: "Path7", Label: "armhole", Colour: "#FF0000"}
	for _, c := range []struct {
		rule Rule
		want bool
	}{
		{Rule{}, true}, {Rule{Layer: "front"}, true}, {Rule{Layer: "fron"}, false}, {Rule{Prefix: "path"}, true},
		{Rule{Prefix: "ARM"}, true}, {Rule{Prefix: "armholes"}, false}, {Rule{Prefix: "hole"}, false},
		{Rule{Colour: "#ff0000"}, true}, {Rule{Colour: "#ff00"}, false},
		{Rule{Layer: "front", Colour: "#00ff00"}, false},
		{Rule{Layer: "back", Prefix: "path", Colour: "#ff0000"}, false},
		{Rule{Layer: "FRONT", Prefix: "Path7", Colour: "#ff0000"}, true},
	} {
		if got := c.rule.Fits(line); got != c.want {
			t.Errorf("%+v fits: %v", c.rule, got)
		}
	}
	rules := []Rule{{Layer: "a", Role: Ignored}, {Layer: "A", Role: Grain}, {Prefix: "cut", Role: Internal}}
	a := assemble(t, Options{Rules: rules}, drawn(t, sheet, "a:20,100 280,100", "b/cut9:20,50 280,50",
		"grain:40,20 40,180"))
	var got []string
	for _, r := range a.Roles {
		got = append(got, fmt.Sprintf("%v %v", r.Role, r.Given))
	}
	if diff := cmp.Diff([]string{"cut false", "ignore true", "inside true", "grain false"}, got); diff != "" {
		t.Error(diff)
	}
}

// What a shape is called: as a person called its line, as a text in it says, as the id or the group is
// called, if no program numbered that and it is the only one; else by its place.
func TestNamesOfShapes(t *testing.T) {
	text := func(words string) []Text { return []Text{{At: orb.Point{50, 50}, Text: words}} }
	long := strings.Repeat("sleeve ", 100)
	for _, c := range []struct {
		m     Marks
		texts []Text
		want  string
	}{
		{Marks{Label: "Yoke", ID: "back", Group: "g"}, text("front"), "Yoke"},
		{Marks{ID: "back", Group: "g"}, text("front"), "front"},
		{Marks{ID: "back", Group: "g"}, nil, "back"},
		{Marks{ID: "path7", Group: "all/cuff"}, nil, "cuff"},
		{Marks{ID: "path7", Group: "all/g12"}, nil, "outline 1"},
		{Marks{ID: "cut", Group: "all"}, nil, "all"},
		{Marks{ID: "cut", Group: "pieces/frame9"}, text("7"), "outline 1"},
		{Marks{Label: "cut line", ID: "front"}, nil, "front"},
		{Marks{ID: "path7"}, text("x"), "outline 1"},
		{Marks{ID: "path7"}, text("cut 2"), "outline 1"},
		{Marks{ID: "path7"}, text("Material: silk"), "outline 1"},
		{Marks{ID: "path7"}, text(long), strings.TrimSpace(string([]rune(long)[:maxNameLength]))},
	} {
		d := drawn(t, sheet)
		d.Lines[0].Marks, d.Texts = c.m, c.texts
		if got := assemble(t, Options{}, d).Shapes[0].Name; got != c.want {
			t.Errorf("%+v with %v: %q, want %q", c.m, c.texts, got, c.want)
		}
	}
	d := drawn(t, sheet, "400,0 700,0 700,200 400,200 z")
	d.Lines[0].Group, d.Lines[1].Group = "all/piece", "all/piece"
	if a := assemble(t, Options{}, d); a.Shapes[0].Name != "outline 1" || a.Shapes[1].Name != "outline 2" {
		t.Errorf("one group of two: %q and %q", a.Shapes[0].Name, a.Shapes[1].Name)
	}
}

// How often a piece is cut, by what a text in it says; what tells a distance says nothing of it.
func TestCopiesInTexts(t *testing.T) {
	for text, want := range map[string]struct {
		n    int
		pair bool
	}{
		"cut 2": {2, false}, "CUT 1": {1, false}, "Cut 1 on fold": {1, false}, "cut 1 pair": {2, true},
		"cut 2 pairs": {4, true}, "cut 3 pairs on the fold": {6, true}, "cut 1 from lining, 1 pair": {2, true},
		"cut 12 of net": {12, false}, "please cut 2 of it": {2, false}, "2x": {2, false}, "x 4": {4, false},
		"3 ×": {3, false}, "cut": {}, "2": {}, "2 x 4": {}, "haircut 5": {}, "cut2": {}, "uncut 3": {}, "x": {},
		"cut 100": {}, "cut 5 mm outside the line": {}, "cut 1.5 cm outside": {}, "cut 1/2 in from the edge": {},
		"cut 3\" away": {}, "cut 2 inches below": {}, "cut 4cm off": {}, "cut 1 1/2 in off": {}, "cut 1,5 cm off": {},
		"cut 2 in silk": {2, false}, "cut 1, interface it": {1, false}, "cut 2.": {2, false}, "cut 1 in off": {},
		"cut 2 (1 pair)": {2, true}, "cut 4 (2 pairs) of net": {4, true}, "cut 4 (1 pair)": {4, false},
		"Cut 2, mirrored": {2, true}, "cut 2 (one a mirror image)": {2, true}, "cut 1 mirrored": {1, false},
		"cut 3, one mirrored": {3, false}, "cut 2 mirrorless": {2, false},
	} {
		if n, pair := copiesIn(text); n != want.n || pair != want.pair {
			t.Errorf("%q: %d, pair %v, want %+v", text, n, pair, want)
		}
	}
}

// Drawings whose closed lines are shapes one by one: each is one, wherever it lies; what is open is
// none, what crosses itself is told, a rule leaves one out.
func TestShapesOneByOne(t *testing.T) {
	d := drawn(t, "a:"+sheet, "b:50,50 90,50 90,90 50,90 z", "0,0 50,50", "0,0 300,200 300,0 0,250 z",
		"out:400,0 700,0 700,200 400,200 z", "seam:400,0 400,200 700,200 700,0 z")
	d.Apart = true
	d.Lines[1].Label = "cuff"
	a := assemble(t, Options{Rules: []Rule{{Layer: "out", Role: Ignored}, {Layer: "seam", Role: SeamLine}}}, d)
	if diff := cmp.Diff([]string{"outline 1 60000 cut, 1 edges", "cuff 1600 cut, 1 edges", "outline 3 60000 seam, 1 edges",
		"crossing at 0,0 (line 4)"}, seen(a)); diff != "" {
		t.Error(diff)
	}
	if roles := fmt.Sprint(a.Roles[0].Shape, a.Roles[1].Shape, a.Roles[2].Shape, a.Roles[5].Shape); roles != "1 2 0 3" {
		t.Errorf("lines are of shapes %s", roles)
	}
}

// Points by what they are called and where they lie: notches at the outline, marks inside, strays.
func TestPointsOfADrawing(t *testing.T) {
	d := drawn(t, "cut:"+sheet)
	add := func(layer string, x, y float64) {
		d.Points = append(d.Points, Point{At: orb.Point{x, y}, Marks: Marks{Layer: layer},
			Place: fmt.Sprintf("point %d", len(d.Points)+1)})
	}
	add("notch", 100, 2)
	add("notch", 303, 50)
	add("", 150, 1) // at the outline: a corner of it, as some programs mark them
	add("", 150, 100)
	add("drill", 60, 60)
	add("grain", 70, 70)
	add("dimension", 70, 75)
	add("", 900, 900)
	a := assemble(t, Options{}, d)
	if diff := cmp.Diff([]string{"outline 1 60000 cut, 4 edges, 2 notch, 4 inside", "stray at 900,900 (point 8)"},
		seen(a)); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]NotchAt{{0, 100}, {1, 50}}, a.Shapes[0].Notches); diff != "" {
		t.Error(diff)
	}
	for i, in := range a.Shapes[0].Inside { // a cross of 6 mm at each of two
		want := []orb.Point{{150, 100}, {150, 100}, {60, 60}, {60, 60}}[i]
		if between(in.Line[0], in.Line[1], .5) != want || orb.LineString(in.Line).Bound().Pad(0) == (orb.Bound{}) {
			t.Errorf("mark %d is %v", i, in.Line)
		}
	}
}

// The grain line is the longest one that is called so, of an arrow in one stroke its shaft; its heads
// go with it.
func TestGrainLines(t *testing.T) {
	for name, c := range map[string]struct {
		lines  []string
		grain  orb.LineString
		inside int
	}{
		"an arrow in one stroke": {[]string{"grain:110,60 100,50 90,60 100,50 100,150 90,140 100,150 110,140"},
			orb.LineString{{100, 50}, {100, 150}}, 0},
		"the longest of two": {[]string{"grain:50,50 50,90", "grain:80,50 80,150"}, orb.LineString{{80, 50}, {80, 150}}, 0},
		"slanted, with a head": {[]string{"50,50 150,120", "150,120 145,110", "60,20 160,20"},
			orb.LineString{{50, 50}, {150, 120}}, 1},
		"slanted, without":         {[]string{"50,50 150,120"}, nil, 1},
		"square, but short":        {[]string{"50,50 50,89"}, nil, 1},
		"square, long against it":  {[]string{"50,50 50,126"}, orb.LineString{{50, 50}, {50, 126}}, 0},
		"square, short against it": {[]string{"50,50 50,124"}, nil, 1},
		"square, but it touches":   {[]string{"50,1 50,150"}, nil, 1},
		"level, off by a degree":   {[]string{"50,50 150,51.7"}, orb.LineString{{50, 50}, {150, 51.6992}}, 0},
		"level, off by more":       {[]string{"50,50 150,51.9"}, nil, 1},
		"dashed":                   {[]string{"~:50,50 50,150"}, nil, 1},
		"bent":                     {[]string{"50,50 51,100 50,150"}, nil, 1},
	} {
		s := assemble(t, Options{}, drawn(t, append([]string{sheet}, c.lines...)...)).Shapes[0]
		if len(s.Grain) != len(c.grain) || len(s.Inside) != c.inside {
			t.Errorf("%s: grain %v, %d inside", name, s.Grain, len(s.Inside))
			continue
		}
		for i := range c.grain {
			if !near(s.Grain[i], c.grain[i], .01) && !near(s.Grain[i], c.grain[len(c.grain)-1-i], .01) {
				t.Errorf("%s: grain %v", name, s.Grain)
			}
		}
	}
}
