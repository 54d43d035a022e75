package edit

import (
	"errors"
	"strings"
	"testing"
)

// How lists, tables and lines stand is kept, whatever is added, taken away or moved. Each text is written by hand as
// who wrote the file would have gone on.
func TestLayoutIsKept(t *testing.T) {
	add := func(at Path, v string) func([]byte) ([]byte, error) {
		return func(src []byte) ([]byte, error) { return Append(src, at, Item{Value: TOML(v)}) }
	}
	cut := func(at Path) func([]byte) ([]byte, error) {
		return func(src []byte) ([]byte, error) { return Remove(src, at) }
	}
	set := func(at Path, v Value) func([]byte) ([]byte, error) {
		return func(src []byte) ([]byte, error) { return Set(src, at, v) }
	}
	move := func(at Path, from, to int) func([]byte) ([]byte, error) {
		return func(src []byte) ([]byte, error) { return Move(src, at, from, to) }
	}
	a := Of("a")
	for _, c := range []struct {
		name      string
		src, want string
		change    func([]byte) ([]byte, error)
	}{
		{"behind the last", "a = [1, 2]\n", "a = [1, 2, 3]\n", add(a, "3")},
		{"behind a comma at the end", "a = [1, 2,]\n", "a = [1, 2, 3,]\n", add(a, "3")},
		{"into nothing", "a = []\n", "a = [3]\n", add(a, "3")},
		{"into nothing with room", "a = [ ]\n", "a = [ 3 ]\n", add(a, "3")},
		{"into a comment alone", "a = [ # none yet\n]\n", "a = [ # none yet\n3]\n", add(a, "3")},
		{"on a line of its own", "a = [\n  1,\n  2,\n]\n", "a = [\n  1,\n  2,\n  3,\n]\n", add(a, "3")},
		{"on a line without a comma", "a = [\n  1,\n  2\n]\n", "a = [\n  1,\n  2,\n  3\n]\n", add(a, "3")},
		{"below a comment", "a = [\n  1, # one\n  2, # two\n]\n", "a = [\n  1, # one\n  2, # two\n  3,\n]\n", add(a, "3")},
		{"one alone becomes the first", "a = 1 # one\n", "a = [1, 3] # one\n", add(a, "3")},
		{"a table alone too", "a = { b = 1 }\n", "a = [{ b = 1 }, { b = 2 }]\n", add(a, "{ b = 2 }")},
		{"the first goes", "a = [1, 2, 3]\n", "a = [2, 3]\n", cut(a.Item(0))},
		{"the middle one goes", "a = [1, 2, 3]\n", "a = [1, 3]\n", cut(a.Item(1))},
		{"the last goes", "a = [1, 2, 3]\n", "a = [1, 2]\n", cut(a.Item(2))},
		{"the last before a comma goes", "a = [1, 2,]\n", "a = [1, ]\n", cut(a.Item(1))},
		{"the only one goes", "a = [ 1 ]\n", "a = []\n", cut(a.Item(0))},
		{"a line goes", "a = [\n  1,\n  2,\n]\n", "a = [\n  1,\n]\n", cut(a.Item(1))},
		{"the first line goes", "a = [\n  1,\n  2\n]\n", "a = [\n  2\n]\n", cut(a.Item(0))},
		{"the last line goes with the comma above", "a = [\n  1, # one\n  2\n]\n", "a = [\n  1 # one\n]\n", cut(a.Item(1))},
		{"a comma behind a comment goes", "a = [1 # one\n, 2]\n", "a = [ # one\n 2]\n", cut(a.Item(0))},
		{"a key of braces goes", "a = { b = 1, c = 2 }\n", "a = { c = 2 }\n", cut(a.Key("b"))},
		{"items change places", "a = [\n  1, # first\n  2,\n  3 # last\n]\n", "a = [\n  2, # first\n  3,\n  1 # last\n]\n",
			move(a, 0, 2)},
		{"an item in its own place", "a = [1,2]\n", "a = [1,2]\n", move(a, 1, 1)},
		{"quotes of the value itself", "b = \"x\"\na = 'x'\n", "b = \"x\"\na = 'y'\n", set(a, Text("y"))},
		{"quotes of the file", "b = 'x'\n", "b = 'x'\na = 'y'\n", set(a, Text("y"))},
		{"other ends of lines", "b = 1\r\n\r\n[c]\r\nd = 2\r\n", "b = 1\r\na = 'y'\r\n\r\n[c]\r\nd = 2\r\n",
			func(src []byte) ([]byte, error) {
				out, err := Set(src, a, TOML("'y'"))
				return out, err
			}},
		{"the first key of a file", "", "a = 1\n", set(a, TOML("1"))},
		{"the first key before tables", "[c]\nd = 2\n", "a = 1\n\n[c]\nd = 2\n", set(a, TOML("1"))},
		{"the first key below a comment", "# ours\n", "# ours\n\na = 1\n", set(a, TOML("1"))},
		{"the first key of a table", "[a]\n\n[c]\nd = 2\n", "[a]\nb = 1\n\n[c]\nd = 2\n", set(a.Key("b"), TOML("1"))},
		{"a table behind its like", "[c]\nd = 2\n\n[[e]]\nf = 3\n", "[c]\nd = 2\n\n[a]\nb = 1\n\n[[e]]\nf = 3\n",
			set(a.Key("b"), TOML("1"))},
		{"a table before lists of them", "[[e]]\nf = 3\n", "[a]\nb = 1\n\n[[e]]\nf = 3\n", set(a.Key("b"), TOML("1"))},
		{"a table in a file of keys", "c = 1\n", "c = 1\n\n[a]\nb = 1\n", set(a.Key("b"), TOML("1"))},
		{"a dotted table goes", "c = 1\na.b = 1\na.d = 2\n", "c = 1\n", cut(a)},
		{"a dotted one in braces goes", "c = { a.b = 1, a.d = 2, e = 3 }\n", "c = { e = 3 }\n", cut(Of("c", "a"))},
		{"the comment of the file stays", "# the gown\n\n# the cloth\n[a]\nb = 1\n\n[c]\nd = 2\n",
			"# the gown\n\n[c]\nd = 2\n",
			cut(a)},
		{"of two comments the nearer goes", "e = 1\n# of e\n\n# of a\n[a]\nb = 1\n", "e = 1\n# of e\n", cut(a)},
	} {
		out, err := c.change([]byte(c.src))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		} else if string(out) != c.want {
			t.Errorf("%s:\n%s\nwant:\n%s", c.name, out, c.want)
		}
	}
}

// Several values change at once or none does: one that is missing, or cannot be written, keeps the others as they are.
func TestReplaceIsAllOrNothing(t *testing.T) {
	src := []byte("a = 1 # one\nb = 'x'\n[[c]]\nd = 2\n")
	at := func(v Value, keys ...string) Given { return Given{Of(keys...), v} }
	deep := Given{Of("c").Item(0).Key("d"), TOML("3")}
	out, err := Replace(src, []Given{at(Typed("7"), "a"), at(Text("y"), "b"), deep})
	if err != nil || string(out) != "a = 7 # one\nb = 'y'\n[[c]]\nd = 3\n" {
		t.Errorf("%v\n%s", err, out)
	}
	if out, err := Replace(src, []Given{deep, at(Text("y"), "e")}); !errors.Is(err, ErrNoPlace) || out != nil {
		t.Errorf("%v\n%s", err, out)
	}
	for _, v := range []Value{TOML("1 2"), TOML(""), TOML("1 # one"), TOML("1\nz = 2"), Text("\xff")} {
		if out, err := Replace(src, []Given{deep, at(v, "a")}); err == nil || out != nil {
			t.Errorf("%+v is written:\n%s", v, out)
		}
	}
}

// What stands for a value is given as it is written; of a table with a header, and of what is not there, nothing is.
func TestWhatIsWritten(t *testing.T) {
	src := []byte("a = [ 1, # one\n 2 ]\nb = { c = 'x' }\nd.e = 0x1F\n[f]\ng = 2026-05-31\n")
	for _, c := range []struct {
		at   Path
		want string
	}{{Of("a"), "[ 1, # one\n 2 ]"}, {Of("a").Item(1), "2"}, {Of("b"), "{ c = 'x' }"}, {Of("b", "c"), "'x'"},
		{Of("d", "e"), "0x1F"}, {Of("f", "g"), "2026-05-31"}, {Of("f"), ""}, {Of("d"), ""}, {Of("z"), ""},
		{Of("a").Item(2), ""}, {Of("b", "z"), ""}} {
		if got, ok := Written(src, c.at); got != c.want || ok != (c.want != "") {
			t.Errorf("%s: %q, %v; want %q", c.at, got, ok, c.want)
		}
	}
	if _, ok := Written([]byte("a = "), Of("a")); ok {
		t.Error("what is no TOML has a value")
	}
}

// Texts in quotes and values read back as they were meant, whatever letters are in them (TOML 1.0, "String").
func TestQuotedTextsAndValues(t *testing.T) {
	for text, want := range map[string]string{"": `""`, "net": `"net"`, `5" net`: `"5\" net"`, `a\b`: `"a\\b"`,
		"a\nb\tc": `"a\nb\tc"`, "\x01\x7f": `"\u0001\u007F"`, "é": `"é"`} {
		if got := Quoted(text); got != want || !IsValue(got) {
			t.Errorf("%q is %s, want %s", text, got, want)
		}
	}
	for _, no := range []string{"", "net", "1 2", "1 # one", "[1", "1\nb = 2", "'a' 'b'"} {
		if IsValue(no) {
			t.Errorf("%q is one value", no)
		}
	}
	for _, yes := range []string{"1", "[1, 2]", "{ a = 1 }", "2026-05-31", "true", "'''a\nb'''"} {
		if !IsValue(yes) {
			t.Errorf("%q is no value", yes)
		}
	}
	for key, want := range map[string]string{"": `"" = 1`, "a-B_9": "a-B_9 = 1", "a b": `"a b" = 1`, "a.b": `"a.b" = 1`} {
		if out, err := Set(nil, Path{{Key: key}}, TOML("1")); err != nil || strings.TrimSpace(string(out)) != want {
			t.Errorf("%q: %s, %v", key, out, err)
		}
	}
}
