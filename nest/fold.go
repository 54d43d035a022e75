package nest

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Lay is how the cloth is spread for cutting.
type Lay uint8

const (
	Open            Lay = iota // a single layer
	LengthwiseFold             // folded along the middle: every outline cuts a mirrored pair, pieces lie on the fold
	CrosswiseFold              // folded across: two layers of half the length, the nap of the upper one the other way
	CrosswiseTurned            // the same, cut along the fold and the upper layer turned: both naps run one way
	DoubleFold                 // both selvedges folded to the middle: a fold along either edge
)

// String returns the lay in words.
func (l Lay) String() string {
	return [...]string{
		"open lay", "lengthwise fold", "crosswise fold", "crosswise fold with the upper layer turned", "double fold",
	}[l]
}

// lengthwise says whether a fold of the lay runs along the cloth.
func (l Lay) lengthwise() bool { return l == LengthwiseFold || l == DoubleFold }

// Stretch is a part of the cloth that is spread in one way and cut by one marker.
type Stretch struct {
	Lay     Lay
	Problem Problem
	from    []int   // from[i]: the piece of the open problem that piece i of Problem stands for
	copies  [][]int // copies[i]: the copies of that piece which i cuts, in order; two for each outline cut double

	// Where the layers lie on the open cloth, mm across it, all on the lattice.
	base  float64    // the lower edge of the strip
	folds [2]float64 // the folds at the lower and the upper edge of the strip
	upper float64    // CrosswiseTurned: y on the marker is upper - y in the upper layer
}

// Layers is the number by which the length of the stretch's marker is multiplied
// to get the cloth it takes: 2 where the fold runs across.
func (s Stretch) Layers() int {
	if s.Lay == CrosswiseFold || s.Lay == CrosswiseTurned {
		return 2
	}
	return 1
}

// Cloth returns the cloth, mm, that a marker of the given length takes from the
// bolt: its length for each of Layers, and the gap where they meet.
func (s Stretch) Cloth(marker float64) float64 {
	if s.Layers() == 2 {
		return 2 * (marker + halfGap(s.Problem.Gap))
	}
	return marker
}

// halfGap returns the part of a gap that a piece keeps from a fold, mm, rounded
// up to the lattice: its mirror image keeps as much.
func halfGap(gap float64) float64 { return plane.Ceil(gap / 2) }

// Fold spreads the cloth of an open problem p in the given lay and shares out the
// pieces: what can be cut in two layers goes on the folded stretch, which comes
// first; what is left, on an open one behind it. Double are cut pairs, two copies
// of a piece that may lie either way up, two of one that is its own mirror image;
// pieces with a Half go on a lengthwise fold, or whole on the open stretch where
// they cannot. selvedge is what the usable width leaves out on either side, mm:
// on a double fold the selvedges lie in the middle.
//
// With a MaxLength the two stretches share it: Verify of what Unfold returns
// tells whether both fit.
//
// Errors are those of Check, and a *LayError that says by name what cannot be cut
// on this lay and what would help.
func Fold(p Problem, lay Lay, selvedge float64) ([]Stretch, error) {
	return p.fold(lay, selvedge, func(piece int) Cutting {
		return Cutting{OnFold: true, Double: p.Pieces[piece].Count / 2}
	})
}

// fold spreads the cloth as Fold does; may says of each piece how it may be cut on
// the folded stretch.
func (p Problem) fold(lay Lay, selvedge float64, may func(piece int) Cutting) ([]Stretch, error) {
	switch {
	case lay > DoubleFold:
		return nil, fmt.Errorf("unknown lay %d", lay)
	case !isFinite(selvedge) || selvedge < 0:
		return nil, say.Errorf("selvedge is %v, must be 0 or more", say.MM(selvedge))
	case p.Strip.Folds != NoFold:
		return nil, fmt.Errorf("the strip is folded already")
	}
	if lay != Open && len(p.Pins) > 0 {
		return nil, fmt.Errorf("pins are given on the open cloth: on a %v they belong to its stretches", lay)
	}
	if err := p.Check(); err != nil {
		return nil, err
	}
	rest := Stretch{Lay: Open, Problem: p}
	if lay == Open {
		for i := range p.Pieces {
			rest.from, rest.copies = append(rest.from, i), append(rest.copies, numbered(0, p.Pieces[i].Count))
		}
		return []Stretch{rest}, nil
	}
	if err := unfoldable(p, lay); err != nil {
		return nil, err
	}
	folded := newFolded(p, lay, plane.Ceil(selvedge))
	rest.Problem.Pieces = nil
	rest.Problem.Gap = restGap(p)
	var why *leftOver // the first
	for i := range p.Pieces {
		left, over := folded.share(p, i, may(i))
		if left == 0 {
			continue
		}
		if why == nil {
			why = &over
		}
		piece := p.Pieces[i]
		piece.Count = left
		rest.add(piece, i, numbered(p.Pieces[i].Count-left, left))
	}
	tie(p, &folded, &rest)
	switch {
	case len(folded.Problem.Pieces) == 0:
		return nil, why.refusal(lay)
	case len(rest.Problem.Pieces) == 0:
		return []Stretch{folded}, nil
	case len(p.Strip.Forbidden) > 0:
		return nil, &LayError{
			Lay: lay, Brief: "where an open stretch behind the fold meets the flaws is not known beforehand",
			Remedy: LayOpenOrCutOut,
			why: say.Textf("%v and must lie on an open stretch behind the %v, but where that begins "+
				"against the flaws is not known beforehand", why.text(), lay),
		}
	}
	return []Stretch{folded, rest}, nil
}

// restGap is the gap on the open stretch. What lies there is moved on by whole
// repeats of the cloth, and where these are not whole steps of the lattice each
// piece rounds by itself, two neighbours apart by a step.
func restGap(p Problem) float64 {
	if along := p.Strip.Repeat.Along; along != plane.Floor(along) {
		return p.Gap + 2*plane.Lattice
	}
	return p.Gap
}

// unfoldable says why the cloth of p cannot be spread in a folded lay, whatever
// is cut from it; nil when it can.
func unfoldable(p Problem, lay Lay) error {
	s := p.Strip
	across := !lay.lengthwise()
	refuse := func(brief string, why say.Text, remedy Remedy) error {
		return &LayError{Lay: lay, Brief: brief, Remedy: remedy, why: why}
	}
	switch {
	case across && s.Repeat != Repeat{}:
		return refuse("the repeat of the two layers does not meet",
			say.Textf("on a %v the repeat of the two layers does not meet", lay), LayOpen)
	case s.Repeat.Across > 0:
		return refuse("a repeat across does not meet itself over the fold",
			say.Textf("on a %v a repeat across the cloth does not meet itself", lay), LayOpen)
	case len(s.Forbidden) > 0 && lay != LengthwiseFold:
		return refuse("flaws cannot be kept clear of on this fold",
			say.Textf("flaws cannot be kept clear of on a %v, as where they come to lie depends on the marker", lay),
			LayOpenOrCutOut)
	case lay == CrosswiseFold:
		for _, piece := range p.Pieces {
			if piece.Count > 1 && len(piece.twoWay()) == 0 {
				return refuse("the nap of the upper layer would run the other way",
					say.Textf("%q may not be turned by 180 degrees, and on a crosswise fold "+
						"the upper layer's nap runs the other way", piece.Name), TurnUpperOrLayOpen)
			}
		}
	}
	return nil
}

// newFolded returns the folded stretch without its pieces.
func newFolded(p Problem, lay Lay, selvedge float64) Stretch {
	s := Stretch{Lay: lay, Problem: Problem{Strip: p.Strip, Gap: p.Gap}}
	strip := &s.Problem.Strip
	switch lay {
	case LengthwiseFold:
		strip.Width = plane.Floor(p.Strip.Width / 2)
		strip.Folds = FoldBelow
		s.base, s.folds[0] = strip.Width, strip.Width
		strip.Forbidden = bothLayers(p.Strip.Forbidden, strip.Width)
	case DoubleFold:
		// The folds lie at a quarter and three quarters of the whole width.
		quarter := plane.Floor(p.Strip.Width/4 + selvedge/2)
		strip.Width, strip.Middle = 2*quarter, selvedge
		strip.Folds = FoldBoth
		s.base = quarter - selvedge
		s.folds = [2]float64{s.base, s.base + strip.Width}
	case CrosswiseFold, CrosswiseTurned:
		strip.Width = plane.Floor(p.Strip.Width)
		s.upper = strip.Width
		if p.Strip.MaxLength > 0 {
			strip.MaxLength = max(plane.Lattice, plane.Floor(p.Strip.MaxLength/2)-halfGap(p.Gap))
		}
	}
	return s
}

// bothLayers returns the flaws of cloth folded at the level fold as a marker on
// it meets them: those of the upper half as they lie, those of the lower half
// reflected.
func bothLayers(zones []orb.Ring, fold float64) []orb.Ring {
	var out []orb.Ring
	for _, zone := range zones {
		above, below := make(orb.Ring, len(zone)), make(orb.Ring, len(zone))
		for i, v := range zone {
			above[i] = orb.Point{v[0], v[1] - fold}
			below[len(zone)-1-i] = orb.Point{v[0], fold - v[1]}
		}
		for _, z := range []orb.Ring{above, below} {
			if plane.Bounds(z).Max[1] > 0 {
				out = append(out, z)
			}
		}
	}
	return out
}
