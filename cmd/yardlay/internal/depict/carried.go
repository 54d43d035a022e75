package depict

import (
	"fmt"
	"math"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// Carried is what the pieces of a gown carry at full size besides their names.
type Carried struct {
	Gown  string // its title
	Gowns int    // that are cut
	Unit  measure.Unit
	Mark  string // tells two prints apart; it ends with it
}

// Cut says how piece i of a cloth is cut: "1 pair, on the bias".
func (c Carried) Cut(s plan.Spread, i int) string {
	p := s.Cuts[i].Piece
	return report.Copies(p.Count*c.Gowns, p.Pair, p.OnFold) + report.CutOn(s.CutOn(i))
}

// Facts are the lines that piece i of a cloth carries under its name, the weightiest first:
// where there is no room for all, groups are left out from the end.
func (c Carried) Facts(s plan.Spread, i int, how string) [][]string {
	cut, unit := s.Cuts[i], measure.SizeUnit(c.Unit)
	first, last := []string{how}, []string{s.Cloth.Title + ", " + Face(s.Cloth)}
	if cut.Part.Body != "" {
		first = append(first, "for "+cut.Part.Body)
	}
	if c.Gown != "" {
		last = append(last, c.Gown)
	}
	along, across := cut.Piece.Finished()
	last = append(last, fmt.Sprintf("seam line to seam line %s x %s as drawn", measure.Format(along, unit),
		measure.Format(across, unit)))
	if s.Larger() != "" {
		last = append(last, "drawn larger: the cloth changes by "+plan.ChangeWords(s.Cloth.Shrinkage))
	}
	return [][]string{first, {Allowances(cut.Piece.Edges, unit), c.Mark}, last}
}

// MarkerAtTable describes a cloth's markers as Marker does, for full size: each piece
// carries its facts.
func (c Carried) MarkerAtTable(r *report.Report, of report.Cloth) sheet.Marker {
	m := Marker(r, of)
	facts := make([][][]string, len(of.Spread.Cuts))
	for i := range facts {
		facts[i] = c.Facts(of.Spread, i, "cut "+c.Cut(of.Spread, i))
	}
	for k, s := range of.Markers {
		for i, cuts := range s.Cuts {
			m.Stretches[k].Pieces[i].Facts = facts[cuts[0].Piece]
		}
	}
	return m
}

// Face says which face of the cloth a piece shows as it is drawn.
func Face(c job.Cloth) string {
	if c.BothFaces {
		return "either face up"
	}
	return "right side up"
}

// Allowances say what lies between seam line and cut line.
func Allowances(edges []shapes.Edge, unit measure.Unit) string {
	type span struct{ least, most float64 }
	var kinds []string
	of := map[string]span{}
	for _, e := range edges {
		kind := e.Kind.String()
		if e.Kind == shapes.Fold {
			continue
		}
		s, ok := of[kind]
		if !ok {
			kinds, s = append(kinds, kind), span{e.Allowance, e.Allowance}
		}
		of[kind] = span{math.Min(s.least, e.Allowance), math.Max(s.most, e.Allowance)}
	}
	var words []string
	for _, kind := range kinds {
		switch s := of[kind]; {
		case s.most == 0:
			words = append(words, kind+" none")
		case s.most-s.least < measure.Guard:
			words = append(words, kind+" "+measure.Format(s.most, unit))
		default:
			words = append(words, fmt.Sprintf("%s %s to %s", kind, report.Bare(s.least, unit),
				measure.Format(s.most, unit)))
		}
	}
	return "allowances drawn: " + strings.Join(words, ", ")
}
