package report

import (
	"fmt"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// Wearer is what one of those takes who wear the gowns of a body, of each cloth.
type Wearer struct {
	Body   string        `json:"body"`
	Count  int           `json:"count"` // how many wear these measures
	Cloths []WearerCloth `json:"cloths"`
}

// WearerCloth is the share of one wearer in a cloth: of what is bought as much as its pieces
// have of the area of all.
type WearerCloth struct {
	ID     string  `json:"id"`
	Pieces int     `json:"pieces"` // copies for one wearer
	Area   float64 `json:"area"`   // of the pieces, allowances included, mm2
	Bought float64 `json:"bought"` // mm of the length bought
}

// wearers shares what is bought out among several bodies; nil where there is one.
func (r *Report) wearers(bodies []job.Body) (all []Wearer) {
	for _, b := range bodies {
		if len(bodies) < 2 {
			return nil
		}
		w := Wearer{Body: b.Name, Count: b.Count}
		gowns := float64(b.Count * r.Gowns)
		for _, c := range r.Cloths {
			of := WearerCloth{ID: c.ID}
			total := 0.0
			for _, cut := range c.Spread.Cuts {
				area := cut.Piece.Unfold().Area() * float64(cut.Piece.Count)
				total += area
				if cut.Part.Body == b.Name {
					of.Area += area / gowns
					of.Pieces += cut.Piece.Count / (b.Count * r.Gowns)
				}
			}
			if of.Area > 0 {
				of.Bought = c.Bought * of.Area / total
				w.Cloths = append(w.Cloths, of)
			}
		}
		all = append(all, w)
	}
	return all
}

// Words say what one wearer takes, lengths in a unit.
func (w Wearer) Words(unit measure.Unit) string {
	var takes []string
	for _, c := range w.Cloths {
		takes = append(takes, c.ID+" "+atCounter(c.Bought, unit))
	}
	name := w.Body
	if w.Count > 1 {
		name = fmt.Sprintf("%s, each of %d", w.Body, w.Count)
	}
	return name + ": " + strings.Join(takes, ", ")
}
