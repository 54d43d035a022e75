package job

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// trees are the files of jobs of every table and of every draft, as read.
func trees(t *testing.T) map[string]*strict.Value {
	t.Helper()
	all := map[string]string{"every table": everyTable}
	for _, d := range drafts {
		all[d.name] = exampleJob(d)
	}
	roots := map[string]*strict.Value{}
	for name, src := range all {
		root, bad := fileFormat.Parse([]byte(src))
		if bad != nil {
			t.Fatalf("%s: %v", name, bad)
		}
		roots[name] = root
	}
	return roots
}

// tables are all within a value, and itself.
func tables(v *strict.Value) (all []*strict.Value) {
	if v.Kind == strict.KindTable {
		all = append(all, v)
	}
	for _, item := range v.Items {
		all = append(all, tables(item)...)
	}
	for _, key := range v.Order {
		all = append(all, tables(v.Fields[key].Value)...)
	}
	return all
}

// No table of a job or of a book, however deep, takes a key that the reference has not: it is refused at its place.
func TestNoTableTakesAnUnknownKey(t *testing.T) {
	room, bad := roomFormat.Parse([]byte(aRoom))
	if bad != nil {
		t.Fatal(bad)
	}
	roots, tried := trees(t), 0
	roots["a book"] = room
	for name, root := range roots {
		w := registry{t: t, root: root, room: name == "a book"}
		for _, table := range tables(root) {
			tried++
			v := num(1)
			v.MoveTo(tryValue)
			table.Set("zzz", tryKey, v)
			wrong := w.reads()
			table.Drop("zzz")
			i := slices.IndexFunc(wrong, func(e *strict.Error) bool { return e.At == tryKey })
			if i < 0 || !strings.HasSuffix(wrong[i].What, " has no key `zzz`") || wrong[i].Hint == "" {
				t.Errorf("%s, table at %v: %v", name, table.At, wrong)
			}
		}
	}
	if tried < 120 {
		t.Errorf("only %d tables were tried", tried)
	}
}

// company is what a key means nothing without.
func company(family, key string) map[string]*strict.Value {
	switch {
	case key == "lining_shorter":
		lining := strict.NewTable(strict.Position{})
		lining.Set("cloth", strict.Position{}, word("fusible"))
		return map[string]*strict.Value{"lining": lining}
	case family == "strapless-bodice" && strings.HasPrefix(key, "high_hip"):
		return map[string]*strict.Value{"ends_at": word("high-hip")}
	}
	return nil
}

// changed reads a job with another value of a key of its first part; nil where that is refused.
func changed(root *strict.Value, key string, v *strict.Value) *Job {
	other := root.Clone()
	part := other.Fields["part"].Value.Items[0]
	for k, v := range company(part.TextOf("draft"), key) {
		part.Drop(k)
		part.Set(k, tryKey, v)
	}
	for _, k := range apart[key] {
		part.Drop(k)
	}
	part.Drop(key)
	if v != nil {
		v.MoveTo(tryValue)
		part.Set(key, tryKey, v)
	}
	f := File{name: "job.toml", root: other, disk: new(disk)}
	j, wrong := f.read(other)
	if wrong != nil {
		return nil
	}
	return j
}

// Every key of a draft that the example can be given makes another part of it, for one of its values at least: none is
// read and forgotten.
func TestEveryKeyOfADraftMatters(t *testing.T) {
	matter, refused := 0, 0
	for _, d := range drafts {
		root, bad := fileFormat.Parse([]byte(exampleJob(d)))
		if bad != nil {
			t.Fatal(bad)
		}
		for _, k := range d.keys {
			good, _ := samples(k.Kind)
			switch {
			case k.Kind.Form == Length && k.Kind.Listed == Single:
				good = []*strict.Value{num(3), num(7), num(31)}
			case k.Kind.Form == Name || k.Kind.Form == Table:
				continue // who is named, and what stands in tables of their own, others try
			}
			var read []*Job
			for _, v := range append([]*strict.Value{nil}, good...) {
				if j := changed(root, k.Name, v); j != nil {
					read = append(read, j)
				}
			}
			if len(read) < 2 {
				refused++
				continue
			}
			if !slices.ContainsFunc(read[1:], func(j *Job) bool { return !j.Same(read[0]) }) {
				t.Errorf("%s: `%s` makes no difference", d.name, k.Name)
			}
			matter++
		}
	}
	if matter < 340 || refused > 40 {
		t.Errorf("%d keys were tried, %d are refused with any value", matter, refused)
	}
}

// with reads a file as it is with a value of a key, in place of what it has there, and leaves it as it was.
func (w *registry) with(n *strict.Value, key string, v *strict.Value, read func()) {
	was := n.Clone()
	for _, k := range append([]string{key}, apart[key]...) {
		n.Drop(k)
	}
	if v != nil {
		v.MoveTo(tryValue)
		n.Set(key, tryKey, v)
	}
	read()
	n.Fields, n.Order = was.Fields, was.Order
}

// mattering notes of each key of a table, and of those within it, whether any of its values makes a difference.
func (w *registry) mattering(path string, n *strict.Value, keys []Key, read func() any, matters map[string]bool) {
	for _, k := range keys {
		name := path + k.Name
		if f := n.Fields[k.Name]; k.Kind.Form == Table && f != nil {
			for _, item := range append(slices.Clone(f.Value.Items), f.Value) {
				if item.Kind == strict.KindTable {
					w.mattering(name+".", item, k.Kind.Keys, read, matters)
				}
			}
		}
		if good, _ := samples(k.Kind); k.Kind.Form != Table && !matters[name] {
			var all []any
			for _, v := range append([]*strict.Value{nil}, good...) {
				w.with(n, k.Name, v, func() {
					if got := read(); got != nil {
						all = append(all, got)
					}
				})
			}
			if len(all) > 1 {
				matters[name] = slices.ContainsFunc(all, func(got any) bool { return !reflect.DeepEqual(all[0], got) })
			}
		}
	}
}

// Every key of a table of a job makes a difference too, and so does every one of a book; but for those that mean
// nothing beside the others there, or of which these tests know one value.
func TestEveryKeyOfATableMatters(t *testing.T) {
	root, bad := fileFormat.Parse([]byte(everyTable))
	if bad != nil {
		t.Fatal(bad)
	}
	room, bad := roomFormat.Parse([]byte(aRoom))
	if bad != nil {
		t.Fatal(bad)
	}
	for _, c := range []struct {
		root  *strict.Value
		keys  []Key
		least int
		read  func() any
		alone []string
	}{
		{root, fileKeys, 100, func() any {
			f := File{name: "job.toml", root: root, disk: new(disk)}
			if j, wrong := f.read(root); wrong == nil {
				return j.undrafted()
			}
			return nil
		}, []string{"currency", "part.closings.cloth", "part.cloth", "part.facings.cloth", "part.jump_hem"}},
		{room, roomKeys, 80, func() any {
			r := newReader("workroom.toml", measure.Inch, "")
			if book := r.workroom(room); len(r.Errors) == 0 {
				return book
			}
			return nil
		}, []string{"cloth.upper_turned", "cloth.whole_bolts", "currency"}},
	} {
		w := registry{t: t, root: c.root}
		matters := map[string]bool{}
		w.mattering("", c.root, c.keys, c.read, matters)
		var none []string
		for name, does := range matters {
			if !does {
				none = append(none, name)
			}
		}
		slices.Sort(none)
		if !slices.Equal(none, c.alone) || len(matters) < c.least {
			t.Errorf("of %d keys %q make no difference, want %q", len(matters), none, c.alone)
		}
	}
}
