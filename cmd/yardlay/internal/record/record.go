// Package record sets what gowns took beside what was planned for them, as the book of a workroom has it.
package record

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
)

// Gown is a gown that was made. Lengths are in mm.
type Gown struct {
	Job     string       `json:"job"`
	Title   string       `json:"title,omitempty"`
	Kind    string       `json:"kind,omitempty"` // KindOf; "" where it is not known
	On      string       `json:"on"`
	Hours   cost.Decimal `json:"hours,omitempty"`         // 0: not told
	Planned cost.Decimal `json:"planned_hours,omitempty"` // likewise
	Cloths  []Cloth      `json:"cloths"`
}

// Cloth is what a gown took of one cloth.
type Cloth struct {
	Name    string  `json:"name"`
	Planned float64 `json:"planned,omitempty"`
	Length  float64 `json:"length,omitempty"`
	Price   string  `json:"price,omitempty"` // as paid: "13.90/yd"
}

// Told says that hours are told beside planned ones.
func (g Gown) Told() bool { return g.Hours > 0 && g.Planned > 0 }

// Of is what a gown of the book took; ok is false where that is not told.
func Of(g job.Gown) (made Gown, ok bool) {
	if g.Took == nil {
		return Gown{}, false
	}
	made = Gown{Job: g.Job, On: g.Took.On.String(), Hours: g.Took.Hours, Planned: g.Took.PlannedHours, Cloths: []Cloth{}}
	for _, c := range g.Took.Cloths {
		one := Cloth{Name: c.Cloth, Planned: c.Planned, Length: c.Length}
		if c.Price.Currency != "" {
			one.Price = c.Price.Amount() + "/" + c.Per.String()
		}
		made.Cloths = append(made.Cloths, one)
	}
	return made, true
}

// Made lists the gowns of a book of which it is told what they took, the latest last; of one year, or of all (0).
func Made(w *job.Workroom, year int) []Gown {
	var all []Gown
	for _, g := range w.Gowns {
		if made, ok := Of(g); ok && (year == 0 || g.Took.On.Year == year) {
			all = append(all, made)
		}
	}
	slices.SortStableFunc(all, func(a, b Gown) int { return cmp.Compare(a.On, b.On) })
	return all
}

// Times says how often a plan goes into what was taken, to a hundredth: "1.14"; "" where either is missing.
func Times(taken, planned *big.Rat) string {
	if taken.Sign() <= 0 || planned.Sign() <= 0 {
		return ""
	}
	text := new(big.Rat).Quo(taken, planned).FloatString(2)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// mostLast is how many gowns of a kind speak for the next one: those of years ago were made by other hands.
const mostLast = 4

// Own is what the last gowns of a kind took.
type Own struct {
	Kind           string
	Gowns          []string // their jobs, the latest first
	Hours, Planned cost.Decimal
}

// Last sums up the last gowns of a kind among some, the latest last, whose hours are told; ok is false where there is
// none.
func Last(made []Gown, kind string) (o Own, ok bool) {
	o.Kind = kind
	for i := len(made) - 1; i >= 0 && len(o.Gowns) < mostLast; i-- {
		if g := made[i]; g.Kind == kind && g.Told() {
			o.Gowns = append(o.Gowns, g.Job)
			o.Hours, o.Planned = o.Hours+g.Hours, o.Planned+g.Planned
		}
	}
	return o, len(o.Gowns) > 0
}

// Factor is what planned hours have to be taken by.
func (o Own) Factor() *big.Rat { return new(big.Rat).Quo(o.Hours.Rat(), o.Planned.Rat()) }

// Words says it: "The last four skirts took 1.2 of the planned hours."
func (o Own) Words() string {
	which := "The last " + o.Kind
	if n := len(o.Gowns); n > 1 {
		which = fmt.Sprintf("The last %s %s", [...]string{"two", "three", "four"}[n-2], several(o.Kind))
	}
	return which + " took " + Times(o.Hours.Rat(), o.Planned.Rat()) + " of the planned hours."
}
