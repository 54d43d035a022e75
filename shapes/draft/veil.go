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

// VeilShape is how a veil is cut.
type VeilShape string

// Shapes of veils.
const (
	RectangleVeil  VeilShape = "rectangle"   // the lower corners may be rounded
	HalfCircleVeil VeilShape = "half-circle" // as long everywhere; its edge falls in cascades
	OvalVeil       VeilShape = "oval"        // half an oval, or with a blusher a whole one
)

var veilShapes = []VeilShape{RectangleVeil, HalfCircleVeil, OvalVeil}

// Veil is one layer of net gathered onto a comb at the crown of the head:
//
//	rectangle         half circle, or oval      oval with a blusher
//
//	 ---gathered---    ----gathered----             .--'''--.    over the face
//	|              |  |                |          .'         '.
//	|              |   \              /      - - ( - gathered - ) - -
//	|  Width       |    '.          .'            '.         .'  Length
//	 '.__________.'       '-.____.-'                 '--___--'
//
// A half circle is twice as wide as it is long, half an oval as wide as Width says: half an
// ellipse. A whole oval is folded over the comb on a chord of the ellipse, Blusher from its
// front end.
type Veil struct {
	Shape    VeilShape
	Length   float64 // from the comb down the middle to the hem, mm
	Width    float64 // of a rectangle, or of an oval at its widest, mm
	Blusher  float64 // of an oval: from the comb over the face to the hem, mm; 0 for none
	Round    float64 // radius of the lower corners of a rectangle, mm
	Comb     float64 // width that it is gathered to, mm
	Gathered float64 // how much of the straight edge is gathered, its middle, mm; 0: all

	Allowance shapes.Allowance
	Chord     float64 // chord error of curves, mm; 0 means DefaultChord
}

// across is the width at its widest, mm.
func (v Veil) across() float64 {
	if v.Shape == HalfCircleVeil {
		return 2 * v.Length
	}
	return v.Width
}

// Edge returns the length that may be gathered: the straight edge, or the chord that an
// oval is folded on, mm.
func (v Veil) Edge() float64 {
	if v.Blusher == 0 {
		return v.across()
	}
	axis := (v.Length + v.Blusher) / 2
	off := (axis - v.Blusher) / axis
	return v.across() * math.Sqrt(1-off*off)
}

func (v Veil) gathered() float64 {
	if v.Gathered == 0 {
		return v.Edge()
	}
	return v.Gathered
}

// Draft returns the one piece.
func (v Veil) Draft() (Result, error) { return named("veil")(v.draft()) }

func (v Veil) draft() (Result, error) {
	if err := v.check(); err != nil {
		return Result{}, err
	}
	edges := v.edges()
	p, err := shapes.NewPiece("veil", edges)
	if err != nil {
		return Result{}, err
	}
	d := Result{Net: true, Gathered: true, Combs: []float64{v.Comb}}
	if v.Blusher > 0 {
		half := v.gathered() / 2
		p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: "gathering line"})
		p.Mark(edges, orb.LineString{{v.Blusher, half}, {v.Blusher, -half}})
		p.Grain = grainBeside(p.Grain, v.across()/8)
		d.Pieces = []shapes.Piece{p}
		d.Notes = []say.Text{say.Textf("Gather along the marked line, %.4g long, to the comb of %.4g: %.3g to 1.",
			say.MM(v.gathered()), say.MM(v.Comb), v.gathered()/v.Comb)}
		return d, nil
	}
	d.Pieces = []shapes.Piece{p}
	d.Joins = []shapes.Join{{
		Name: "gathered edge to its comb", Notches: quartersOf(v.Comb),
		A: shapes.JoinSide{Edges: []shapes.SewnEdge{along("veil", "gathered edge")},
			Treatment: gathered(v.gathered() / v.Comb)},
		B: shapes.JoinSide{Onto: "the comb", Length: v.Comb},
	}}
	return d, d.notch()
}

// grainBeside moves an arrow across the grain, mm, clear of what is marked in the middle.
func grainBeside(arrow orb.LineString, by float64) orb.LineString {
	out := slices.Clone(arrow)
	for i := range out {
		out[i][1] += by
	}
	return out
}

// edges are the finished lines, the comb at low x.
func (v Veil) edges() []shapes.Edge {
	if v.Blusher > 0 {
		axis := (v.Length + v.Blusher) / 2
		rim := ellipse(orb.Point{axis, 0}, axis, v.across()/2, -math.Pi, math.Pi, chordError(v.Chord))
		return []shapes.Edge{{Name: "hem", Kind: shapes.Hem, Line: rim, Allowance: v.Allowance.Hem}}
	}
	half, held := v.across()/2, v.gathered()/2
	var hem orb.LineString
	if v.Shape == RectangleVeil {
		lower, end := orb.LineString{{0, -half}, {v.Length, -half}}, orb.LineString{{v.Length, -half}, {v.Length, half}}
		upper := orb.LineString{{v.Length, half}, {0, half}}
		hem = lower
		if v.Round > 0 {
			arc := plane.Arc(orb.Point{v.Length - v.Round, v.Round - half}, v.Round, -math.Pi/2, 0, chordError(v.Chord))
			hem = append(orb.LineString{{0, -half}}, arc...)
			hem = append(hem, plane.MirrorLine(hem, 0)...)
		} else {
			hem = append(append(hem, end[1:]...), upper[1:]...)
		}
	} else {
		hem = ellipse(orb.Point{}, v.Length, half, -math.Pi/2, math.Pi/2, chordError(v.Chord))
	}
	hem[0], hem[len(hem)-1] = orb.Point{0, -half}, orb.Point{0, half}
	top := v.Allowance.Seam
	if held < half {
		top = v.Allowance.Hem // gathered on the edge itself, which runs on
	}
	all := []shapes.Edge{{Name: "hem", Kind: shapes.Hem, Line: hem, Allowance: v.Allowance.Hem}}
	if held < half {
		all = append(all, shapes.Edge{Name: "upper end", Kind: shapes.Hem, Line: orb.LineString{{0, half}, {0, held}},
			Allowance: v.Allowance.Hem})
	}
	all = append(all, shapes.Edge{Name: "gathered edge", Kind: shapes.Top, Line: orb.LineString{{0, held}, {0, -held}},
		Allowance: top})
	if held < half {
		all = append(all, shapes.Edge{Name: "lower end", Kind: shapes.Hem, Line: orb.LineString{{0, -held}, {0, -half}},
			Allowance: v.Allowance.Hem})
	}
	return all
}

// ellipse samples one with half axes along and across the grain from one angle of its
// circle to another. Over an angle h a chord lies within h^2/8 of the longer half axis.
func ellipse(centre orb.Point, along, across, from, to, chord float64) orb.LineString {
	n := max(8, int(math.Ceil((to-from)*math.Sqrt(max(along, across)/(8*chord)))))
	line := make(orb.LineString, n+1)
	for i := range line {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		line[i] = orb.Point{centre[0] + along*cos, centre[1] + across*sin}
	}
	if to-from == 2*math.Pi {
		line[n] = line[0]
	}
	return line
}

// leastHeld is the least that is gathered, mm.
const leastHeld = 10

func (v Veil) check() error {
	if !slices.Contains(veilShapes, v.Shape) {
		return fmt.Errorf("there is no veil of the shape %q", string(v.Shape))
	}
	if err := cmp.Or(
		positive(measured{"length", v.Length}, measured{"comb", v.Comb}),
		notNegative(measured{"blusher", v.Blusher}, measured{"corner radius", v.Round},
			measured{"gathered length", v.Gathered}),
		checkHem(0, v.Length, v.Chord, v.Allowance),
	); err != nil {
		return err
	}
	if v.Shape != HalfCircleVeil {
		if err := positive(measured{"width", v.Width}); err != nil {
			return err
		}
	}
	switch held := v.gathered(); {
	case v.Blusher > v.Length:
		return say.Errorf("blusher of %.1f is longer than the veil of %.1f behind", say.MM(v.Blusher), say.MM(v.Length))
	case v.Blusher > 0 && v.Shape != OvalVeil:
		return say.Errorf("blusher of %.1f: a %s is not folded over the comb", say.MM(v.Blusher), string(v.Shape)).
			Hint("an oval, or a second veil for the face")
	case v.Round > 0 && v.Shape != RectangleVeil:
		return say.Errorf("corner radius of %.1f: a %s has no corners below", say.MM(v.Round), string(v.Shape))
	case v.Round > min(v.Width/2, v.Length)-leastHeld/2 && v.Round > 0:
		return say.Errorf("corners of a radius of %.1f take more than a veil of %.1f by %.1f has", say.MM(v.Round),
			say.MM(v.Length), say.MM(v.Width))
	case held > v.Edge():
		return say.Errorf("%.1f are to be gathered of an edge of %.1f", say.MM(held), say.MM(v.Edge()))
	case held < max(v.Comb, leastHeld):
		return say.Errorf("%.1f gathered onto a comb of %.1f: nothing is gathered", say.MM(held), say.MM(v.Comb)).
			Hint("a wider veil, or a narrower comb")
	}
	return shapes.CheckFullness(v.gathered() / v.Comb)
}
