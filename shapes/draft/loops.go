package draft

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Loops are button or lacing loops of a bias strip, sewn lengthwise and turned,
// sewn into the edge of an opening by both ends:
//
//	edge  |__            strip      __________________
//	      |  )  loop               /_|___|___|___|___/   cut square
//	      |--                      each Length + 2 seam allowances
//	      |  )
//
// No loop has a join in it: each strip, at most the cloth's usable width high,
// gives a whole number of loops.
type Loops struct {
	Count   int     // or else:
	Opening float64 // length of the edge that the loops fill, mm
	Pitch   float64 // from loop to loop along it, mm

	Length     float64 // of each loop from seam to seam along its middle, mm
	Width      float64 // finished, mm
	ClothWidth float64 // usable, mm
	Allowance  shapes.Allowance
}

// Number returns how many loops are made: as many as asked for, or as go whole
// into the opening.
func (l Loops) Number() int {
	if l.Count != 0 {
		return l.Count
	}
	return int(min(math.Floor(l.Opening/l.Pitch+roundingError), MaxCount+1))
}

// strip is the strip of so many loops: cut square, with an end on the bias.
func (l Loops) strip(loops int) biasStrip {
	return biasStrip{
		height: (float64(loops)*l.cut() + l.cutWidth()) / math.Sqrt2,
		width:  2 * l.Width, long: side{kind: shapes.Seam, allowance: l.Allowance.Seam},
		lower: side{name: "lower join", kind: shapes.Seam}, upper: side{name: "upper join", kind: shapes.Seam},
	}
}

// cut is the length of a loop as cut, mm.
func (l Loops) cut() float64 { return l.Length + 2*l.Allowance.Seam }

// cutWidth is the width of the strip as cut, mm.
func (l Loops) cutWidth() float64 { return 2 * (l.Width + l.Allowance.Seam) }

// perStrip is the most loops that a strip across the cloth gives.
func (l Loops) perStrip() int {
	return int((l.ClothWidth*math.Sqrt2-l.cutWidth())/l.cut() + roundingError)
}

// Draft returns the full strips, one piece with a count, and the shorter strip for
// the loops that are left, if any. Long sides take the seam allowance; the lines
// to cut the loops apart are marked inside.
func (l Loops) Draft() (Result, error) { return named("loops")(l.draft()) }

func (l Loops) draft() (Result, error) {
	if err := l.check(); err != nil {
		return Result{}, err
	}
	per := min(l.perStrip(), l.Number())
	var d Result
	add := func(name string, loops, count int) error {
		if loops == 0 || count == 0 {
			return nil
		}
		p, err := l.strip(loops).piece(name)
		if err != nil {
			return err
		}
		p.Count = count
		p.Inside = append(p.Inside, l.marks(p, loops)...)
		d.Pieces = append(d.Pieces, p)
		d.Joins = append(d.Joins,
			seamOf(name+", long seam", count, along(name, "far edge"), against(name, "near edge")))
		return nil
	}
	err := errors.Join(add("loop strip", per, l.Number()/per), add("loop part strip", l.Number()%per, 1))
	return d, err
}

// marks returns the lines on which a strip is cut into its loops, square to it,
// the first where the lower end on the bias is past.
func (l Loops) marks(p shapes.Piece, loops int) []orb.LineString {
	lower, _ := p.Edge("lower join")
	start, width := lower.Line[0], l.strip(loops).width
	// The seam line starts an allowance short of square to the cut strip's corner.
	first := l.cutWidth() - l.Allowance.Seam
	var out []orb.LineString
	for i := range loops {
		u := first + float64(i)*l.cut()
		at := orb.Point{start[0] + u/math.Sqrt2, start[1] + u/math.Sqrt2}
		out = append(out, orb.LineString{at, {at[0] + width/math.Sqrt2, at[1] - width/math.Sqrt2}})
	}
	return out
}

func (l Loops) check() error {
	if err := positive(measured{"length", l.Length}, measured{"width", l.Width},
		measured{"cloth width", l.ClothWidth}); err != nil {
		return err
	}
	switch {
	case l.Count != 0 && (l.Opening != 0 || l.Pitch != 0):
		return say.Errorf("both a count (%d) and an opening to fill (%.6g) are given", l.Count, say.MM(l.Opening)).
			Hint("give one of them")
	case l.Count == 0:
		if err := positive(measured{"opening", l.Opening}, measured{"pitch", l.Pitch}); err != nil {
			return say.Errorf("%w", err).Hint("or give the count")
		}
		if l.Pitch < l.Width {
			return say.Errorf("pitch of %.6g is less than the width of %.6g: loops would lie on each other",
				say.MM(l.Pitch), say.MM(l.Width))
		}
	}
	if n := l.Number(); n < 1 || n > MaxCount {
		return fmt.Errorf("count is %d, must be from 1 to %d", n, MaxCount)
	}
	if err := l.Allowance.Check(); err != nil {
		return err
	}
	if l.perStrip() < 1 {
		return say.Errorf("a loop is cut %.1f long and %.1f wide, more than cloth %.1f wide gives on the bias",
			say.MM(l.cut()), say.MM(l.cutWidth()), say.MM(l.ClothWidth))
	}
	return nil
}
