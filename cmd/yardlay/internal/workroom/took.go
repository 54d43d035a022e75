package workroom

import (
	"slices"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
)

// Took is what a gown really took, beside what was planned. What is zero stays as it is.
type Took struct {
	On             job.Date
	Hours, Planned cost.Decimal
	Cloths         []TookCloth
}

// TookCloth is what it took of one cloth, as it is written: lengths with their unit.
type TookCloth struct {
	Cloth                  string // as CalledInBook has it
	Planned, Length, Price string
}

// CalledInBook is what the book calls a cloth of a job: by its id in the workroom, unless another cloth of the job is
// the same one there, or it is none of the workroom.
func CalledInBook(j *job.Job, c job.Cloth) string {
	twice := slices.ContainsFunc(j.Cloths, func(o job.Cloth) bool { return o.ID != c.ID && o.From == c.From })
	if c.From == "" || twice {
		return c.ID
	}
	return c.From
}

// Into writes what a gown took into the text of a book, and a gown for it where there is none.
func (t Took) Into(src []byte, w *job.Workroom, file string) ([]byte, error) {
	src, at, err := gown(src, w, file)
	if err != nil {
		return nil, err
	}
	at = at.Key("took")
	fields := []edit.Field{{Key: "on", Value: onDay(t.On)}}
	if t.Hours != 0 {
		fields = append(fields, edit.Field{Key: "hours", Value: edit.TOML(t.Hours.String())})
	}
	if t.Planned != 0 {
		fields = append(fields, edit.Field{Key: "planned_hours", Value: edit.TOML(t.Planned.String())})
	}
	if src, err = setAll(src, at, fields); err != nil {
		return nil, err
	}
	var was []job.ClothTook
	if g, _ := w.Gown(file); g.Took != nil {
		was = g.Took.Cloths
	}
	for _, c := range t.Cloths {
		if src, err = c.into(src, at.Key("cloths"), was); err != nil {
			return nil, err
		}
	}
	return src, nil
}

// into writes what was taken of one cloth into the list of those, of which there are some already.
func (c TookCloth) into(src []byte, list edit.Path, was []job.ClothTook) ([]byte, error) {
	var fields []edit.Field
	for _, one := range []struct{ key, text string }{{"planned", c.Planned}, {"length", c.Length}, {"price", c.Price}} {
		if one.text != "" {
			fields = append(fields, edit.Field{Key: one.key, Value: edit.Text(one.text)})
		}
	}
	if i := slices.IndexFunc(was, func(o job.ClothTook) bool { return o.Cloth == c.Cloth }); i >= 0 {
		return setAll(src, list.Item(i), fields)
	}
	fields = slices.Insert(fields, 0, edit.Field{Key: "cloth", Value: edit.Text(c.Cloth)})
	return edit.Append(src, list, edit.Item{Table: true, Fields: fields})
}
