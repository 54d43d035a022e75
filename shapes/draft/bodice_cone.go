package draft

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// cone is a half of a block with all its darts closed: flat but for one point, that of the
// bust in front, of the shoulder blade behind, about which the cloth is short of a whole turn
// by what the darts take up. Cut from any place of its outline to that point, it opens there
// by so much and lies flat: to move a dart is to cut elsewhere. Nothing is stretched: every
// edge keeps its length, the cloth its area, whatever is cut.
//
//	neck ____ shoulder          neck ____  _ shoulder
//	    |    \                      |    \/ \
//	    |     ) armhole             |     \  ) armhole       what the waist and the side
//	    |  .  |           ->        |  .   \  |              took up opens in the shoulder
//	    |     < bust dart           |         |
//	    |__/\_|                     |_________|
//
// Its lines follow each other from the foot of the waist dart outward, round, and back to it,
// each turned about the point so that it goes on where the last one ends.
type cone struct {
	at          orb.Point
	waist, bust float64 // taken up by the darts there, rad
	parts       []namedLine
}

// Names of the lines of a cone.
const (
	coneWaist, coneSide, coneArmhole, coneShoulder, coneNeck, coneCentre = "waist", "side seam", "armhole",
		"shoulder", "neck", "centre"
	coneInner = "waist, to the centre" // of the waist, from the centre to its dart
)

// turnAbout turns a point about another by an angle, rad.
func turnAbout(v, about orb.Point, angle float64) orb.Point {
	return turned(sub2(v, about), angle, about)
}

// turnLine turns a line.
func turnLine(line orb.LineString, about orb.Point, angle float64) orb.LineString {
	out := make(orb.LineString, len(line))
	for i, v := range line {
		out[i] = turnAbout(v, about, angle)
	}
	return out
}

// closedDart is the angle of a dart so wide whose mouth lies at a distance from its point.
func closedDart(width, distance float64) float64 { return 2 * math.Atan2(width/2, distance) }

// cone closes the darts of a half about a point. opens is what the waist dart will take up,
// rad, so that it opens with its middle below the point. The side seam comes to be one
// straight line of its finished length, the waist one smooth curve, square to the centre and
// to the side seam.
func (h blockHalf) cone(at orb.Point, bust, seam, opens, chord float64) (cone, error) {
	c := cone{at: at}
	level := h.side[0]
	if h.waistDart.width > 0 {
		c.waist = closedDart(h.waistDart.width, level-at[0])
	}
	if bust > 0 {
		away := planar.DistanceFromSegment(h.side, h.underarm, at)
		c.bust = closedDart(bust, away)
	}
	whole := c.waist + c.bust
	under := turnAbout(h.underarm, at, -whole)
	end, err := h.coneSideEnd(turnAbout(h.side, at, -c.waist), under, h.side[1]-h.waistDart.width, seam)
	if err != nil {
		return cone{}, err
	}
	curve := h.coneWaist(end, under)
	down := func(t float64) float64 {
		v := curve.at(t)
		return math.Atan2(v[1]-at[1], v[0]-at[0]) + opens/2
	}
	foot := bisect(down, 0, 1, 60)
	if opens > 0 && !(foot > 0.02 && foot < 0.98) {
		return cone{}, say.Errorf("the waist dart does not fit into a waist of %.1f", say.MM(h.side[1])).
			Hint("more waist ease; or measure back length and bust depth again")
	}
	inner := sampled(curve.at, 0, foot, chord)
	add := func(name string, line orb.LineString, turn float64) {
		c.parts = append(c.parts, namedLine{name, turnLine(line, at, turn)})
	}
	add(coneWaist, sampled(curve.at, foot, 1, chord), 0)
	add(coneSide, orb.LineString{end, under}, 0)
	add(coneArmhole, h.armholeLine(chord), -whole)
	if h.off == 0 {
		add(coneShoulder, orb.LineString{h.tip, h.neckPoint}, -whole)
	}
	add(coneNeck, h.neckLine(chord), -whole)
	add(coneCentre, orb.LineString{h.centreNeck, h.centreWaist}, -whole)
	add(coneInner, inner, -whole)
	return c, nil
}

// coneWaist is the waist with its dart closed, from the centre to the side, which runs on up
// to the underarm.
func (h blockHalf) coneWaist(end, under orb.Point) cubic {
	up := planar.Distance(end, under)
	along := orb.Point{(under[1] - end[1]) / up, (end[0] - under[0]) / up} // square to the side seam, outward
	start := h.centreWaist
	k := planar.Distance(start, end) / 3
	return cubic{start, {start[0], start[1] + k}, {end[0] - k*along[0], end[1] - k*along[1]}, end}
}

// coneSideEnd finds where the side seam ends: so that waist and side seam have their finished
// lengths, by Newton's method from a first guess.
func (h blockHalf) coneSideEnd(guess, under orb.Point, waist, seam float64) (orb.Point, error) {
	off := func(v orb.Point) orb.Point {
		return orb.Point{plane.Length(sampled(h.coneWaist(v, under).at, 0, 1, 0.001)) - waist,
			planar.Distance(v, under) - seam}
	}
	v := guess
	const step, exact = 0.01, 1e-4 // mm
	for range 30 {
		f := off(v)
		if math.Hypot(f[0], f[1]) < exact {
			return v, nil
		}
		fx, fy := off(orb.Point{v[0] + step, v[1]}), off(orb.Point{v[0], v[1] + step})
		a, b := (fx[0]-f[0])/step, (fy[0]-f[0])/step
		c, d := (fx[1]-f[1])/step, (fy[1]-f[1])/step
		det := a*d - b*c
		if math.Abs(det) < 1e-9 {
			break
		}
		v = orb.Point{v[0] - (d*f[0]-b*f[1])/det, v[1] - (a*f[1]-c*f[0])/det}
	}
	return v, say.Errorf("a waist of %.1f and a side seam of %.1f do not meet once the darts are closed", say.MM(waist),
		say.MM(seam)).Hint("check waist, bust depth and the width of the bust dart")
}

// whole is what the darts take up in all, rad.
func (c cone) whole() float64 { return c.waist + c.bust }

// part returns the index of a line.
func (c cone) part(name string) int {
	return slices.IndexFunc(c.parts, func(l namedLine) bool { return l.name == name })
}
