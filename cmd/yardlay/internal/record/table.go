package record

import (
	"math/big"
	"slices"

	"yardlay/cost"
	"yardlay/shapes/measure"
)

// Year is the record of a year, or of all years.
type Year struct {
	Title string       `json:"title"`
	Gowns []Gown       `json:"gowns"` // the latest last
	All   []Line       `json:"all"`   // hours, and every cloth, over all gowns
	Notes []string     `json:"notes"`
	Unit  measure.Unit `json:"-"` // to show lengths in
}

// Line is one thing, as planned and as taken, in words. Those of which either is missing count in no sum.
type Line struct {
	What    string `json:"what"`
	Planned string `json:"planned"`
	Taken   string `json:"taken"`
	Times   string `json:"times"` // how often the plan goes into what was taken; "" where either is missing
	Price   string `json:"price,omitempty"`
}

// New sums up gowns, lengths in a unit.
func New(title string, gowns []Gown, unit measure.Unit) Year {
	y := Year{Title: title, Gowns: gowns, Unit: unit, All: []Line{}, Notes: []string{}}
	var all Gown
	for _, g := range gowns {
		if g.Told() {
			all.Hours, all.Planned = all.Hours+g.Hours, all.Planned+g.Planned
		}
		for _, c := range g.Cloths {
			if c.Planned > 0 && c.Length > 0 {
				all.add(c)
			}
		}
	}
	y.All = all.Lines(unit)
	for _, kind := range kindsOf(gowns) {
		if own, ok := Last(gowns, kind); ok {
			y.Notes = append(y.Notes, own.Words())
		}
	}
	return y
}

// kindsOf lists the kinds that there are, in the order in which they come.
func kindsOf(gowns []Gown) (all []string) {
	for _, g := range gowns {
		if g.Kind != "" && !slices.Contains(all, g.Kind) {
			all = append(all, g.Kind)
		}
	}
	return all
}

// add adds to what was taken of a cloth.
func (g *Gown) add(c Cloth) {
	for i := range g.Cloths {
		if g.Cloths[i].Name == c.Name {
			g.Cloths[i].Planned += c.Planned
			g.Cloths[i].Length += c.Length
			return
		}
	}
	g.Cloths = append(g.Cloths, Cloth{Name: c.Name, Planned: c.Planned, Length: c.Length})
}

// Lines says of a gown what was planned and taken, hours first.
func (g Gown) Lines(unit measure.Unit) []Line {
	lines := []Line{}
	if g.Hours > 0 || g.Planned > 0 {
		lines = append(lines, Line{What: "hours", Planned: told(g.Planned), Taken: told(g.Hours),
			Times: Times(g.Hours.Rat(), g.Planned.Rat())})
	}
	for _, c := range g.Cloths {
		lines = append(lines, Line{What: c.Name, Planned: length(c.Planned, unit), Taken: length(c.Length, unit),
			Times: Times(rat(c.Length), rat(c.Planned)), Price: c.Price})
	}
	return lines
}

func told(hours cost.Decimal) string {
	if hours == 0 {
		return ""
	}
	return hours.String()
}

func length(mm float64, unit measure.Unit) string {
	if mm == 0 {
		return ""
	}
	return measure.FormatUp(mm, measure.CounterUnit(unit))
}

func rat(mm float64) *big.Rat {
	r := new(big.Rat)
	r.SetFloat64(mm)
	return r
}
