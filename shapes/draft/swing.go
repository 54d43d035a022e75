package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// swing is a curved edge about a centre: its radius is middle at the middle line
// and runs over, as half a wave of the cosine, to side at the angle span on either
// hand, and stays there. It leaves both without a kink, square to the radii:
//
//	        .--- side, from the span on
//	      .'
//	     (
//	- - -)- - - middle line      centre to the left
//	     (
//	      '.
//	        '---
//
// With middle and side alike it is an arc.
type swing struct {
	middle, side float64 // radii, mm
	span         float64 // rad, above 0 where the radii differ
}

// evenly is a swing that is an arc.
func evenly(radius float64) swing { return swing{middle: radius, side: radius} }

// radius returns the radius at an angle from the middle line, mm.
func (s swing) radius(angle float64) float64 {
	if s.middle == s.side {
		return s.side
	}
	turn := math.Pi * min(math.Abs(angle)/s.span, 1)
	return s.side + (s.middle-s.side)*(1+math.Cos(turn))/2
}

// line samples the edge about a centre from one angle to another within a chord
// error; zero is the angle of the middle line.
//
// The sagitta of a chord over an angle h is at most h^2/8 of the greatest second
// derivative of the point by the angle, and that is no more than the radius +
// 2 radius' + radius”.
func (s swing) line(centre orb.Point, from, to, zero, chord float64) orb.LineString {
	if s.middle == s.side {
		return plane.Arc(centre, s.side, from, to, chord)
	}
	wave := math.Pi / s.span
	bend := max(s.middle, s.side) + math.Abs(s.middle-s.side)*(wave+wave*wave/2)
	n := max(1, int(math.Ceil(math.Abs(to-from)*math.Sqrt(bend/(8*chord)))))
	line := make(orb.LineString, n+1)
	for i := range line {
		angle := from + (to-from)*float64(i)/float64(n)
		if i == n {
			angle = to
		}
		sin, cos := math.Sincos(angle)
		r := s.radius(angle - zero)
		line[i] = orb.Point{centre[0] + r*cos, centre[1] + r*sin}
	}
	return line
}

// length returns the length of the edge from span to span on either hand, mm, by
// the trapezium rule on 32 stretches of a half: of an integrand that is even at
// both ends, as here, it is exact to any number of digits that matter.
func (s swing) length() float64 {
	const n = 32
	wave, sum := math.Pi/s.span, 0.0
	for i := range n + 1 {
		angle := s.span * float64(i) / n
		slope := (s.side - s.middle) / 2 * wave * math.Sin(wave*angle)
		part := math.Hypot(s.radius(angle), slope)
		if i == 0 || i == n {
			part /= 2
		}
		sum += part
	}
	return 2 * sum * s.span / n
}
