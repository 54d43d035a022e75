package sheet

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Pieces is a sheet of pieces, not laid on any cloth. Lengths are mm.
type Pieces struct {
	Title    string
	Unit     measure.Unit
	Notes    []string // lines under the title
	Remarks  []string // on the drafts, at the foot
	Cautions []string // below them
	Pieces   []Pattern
}

// Pattern is one piece as drafted: a piece on the fold is its half.
type Pattern struct {
	Name          string
	Facts         []string // what to do with it: "bridal satin: cut 2, mirrored"
	Along, Across float64  // finished size along and across the grain, as drawn
	Fold          orb.LineString
	Lit           []orb.LineString // seam lines that are shown among the others
	Outline

	// At full size.
	OneWay  bool     // the grain arrow has one head, towards the hem: the nap runs that way
	Matches []Match  // points that lie on the repeat, named by letters
	Squares []Square // test squares, of which the first that has room is drawn
}

// Paper measures of a sheet of pieces, mm.
const (
	sheetWidth = 330.0
	cellLeast  = 62.0  // width for the texts over a piece
	pieceLong  = 145.0 // two of the longest pieces stand beside each other
	pieceWide  = 110.0
	dimRoom    = 12.0 // beside and below a piece, for its dimensions
)

func (s Pieces) scale() float64 {
	k := 1.0
	for _, p := range s.Pieces {
		b := p.Cut.Bound()
		k = math.Max(k, math.Max((b.Max[0]-b.Min[0])/pieceLong, (b.Max[1]-b.Min[1])/pieceWide))
	}
	return math.Ceil(k)
}

// Drawing draws the sheet: pieces in the order given, in rows.
func (s Pieces) Drawing() Drawing {
	k := s.scale()
	width := sheetWidth * k
	head := &column{x: margin * k, y: margin * k, width: width - 2*margin*k}
	head.add(RoleHeading, textHeading*k, s.Title)
	head.add(RoleNote, textNote*k,
		fmt.Sprintf("1 : %.0f · full line: cut · dashed: seam · dash and dot: marked lines · double arrow: grain "+
			"line, along the warp · short strokes: notches · dimension lines: finished size", k))
	for _, n := range s.Notes {
		head.add(RoleNote, textNote*k, n)
	}
	groups := []Group{{Items: head.items}}
	x, y, row := margin*k, head.y+4*k, 0.0
	for i, p := range s.Pieces {
		b := p.Cut.Bound()
		w := math.Max(b.Max[0]-b.Min[0]+dimRoom*k, cellLeast*k)
		if x > margin*k && x+w > width-margin*k {
			x, y, row = margin*k, y+row+6*k, 0
		}
		items, height := p.cell(x, y, w, i, k, s.Unit)
		groups = append(groups, Group{Title: p.Name, Items: items})
		x, row = x+w+6*k, math.Max(row, height)
	}
	foot := &column{x: margin * k, y: y + row + 4*k, width: head.width}
	for _, r := range s.Remarks {
		foot.add(RoleNote, textNote*k, r)
	}
	for _, c := range s.Cautions {
		foot.add(RoleCaution, textDim*k, c)
	}
	groups = append(groups, Group{Items: foot.items})
	return Drawing{
		Title: "Pieces: " + s.Title, Description: inPieces(len(s.Pieces)) + " to cut, with cut and seam lines.",
		Width: width, Height: foot.y + margin*k, Scale: k, Groups: groups,
	}
}

// cell draws one piece with its texts above and its dimensions below and to the
// right, from its top left corner; it returns its height.
func (p Pattern) cell(x, y, width float64, tint int, k float64, unit measure.Unit) ([]Item, float64) {
	c := &column{x: x, y: y, width: width}
	c.add(RoleHeading, textNote*k, p.Name)
	for _, f := range p.Facts {
		c.add(RoleNote, textDim*k, f)
	}
	b := p.Cut.Bound()
	top := c.y + 2*k
	origin := orb.Point{x - b.Min[0], top + b.Max[1]}
	o := p.onto(origin)
	items := append(c.items, o.items(tint, k)...)
	for _, l := range (Outline{Inside: p.Lit}).onto(origin).Inside {
		items = append(items, Line{RoleLit, l})
	}
	var fold orb.LineString
	if len(p.Fold) > 1 {
		fold = Outline{Inside: []orb.LineString{p.Fold}}.onto(origin).Inside[0]
	}
	o.Grain = o.roomyGrain(foldLane(fold, o, k), k)
	items = append(items, grainItems(o.Grain, k, true)...)
	if fold != nil {
		o.clear = append(o.clear, o.Grain)
		items = append(items, foldSign(fold, o, foldDepth*k, "place on fold", k)...)
	}
	items = append(items, o.names(grounds(items), k)...)
	bottom := top + b.Max[1] - b.Min[1]
	items = append(items, dimensions(o, p.Along, p.Across, k, unit)...)
	return items, bottom + dimRoom*k - y
}

// grounds are the edges of all that is drawn: lines, and what texts take up.
func grounds(items []Item) []orb.LineString {
	var lines []orb.LineString
	for _, it := range items {
		switch it := it.(type) {
		case Line:
			lines = append(lines, it.Path)
		case Shape:
			lines = append(lines, orb.LineString(it.Ring))
		case Text:
			lines = append(lines, around(it))
		}
	}
	return lines
}

// foldLane returns what a grain arrow keeps clear of at a fold: the bracket, the
// middle and the upper side of the words along it.
func foldLane(fold orb.LineString, o Outline, k float64) []orb.LineString {
	if fold == nil {
		return nil
	}
	var lane []orb.LineString
	for _, depth := range []float64{foldDepth, foldDepth + 0.8*textDim, foldDepth + 1.6*textDim} {
		for _, it := range foldSign(fold, o, depth*k, "", k) {
			if line, ok := it.(Line); ok {
				lane = append(lane, line.Path)
				break // the bracket stands first
			}
		}
	}
	return lane
}

// dimensions draws the finished size below and to the right of a piece, between
// the extremes of its seam line. Where the piece is too low for the text at its
// right, both sizes stand below: along by across.
func dimensions(o Outline, along, across, k float64, unit measure.Unit) []Item {
	b, cut := o.finished().Bound(), o.Cut.Bound()
	size := textDim * k
	y, x := cut.Max[1]+3.5*k, cut.Max[0]+3.5*k
	items := arrow(RoleDim, orb.Point{b.Min[0], y}, orb.Point{b.Max[0], y}, 1.8*k, true)
	items = append(items, arrow(RoleDim, orb.Point{x, b.Min[1]}, orb.Point{x, b.Max[1]}, 1.8*k, true)...)
	below, beside := measure.Both(along, unit), measure.Both(across, unit)
	if textWidth(beside, size) > cut.Max[1]-cut.Min[1] {
		below, beside = fmt.Sprintf("%s by %s (%s by %s)", measure.Format(along, unit), measure.Format(across, unit),
			measure.Format(along, unit.Other()), measure.Format(across, unit.Other())), ""
	}
	items = append(items, Text{Role: RoleNote, At: orb.Point{cut.Min[0], y + 3.2*k}, Size: size, Body: below})
	if beside == "" {
		return items
	}
	return append(items, Text{Role: RoleNote, At: orb.Point{x + 3.2*k, (b.Min[1] + b.Max[1]) / 2}, Anchor: Middle,
		Size: size, Turn: 90, Body: beside})
}
