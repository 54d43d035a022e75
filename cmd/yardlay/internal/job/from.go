package job

import (
	"cmp"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/plane"
)

// fromKey is the key by which a cloth or a body is one of the workroom.
const fromKey = "from"

// standsIn reads the book of the workroom that the job stands in, if it does.
func (r *reader) standsIn() strict.Errors {
	path := filepath.Join(filepath.Dir(r.File), WorkroomFile)
	room, err := r.disk.rooms.of(path, func(path string) (*Workroom, error) {
		src, err := r.disk.readWhole(path, MaxWorkroom)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		return ReadWorkroom(path, src)
	})
	var wrong strict.Errors
	switch {
	case errors.As(err, &wrong):
		wrong = slices.Clone(wrong)
		for i, e := range wrong {
			placed := *e
			placed.At.File = e.File
			wrong[i] = &placed
		}
		return wrong
	case err != nil:
		at := strict.Position{Line: 1, Column: 1, File: path}
		return strict.Errors{{File: path, At: at, What: "the workroom: " + err.Error(), Cause: err}}
	}
	r.room = room
	return nil
}

// inherited returns what a file says with that of the workroom put in where a cloth or a
// body is `from` it. Keys beside that win, and a price takes its own day with it.
func (w *Workroom) inherited(root *strict.Value) *strict.Value {
	if w == nil {
		return root
	}
	with := *root
	with.Fields = make(map[string]*strict.Field, len(root.Fields))
	for key, f := range root.Fields {
		if key == "cloth" || key == "body" {
			v := *f.Value
			if v.Kind == strict.KindTable {
				v = *w.under(key, &v)
			}
			v.Items = slices.Clone(v.Items)
			for i, item := range v.Items {
				v.Items[i] = w.under(key, item)
			}
			f = &strict.Field{At: f.At, Value: &v}
		}
		with.Fields[key] = f
	}
	return &with
}

// under returns a table of a job with the keys that it lacks and that what it is `from` has.
func (w *Workroom) under(key string, n *strict.Value) *strict.Value {
	base := w.base(key, n)
	if base == nil {
		return n
	}
	with := *n
	with.Order, with.Fields = slices.Clone(n.Order), map[string]*strict.Field{}
	for name, f := range n.Fields {
		with.Fields[name] = f
	}
	for _, name := range base.Order {
		own := n.Fields[name] != nil || name == "priced" && (n.Fields["price"] != nil || n.Fields["bolt"] != nil)
		if !own {
			with.Order = append(with.Order, name)
			with.Fields[name] = base.Fields[name]
		}
	}
	return &with
}

// base is what a table of a job is `from`, marked as written in the book; nil for nothing.
func (w *Workroom) base(key string, n *strict.Value) *strict.Value {
	if n.Kind != strict.KindTable || n.TextOf(fromKey) == "" {
		return nil
	}
	name := n.TextOf(fromKey)
	var base *strict.Value
	switch key {
	case "cloth":
		i := slices.IndexFunc(w.Cloths, func(c Cloth) bool { return c.ID == name })
		if i < 0 {
			return nil
		}
		base = w.root.Fields["cloth"].Value.Items[i].Clone()
		base.Drop("id")
	case "body":
		i := slices.IndexFunc(w.People, func(p Person) bool { return p.Name == name })
		if i < 0 {
			return nil
		}
		base = w.body(i)
	default:
		return nil
	}
	base.From(w.File, w.Unit)
	return base
}

// body is a person as the body of a job: each measure as it was taken last.
func (w *Workroom) body(person int) *strict.Value {
	written := w.root.Fields["person"].Value.Items[person]
	body := strict.NewTable(written.At)
	for _, m := range w.People[person].Measured {
		for _, one := range written.Fields["measured"].Value.Items {
			if one.At != m.At {
				continue
			}
			for _, name := range one.Order {
				if name != "on" {
					body.Set(name, one.Fields[name].At, one.Fields[name].Value.Clone())
				}
			}
		}
	}
	if f := written.Fields[unusualKey]; f != nil {
		body.Set(unusualKey, f.At, f.Value.Clone())
	}
	return body
}

// fromRoom reads what of the workroom a table is; "" where it is nothing of it, or nothing
// that there is.
func (t *table) fromRoom(key, kind string, known []string) string {
	name, at, ok := t.Text(key)
	switch {
	case !ok:
		return ""
	case t.room == nil:
		t.Fail(at, "`yardlay workroom --new` makes one in the folder of the job",
			"%s is `%s` a %s of the workroom, and no %s stands beside the job", t.Name, key, kind, WorkroomFile)
		return ""
	case !slices.Contains(known, name):
		t.Fail(at, cmp.Or(strict.OneOf(name, known), "add it to "+t.room.File), "%s: the workroom has no %s %q", t.Name,
			kind, shortened(name))
		return ""
	}
	if kind == "cloth" && t.room.Currency != t.money {
		t.Fail(at, "amounts are not converted: a workroom serves jobs of one currency",
			"the workroom counts in %s and the job in %s", t.room.Currency, t.money)
	}
	return name
}

// What a key of a job takes that names something of the workroom.
const OfRoomCloth, OfRoomPerson = "cloth of the workroom", "person of the workroom"

// Names are those of what a key of a job may name; none without a workroom.
func (w *Workroom) Names(of string) []string {
	n := noted{room: w}
	if of == OfRoomCloth {
		return n.roomCloths()
	}
	return n.roomPeople()
}

// Gives is what the workroom gives a key of a cloth or a body of a job which lacks it, as it
// would be typed; "" for nothing, also without a workroom.
func (w *Workroom) Gives(kind string, table *strict.Value, k Key) string {
	if w == nil || table.Fields[k.Name] != nil {
		return ""
	}
	f := w.under(kind, table).Fields[k.Name]
	switch {
	case f == nil:
		return ""
	case f.Value.Typed() == "":
		return "what is written there"
	case k.Kind.Form == Length && k.Kind.Of == "":
		return withUnit(f.Value.Typed(), w.Unit)
	}
	return f.Value.Typed()
}

// roomCloths are the ids of the cloths in the workroom.
func (n *noted) roomCloths() []string {
	if n.room == nil {
		return nil
	}
	return clothIDs(n.room.Cloths)
}

// roomPeople are the names of the people in the workroom.
func (n *noted) roomPeople() (names []string) {
	if n.room != nil {
		for _, p := range n.room.People {
			names = append(names, p.Name)
		}
	}
	return names
}

// takeFromRoom adds to the leftovers of a cloth those of the workroom that are not promised
// to another job: the largest, where there are too many.
func (t *table) takeFromRoom(c *Cloth) {
	if c.From == "" || slices.Contains(t.shelved, c.From) { // a leftover is not laid on twice
		return
	}
	t.shelved = append(t.shelved, c.From)
	var shelf []Have
	for _, l := range t.room.Leftovers {
		free := l.Used == "" && (l.Promised == "" || l.Promised == filepath.Base(t.File))
		if l.Cloth == c.From && free && (l.Outline != nil || l.usable(*c) > 0) {
			l.At.File = t.room.File
			shelf = append(shelf, l.Have)
		}
	}
	slices.SortStableFunc(shelf, func(a, b Have) int { return cmp.Compare(b.area(*c), a.area(*c)) })
	if most := max(0, mostHave-len(c.Have)); len(shelf) > most {
		c.Untried = len(shelf) - most
		shelf = shelf[:most]
	}
	for _, h := range shelf {
		if slices.ContainsFunc(c.Have, func(own Have) bool { return own.Name == h.Name }) {
			t.Fail(t.Value.At, "give that of the job another name", "%s: leftover `%s` is on the shelf of the workroom too",
				t.Name, h.Name)
		}
	}
	c.Have = append(c.Have, shelf...)
}

// area is what a leftover of a cloth comes to, mm2.
func (h Have) area(c Cloth) float64 {
	switch {
	case h.Outline != nil:
		return plane.Area(h.Outline)
	case h.Width > 0:
		return h.Length * h.Width
	}
	return h.Length * c.broadest()
}

// inheritedBy is a table of the workroom that a change reaches into where the file has none;
// nil for none.
func (f *File) inheritedBy(t named, path string) *strict.Field {
	key, _, within := strings.Cut(path, ".")
	if !within || t.node.Fields[key] != nil || f.job == nil || f.job.Room == nil {
		return nil
	}
	base := f.job.Room.base(t.list, t.node)
	if base == nil {
		return nil
	}
	return base.Fields[key]
}
