package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// sleeveFan is a plain sleeve slashed from the hem up to the cap and spread, the slashes
// hinged at the cap, as close as one likes:
//
//	   .--""--.                  .---""---.
//	.-'  |  |  '-.            .-'  /    \  '-.     the cap keeps its length and bends
//	|    |  |    |    --->   /    /      \    \    underarm seams keep theirs
//	|____|__|____|          '-._ /        \ _.-'   the hem grows
//	                            '----------'
//
// The strip as far as y from the crown's middle is turned by y turn. Where the plain
// sleeve is d long below the cap, its hem grows from dy to dy + d turn dy, so that with
// d on the average Length less half the cap,
//
//	hem = bicep (1 + turn (length - height/2)),  area more by turn/2 times the integral of d^2.
//
// Slashing and spreading is how dressmakers widen a pattern (common practice); the law is ours.
type sleeveFan struct {
	turn   float64 // rad per mm across
	length float64 // from the crown of the outer layer, mm
	height float64 // of the cap, mm
}

// fan returns how the sleeve is fanned out.
func (s Sleeve) fan(c sleeveCap) sleeveFan {
	f := sleeveFan{length: s.Length, height: c.height}
	if s.Style == BishopSleeve {
		f.length += s.Puff
	}
	f.turn = (s.spreadHem() - s.Bicep) / (s.Bicep * (f.length - c.height/2))
	return f
}

// spreadHem is the girth of a fanned lower edge, mm.
func (s Sleeve) spreadHem() float64 {
	if s.Style == BishopSleeve {
		return s.Fullness * s.Bicep
	}
	return s.Hem
}

// mostFanned is how far a sleeve may be fanned out in all, rad: beyond half a circle its
// seams run up beside the cap.
const mostFanned = math.Pi

func (s Sleeve) checkFan() error {
	if hem := s.spreadHem(); hem < s.Bicep {
		return say.Errorf("hem of %.1f is narrower than the bicep of %.1f, which it is fanned out from", say.MM(hem),
			say.MM(s.Bicep)).
			Hint("a wider hem, or a straight sleeve")
	}
	c, err := s.cap()
	if err != nil {
		return err
	}
	f := s.fan(c)
	if f.length <= c.height {
		return nil // refused for its underarm seam
	}
	if angle := f.turn * s.Bicep; angle > mostFanned {
		most := s.Bicep + mostFanned*(f.length-c.height/2)
		return say.Errorf("a lower edge of %.1f fans the sleeve out by %.0f degrees, the most is %.0f", say.MM(s.spreadHem()),
			angle*180/math.Pi, mostFanned*180/math.Pi).
			Hint("a lower edge of at most %.1f, or a longer sleeve", say.MM(most))
	}
	return nil
}

// fanSteps are the stretches of a half in which its turn is taken as that in their middle:
// of less than a millimetre, so that a curve of 20 mm radius strays by less than 0.01 mm.
const fanSteps = 256

// half is the curves of a half from the crown outward, by the parameter of its cap.
func (f sleeveFan) half(width, raise float64) (cap, hem func(t float64) orb.Point) {
	plain := capHalf(f.height, width)
	turned := func(from, to orb.Point) orb.Point {
		sin, cos := math.Sincos(f.turn * (from[1] + to[1]) / 2)
		d := sub2(to, from)
		return orb.Point{d[0]*cos - d[1]*sin, d[0]*sin + d[1]*cos}
	}
	var start [fanSteps + 1]orb.Point
	for i := range fanSteps {
		by := turned(plain.at(float64(i)/fanSteps), plain.at(float64(i+1)/fanSteps))
		start[i+1] = orb.Point{start[i][0] + by[0], start[i][1] + by[1]}
	}
	cap = func(t float64) orb.Point {
		i := min(int(t*fanSteps), fanSteps)
		by := turned(plain.at(float64(i)/fanSteps), plain.at(t))
		return orb.Point{start[i][0] + by[0], start[i][1] + by[1]}
	}
	hem = func(t float64) orb.Point {
		at, p := cap(t), plain.at(t)
		sin, cos := math.Sincos(f.turn * p[1])
		d := f.length - raise - p[0]
		return orb.Point{at[0] + d*cos, at[1] + d*sin}
	}
	return cap, hem
}

// cap returns a half of the cap from the crown outward.
func (f sleeveFan) cap(width, chord float64) orb.LineString {
	cap, _ := f.half(width, 0)
	return sampled(cap, 0, 1, chord)
}

// hem returns the lower edge from the front to the back seam.
func (f sleeveFan) hem(c sleeveCap, raise, chord float64) orb.LineString {
	_, front := f.half(c.front, raise)
	_, back := f.half(c.back, raise)
	return append(plane.MirrorLine(sampled(front, 0, 1, chord), 0), sampled(back, 0, 1, chord)[1:]...)
}
