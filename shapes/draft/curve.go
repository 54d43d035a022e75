package draft

import (
	"math"

	"github.com/paulmach/orb"
)

// leg is a stretch of a curve on which the tangent turns evenly: a circular arc,
// or a straight line where it does not turn.
type leg struct {
	length   float64 // mm
	from, to float64 // angle of the tangent to the x axis, rad
}

// curve is a chain of legs, smooth where each starts at the angle of the last.
type curve []leg

// gain returns how far the curve rises, mm.
func (c curve) gain() float64 {
	sum := 0.0
	for _, l := range c {
		_, rise := l.at(l.length)
		sum += rise
	}
	return sum
}

// at returns the way along x and y from the leg's start to the point at distance
// s along it: the integrals of cos and sin of an angle that grows evenly, which
// are chords of length s sinc(half the turn) at the mean angle.
func (l leg) at(s float64) (x, y float64) {
	if l.length == 0 {
		return 0, 0
	}
	turn := (l.to - l.from) * s / l.length
	sin, cos := math.Sincos(l.from + turn/2)
	chord := s * sinc(turn/2)
	return chord * cos, chord * sin
}

// upTo returns the curve's first part, of the given length or its own.
func (c curve) upTo(length float64) curve {
	var out curve
	for _, l := range c {
		if l.length > 0 && length > 0 {
			part := min(l.length, length)
			out = append(out, leg{part, l.from, l.from + (l.to-l.from)*part/l.length})
		}
		length -= l.length
	}
	return out
}

// line samples the curve from x = 0 and the given y within a chord error.
func (c curve) line(y, chordError float64) orb.LineString {
	p := orb.Point{0, y}
	line := orb.LineString{p}
	for _, l := range c {
		n := l.steps(chordError)
		for i := 1; i <= n; i++ {
			dx, dy := l.at(l.length * float64(i) / float64(n))
			line = append(line, orb.Point{p[0] + dx, p[1] + dy})
		}
		p = line[len(line)-1]
	}
	return line
}

// steps is the number of chords that keeps the sagitta within the error. The
// sagitta of a chord of an arc that turns by t over length s is at most s t / 8.
func (l leg) steps(chordError float64) int {
	turn := math.Abs(l.to - l.from)
	return max(1, int(math.Ceil(math.Sqrt(l.length*turn/(8*chordError)))))
}

// sinc is sin(x)/x.
func sinc(x float64) float64 {
	if math.Abs(x) < 1e-4 {
		return 1 - x*x/6 // the next term is below 1e-18
	}
	return math.Sin(x) / x
}

// firstRoot returns the least x in the range at which f rises through 0, found
// in steps of 1/160 of the range and halved down to the last bit.
func firstRoot(f func(float64) float64, low, high float64) (float64, bool) {
	const steps = 160
	at := func(i int) float64 { return low + (high-low)*float64(i)/steps }
	before := f(low)
	if before == 0 {
		return low, true
	}
	for i := range steps {
		here := f(at(i + 1))
		if before <= 0 && here >= 0 {
			return bisect(f, at(i), at(i+1), 200), true
		}
		before = here
	}
	return 0, false
}

// bisect returns where f rises through 0 between a and b, the range halved so many
// times or down to the last bit.
func bisect(f func(float64) float64, a, b float64, times int) float64 {
	for range times {
		mid := a + (b-a)/2
		if mid == a || mid == b {
			break
		}
		if f(mid) < 0 {
			a = mid
		} else {
			b = mid
		}
	}
	return b
}
