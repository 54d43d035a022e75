// Package cutter makes the line work that cutting machines follow, of pieces and of
// markers: what is cut apart from what is marked. It knows outlines and no gowns; the
// formats are those of the drawing's room.
package cutter

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// Piece is an outline to cut, drawn once however often it is cut. Lengths are mm.
type Piece struct {
	Name  string
	Words []string // lines that stand in it
	// Fold is the edge that lies on a fold, two points; empty: none. The outline is then
	// the half, with the fold level.
	Fold    orb.LineString
	OneWay  bool   // the grain line has one head, for the nap runs that way
	Longest string // name of a copy, for which room is kept beside the words; "": none
	sheet.Outline
}

// A notch is snipped from the cut line inwards, and never as far as the seam line
// (common practice: 6 mm, 1/4 in, and half the allowance at the most). Where there is no
// allowance it is a mark of 2 mm.
const notchLongest, notchBare = 6.0, 2.0

// part draws the piece as a part.
func (p Piece) part() sheet.StrokePart {
	part := sheet.StrokePart{Name: p.Name}
	add := func(layer sheet.Layer, line orb.LineString) {
		if len(line) > 1 {
			part.Strokes = append(part.Strokes, sheet.Stroke{Layer: layer, Path: line})
		}
	}
	cut, fold := openOn(p.Cut, p.Fold)
	add(sheet.LayerCut, cut)
	add(sheet.LayerFold, fold)
	if p.sewnInside() {
		seam, _ := openOn(p.Seam, p.Fold)
		add(sheet.LayerSew, seam)
	}
	for _, n := range p.Notches {
		add(sheet.LayerNotch, p.snip(n))
	}
	for _, l := range p.Inside {
		add(sheet.LayerInside, l)
	}
	lines := p.Words
	if p.Longest != "" {
		lines = append(lines[:len(lines):len(lines)], p.Longest)
	}
	label := p.Labelled(lines)
	if last := len(label.Texts) - 1; p.Longest != "" {
		at := label.Texts[last]
		part.Copy, label.Texts = &at, label.Texts[:last]
	}
	part.Texts = append(label.Texts, label.Names...)
	add(sheet.LayerGrain, label.Grain)
	for _, l := range heads(label.Grain, p.OneWay) {
		add(sheet.LayerWords, l)
	}
	return part
}

// sewnInside says whether the seam line is a line of its own. Without allowances it is the cut
// line, but for what its corners were rounded by.
func (p Piece) sewnInside() bool {
	off := func(a, b orb.Ring) bool {
		return slices.ContainsFunc(a, func(v orb.Point) bool { return planar.DistanceFrom(orb.LineString(b), v) > rounded })
	}
	return len(p.Seam) > 0 && (off(p.Seam, p.Cut) || off(p.Cut, p.Seam))
}

// rounded is the farthest that a seam line lies from its cut line by rounding to the lattice, mm,
// with room.
const rounded = 4 * plane.Lattice

// snip is the line of a notch.
func (p Piece) snip(n sheet.Notch) orb.LineString {
	reach := p.Reach(n)
	deep := math.Min(notchLongest, reach/2)
	if reach == 0 {
		deep = notchBare
	}
	at := func(far float64) orb.Point {
		return orb.Point{n.At[0] + far*n.Outward[0], n.At[1] + far*n.Outward[1]}
	}
	return orb.LineString{at(reach), at(reach - deep)}
}

// onLevel is how far from the level of the fold a point on it may lie, mm: what a step
// onto the lattice moves it, and what rounding does.
const onLevel = plane.Lattice

// openOn opens a ring where it runs along the fold and returns the rest and that edge;
// without a fold the ring itself. Of several edges on its level the longest is the fold.
func openOn(ring orb.Ring, fold orb.LineString) (rest, edge orb.LineString) {
	at, length := -1, 0.0
	for i := 1; i < len(ring) && len(fold) == 2; i++ {
		a, b := ring[i-1], ring[i]
		if math.Abs(a[1]-fold[0][1]) <= onLevel && math.Abs(b[1]-fold[0][1]) <= onLevel &&
			math.Abs(b[0]-a[0]) > length {
			at, length = i, math.Abs(b[0]-a[0])
		}
	}
	if at < 0 {
		return orb.LineString(ring), nil
	}
	open := ring[:len(ring)-1]
	for i := range open {
		rest = append(rest, open[(at+i)%len(open)])
	}
	return rest, orb.LineString{ring[at-1], ring[at]}
}

// headLength and headWidth are those of the heads of a grain line, mm.
const headLength, headWidth = 10.0, 3.0

// heads are the arrow heads of a grain line, as open angles: at its end, and unless the nap
// runs one way at its start.
func heads(grain orb.LineString, oneWay bool) (lines []orb.LineString) {
	if len(grain) != 2 {
		return nil
	}
	a, b := grain[0], grain[1]
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if length == 0 {
		return nil
	}
	size := math.Min(1, length/(3*headLength))
	ux, uy := size*(b[0]-a[0])/length, size*(b[1]-a[1])/length
	head := func(tip orb.Point, back float64) orb.LineString {
		x, y := tip[0]-back*headLength*ux, tip[1]-back*headLength*uy
		return orb.LineString{{x - headWidth*uy, y + headWidth*ux}, tip, {x + headWidth*uy, y - headWidth*ux}}
	}
	lines = append(lines, head(b, 1))
	if !oneWay {
		lines = append(lines, head(a, -1))
	}
	return lines
}
