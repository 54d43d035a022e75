package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Eyelets on 320 mm, 12.7 mm from its ends and at most 25 mm apart: 294.6 mm between the
// first and the last are 12 gaps of 24.55 mm, 13 eyelets on each edge, 26 in all (plain
// arithmetic).
func TestEyeletsOfALength(t *testing.T) {
	n, pitch, err := Closing{By: Lacing, Spacing: 25, First: 12.7}.places(320)
	if err != nil || n != 13 || math.Abs(pitch-24.55) > 1e-9 {
		t.Errorf("%d, %g apart, %v", n, pitch, err)
	}
	if set := (Closed{By: Lacing, Times: 1, Places: n}).Set(); set != 26 {
		t.Errorf("%d eyelets", set)
	}
	if set := (Closed{By: Buttons, Times: 1, Places: n}).Set(); set != 13 {
		t.Errorf("%d buttons", set)
	}
}

// However long an opening, they are no further apart than asked for and one fewer would
// be; the first and the last lie where they are asked for.
func TestPlacesOfClosings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Closing{By: Buttons, Spacing: rapid.Float64Range(5, 80).Draw(t, "spacing"),
			First: rapid.Float64Range(0, 40).Draw(t, "first")}
		length := rapid.Float64Range(1, 1200).Draw(t, "length")
		n, pitch, err := c.places(length)
		if err != nil {
			if length >= 2*c.First {
				t.Fatal(err)
			}
			return
		}
		room := length - 2*c.First
		if pitch > c.Spacing+1e-6 || n > 2 && room/float64(n-2) <= c.Spacing-1e-6 ||
			math.Abs(float64(n-1)*pitch-room) > 1e-6 {
			t.Fatalf("%d places %g apart on %g", n, pitch, room)
		}
	})
}

// marksOf are the lines that a closing added to the pieces of a draft, by piece.
func marksOf(before, after Result) map[string][]orb.LineString {
	out := map[string][]orb.LineString{}
	for i, p := range after.Pieces {
		if more := p.Inside[len(before.Pieces[i].Inside):]; len(more) > 0 {
			out[p.Name] = more
		}
	}
	return out
}

// A block that opens behind: its marks begin on the centre back, from the neck down, and
// the draft itself is left as it was.
func TestButtonsOfBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		b.BackOnFold, b.EasePleat = false, 0
		d, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		lines := len(d.Pieces[1].Inside)
		c := Closing{At: "centre back", By: Buttons, Spacing: 38, First: 12}
		closed, err := c.Of(d)
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Pieces[1].Inside) != lines {
			t.Fatal("the draft has been marked")
		}
		marks := marksOf(d, closed)
		back, _ := closed.Pieces[1].Edge("centre back")
		neck, _ := closed.Pieces[1].Edge("neck")
		top := neck.Line[0]
		if planar.Distance(top, back.Line[len(back.Line)-1]) > 1e-6 {
			top = neck.Line[len(neck.Line)-1]
		}
		if got := closed.Closed[0]; len(marks) != 1 || len(marks[blockBack]) != got.Places || got.Times != 1 ||
			math.Abs(got.Length-back.Length()) > 1e-6 {
			t.Fatalf("%d marks, %+v", len(marks[blockBack]), got)
		}
		for i, l := range marks[blockBack] {
			want := 12 + float64(i)*closed.Closed[0].Pitch
			if got := planar.Distance(l[0], top); math.Abs(got-want) > 1e-6 {
				t.Fatalf("mark %d lies %g from the neck, want %g", i, got, want)
			}
			if !planar.RingContains(closed.Pieces[1].Seam, l[1]) {
				t.Fatalf("mark %d leaves the piece", i)
			}
		}
	})
}

// Eyelets of a corset with a facing lie along the folded centre back, in the middle between
// the bones beside it.
func TestEyeletsLieBetweenTheBones(t *testing.T) {
	for _, facing := range []float64{0, 40} {
		b := lanternCorset()
		b.Facing, b.Channel = facing, 10
		d, err := b.Draft()
		if err != nil {
			t.Fatal(err)
		}
		closed, err := Closing{At: "centre back", By: Lacing, Spacing: 25, First: 12}.Of(d)
		if err != nil {
			t.Fatal(err)
		}
		if len(closed.Closed) != 1 || closed.Closed[0].Inset != 17.5 {
			t.Fatalf("%+v", closed.Closed)
		}
		for name, marks := range marksOf(d, closed) {
			p := pieceNamed(closed.Pieces, name)
			// The walls beside the eyelets are 10 and 25 mm from the centre back.
			walls := p.Inside
			if facing > 0 {
				walls = walls[1:]
			}
			for _, m := range marks {
				near, far := planar.DistanceFrom(walls[0], m[2]), planar.DistanceFrom(walls[1], m[2])
				if math.Abs(near-7.5) > 0.6 || math.Abs(far-7.5) > 0.6 {
					t.Fatalf("facing of %g: an eyelet lies %.2f and %.2f from the bones", facing, near, far)
				}
			}
		}
	}
}

func pieceNamed(pieces []shapes.Piece, name string) shapes.Piece {
	for _, p := range pieces {
		if p.Name == name {
			return p
		}
	}
	return shapes.Piece{}
}

// What lies behind is as long as what is closed and twice as wide, a placket's strip twice
// as long.
func TestPanelsBehindOpenings(t *testing.T) {
	skirt := CircleSkirt{Fraction: 0.5, Waist: 700, Length: 900, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 25}}
	for by, want := range map[ClosedBy][2]float64{Zip: {230, 50}, Placket: {460, 50}, Hooks: {230, 50}} {
		d, err := ClosingPanel{Of: skirt, Closing: Closing{At: "centre back", By: by, Length: 230}, Width: 25,
			Allowance: 10}.Draft()
		if err != nil || len(d.Pieces) != 1 || d.Pieces[0].Count != 1 {
			t.Fatal(by, len(d.Pieces), err)
		}
		along, across := d.Pieces[0].Finished()
		if along != want[0] || across != want[1] || math.Abs(plane.Area(d.Pieces[0].Cut)-(along+20)*(across+20)) > 1 {
			t.Errorf("%s: %g x %g", by, along, across)
		}
	}
}

// What does not close is refused by name and number.
func TestClosingsThatAreRefused(t *testing.T) {
	skirt := CircleSkirt{Fraction: 0.5, Waist: 700, Length: 900, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 25}}
	d, err := skirt.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for want, c := range map[string]Closing{
		"no opening at the centre front":                 {At: "centre front", By: Zip, Length: 200},
		"runs on to the hem":                             {At: "centre back", By: Zip},
		"901.0 mm long does not go into":                 {At: "centre back", By: Zip, Length: 901},
		"20.0 mm long has no room for two 12.0 mm":       {At: "centre back", By: Hooks, Length: 20, First: 12, Spacing: 25},
		"hooks: 877 on an edge of 900.0 mm, at most 300": {At: "centre back", By: Hooks, Length: 900, First: 12, Spacing: 1},
	} {
		if _, err := c.Of(d); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %s", c, err, want)
		}
	}
}
