package cutter

import (
	"math"
	"runtime"
	"sync"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// Head is what line work says of itself.
type Head struct {
	Title       string
	Description string
	Notes       []string
}

// Marker is what is cut from one lay of a cloth, in its coordinates.
type Marker struct {
	Head
	Cloth  orb.Bound        // as spread
	Edges  []orb.LineString // of what is laid on
	Flaws  []orb.Ring
	Pieces []Piece
	Copies []Copy
}

// Copy is one outline in its place.
type Copy struct {
	Piece   int // among those of the marker
	At      orb.Point
	Turn    float64 // degrees counter-clockwise
	Name    string
	Matches []orb.Point // points that lie on the repeat
}

// Between pieces on a page, around them, and the least width of its rows, mm.
const between, around, leastRow = 20.0, 10.0, 1500.0

// Pieces lays each piece once, in rows from the top down in the order given.
func Pieces(head Head, pieces []Piece) sheet.Strokes {
	work := head.work()
	row := leastRow
	for _, p := range pieces {
		b := p.Cut.Bound()
		row = math.Max(row, b.Max[0]-b.Min[0])
	}
	x, y, high, right := 0.0, 0.0, 0.0, 0.0
	work.Parts = parts(pieces)
	for i, p := range pieces {
		b := p.Cut.Bound()
		wide, tall := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
		if x > 0 && x+wide > row {
			x, y, high = 0, y-high-between, 0
		}
		at := orb.Point{x - b.Min[0], y - b.Max[1]}
		work.Places = append(work.Places, sheet.Place{Part: i, At: plane.SnapPoint(at)})
		right, high = math.Max(right, x+wide), math.Max(high, tall)
		x += wide + between
	}
	work.Page = orb.Bound{Min: orb.Point{0, y - high}, Max: orb.Point{right, 0}}.Pad(around)
	return work
}

// parts draws pieces, as many at a time as there are processors: to find room for words
// takes a while where there are hundreds.
func parts(pieces []Piece) []sheet.StrokePart {
	made, free := make([]sheet.StrokePart, len(pieces)), make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i, p := range pieces {
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			made[i] = p.part()
		})
	}
	all.Wait()
	return made
}

func (h Head) work() sheet.Strokes {
	return sheet.Strokes{Title: h.Title, Description: h.Description, Notes: h.Notes}
}

// cross is half the length of the lines of a match point, mm.
const cross = 5.0

// Work draws the marker: its page is the cloth.
func (m Marker) Work() sheet.Strokes {
	work := m.Head.work()
	work.Page = m.Cloth
	loose := func(layer sheet.Layer, line orb.LineString) {
		work.Loose = append(work.Loose, sheet.Stroke{Layer: layer, Path: line})
	}
	loose(sheet.LayerCloth, orb.LineString(m.Cloth.ToRing()))
	for _, l := range m.Edges {
		loose(sheet.LayerCloth, l)
	}
	for _, f := range m.Flaws {
		loose(sheet.LayerCloth, orb.LineString(f))
	}
	work.Parts = parts(m.Pieces)
	for _, c := range m.Copies {
		work.Places = append(work.Places, sheet.Place{Part: c.Piece, At: c.At, Turn: c.Turn, Copy: c.Name})
		for _, at := range c.Matches {
			loose(sheet.LayerInside, orb.LineString{{at[0] - cross, at[1]}, {at[0] + cross, at[1]}})
			loose(sheet.LayerInside, orb.LineString{{at[0], at[1] - cross}, {at[0], at[1] + cross}})
		}
	}
	return work
}
