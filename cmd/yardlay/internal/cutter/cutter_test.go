package cutter

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// onLayer lists the lines of a part on a layer.
func onLayer(p sheet.StrokePart, l sheet.Layer) (lines []orb.LineString) {
	for _, s := range p.Strokes {
		if s.Layer == l {
			lines = append(lines, s.Path)
		}
	}
	return lines
}

// trapezoid is a piece with four edges and their allowances; its last edge is straight
// along the grain and may be a fold.
var trapezoid = rapid.Custom(func(t *rapid.T) shapes.Piece {
	long, high := rapid.Float64Range(100, 900).Draw(t, "long"), rapid.Float64Range(60, 500).Draw(t, "high")
	in := rapid.Float64Range(-0.3, 0.3).Draw(t, "in") * long
	allowance := rapid.Custom(func(t *rapid.T) float64 {
		return rapid.SampledFrom([]float64{0, 3, 10, 12.7, 15, 40}).Draw(t, "allowance")
	})
	edge := func(name string, kind shapes.EdgeKind, a, b orb.Point) shapes.Edge {
		e := shapes.Edge{Name: name, Kind: kind, Line: orb.LineString{a, b}}
		if kind != shapes.Fold {
			e.Allowance = allowance.Draw(t, name)
		}
		return e
	}
	base := shapes.Seam
	if rapid.Bool().Draw(t, "fold") {
		base = shapes.Fold
	}
	p, err := shapes.NewPiece("panel", []shapes.Edge{
		edge("base", base, orb.Point{0, 0}, orb.Point{long, 0}),
		edge("hem", shapes.Hem, orb.Point{long, 0}, orb.Point{long - math.Max(in, 0), high}),
		edge("side", shapes.Seam, orb.Point{long - math.Max(in, 0), high}, orb.Point{math.Max(-in, 0), high}),
		edge("waist", shapes.Waist, orb.Point{math.Max(-in, 0), high}, orb.Point{0, 0}),
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []string{"hem", "side", "waist"} {
		of, _ := p.Edge(e)
		if err := p.AddNotch(e, rapid.Float64Range(0.1, 0.9).Draw(t, "notch")*of.Length()); err != nil {
			t.Fatal(err)
		}
	}
	return p
})

// drawn takes a piece of the kernel over.
func drawn(p shapes.Piece) Piece {
	made := Piece{Name: p.Name, Outline: sheet.Outline{Cut: p.Cut, Seam: p.Seam, Grain: p.Grain, Inside: p.Inside}}
	for _, n := range p.Notches {
		made.Notches = append(made.Notches, sheet.Notch{At: n.At, Outward: n.Outward})
	}
	for _, e := range p.Edges {
		if e.Kind == shapes.Fold {
			made.Fold = e.Line
		}
	}
	return made
}

// Cut line and fold together are the outline, and the blade never runs along the fold.
func TestNoBladeAlongAFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trapezoid.Draw(t, "piece")
		part := drawn(p).part()
		cut, fold := onLayer(part, sheet.LayerCut), onLayer(part, sheet.LayerFold)
		if len(cut) != 1 || (len(fold) == 1) != p.OnFold {
			t.Fatalf("%d cut lines, %d folds", len(cut), len(fold))
		}
		ring := slices.Clone(cut[0])
		if p.OnFold {
			if ring[0] != fold[0][1] || ring[len(ring)-1] != fold[0][0] {
				t.Fatalf("the fold %v does not close %v", fold[0], ring)
			}
			level := plane.Snap(drawn(p).Fold[0][1])
			for i := 1; i < len(ring); i++ {
				if ring[i-1][1] == level && ring[i][1] == level {
					t.Fatalf("it cuts the fold from %v to %v", ring[i-1], ring[i])
				}
			}
			ring = append(ring, ring[0])
		}
		if !plane.Canonical(orb.Ring(ring)).Equal(plane.Canonical(p.Cut)) {
			t.Fatalf("%v is not %v", ring, p.Cut)
		}
	})
}

// A notch begins on the cut line, runs inwards and ends as far from the seam line as it is
// deep at the least; it never leaves the piece.
func TestNotchesStopBeforeTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trapezoid.Draw(t, "piece")
		part := drawn(p).part()
		snips := onLayer(part, sheet.LayerNotch)
		if len(snips) != len(p.Notches) {
			t.Fatalf("%d notches of %d", len(snips), len(p.Notches))
		}
		for i, s := range snips {
			edge, _ := p.Edge(p.Notches[i].Edge)
			if d := planar.DistanceFrom(orb.LineString(p.Cut), s[0]); d > 0.002 {
				t.Fatalf("%v begins %g off the cut line", s, d)
			}
			for _, end := range s[1:] {
				if !planar.RingContains(p.Cut, end) {
					t.Fatalf("%v leaves the piece", s)
				}
			}
			inside, deep := planar.DistanceFrom(edge.Line, s[1]), planar.Distance(s[0], s[1])
			if edge.Allowance > 0 && (deep > notchLongest+1e-9 || inside < deep-0.01) {
				t.Fatalf("%s allows %g: notch %g deep, its end %g off the seam", edge.Name, edge.Allowance, deep,
					inside)
			}
			if edge.Allowance == 0 && math.Abs(deep-notchBare) > 0.002 {
				t.Fatalf("notch %g deep on a bare edge", deep)
			}
		}
	})
}

// Seam lines are drawn where they differ from the cut line, open on a fold as it is.
func TestSeamLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trapezoid.Draw(t, "piece")
		sew := onLayer(drawn(p).part(), sheet.LayerSew)
		bare := !slices.ContainsFunc(p.Edges, func(e shapes.Edge) bool { return e.Allowance > 0 })
		if len(sew) > 1 || bare != (len(sew) == 0) {
			t.Fatalf("%d seam lines, without allowances %v", len(sew), bare)
		}
		for _, l := range sew {
			if closed := l[0] == l[len(l)-1]; closed == p.OnFold {
				t.Fatalf("on fold %v, closed %v", p.OnFold, closed)
			}
		}
	})
}

// The copy's name has a line of its own under the words, kept free in the part.
func TestRoomForTheCopy(t *testing.T) {
	p := Piece{Name: "gore", Words: []string{"Piece Name: gore"}, Longest: "2 of 4",
		Outline: sheet.Outline{Cut: sheet.Box(0, 0, 400, 300)}}
	part := p.part()
	if len(part.Texts) != 1 || part.Copy == nil || part.Copy.Body != "2 of 4" ||
		part.Copy.At[1] >= part.Texts[0].At[1] {
		t.Errorf("%+v, copy %+v", part.Texts, part.Copy)
	}
	p.Words = nil
	if part = p.part(); len(part.Texts) != 0 || part.Copy == nil {
		t.Errorf("without words: %+v, copy %+v", part.Texts, part.Copy)
	}
}

// A grain line has a head at its end, and one at its start unless the nap runs one way.
func TestHeadsOfTheGrain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length, angle := rapid.Float64Range(1, 500).Draw(t, "length"), rapid.Float64Range(0, 7).Draw(t, "angle")
		sin, cos := math.Sincos(angle)
		grain := orb.LineString{{5, 7}, {5 + length*cos, 7 + length*sin}}
		for oneWay, tips := range map[bool][]orb.Point{true: {grain[1]}, false: {grain[1], grain[0]}} {
			all := heads(grain, oneWay)
			if len(all) != len(tips) {
				t.Fatalf("%d heads", len(all))
			}
			for i, h := range all {
				if len(h) != 3 || h[1] != tips[i] {
					t.Fatalf("head %v, tip %v", h, tips[i])
				}
				for _, barb := range []orb.Point{h[0], h[2]} {
					along := (barb[0]-5)*cos + (barb[1]-7)*sin
					if along < 0 || along > length || planar.Distance(barb, h[1]) > length/2 {
						t.Fatalf("barb %v lies %g along %g", barb, along, length)
					}
				}
			}
		}
	})
	if heads(nil, true) != nil || heads(orb.LineString{{1, 1}, {1, 1}}, false) != nil {
		t.Error("heads of no line")
	}
}

// Pieces on a page come nowhere near each other and lie on it, in their own size.
func TestPiecesLieApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []Piece
		for range rapid.IntRange(1, 12).Draw(t, "pieces") {
			pieces = append(pieces, drawn(trapezoid.Draw(t, "piece")))
		}
		work := Pieces(Head{Title: "skirt"}, pieces)
		var boxes []orb.Bound
		for i, pl := range work.Places {
			if pl.Part != i || pl.Turn != 0 || pl.At != plane.SnapPoint(pl.At) {
				t.Fatalf("place %+v of piece %d", pl, i)
			}
			b := pieces[i].Cut.Bound()
			b = orb.Bound{Min: orb.Point{b.Min[0] + pl.At[0], b.Min[1] + pl.At[1]},
				Max: orb.Point{b.Max[0] + pl.At[0], b.Max[1] + pl.At[1]}}
			if page := work.Page.Pad(0.01 - around); !page.Contains(b.Min) || !page.Contains(b.Max) {
				t.Fatalf("%v on a page %v", b, work.Page)
			}
			for _, other := range boxes {
				if other.Pad(between - 0.01).Intersects(b) {
					t.Fatalf("%v and %v", other, b)
				}
			}
			boxes = append(boxes, b)
		}
	})
}

// The page of a marker is its cloth; flaws and match points lie where they are.
func TestMarkerWork(t *testing.T) {
	m := Marker{
		Head: Head{"skirt", "d", []string{"n"}}, Cloth: orb.Bound{Min: orb.Point{-10, -5}, Max: orb.Point{900, 400}},
		Edges: []orb.LineString{{{-10, 0}, {900, 0}}}, Flaws: []orb.Ring{sheet.Box(500, 50, 520, 80)},
		Pieces: []Piece{{Name: "panel", Outline: sheet.Outline{Cut: sheet.Box(0, 0, 100, 50)}}},
		Copies: []Copy{{0, orb.Point{10, 20}, 90, "left", []orb.Point{{30, 40}}},
			{0, orb.Point{300, 20}, 0, "right", nil}},
	}
	work := m.Work()
	if work.Page != m.Cloth || work.Title != "skirt" || len(work.Parts) != 1 || len(work.Places) != 2 {
		t.Fatalf("%+v", work)
	}
	if got := work.Places[0]; got != (sheet.Place{Part: 0, At: orb.Point{10, 20}, Turn: 90, Copy: "left"}) {
		t.Errorf("place %+v", got)
	}
	count := map[sheet.Layer]int{}
	for _, l := range work.Loose {
		count[l.Layer]++
	}
	if count[sheet.LayerCloth] != 3 || count[sheet.LayerInside] != 2 || len(count) != 2 {
		t.Errorf("loose lines %v", count)
	}
}

// Lines inside that have a name bear it beside them, on the layer of words: a line with room
// on one side at least has its name on neither the line nor the words.
func TestLinesInsideBearTheirNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(300, 900).Draw(t, "w"), rapid.Float64Range(150, 600).Draw(t, "h")
		x := rapid.Float64Range(0.2, 0.8).Draw(t, "x") * w
		p := Piece{Name: "gore", Words: []string{"Piece Name: gore", "Quantity: 2"}, Longest: "left",
			Outline: sheet.Outline{Cut: sheet.Box(0, 0, w, h), Inside: []orb.LineString{{{x, 20}, {x, h - 20}}},
				Names: []sheet.LineName{{Line: 0, Name: "net 1"}}}}
		part := p.part()
		if len(part.Texts) != 3 || part.Texts[2].Body != "net 1" || part.Copy.Body != "left" {
			t.Fatalf("texts %+v", part.Texts)
		}
		name := part.Texts[2]
		if off := math.Abs(name.At[0] - x); off < 0.3*name.Size || off > 8*name.Size {
			t.Fatalf("the name stands %g off its line", off)
		}
		for _, other := range append(part.Texts[:2:2], *part.Copy) {
			if planar.Distance(other.At, name.At) < (other.Size+name.Size)/3 {
				t.Fatalf("%q stands on %q", name.Body, other.Body)
			}
		}
	})
}
