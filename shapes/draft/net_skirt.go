package draft

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// NetSkirt is what layers of net need to know of the skirt that they are sewn onto, as
// OnSkirt found it. The zero value knows nothing: no seam is near, and every layer goes
// all round.
type NetSkirt struct {
	climbed       climbed
	fraction      float64 // of a circle; 0: it is fitted to the hip
	waist, length float64 // mm
	opens         bool    // at the centre back
	stop          float64 // how far below the waist that opening reaches, mm; 0: not known
	lines         int     // that other layers have on the skirt already
}

// climbed is a skirt that layers of net climb.
type climbed interface {
	// gores returns what hangs where, from the centre back to the centre front.
	gores() []place
	// span returns how much of the girth one gore takes so far below the waist, mm.
	span(gore int, depth float64) float64
	// across returns the line over the piece of a gore that lies so far below the
	// waist, from the gore's back to its front; half of it on a fold.
	across(p shapes.Piece, gore int, depth float64) orb.LineString
}

// OntoSkirt is a draft that is sewn onto a skirt along lines of its own, and not to its
// edges.
type OntoSkirt interface {
	Draft
	// OnSkirt returns the draft as sewn onto a skirt; see NetLayers.
	OnSkirt(skirt Draft, closed float64, lines int) (OntoSkirt, error)
	// MarkSkirt draws its lines on the pieces of the skirt that OnSkirt was given.
	MarkSkirt(pieces []shapes.Piece) error
	// Lines is how many those are.
	Lines() int
}

// Lines returns one a layer.
func (n NetLayers) Lines() int { return n.Layers }

// ErrNotOnSkirt says that a draft is no skirt that layers of net climb.
var ErrNotOnSkirt = errors.New("layers of net are sewn onto a circle or a gored skirt")

// BadSkirt is what is wrong with a skirt itself, that net is to be sewn onto.
type BadSkirt struct{ Err error }

func (b *BadSkirt) Error() string { return b.Err.Error() }

// Unwrap returns what is wrong with it.
func (b *BadSkirt) Unwrap() error { return b.Err }

// Parts says it as its own error does, with lengths as shown.
func (b *BadSkirt) Parts(show say.Show) (what, hint string) { return say.Parts(b.Err, show) }

// OnSkirt returns the layers as sewn onto a skirt whose opening is closed so far below
// the waist, mm, or all the way with 0, and that bears so many lines of other layers:
// the marks of each layer lie on seams that are near, and one that is sewn on above the
// stop of the opening is open there. Girths are those of the skirt. It gives
// ErrNotOnSkirt for what is neither a circle skirt nor a gored one, a BadSkirt for one
// that cannot be drawn, and refuses one of other measures than the layers are reckoned for.
func (n NetLayers) OnSkirt(skirt Draft, closed float64, lines int) (OntoSkirt, error) {
	return n.on(skirt, closed, lines)
}

func (n NetLayers) on(d Draft, closed float64, lines int) (NetLayers, error) {
	n.Skirt = NetSkirt{stop: closed, lines: lines}
	s, ok := goredOf(d)
	if !ok {
		return n, ErrNotOnSkirt
	}
	skirt, err := s.underNet()
	switch {
	case skirt.fraction == 0 && n.SkirtFraction != 0:
		return n, say.Errorf("it is reckoned for %.4g of a circle, the skirt is fitted to the hip", n.SkirtFraction).
			Hint("leave out `circle`")
	case err != nil:
		return n, &BadSkirt{say.Errorf("%s: %w", s.called(), err)}
	case n.SkirtFraction == 0:
		n.SkirtFraction = skirt.fraction
	case math.Abs(n.SkirtFraction-skirt.fraction) > roundingError:
		return n, say.Errorf("it is reckoned for %.4g of a circle, the skirt is %.4g", n.SkirtFraction, skirt.fraction).
			Hint("the same `circle` for both, or leave it out")
	}
	if skirt.stop == 0 || closed != 0 && closed < skirt.stop {
		skirt.stop = closed
	}
	skirt.lines = lines
	n.Skirt = skirt
	return n, n.reckonedFor(skirt.waist, skirt.length)
}

// otherSkirt is by how much a measure of a skirt that is the same may differ, mm: less
// than anybody cuts to.
const otherSkirt = 0.5

// reckonedFor refuses a skirt of other measures, mm.
func (n NetLayers) reckonedFor(waist, length float64) error {
	for _, m := range []struct {
		what          string
		layers, skirt float64
	}{{"waist", n.Waist, waist}, {"length", n.SkirtLength, length}} {
		if math.Abs(m.layers-m.skirt) > otherSkirt {
			return say.Errorf("it is reckoned for a skirt with a %s of %.1f, the skirt has %.1f", m.what,
				say.MM(m.layers), say.MM(m.skirt)).
				Hint("the same `waist`, `waist_ease` and length for both")
		}
	}
	return nil
}

// crosses says whether a layer sewn on at a depth crosses the opening.
func (s NetSkirt) crosses(depth float64) bool { return s.opens && depth < s.stop }

// girth returns that of the skirt so far below its waist, mm.
func (s NetSkirt) girth(depth float64) float64 {
	sum := 0.0
	for i, at := range s.climbed.gores() {
		sum += float64(at.copies()) * s.climbed.span(i, depth)
	}
	return sum
}

// copies is how many gores hang at a place, left and right.
func (p place) copies() int {
	if p.pair {
		return 2
	}
	return 1
}

// nearSeam is how far from a quarter a seam still takes its place, as a share of the
// girth: a third of what lies between two quarters, so that no two fall on one seam
// and none on a centre.
const nearSeam = 1.0 / 12

// marks returns the shares of the girth from centre back at which a layer sewn on at a
// depth is pinned: an eighth and three eighths of it on both sides, or seams that are
// near; with the names of those seams, "" where there is none.
func (s NetSkirt) marks(depth float64) (shares [4]float64, seams [4]string) {
	shares = [4]float64{1.0 / 8, 3.0 / 8, 5.0 / 8, 7.0 / 8}
	if s.climbed == nil {
		return shares, seams
	}
	list, girth := s.climbed.gores(), s.girth(depth)
	for i := range 2 {
		nearest, at := nearSeam+roundingError, 0.0
		quarter := shares[i]
		for k := 1; k < len(list); k++ {
			at += s.climbed.span(k-1, depth) / girth
			// Of two that are as near the one behind is taken.
			if off := math.Abs(at - quarter); off < nearest-roundingError {
				nearest = off
				name := list[k-1].pieceName() + " to " + list[k].pieceName()
				shares[i], shares[3-i], seams[i], seams[3-i] = at, 1-at, name, name
			}
		}
	}
	return shares, seams
}
