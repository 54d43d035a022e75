package job

import (
	"strings"

	"yardlay/cost"
	"yardlay/shapes/measure"
)

// Labour is the maker's time for one gown: hours as she gives them, or rates by
// which they follow from the drafts.
type Labour struct {
	Hours      cost.Decimal
	Rates      cost.Rates // minutes for one Per of length, and for a piece
	Per        RateUnits
	ByRates    bool
	Fittings   int
	PerFitting cost.Decimal // hours
	Rate       cost.Money   // for one hour
}

// RateUnits are what the rates of lengths are for: yards or metres.
type RateUnits struct{ Seam, Hem, Gathered measure.Unit }

// Of scales the lengths of some work so that rates by the metre hold for those by the unit.
func (u RateUnits) Of(w cost.Work) cost.Work {
	scaled := func(mm float64, per measure.Unit) float64 {
		if per == measure.Metre {
			return mm
		}
		return mm * measure.Metres / per.Millimetres()
	}
	w.Seam, w.Hem, w.Gathered = scaled(w.Seam, u.Seam), scaled(w.Hem, u.Hem), scaled(w.Gathered, u.Gathered)
	return w
}

// Sewing is what it comes to in the currency's minor units to sew a length of seam, mm, and to handle so many pieces,
// by the rates of the job; 0 where it gives none, or the sum is past all amounts, which a quote refuses.
func (l Labour) Sewing(seam float64, pieces int) (minor int64) {
	if !l.ByRates {
		return 0
	}
	worth, err := l.Rates.Worth(l.Per.Of(cost.Work{Seam: seam, Pieces: pieces}), l.Rate)
	if err != nil {
		return 0
	}
	return worth.Minor
}

// usualFitting is how long a fitting takes where the job does not say: an hour,
// common practice.
var usualFitting = cost.Whole(1)

// mostFittings is far more than any gown takes.
const mostFittings = 100

// labour reads [labour] over what the rates file has. Hours and rates exclude
// each other: what the job gives takes the place of the other in the rates file.
func (t *table) labour(base Labour) Labour {
	l := t.sub("labour", "[labour]", `{ hours = 22.5, rate = "24.00/h" }`)
	if l == nil {
		return base
	}
	rates := []string{"seam", "hem", "gathered", "piece"}
	for _, key := range rates {
		if l.Has("hours") && l.Has(key) {
			l.Fail(l.Field(key).At, "give the hours, or rates by which they follow from the drafts",
				"[labour] has both `hours` and `%s`", key)
		}
		base.ByRates = base.ByRates && !l.Has("hours") || l.Has(key)
	}
	l.fill(&base)
	l.minutesPer("seam", &base.Rates.Seam, &base.Per.Seam)
	l.minutesPer("hem", &base.Rates.Hem, &base.Per.Hem)
	l.minutesPer("gathered", &base.Rates.Gathered, &base.Per.Gathered)
	if text, at, ok := l.Text("piece"); ok {
		if number, found := strings.CutSuffix(strings.TrimSpace(text), "min"); found {
			base.Rates.Piece, _ = l.Positive("piece", number, pieceHint, at)
		} else {
			l.Fail(at, pieceHint, "`piece`: cannot read %q as minutes", text)
		}
	}
	if hours, ok := l.Decimal("fitting_hours", "0.75"); ok {
		base.PerFitting = hours
	} else if base.PerFitting == 0 {
		base.PerFitting = usualFitting
	}
	l.hourly(&base)
	l.Finish()
	return base
}

const (
	minuteHint = `minutes for a length: seam = "6 min/m" or "5.5 min/yd"`
	pieceHint  = `minutes for each piece cut: piece = "4 min"`
)

// minutesPer reads a rate such as "6 min/m".
func (t *table) minutesPer(key string, rate *cost.Decimal, per *measure.Unit) {
	text, at, ok := t.Text(key)
	if !ok {
		return
	}
	before, by, found := strings.Cut(text, "/")
	number, minutes := strings.CutSuffix(strings.TrimSpace(before), "min")
	unit, err := measure.ParseUnit(by)
	if !found || !minutes || err != nil || unit != measure.Yard && unit != measure.Metre {
		t.Fail(at, minuteHint, "`%s`: cannot read %q as minutes by the yard or the metre", key, text)
		return
	}
	if d, ok := t.Positive(key, number, minuteHint, at); ok {
		*rate, *per = d, unit
	}
}

// hourly reads what an hour costs, which hours and fittings need.
func (t *table) hourly(l *Labour) {
	const hint = `what an hour of yours costs: rate = "24.00/h"`
	if text, at, ok := t.Text("rate"); ok {
		rate, _, err := cost.ParsePriceBy(text, t.money, "h", "hour")
		if err != nil {
			t.Fail(at, hint, "`rate`: %v", err)
			return
		}
		l.Rate = rate
	}
}
