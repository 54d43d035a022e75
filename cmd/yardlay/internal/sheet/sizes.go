package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Sizes is a sheet of pieces, each in several sizes that lie over each other: what a
// grader calls a nest.
type Sizes struct {
	Title  string
	Pieces []Graded
}

// Graded is a piece in its sizes, each moved so that the same point of all lies at (0, 0),
// their grain along x.
type Graded struct {
	Name  string
	Point string // what lies at (0, 0), in words
	Sizes []Size
}

// Size is a piece in one size.
type Size struct {
	Name string // "alto: 41 1/4 x 22 3/8 in"
	Outline
}

// bound is that of all sizes.
func (g Graded) bound() orb.Bound {
	b := g.Sizes[0].Cut.Bound()
	for _, s := range g.Sizes[1:] {
		b = b.Union(s.Cut.Bound())
	}
	return b
}

// Drawing draws the sheet: pieces in the order given, in rows.
func (s Sizes) Drawing() Drawing {
	k := 1.0
	for _, p := range s.Pieces {
		b := p.bound()
		k = max(k, (b.Max[0]-b.Min[0])/pieceLong, (b.Max[1]-b.Min[1])/pieceWide)
	}
	k = math.Ceil(k)
	width := sheetWidth * k
	head := &column{x: margin * k, y: margin * k, width: width - 2*margin*k}
	head.add(RoleHeading, textHeading*k, s.Title)
	head.add(RoleNote, textNote*k, fmt.Sprintf("1 : %.0f · full line: cut, by the number of its size · dash and dot: "+
		"marked lines · cross: where the sizes meet, grain along the sheet", k))
	groups := []Group{{Items: head.items}}
	x, y, row := margin*k, head.y+4*k, 0.0
	for _, p := range s.Pieces {
		b := p.bound()
		w := max(b.Max[0]-b.Min[0], cellLeast*k)
		if x > margin*k && x+w > width-margin*k {
			x, y, row = margin*k, y+row+8*k, 0
		}
		items, height := p.cell(x, y, w, k)
		groups = append(groups, Group{Title: p.Name, Items: items})
		x, row = x+w+8*k, max(row, height)
	}
	return Drawing{
		Title: "Sizes: " + s.Title, Description: inPieces(len(s.Pieces)) + " in all sizes.",
		Width: width, Height: y + row + margin*k, Scale: k, Groups: groups,
	}
}

// cell draws one piece from its top left corner, with its sizes listed over it; it returns
// its height.
func (g Graded) cell(x, y, width, k float64) ([]Item, float64) {
	c := &column{x: x, y: y, width: width}
	c.add(RoleHeading, textNote*k, g.Name)
	for i, s := range g.Sizes {
		c.add(RoleNote, textDim*k, fmt.Sprintf("%d %s", i+1, s.Name))
	}
	c.add(RoleNote, textDim*k, "cross: "+g.Point)
	b := g.bound()
	top := c.y + 3*k
	origin := orb.Point{x - b.Min[0], top + b.Max[1]}
	items := c.items
	var rings []orb.Ring
	for _, s := range g.Sizes {
		o := s.onto(origin)
		rings = append(rings, o.Cut)
		items = append(items, Line{RolePiece, orb.LineString(o.Cut)})
		for _, l := range o.Inside {
			items = append(items, Line{RoleInside, l})
		}
	}
	for _, d := range []orb.Point{{2 * k, 0}, {0, 2 * k}} {
		items = append(items, Line{RoleMark, orb.LineString{
			{origin[0] - d[0], origin[1] - d[1]}, {origin[0] + d[0], origin[1] + d[1]}}})
	}
	size := textDim * k
	for i, at := range apart(rings, 2*size) {
		number := strconv.Itoa(i + 1)
		w := textWidth(number, size)/2 + size/4
		items = append(items,
			Shape{Role: RoleGround, Ring: Box(at[0]-w, at[1]-0.6*size, at[0]+w, at[1]+0.6*size)},
			Text{Role: RoleNote, At: orb.Point{at[0], at[1] + 0.35*size}, Anchor: Middle, Size: size, Body: number})
	}
	return items, top + b.Max[1] - b.Min[1] - y
}

// spots are how many places are tried for the number of an outline.
const spots = 90

// apart finds a place on each of some outlines for its number: where it is farthest from the
// next larger and the next smaller one, and clear of the numbers placed before it.
func apart(rings []orb.Ring, clear float64) []orb.Point {
	order := make([]int, len(rings))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(planar.Area(rings[a]), planar.Area(rings[b]))
	})
	places := make([]orb.Point, len(rings))
	var placed []orb.Point
	for n, i := range order {
		best := math.Inf(-1)
		for _, at := range spaced(rings[i], spots) {
			room := clear
			for _, d := range []int{-1, 1} {
				if n+d >= 0 && n+d < len(order) {
					room = min(room, planar.DistanceFrom(orb.LineString(rings[order[n+d]]), at))
				}
			}
			between := clear
			for _, p := range placed {
				between = min(between, planar.Distance(p, at))
			}
			if room+2*between > best {
				best, places[i] = room+2*between, at
			}
		}
		placed = append(placed, places[i])
	}
	return places
}

// spaced returns n points that are evenly spaced along a ring.
func spaced(ring orb.Ring, n int) []orb.Point {
	step := planar.Length(ring) / float64(n)
	var all []orb.Point
	next := step / 2
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		d := planar.Distance(a, b)
		for ; next <= d && d > 0; next += step {
			t := next / d
			all = append(all, orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})
		}
		next -= d
	}
	return all
}
