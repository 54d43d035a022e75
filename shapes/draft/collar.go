package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// CollarStyle is the cut of a collar.
type CollarStyle string

// Styles of collars.
const (
	StandCollar CollarStyle = "stand" // a band that leans to the neck
	FlatCollar  CollarStyle = "flat"  // part of a ring that lies on the shoulders
	RuffCollar  CollarStyle = "ruff"  // a strip in pleats, sewn into a band
)

var collarStyles = []CollarStyle{StandCollar, FlatCollar, RuffCollar}

// Collar is sewn to a neckline, as long as that, and opens where it opens. Stand and flat
// collars are cut twice, as halves on a fold, and bagged out:
//
//	stand                          flat
//
//	 fold      upper edge           fold   neck
//	|--------------.___              |'-.
//	|                  ''-. end      |   '.   end
//	|______          ___.-'          |     |_____
//	       '''----'''                 '.        |
//	        neck                        '-._____/   Round
//
// A stand's upper edge is Shorter than its neck edge: a ring sector of the angle
// Shorter / Height, whose neck edge lies outside. A flat collar is Circle of a circle, its
// neck Drop lower in front: the less of a circle, the more it rolls over. Both edges of
// each are exact. OnShoulders it is drawn on the bodice that it is sewn to instead.
//
// A ruff is a strip as high as Height in Pleats of Depth, flat the neck and twice the depth
// for each pleat, joined at inner folds and sewn into a band folded along its middle.
type Collar struct {
	Style    CollarStyle
	Neck     float64 // finished length of the neckline, from end to end, mm; 0: that of the draft given ToNeck
	Height   float64 // from the neck edge to the outer edge, finished, mm
	OpenBack bool    // it opens at the centre back, not at the centre front
	Round    float64 // radius of the outer corners, mm

	Shorter float64 // of a stand: its upper edge than its neck edge, mm; 0: straight
	Circle  float64 // of a flat collar: of a circle, above 0 and at most 1
	Drop    float64 // of a flat collar: how much lower its neck lies in front than behind, mm

	OnShoulders bool    // of a flat collar: drawn on the necks of the draft given ToNeck, where that has them
	Overlap     float64 // of their shoulders at the tip, mm; 0 means DefaultOverlap
	necks       *[2]NeckHalf

	Pleats int     // of a ruff
	Depth  float64 // of a ruff's pleats, from fold to fold, mm
	Band   float64 // of a ruff: finished width of its band, folded, mm
	EndHem float64 // of a ruff: allowance of the ends of its strip, mm

	ClothWidth float64 // usable, mm: of a ruff
	Join       float64 // allowance at each end of each strip, mm
	Allowance  shapes.Allowance
	Chord      float64 // chord error, mm; 0 means DefaultChord
}

// TakesNeck is a draft that may be drafted to the neckline of another.
type TakesNeck interface {
	Draft
	// AsksNeck says whether it has no neck of its own.
	AsksNeck() bool
	// ToNeck returns the draft with the neckline of another for its neck.
	ToNeck(of Draft) Draft
}

// AsksNeck says whether no neck is given.
func (c Collar) AsksNeck() bool { return c.Neck == 0 }

// ToNeck returns the collar as drafted to a neckline.
func (c Collar) ToNeck(of Draft) Draft { return necked{c, of} }

// necked is a collar whose neck is that of another draft.
type necked struct {
	collar Collar
	of     Draft
}

// Draft drafts the collar to the neckline.
func (n necked) Draft() (Result, error) {
	made, err := n.of.Draft()
	if err != nil {
		return Result{}, say.Errorf("collar: neckline of %w", err)
	}
	neck, err := NeckOf(made)
	if err != nil {
		return Result{}, say.Errorf("collar: of what it is sewn to %w", err).Hint("give its neck")
	}
	if _, n.collar.Neck, err = neck.Measure(made.Pieces); err != nil {
		return Result{}, say.Errorf("collar: neckline: %w", err)
	}
	if n.collar.Style == FlatCollar && n.collar.OnShoulders {
		if n.collar.necks = made.Necks; made.Necks == nil && n.collar.Overlap > 0 {
			return Result{}, say.Errorf("collar: what it is sewn to has no shoulders that overlap").
				Hint("leave out its overlap")
		}
	}
	return n.collar.Draft()
}

// Draft returns the collar, to be cut twice; or the strips of a ruff and its band.
func (c Collar) Draft() (Result, error) { return named("collar")(c.draft()) }

func (c Collar) draft() (Result, error) {
	if err := c.check(); err != nil {
		return Result{}, err
	}
	if c.Style == RuffCollar {
		return c.ruff()
	}
	p, err := c.piece("collar", c.Allowance.Seam)
	if err != nil {
		return Result{}, err
	}
	p.Count = 2
	outer := []shapes.SewnEdge{along("collar", "end"), along("collar", "outer edge")}
	if c.Style == FlatCollar {
		outer = []shapes.SewnEdge{against("collar", "end"), against("collar", "outer edge")}
	}
	side := sideOf(thereAndBack(outer)...)
	neck := along("collar", neckName)
	if c.Style == StandCollar {
		neck = against("collar", neckName)
	}
	d := Result{
		Pieces: []shapes.Piece{p},
		Joins:  []shapes.Join{{Name: "collar to under collar, ends and outer edge", A: side, B: side}},
		Neck:   shapes.JoinSide{Edges: thereAndBack([]shapes.SewnEdge{neck}), FromFront: !c.OpenBack},
		EndsAt: c.opensAt(),
	}
	return d, d.notch(d.Neck)
}

// shut names the centre that lies on the fold.
func (c Collar) shut() string {
	if c.OpenBack {
		return "centre front"
	}
	return "centre back"
}

// opensAt names the centre where its ends meet.
func (c Collar) opensAt() string {
	if c.OpenBack {
		return "centre back"
	}
	return "centre front"
}

// laid is the neck of a half drawn on a bodice.
func (c Collar) laid() (laidNeck, error) {
	fold, other := c.necks[1], c.necks[0]
	if c.OpenBack {
		fold, other = other, fold
	}
	return layNecks(fold, other, cmp.Or(c.Overlap, DefaultOverlap), chordError(c.Chord))
}

// rims are the inner and the outer edge about a centre, and the angle of a half, rad.
func (c Collar) rims() (inner, outer swing, half float64) {
	if c.Style == StandCollar {
		half = c.Shorter / c.Height / 2
		r := c.Neck / 2 / half
		return evenly(r - c.Height), evenly(r), half
	}
	half = math.Pi * c.Circle
	drop := c.Drop // of the end under the fold
	if c.OpenBack {
		drop = -drop
	}
	neck := func(radius float64) swing { return swing{middle: radius, side: radius + drop, span: half} }
	plain := c.Neck / 2 / half
	r := bisect(func(r float64) float64 { return neck(r).length() - c.Neck }, 0, plain+c.Drop, 60)
	inner = neck(r)
	outer = swing{middle: inner.middle + c.Height, side: inner.side + c.Height, span: half}
	return inner, outer, half
}

// piece drafts the half on the fold, all its edges but the fold with one allowance.
func (c Collar) piece(name string, allowance float64) (shapes.Piece, error) {
	fold, end := side{c.shut(), shapes.Fold, 0}, side{"end", shapes.Seam, allowance}
	neck, free := side{neckName, shapes.Top, allowance}, side{"outer edge", shapes.Seam, allowance}
	chord := chordError(c.Chord)
	var edges []shapes.Edge
	switch {
	case c.necks != nil:
		laid, err := c.laid()
		if err != nil {
			return shapes.Piece{}, err
		}
		out, err := laid.outer(c.Height)
		if err != nil {
			return shapes.Piece{}, err
		}
		laid.line.Reverse()
		edges = between(out, laid.line, fold, free, end, neck)
	case c.Style == StandCollar && c.Shorter == 0:
		low, high := orb.LineString{{c.Height, 0}, {c.Height, c.Neck / 2}}, orb.LineString{{0, c.Neck / 2}, {0, 0}}
		edges = between(low, high, fold, neck, end, free)
	default:
		inner, outer, half := c.rims()
		if err := c.clearOfFold(inner.radius(half), half, allowance); err != nil {
			return shapes.Piece{}, err
		}
		centre := orb.Point{-inner.radius(0), 0}
		out, in := outer.line(centre, 0, half, 0, chord), inner.line(centre, half, 0, 0, chord)
		// On the fold both run along the grain, to the last bit.
		out[0][1], in[len(in)-1][1] = 0, 0
		if edges = between(out, in, fold, free, end, neck); c.Style == StandCollar {
			edges = between(out, in, fold, neck, end, free)
		}
	}
	if c.Round > 0 && !c.round(edges, chord) {
		return shapes.Piece{}, say.Errorf("corners of a radius of %.1f have no room on a collar %.1f high and %.1f long",
			say.MM(c.Round), say.MM(c.Height), say.MM(c.Neck)).
			Hint("a smaller radius")
	}
	return shapes.NewPiece(name, edges)
}

// clearOfFold refuses a collar that goes so far round that the allowance of its end, at the
// radius of its neck there, lies over the fold.
func (c Collar) clearOfFold(radius, half, allowance float64) error {
	if corner := (radius-allowance)*math.Sin(half) + allowance*math.Cos(half); half <= math.Pi/2 || corner >= 0 {
		return nil
	}
	return say.Errorf("cut from %.2f of a circle, its ends come together: an allowance of %.1f lies over the fold",
		half/math.Pi, say.MM(allowance)).Hint("less of a circle, or less allowance")
}

// round rounds the corner between the end and the outer edge.
func (c Collar) round(edges []shapes.Edge, chord float64) (ok bool) {
	if c.Style == FlatCollar {
		edges[1].Line, edges[2].Line, ok = roundCorner(edges[1].Line, edges[2].Line, c.Round, chord)
		return ok
	}
	// The corner comes before the outer edge: seen in a mirror it is the same.
	flip := func(line orb.LineString) orb.LineString { return plane.MirrorLine(line, 0) }
	free, end, ok := roundCorner(flip(edges[3].Line), flip(edges[2].Line), c.Round, chord)
	edges[2].Line, edges[3].Line = flip(end), flip(free)
	return ok
}

// mostRoll is the least of a circle that a flat collar is: less stands up (from memory).
const mostRoll = 0.2

func (c Collar) check() error {
	if !slices.Contains(collarStyles, c.Style) {
		return fmt.Errorf("there is no %q collar", string(c.Style))
	}
	if err := cmp.Or(
		positive(measured{"neck", c.Neck}, measured{"height", c.Height}),
		notNegative(measured{"corner radius", c.Round}, measured{"difference of the edges", c.Shorter},
			measured{"drop", c.Drop}, measured{"overlap", c.Overlap}),
		checkHem(0, c.Height, c.Chord, c.Allowance),
	); err != nil {
		return err
	}
	switch c.Style {
	case StandCollar:
		return c.checkStand()
	case FlatCollar:
		return c.checkFlat()
	}
	return c.checkRuff()
}

func (c Collar) checkStand() error {
	if c.Shorter == 0 {
		return nil
	}
	if c.Shorter < leastFlare {
		return say.Errorf("the upper edge is shorter by %.3g, at least by %v or not at all", say.MM(c.Shorter),
			say.MM(leastFlare))
	}
	if c.Shorter > c.Neck/2 {
		return say.Errorf("an upper edge shorter by %.1f leaves less than half of a neck of %.1f", say.MM(c.Shorter),
			say.MM(c.Neck))
	}
	if turn := c.Shorter / c.Height; turn > math.Pi {
		return say.Errorf("an upper edge shorter by %.1f on a height of %.1f turns by %.0f degrees, at most 180",
			say.MM(c.Shorter), say.MM(c.Height), turn*180/math.Pi).
			Hint("a higher collar, or less of a difference")
	}
	if _, outer, _ := c.rims(); outer.side > shapes.MaxExtent/2 {
		return say.Errorf("the neck edge has a radius of %.0f, the most is %v", say.MM(outer.side),
			say.MM(shapes.MaxExtent/2))
	}
	return nil
}

func (c Collar) checkFlat() error {
	if c.necks != nil {
		return nil // layNecks
	}
	if !(c.Circle >= mostRoll && c.Circle <= 1) {
		return fmt.Errorf("%g of a circle, must be from %g to 1 for a collar that lies flat", c.Circle, mostRoll)
	}
	inner, _, _ := c.rims()
	if least := min(inner.middle, inner.side); least <= max(c.Allowance.Seam, leastLevel) {
		return say.Errorf("a drop of %.6g is too much for a neck of %.6g: it would be cut on a radius of %.1f",
			say.MM(c.Drop), say.MM(c.Neck), say.MM(least)).
			Hint("less drop, or less of a circle")
	}
	return nil
}
