package draft

import (
	"cmp"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// GoredSkirt is a skirt of gores that are fitted to the hip and flare to the hem.
//
//	waist   hip                      hem
//	  .------.
//	 (        """"----....____         \      flank: an arc from waist to hip,
//	--)--------+-------------- """"-----) - - then the flare; its tangent never jumps
//	 (        ____----""""              /
//	  '------'
//	  |  D   |
//	  |        Length                  |
//
// Girths are exact and measured as they are worn: at the waist, at the hip depth
// D and at the hem, along arcs that cross the seams at right angles. Depths and
// the length run along the seams, the same on both sides of each, so that seams
// match and the hem meets every seam squarely whatever the gores' widths.
//
// The flare is straight from the hip down. A trumpet keeps the hip's width, the
// seams straight along the grain, down to FlareFrom; there the seam bends out in
// an arc over the upper half of the flare and runs straight in the lower half.
//
// Nowhere between waist and hip is the skirt tighter than a straight line from one
// to the other, or than the high hip. A wide flare that runs straight into the waist
// would be: then it leans out less at the hip, no less than it has to, and bends out
// below it, on as far again as the hip's depth (Notes says so), and the flank becomes
// two arcs that meet at the high hip where one passes it too closely.
type GoredSkirt struct {
	Waist     float64 // girth sewn to the waistband, mm
	Hip       float64 // girth at the hip, ease included, mm
	HipDepth  float64 // from waist to hip, mm
	HighHip   HighHip // that it has to clear between them
	HemSweep  float64 // girth of the outer layer's hem, mm
	FrontHem  float64 // hem of the centre front gore, of each of the two where the number is even, mm; 0 an equal share
	Length    float64 // from waist to hem, finished, of the outer layer, mm
	Gores     int
	FlareFrom float64 // depth below the waist where a trumpet begins to flare, mm; 0 from the hip
	HemRaise  float64 // how much shorter this layer is than the outer one, on the same seams, mm
	Opening   bool    // the centre back seam is an opening
	Allowance shapes.Allowance
	Chord     float64 // chord error, mm; 0 means DefaultChord

	viaHighHip bool    // the flank runs through the high hip: set by fit
	bend       float64 // length over which the flare bends out, mm; 0 half of it: set by fit
	lean       float64 // share of its angle that such a flare has at the hip already: set by fit
}

// steepest is the most that a flank may lean from the grain, rad: 80 degrees. A
// gore that leans further is no gore any more.
const steepest = 80 * math.Pi / 180

// Draft returns one piece a place, from the centre back to the centre front.
func (g GoredSkirt) Draft() (Result, error) { return named(g.called())(then(g.hang())) }

func (g GoredSkirt) hang() (hung, error) {
	if err := g.check(); err != nil {
		return hung{}, err
	}
	asked := g
	g, tight, err := g.fit()
	if err != nil {
		return hung{}, err
	}
	h := hung{length: g.Length, rings: g.rings(), notes: asked.notes(g, tight), skirt: skirt{
		gores: g.Gores, opening: g.Opening, allowance: g.Allowance, notches: []float64{g.HipDepth},
		list: places(g.Gores, false),
	}}
	if g.FlareFrom > g.HipDepth {
		h.notches = append(h.notches, g.FlareFrom)
	}
	back, front := g.hems()
	for i, p := range h.list {
		hem := back
		if i == len(h.list)-1 {
			hem = front
		}
		shape, err := g.shape(hem)
		if err != nil {
			return hung{}, say.Errorf("%s: %w", p.pieceName(), err)
		}
		h.shapes = append(h.shapes, shape)
	}
	return h, nil
}

func (g GoredSkirt) called() string { return "gored skirt" }

func (g GoredSkirt) unraised() (gored, float64) {
	raise := g.HemRaise
	g.HemRaise = 0
	return g, raise
}

// backPairs leaves out front gores that lean otherwise.
func (g GoredSkirt) backPairs() int {
	if g.FrontHem != 0 && g.Gores%2 == 0 {
		return g.Gores/2 - 1
	}
	return g.Gores / 2
}

func (g GoredSkirt) underNet() (NetSkirt, error) {
	drawn, err := g.fitted()
	return NetSkirt{climbed: drawn, waist: g.Waist, length: g.Length, opens: g.Opening}, err
}

// hems returns the hem of a gore of the outer layer, and of one at the centre front.
func (g GoredSkirt) hems() (other, front float64) {
	share := g.HemSweep / float64(g.Gores)
	fronts := 2 - g.Gores%2
	if g.FrontHem == 0 || fronts == g.Gores {
		return share, share
	}
	return (g.HemSweep - float64(fronts)*g.FrontHem) / float64(g.Gores-fronts), g.FrontHem
}

// shape drafts one gore with the given hem of its outer layer.
func (g GoredSkirt) shape(hem float64) (gore, error) {
	c, err := g.flank(hem)
	if err != nil {
		return gore{}, err
	}
	chord := chordError(g.Chord)
	c = c.upTo(g.Length - g.HemRaise)
	return gore{
		flank: c.line(g.Waist/float64(g.Gores)/2*sinc(c[0].from), chord),
		waist: c[0].from, hem: c[len(c)-1].to, chord: chord,
	}, nil
}

// flank returns that of a gore with the given hem, of the outer layer: from the
// waist in one arc to the hip, or in two that meet at the high hip, and the flare.
func (g GoredSkirt) flank(hem float64) (curve, error) {
	n := float64(g.Gores)
	flare, angle, err := g.flare(g.Hip/n, hem)
	if err != nil {
		return nil, err
	}
	girth, depth, at := g.Hip, g.HipDepth, "hip"
	if g.viaHighHip {
		h := g.HighHip
		from, err := arcAngle(h.Girth/n, girth/n, angle, depth-h.Depth, "high hip", "hip")
		if err != nil {
			return nil, err
		}
		flare = append(curve{{depth - h.Depth, from, angle}}, flare...)
		girth, depth, angle, at = h.Girth, h.Depth, from, "high hip"
	}
	from, err := arcAngle(g.Waist/n, girth/n, angle, depth, "waist", at)
	if err != nil {
		return nil, err
	}
	return append(curve{{depth, from, angle}}, flare...), nil
}

// flare returns the flank below the hip, and its angle at the hip.
func (g GoredSkirt) flare(hip, hem float64) (curve, float64, error) {
	below := func(angle float64) curve {
		if g.FlareFrom == 0 {
			return curve{{g.Length - g.HipDepth, angle, angle}}
		}
		whole := g.Length - g.FlareFrom
		bend := whole / 2
		if g.bend > 0 {
			bend = min(bend, g.bend)
		}
		return curve{{g.FlareFrom - g.HipDepth, 0, 0}, {bend, g.lean * angle, angle}, {whole - bend, angle, angle}}
	}
	// An arc of length m that meets flanks leaning by angle squarely ends
	// m/2 sinc(angle) from the grain line.
	atHip := func(angle float64) float64 {
		if g.FlareFrom == 0 {
			return angle
		}
		return g.lean * angle
	}
	excess := func(angle float64) float64 {
		return hip/2*sinc(atHip(angle)) + below(angle).gain() - hem/2*sinc(angle)
	}
	angle, ok := firstRoot(excess, 0, steepest)
	if !ok {
		return nil, 0, say.Errorf("hem of %.1f a gore is too wide to reach from a hip of %.1f", say.MM(hem),
			say.MM(hip)).
			Hint("more gores")
	}
	return below(angle), atHip(angle), nil
}

// arcAngle returns the flank's angle at a girth of a gore from which one arc leads
// down to another girth, where the angle is given; all mm and rad. Upper and lower
// are what errors call the two.
func arcAngle(girth, below, angle, depth float64, upper, lower string) (float64, error) {
	excess := func(from float64) float64 {
		arc := curve{{depth, from, angle}}
		return girth/2*sinc(from) + arc.gain() - below/2*sinc(angle)
	}
	from, ok := firstRoot(excess, -steepest, steepest)
	if !ok {
		return 0, say.Errorf("from a %s of %.1f to a %s of %.1f a gore is too steep for a %s depth of %.1f", upper,
			say.MM(girth), lower, say.MM(below), lower, say.MM(depth)).
			Hint("more gores")
	}
	return from, nil
}

func (g GoredSkirt) check() error {
	err := positive(measured{"waist", g.Waist}, measured{"hip", g.Hip}, measured{"hip depth", g.HipDepth},
		measured{"hem sweep", g.HemSweep}, measured{"length", g.Length})
	if err != nil {
		return err
	}
	return cmp.Or(
		notNegative(measured{"flare depth", g.FlareFrom}, measured{"front hem", g.FrontHem}),
		checkHem(g.HemRaise, g.Length, g.Chord, g.Allowance),
		checkGores(g.Gores),
		g.checkDepths(),
		g.HighHip.check(g.HipDepth),
		g.checkGirths(),
	)
}

func (g GoredSkirt) checkDepths() error {
	finished := g.Length - g.HemRaise
	if g.HipDepth >= finished {
		return say.Errorf("hip depth of %.1f does not lie above the hem at %.1f", say.MM(g.HipDepth), say.MM(finished))
	}
	if g.FlareFrom != 0 && g.FlareFrom < g.HipDepth {
		return say.Errorf("flare from %.1f starts above the hip at %.1f", say.MM(g.FlareFrom), say.MM(g.HipDepth))
	}
	if g.FlareFrom >= g.Length {
		return say.Errorf("flare from %.1f does not start above the hem at %.1f", say.MM(g.FlareFrom), say.MM(g.Length))
	}
	return nil
}

// checkGirths refuses what cannot be put on or walked in.
func (g GoredSkirt) checkGirths() error {
	if g.HemSweep < g.Hip {
		return say.Errorf("hem sweep of %.1f is less than the hip of %.1f: the skirt would bind the legs",
			say.MM(g.HemSweep), say.MM(g.Hip))
	}
	if err := cmp.Or(checkWorn(g.rings(), g.Opening, g.Waist, g.Hip), g.checkFrontHem()); err != nil {
		return err
	}
	if other, front := g.hems(); min(other, front) < g.Waist/float64(g.Gores) {
		return say.Errorf("hem of %.1f a gore is narrower than its waist of %.1f: the skirt would taper",
			say.MM(min(other, front)), say.MM(g.Waist/float64(g.Gores))).
			Hint("a wider hem sweep or front hem")
	}
	return nil
}

// checkFrontHem refuses a hem of the front gores that leaves theirs or the others'
// narrower than the hip.
func (g GoredSkirt) checkFrontHem() error {
	if g.FrontHem == 0 {
		return nil
	}
	share, n := g.Hip/float64(g.Gores), g.Gores
	if n <= 2 {
		return say.Errorf("front hem of %.1f: with %s there is no hem but the sweep's share", say.MM(g.FrontHem),
			say.Count(n, "gore"))
	}
	if g.FrontHem < share {
		return say.Errorf("front hem of %.1f is less than the gore's hip of %.1f", say.MM(g.FrontHem), say.MM(share))
	}
	if other, _ := g.hems(); other < share {
		return say.Errorf("front hem of %.1f leaves %.1f to each other gore, less than its hip of %.1f",
			say.MM(g.FrontHem), say.MM(other), say.MM(share))
	}
	return nil
}

func (g GoredSkirt) Division() Division { return Division{Called: "gores", Pieces: g.Gores, Step: 1} }

func (g GoredSkirt) Divide(pieces int) Draft { g.Gores = pieces; return g }

// rings returns the waist where the skirt has no opening.
func (g GoredSkirt) rings() []Ring { return pulledOn(g.Opening, g.Waist, g.Hip) }
