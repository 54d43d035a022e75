package workroom

import (
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/form"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// Added is what is new in a book: a person, a cloth, a gown by name.
type Added struct{ Kind, Name string }

// named are the keys by which tables of a book are called.
var named = map[string]string{"cloth": "id", "person": "name", "supplier": "name", "notion": "name",
	"leftover": "name", "gown": "job"}

// Kinds are what can be added to a book.
func Kinds() []string { return []string{"cloth", "person", "supplier", "notion", "leftover", "gown"} }

// Add writes a table with nothing but a name behind the others of its kind.
func Add(src []byte, new Added) ([]byte, error) {
	key, ok := named[new.Kind]
	if !ok {
		return nil, say.Errorf("a workroom has no %q to add", new.Kind).
			Hint("%s, each with its name: person=mara", strings.Join(Kinds(), ", "))
	}
	return edit.Append(src, edit.Of(new.Kind), edit.Item{Table: true,
		Fields: []edit.Field{{Key: key, Value: edit.Text(new.Name)}}})
}

// Set writes changes into the text of a book on a day. A price that is set was asked on that
// day, and a measure of a person was taken then.
func Set(src []byte, changes []job.Change, on job.Date) ([]byte, error) {
	for _, c := range changes {
		spots, err := job.RoomSpots(src, []job.Change{c})
		if err != nil {
			return nil, err
		}
		s := spots[0]
		switch {
		case s.List == "person" && len(s.Keys) == 1 && job.IsMeasure(s.Keys[0]):
			src, err = measured(src, s, on)
		case s.List == "cloth" && slices.Contains([]string{"price", "bolt", "breaks"}, s.Keys[0]):
			asked := job.Spot{List: s.List, Item: s.Item, Keys: []string{"priced"}, Text: on.String(), TOML: true}
			src, err = form.Put(src, append(spots, asked))
		default:
			src, err = form.Put(src, spots)
		}
		if err != nil {
			return nil, say.Errorf("%s: %w", c, err)
		}
	}
	return src, nil
}

// measured writes a measure into the table of a day, which is made where it is missing.
func measured(src []byte, s job.Spot, on job.Date) ([]byte, error) {
	root, bad := job.RoomTree(src)
	if bad != nil {
		return nil, bad
	}
	value := form.Written(s)
	list := edit.Of("person").Item(s.Item).Key("measured")
	person := root.Fields["person"].Value.Items[s.Item]
	if f := person.Fields["measured"]; f != nil {
		for i, day := range f.Value.Items {
			if d := day.Fields["on"]; d != nil && d.Value.Kind == strict.KindDate && d.Value.Text == on.String() {
				return edit.Set(src, list.Item(i).Key(s.Keys[0]), value)
			}
		}
	}
	return edit.Append(src, list, edit.Item{Table: true, Headed: true,
		Fields: []edit.Field{{Key: "on", Value: edit.TOML(on.String())}, {Key: s.Keys[0], Value: value}}})
}
