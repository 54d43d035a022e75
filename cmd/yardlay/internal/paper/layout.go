package paper

import (
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Pattern is a piece to be printed.
type Pattern struct {
	Name    string
	Outline orb.Ring // what it takes up, closed, counter-clockwise, mm
	Copies  int      // on paper
	// Draw draws it as it is moved on paper, x to the right and y up; origin is where
	// (0, 0) lies on the drawing.
	Draw func(pose plane.Pose, origin orb.Point) sheet.Group
}

// Paper has no grain: patterns lie any way that is square to the page.
var paperTurns = []float64{0, 90, 180, 270}

const (
	patternGap = 6.0 // between patterns, mm: scissors cut both lines
	// paperWork is how many places a layout on paper may try in each lane: a fifth of a
	// second. Six times that saves a twentieth of the paper of the jobs in testdata at most.
	paperWork = 1 << 19
)

// extents are the sides of a pattern as it is laid, along and across.
func (p Pattern) extents() (along, across float64) {
	b := plane.Bounds(roughly(p.Outline))
	return b.Max[0] - b.Min[0], b.Max[1] - b.Min[1]
}

// onLattice is what the corners of a turned outline may move by.
const onLattice = 2 * plane.Lattice

// fits says whether the pattern lies within a length and a width in one of its ways.
func (p Pattern) fits(long, wide float64) bool {
	a, b := p.extents()
	a, b = a+onLattice, b+onLattice
	return a <= long && b <= wide || b <= long && a <= wide
}

// laidOut is patterns as they lie on a strip of paper.
type laidOut struct {
	problem nest.Problem
	layout  nest.Layout
	of      [][]int // the pattern of each copy of each piece of the problem
}

// lineRoom is kept free along the edges of a strip, so that lines there show in their
// whole width, mm.
const lineRoom = 0.5

// lay lays copies of patterns on a strip of a width, with so much work. A run that is
// cancelled has them in rows.
func lay(ctx context.Context, all []Pattern, copies []int, width float64, work int64) (laidOut, error) {
	l := laidOut{problem: nest.Problem{Strip: nest.Strip{Width: plane.SnapDown(width - 2*lineRoom)}, Gap: patternGap}}
	alike := map[string]int{} // pieces by their outlines
	for i, p := range all {
		if copies[i] == 0 {
			continue
		}
		key := fmt.Sprint(p.Outline)
		at, ok := alike[key]
		if !ok {
			at, alike[key] = len(l.of), len(l.of)
			l.of = append(l.of, nil)
			l.problem.Pieces = append(l.problem.Pieces, nest.Piece{Name: p.Name, Outline: p.Outline, Turns: paperTurns})
		}
		l.problem.Pieces[at].Count += copies[i]
		l.of[at] = append(l.of[at], slices.Repeat([]int{i}, copies[i])...)
	}
	rough := l.problem
	rough.Pieces = slices.Clone(rough.Pieces)
	for i, p := range rough.Pieces {
		rough.Pieces[i].Outline = roughly(p.Outline)
	}
	r, err := nest.Solve(ctx, rough, nest.Options{Effort: nest.Trial, Work: work})
	if err != nil {
		return laidOut{}, &unlaid{say.Errorf("cannot lay the pieces on paper: %w", err)}
	}
	l.layout = nest.Layout{Placed: r.Layout.Placed, Length: l.reach(r.Layout.Placed)}
	if err := nest.Verify(l.problem, l.layout); err != nil {
		return laidOut{}, say.Errorf("pieces on paper: %w", err)
	}
	return l, nil
}

// unlaid says that a strip does not hold the patterns.
type unlaid struct{ error }

func (u *unlaid) Unwrap() error { return u.error }

// roughness is how far what is laid may reach beyond an outline, mm: with few corners it
// is laid many times as fast.
const roughness = 3.0

// roughly returns a simpler outline around another.
func roughly(ring orb.Ring) orb.Ring {
	out := plane.Tidy(plane.SnapRing(nofit.Outward(ring, roughness)))
	if plane.CheckSimple(out) != nil {
		return ring
	}
	return out
}

// pattern is which one a placed outline is.
func (l laidOut) pattern(pl nest.Placed) int { return l.of[pl.Piece][pl.Copy] }

// reach is how far placed outlines go along the strip.
func (l laidOut) reach(placed []nest.Placed) float64 {
	far := 0.0
	for _, pl := range placed {
		far = math.Max(far, plane.Bounds(l.problem.Outline(pl)).Max[0])
	}
	return far
}

// within is what lies wholly within a length from the start of the strip.
func (l laidOut) within(length float64) laidOut {
	part := laidOut{problem: l.problem, of: l.of}
	for _, pl := range l.layout.Placed {
		if far := plane.Bounds(l.problem.Outline(pl)).Max[0]; far <= length {
			part.layout.Placed = append(part.layout.Placed, pl)
			part.layout.Length = math.Max(part.layout.Length, far)
		}
	}
	return part
}

// copies counts how often each of so many patterns is laid.
func (l laidOut) copies(patterns int) []int {
	counts := make([]int, patterns)
	for _, pl := range l.layout.Placed {
		counts[l.pattern(pl)]++
	}
	return counts
}

// bounds are those of the patterns on the drawing.
func (l laidOut) bounds() []orb.Bound {
	var all []orb.Bound
	for _, pl := range l.layout.Placed {
		b := plane.Bounds(l.problem.Outline(pl))
		top := l.problem.Strip.Width + lineRoom
		all = append(all, orb.Bound{Min: orb.Point{lineRoom + b.Min[0], top - b.Max[1]},
			Max: orb.Point{lineRoom + b.Max[0], top - b.Min[1]}})
	}
	return all
}

// drawing draws the strip with the room along its edges.
func (l laidOut) drawing(all []Pattern, title string) *sheet.Drawing {
	d := &sheet.Drawing{Title: title, Width: l.layout.Length + 2*lineRoom,
		Height: l.problem.Strip.Width + 2*lineRoom, Scale: 1,
		Theme: sheet.ThemeLines}
	for _, pl := range l.layout.Placed {
		pose := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn, At: pl.At}
		d.Groups = append(d.Groups, all[l.pattern(pl)].Draw(pose, orb.Point{lineRoom, d.Height - lineRoom}))
	}
	return d
}
