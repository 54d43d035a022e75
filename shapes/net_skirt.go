package shapes

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// NetSkirt is what layers of net need to know of the circle skirt that they are sewn
// onto. The zero value knows nothing: no seam is near, and every layer goes all round.
type NetSkirt struct {
	Gores       int
	FrontOnFold bool
	Opens       bool    // at the centre back
	Stop        float64 // how far below the waist that opening reaches, mm; 0: not known
}

// ErrNotOnSkirt says that a draft is no skirt that layers of net climb.
var ErrNotOnSkirt = errors.New("layers of net are sewn onto a circle skirt")

// OnSkirt returns the layers as sewn onto a skirt whose opening is closed so far below
// the waist, mm, or all the way with 0: the marks of each layer lie on seams that are
// near, and one that is sewn on above the stop of the opening is open there. It gives
// ErrNotOnSkirt for what is no circle skirt, and refuses one of other measures than the
// layers are reckoned for.
func (n NetLayers) OnSkirt(d Draft, closed float64) (NetLayers, error) {
	c, ok := circleOf(d)
	if !ok {
		return n, ErrNotOnSkirt
	}
	for _, m := range []struct {
		what           string
		layers, skirts float64
	}{{"waist", n.Waist, c.Waist}, {"length", n.SkirtLength, c.Length}} {
		if math.Abs(m.layers-m.skirts) > atSeam {
			return n, fmt.Errorf("it is reckoned for a skirt with a %s of %.1f mm, the skirt has %.1f mm\n"+
				"  hint: the same `waist`, `waist_ease` and length for both", m.what, m.layers, m.skirts)
		}
	}
	if math.Abs(n.SkirtFraction-c.Fraction) > roundingError {
		return n, fmt.Errorf("it is reckoned for %.4g of a circle, the skirt is %.4g\n  hint: the same `circle` for both", n.SkirtFraction, c.Fraction)
	}
	n.Skirt = NetSkirt{Gores: c.Gores, FrontOnFold: c.FrontOnFold, Opens: c.Opening}
	if !c.Opening {
		return n, nil
	}
	n.Skirt.Stop = closed
	if end := min(slit, (c.Length-c.HemRaise)/2); c.inOne() && (closed == 0 || closed > end) {
		n.Skirt.Stop = end
	}
	return n, nil
}

// circleOf returns the circle skirt that a draft is, with a train or without.
func circleOf(d Draft) (CircleSkirt, bool) {
	if t, ok := d.(Train); ok {
		d = t.Skirt
	}
	c, ok := d.(CircleSkirt)
	return c, ok
}

// crosses says whether a layer sewn on at a depth crosses the opening.
func (s NetSkirt) crosses(depth float64) bool { return s.Opens && depth < s.Stop }

// nearSeam is how far from a quarter a seam still takes its place, as a share of the
// girth: a third of what lies between two quarters, so that no two fall on one seam
// and none on a centre.
const nearSeam = 1.0 / 12

// marks returns the shares of the girth from centre back at which a layer is pinned:
// an eighth and three eighths of it on both sides, or seams that are near; with the
// names of those seams, "" where there is none.
func (s NetSkirt) marks() (shares [4]float64, seams [4]string) {
	shares = [4]float64{1.0 / 8, 3.0 / 8, 5.0 / 8, 7.0 / 8}
	if s.Gores < 1 {
		return shares, seams
	}
	list := places(s.Gores, s.FrontOnFold)
	for i := range 2 {
		// Of two that are as near the one behind is taken.
		seam := int(math.Ceil(shares[i]*float64(s.Gores) - 0.5 - roundingError))
		share := float64(seam) / float64(s.Gores)
		if math.Abs(share-shares[i]) > nearSeam+roundingError || seam < 1 || seam >= len(list) {
			continue
		}
		shares[i], shares[3-i] = share, 1-share
		name := list[seam-1].pieceName() + " to " + list[seam].pieceName()
		seams[i], seams[3-i] = name, name
	}
	return shares, seams
}

// markReach is half the length of a stroke over a seam line, mm: seen beside gathers.
const markReach = 10

// MarkSkirt draws the seam line of each layer on the pieces of the skirt that OnSkirt
// was given, and a stroke over it where the layer is pinned and no seam marks the place.
func (n NetLayers) MarkSkirt(pieces []Piece, d Draft) error {
	c, ok := circleOf(d)
	if !ok {
		return ErrNotOnSkirt
	}
	layers, err := n.plan()
	if err != nil {
		return err
	}
	list := places(c.Gores, c.FrontOnFold)
	for i := range pieces {
		s := c.onPiece(pieces[i], list[i])
		for _, l := range layers {
			pieces[i].Inside = append(pieces[i].Inside, s.at(l.Depth, chordError(c.Chord)))
			for k, q := range l.Quarters {
				if angle, ok := s.angle(q / l.Girth); ok && l.Seams[k] == "" {
					pieces[i].Inside = append(pieces[i].Inside, s.stroke(l.Depth, angle))
				}
			}
		}
	}
	return nil
}

// onSector is a piece of a circle skirt as it lies.
type onSector struct {
	centre   orb.Point
	waist    float64 // radius, mm
	from, to float64 // angles, the way round the body from the back on, rad
	start    float64 // share of the girth at the first of them
	round    float64 // angle of the whole girth, rad
}

// onPiece finds the circle of a piece. Its back lies upward.
func (c CircleSkirt) onPiece(p Piece, at place) onSector {
	waist, hem := c.Radii()
	s := onSector{waist: waist, start: float64(at.back) / float64(c.Gores), round: c.goreAngle(c.Gores)}
	if c.inOne() {
		rim := p.Edges[0].Line[0]
		s.centre, s.from, s.to = orb.Point{rim[0] + hem, rim[1]}, math.Pi, -math.Pi
		return s
	}
	back := p.Edges[2].Line // from the hem to the waist
	end, before := back[len(back)-1], back[len(back)-2]
	s.to = c.goreAngle(at.wide) / -2
	s.from = -s.to
	if p.OnFold {
		s.to = 0
	}
	run := math.Hypot(end[0]-before[0], end[1]-before[1])
	s.centre = orb.Point{end[0] + (end[0]-before[0])/run*waist, end[1] + (end[1]-before[1])/run*waist}
	return s
}

// at returns the line that lies so far below the waist.
func (s onSector) at(depth, chord float64) orb.LineString {
	return plane.Arc(s.centre, s.waist+depth, s.from, s.to, chord)
}

// angle returns where a share of the girth lies on the piece as drawn.
func (s onSector) angle(share float64) (rad float64, ok bool) {
	rad = s.from - (share-s.start)*s.round
	return rad, rad < s.from && rad > s.to
}

// stroke crosses the line of a depth.
func (s onSector) stroke(depth, angle float64) orb.LineString {
	sin, cos := math.Sincos(angle)
	var l orb.LineString
	for _, r := range []float64{max(s.waist, s.waist+depth-markReach), s.waist + depth + markReach} {
		l = append(l, orb.Point{s.centre[0] + r*cos, s.centre[1] + r*sin})
	}
	return l
}
