// Package paper brings pieces and markers to the table at full size: onto office sheets, a roll, and
// under a projector.
package paper

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// span is a stretch of a longer length, mm.
type span struct{ from, to float64 }

// spans cuts the stretch from a to b into as few as can be, of at most a length each;
// the first is shorter by what stands before it. Neighbours share an overlap.
func spans(a, b, most, before, overlap float64) []span {
	var list []span
	for room := most - before; ; room = most {
		if b-a <= room+1e-9 {
			return append(list, span{a, b})
		}
		list = append(list, span{a, a + room})
		a += room - overlap
	}
}

// joined returns the lines along which neighbours are joined: the middles of what
// they share.
func joined(list []span) []float64 {
	var at []float64
	for i := 1; i < len(list); i++ {
		at = append(at, (list[i-1].to+list[i].from)/2)
	}
	return at
}

// Crosses by which sheets are joined, mm.
const (
	crossReach = 5.0
	crossStep  = 200.0 // at most, from one to the next
	crossText  = 4.0
)

// joins draws the lines along which pages are joined, with crosses on them. Pages share
// what lies about a line, so that both show the same crosses; the crosses of a line
// bear its letter and are counted from its start.
func joins(along, across []span) []sheet.Item {
	whole := orb.Bound{Min: orb.Point{along[0].from, across[0].from},
		Max: orb.Point{along[len(along)-1].to, across[len(across)-1].to}}
	var items []sheet.Item
	line := 0
	draw := func(from, to orb.Point) {
		items = append(items, sheet.Line{Role: sheet.RoleJoin, Path: orb.LineString{from, to}})
		name := letter(line)
		line++
		length := math.Hypot(to[0]-from[0], to[1]-from[1])
		inset := math.Min(15, length/4)
		n := int(math.Ceil((length - 2*inset) / crossStep))
		for i := 0; i <= n; i++ {
			t := (inset + (length-2*inset)*float64(i)/float64(n)) / length
			at := orb.Point{from[0] + t*(to[0]-from[0]), from[1] + t*(to[1]-from[1])}
			items = append(items, cross(at)...)
			items = append(items, label(orb.Point{at[0] + 1.3, at[1] - crossText*0.75}, crossText,
				fmt.Sprintf("%s%d", name, i+1))...)
		}
	}
	for _, y := range joined(across) {
		draw(orb.Point{whole.Min[0], y}, orb.Point{whole.Max[0], y})
	}
	for _, x := range joined(along) {
		draw(orb.Point{x, whole.Min[1]}, orb.Point{x, whole.Max[1]})
	}
	return items
}

// letter is A to Z, then A2 and so on.
func letter(n int) string {
	name := string(rune('A' + n%26))
	if n >= 26 {
		name += fmt.Sprint(n/26+1) + "-"
	}
	return name
}

// cross draws a cross at a point.
func cross(at orb.Point) []sheet.Item {
	return []sheet.Item{
		sheet.Line{Role: sheet.RoleNotch,
			Path: orb.LineString{{at[0] - crossReach, at[1]}, {at[0] + crossReach, at[1]}}},
		sheet.Line{Role: sheet.RoleNotch,
			Path: orb.LineString{{at[0], at[1] - crossReach}, {at[0], at[1] + crossReach}}},
	}
}

// label writes words on a ground of their own, over the lines that run there; at is the
// left end of their middle.
func label(at orb.Point, size float64, words string) []sheet.Item {
	t := sheet.Text{Role: sheet.RoleNote, At: at, Size: size, Body: words}
	return []sheet.Item{
		sheet.Shape{Role: sheet.RoleGround, Ring: sheet.Box(at[0], at[1]-size*0.45, at[0]+t.Width(), at[1]+size*0.45)},
		t,
	}
}
