package draft

import (
	"math"

	"github.com/paulmach/orb/planar"

	"yardlay/shapes/say"
)

// fit returns the skirt as it can be drawn so that it is nowhere tighter than what
// it goes over: as asked for, or with its flank through the high hip, or with a
// flare that bends out below the hip, or both. It says, too, where the skirt asked
// for would have been too tight.
func (g GoredSkirt) fit() (GoredSkirt, shortfall, error) {
	asked, tight, err := g.tightest()
	if err != nil || !tight {
		return g, shortfall{}, err
	}
	least, best := asked, GoredSkirt{}
	for _, try := range g.otherwise() {
		short, tight, tryErr := try.tightest()
		switch {
		case tryErr != nil:
			err = tryErr
		case !tight && !try.waves():
			if try = try.straightened(); best.Gores == 0 || try.lean > best.lean {
				best = try
			}
			if try.bend == 0 {
				return best, asked, nil
			}
		case short.needs-short.girth < least.needs-least.girth:
			least = short
		}
	}
	switch {
	case best.Gores > 0:
		return best, asked, nil
	case err != nil: // what would fit cannot be drawn
		return GoredSkirt{}, shortfall{}, err
	}
	return GoredSkirt{}, shortfall{}, say.Errorf("the skirt goes %.1f round at %.1f below the waist, less than %v",
		say.MM(least.girth), say.MM(least.depth), least.over).
		Hint("more gores, a narrower hem sweep, or check the measures")
}

// otherwise lists the ways to draw the skirt wider above the hip: through the high hip,
// bent out below the hip where the flare may bend, or both.
func (g GoredSkirt) otherwise() []GoredSkirt {
	curved, bent := g, g
	curved.viaHighHip = true
	if g.FlareFrom == 0 {
		bent.FlareFrom, bent.bend = g.HipDepth, g.HipDepth
	}
	both := bent
	both.viaHighHip = true
	if g.HighHip.Girth == 0 {
		return []GoredSkirt{bent}
	}
	return []GoredSkirt{curved, bent, both}
}

// straightened returns a skirt whose flare bends out below the hip with as little of a
// bend as will do: with all that it may lean at the hip.
func (g GoredSkirt) straightened() GoredSkirt {
	if g.bend == 0 {
		return g
	}
	const halvings = 8 // to a 256th of the angle
	for step := 0.5; step > math.Pow(2, -halvings-1); step /= 2 {
		try := g
		try.lean += step
		if _, tight, err := try.tightest(); err == nil && !tight && !try.waves() {
			g = try
		}
	}
	return g
}

// waves says whether a flank through the high hip, drawn in further below it than
// above, would stand out there like a bump: where the flare is steeper than the way
// from high hip to hip. A high hip wider than the hip is such a bump itself.
func (g GoredSkirt) waves() bool {
	if !g.viaHighHip || g.HighHip.Girth >= g.Hip {
		return false
	}
	for _, hem := range g.differentHems() {
		if c, err := g.flank(hem); err != nil || c[1].from < c[1].to-1e-9 {
			return true
		}
	}
	return false
}

// tightest looks for the place between waist and hip where the skirt is too tight.
func (g GoredSkirt) tightest() (shortfall, bool, error) {
	other, front := g.hems()
	fronts := 2 - g.Gores%2
	if other == front {
		fronts = 0
	}
	var flanks []curve
	for _, hem := range g.differentHems() {
		c, err := g.flank(hem)
		if err != nil {
			return shortfall{}, false, err
		}
		flanks = append(flanks, c)
	}
	girth := func(depth float64) float64 {
		sum := 0.0
		for i, c := range flanks {
			count := fronts
			if i == 0 {
				count = g.Gores - fronts
			}
			sum += float64(count) * c.goreAt(g.Waist/float64(g.Gores), depth)
		}
		return sum
	}
	short, tight := tightest(girth, g.Waist, g.Hip, g.HipDepth, g.HighHip)
	return short, tight, nil
}

// differentHems lists those of a gore, and of one at the centre front where it is
// another.
func (g GoredSkirt) differentHems() []float64 {
	other, front := g.hems()
	if other == front {
		return []float64{other}
	}
	return []float64{other, front}
}

// goreAt returns the girth of a gore with this flank at a depth along it, mm: the
// arc that crosses both flanks squarely.
func (c curve) goreAt(waist, depth float64) float64 {
	above := c.upTo(depth)
	if len(above) == 0 {
		return waist
	}
	last := above[len(above)-1].to
	return (waist*sinc(c[0].from) + 2*above.gain()) / sinc(last)
}

// drawnAlike is by how much a line may lie off what was asked for before it is told, mm:
// what tape and pencil hold (our own figure).
const drawnAlike = 2.0

// notes says of a skirt as drawn where the flare was made to bend out below the hip, if
// that changes the cut; tight is where it would have been too tight as asked for.
func (g GoredSkirt) notes(drawn GoredSkirt, tight shortfall) []say.Text {
	if drawn.FlareFrom == g.FlareFrom || g.apart(drawn) <= drawnAlike {
		return nil
	}
	end := drawn.FlareFrom + min(drawn.bend, (g.Length-drawn.FlareFrom)/2)
	return []say.Text{say.Textf("The flare is not straight from the hip: "+
		"it bends out below it, from %.1f to %.1f below the waist. "+
		"Straight, the skirt would go %.1f round at %.1f below the waist, less than %v.",
		say.MM(drawn.FlareFrom), say.MM(end), say.MM(tight.girth), say.MM(tight.depth), tight.over)}
}

// apart is how far the seams of two skirts lie from each other at the most, mm.
func (g GoredSkirt) apart(other GoredSkirt) float64 {
	most := 0.0
	for _, hem := range g.differentHems() {
		a, errA := g.shape(hem)
		b, errB := other.shape(hem)
		if errA != nil || errB != nil {
			return math.Inf(1)
		}
		for _, p := range a.flank {
			most = max(most, planar.DistanceFrom(b.flank, p))
		}
		for _, p := range b.flank {
			most = max(most, planar.DistanceFrom(a.flank, p))
		}
	}
	return most
}
