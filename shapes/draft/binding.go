package draft

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Binding is a long narrow strip folded over an edge, pieced from strips across
// the cloth or, to go round curves, on the bias:
//
//	straight                      on the bias, at 45 degrees
//
//	.--.--.--.--.  ^              .--.--.--.--.
//	|  |  |  |  |  | across      /  /  /  /  /
//	|  |  |  |  |  | the cloth  /  /  /  /  /
//	'--'--'--'--'  v           '--'--'--'--'
//
// A strip of the cut width w takes w of the cloth's length, on the bias w sqrt 2;
// its length is the cloth's usable width, on the bias that times sqrt 2. The join
// allowance, measured across the cloth, is lost at both ends of each strip. Free ends
// of the binding are turned in.
type Binding struct {
	Bias   bool
	Length float64 // of the edge to bind, mm
	Width  float64 // finished, mm
	Folds  int     // cut width over finished width: 2 folded once, 4 with both sides turned in; 0 means 4
	Closed bool    // it binds a ring: its ends are joined too
	TurnIn float64 // at each end that is not joined, along the binding, mm; 0 leaves it raw

	ClothWidth float64 // usable, mm
	Join       float64 // allowance at each end of each strip, across the cloth, mm
}

// BindingTable holds the figures of a binding.
type BindingTable struct {
	CutWidth float64 // of a strip, square to its long sides, mm
	Strips   int     // the last one perhaps shorter
	Joins    int     // seams between strips, with the one that closes a ring
	Length   float64 // of the strips sewn together, between what is turned in at free ends, mm
	Cloth    float64 // length of cloth, strips side by side, mm
}

// maxFolds is the most layers a binding is folded to; more is a slip of the pen.
const maxFolds = 12

// ends are those of the binding; allowances are measured across the cloth.
func (b Binding) ends() ends {
	if b.Closed {
		return ring
	}
	return ends{free: true, hem: b.TurnIn / b.slant()}
}

// CutWidth returns that of a strip, mm.
func (b Binding) CutWidth() float64 {
	if b.Folds == 0 {
		return 4 * b.Width
	}
	return float64(b.Folds) * b.Width
}

// slant is what the bias makes longer: sqrt 2, or 1.
func (b Binding) slant() float64 {
	if b.Bias {
		return math.Sqrt2
	}
	return 1
}

func (b Binding) name() string {
	if b.Bias {
		return "bias binding"
	}
	return "straight binding"
}

// Area returns the cloth that a length of binding is made of, mm2, joins and
// corners left aside: length x cut width.
func (b Binding) Area() float64 { return b.Length * b.CutWidth() }

// FromArea returns the length that an area (mm2) of cloth gives, mm, joins and
// corners left aside: the same law the other way.
func (b Binding) FromArea(area float64) float64 { return area / b.CutWidth() }

// FromCloth returns the figures of what a length of cloth (mm) gives, in strips
// from one edge of the usable width to the other; the corners that strips on the
// bias leave at both ends are not used. The binding's own length is not. A length
// too short for one strip is refused.
func (b Binding) FromCloth(length float64) (BindingTable, error) {
	err := positive(measured{"length of cloth", length}, measured{"width", b.Width})
	strips := piecing{}
	if err == nil {
		strips, err = newPiecing(b.ClothWidth, b.Join, b.ends())
	}
	if err == nil {
		err = b.checkFolds()
	}
	if err != nil {
		return BindingTable{}, say.Errorf("%s: %w", b.name(), err)
	}
	n := math.Floor((length-b.corner(strips.width))/(b.CutWidth()*b.slant()) + roundingError)
	if n < 1 {
		return BindingTable{}, say.Errorf("%s: %.1f of cloth %.1f wide are too short for one strip %.1f wide", b.name(),
			say.MM(length), say.MM(b.ClothWidth), say.MM(b.CutWidth())).
			Hint("at least %.1f", say.MM(b.corner(strips.width)+b.CutWidth()*b.slant()))
	}
	if err := checkStrips(n); err != nil {
		return BindingTable{}, say.Errorf("%s: %w", b.name(), err)
	}
	strips.full = int(n)
	return b.table(strips), nil
}

// corner is the length of cloth that a strip of a height leans over, mm.
func (b Binding) corner(height float64) float64 {
	if b.Bias {
		return height
	}
	return 0
}

func (b Binding) table(strips piecing) BindingTable {
	t := BindingTable{
		CutWidth: b.CutWidth(), Strips: strips.count(), Joins: strips.count() - 1, Length: strips.flat() * b.slant(),
	}
	if b.Closed {
		t.Joins++
	}
	height := strips.part
	if strips.full > 0 {
		height = strips.width
	}
	t.Cloth = float64(t.Strips)*t.CutWidth*b.slant() + b.corner(height)
	return t
}

// Draft returns the whole strips, one piece with a count, and the shorter strip
// that makes up the length, if any. The long sides are cut without allowance: they
// are turned in. The folds are marked inside.
func (b Binding) Draft() (Result, error) {
	strips, err := b.plan()
	if err != nil {
		return Result{}, err
	}
	table := b.table(strips)
	d := Result{Joins: strips.endToEnd(b.name(), ""), Tables: Tables{Binding: &table},
		Ends: freeEnds(b.Closed, b.TurnIn)}
	if !b.Bias {
		pieces, err := strips.pieces(b.name(), b.CutWidth(), side{"near edge", shapes.Seam, 0},
			side{"far edge", shapes.Seam, 0})
		d.Pieces = b.markFolds(pieces)
		return d, err
	}
	for _, k := range strips.kinds() {
		p, err := biasStrip{height: k.width, width: b.CutWidth(), lower: k.lower,
			upper: k.upper}.piece(b.name() + " " + k.name)
		if err != nil {
			return Result{}, err
		}
		p.Count = k.count
		d.Pieces = append(d.Pieces, p)
	}
	b.markFolds(d.Pieces)
	return d, nil
}

// markFolds marks the folds, along the long sides at equal distances.
func (b Binding) markFolds(pieces []shapes.Piece) []shapes.Piece {
	n := int(math.Round(b.CutWidth() / b.Width))
	for i := range pieces {
		lower, upper := pieces[i].Edges[0], pieces[i].Edges[2] // its ends
		for k := 1; k < n; k++ {
			at := float64(k) / float64(n)
			from, _ := lower.At(at * lower.Length())
			to, _ := upper.At((1 - at) * upper.Length())
			pieces[i].Inside = append(pieces[i].Inside, orb.LineString{from, to})
		}
	}
	return pieces
}

func (b Binding) plan() (piecing, error) {
	if err := cmp.Or(
		positive(measured{"length", b.Length}, measured{"width", b.Width}),
		b.checkFolds(),
	); err != nil {
		return piecing{}, say.Errorf("%s: %w", b.name(), err)
	}
	strips, err := pieceLength(b.Length/b.slant(), b.ClothWidth, b.Join, b.ends())
	if err != nil {
		return piecing{}, say.Errorf("%s: %w", b.name(), err)
	}
	return strips, nil
}

func (b Binding) checkFolds() error {
	if b.Folds < 0 || b.Folds > maxFolds {
		return fmt.Errorf("folds: %d, must be from 1 to %d", b.Folds, maxFolds)
	}
	if b.CutWidth() > shapes.MaxExtent {
		return errors.New("the strip is cut wider than any cloth")
	}
	return nil
}
