package quote

import (
	"math/big"

	"yardlay/cost"
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
		Seam: inUnits(w.Seam, from.Per.Seam), Hem: inUnits(w.Hem, from.Per.Hem), Gathered: inUnits(w.Gathered, from.Per.Gathered),
		Pieces: w.Pieces,
	})
	if err != nil {
		return l, nil, err
	}
	for _, s := range steps {
		w.Steps = append(w.Steps, Step{s.What, tenths(s.Minutes)})
	}
	l.Hours = hours
	return l, &w, nil
}

// tenths shows minutes to a tenth, a half going away from zero.
func tenths(minutes cost.Decimal) string {
	text := minutes.Rat().FloatString(1)
	if tenth, ok := new(big.Rat).SetString(text); ok && tenth.IsInt() {
		return tenth.RatString()
	}
	return text
}
