package quote

import (
	"fmt"
	"math/big"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// labour is the maker's time for all gowns, and what it follows from when it
// follows from the drafts.
func (m *maker) labour() (cost.Labour, *Work, error) {
	from := m.job.Labour
	l := cost.Labour{Fittings: from.Fittings * m.gowns, PerFitting: from.PerFitting, Rate: from.Rate}
	if !from.ByRates {
		l.Hours = from.Hours * cost.Decimal(m.gowns)
		return l, nil, nil
	}
	w := workOf(m.cuts)
	hours, steps, err := from.Rates.Hours(cost.Work{
		Seam: inUnits(w.Seam, from.Per.Seam), Hem: inUnits(w.Hem, from.Per.Hem), Gathered: inUnits(w.Gathered,
			from.Per.Gathered),
		Pieces: w.Pieces,
	})
	if err != nil {
		return l, nil, err
	}
	for _, s := range steps {
		w.Steps = append(w.Steps, Step{s.What, tenths(s.Minutes), w.amount(s.What, from.Per)})
	}
	l.Hours = hours
	return l, &w, nil
}

// amount tells of a step how much there is of it, in the unit that its rate is
// for, to a hundredth: so finely that the minutes follow from it.
func (w Work) amount(what string, per job.RateUnits) string {
	of := func(mm float64, unit measure.Unit, name string) string {
		return fmt.Sprintf("%.2f %v of %s", mm/unit.Millimetres(), unit, name)
	}
	switch what {
	case "seams":
		return of(w.Seam, per.Seam, "seam")
	case "hems":
		return of(w.Hem, per.Hem, "hem")
	case "gathering":
		return of(w.Gathered, per.Gathered, "gathering")
	}
	return say.Count(w.Pieces, "piece")
}

// tenths shows minutes to a tenth, a half going away from zero.
func tenths(minutes cost.Decimal) string {
	text := minutes.Rat().FloatString(1)
	if tenth, ok := new(big.Rat).SetString(text); ok && tenth.IsInt() {
		return tenth.RatString()
	}
	return text
}
