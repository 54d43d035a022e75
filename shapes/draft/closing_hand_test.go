package draft

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
)

// halfCircle opens at the centre back, 900 mm down to the hem.
func halfCircle() CircleSkirt {
	return CircleSkirt{Fraction: .5, Waist: 700, Length: 900, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 25}}
}

// What closings come to, by plain arithmetic: what is between the first and the last place is divided into as few
// gaps as are no wider than asked for; a busk is as long as its opening less both ends; eyelets lie as far in as
// asked for, else between the bones, else as far as the first lies from its end.
func TestClosingsByHand(t *testing.T) {
	straight := lanternStrapless() // level edges: 235 mm behind
	straight.FrontDip, straight.SideDip, straight.BackDip = 0, 0, 0
	for name, c := range map[string]struct {
		of   Draft
		by   Closing
		want Closed
	}{
		"hooks part of the way": {halfCircle(), Closing{By: Hooks, Length: 230, Spacing: 25, First: 12},
			Closed{By: Hooks, Opening: 900, Length: 230, Places: 10, Pitch: 206. / 9, First: 12}},
		"as many gaps as fit": {halfCircle(), Closing{By: Buttons, Length: 224, Spacing: 25, First: 12},
			Closed{By: Buttons, Opening: 900, Length: 224, Places: 9, Pitch: 25, First: 12}},
		"one place": {halfCircle(), Closing{By: Hooks, Length: 24, Spacing: 25, First: 12},
			Closed{By: Hooks, Opening: 900, Length: 24, Places: 1, First: 12}},
		"a zip of the whole": {straight, Closing{By: Zip}, Closed{By: Zip, Opening: 235, Length: 235}},
		"a zip a little long": {straight, Closing{By: Zip, Length: 235.5}, Closed{By: Zip, Opening: 235,
			Length: 235.5}},
		"eyelets": {straight, Closing{By: Lacing, Spacing: 30, First: 10}, Closed{By: Lacing,
			Opening: 235, Length: 235, Places: 9, Pitch: 215. / 8, First: 10, Inset: 10}},
		"eyelets set in": {straight, Closing{By: Lacing, Spacing: 30, First: 10, Inset: 14}, Closed{By: Lacing,
			Opening: 235, Length: 235, Places: 9, Pitch: 215. / 8, First: 10, Inset: 14}},
		"a busk": {straight, Closing{By: Busk, First: 20, Inset: 6}, Closed{By: Busk, Opening: 235,
			Length: 195, First: 20, Inset: 6}},
	} {
		d, err := c.of.Draft()
		if err != nil {
			t.Fatal(err)
		}
		c.by.At, c.want.At, c.want.From, c.want.Times = "centre back", "centre back", TheTop, 1
		closed, err := c.by.Of(d)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		got := closed.Closed[0]
		if math.Abs(got.Pitch-c.want.Pitch) < 1e-9 {
			got.Pitch = c.want.Pitch
		}
		if math.Abs(got.Opening-c.want.Opening)+math.Abs(got.Length-c.want.Length) < 1e-6 {
			got.Opening, got.Length = c.want.Opening, c.want.Length
		}
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
		for _, side := range []Closing{{Inner: true}, {Mounted: true}} { // left open as far, and counts nothing
			layer := c.by
			layer.Inner, layer.Mounted = side.Inner, side.Mounted
			behind, err := layer.Of(d)
			if err != nil || len(behind.Closed) != 0 || len(marksOf(d, behind)) != 0 {
				t.Errorf("%s, on a layer with it: %v, %+v", name, err, behind.Closed)
			}
			if opened, same := fmt.Sprint(behind.Joins), fmt.Sprint(closed.Joins); opened != same {
				t.Errorf("%s, on a layer with it: seams %s, want %s", name, opened, same)
			}
		}
	}
}

// Where marks lie on a straight centre back: eyelets are crosses of 6 mm about their places, square to the edge;
// hooks are strokes of 8 mm in from it; a busk is a line from its first to its last place along it.
func TestMarksOfClosingsByHand(t *testing.T) {
	straight := lanternStrapless()
	straight.FrontDip, straight.SideDip, straight.BackDip = 0, 0, 0
	d, err := straight.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for by, c := range map[ClosedBy]Closing{
		Lacing: {Spacing: 300, First: 10, Inset: 14}, Hooks: {Spacing: 300, First: 10}, Busk: {First: 20, Inset: 6}} {
		c.By, c.At = by, "centre back"
		closed, err := c.Of(d)
		if err != nil {
			t.Fatal(err)
		}
		for name, marks := range marksOf(d, closed) {
			p := pieceNamed(closed.Pieces, name)
			edge, _ := p.Edge("centre back")
			back, top := edge.Line[0][1], min(edge.Line[0][0], edge.Line[len(edge.Line)-1][0])
			at := func(down, in float64) orb.Point { return orb.Point{top + down, back - in} }
			var want []orb.LineString
			switch by {
			case Lacing:
				for _, down := range []float64{10, 225} {
					want = append(want, orb.LineString{at(down, 11), at(down, 17), at(down, 14), at(down-3, 14),
						at(down+3, 14)})
				}
			case Hooks:
				want = []orb.LineString{{at(10, 0), at(10, 8)}, {at(225, 0), at(225, 8)}}
			case Busk:
				want = []orb.LineString{{at(20, 6), at(215, 6)}}
			}
			if len(marks) != len(want) {
				t.Fatalf("%s: %d marks", by, len(marks))
			}
			for i, l := range want {
				far := 0. // both ways round, as nobody draws a cross in order
				for _, v := range append(l.Clone(), marks[i]...) {
					far = max(far, planar.DistanceFrom(marks[i], v), planar.DistanceFrom(l, v))
				}
				if far > 1e-2 {
					t.Errorf("%s: mark %d is %v, want %v", by, i, marks[i], l)
				}
			}
		}
	}
}

// What lies behind an opening is called after what closes it, folded along its middle, its seams all of one
// allowance.
func TestWhatLiesBehindIsFolded(t *testing.T) {
	skirt := halfCircle()
	for by, called := range map[ClosedBy]string{Zip: "zip shield", Placket: "placket", Lacing: "modesty panel",
		Buttons: "button stand", Hooks: "underlap", Busk: "busk placket"} {
		d, err := ClosingPanel{Of: skirt, Closing: Closing{At: "centre back", By: by, Length: 230, First: 10},
			Width: 25, Allowance: 9}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		p, length := d.Pieces[0], 230.
		switch by {
		case Placket:
			length = 460
		case Busk:
			length = 210
		}
		if want := (orb.LineString{{9, 34}, {9 + length, 34}}); p.Name != called || !d.Apart || len(p.Inside) != 1 ||
			planar.Distance(p.Inside[0][0], want[0])+planar.Distance(p.Inside[0][1], want[1]) > 1e-6 {
			t.Errorf("%s: %s folded along %v, want %s along %v", by, p.Name, p.Inside, called, want)
		}
		for _, e := range p.Edges {
			if e.Kind != shapes.Seam || e.Allowance != 9 {
				t.Errorf("%s: its %s is a %v of %g", by, e.Name, e.Kind, e.Allowance)
			}
		}
	}
	laced := lanternStrapless()
	laced.Laced, laced.LacingGap = true, 40
	behind := func(change func(*ClosingPanel, float64)) func(float64) Draft {
		return of(ClosingPanel{Of: skirt, Closing: Closing{At: "centre back", By: Zip, Length: 230}, Width: 25,
			Allowance: 9}, change)
	}
	holds(t, []limit{
		{"width", behind(func(c *ClosingPanel, mm float64) { c.Width = mm }), 10, 0,
			"zip shield: width is 0 mm, must be more than 0"},
		{"wide", behind(func(c *ClosingPanel, mm float64) { c.Width = mm }), 230, 230.1,
			"zip shield: width is 230.1 mm, more than its length of 230.0 mm\n  hint: a narrower one"},
		{"allowance", behind(func(c *ClosingPanel, mm float64) { c.Allowance = mm }), 0, -1,
			"zip shield: seam allowance is -1 mm, must be 0 or more"},
		{"gap", behind(func(c *ClosingPanel, mm float64) {
			c.Of, c.Width = laced, mm
			c.Closing = Closing{At: "centre back", By: Lacing, Spacing: 25, First: 10}
		}), 60, 59.9,
			"modesty panel: width is 59.9 mm: behind a lacing gap of 40.0 mm, with 10 mm on either side, it is 60.0 mm or " +
				"more\n  hint: a wider panel, or a smaller gap"},
		{"length", behind(func(c *ClosingPanel, mm float64) { c.Closing.Length = mm }), 900.4, 900.6,
			"zip shield: back gore: zip 900.6 mm long does not go into an opening of 900.0 mm\n  hint: a shorter one, or " +
				"leave out its length: it closes the whole opening then"},
		{"busk", behind(func(c *ClosingPanel, mm float64) {
			c.Closing = Closing{At: "centre back", By: Busk, Length: 140, First: mm}
		}), 20, 20.1,
			"busk placket: back gore: a busk that ends 20.1 mm from both ends of a closing 140.0 mm long is 99.8 mm, " +
				"needs 100 mm\n  hint: nearer to its ends"},
	})
}

// What cannot be closed says where the draft opens, or which seams it has at its sides.
func TestClosingsThatSayWhereItOpens(t *testing.T) {
	shut := halfCircle()
	shut.Opening, shut.Waist = false, 1100
	block := lanternBlock()
	for name, c := range map[string]struct {
		of   Draft
		by   Closing
		want string
	}{
		"the other centre": {halfCircle(), Closing{At: "centre front", By: Zip, Length: 200},
			"there is no opening at the centre front to close\n  hint: it opens at the centre back"},
		"no centre": {shut, Closing{At: "centre back", By: Zip, Length: 200},
			"there is no opening at the centre back to close\n  hint: it opens at no centre: let it open, or leave the " +
				"closing out"},
		"a seam at a centre": {halfCircle(), Closing{At: "centre back", Seam: "side", By: Zip, Length: 200},
			"seam \"side\" is named, and it opens at the centre back\n  hint: say at which side it opens, `left` or `right`"},
		"no such seam": {block, Closing{At: OnLeft, Seam: "sleeve", By: Zip, Length: 100},
			"there is no seam \"sleeve\" to open\n  hint: one of \"side seam\" or \"shoulder seam\""},
		"no side": {workedHandkerchief(1), Closing{At: OnLeft, By: Zip, Length: 100},
			"there is no seam \"side seam\" to open\n  hint: it has no seam on the left and on the right"},
		"open to the hem": {halfCircle(), Closing{At: "centre back", By: Zip},
			"back gore: its centre back runs on to the hem, and is closed part of the way\n  hint: give the closing a " +
				"`length` that lets the hips through"},
	} {
		d, err := c.of.Draft()
		if err != nil {
			t.Fatal(err)
		}
		_, err = c.by.Of(d)
		if got := fmt.Sprint(err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
		c.by.Inner = true // behind, a lining without that opening is as it was
		if behind, err := c.by.Of(d); strings.HasPrefix(c.want, "there is no") && (err != nil ||
			len(behind.Joins) != len(d.Joins)) {
			t.Errorf("%s, on a lining: %v", name, err)
		}
	}
}
