package draft

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
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

// trained is what a train needs to know of its skirt.
type trained struct {
	outer  Draft // the skirt with its hem not raised
	gores  int
	pairs  int // of gores alike, from the centre back
	raise  float64
	length float64
	chord  float64
}

// leastSpread is the flattest angle from seam to grain of gores that spread, rad: a
// train on parallel seams would be as narrow as they are.
const leastSpread = 1e-3

// Draft returns the pieces of the skirt, its back gores lengthened. It refuses
// skirts that have no back gores to lengthen or whose gores do not spread.
func (t Train) Draft() (Result, error) {
	d, err := t.draft()
	return named("train", d, err)
}

func (t Train) draft() (Result, error) {
	base, err := t.base()
	if err != nil {
		return Result{}, err
	}
	n, err := t.backGores(base)
	if err != nil {
		return Result{}, err
	}
	d, err := t.Skirt.Draft()
	if err != nil {
		return Result{}, err
	}
	long := d
	if base.raise > 0 {
		if long, err = base.outer.Draft(); err != nil {
			return Result{}, err
		}
	}
	for i := range n {
		p := long.Pieces[i]
		if p.Edges, err = t.lengthen(p.Edges, base, i, n); err != nil {
			return Result{}, fmt.Errorf("%s: %w", p.Name, err)
		}
		q, err := shapes.NewPiece(p.Name, p.Edges)
		if err != nil {
			return Result{}, err
		}
		q.Count, q.Pair, q.Labels = p.Count, p.Pair, p.Labels
		d.Pieces[i] = q
		// The joins begin with the centre back and run forward gore by gore.
		d.Joins[i].Notches = append(d.Joins[i].Notches, base.length)
	}
	return d, d.notch(d.Waist)
}

func (t Train) base() (trained, error) {
	switch s := t.Skirt.(type) {
	case GoredSkirt:
		b := trained{gores: s.Gores, pairs: s.Gores / 2, raise: s.HemRaise, length: s.Length, chord: chordError(s.Chord)}
		if s.FrontHem != 0 && s.Gores%2 == 0 {
			b.pairs-- // the front gores lean otherwise
		}
		s.HemRaise = 0
		b.outer = s
		return b, nil
	case CircleSkirt:
		b := trained{gores: s.Gores, pairs: s.Gores / 2, raise: s.HemRaise, length: s.Length, chord: chordError(s.Chord)}
		if s.FrontOnFold {
			b.pairs--
		}

		s.HemRaise = 0
		b.outer = s
		return b, nil
	}
	return trained{}, fmt.Errorf("%T has no back gores to lengthen\n  hint: a gored or a circle skirt", t.Skirt)
}

// backGores returns how many gores a side are lengthened.
func (t Train) backGores(b trained) (int, error) {
	if err := positive(measured{"length behind", t.Behind}); err != nil {
		return 0, err
	}
	if b.pairs < 1 {
		return 0, fmt.Errorf("with %d gores there is no pair of back gores to lengthen\n  hint: more gores", b.gores)
	}
	n := t.BackGores
	if n == 0 {
		n = b.pairs
		if n > 1 && 2*n == b.gores {
			n--
		}
	}
	if n < 1 || n > b.pairs {
		return 0, fmt.Errorf("back gores: %d, must be from 1 to %d a side", n, b.pairs)
	}
	return n, nil
}

// lengthen gives the edges of gore i from the centre back, of n in the train, the
// train's hem. Waist, seams and their allowances stay as they are.
func (t Train) lengthen(edges []shapes.Edge, b trained, i, n int) ([]shapes.Edge, error) {
	out := slices.Clone(edges)
	lower, hem, upper := &out[0], &out[1], &out[2]
	lower.Line, upper.Line = slices.Clone(lower.Line), slices.Clone(upper.Line)
	end, start := lower.Line[len(lower.Line)-1], lower.Line[len(lower.Line)-2]
	// The seams are straight at the hem and cross at the centre of its arc.
	run := math.Hypot(end[0]-start[0], end[1]-start[1])
	lean := math.Atan2(start[1]-end[1], end[0]-start[0])
	if lean < leastSpread {
		return nil, fmt.Errorf("its seams lean by %.3f degrees from the grain at the hem and do not spread into a train\n"+
			"  hint: a wider hem sweep", lean*180/math.Pi)
	}
	half := (upper.Line[0][1] - end[1]) / 2
	radius := half / math.Sin(lean)
	centre := orb.Point{end[0] - half/math.Tan(lean), end[1] + half}
	s := swing{middle: radius + t.Behind - b.raise, side: radius - b.raise, span: 2 * lean * float64(n)}
	zero := lean + 2*lean*float64(i) // the centre back lies beyond the upper seams
	if least := radius - s.radius(-lean-zero); least >= run {
		return nil, fmt.Errorf("a hem raised by %.1f mm lies above the straight %.1f mm of its seams", least, run)
	}
	hem.Line = s.line(centre, -lean, lean, zero, b.chord)
	lower.Line[len(lower.Line)-1] = hem.Line[0]
	upper.Line[0] = hem.Line[len(hem.Line)-1]
	return out, nil
}
