package form

import (
	"cmp"
	"slices"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

// maker makes a form, and notes which errors found their field.
type maker struct {
	src   []byte
	root  *strict.Value
	room  *job.Workroom
	told  map[place][]*strict.Error
	shown map[*strict.Error]bool
}

type place struct{ line, column int }

// take returns the errors at a place that are not shown yet and that hold.
func (m *maker) take(at strict.Position, holds func(*strict.Error) bool) (all []*strict.Error) {
	if m.shown == nil {
		m.shown = map[*strict.Error]bool{}
	}
	for _, e := range m.told[place{at.Line, at.Column}] {
		if !m.shown[e] && holds(e) {
			m.shown[e] = true
			all = append(all, e)
		}
	}
	return all
}

// group makes what belongs to one table of the file, or to a list of them.
func (m *maker) group(s job.Section) Group {
	g := Group{Name: s.Name, About: s.About}
	if s.Name == "job" {
		g.Tables = []Table{m.table(Table{Kind: s.Name, Given: true}, m.root, s.Keys)}
		return g
	}
	key, _ := fileKey(s.Name)
	g.Path = edit.Of(s.Name)
	v := strict.NewTable(strict.Position{})
	f := m.root.Fields[s.Name]
	if f != nil {
		v = f.Value
	}
	g.List = key.Kind.Listed == job.List || f != nil && v.Kind == strict.KindList
	if !g.List {
		g.Tables = []Table{m.table(Table{Path: g.Path, Kind: s.Name, Given: f != nil}, v, key.Kind.Keys)}
		return g
	}
	for i, item := range v.Items {
		t := Table{Path: g.Path.Item(i), Kind: s.Name, Item: true, Index: i, Last: i == len(v.Items)-1, Given: true}
		g.Tables = append(g.Tables, m.table(t, item, job.KeysOf(key, item, true)))
	}
	return g
}

// table fills in a table: the fields of its keys, those that must be given first, and
// what else the file has there.
func (m *maker) table(t Table, v *strict.Value, keys []job.Key) Table {
	t.Name, t.Draft = cmp.Or(v.TextOf("id"), v.TextOf("name")), v.TextOf("draft")
	for _, k := range keys {
		f := m.field(t, v, k)
		f.Inherited = m.room.Gives(t.Kind, v, k)
		t.Fields = append(t.Fields, f)
	}
	for _, name := range v.Order {
		if _, known := keyIn(keys, name); known {
			continue
		}
		if k, ofFile := fileKey(name); ofFile && v == m.root && k.Kind.Form == job.Table {
			continue // it has a group of its own
		}
		t.Fields = append(t.Fields, m.unknown(t, v, name))
	}
	t.Errors = m.take(v.At, func(*strict.Error) bool { return true })
	return t
}

// unknown shows what a table has without a key for it.
func (m *maker) unknown(t Table, v *strict.Value, name string) Field {
	f := v.Fields[name]
	text, _ := edit.Written(m.src, t.Path.Key(name))
	all := func(*strict.Error) bool { return true }
	return Field{Path: t.Path.Key(name), Key: job.Key{Name: name}, Control: Unknown, Given: true, Text: text,
		Errors: m.take(f.At, all)}
}

// field makes the field of a key.
func (m *maker) field(t Table, v *strict.Value, k job.Key) Field {
	f := Field{Path: t.Path.Key(k.Name), Key: k, Names: names(t.Kind, k.Name)}
	lacks := func(e *strict.Error) bool { return e.Lacks == k.Name }
	var value *strict.Value
	if given := v.Fields[k.Name]; given != nil {
		f.Given, value = true, given.Value
		f.Errors = m.take(given.At, func(e *strict.Error) bool { return e.Lacks == "" || value.Kind != strict.KindTable })
	} else {
		f.Errors = m.take(v.At, lacks)
	}
	switch {
	case k.Kind.Form == job.Table && k.Kind.Listed == job.Single:
		m.inner(&f, value)
	case k.Kind.Form == job.Table:
		m.tables(&f, value)
	case k.Kind.Listed != job.Single && k.Kind.Form != job.Points:
		m.lines(&f, value)
	default:
		m.fill(&f, value)
	}
	return f
}

// names says whether tables of a kind are named elsewhere by a key.
func names(kind, key string) bool {
	return key == "id" && kind == "cloth" ||
		key == "name" && slices.Contains([]string{"body", "part", "supplier"}, kind)
}

// fill gives a field of one value its text and its choices.
func (m *maker) fill(f *Field, v *strict.Value) {
	if f.Key.Kind.Form == job.Length && f.Key.Kind.Of == "" {
		f.Unit = m.root.TextOf("unit")
	}
	if v != nil {
		f.Errors = append(f.Errors, m.take(v.At, func(*strict.Error) bool { return true })...)
		f.Given = true
		if f.Text = v.Typed(); v.Kind == strict.KindList || v.Kind == strict.KindTable || v.Kind == strict.KindDate {
			f.Text, _ = edit.Written(m.src, f.Path)
			m.takeWithin(f, v)
		}
	}
	form := f.Key.Kind.Form
	if f.Choices = m.choices(f.Key.Kind); len(f.Choices) > 0 && form != job.Ratio && form != job.Length {
		f.Control = Choice
	}
}

// takeWithin takes all errors within a value that is one line of the form.
func (m *maker) takeWithin(f *Field, v *strict.Value) {
	for _, item := range v.Items {
		f.Errors = append(f.Errors, m.take(item.At, func(*strict.Error) bool { return true })...)
		m.takeWithin(f, item)
	}
	for _, name := range v.Order {
		one := v.Fields[name]
		f.Errors = append(f.Errors, m.take(one.At, func(*strict.Error) bool { return true })...)
		f.Errors = append(f.Errors, m.take(one.Value.At, func(*strict.Error) bool { return true })...)
		m.takeWithin(f, one.Value)
	}
}

// lines makes a line of each value, and one more.
func (m *maker) lines(f *Field, v *strict.Value) {
	f.Control = Lines
	one := func(path edit.Path, v *strict.Value) {
		item := Field{Path: path, Key: f.Key, Within: f.Path, Further: v == nil && len(f.Items) > 0}
		m.fill(&item, v)
		f.Unit = item.Unit
		f.Items = append(f.Items, item)
	}
	switch {
	case v == nil:
		one(f.Path, nil)
		return
	case v.Kind != strict.KindList:
		one(f.Path, v)
		one(f.Path.Item(1), nil)
		return
	}
	f.Errors = append(f.Errors, m.take(v.At, func(*strict.Error) bool { return true })...)
	for i, item := range v.Items {
		one(f.Path.Item(i), item)
	}
	one(f.Path.Item(len(v.Items)), nil)
}

// inner makes the table within a field.
func (m *maker) inner(f *Field, v *strict.Value) {
	if v != nil && v.Kind != strict.KindTable {
		m.fill(f, v)
		return
	}
	f.Control = Inner
	t := Table{Path: f.Path, Kind: f.Key.Name, Given: v != nil}
	if v == nil {
		v = strict.NewTable(strict.Position{})
	}
	made := m.table(t, v, f.Key.Kind.Keys)
	f.Table = &made
}

// tables makes each table of a list within a field.
func (m *maker) tables(f *Field, v *strict.Value) {
	f.Control = Tables
	if v == nil {
		return
	}
	items, at := v.Items, f.Path
	switch {
	case v.Kind == strict.KindTable: // one alone, without brackets
		t := m.table(Table{Path: at, Kind: f.Key.Name, Given: true, Last: true}, v, f.Key.Kind.Keys)
		f.Tables = []Table{t}
		return
	case v.Kind != strict.KindList || slices.ContainsFunc(items, func(i *strict.Value) bool {
		return i.Kind != strict.KindTable
	}):
		m.fill(f, v)
		f.Control = Line
		return
	}
	for i, item := range items {
		t := Table{Path: at.Item(i), Kind: f.Key.Name, Item: true, Index: i, Last: i == len(items)-1, Given: true}
		f.Tables = append(f.Tables, m.table(t, item, f.Key.Kind.Keys))
	}
}

// choices lists what a value may be where it is one of a few.
func (m *maker) choices(k job.Kind) []string {
	switch k.Form {
	case job.OneOf, job.Ratio, job.Length:
		return k.Choices
	case job.Truth:
		return []string{"true", "false"}
	case job.Name:
		if k.Of == "draft" {
			return draftNames()
		}
		if k.Of == job.OfRoomCloth || k.Of == job.OfRoomPerson {
			return m.room.Names(k.Of)
		}
		return m.called(k.Of)
	}
	return nil
}

func draftNames() (all []string) {
	for _, s := range job.Reference() {
		if s.Draft {
			all = append(all, s.Name)
		}
	}
	return all
}

// called lists what the tables of a kind are called.
func (m *maker) called(kind string) (all []string) {
	f := m.root.Fields[kind]
	if f == nil {
		return nil
	}
	for _, item := range f.Value.Items {
		if name := cmp.Or(item.TextOf("id"), item.TextOf("name")); name != "" && !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return all
}
