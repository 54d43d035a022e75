package report

import (
	"fmt"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Hem is a hem of a part in one cloth that is turned up, all round one such part.
// Lengths are in mm.
type Hem struct {
	Part      string  `json:"part"`
	Cloth     string  `json:"cloth"`
	Allowance float64 `json:"allowance"` // turned up
	Length    float64 `json:"length"`    // finished, darts sewn
	Raw       float64 `json:"raw"`       // of its raw edge
	Onto      float64 `json:"onto"`      // of the line that is sewn to
	Ease      float64 `json:"ease"`      // of the raw edge over that; negative where it is stretched
}

// hemsOf lists the turned hems of a draft, those with one allowance as one.
func hemsOf(part, cloth string, made draft.Result) []Hem {
	var all []Hem
	if made.Apart {
		return nil // the free edge of a facing is no hem
	}
	at := func(allowance float64) *Hem {
		i := 0
		for i < len(all) && all[i].Allowance != allowance {
			i++
		}
		if i == len(all) {
			all = append(all, Hem{Part: part, Cloth: cloth, Allowance: allowance})
		}
		return &all[i]
	}
	for _, p := range made.Pieces {
		copies := float64(p.Count)
		for _, e := range p.Unfold().Edges {
			if e.Finish() == shapes.Turned {
				h := at(e.Allowance)
				h.Length += copies * e.Length()
				h.Ease += copies * e.HemEase()
			}
		}
		if p.OnFold {
			copies *= 2
		}
		for _, d := range p.Darts {
			if e, _ := p.Edge(d.Edge); e.Finish() == shapes.Turned {
				at(e.Allowance).Length -= copies * d.Mouth.Width
			}
		}
	}
	for i, h := range all {
		all[i].Raw, all[i].Onto = h.Length+h.Ease/2, h.Length-h.Ease/2
	}
	return all
}

// Words say how much of the raw edge is eased in or stretched; "" where no needle would
// notice, and where it cannot lie flat, which the remarks say: where more is over than a hem
// takes in all, more is over at its tightest place.
func (h Hem) Words(unit measure.Unit) string {
	if math.Abs(h.Ease) <= unequal || !(h.Onto > 0) || math.Abs(h.Ease)/h.Onto > shapes.MostHemEase {
		return ""
	}
	show := func(mm float64) string { return measure.Format(mm, unit) }
	work := "to ease in"
	if h.Ease < 0 {
		work = "to stretch"
	}
	return fmt.Sprintf("%s in %s: a hem of %s turned up leaves %s %s (%.1f %%). Its raw edge is %s long, the line it is "+
		"sewn to %s.", h.Part, h.Cloth, show(h.Allowance), show(math.Abs(h.Ease)), work, 100*math.Abs(h.Ease)/h.Onto,
		show(h.Raw), show(h.Onto))
}
