package draft

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// sheet is a piece as given.
type sheet struct{ edges []shapes.Edge }

func (s sheet) Draft() (Result, error) {
	p, err := shapes.NewPiece("sheet", s.edges)
	return Result{Pieces: []shapes.Piece{p}}, err
}

// sheetWithNeck has a neck from (400, 300) to (0, 300) along some points, straight sides below it and a seam under
// all.
func sheetWithNeck(right, left orb.Point, neck ...orb.Point) sheet {
	line := append(append(orb.LineString{right}, neck...), left)
	edge := func(name string, kind shapes.EdgeKind, line ...orb.Point) shapes.Edge {
		return shapes.Edge{Name: name, Kind: kind, Line: line, Allowance: 10}
	}
	return sheet{[]shapes.Edge{edge("under", shapes.Seam, orb.Point{0, 0}, orb.Point{400, 0}),
		edge("right side", shapes.Seam, orb.Point{400, 0}, right), edge("neck", shapes.Top, line...),
		edge("left side", shapes.Seam, left, orb.Point{0, 0})}}
}

// A facing along a straight neck is a rectangle, round a corner up to what is mitred it meets itself there; where its
// edge turns more, bends too tightly, begins or ends too near a corner, or meets sides that lean, it is refused by
// where and by how much.
func TestFacingsOfDrawnNecks(t *testing.T) {
	right, left := orb.Point{400, 300}, orb.Point{0, 300}
	for name, c := range map[string]struct {
		of    sheet
		width float64
		area  float64 // 0: refused
		want  string
	}{
		"straight": {sheetWithNeck(right, left), 40, 400 * 40, ""},
		"a square notch": {sheetWithNeck(right, left, orb.Point{300, 300}, orb.Point{300, 200}, orb.Point{100, 200},
			orb.Point{100, 300}),
			40, 600*40 + 2*40*40 - 2*40*40, ""},
		"a square notch near the side": {sheetWithNeck(right, left, orb.Point{370, 300}, orb.Point{370, 200},
			orb.Point{100, 200},
			orb.Point{100, 300}), 40, 0,
			"neck facing: sheet: 30.0 mm from its right side it turns a corner, within the 40.0 mm that a " +
				"facing 40.0 mm " +
				"wide takes up there\n  hint: a narrower facing"},
		"and near the other": {sheetWithNeck(right, left, orb.Point{300, 300}, orb.Point{300, 200}, orb.Point{25, 200},
			orb.Point{25, 300}), 40, 0,
			"neck facing: sheet: 25.0 mm from its left side it turns a corner, within the 40.0 mm that a " +
				"facing 40.0 mm " +
				"wide takes up there\n  hint: a narrower facing"},
		"a spike": {sheetWithNeck(right, left, orb.Point{220, 300}, orb.Point{200, 150}, orb.Point{180, 300}), 40, 0,
			"neck facing: sheet: 331.3 mm from its right side it turns a corner of 165 degrees, which a " +
				"facing does not follow\n" +
				"  hint: face it by an `outline`, or turn it up"},
		"sides that lean": {sheetWithNeck(right, orb.Point{-600, 300}), 40, 0,
			"neck facing: sheet: the seam at an end of it leans by 63 degrees from square to it, the most " +
				"for a facing is 60\n" +
				"  hint: bind that edge, or hem it"},
		"sides that lean a little further than they may": {sheetWithNeck(right, orb.Point{-522, 300}), 40, 0,
			"neck facing: sheet: the seam at an end of it leans by 61 degrees from square to it, the most " +
				"for a facing is 60\n" +
				"  hint: bind that edge, or hem it"},
		"short sides": {sheetWithNeck(orb.Point{400, 40.9}, left), 40, 0,
			"neck facing: sheet: a facing 40.0 mm wide needs 41.0 mm of its right side, which is 40.9 mm\n  " +
				"hint: a narrower facing"},
		"sides just long": {sheetWithNeck(orb.Point{400, 41}, orb.Point{0, 41}), 40, 400 * 40, ""},
	} {
		d, err := Facing{Of: c.of, At: AtNeck, Width: c.width, Seam: 10}.Draft()
		if c.area > 0 {
			if err != nil || len(d.Pieces) != 1 {
				t.Errorf("%s: %v", name, err)
				continue
			}
			near(t, name, plane.Area(d.Pieces[0].Seam), c.area, .5)
			continue
		}
		if got := fmt.Sprint(err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
}

// Wherever it is moved to, a dart of a bodice is trued: its legs are alike, the edge runs on across it once it is
// folded, and its mouth, pressed to one side, lies on the edge there.
func TestMovedDartsAreTrued(t *testing.T) {
	// edges are bent in chords of 5 mm, and the armhole is round
	const most, curved = 1.5 * math.Pi / 180, 6 * math.Pi / 180
	darts := 0
	for _, place := range []DartPlace{DartAtSide, DartAtShoulder, DartAtNeck, DartAtArmhole, DartAtWaist,
		DartAtCentre} {
		for _, one := range []bool{false, true} {
			b := lanternBlock()
			b.BustDartAt, b.OneDart, b.Chord = place, one, .002
			for _, p := range must(t, b).Pieces {
				for _, d := range dartsOf(t, p) {
					darts++
					line, at := d.edge.Line, string(place)+", a dart on "+d.edge.Name
					near(t, at+": legs", d.legs[0], d.legs[1], .01)
					if d.second-d.first != 2 {
						t.Errorf("%s: %d points in its mouth", at, d.second-d.first-1)
						continue
					}
					before, foot, peak, other, after := line[d.first-1], line[d.first], line[d.first+1],
						line[d.second], line[d.second+1]
					fold := angleOf(d.apex, foot) - angleOf(d.apex, other)
					across := turned(sub2(after, d.apex), fold, d.apex)
					if turn := turnAt(before, foot, across); math.Abs(turn) > curved {
						t.Errorf("%s: folded, its edge turns by %.1f degrees", at, turn*180/math.Pi)
					}
					back := math.Abs(turnAt(mirroredIn(d.apex, foot, peak), foot, before))
					on := math.Abs(turnAt(mirroredIn(d.apex, other, peak), other, after))
					if math.Pi-max(back, on) > most {
						t.Errorf("%s: folded, its mouth stands off the edge by %.1f or %.1f degrees", at,
							180-back*180/math.Pi,
							180-on*180/math.Pi)
					}
				}
			}
		}
	}
	// One behind always; in front two, or one where they are joined or both lie at the waist.
	if want := 12 + 5*2 + 5 + 2; darts != want {
		t.Errorf("%d darts, want %d", darts, want)
	}
}
