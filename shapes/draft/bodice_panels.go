package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Names of what panels add to a block.
const (
	blockSideFront = "bodice side front"
	blockSideBack  = "bodice side back"
	panelSeam      = "panel seam"
)

// panelShares are how far along an edge a seam of panels begins: nearer to the neck on a
// shoulder, half way up an armhole (common practice).
var panelShares = map[DartPlace]float64{DartAtShoulder: 0.6, DartAtArmhole: 0.5}

// mostRounded is how far from its point the corner of a side panel is rounded, mm.
const mostRounded = 50

// twoPanels is a half cut in two from the waist over its point to shoulder or armhole. What
// the darts took up is cut away between the panels: the centre panel goes smoothly over the
// point, the side panel turns there by all of it, rounded.
type twoPanels struct {
	centre, side outlinedPiece
	eased        float64 // how much longer the seam of the centre panel is, mm
	point        float64 // from the waist along it to the point, mm
	length       float64 // of it, mm
}

// panelled cuts a half about a point.
func (b BodiceBlock) panelled(h blockHalf, at orb.Point, bust, seam float64) (twoPanels, error) {
	flat, err := h.cone(at, bust, seam, 0, b.Chord)
	if err != nil {
		return twoPanels{}, err
	}
	c, err := h.cone(at, bust, seam, flat.waist, b.Chord)
	if err != nil {
		return twoPanels{}, err
	}
	top := c.part(string(b.PanelsFrom))
	share := panelShares[b.PanelsFrom] * plane.Length(c.parts[top].line)
	low, high := splitAt(c.parts[top].line, share)
	_, out := shapesEdge(c.parts[top].line).At(share)
	inner := c.parts[c.part(coneInner)].line
	foot := inner[len(inner)-1]
	slash := c.slash(foot, high[0], out, b.Chord)
	if apart := clearance(slash, c.parts[c.part(coneNeck)].line); apart < leastDart {
		return twoPanels{}, say.Errorf("the seam of the panels comes within %.1f of the neck, needs %v", say.MM(apart),
			say.MM(leastDart)).Hint("a smaller `neck_depth` or `neck_width`, or panels from the armhole")
	}
	sewn := joinLines(orb.LineString{foot}, slash)
	out1 := twoPanels{point: planar.Distance(foot, at), length: plane.Length(sewn)}
	lay := func(o *outlinedPiece, turn float64, name string, line orb.LineString) {
		o.lines = append(o.lines, namedLine{name, turnLine(line, at, turn)})
	}
	whole := c.whole()
	for _, name := range []string{coneCentre, coneInner} {
		lay(&out1.centre, whole, coneEdge(name), c.parts[c.part(name)].line)
	}
	lay(&out1.centre, whole, panelSeam, sewn)
	lay(&out1.centre, whole, c.parts[top].name, high)
	for _, l := range c.parts[top+1 : c.part(coneCentre)] {
		lay(&out1.centre, whole, l.name, l.line)
	}
	out1.centre.levelCentre()
	turn := c.waist + c.bust/2 // its grain lies between that of its lower and that of its upper half
	for _, l := range c.parts[:top] {
		lay(&out1.side, turn, l.name, l.line)
	}
	lay(&out1.side, turn, c.parts[top].name, low)
	// Beside the side panel the slash is that of the centre panel, as far as they are turned.
	side := rounded(joinLines(orb.LineString{c.parts[0].line[0]}, slash), out1.point)
	lay(&out1.side, turn, panelSeam, reversed(side))
	out1.eased = out1.length - plane.Length(side)
	return out1, nil
}

// slash is the seam of panels from the point of a cone up to its edge: it goes on from below
// without a corner and meets the edge squarely. It is drawn beside the side panel.
func (c cone) slash(foot, top, out orb.Point, chord float64) orb.LineString {
	start := planar.Distance(foot, c.at)
	k := 0.4 * planar.Distance(c.at, top)
	up := orb.Point{(c.at[0] - foot[0]) / start, (c.at[1] - foot[1]) / start}
	return chain(chord, cubic{c.at, {c.at[0] + k*up[0], c.at[1] + k*up[1]}, {top[0] - k*out[0], top[1] - k*out[1]}, top})
}

// rounded rounds the corner of a line at a distance from its start.
func rounded(line orb.LineString, at float64) orb.LineString {
	t := min(mostRounded, 0.4*at, 0.4*(plane.Length(line)-at))
	before, rest := splitAt(line, at-t)
	_, after := splitAt(rest, 2*t)
	way := func(a, b orb.Point) orb.Point {
		l := planar.Distance(a, b)
		return orb.Point{(b[0] - a[0]) / l, (b[1] - a[1]) / l}
	}
	a, b := before[len(before)-1], after[0]
	into, from := way(before[len(before)-2], a), way(b, after[1])
	h := 2. / 3 * t // of a parabola whose tangents meet in the corner
	return joinLines(before, chain(0.05, cubic{a, {a[0] + h*into[0], a[1] + h*into[1]},
		{b[0] - h*from[0], b[1] - h*from[1]}, b}), after)
}

// panels cuts front and back in panels.
func (b BodiceBlock) panels(front, back blockHalf) (cutBlock, error) {
	seam := planar.Distance(back.side, back.underarm)
	var c cutBlock
	for _, h := range []struct {
		name, main, side string
		half             blockHalf
		at               orb.Point
		bust             float64
	}{{"front", blockFront, blockSideFront, front, b.bustPoint(), b.BustDart},
		{"back", blockBack, blockSideBack, back, back.waistDart.apex, 0}} {
		cut, err := b.panelled(h.half, h.at, h.bust, seam)
		if err != nil {
			return cutBlock{}, say.Errorf("panels of the %s: %w", h.name, err)
		}
		for _, one := range []struct {
			name string
			outlinedPiece
		}{{h.main, cut.centre}, {h.side, cut.side}} {
			p, err := b.piece(one.name, one.outlinedPiece)
			if err != nil {
				return cutBlock{}, err
			}
			c.pieces = append(c.pieces, p)
		}
		j := seamOf(h.name+" "+panelSeam, 2, along(h.main, panelSeam), against(h.side, panelSeam))
		if !inFront(h.main) {
			j = seamOf(h.name+" "+panelSeam, 2, against(h.main, panelSeam), along(h.side, panelSeam))
		}
		j.A.Treatment.Ease = cut.eased
		j.Notches = panelNotches(cut, inFront(h.main))
		c.panels = append(c.panels, j)
	}
	from := string(b.PanelsFrom)
	both := map[string][]shapes.SewnEdge{ // from the front underarm over the shoulder
		from: {along(blockSideFront, from), along(blockFront, from), along(blockBack, from), along(blockSideBack, from)},
	}
	if b.PanelsFrom == DartAtArmhole {
		if !b.off() {
			both["shoulder"] = []shapes.SewnEdge{along(blockFront, "shoulder"), along(blockBack, "shoulder")}
		}
	} else {
		both["armhole"] = []shapes.SewnEdge{along(blockSideFront, "armhole"), along(blockSideBack, "armhole")}
	}
	c.armhole = both["armhole"]
	c.waist = []shapes.SewnEdge{against(blockBack, "waist"), against(blockSideBack, "waist"),
		against(blockSideFront, "waist"), against(blockFront, "waist")}
	for _, e := range both["shoulder"] { // in from the tip on both sides
		if inFront(e.Piece) {
			c.shoulder[0] = append(c.shoulder[0], e)
			continue
		}
		e.Reversed = true
		c.shoulder[1] = append([]shapes.SewnEdge{e}, c.shoulder[1]...)
	}
	return c, nil
}

// panelNotches are the notches of a seam of panels, from the waist, mm: in front one on each
// side of the bust point, behind a pair (common practice).
func panelNotches(c twoPanels, front bool) []float64 {
	if !front {
		return []float64{c.length / 2, c.length/2 + notchPair}
	}
	off := math.Min(mostRounded, 0.4*c.point)
	return []float64{c.point - off, c.point + off}
}
