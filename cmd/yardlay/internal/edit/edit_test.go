package edit

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
	"pgregory.net/rapid"
)

// decoded is what a decoder from outside makes of a text.
func decoded(t interface{ Fatalf(string, ...any) }, src []byte) map[string]any {
	var all map[string]any
	if err := toml.Unmarshal([]byte(strings.TrimPrefix(string(src), "\ufeff")), &all); err != nil {
		t.Fatalf("%v in:\n%s", err, src)
	}
	return all
}

// comments lists those of a text in order.
func comments(src []byte) (all []string) {
	var p unstable.Parser
	p.KeepComments = true
	p.Reset([]byte(strings.TrimPrefix(string(src), "\ufeff")))
	var walk func(n *unstable.Node)
	walk = func(n *unstable.Node) {
		for ; n != nil; n = n.Next() {
			if n.Kind == unstable.Comment {
				all = append(all, strings.TrimRight(string(n.Data), "\r"))
			}
			walk(n.Child())
		}
	}
	for p.NextExpression() {
		walk(p.Expression())
	}
	slices.Sort(all)
	return all
}

// place is a value of a decoded file.
type place struct {
	path Path
	in   any // the table or list it stands in
	v    any
}

func places(at Path, v any) (all []place) {
	switch v := v.(type) {
	case map[string]any:
		keys := make([]string, 0, len(v))
		for key := range v {
			keys = append(keys, key)
		}
		slices.Sort(keys)
		for _, key := range keys {
			all = append(append(all, place{at.Key(key), v, v[key]}), places(at.Key(key), v[key])...)
		}
	case []any:
		for i, item := range v {
			all = append(append(all, place{at.Item(i), v, item}), places(at.Item(i), item)...)
		}
	}
	return all
}

// pruned leaves out tables and lists that are empty: whether they are there depends on
// how they are spelled.
func pruned(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for key, one := range v {
			if v[key] = pruned(one); v[key] == nil {
				delete(v, key)
			}
		}
		if len(v) == 0 {
			return nil
		}
	case []any:
		for i, one := range v {
			v[i] = pruned(one)
		}
		if len(v) == 0 {
			return nil
		}
	}
	return v
}

// replaced gives the place at a path of a decoded file what a function makes of it.
func replaced(v any, at Path, f func(was any) any) any {
	if len(at) == 0 {
		return f(v)
	}
	if s := at[0]; s.OfList {
		list := v.([]any)
		list[s.Index] = replaced(list[s.Index], at[1:], f)
		return list
	}
	table, _ := v.(map[string]any)
	if table == nil {
		table = map[string]any{}
	}
	table[at[0].Key] = replaced(table[at[0].Key], at[1:], f)
	return table
}

// same holds two decoded files against each other.
func same(t *rapid.T, src, out []byte, what string, want any) {
	got := pruned(decoded(t, out))
	if !reflect.DeepEqual(got, pruned(want)) {
		t.Fatalf("%s of:\n%s\nmade:\n%s\ndiffers (-want +got):\n%s", what, src, out, cmp.Diff(pruned(want), got))
	}
}

// A value that is set is the only thing that a decoder finds changed, in files of every
// spelling, and no byte beside it is another one.
func TestSetChangesOneValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(drawFile(t))
		all := places(nil, decoded(t, src))
		if len(all) == 0 {
			return
		}
		p := rapid.SampledFrom(all).Draw(t, "place")
		value := rapid.SampledFrom([]Value{Text("new"), Text("a'b \"c\" \\ \n\t\x01é"), TOML("7"), TOML(`["x", "y"]`),
			Typed("12"), Typed("true"), Typed("some")}).Draw(t, "value")
		out, err := Set(src, p.path, value)
		if errors.Is(err, ErrNoPlace) {
			if _, table := p.v.(map[string]any); !table && !isTables(p.v) {
				t.Fatalf("no place for %s in:\n%s", p.path, src)
			}
			return
		}
		if err != nil {
			t.Fatalf("%s: %v in:\n%s", p.path, err, src)
		}
		want := replaced(decoded(t, src), p.path, func(was any) any {
			switch _, number := was.(int64); {
			case value.how == asIs:
				return decoded(t, []byte("v = "+value.text))["v"]
			case value.how == typed && (number || reflect.TypeOf(was).Kind() == reflect.Float64) && value.text == "12":
				return int64(12)
			case value.how == typed && reflect.TypeOf(was).Kind() == reflect.Bool && value.text == "true":
				return true
			}
			return value.text
		})
		same(t, src, out, "setting "+p.path.String(), want)
		before, after := around(src, out)
		gone := string(src[before : len(src)-after])
		if strings.Contains(gone, "\n") && !strings.ContainsAny(gone, "[{\"'") && value.how != asIs {
			t.Fatalf("setting %s of:\n%s\nchanged more than the value: %q", p.path, src, gone)
		}
	})
}

// around counts the bytes that two texts begin and end with alike.
func around(a, b []byte) (before, after int) {
	for before < min(len(a), len(b)) && a[before] == b[before] {
		before++
	}
	for after < min(len(a), len(b))-before && a[len(a)-1-after] == b[len(b)-1-after] {
		after++
	}
	return before, after
}

func isTables(v any) bool {
	list, ok := v.([]any)
	if !ok || len(list) == 0 {
		return false
	}
	_, ok = list[0].(map[string]any)
	return ok
}

// A key that a table lacks is put into it, a table that is missing is made, and every
// line that was there stays, in order.
func TestSetAddsAKey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(drawFile(t))
		tables := []Path{nil}
		for _, p := range places(nil, decoded(t, src)) {
			if _, ok := p.v.(map[string]any); ok {
				tables = append(tables, p.path)
			}
		}
		at := rapid.SampledFrom(tables).Draw(t, "table").Key("new key")
		for range rapid.IntRange(0, 2).Draw(t, "more") {
			at = at.Key("sub")
		}
		out, err := Set(src, at, Text("x"))
		if err != nil {
			t.Fatalf("%s: %v in:\n%s", at, err, src)
		}
		same(t, src, out, "setting "+at.String(), replaced(decoded(t, src), at, func(any) any { return "x" }))
		inserted(t, src, out)
		back, err := Remove(out, at)
		if err != nil {
			t.Fatal(err)
		}
		same(t, out, back, "removing "+at.String(), decoded(t, src))
	})
}

// inserted fails where a text has lost anything of another one.
func inserted(t *rapid.T, src, out []byte) {
	keeps(t, src, out)
	if a, b := comments(src), comments(out); !slices.Equal(a, b) {
		t.Fatalf("comments of:\n%s\ndiffer in:\n%s\n%s", src, out, cmp.Diff(a, b))
	}
}

// keeps fails unless the letters of the first text stand in the second in their order.
func keeps(t *rapid.T, less, more []byte) {
	at := 0
	for i, c := range less {
		for at < len(more) && more[at] != c {
			at++
		}
		if at == len(more) {
			t.Fatalf("%q of:\n%s\nis not in:\n%s", less[i:], less, more)
		}
		at++
	}
}

// What is removed is gone, with nothing else; comments stay but those of what is removed.
func TestRemove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(drawFile(t))
		all := places(nil, decoded(t, src))
		if len(all) == 0 {
			return
		}
		p := rapid.SampledFrom(all).Draw(t, "place")
		out, err := Remove(src, p.path)
		if err != nil {
			t.Fatalf("%s: %v in:\n%s", p.path, err, src)
		}
		last := p.path[len(p.path)-1]
		want := replaced(decoded(t, src), p.path[:len(p.path)-1], func(was any) any {
			if last.OfList {
				return slices.Delete(was.([]any), last.Index, last.Index+1)
			}
			delete(was.(map[string]any), last.Key)
			return was
		})
		same(t, src, out, "removing "+p.path.String(), want)
		switch p.v.(type) {
		case map[string]any, []any: // what stands within them goes along
		default:
			if a, b := comments(src), comments(out); !slices.Equal(a, b) {
				t.Fatalf("removing %s of:\n%s\nchanges comments in:\n%s\n%s", p.path, src, out, cmp.Diff(a, b))
			}
		}
		keeps(t, out, src)
	})
}

// An item is added behind all others, be they in brackets, tables with headers, or one
// value alone.
func TestAppend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(drawFile(t))
		all := append(places(nil, decoded(t, src)), place{path: Of("new list")})
		for _, p := range all {
			if _, table := p.v.(map[string]any); table {
				all = append(all, place{path: p.path.Key("new list")})
			}
		}
		p := rapid.SampledFrom(all).Draw(t, "place")
		item := Item{Value: Text("x")}
		var added any = "x"
		if _, table := p.v.(map[string]any); table || p.v == nil || isTables(p.v) {
			item = Item{Table: true, Headed: rapid.Bool().Draw(t, "headed"), Fields: []Field{{"name", Text("x")},
				{"long_name", TOML("2")}}}
			added = map[string]any{"name": "x", "long_name": int64(2)}
		}
		out, err := Append(src, p.path, item)
		if _, table := p.v.(map[string]any); errors.Is(err, ErrNoPlace) && table {
			return
		}
		if err != nil {
			t.Fatalf("%s: %v in:\n%s", p.path, err, src)
		}
		same(t, src, out, "appending to "+p.path.String(), replaced(decoded(t, src), p.path, func(was any) any {
			if list, ok := was.([]any); ok {
				return append(list, added)
			} else if was == nil {
				return []any{added}
			}
			return []any{was, added}
		}))
		inserted(t, src, out)
	})
}

// An item that is moved changes places with those between, and moved back gives the same
// text where what stands between them is of neither.
func TestMove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(drawFile(t))
		var lists []place
		for _, p := range places(nil, decoded(t, src)) {
			if list, ok := p.v.([]any); ok && len(list) > 1 {
				lists = append(lists, p)
			}
		}
		if len(lists) == 0 {
			return
		}
		p := rapid.SampledFrom(lists).Draw(t, "list")
		n := len(p.v.([]any))
		from, to := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		out, err := Move(src, p.path, from, to)
		if err != nil {
			t.Fatalf("%s: %v in:\n%s", p.path, err, src)
		}
		same(t, src, out, fmt.Sprintf("moving %d of %s to %d", from, p.path, to),
			replaced(decoded(t, src), p.path, func(was any) any {
				list := was.([]any)
				moved := list[from]
				return slices.Insert(slices.Delete(list, from, from+1), to, moved)
			}))
		if a, b := comments(src), comments(out); !slices.Equal(a, b) {
			t.Fatalf("comments of:\n%s\ndiffer in:\n%s\n%s", src, out, cmp.Diff(a, b))
		}
		back, err := Move(out, p.path, to, from)
		if err != nil || together(src, p.path) && string(back) != string(src) {
			t.Fatalf("%v; moved there and back is:\n%s\nnot:\n%s", err, back, src)
		}
	})
}

// together says that each item of a list stands in one place, and that no comment might be
// of the one before it or of the one behind it.
func together(src []byte, at Path) bool {
	d, _ := scan(src)
	n, _ := d.find(at)
	for _, item := range n.items {
		if item.kind == headed && len(d.regions(item)) > 1 {
			return false
		}
	}
	return !regexp.MustCompile(`(?m)^[ \t]*#`).Match(src)
}

// A path is read as it is written.
func TestPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p Path
		for i := range rapid.IntRange(1, 4).Draw(t, "steps") {
			if i > 0 && rapid.Bool().Draw(t, "index") {
				p = p.Item(rapid.IntRange(0, 100).Draw(t, "index"))
			} else {
				p = p.Key(rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"a", "a.b", "1", "[0]", "\"", ""})).Draw(t, "key"))
			}
		}
		got, err := ParsePath(p.String())
		if err != nil || !slices.Equal(got, p) {
			t.Fatalf("%q reads as %#v, %v", p, got, err)
		}
	})
	for _, bad := range []string{".", "a.", "[0]", "a[", "a[-1]", "a[01]", "a b", "a..b", "a]", `"a`, "a=1"} {
		if p, err := ParsePath(bad); err == nil {
			t.Errorf("%q reads as %#v", bad, p)
		}
	}
}
