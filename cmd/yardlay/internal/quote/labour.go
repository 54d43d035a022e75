package quote

import (
	"fmt"
	"math/big"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Own is what gowns of a kind took by the workroom's own record: hours are planned by it.
type Own struct {
	Factor *big.Rat // that the planned hours are taken by
	Words  string   // what it follows from
}

// PlannedHours are the hours of making that a job plans for one gown, without fittings and as it stands in the job, or
// follows from its drafts; 0 where it plans none.
func PlannedHours(j *job.Job) (cost.Decimal, error) {
	m := newMaker(j, Options{})
	var err error
	if m.cuts, err = cutsOf(m.job, m.gowns); err != nil {
		return 0, err
	}
	l, _, err := m.labour()
	return l.Hours, err
}

// byRecord takes planned hours by what gowns of that kind took.
func (m *maker) byRecord() (err error) {
	if own := m.options.Own; own != nil && m.hours.Hours > 0 {
		m.planned = m.hours.Hours
		m.hours.Hours, err = cost.QuartersOf(m.planned, own.Factor)
	}
	return err
}

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
	hours, steps, err := from.Rates.Hours(from.Per.Of(cost.Work{
		Seam: w.Seam, Hem: w.Hem, Gathered: w.Gathered, Pieces: w.Pieces,
	}))
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
