package draft

import (
	"cmp"
	"errors"
	"fmt"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// MaxCount is the most copies of one piece, strips of one edge or layers of one
// skirt that are drafted; more is a slip of the pen.
const MaxCount = 1000

// Rectangle is a plain rectangular piece: a sash, a belt, a straight panel.
type Rectangle struct {
	Name      string  // what the piece is called
	Length    float64 // finished, along the grain, mm
	Width     float64 // finished, across the grain, mm
	Count     int     // copies; 0 means one
	Hemmed    bool    // the far end is a hem and takes the hem allowance
	Allowance shapes.Allowance
}

// Draft returns the one piece. All sides take the seam allowance but a hemmed end.
func (r Rectangle) Draft() (Result, error) {
	if r.Name == "" {
		return Result{}, errors.New("rectangle has no name")
	}
	if err := r.check(); err != nil {
		return Result{}, say.Errorf("rectangle %q: %w", r.Name, err)
	}
	far := shapes.Seam
	if r.Hemmed {
		far = shapes.Hem
	}
	side := func(name string, kind shapes.EdgeKind) side { return side{name, kind, r.Allowance.For(kind)} }
	p, err := panel{
		along: r.Length, across: r.Width,
		lower: side("lower side", shapes.Seam), far: side("far end", far),
		upper: side("upper side", shapes.Seam), near: side("near end", shapes.Seam),
	}.piece(r.Name)
	if err != nil {
		return Result{}, err
	}
	p.Count = max(r.Count, 1)
	return Result{Pieces: []shapes.Piece{p}}, nil
}

func (r Rectangle) check() error {
	return cmp.Or(
		positive(measured{"length", r.Length}, measured{"width", r.Width}),
		checkCount(r.Count),
		r.Allowance.Check(),
	)
}

// checkCount refuses a number of copies that nobody cuts; 0 stands for one.
func checkCount(n int) error {
	if n < 0 || n > MaxCount {
		return fmt.Errorf("count is %d, must be from 1 to %d", n, MaxCount)
	}
	return nil
}
