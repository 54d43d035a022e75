package draft

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// Train is a skirt whose back gores run on behind it:
//
//	waist   centre back                            |
//	 .------------------------------------------.  |  Behind
//	 |     back gore                          .'-->|
//	 |---------------------------------------:     '- - -
//	 |     next gore                       .'
//	 |-----------------------------------.'
//	 |     front: as without a train     |
//	 '-----------------------------------'
//	                                 the skirt's hem
//
// The gores keep their lean: below the skirt's hem each seam runs straight on.
// How far the hem lies below that of the skirt falls from Behind at the centre
// back to nothing at the last seam of the train, as half a wave of the cosine
// along the girth. So the hem is one smooth curve through all gores: it crosses
// the centre back squarely, runs on across every seam without a kink, and meets
// the skirt's hem where the train ends. The curve is our own; common practice draws
// it by hand.
type Train struct {
	Skirt     Draft   // a GoredSkirt or a CircleSkirt; its length is that without the train
	Behind    float64 // how much longer the centre back is than the skirt, mm
	BackGores int     // gores a side that are lengthened; 0: all pairs but the one at the centre front
}

// leastSpread is the flattest angle from seam to grain of gores that spread, rad: a
// train on parallel seams would be as narrow as they are.
const leastSpread = 1e-3

// Draft returns the pieces of the skirt, its back gores lengthened. It refuses
// skirts that have no back gores to lengthen or whose gores do not spread.
func (t Train) Draft() (Result, error) { return named("train")(t.draft()) }

func (t Train) draft() (Result, error) {
	skirt, ok := t.Skirt.(gored)
	if !ok {
		return Result{}, say.Errorf("what it hangs on has no back gores to lengthen").Hint("a gored or a circle skirt")
	}
	n, err := t.backGores(skirt)
	if err != nil {
		return Result{}, err
	}
	h, err := skirt.hang()
	if err != nil {
		return Result{}, say.Errorf("%s: %w", skirt.called(), err)
	}
	outer, raise := skirt.unraised()
	long, err := outer.hang()
	if err != nil {
		return Result{}, say.Errorf("%s: %w", skirt.called(), err)
	}
	for i := range n {
		if h.shapes[i], err = t.lengthen(long.shapes[i], raise, i, n); err != nil {
			return Result{}, say.Errorf("%s: %w", h.list[i].pieceName(), err)
		}
	}
	d, err := h.cut()
	if err != nil {
		return Result{}, err
	}
	for i := range n { // the joins begin with the centre back and run forward gore by gore
		d.Joins[i].Notches = append(d.Joins[i].Notches, h.length)
	}
	return d, d.notch(d.Waist)
}

// backGores returns how many gores a side are lengthened.
func (t Train) backGores(skirt gored) (int, error) {
	if err := positive(measured{"length behind", t.Behind}); err != nil {
		return 0, err
	}
	pairs, gores := skirt.backPairs(), skirt.Division().Pieces
	if pairs < 1 {
		return 0, say.Errorf("with %s there is no pair of back gores to lengthen", say.Count(gores, "gore")).
			Hint("more gores")
	}
	n := t.BackGores
	if n == 0 {
		n = pairs
		if n > 1 && 2*n == gores {
			n--
		}
	}
	if n < 1 || n > pairs {
		return 0, fmt.Errorf("back gores: %d, must be from 1 to %d a side", n, pairs)
	}
	return n, nil
}

// lengthen gives gore i of the outer layer, counted from the centre back, of n in the
// train, the hem of a train in a layer that is shorter by a raise. Waist and seams stay
// as they are.
func (t Train) lengthen(g gore, raise float64, i, n int) (gore, error) {
	end, before := g.flank[len(g.flank)-1], g.flank[len(g.flank)-2]
	// The seams are straight at the hem and cross at the centre of its arc.
	run := math.Hypot(end[0]-before[0], end[1]-before[1])
	lean := math.Atan2(end[1]-before[1], end[0]-before[0])
	if lean < leastSpread {
		return gore{}, say.Errorf("its seams lean by %.3f degrees from the grain at the hem and do not spread into "+
			"a train", lean*180/math.Pi).
			Hint("a wider hem sweep")
	}
	radius := end[1] / math.Sin(lean)
	centre := orb.Point{end[0] - end[1]/math.Tan(lean), 0}
	s := swing{middle: radius + t.Behind - raise, side: radius - raise, span: 2 * lean * float64(n)}
	zero := lean + 2*lean*float64(i) // the centre back lies beyond the upper seams
	if least := radius - s.radius(-lean-zero); least >= run {
		return gore{}, say.Errorf("a hem raised by %.1f lies above the straight %.1f of its seams", say.MM(least),
			say.MM(run))
	}
	g.trained = s.line(centre, -lean, lean, zero, g.chord)
	return g, nil
}

// Division is that of the skirt.
func (t Train) Division() Division {
	if d, ok := t.Skirt.(Divided); ok {
		now := d.Division()
		now.Flat = false // its hem is drawn gore by gore
		return now
	}
	return Division{}
}

func (t Train) Divide(pieces int) Draft {
	if d, ok := t.Skirt.(Divided); ok {
		t.Skirt = d.Divide(pieces)
	}
	return t
}
