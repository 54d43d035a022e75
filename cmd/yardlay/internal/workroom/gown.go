package workroom

import (
	"path/filepath"
	"slices"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
)

// gown returns where the book has a gown, by the name of its job's file. One that it lacks is written first.
func gown(src []byte, w *job.Workroom, file string) ([]byte, edit.Path, error) {
	file = filepath.Base(file)
	i := slices.IndexFunc(w.Gowns, func(g job.Gown) bool { return g.Job == file })
	if i >= 0 {
		return src, edit.Of("gown").Item(i), nil
	}
	src, err := edit.Append(src, edit.Of("gown"),
		edit.Item{Table: true, Fields: []edit.Field{{Key: "job", Value: edit.Text(file)}}})
	return src, edit.Of("gown").Item(len(w.Gowns)), err
}

// setAll gives keys of a table of the book their values, one after the other.
func setAll(src []byte, at edit.Path, fields []edit.Field) (_ []byte, err error) {
	for _, f := range fields {
		if src, err = edit.Set(src, at.Key(f.Key), f.Value); err != nil {
			return nil, err
		}
	}
	return src, nil
}

// onDay is a day as it is written.
func onDay(d job.Date) edit.Value { return edit.TOML(d.String()) }

// inMoney is an amount as it is written.
func inMoney(m cost.Money) edit.Value { return edit.Text(m.Amount()) }

// Order is what is agreed on a gown, or paid for it. What is zero stays as it is.
type Order struct {
	Ordered, Deliver job.Date
	Fittings         []job.Date // besides those that there are
	Price, Deposit   *cost.Money
	Paid             []job.Payment // besides those that there are
}

// Into writes an order into the text of a book, and a gown for it where there is none.
func (o Order) Into(src []byte, w *job.Workroom, file string) ([]byte, error) {
	src, at, err := gown(src, w, file)
	if err != nil {
		return nil, err
	}
	was, _ := w.Gown(file)
	var fields []edit.Field
	if !o.Ordered.IsZero() {
		fields = append(fields, edit.Field{Key: "ordered", Value: onDay(o.Ordered)})
	}
	if !o.Deliver.IsZero() {
		fields = append(fields, edit.Field{Key: "deliver", Value: onDay(o.Deliver)})
	}
	if o.Price != nil {
		fields = append(fields, edit.Field{Key: "price", Value: inMoney(*o.Price)})
	}
	if o.Deposit != nil {
		fields = append(fields, edit.Field{Key: "deposit", Value: inMoney(*o.Deposit)})
	}
	if src, err = setAll(src, at, fields); err != nil {
		return nil, err
	}
	for _, d := range o.Fittings {
		if slices.Contains(was.Fittings, d) {
			continue
		}
		if src, err = edit.Append(src, at.Key("fittings"), edit.Item{Value: onDay(d)}); err != nil {
			return nil, err
		}
	}
	for _, p := range o.Paid {
		if src, err = edit.Append(src, at.Key("paid"), edit.Item{Table: true, Fields: []edit.Field{
			{Key: "on", Value: onDay(p.On)}, {Key: "amount", Value: inMoney(p.Amount)}}}); err != nil {
			return nil, err
		}
	}
	return src, nil
}
