package draft

import (
	"yardlay/shapes"
	"yardlay/shapes/say"

	"github.com/paulmach/orb"
)

// ClosingPanel is what lies behind an opening, folded along its middle: a stand for
// buttons, an underlap for hooks, a modesty panel behind lacing, a shield behind a zip; or
// the strip of a placket, twice as long as the opening, that binds both its edges:
//
//	 outer edge
//	.-----------.
//	|           |  Width
//	|- - fold - |
//	|           |  Width
//	'-----------'
//	 inner edge
//	    Length
type ClosingPanel struct {
	Of        Draft
	Closing   Closing
	Width     float64 // finished, folded, mm
	Allowance float64 // of its seams, mm
}

// called is what the panel is named after.
func (c Closing) called() string {
	switch c.By {
	case Zip:
		return "zip shield"
	case Placket:
		return "placket"
	case Lacing:
		return "modesty panel"
	case Buttons:
		return "button stand"
	case Busk:
		return "busk placket"
	}
	return "underlap"
}

// Draft returns one panel for each opening.
func (c ClosingPanel) Draft() (Result, error) { return named(c.Closing.called())(c.draft()) }

// leastBehind is how far a modesty panel reaches behind the laced edges at the least, mm
// (common practice).
const leastBehind = 10

func (c ClosingPanel) draft() (Result, error) {
	if err := positive(measured{"width", c.Width}); err != nil {
		return Result{}, err
	}
	if err := notNegative(measured{"seam allowance", c.Allowance}); err != nil {
		return Result{}, err
	}
	of, err := c.Of.Draft()
	if err != nil {
		return Result{}, err
	}
	if of, err = c.Closing.Of(of); err != nil {
		return Result{}, err
	}
	closed := of.Closed[len(of.Closed)-1]
	length := closed.Length
	if c.Closing.By == Placket {
		length *= 2
	}
	if least := of.LacingGap + 2*leastBehind; c.Closing.By == Lacing && c.Width < least {
		return Result{}, say.Errorf("width is %.1f: behind a lacing gap of %.1f, with %v on either side, it is %.1f or more",
			say.MM(c.Width), say.MM(of.LacingGap), say.MM(leastBehind), say.MM(least)).
			Hint("a wider panel, or a smaller gap")
	}
	if c.Width > length {
		return Result{}, say.Errorf("width is %.1f, more than its length of %.1f", say.MM(c.Width), say.MM(length)).
			Hint("a narrower one")
	}
	seam := func(name string) side { return side{name, shapes.Seam, c.Allowance} }
	p, err := panel{
		along: length, across: 2 * c.Width,
		lower: seam("inner edge"), far: seam("lower end"), upper: seam("outer edge"), near: seam("upper end"),
	}.piece(c.Closing.called())
	if err != nil {
		return Result{}, err
	}
	p.Count = closed.Times
	a := c.Allowance
	p.Inside = []orb.LineString{{{a, a + c.Width}, {a + length, a + c.Width}}}
	return Result{Pieces: []shapes.Piece{p}, Apart: true}, nil
}
