package sheet

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// LineName is what one of the lines marked inside an outline is called.
type LineName struct {
	Line int // among them
	Name string
}

// Sizes of such names, mm of paper, and where they may stand along their lines, as
// shares of the length, the likeliest first.
var (
	nameSizes  = []float64{2.2, 1.8, 1.4, 1.1}
	namePlaces = []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9}
)

// names writes the names of lines beside them, clear of the lines that are drawn and of
// each other. A name that has no room anywhere is left out.
func (o Outline) names(lines []orb.LineString, k float64) []Item {
	var items []Item
	for _, n := range o.Names {
		t, ok := nameAt(o.Inside[n.Line], n.Name, lines, k)
		if !ok {
			continue
		}
		items, lines = append(items, t), append(lines, around(t))
	}
	return items
}

// besides are where a name may stand off its line: to the left, to the right, and for a line
// that runs across the page above and below it.
var besides = []orb.Point{{-1, 0}, {1, 0}, {0, -1}, {0, 1}}

// nameAt finds a place for a name beside its line, along it where that runs up the page.
func nameAt(line orb.LineString, name string, lines []orb.LineString, k float64) (Text, bool) {
	length := planar.Length(line)
	for _, size := range nameSizes {
		w, h := textWidth(name, size*k)+0.6*k, 2*middle*size*k+0.8*k
		for _, turn := range []float64{90, 0} {
			width, height := w, h
			if turn == 90 {
				width, height = h, w
			}
			for _, of := range namePlaces {
				on := along(line, of*length)
				for _, off := range besides {
					if turn == 90 && off[1] != 0 {
						continue
					}
					at := orb.Point{on[0] + off[0]*(width/2+0.2*k), on[1] + off[1]*(height/2+0.2*k)}
					if clearBox(at, 1, 0, width, height, lines) {
						return Text{Role: RoleNote, At: at, Anchor: Middle, Size: size * k,
							Turn: turn, Body: name}, true
					}
				}
			}
		}
	}
	return Text{}, false
}

// along returns the point at a distance along a line.
func along(line orb.LineString, distance float64) orb.Point {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		step := planar.Distance(a, b)
		if step > 0 && distance <= step {
			t := distance / step
			return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
		}
		distance -= step
	}
	return line[len(line)-1]
}

// around is the edge of the ground that a text takes up.
func around(t Text) orb.LineString {
	w, h := textWidth(t.Body, t.Size), 2*middle*t.Size
	if t.Turn == 90 {
		w, h = h, w
	}
	return orb.LineString(Box(t.At[0]-w/2, t.At[1]-h/2, t.At[0]+w/2, t.At[1]+h/2))
}
