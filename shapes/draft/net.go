package draft

import (
	"cmp"
	"fmt"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// DefaultLift is the usual lift of gathered net, common practice: over ten
// layers of 18 to 36 in it turns 27.4 m of net into 28.3 m, inside the 28 to 30 m
// that makers report. Every layer takes the same share: shares that grow from layer
// to layer would make 31.6 m of it.
const DefaultLift = 0.03

// NetLayers is a skirt of gathered net: layers sewn one above the other onto a
// circle or a gored skirt, all reaching its hem. The first layer is sewn on lowest, each
// further one a gap higher, over those before it:
//
//	waist  ----------------
//	          ^     |           last layer, deepest, outermost
//	          |     |  |
//	   FirstSeam    |  |  |     a Gap between seam lines
//	          |     |  |  |
//	          v     |  |  |  |  first layer, shallowest
//	hem    ----------------
//
// At distance d below the waist a circle skirt measures Waist + 2 pi f d around, f
// being the fraction of a circle (for a whole circle, radius and girth grow
// together by 2 pi), and a gored one what OnSkirt finds.
//
// Lift makes up for a layer standing out over the ones below it instead of
// hanging straight: every layer is cut deeper by that share of the distance
// from its seam line to the hem, so the longer outer layers gain the most.
//
// Net does not fray; its hem is raw unless HemAllowance is given. The hem
// allowance in Allowance is that of the gown and is not used.
type NetLayers struct {
	Waist         float64 // girth of the skirt at its waist seam, mm
	SkirtFraction float64 // of a circle, above 0; the skirt that the net is sewn onto. 0: OnSkirt tells
	SkirtLength   float64 // from waist to hem, mm

	FirstSeam float64 // from the waist down to the seam line of the first, lowest layer, mm
	Gap       float64 // from the first seam line up to the second, mm
	GapChange float64 // each further gap is wider by this, mm; negative narrows them
	Layers    int

	Widths   float64 // usable widths of cloth in each layer, a fraction allowed; or else:
	Fullness float64 // flat length over girth, 1 or more

	Lift       float64 // share of the depth, DefaultLift by habit; 0 adds nothing
	ClothWidth float64 // usable, mm
	Join       float64 // allowance at each end of each strip, mm

	HemAllowance float64 // mm; 0 leaves the hem raw
	Allowance    shapes.Allowance
	Skirt        NetSkirt // that it is sewn onto: set by OnSkirt
}

// NetLayer is one line of the table of NetLayers.
type NetLayer struct {
	Layer    int     // 1 is the first, lowest
	Depth    float64 // from the waist to the seam line, mm
	Girth    float64 // of the skirt there: what the layer is gathered onto, mm
	Flat     float64 // flat edge, strips joined, mm
	Fullness float64 // Flat / Girth
	Strips   int     // across the cloth, the last one perhaps narrower
	CutDepth float64 // seam line to hem with lift, and allowances, mm
	Cloth    float64 // length of cloth at one strip a row, mm

	// Quarters are the places on the skirt where the marks of the flat edge are
	// pinned, mm along the girth from centre back. They start an eighth of the girth
	// from there, so that none meets centre back or centre front; each that has a seam
	// of the skirt near is moved onto it, with the mark as far along the flat edge.
	Quarters [4]float64
	Seams    [4]string // of the skirt, that they lie on; "" for none
	Open     bool      // it crosses the opening at the centre back and is open there
}

// Gathered is a draft of gathered layers of which may be asked how full they are.
type Gathered interface {
	Draft
	Asked() Fullness
	// OfWidths returns the same draft with each layer of so many widths of cloth.
	OfWidths(n int) Draft
}

// Fullness is how full gathered layers are asked to be: one of both is 0.
type Fullness struct {
	Widths float64 // usable widths of cloth in each layer
	Ratio  float64 // flat length over girth
}

// Asked returns what each layer is asked to be.
func (n NetLayers) Asked() Fullness { return Fullness{n.Widths, n.Fullness} }

// OfWidths returns the layers of so many widths of cloth each.
func (n NetLayers) OfWidths(widths int) Draft { n.Widths = float64(widths); return n }

// netLayer is a layer as drafted.
type netLayer struct {
	NetLayer
	finished float64 // seam line to hem with lift, mm
	piecing  piecing
}

// Draft returns for each layer its whole strips, one piece with a count, and the
// narrower strip that makes up the length, if any. Depth lies along the grain;
// the gathered edge takes the seam allowance. Layers that would sit above the
// waist or below the hem, and too little cloth to go round, are refused.
func (n NetLayers) Draft() (Result, error) {
	layers, err := n.plan()
	if err != nil {
		return Result{}, err
	}
	d := Result{Joins: n.joins(layers), Notes: n.notes(layers), Gathered: true, Net: true}
	for _, l := range layers {
		pieces, err := l.piecing.pieces(netLayerName(l.Layer), l.finished,
			side{"gathered edge", shapes.Top, n.Allowance.Seam}, side{"hem", shapes.Hem, n.HemAllowance})
		if err != nil {
			return Result{}, err
		}
		d.Pieces = append(d.Pieces, pieces...)
		d.Tables.Layers = append(d.Tables.Layers, l.NetLayer)
	}
	return d, d.notch()
}

// joins returns for each layer the seams of its strips, to a ring unless it is open at
// the centre back, and that onto the skirt.
func (n NetLayers) joins(layers []netLayer) []shapes.Join {
	var out []shapes.Join
	for _, l := range layers {
		name, onto := netLayerName(l.Layer), fmt.Sprintf("layer %d onto the skirt", l.Layer)
		if l.Open {
			onto += ", back open"
		}
		out = append(out, l.piecing.endToEnd(name, fmt.Sprintf("layer %d, ", l.Layer))...)
		out = append(out, shapes.Join{
			Name: onto, Notches: l.Quarters[:],
			A: shapes.JoinSide{Edges: l.piecing.run(name, "gathered edge"), Treatment: gathered(l.Fullness)},
			B: shapes.JoinSide{Onto: n.onto(l.Layer), Length: l.Girth},
		})
	}
	return out
}

// onto is what a layer is sewn onto.
func (n NetLayers) onto(layer int) string {
	if n.Skirt.climbed == nil {
		return "its seam line on the skirt"
	}
	return "line " + n.lineName(layer) + " on the skirt"
}

// notes says of which layers the fullness is eased, and where it is not known which of
// them cross the opening.
func (n NetLayers) notes(layers []netLayer) []say.Text {
	var notes []say.Text
	for _, l := range layers {
		if n.Fullness != 0 {
			notes = append(notes, easedNote(netLayerName(l.Layer), n.Fullness, l.Fullness)...)
		}
	}
	if n.Skirt.opens && n.Skirt.stop == 0 {
		notes = append(notes, say.Textf(
			"how far the skirt opens at centre back is not known: every layer goes all round. "+
				"Leave those open that lie above the stop, or give the zip its `closed` length."))
	}
	return notes
}

// netLayerName is what the strips of a layer are called by.
func netLayerName(layer int) string { return fmt.Sprintf("net layer %d", layer) }

func (n NetLayers) plan() ([]netLayer, error) {
	if err := n.check(); err != nil {
		return nil, say.Errorf("net layers: %w", err)
	}
	layers := make([]netLayer, n.Layers)
	depth := n.FirstSeam
	for k := range layers {
		if k > 0 {
			gap := n.Gap + float64(k-1)*n.GapChange
			if !(gap > 0) {
				return nil, say.Errorf("net layers: the gap below layer %d is %.6g, must be more than 0", k+1,
					say.MM(gap)).
					Hint("fewer layers, or a smaller change of the gap")
			}
			depth -= gap
		}
		if depth < -roundingError*n.FirstSeam {
			return nil, say.Errorf("net layers: layer %d of %d would be sewn %.6g above the waist", k+1, n.Layers,
				say.MM(-depth)).
				Hint("fewer layers, a smaller gap, or a first seam further down")
		}
		layer, err := n.layer(k, max(depth, 0))
		if err != nil {
			return nil, say.Errorf("net layers, layer %d: %w", k+1, err)
		}
		layers[k] = layer
	}
	return layers, nil
}

// roundingError is the share of a length by which sums of lengths converted
// from inches may miss it.
const roundingError = 1e-9

func (n NetLayers) layer(k int, depth float64) (netLayer, error) {
	girth := n.Waist + 2*math.Pi*n.SkirtFraction*depth
	if n.SkirtFraction == 0 {
		girth = n.Skirt.girth(depth)
	}
	open := n.Skirt.crosses(depth)
	p, err := n.piecing(girth, n.ends(open))
	if err != nil {
		return netLayer{}, err
	}
	flat := p.flat()
	if n.Widths != 0 && flat < girth {
		return netLayer{}, say.Errorf("%g widths sew up to %.0f, less than the %.0f they go round", n.Widths,
			say.MM(flat), say.MM(girth)).
			Hint("at least %s", say.Count(int(math.Ceil(girth/(p.width-2*p.join))), "width"))
	}
	l := netLayer{piecing: p, finished: (n.SkirtLength - depth) * (1 + n.Lift)}
	shares, seams := n.Skirt.marks(depth)
	l.NetLayer = NetLayer{
		Layer: k + 1, Depth: depth, Girth: girth, Flat: flat, Fullness: flat / girth,
		Strips: p.count(), CutDepth: n.Allowance.Seam + l.finished + n.HemAllowance,
		Seams: seams, Open: open,
	}
	for i, share := range shares {
		l.Quarters[i] = share * girth
	}
	l.Cloth = float64(l.Strips) * l.CutDepth
	return l, nil
}

// ends are those of a layer; open ones are left as its lower edge is.
func (n NetLayers) ends(open bool) ends {
	if open {
		return ends{free: true, hem: n.HemAllowance}
	}
	return ring
}

// piecing makes up the layer that goes round a girth.
func (n NetLayers) piecing(girth float64, e ends) (piecing, error) {
	if n.Widths != 0 {
		return pieceWidths(n.Widths, n.ClothWidth, n.Join, e)
	}
	return pieceGathered(n.Fullness*girth, girth, n.ClothWidth, n.Join, e)
}

func (n NetLayers) check() error {
	if err := cmp.Or(
		positive(measured{"waist", n.Waist}, measured{"skirt length", n.SkirtLength}),
		notNegative(
			measured{"first seam line below the waist", n.FirstSeam},
			measured{"hem allowance", n.HemAllowance},
		),
	); err != nil {
		return err
	}
	if n.SkirtFraction != 0 || n.Skirt.climbed == nil {
		if err := checkFraction(n.SkirtFraction); err != nil {
			return err
		}
	}
	switch {
	case n.FirstSeam >= n.SkirtLength:
		return say.Errorf("the first seam line lies %.6g below the waist, the hem %.6g", say.MM(n.FirstSeam),
			say.MM(n.SkirtLength)).
			Hint("sew the first layer on above the hem")
	case n.Layers < 1 || n.Layers > MaxCount:
		return fmt.Errorf("layers: %d, must be from 1 to %d", n.Layers, MaxCount)
	case math.IsNaN(n.GapChange) || math.IsInf(n.GapChange, 0):
		return say.Errorf("change of the gap is %.6g", say.MM(n.GapChange))
	case !(n.Lift >= 0 && n.Lift <= 1):
		return fmt.Errorf("lift is %g, must be from 0 to 1 (%g is 3 %%)", n.Lift, DefaultLift)
	case n.Widths != 0 && n.Fullness != 0:
		return say.Errorf("both widths of cloth (%g) and fullness (%g) are given", n.Widths, n.Fullness).
			Hint("give one of them")
	case n.Widths == 0 && n.Fullness == 0:
		return say.Errorf("neither widths of cloth nor fullness is given").Hint("net takes a fullness of 3 to 6")
	case n.Widths == 0:
		if err := shapes.CheckFullness(n.Fullness); err != nil {
			return err
		}
	}
	return n.Allowance.Check()
}
