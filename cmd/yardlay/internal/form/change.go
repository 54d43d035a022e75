package form

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// Set writes what is typed into a field: the value at a path, or behind the last of a
// list. Without a text the key is taken away, and a table in braces that has no other.
// Where other tables name this one by it, they follow.
func Set(src []byte, at edit.Path, text string) ([]byte, error) {
	root, key, err := keyAt(src, at)
	if err != nil {
		return nil, err
	}
	text = strings.TrimSpace(text)
	if strings.ContainsAny(text, "\r\n") {
		return nil, say.Errorf("a value stands on one line")
	}
	if text == "" {
		return empty(src, root, at)
	}
	out, err := write(src, root, at, value(key.Kind, text, find(root, at)))
	if err != nil {
		return nil, err
	}
	return renamed(out, root, at, text)
}

// Remove takes a table of a list away, a table within another, or a key that nothing is
// known of.
func Remove(src []byte, at edit.Path) ([]byte, error) {
	root, bad := job.Tree(src)
	if bad != nil {
		return nil, bad
	}
	return empty(src, root, at)
}

// Move takes a table or a value of a list to another place in it.
func Move(src []byte, list edit.Path, from, to int) ([]byte, error) {
	return edit.Move(src, list, from, to)
}

// write puts a value into the text: in place of one, behind the last of a list, or as the
// second beside one that stood alone.
func write(src []byte, root *strict.Value, at edit.Path, v edit.Value) ([]byte, error) {
	last := at[len(at)-1]
	if !last.OfList {
		return edit.Set(src, at, v)
	}
	list := at[:len(at)-1]
	if n := find(root, list); n == nil && last.Index == 0 {
		return edit.Set(src, list, v)
	} else if n != nil && n.Kind != strict.KindList && last.Index == 1 || n != nil && last.Index == len(n.Items) {
		return edit.Append(src, list, edit.Item{Value: v})
	}
	return edit.Set(src, at, v)
}

// empty takes a value away, and what would stay empty.
func empty(src []byte, root *strict.Value, at edit.Path) ([]byte, error) {
	if find(root, at) == nil {
		return src, nil
	}
	for len(at) > 1 {
		parent := find(root, at[:len(at)-1])
		if alone := len(parent.Items) == 1 || len(parent.Order) == 1; !alone || !inline(src, at[:len(at)-1]) {
			break
		}
		if at[len(at)-2].OfList { // a table of a list stays till it is removed
			break
		}
		at = at[:len(at)-1]
	}
	return edit.Remove(src, at)
}

// inline says whether a table or list stands in braces or brackets.
func inline(src []byte, at edit.Path) bool {
	_, ok := edit.Written(src, at)
	return ok
}

// find returns the value at a path; nil for none.
func find(n *strict.Value, at edit.Path) *strict.Value {
	for _, s := range at {
		switch {
		case s.OfList && n.Kind == strict.KindList && s.Index < len(n.Items):
			n = n.Items[s.Index]
		case !s.OfList && n.Kind == strict.KindTable && n.Fields[s.Key] != nil:
			n = n.Fields[s.Key].Value
		default:
			return nil
		}
	}
	return n
}

// keyAt returns the key of the reference that a path leads to. Paths that lead elsewhere
// are refused, so that a page can write nothing but what a job may have.
func keyAt(src []byte, at edit.Path) (*strict.Value, job.Key, error) {
	root, bad := job.Tree(src)
	if bad != nil {
		return nil, job.Key{}, bad
	}
	keys, key, known := job.Keys(), job.Key{}, false
	for i, s := range at {
		if s.OfList {
			if !known || at[i-1].OfList {
				return nil, key, noField(at)
			}
		} else if key, known = keyIn(keys, s.Key); !known {
			return nil, key, noField(at)
		}
		if keys = key.Kind.Keys; i > 1 {
			continue
		}
		one := find(root, at[:i+1])
		if one == nil {
			one = strict.NewTable(strict.Position{})
		}
		keys = job.KeysOf(key, one, i == 1)
	}
	if !known {
		return nil, key, noField(at)
	}
	return root, key, nil
}

func noField(at edit.Path) error { return say.Errorf("a job has no field %s", at) }

// plainNumber is how numbers are written that need no quotes.
var plainNumber = regexp.MustCompile(`^[-+]?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// value is what a key is given for a text that is typed; was is what it had, nil for
// nothing.
func value(k job.Kind, text string, was *strict.Value) edit.Value {
	switch k.Form {
	case job.Count, job.Ratio, job.Number:
		if was != nil && k.Form != job.Count {
			return edit.Typed(text)
		}
		if plainNumber.MatchString(text) {
			return edit.TOML(text)
		}
	case job.Truth:
		if text == "true" || text == "false" {
			return edit.TOML(text)
		}
	case job.Points, job.Table:
		if edit.IsValue(text) {
			return edit.TOML(text)
		}
	case job.Day:
		if _, err := job.ParseDate(text); err == nil {
			return edit.TOML(text)
		}
	case job.Length:
		return edit.Typed(text)
	}
	return edit.Text(text)
}

// renamed lets all that names a table follow its new name. Where another table has the
// old or the new name too, nobody knows which is meant, and nothing follows.
func renamed(src []byte, before *strict.Value, at edit.Path, now string) ([]byte, error) {
	kind := at[0].Key
	if len(at) != 3 || !names(kind, at[2].Key) {
		return src, nil
	}
	was := ""
	for i, item := range before.Fields[kind].Value.Items {
		name := cmp.Or(item.TextOf("id"), item.TextOf("name"))
		if i == at[1].Index {
			was = name
		} else if name == now {
			return src, nil
		}
	}
	for i, item := range before.Fields[kind].Value.Items {
		if i != at[1].Index && cmp.Or(item.TextOf("id"), item.TextOf("name")) == was {
			return src, nil
		}
	}
	if was == "" || was == now {
		return src, nil
	}
	var all []edit.Given
	walk(before, nil, job.Keys(), func(at edit.Path, k job.Kind, text string) {
		if renamed, ok := follows(before, k, kind, text, was, now); ok {
			all = append(all, edit.Given{At: at, Value: edit.Text(renamed)})
		}
	})
	return edit.Replace(src, all)
}

// follows returns what a text that names a table becomes. Pieces are called by the body
// where there are several, then by the part.
func follows(root *strict.Value, k job.Kind, kind, text, was, now string) (string, bool) {
	if k.Form == job.Name && k.Of == kind && text == was {
		return now, true
	}
	if k.Form != job.Text || k.Of != "piece" || kind != "body" && kind != "part" {
		return "", false
	}
	prefix := ""
	if f := root.Fields["body"]; f != nil && kind == "part" {
		for _, body := range f.Value.Items {
			if name := body.TextOf("name"); strings.HasPrefix(text, name+" ") && len(name) >= len(prefix) {
				prefix = name + " "
			}
		}
	}
	rest, ok := strings.CutPrefix(text[len(prefix):], was+" ")
	return prefix + now + " " + rest, ok
}

// walk visits all texts of a job that the reference knows.
func walk(n *strict.Value, at edit.Path, keys []job.Key, visit func(at edit.Path, k job.Kind, text string)) {
	for _, name := range n.Order {
		k, known := keyIn(keys, name)
		if !known {
			continue
		}
		v := n.Fields[name].Value
		items, paths := []*strict.Value{v}, []edit.Path{at.Key(name)}
		if v.Kind == strict.KindList {
			items, paths = v.Items, nil
			for i := range items {
				paths = append(paths, at.Key(name).Item(i))
			}
		}
		for i, item := range items {
			switch within := k.Kind.Keys; {
			case item.Kind == strict.KindText:
				visit(paths[i], k.Kind, item.Text)
			case item.Kind == strict.KindTable && len(at) == 0:
				walk(item, paths[i], job.KeysOf(k, item, len(paths[i]) > 1), visit)
			case item.Kind == strict.KindTable:
				walk(item, paths[i], slices.Clone(within), visit)
			}
		}
	}
}
