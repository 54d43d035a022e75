package draft

import (
	"cmp"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// CircleSkirt is a skirt cut from a fraction of a circle, in gores that are
// sectors of a ring:
//
//	                      __--"|
//	   r = W / (2 pi f)  (     |   R = r + L
//	.- - - - - - - - - - (  ) - ) - - grain, middle of the gore
//	centre             waist   hem
//
// All girths are exact: waist W, hem W + 2 pi f L. Seams, the opening at the
// centre back among them, are radii and as long as the skirt.
//
// A single gore that takes the whole of a full circle is cut in one, a disc. The
// piece is its outer line; the waist hole and the slit of the opening are marked
// inside it (Piece.Inside), for they are cut on the table, after the lay. The
// slit takes no allowance: it is faced or bound. Other pieces are not laid in holes.
type CircleSkirt struct {
	Fraction    float64 // of a full circle, above 0; may be above 1
	Gores       int
	Waist       float64 // girth sewn to the waistband, mm
	Length      float64 // from waist to hem, finished, of the outer layer, mm
	FrontOnFold bool    // one double-width centre front on a fold in place of the two front gores; Gores must be even
	Opening     bool    // the centre back seam is an opening
	Hip         float64 // girth that the skirt must clear, ease included, mm; 0 is not checked
	HipDepth    float64 // from waist to hip, mm; needed with a hip
	HighHip     HighHip // that it must clear besides
	HemRaise    float64 // how much shorter this layer is than the outer one, mm
	Allowance   shapes.Allowance
	Chord       float64 // chord error, mm; 0 means DefaultChord
}

// slit is the length of the opening's slit in a skirt cut in one, mm: 8 in, or
// half the skirt where that is less (common practice for a placket).
const slit = 203.2

// Radii returns the finished radii of waist and hem, mm.
func (c CircleSkirt) Radii() (waist, hem float64) {
	waist = c.Waist / (2 * math.Pi * c.Fraction)
	return waist, waist + c.Length - c.HemRaise
}

// chord is the chord error of all its arcs, mm.
func (c CircleSkirt) chord() float64 { return chordRound(c.Chord, 2*math.Pi*c.Fraction) }

// HemGirth returns the finished length of the hem, mm.
func (c CircleSkirt) HemGirth() float64 {
	_, hem := c.Radii()
	return 2 * math.Pi * c.Fraction * hem
}

// Draft returns one piece a place, from the centre back to the centre front:
// pairs, and a single gore at the centre front of an odd number.
func (c CircleSkirt) Draft() (Result, error) { return named(c.called())(c.draft()) }

func (c CircleSkirt) draft() (Result, error) {
	h, err := c.hang()
	if err != nil {
		return Result{}, err
	}
	if c.inOne() {
		p, err := c.disc(c.chord())
		return Result{Pieces: []shapes.Piece{p}, Rings: h.rings}, err
	}
	return h.draft()
}

func (c CircleSkirt) hang() (hung, error) {
	if err := c.check(); err != nil {
		return hung{}, err
	}
	h := hung{length: c.Length, rings: c.rings(), skirt: skirt{
		gores: c.Gores, opening: c.Opening, allowance: c.Allowance, notches: []float64{c.Length / 2},
		list: c.gores(), onFold: c.FrontOnFold,
	}}
	waist, hem := c.Radii()
	for _, p := range h.list {
		half := c.goreAngle(p.wide) / 2
		sin, cos := math.Sincos(half)
		h.shapes = append(h.shapes, gore{
			flank: orb.LineString{{waist * cos, waist * sin}, {hem * cos, hem * sin}},
			waist: half, hem: half, chord: c.chord(),
		})
	}
	return h, nil
}

func (c CircleSkirt) called() string { return "circle skirt" }

func (c CircleSkirt) unraised() (gored, float64) {
	raise := c.HemRaise
	c.HemRaise = 0
	return c, raise
}

// backPairs leaves out the double-width gore at the centre front.
func (c CircleSkirt) backPairs() int {
	if c.FrontOnFold {
		return c.Gores/2 - 1
	}
	return c.Gores / 2
}

// underNet opens as far as its slit at most, where it is cut in one.
func (c CircleSkirt) underNet() (NetSkirt, error) {
	s := NetSkirt{climbed: c, fraction: c.Fraction, waist: c.Waist, length: c.Length, opens: c.Opening}
	if c.inOne() {
		s.stop = min(slit, (c.Length-c.HemRaise)/2)
	}
	return s, nil
}

// inOne says whether the skirt is a full circle without seams.
func (c CircleSkirt) inOne() bool { return c.Gores == 1 && math.Abs(c.Fraction-1) < 1e-12 }

// goreAngle is the angle of a piece that takes the place of so many gores, rad.
func (c CircleSkirt) goreAngle(wide int) float64 {
	return 2 * math.Pi * c.Fraction / float64(c.Gores) * float64(wide)
}

func (c CircleSkirt) check() error {
	if err := cmp.Or(
		checkFraction(c.Fraction),
		positive(measured{"waist", c.Waist}, measured{"length", c.Length}),
		checkHem(c.HemRaise, c.Length, c.Chord, c.Allowance),
		checkGores(c.Gores),
	); err != nil {
		return err
	}
	if c.FrontOnFold && c.Gores%2 == 1 {
		return say.Errorf("a double-width centre front takes the place of two gores, which leaves unequal sides "+
			"with %d", c.Gores).
			Hint("an even number of gores")
	}
	if err := cmp.Or(
		checkClears(c.Waist, c.Fraction, c.Hip, c.HipDepth, c.HighHip),
		checkWorn(c.rings(), c.Opening, c.Waist, c.Hip),
	); err != nil {
		return err
	}
	waist, hem := c.Radii()
	return cmp.Or(
		checkHemRadius(c.Fraction, c.Waist, hem),
		checkInnerRadius("waist", waist, c.Allowance.Waist),
		c.checkWrap(),
	)
}

// checkWrap refuses gores that wrap round upon themselves, with the number of
// gores that would not.
func (c CircleSkirt) checkWrap() error {
	if c.inOne() || c.lieFlat() {
		return nil
	}
	angle, need := c.widest()*180/math.Pi, c
	for need.Gores = c.Gores + 1; need.Gores <= maxGores; need.Gores++ {
		if (!c.FrontOnFold || need.Gores%2 == 0) && need.lieFlat() {
			return say.Errorf("a piece of %.1f degrees wraps round upon itself, allowances included", angle).
				Hint("at least %d gores", need.Gores)
		}
	}
	return fmt.Errorf("a piece of %.1f degrees wraps round upon itself, in up to %d gores", angle, maxGores)
}

// widest is the angle of the widest piece, rad.
func (c CircleSkirt) widest() float64 {
	list := places(c.Gores, c.FrontOnFold)
	return c.goreAngle(list[len(list)-1].wide)
}

// lieFlat says whether the widest piece, allowances included, stays clear of
// itself where it closes round the waist hole. The cut lines of its two seams
// cross on the axis behind the centre, at a / sin of half the gap; the cut waist
// must lie further out. Where it ends square to the last chord of the waist, which
// leans towards the gap by half the angle of a chord, its end must keep clear too.
func (c CircleSkirt) lieFlat() bool {
	gap := 2*math.Pi - c.widest()
	if gap >= math.Pi {
		return true
	}
	waist, _ := c.Radii()
	lean := math.Acos(max(0, 1-c.chord()/waist))
	return gap > 1e-6 && (waist-c.Allowance.Waist)*math.Sin(gap/2) > c.Allowance.Seam &&
		waist*math.Sin(gap/2) > c.Allowance.Waist*math.Sin(gap/2+lean)
}

// disc drafts a full circle cut in one.
func (c CircleSkirt) disc(chord float64) (shapes.Piece, error) {
	waist, hem := c.Radii()
	rim := plane.Arc(orb.Point{}, hem, -math.Pi, math.Pi, chord)
	p, err := shapes.NewPiece("skirt", []shapes.Edge{{Name: "hem", Kind: shapes.Hem, Line: rim,
		Allowance: c.Allowance.For(shapes.Hem)}})
	if err != nil {
		return shapes.Piece{}, err
	}
	p.Inside = hole(orb.Point{}, waist, c.Allowance.For(shapes.Waist), chord)
	if c.Opening {
		end := waist + min(slit, (hem-waist)/2)
		p.Inside = append(p.Inside, orb.LineString{{c.Allowance.For(shapes.Waist) - waist, 0}, {-end, 0}})
	}
	centre := orb.Point{p.Edges[0].Line[0][0] + hem, p.Edges[0].Line[0][1]}
	for _, l := range p.Inside {
		plane.MoveLine(l, centre)
	}
	p.Grain = discGrain(centre, waist, hem)
	return p, nil
}

// discGrain puts the arrow of a disc beside its hole.
func discGrain(centre orb.Point, waist, hem float64) orb.LineString {
	y := (waist + hem) / 2
	reach := 0.7 * math.Sqrt(hem*hem-y*y)
	return orb.LineString{{centre[0] - reach, centre[1] + y}, {centre[0] + reach, centre[1] + y}}
}

// hole marks the waist of a skirt cut in one, a hole about a centre: its cut line,
// and strokes over its allowance at the quarters.
func hole(centre orb.Point, waist, allowance, chord float64) []orb.LineString {
	lines := []orb.LineString{plane.Arc(centre, waist-allowance, -math.Pi, math.Pi, chord)}
	if !(allowance > 0) {
		return lines
	}
	for i := range 4 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i))
		lines = append(lines, orb.LineString{
			{centre[0] + (waist-allowance)*cos, centre[1] + (waist-allowance)*sin},
			{centre[0] + waist*cos, centre[1] + waist*sin},
		})
	}
	return lines
}

// Division is by two where the centre front is cut on a fold: their number stays even.
func (c CircleSkirt) Division() Division {
	if c.FrontOnFold {
		return Division{Called: "gores", Pieces: c.Gores, Step: 2}
	}
	return Division{Called: "gores", Pieces: c.Gores, Step: 1, Flat: true}
}

func (c CircleSkirt) Divide(pieces int) Draft { c.Gores = pieces; return c }

// rings returns the waist where the skirt has no opening, else the end of a slit.
func (c CircleSkirt) rings() []Ring {
	rings := pulledOn(c.Opening, c.Waist, c.Hip)
	if c.Opening && c.inOne() {
		rings = append(rings, endOfSlit(c.Waist, c.Length-c.HemRaise, c.Hip))
	}
	return rings
}
