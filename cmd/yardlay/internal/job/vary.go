package job

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Change gives one key of a job file another value.
type Change struct {
	// Key is a key before the first table ("gap"), or a table and its key:
	// "body.waist_girth", "allowance.hem", "satin.width" by a cloth's id,
	// "skirt.gores" by a part's name, with - for a space where that is easier to
	// type. Tables within go on with further dots: "satin.bolt.price". Where a
	// cloth and a part are called the same, "cloth.net.width" and
	// "part.net.layers" say which is meant.
	Key string `json:"key"`
	// Value is what would stand in the file; quotes about a text may be left out.
	Value string `json:"value"`
}

// String shows the change as it is typed.
func (c Change) String() string { return c.Key + "=" + c.Value }

// ChangeError refuses a change: there is no such table or key, or the key does
// not take the value.
type ChangeError struct {
	Change Change
	What   string // what is wrong, lower case
	Hint   string // what would mend it; may be empty
}

func (e *ChangeError) Error() string { return say.Join(e.Parts(nil)) }

// Parts returns what is wrong after the change, and what would mend it.
func (e *ChangeError) Parts(say.Show) (what, hint string) {
	return e.Change.String() + ": " + e.What, e.Hint
}

// With makes the job as if the file had been written with the changes, which are made
// one after the other before anything is interpreted. The error is a strict.Errors when
// the job so changed does not hold, and a *ChangeError for the first change that cannot
// be read, or that would undo one before it.
func (f *File) With(changes []Change) (*Job, error) {
	if len(changes) == 0 {
		return f.Job(), nil
	}
	root := f.root.Clone()
	if root.Fields["body"] == nil {
		root.Set("body", root.At, strict.NewTable(root.At)) // a change may give the first measure
	}
	made := map[strict.Position]Change{}
	var before []spot
	for i, c := range changes {
		t, path, bad := tableOf(jobFile(root), c)
		if bad != nil {
			return nil, bad
		}
		if whole := f.inheritedBy(t, path); whole != nil {
			first, _, _ := strings.Cut(path, ".")
			t.node.Set(first, whole.At, whole.Value)
		}
		for k, s := range before {
			if s.node == t.node && strings.HasPrefix(s.path+".", path+".") {
				return nil, &ChangeError{c, fmt.Sprintf("it would undo %v", changes[k]),
					"change a key once, by one of its names"}
			}
		}
		before = append(before, spot{t.node, path})
		at, bad := change(t, path, c, strict.Put(i+1))
		if bad != nil {
			return nil, bad
		}
		made[at] = c
	}
	j, wrong := f.read(root)
	for _, e := range wrong {
		if c, ok := made[e.At]; ok {
			return nil, &ChangeError{c, e.What, e.Hint}
		}
	}
	if wrong != nil {
		return nil, wrong
	}
	return j, nil
}

// spot is where a change goes, whatever name its key has there.
type spot struct {
	node *strict.Value // the table that the key begins with
	path string        // within it
}

// change sets the value of one key and returns the place that errors about it
// will have: that of the value it replaces, else one of its own in its table.
func change(t named, path string, c Change, put strict.Put) (strict.Position, *ChangeError) {
	refuse := func(hint, what string, args ...any) (strict.Position, *ChangeError) {
		return strict.Position{}, &ChangeError{c, fmt.Sprintf(what, args...), hint}
	}
	keys := strings.Split(path, ".")
	at := strict.Position{Line: t.node.At.Line, Put: put}
	for i, key := range keys {
		f := t.node.Fields[key]
		if i == len(keys)-1 {
			if f != nil {
				at = f.Value.At
			}
			value, err := newValue(c.Value, t.takes(key), f)
			if err != nil {
				return refuse("a list reads like [1, 2], a table like { warp = \"-3 %\" }, text alone needs no "+
					"quotes, within these it does", "cannot read %q: %s", c.Value, err.What)
			}
			value.MoveTo(at)
			t.node.Set(key, at, value)
			return at, nil
		}
		if f == nil {
			t.node.Set(key, at, strict.NewTable(at))
			f = t.node.Fields[key]
		}
		if f.Value.Kind != strict.KindTable {
			return refuse("", "`%s` of %s is %s and has no key `%s`", key, t.name, f.Value.Kind, keys[i+1])
		}
		t = named{f.Value, "`" + key + "` of " + t.name, t.takes(key).Keys, t.list, t.item}
	}
	return refuse("name a key, for example satin.width", "no key")
}

// named is a table that a change can name.
type named struct {
	node *strict.Value
	name string // how messages call it
	keys []Key  // as the reference has them
	list string // the key of the file that it stands under; "" for the file itself
	item int    // of a list, from 0; -1 where it is the only one
}

// takes returns what a key takes; nothing when that is not known.
func (n named) takes(key string) Kind {
	for _, k := range n.keys {
		if k.Name == key {
			return k.Kind
		}
	}
	return Kind{}
}

// tableOf finds the table that a change's key begins with, and returns what
// follows its name. A name that a cloth shares with a part means the one that
// has the key in the file or may have it.
func tableOf(in file, c Change) (named, string, *ChangeError) {
	key := strings.TrimSpace(c.Key)
	all := in.tables()
	if !strings.Contains(key, ".") {
		for _, t := range all {
			if plain(t.id) == plain(key) {
				return named{}, "", &ChangeError{c, t.name + " is a table, not a value",
					"name one of its keys, for example " + key + "." + t.example()}
			}
		}
		return named{in.root, in.name, in.keys, "", -1}, key, nil
	}
	var names []string
	var found []named
	var path string
	for _, t := range all {
		rest, ok := cutName(key, t.id)
		if !ok {
			rest, ok = cutName(key, t.kind+"."+t.id)
		}
		if ok && (len(found) == 0 || len(rest) <= len(path)) {
			if len(rest) < len(path) {
				found = nil // a longer name fits better
			}
			found, path = append(found, t.named), rest
		}
		names = append(names, t.id)
	}
	first, _, _ := strings.Cut(path, ".")
	if able := slices.DeleteFunc(slices.Clone(found), func(t named) bool { return !t.may(first) }); len(able) > 0 {
		found = able
	}
	switch len(found) {
	case 0:
		word, rest, _ := strings.Cut(key, ".")
		if kind := in.listOf(word); kind != "" {
			word, _, _ = strings.Cut(rest, ".")
			in.has, names = kind, in.called(kind)
		}
		return named{}, "", &ChangeError{c, fmt.Sprintf("there is no %s called %q", in.has, word),
			strict.OneOf(word, names)}
	case 1:
		return found[0], path, nil
	}
	return named{}, "", &ChangeError{c, fmt.Sprintf("%s and %s both have `%s`", found[0].name, found[1].name, first),
		fmt.Sprintf("say which: %s.%s or %s.%s", found[0].list, key, found[1].list, key)}
}

// may says whether a table has the key or may have it.
func (n named) may(key string) bool { return n.node.Fields[key] != nil || n.takes(key).Form != 0 }

// listed is a table of the file by what it is called there.
type listed struct {
	named
	kind, id string
}

// file is a file whose keys changes can name.
type file struct {
	root *strict.Value
	keys []Key
	name string // how messages call it
	has  string // what of it has names
}

// listOf returns a word where it is the name of a list of tables.
func (in file) listOf(word string) string {
	for _, k := range in.keys {
		if k.Name == word && k.Kind.Form == Table && k.Kind.Listed == List {
			return word
		}
	}
	return ""
}

// called lists the names of the tables of a kind.
func (in file) called(kind string) (names []string) {
	for _, t := range in.tables() {
		if t.kind == kind {
			names = append(names, t.id)
		}
	}
	return names
}

func jobFile(root *strict.Value) file { return file{root, fileKeys, "the job", "cloth, part or table"} }

// tables lists the tables of a file that a change can name.
func (in file) tables() []listed {
	var all []listed
	for _, k := range in.keys {
		f := in.root.Fields[k.Name]
		switch {
		case k.Kind.Form != Table || f == nil:
		case f.Value.Kind == strict.KindTable:
			all = append(all, listed{named{f.Value, "[" + k.Name + "]", k.Kind.Keys, k.Name, -1}, "", k.Name})
		default:
			for i, item := range f.Value.Items {
				id := cmp.Or(item.TextOf("id"), item.TextOf("name"), item.TextOf("job"))
				if id == "" {
					continue
				}
				all = append(all, listed{named{item, label(k.Name, id, i), KeysOf(k, item, true), k.Name, i},
					k.Name, id})
			}
		}
	}
	return all
}

// example is a key of the table, other than what it is called by.
func (l listed) example() string {
	for _, k := range l.keys {
		if k.Name != "id" && k.Name != "title" && k.Name != "name" && k.Name != fromKey {
			return k.Name
		}
	}
	return ""
}

// cutName cuts a table's name and the dot after it off a key, small and capital
// letters alike, and spaces as -.
func cutName(key, name string) (rest string, ok bool) {
	if len(key) <= len(name) || key[len(name)] != '.' || plain(key[:len(name)]) != plain(name) {
		return "", false
	}
	return key[len(name)+1:], true
}

func plain(name string) string { return strings.ToLower(strings.ReplaceAll(name, " ", "-")) }

// newValue reads a value as the file would have it: lists, tables and quoted
// text as TOML, numbers and truths where the key takes them or had one, and all
// else as text.
func newValue(text string, takes Kind, was *strict.Field) (*strict.Value, *strict.Error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, &strict.Error{What: "it is empty"}
	}
	if strings.ContainsRune(`[{"'`, rune(text[0])) {
		tree, err := fileFormat.Parse([]byte("value = " + text))
		if err != nil {
			return nil, err
		}
		return tree.Fields["value"].Value, nil
	}
	if _, err := ParseDate(text); err == nil && takes.Form == Day {
		return &strict.Value{Kind: strict.KindDate, Text: text}, nil
	}
	had := func(k strict.Kind) bool { return was != nil && was.Value.Kind == k }
	if text == "true" || text == "false" {
		if had(strict.KindBool) || takes.Form == 0 || takes.Form == Truth {
			return &strict.Value{Kind: strict.KindBool, Truth: text == "true"}, nil
		}
	}
	if number, err := strconv.ParseFloat(text, 64); err == nil && (had(strict.KindNumber) || takes.Counted()) {
		_, err := strconv.Atoi(text)
		return &strict.Value{Kind: strict.KindNumber, Number: number, Integer: err == nil}, nil
	}
	return &strict.Value{Kind: strict.KindText, Text: text}, nil
}

// Written returns what the file, or the workroom for it, gives a key that Change could
// name, as it would be typed, and what the key takes; "" for a value that is missing or is a
// list or a table.
func (f *File) Written(key string) (value string, takes Kind) {
	return written(jobFile(f.job.Room.inherited(f.root)), key)
}

// written returns what a file gives a key, and what the key takes.
func written(in file, key string) (value string, takes Kind) {
	t, path, unknown := tableOf(in, Change{Key: key})
	if unknown != nil {
		return "", Kind{}
	}
	keys := strings.Split(path, ".")
	for _, key := range keys[:len(keys)-1] {
		f := t.node.Fields[key]
		if f == nil || f.Value.Kind != strict.KindTable {
			return "", Kind{}
		}
		t = named{f.Value, "", t.takes(key).Keys, t.list, t.item}
	}
	last := keys[len(keys)-1]
	takes = t.takes(last)
	if f := t.node.Fields[last]; f != nil {
		if value = f.Value.Typed(); takes.Form == Length && takes.Of == "" && f.Value.Unit != nil {
			value = withUnit(value, *f.Value.Unit)
		}
	}
	return value, takes
}

// withUnit gives a bare length its unit.
func withUnit(text string, unit measure.Unit) string {
	with := text + " " + unit.String()
	if _, err := measure.Parse(with, unit); err != nil {
		return text // it has one
	}
	return with
}
