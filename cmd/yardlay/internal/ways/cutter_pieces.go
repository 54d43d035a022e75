package ways

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/cutter"
	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// cutterHead says what line work is of, and what to mind with it.
func (p *Printing) cutterHead(s plan.Spread, what string, notes []string) cutter.Head {
	title := strings.TrimPrefix(p.file.Job().Title+": "+s.Cloth.Title, ": ")
	return cutter.Head{
		Title:       fmt.Sprintf("%s, %s, mark %s, %s", title, what, p.mark, p.date.Format(time.DateOnly)),
		Description: "Lines for cutting machines, at true size. " + cutterUse,
		Notes:       append(notes, cutterCautions([]plan.Spread{s})...),
	}
}

// piecesForCutter draws the pieces of each cloth.
func (p *Printing) piecesForCutter(spreads []plan.Spread) (list []cutterWork) {
	for _, s := range spreads {
		var pieces []cutter.Piece
		for i := range s.Cuts {
			pieces = append(pieces, p.forCutter(s, i)...)
		}
		work := cutter.Pieces(p.cutterHead(s, "pieces", nil), pieces)
		list = append(list, cutterWork{s.Cloth.ID, files.PiecesPart, p.asAsked(work)})
	}
	return list
}

// markersForCutter draws each marker of each cloth.
func (p *Printing) markersForCutter(r *report.Report) (list []cutterWork) {
	for _, c := range r.Cloths {
		for i := range c.Markers {
			work := p.markerForCutter(r, c, i).Work()
			list = append(list, cutterWork{c.ID, files.MarkerPart(c, i), p.asAsked(work)})
		}
	}
	return list
}

// asAsked leaves out the words, if they are not wanted.
func (p *Printing) asAsked(work sheet.Strokes) sheet.Strokes {
	if p.o.noWords {
		return work.Without(sheet.LayerWords)
	}
	return work
}

// cutterWords are the lines that stand in a piece: common names of what pattern data says
// (read second-hand with the layers; conformity is not claimed).
func (p *Printing) cutterWords(s plan.Spread, i, count int, grain job.Grain) []string {
	cut := s.Cuts[i]
	size := cut.Part.Body
	if size == "" {
		size = "made to measure"
	}
	quantity := fmt.Sprint(count)
	if cut.Piece.Pair {
		quantity += " (" + report.Copies(count, true, false) + ")"
	}
	words := []string{"Piece Name: " + cut.Piece.Name, "Size: " + size, "Quantity: " + quantity,
		"Material: " + s.Cloth.Title}
	if on := report.CutOn(grain); on != "" {
		words = append(words, "Grain: "+strings.TrimPrefix(on, ", "))
	}
	return append(words, "Face: "+depict.Face(s.Cloth), depict.Allowances(cut.Piece.Edges, measure.SizeUnit(p.unit)),
		"Mark: "+p.mark)
}

// forCutter draws piece i of a cloth, once for each set of notches that copies of it bear.
func (p *Printing) forCutter(s plan.Spread, i int) []cutter.Piece {
	piece := s.Cuts[i].Piece
	drawn := piece
	if !p.o.halves {
		drawn = piece.Unfold()
	}
	var list []cutter.Piece
	groups := bearingAlike(piece)
	for _, of := range groups {
		words := p.cutterWords(s, i, len(of)*p.gowns(), s.CutOn(i))
		if len(groups) > 1 {
			words = append(words, "Copies: "+copyNumbers(of))
		}
		made := cutter.Piece{Name: piece.Name, Words: words, OneWay: s.Cloth.Nap == job.OneWay,
			Outline: depict.Outline(depict.OnCopies(drawn, copiesOf(of)))}
		made.Grain = drawn.GrainLine(s.Grain(i))
		if p.o.halves {
			made.Fold = depict.Fold(piece)
		}
		list = append(list, made)
	}
	return list
}

// bearingAlike groups the copies of a piece by the notches that they bear.
func bearingAlike(p shapes.Piece) [][]int {
	var groups [][]int
	index := map[string]int{}
	for k := range p.Count {
		bears := borne(p, []nest.Placed{{Copy: k}})
		if _, ok := index[bears]; !ok {
			index[bears] = len(groups)
			groups = append(groups, nil)
		}
		groups[index[bears]] = append(groups[index[bears]], k)
	}
	return groups
}

// borne tells the notches that one of some copies bears from those of others.
func borne(p shapes.Piece, of []nest.Placed) string {
	bears := make([]byte, len(p.Notches))
	for i, n := range p.Notches {
		bears[i] = '0'
		if slices.ContainsFunc(of, func(c nest.Placed) bool { return n.On(c.Copy) }) {
			bears[i] = '1'
		}
	}
	return string(bears)
}

func copiesOf(numbers []int) []nest.Placed {
	of := make([]nest.Placed, len(numbers))
	for i, k := range numbers {
		of[i].Copy = k
	}
	return of
}

// mostNumbered is the most copies that are told one by one.
const mostNumbered = 6

// copyNumbers names copies by their numbers, from 1.
func copyNumbers(of []int) string {
	var said []string
	for _, k := range of[:min(len(of), mostNumbered)] {
		said = append(said, fmt.Sprint(k+1))
	}
	if len(of) > mostNumbered {
		said = append(said, "...")
	}
	return strings.Join(said, ", ")
}

// drawnOnce tells outlines of a marker apart that cannot be copies of one drawing.
type drawnOnce struct {
	cut, laid             int
	mirrored, outlineMade bool    // of the piece; of the outline laid
	grain                 float64 // it lies on
	notches               string
}

// markerForCutter describes a marker for a machine: every outline that differs by more than
// a turn and a place is a piece of its own, mirrored copies too.
func (p *Printing) markerForCutter(r *report.Report, c report.Cloth, i int) cutter.Marker {
	s := c.Markers[i]
	what := "marker"
	if name := report.LengthName(c, s); name != "" {
		what += " on " + name
	}
	m := cutter.Marker{Head: p.cutterHead(c.Spread, what, slices.Clone(c.Instructions))}
	drawn := depict.Marker(r, c).Stretches[i]
	m.Cloth, m.Edges = drawn.Ground()
	m.Flaws = s.Problem.Strip.Forbidden
	index := map[drawnOnce]int{}
	for k, pl := range s.Layout.Placed {
		cuts := s.Cuts[k]
		of := c.Spread.Cuts[cuts[0].Piece].Piece
		grain, word := c.Spread.LiesOn(cuts[0].Piece, pl.Turn, cuts[0].Mirrored)
		key := drawnOnce{cuts[0].Piece, pl.Piece, cuts[0].Mirrored, pl.Mirrored, grain, borne(of, cuts)}
		at, ok := index[key]
		if !ok {
			at, index[key] = len(m.Pieces), len(m.Pieces)
			piece := placedPiece(c.Spread, s.Problem, pl, cuts, grain)
			piece.Words = p.cutterWords(c.Spread, key.cut, of.Count, word)
			m.Pieces = append(m.Pieces, piece)
		}
		name := depict.CopyNames(of, cuts)
		if len(name) > len(m.Pieces[at].Longest) {
			m.Pieces[at].Longest = name
		}
		made := cutter.Copy{Piece: at, At: pl.At, Turn: pl.Turn, Name: name}
		for _, match := range drawn.Pieces[k].Matches {
			made.Matches = append(made.Matches, match.At)
		}
		m.Copies = append(m.Copies, made)
	}
	return m
}

// placedPiece draws a placed outline before it is turned and moved.
func placedPiece(s plan.Spread, problem nest.Problem, pl nest.Placed, cuts []nest.Placed,
	grain float64) cutter.Piece {
	laid, piece := problem.Pieces[pl.Piece], s.Cuts[cuts[0].Piece].Piece
	made := cutter.Piece{Name: piece.Name, OneWay: s.Cloth.Nap == job.OneWay}
	if cuts[0].Mirrored {
		made.Name += " mirrored"
	}
	whole := piece.Unfold()
	if laid.OnFold {
		half, pose := plan.HalfPose(piece, whole.Cut), plane.Pose{Mirrored: pl.Mirrored}
		made.Outline = depict.Posed(depict.Posed(depict.Outline(depict.OnCopies(piece, cuts)), half), pose)
		made.Fold = depict.PosedLine(depict.PosedLine(depict.Fold(piece), half), pose)
	} else {
		outline := depict.Outline(depict.OnCopies(whole, cuts))
		outline.Grain = whole.GrainLine(grain)
		made.Outline = depict.Posed(outline, plane.Pose{Mirrored: cuts[0].Mirrored})
	}
	made.Cut, made.Names = plane.Pose{Mirrored: pl.Mirrored}.Apply(laid.Outline), depict.Outline(piece).Names
	return made
}
