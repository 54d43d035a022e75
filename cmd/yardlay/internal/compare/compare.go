package compare

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Options steer a comparison. Rows do not depend on the workers; Compare and Steady
// are its own to set. Begin is for the job as written, and for rows where the same
// is laid. Progress counts rows while they are drawn, then layings.
type Options struct {
	plan.Options
	Whole bool    // search the job as written as long as by itself, its error ends all; else all rows are alike
	Price Pricing // what rows are weighed by; nil: their cloth alone
	// Best are keys whose rows are steps of one choice: the best of them is kept (Steps), the
	// others are passed over. Of defaults it is set.
	Best []string
	// Asking says how to ask for keys and their values; nil: as on the command line.
	Asking func(keys, values string) string
	// Stands is told how the comparison stands, once the rows are drawn and whenever one is
	// laid: a copy, whose rows have no price and no notes yet and may come to buy less. It
	// is not called by two goroutines at a time. nil: nobody listens.
	Stands func(*Result)
}

// Pricing says what the gowns of a laid job cost with all that goes into them.
type Pricing func(ctx context.Context, j *job.Job, r *report.Report) (Priced, error)

// Priced is what gowns cost, and what is sewn for it.
type Priced struct {
	Price  cost.Money
	More   bool    // false: the job counts nothing but cloth, and there is no Price
	Seam   float64 // sewn, mm
	Pieces int     // that are cut
	Labour cost.Money
	Rated  bool // Labour follows from what is sewn
}

// Result is a comparison. Its JSON is compare.json; it holds nothing that
// differs from run to run. Lengths are in mm, money in decimals of Currency.
type Result struct {
	Title    string   `json:"title"`
	Currency string   `json:"currency"`
	Effort   string   `json:"effort"`
	Seed     uint64   `json:"seed"`
	Gowns    int      `json:"gowns"`
	Rows     []Row    `json:"rows"` // the first is the job as written
	Notes    []string `json:"notes"`

	Unit  measure.Unit `json:"-"` // to show lengths in
	asked []Asked
	file  *job.File

	asking func(keys, values string) string
}

// Row is one way to make the gown.
type Row struct {
	Name    string       `json:"name"`    // "satin width 45 in"
	Changes []job.Change `json:"changes"` // from the job as written
	Cloths  []Cloth      `json:"cloths"`  // none when it was not laid
	Cost    string       `json:"cost"`    // of the cloths that have a price; "" when none has
	// of the gowns with all that goes into them; "" where cloth alone is counted
	Price string `json:"price"`
	// of the cloth that might be laid the most shorter: used length over bound, less 1
	Gap    float64 `json:"gap"`
	Proved bool    `json:"proved"` // no less can be bought of any cloth
	Best   bool    `json:"best"`   // costs least
	// from the job as written; null for that itself and where one of them was not laid
	Difference *Difference `json:"difference"`
	Why        string      `json:"why"`                   // what keeps it from being laid, "" when nothing does
	Brief      string      `json:"brief"`                 // the same in a few words, lengths in the unit they are shown in
	Hint       string      `json:"hint"`                  // and what would help, if that is known
	Skipped    bool        `json:"-"`                     // not laid since the run was over before
	Unpriced   bool        `json:"-"`                     // laid, but Why its gowns have no price
	Fullness   []Fullness  `json:"fullness,omitempty"`    // where net comes out otherwise than in the job as written
	PassedOver bool        `json:"passed_over,omitempty"` // another step of the same choice does better
	Notes      []string    `json:"notes"`
	// where parts are pieced that leave it open, by what they are called, as it was chosen for the row
	Places map[string]string `json:"places,omitempty"`

	Anew      []string       `json:"-"` // cloths laid anew that the job as written begins with from a layout
	Report    *report.Report `json:"-"` // nil when it was not laid
	Job       *job.Job       `json:"-"` // nil when it cannot be drawn
	Err       error          `json:"-"` // Why, at its place in the job file
	price     cost.Money
	priced    *Priced // nil: not known
	lots      []*lot
	tasks     []plan.Task
	elsewhere string // parts whose chosen place is not that of the job as written, with it
	thin      bool   // less full than the job as written since its cloth is narrower
}

// Cloth is what a row buys of one cloth.
type Cloth struct {
	ID         string  `json:"id"`
	Used       float64 `json:"used"`
	Bought     float64 `json:"bought"`
	Bolts      int     `json:"bolts"` // whole bolts, when that is the way to buy it
	Bound      float64 `json:"bound"` // no markers take less, with the pieces shared out as they are
	Gap        float64 `json:"gap"`   // used length over bound, less 1
	Proved     bool    `json:"proved"`
	AsShared   bool    `json:"proved_as_shared"` // with the pieces shared out over stretches and shelf as they are
	Cost       string  `json:"cost"`
	Status     string  `json:"status"` // "proved" where Proved, else "finished", or why the search ended before
	Difference float64 `json:"difference"`
}

// Difference is how a row differs from the job as written.
type Difference struct {
	Cost   string  `json:"cost"`             // "" where one of the two has no price
	Price  string  `json:"price"`            // likewise
	Length float64 `json:"length"`           // bought of all cloths together
	Seam   float64 `json:"seam,omitempty"`   // sewn, mm; 0 also where that is not known
	Pieces int     `json:"pieces,omitempty"` // cut
	Labour string  `json:"labour,omitempty"` // where it follows from what is sewn
	minor  int64   // Cost in minor units
}

// Run lays the job of a file as written and in every way of ways, which are
// changes from it; no ways mean Defaults.
// Each distinct task is laid once. A way that is the job as written is left out,
// and one that cannot be cut says so in its row. asked is what ways were combined
// from, for the notes and the picture.
//
// A context that is cancelled or comes to its deadline keeps the rows there are, the
// job as written among them, and the notes say which are missing or might be shorter.
// Errors are a *job.ChangeError for a change that cannot be read in any of its rows, and
// plan.ErrInterrupted where not even the job as written was drawn.
func Run(ctx context.Context, f *job.File, asked []Asked, ways [][]job.Change, o Options) (*Result, error) {
	written := f.Job()
	if ways == nil {
		ways = Defaults(written)
		o.Best = Steps(ways)
	}
	r := &Result{
		Title: written.Title, Currency: written.Currency, Effort: o.Effort.String(), Seed: o.Seed,
		Gowns: max(o.Gowns, 1), Unit: o.Unit, Notes: []string{}, asked: asked, file: f, asking: o.Asking,
	}
	if r.asking == nil {
		r.asking = func(keys, values string) string { return fmt.Sprintf("--vary \"%s=%s\"", keys, values) }
	}
	o.Weighed = cmp.Or(o.Weighed, new(plan.Weighed))
	if err := r.draw(ctx, append([][]job.Change{nil}, ways...), o); err != nil {
		return nil, err
	}
	if err := r.Rows[0].Err; err != nil && o.Whole {
		return nil, err
	}
	lots, err := r.distinct()
	if err != nil {
		return nil, err
	}
	l := layer{options: o, standing: r.standing(o)}
	l.standing.tell()
	l.layAll(ctx, lots)
	l.share(ctx, lots)
	if err := r.fill(o, func(*Row) bool { return true }); err != nil {
		return nil, err
	}
	r.price(ctx, o)
	r.fuller()
	if err := r.finish(ctx, &l); err != nil {
		return nil, err
	}
	r.weigh()
	r.pick(o.Best)
	r.note(ctx)
	return r, nil
}

// refuse notes why a row is not laid: the first of all reasons, without its
// place in the file.
func (w *Row) refuse(err error) {
	var first *strict.Error // of all there are
	w.Err = err
	var show say.Show
	if w.Job != nil {
		show = w.Job.Show()
	}
	w.Why, w.Hint = say.Parts(err, show)
	if errors.As(err, &first) {
		w.Why, w.Brief, w.Hint = first.What, first.Brief, first.Hint
	}
	if w.Brief == "" {
		w.Brief = w.Why
	}
}

// distinct returns every distinct task of the rows once, in the rows' order.
func (r *Result) distinct() ([]*lot, error) {
	var lots []*lot
	known := map[string]*lot{}
	for i := range r.Rows {
		row := &r.Rows[i]
		for _, t := range row.tasks {
			key := t.Key()
			if known[key] == nil {
				one, err := newLot(t, i)
				if err != nil {
					return nil, err
				}
				known[key] = one
				lots = append(lots, one)
			}
			row.lots = append(row.lots, known[key])
		}
	}
	return lots, nil
}

// fill reports what was found for some rows.
func (r *Result) fill(o Options, which func(*Row) bool) error {
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Why == "" && which(row) {
			if err := row.fill(o); err != nil {
				return err
			}
		}
	}
	return nil
}

// fill reports what was found for a row.
func (w *Row) fill(o Options) error {
	var laid []plan.Laid
	for i, one := range w.lots {
		if one.err != nil {
			w.Err = w.tasks[i].Refusal(w.Job.ShownIn(o.Unit), one.err)
			w.Why, w.Brief, w.Skipped = one.err.Error(), one.err.Error(), one.err == errSkipped || one.err == errLate
			if cloth := w.tasks[i].Spread.Cloth.ID; !w.Skipped {
				w.Why, w.Hint = say.Errorf("`%s` could not be laid: %w", cloth, one.err).Parts(w.Job.Show())
				w.Brief = "no layout was found on " + cloth
			}
			var unsold *plan.BuyError
			if errors.As(one.err, &unsold) {
				w.Why, w.Hint = say.Parts(unsold.Err, w.Job.Show())
				w.Brief = w.Why
			}
			return nil
		}
		l := one.laid
		l.Task.Spread = w.tasks[i].Spread // the same but for what the cloth is called
		laid = append(laid, l)
	}
	var err error
	w.Report, err = report.New(w.Job, laid, o.Options)
	if errors.Is(err, cost.ErrTooMuch) {
		w.noPrice(err)
		return nil
	}
	if err != nil {
		return say.Errorf("%s: %w", w.Name, err)
	}
	w.Cost, w.Proved, w.Gap, w.Cloths = w.Report.Total, true, 0, nil
	for _, c := range w.Report.Cloths {
		w.Cloths = append(w.Cloths, Cloth{
			ID: c.ID, Used: c.Used, Bought: c.Bought, Bolts: c.Bolts, Bound: c.Bound, Gap: c.Gap,
			Proved: c.Proved, AsShared: c.ProvedAsShared, Cost: c.Cost, Status: c.Status,
		})
		if !c.Proved {
			w.Proved, w.Gap = false, max(w.Gap, c.Gap)
		}
	}
	return nil
}

// price prices the gowns of every row that was laid. One whose gown takes nothing but cloth
// is weighed by that, beside others that take more; one that has no price says why.
func (r *Result) price(ctx context.Context, o Options) {
	if o.Price == nil {
		return
	}
	quoted := false
	for i := range r.Rows {
		row := &r.Rows[i]
		if row.Report == nil {
			continue
		}
		priced, err := o.Price(ctx, row.Job, row.Report)
		if err != nil {
			row.noPrice(err)
			continue
		}
		if row.price, row.priced = row.Report.Bill.Total, &priced; priced.More {
			row.price, row.Price, quoted = priced.Price, priced.Price.Amount(), true
		}
	}
	for i := range r.Rows {
		if row := &r.Rows[i]; quoted && row.Report != nil && row.Price == "" {
			row.Price = row.Cost
		}
	}
}

// noPrice notes why a row that was laid has no price: it counts for nothing.
func (w *Row) noPrice(err error) {
	w.refuse(err)
	w.Unpriced, w.Report, w.Cloths, w.Cost, w.Price = true, nil, []Cloth{}, "", ""
	w.Proved, w.Gap = false, 0
}

// Amount is what a row is weighed by, as it is printed: the price of the gowns, or of
// their cloth where that alone is counted.
func (w Row) Amount() string {
	if w.Price != "" {
		return w.Price
	}
	return w.Cost
}

// Name says in words what a way changes: "satin width 45 in, price 9.80/yd".
func Name(way []job.Change) string {
	var words []string
	last := ""
	for i, c := range way {
		if i > 0 && strings.HasSuffix(c.Key, "_seam") && strings.HasSuffix(way[i-1].Key, "_on_fold") {
			continue // what is cut in one has no seam there
		}
		if text := spoken(c); text != "" {
			words = append(words, text)
			continue
		}
		table, key, ok := strings.Cut(c.Key, ".")
		if table == "cloth" || table == "part" {
			table, key, ok = strings.Cut(key, ".")
		}
		switch {
		case !ok:
			words = append(words, table+" "+c.Value)
		case table == last:
			words = append(words, key+" "+c.Value)
		default:
			words = append(words, table+" "+key+" "+c.Value)
		}
		last = table
	}
	return strings.ReplaceAll(strings.Join(words, ", "), "_", " ")
}

// spoken says changes of a part for which its key and value are no words; "" for others.
func spoken(c job.Change) string {
	part, key, _ := strings.Cut(strings.TrimPrefix(c.Key, "part."), ".")
	switch {
	case key == withinKey[1:] && c.Value == job.ChosenLength:
		return part + " pieced within a width that is chosen"
	case key == withinKey[1:]:
		return part + " pieced within " + c.Value
	case key == acrossKey[1:] && c.Value == job.ChosenLength:
		return part + " cut across at a length that is chosen"
	case key == acrossKey[1:]:
		return part + " cut across at " + c.Value
	case key == "tilt":
		return part + " tilt " + c.Value + " degrees"
	case strings.HasSuffix(key, "_on_fold") && c.Value == "true":
		return part + " centre " + strings.TrimSuffix(key, "_on_fold") + " cut in one"
	}
	return ""
}
