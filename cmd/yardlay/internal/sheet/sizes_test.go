package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// someSizes draws pieces in several sizes, each a scaled copy of the one before about (0, 0).
func someSizes(t *rapid.T) Sizes {
	s := Sizes{Title: "gown in sizes"}
	for n := range rapid.IntRange(1, 6).Draw(t, "pieces") {
		long, high := rapid.Float64Range(30, 1500).Draw(t, "long"), rapid.Float64Range(30, 900).Draw(t, "high")
		g := Graded{Name: fmt.Sprintf("piece %d", n+1), Point: "waist at the centre front"}
		for i := range rapid.IntRange(1, 5).Draw(t, "sizes") {
			by := 1 + float64(i)/10
			w, h := long*by, high*by
			g.Sizes = append(g.Sizes, Size{fmt.Sprintf("size %d", 36+2*i), Outline{
				Cut:    orb.Ring{{-w / 3, 0}, {w, -h / 4}, {w, h}, {-w / 3, h / 2}, {-w / 3, 0}},
				Inside: []orb.LineString{{{0, h / 8}, {w / 2, h / 8}}}}})
		}
		s.Pieces = append(s.Pieces, g)
	}
	return s
}

// All sizes of a piece are drawn in their true size about one cross, y up; each number stands on the line of its
// own size, as near as it can to no other; and cells keep to the page and off each other.
func TestSizesLieOverEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someSizes(t)
		d := s.Drawing()
		if words := clash(d); words != "" && !strings.Contains(words, `"1"`) && !strings.Contains(words, `"2"`) {
			t.Fatal(words)
		}
		var boxes []orb.Bound
		for n, g := range s.Pieces {
			all := drawnOf(Drawing{Groups: d.Groups[n+1 : n+2]})
			var rings []orb.Ring
			var inside, marks []orb.LineString
			for _, l := range all.lines {
				switch l.Role {
				case RolePiece:
					rings = append(rings, orb.Ring(l.Path))
				case RoleInside:
					inside = append(inside, l.Path)
				case RoleMark:
					marks = append(marks, l.Path)
				}
			}
			if len(rings) != len(g.Sizes) || len(inside) != len(g.Sizes) || len(marks) != 2 {
				t.Fatalf("%d outlines, %d lines and %d arms of a cross of %d sizes", len(rings), len(inside),
					len(marks), len(g.Sizes))
			}
			level, upright := marks[0], marks[1]
			cross := orb.Point{(level[0][0] + level[1][0]) / 2, (upright[0][1] + upright[1][1]) / 2}
			for _, arm := range marks {
				if middle := arm.Bound().Center(); planar.Distance(middle, cross) > 1e-6 ||
					math.Abs(planar.Length(arm)-4*d.Scale) > 1e-6 {
					t.Fatalf("the cross is %v", marks)
				}
			}
			for i, size := range g.Sizes {
				for k, p := range size.Cut {
					if q := (orb.Point{cross[0] + p[0], cross[1] - p[1]}); planar.Distance(q, rings[i][k]) > 1e-9 {
						t.Fatalf("%v of size %d is drawn at %v", p, i, rings[i][k])
					}
				}
				if p := size.Inside[0][1]; planar.Distance(orb.Point{cross[0] + p[0], cross[1] - p[1]},
					inside[i][1]) > 1e-9 {
					t.Fatalf("a line of size %d ends at %v", i, inside[i][1])
				}
			}
			for i, r := range rings {
				onOwn(t, all.texts, i, r)
			}
			box := rings[0].Bound()
			for _, r := range rings[1:] {
				box = box.Union(r.Bound())
			}
			for _, other := range boxes {
				if box.Intersects(other) {
					t.Fatalf("%v and %v overlap", box, other)
				}
			}
			edge := margin*d.Scale - 1e-6
			page := orb.Bound{Min: orb.Point{edge, edge}, Max: orb.Point{d.Width - edge, d.Height - edge}}
			if !page.Contains(box.Min) || !page.Contains(box.Max) {
				t.Fatalf("%v lies beyond %v", box, page)
			}
			boxes = append(boxes, box)
		}
		if d.Scale != math.Ceil(d.Scale) || d.Scale < 1 {
			t.Fatalf("1 : %g", d.Scale)
		}
	})
}

// onOwn holds that the number of a size stands on its outline.
func onOwn(t *rapid.T, texts []Text, i int, own orb.Ring) {
	at := slices.IndexFunc(texts, func(s Text) bool { return s.Body == fmt.Sprint(i+1) && s.Anchor == Middle })
	if at < 0 {
		t.Fatalf("size %d has no number", i+1)
	}
	p := orb.Point{texts[at].At[0], texts[at].At[1] - .35*texts[at].Size} // the middle of a figure
	if off := planar.DistanceFrom(orb.LineString(own), p); off > 1e-6 {
		t.Fatalf("the number of size %d is %g off its line", i+1, off)
	}
}

// Numbers keep apart where there is room, and each is as far from the lines beside its own as any place on that is.
func TestNumbersOfSizesKeepApart(t *testing.T) {
	rings := []orb.Ring{Box(0, 0, 100, 100), Box(0, 0, 200, 150), Box(0, 0, 300, 200)}
	places := apart(rings, 20)
	for i, p := range places {
		for j, q := range places {
			if i != j && planar.Distance(p, q) < 20 {
				t.Errorf("%v and %v are near each other", p, q)
			}
			if off := planar.DistanceFrom(orb.LineString(rings[j]), p); i == j && off > 1e-9 || i != j && off < 20 {
				t.Errorf("number %d at %v is %g from line %d", i+1, p, off, j+1)
			}
		}
	}
}

// Places along a ring follow each other at equal distances, measured along it, the first half of that from its
// start.
func TestSpacedAreEvenlySpaced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring, n := star(t), rapid.IntRange(1, 50).Draw(t, "n")
		step := planar.Length(ring) / float64(n)
		all := spaced(ring, n)
		if len(all) != n && len(all) != n-1 { // the last may be lost by rounding, none else
			t.Fatalf("%d of %d", len(all), n)
		}
		at, i := 0., 0
		for k := 1; k < len(ring) && i < len(all); k++ {
			d := planar.Distance(ring[k-1], ring[k])
			for i < len(all) && (float64(i)+.5)*step <= at+d+1e-9 {
				s := ((float64(i)+.5)*step - at) / d
				want := orb.Point{ring[k-1][0] + s*(ring[k][0]-ring[k-1][0]),
					ring[k-1][1] + s*(ring[k][1]-ring[k-1][1])}
				if planar.Distance(all[i], want) > 1e-6 {
					t.Fatalf("place %d is %v, want %v", i, all[i], want)
				}
				i++
			}
			at += d
		}
	})
}
