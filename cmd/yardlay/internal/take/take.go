// Package take says what a drawing made elsewhere holds, and guesses what it is in a job:
// its unit, its roles, how often its shapes are cut. A guess says why it was made.
package take

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// Options are what is known of a drawing besides what it holds.
type Options struct {
	outline.Options
	Size string // of a graded file, the one to take; "": the one in the middle
}

// Found is what a drawing holds.
type Found struct {
	File string // what it is called, without a folder
	outline.Assembly
	UnitGuessed bool     // the file does not say it, and nobody else did
	Sizes       []string // of a graded file, in its order
	Size        string   // which of them is shown
	Pieces      []Piece  // of that size, in the order of the drawing
	LeftOut     []string // what the reader left out, in words

	options Options
}

// Piece is one shape, with how often it is cut.
type Piece struct {
	outline.Shape
	Copies  Copies
	Lines   int // of the drawing that belong to it
	Corners int // of its outline
	Faults  []int
}

// Read reads a drawing and guesses what it holds. Errors have the name of the file in front.
func Read(name string, r io.Reader, o Options) (*Found, error) {
	drawing, err := outline.Read(name, r)
	if err != nil {
		return nil, say.Errorf("%s: %w", name, err)
	}
	return Of(name, drawing, o)
}

// Of guesses what a drawing holds.
func Of(name string, drawing outline.Drawing, o Options) (*Found, error) {
	f := &Found{File: filepath.Base(name), LeftOut: drawing.Notes, options: o}
	var err error
	f.Assembly, err = outline.Assemble(drawing, o.Options)
	if errors.As(err, new(outline.ErrNoUnit)) {
		unit := outline.GuessUnit(drawing)
		o.Millimetres, f.UnitGuessed = unit.Millimetres, true
		f.options.Millimetres = unit.Millimetres
		f.Assembly, err = outline.Assemble(drawing, o.Options)
		f.Unit.Because = unit.Because
	}
	if err != nil {
		return nil, say.Errorf("%s: %w", name, err)
	}
	if err := f.sized(o.Size); err != nil {
		return nil, say.Errorf("%s: %w", name, err)
	}
	f.pieces()
	return f, nil
}

// sized finds the sizes of the drawing and chooses the one that is shown.
func (f *Found) sized(asked string) error {
	for _, s := range f.Shapes {
		if s.Size != "" && !slices.Contains(f.Sizes, s.Size) {
			f.Sizes = append(f.Sizes, s.Size)
		}
	}
	if asked == "" {
		if len(f.Sizes) > 1 {
			f.Size = f.Sizes[len(f.Sizes)/2]
		}
		return nil
	}
	i := slices.IndexFunc(f.Sizes, func(s string) bool { return strings.EqualFold(s, asked) })
	if i < 0 && len(f.Sizes) == 0 {
		return say.Errorf("it has no sizes").Hint("leave --size out")
	}
	if i < 0 {
		return say.Errorf("it has no size %q", asked).Hint("it has %s", f.SizesInWords())
	}
	f.Size = f.Sizes[i]
	return nil
}

// mostSizes is how many sizes are listed.
const mostSizes = 20

// SizesInWords lists the sizes.
func (f *Found) SizesInWords() string {
	words := strings.Join(f.Sizes[:min(len(f.Sizes), mostSizes)], ", ")
	if n := len(f.Sizes) - mostSizes; n > 0 {
		words += fmt.Sprintf(" and %d more", n)
	}
	return words
}

// pieces lists the shapes that are shown.
func (f *Found) pieces() {
	lines := make([]int, len(f.Shapes)+1)
	for _, r := range f.Roles {
		lines[r.Shape]++
	}
	faults := map[int][]int{}
	for i, fault := range f.Faults {
		faults[fault.Shape] = append(faults[fault.Shape], i+1)
	}
	var shapes []outline.Shape
	for _, s := range f.Shapes {
		if f.Size == "" || s.Size == "" || s.Size == f.Size {
			shapes = append(shapes, s)
		}
	}
	copies := copiesOf(shapes)
	for i, s := range shapes {
		f.Pieces = append(f.Pieces, Piece{s, copies[i], lines[s.Number], len(s.Ring()) - 1, faults[s.Number]})
	}
}

// Stops says whether there is something in the drawing that cannot be cut as it is.
func (f *Found) Stops() bool {
	return slices.ContainsFunc(f.Faults, func(f outline.Fault) bool { return f.Kind.Stops() })
}

// Marked is what the file calls the outline of a piece: the most telling of its marks.
func (p Piece) Marked() string {
	for _, m := range []struct{ what, says string }{{"block", p.Block}, {"layer", p.Layer}, {"id", p.ID},
		{"group", p.Group}, {"colour", p.Colour}} {
		if m.says != "" && m.says != p.Name {
			return m.what + " " + m.says
		}
	}
	return ""
}

// Outer is the outermost line of a piece: the one that is cut, where it is drawn.
func (p Piece) Outer() orb.Ring {
	if p.Cut != nil {
		return p.Cut
	}
	return p.Ring()
}
