package ways

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/paper"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// fullPiece is a piece to print at full size, as often as it is printed.
type fullPiece struct {
	sheet.FullPiece
	name, cut, cloth string // cut: how it is cut, "cut 1 pair"
	copies           int    // that are printed
}

// piecesFor drafts the pieces that are printed on something, and says so.
func (p *Printing) piecesFor(ctx context.Context, on string) ([]plan.Spread, []fullPiece, error) {
	spreads, _, err := p.drafted(ctx)
	if err != nil {
		return nil, nil, err
	}
	p.stage("laying the pieces on " + on)
	pieces, err := p.fullPieces(ctx, spreads)
	return spreads, pieces, err
}

// fullPieces are the pieces of all cloths: each once or, with --every-copy, as often as it
// is cut, left and right and each with its own notches.
func (p *Printing) fullPieces(ctx context.Context, spreads []plan.Spread) ([]fullPiece, error) {
	if p.pieces == nil { // several ways print them
		var err error
		if p.pieces, err = plan.Unless(ctx, func() ([]fullPiece, error) { return p.drawFull(spreads) }); err != nil {
			return nil, err
		}
	}
	return p.pieces, nil
}

func (p *Printing) drawFull(spreads []plan.Spread) ([]fullPiece, error) {
	var all []fullPiece
	var points sheet.Letters
	for _, s := range spreads {
		meets, err := s.Meets(p.file.Job())
		if err != nil {
			return nil, err
		}
		for i := range s.Cuts {
			var at []plan.Meet
			if meets != nil {
				at = meets[i]
			}
			all = append(all, p.printedOf(s, i, at, &points)...)
		}
	}
	return all, nil
}

// patternsOf are pieces to be laid on paper; one that a page holds whole has no test square.
func patternsOf(pieces []fullPiece, holds func(paper.Pattern) bool) []paper.Pattern {
	var all []paper.Pattern
	for _, f := range pieces {
		p := paper.Pattern{Name: f.name, Outline: f.Takes, Copies: f.copies, Draw: f.Group}
		if holds(p) {
			p.Draw = f.WithoutSquare().Group
		}
		all = append(all, p)
	}
	return all
}

// printedOf draws piece i of a cloth.
func (p *Printing) printedOf(s plan.Spread, i int, meets []plan.Meet, points *sheet.Letters) []fullPiece {
	piece := s.Cuts[i].Piece
	drawn := depict.Pattern(s, i, measure.SizeUnit(p.unit))
	drawn.OneWay = s.Cloth.Nap == job.OneWay
	drawn.Squares = testSquares(p.unit)
	drawn.Matches = onDrafted(meets, piece, points)
	for k, n := range piece.Notches {
		if n.Of > 0 {
			drawn.Notches[k].Note = fmt.Sprintf("%d/%d", n.Copy, n.Of)
		}
	}
	if !p.o.everyCopy {
		return []fullPiece{p.full(s, i, drawn, "", 1)}
	}
	var all []fullPiece
	for _, of := range printedAlike(piece) {
		one := drawn
		one.Notches = slices.DeleteFunc(slices.Clone(drawn.Notches), func(n sheet.Notch) bool { return n.Note != "" })
		for k, n := range piece.Notches {
			if n.Of > 0 && n.On(of[0]) {
				n := drawn.Notches[k]
				n.Note = ""
				one.Notches = append(one.Notches, n)
			}
		}
		if mirroredCopy(piece, of[0]) {
			one = mirrored(one)
		}
		all = append(all, p.full(s, i, one, p.copyWords(piece, of), len(of)*p.gowns()))
	}
	return all
}

// copyWords say which copies a drawing is of that are all printed; "" for the only one.
func (p *Printing) copyWords(piece shapes.Piece, of []int) string {
	switch n := len(of) * p.gowns(); {
	case n > 1 && mirroredCopy(piece, of[0]):
		return fmt.Sprintf("cut each of these %d once, mirrored,", n)
	case n > 1:
		return fmt.Sprintf("cut each of these %d once,", n)
	case piece.Count < 2:
		return ""
	case len(piece.Labels) > 0:
		return "cut once, " + report.CopyName(piece, of[0]) + ","
	case mirroredCopy(piece, of[0]):
		return "cut once, mirrored,"
	case piece.Pair:
		return "cut once, as drafted,"
	}
	return fmt.Sprintf("cut once, number %d", of[0]+1)
}

// full draws a piece with its facts.
func (p *Printing) full(s plan.Spread, i int, drawn sheet.Pattern, copy string, copies int) fullPiece {
	cut := p.carried().Cut(s, i)
	if copy == "" {
		cut = "cut " + cut
	} else {
		cut = copy + " of " + cut
	}
	drawn.Facts = p.facts(s, i, cut, drawn)
	return fullPiece{drawn.Full(), drawn.Name, cut, s.Cloth.Title, copies}
}

// mirroredCopy says whether a copy of a pair is the mirror image of what is drafted.
func mirroredCopy(p shapes.Piece, copy int) bool { return p.Pair && copy%2 == 1 }

// printedAlike groups the copies of a piece that are drawn alike: as drafted or mirrored,
// and with the same notches.
func printedAlike(p shapes.Piece) [][]int {
	var groups [][]int
	for _, of := range bearingAlike(p) {
		var sides [2][]int
		for _, k := range of {
			side := 0
			if mirroredCopy(p, k) {
				side = 1
			}
			sides[side] = append(sides[side], k)
		}
		for _, side := range sides {
			if len(side) > 0 {
				groups = append(groups, side)
			}
		}
	}
	return groups
}

// mirrored is the other piece of a pair.
func mirrored(p sheet.Pattern) sheet.Pattern {
	pose := plane.Pose{Mirrored: true}
	p.Outline, p.Fold = depict.Posed(p.Outline, pose), depict.PosedLine(p.Fold, pose)
	p.Matches = slices.Clone(p.Matches)
	for i := range p.Matches {
		p.Matches[i].At = pose.ApplyPoint(p.Matches[i].At)
	}
	return p
}

// carried is what each piece carries besides its name.
func (p *Printing) carried() depict.Carried {
	return depict.Carried{Gown: p.file.Job().Title, Gowns: p.gowns(), Unit: p.unit, Mark: p.signature()}
}

// facts are the lines that a piece carries under its name.
func (p *Printing) facts(s plan.Spread, i int, how string, drawn sheet.Pattern) []string {
	said := slices.Concat(p.carried().Facts(s, i, how)...)
	if slices.ContainsFunc(drawn.Notches, func(n sheet.Notch) bool { return n.Note != "" }) {
		said = append(said, "notch marked 1/3: on the first of each 3 only")
	}
	var letters []string
	for _, m := range drawn.Matches {
		if !slices.Contains(letters, m.Name) {
			letters = append(letters, m.Name)
		}
	}
	if len(letters) > 0 {
		said = append(said, fmt.Sprintf("match points %s meet those of the same letter", strings.Join(letters, ", ")))
	}
	return said
}

// testSquares are those to draw in a piece: the largest that has room.
func testSquares(unit measure.Unit) []sheet.Square {
	if unit.Metric() {
		return []sheet.Square{{Side: 50, Name: "50 mm"}, {Side: 20, Name: "20 mm"}}
	}
	return []sheet.Square{{Side: 2 * measure.Inches, Name: "2 in"}, {Side: measure.Inches, Name: "1 in"}}
}

// onDrafted brings match points of an opened piece onto the piece as drafted: on a fold,
// its half.
func onDrafted(meets []plan.Meet, p shapes.Piece, points *sheet.Letters) []sheet.Match {
	if len(meets) == 0 {
		return nil
	}
	whole := p.Unfold()
	list := depict.Matches(meets, whole, p.OnFold, plane.Pose{})
	half := plane.Pose{}
	if p.OnFold {
		half = plan.HalfPose(p, whole.Cut)
	}
	for i, m := range list {
		at := orb.Point{m.At[0] - half.At[0], m.At[1] - half.At[1]}
		if half.Mirrored {
			at[1] = -at[1]
		}
		list[i] = sheet.Match{Name: points.Of(m.Name), At: at}
	}
	return list
}
