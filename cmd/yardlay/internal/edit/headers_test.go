package edit

import (
	"errors"
	"testing"
)

// change is one step of an edit.
type change func(src []byte) ([]byte, error)

func appends(at Path, item Item) change {
	return func(src []byte) ([]byte, error) { return Append(src, at, item) }
}

func removes(at Path) change { return func(src []byte) ([]byte, error) { return Remove(src, at) } }

func sets(at Path, v Value) change {
	return func(src []byte) ([]byte, error) { return Set(src, at, v) }
}

func moves(at Path, from, to int) change {
	return func(src []byte) ([]byte, error) { return Move(src, at, from, to) }
}

// edits are texts with what one change makes of them, written by hand as who wrote the file would have gone on.
type edits []struct {
	name      string
	src, want string
	change    change
}

func (all edits) hold(t *testing.T) {
	t.Helper()
	for _, c := range all {
		out, err := c.change([]byte(c.src))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		} else if string(out) != c.want {
			t.Errorf("%s:\n%s\nwant:\n%s", c.name, out, c.want)
		}
	}
}

// table is an item with the fields of the tests: b = 2, and more.
func table(more ...Field) Item {
	return Item{Table: true, Fields: append([]Field{{"b", TOML("2")}}, more...)}
}

func underHeader() Item { return Item{Table: true, Headed: true, Fields: table().Fields} }

// A table that is added stands as its like do: with their indent, their gaps, their equals signs; a single table
// becomes the first of a list.
func TestAddedTablesStandAsTheirLike(t *testing.T) {
	a := Of("a")
	edits{
		{"a single table becomes the first of a list", "[a]\nb = 1\n", "[[a]]\nb = 1\n\n[[a]]\nb = 2\n",
			appends(a, table())},
		{"whatever stands on its line", "[ a ] # [one]\nb = 1\n\n[c]\nd = 3\n",
			"[[ a ]] # [one]\nb = 1\n\n[[a]]\nb = 2\n\n[c]\nd = 3\n", appends(a, table())},
		{"and with brackets in its name", "x = 1\n\n['[a]']\nb = 1\n", "x = 1\n\n[['[a]']]\nb = 1\n\n[[\"[a]\"]]\nb = 2\n",
			appends(Of("[a]"), table())},
		{"behind what is within the last", "[[a]]\nb = 1\n[a.c]\nd = 1\n\n[e]\nf = 1\n",
			"[[a]]\nb = 1\n[a.c]\nd = 1\n\n[[a]]\nb = 2\n\n[e]\nf = 1\n", appends(a, table())},
		{"without a gap where there is none", "[[a]]\nb = 1\n[[a]]\nb = 1\n", "[[a]]\nb = 1\n[[a]]\nb = 1\n[[a]]\nb = 2\n",
			appends(a, table())},
		{"with the gap of the last", "[[a]]\nb = 1\n\n[[a]]\nb = 1\n", "[[a]]\nb = 1\n\n[[a]]\nb = 1\n\n[[a]]\nb = 2\n",
			appends(a, table())},
		{"indented", "x = 1\n\n\t[[a]]\n\tb = 1\n", "x = 1\n\n\t[[a]]\n\tb = 1\n\n\t[[a]]\n\tb = 2\n", appends(a, table())},
		{"with equals below each other", "[[a]]\nb    = 1\nlong = 1\n",
			"[[a]]\nb    = 1\nlong = 1\n\n[[a]]\nb    = 2\nlong = 3\n",
			appends(a, table(Field{"long", TOML("3")}))},
		{"or not", "[[a]]\nb = 1\nlong = 1\n", "[[a]]\nb = 1\nlong = 1\n\n[[a]]\nb = 2\nlong = 3\n",
			appends(a, table(Field{"long", TOML("3")}))},
		{"with a header within a table", "[a]\nx = 1\n\n[q]\ny = 2\n", "[a]\nx = 1\n[[a.c]]\nb = 2\n\n[q]\ny = 2\n",
			appends(a.Key("c"), underHeader())},
		{"behind all within that table", "[a]\nx = 1\n[a.d]\ny = 2\n", "[a]\nx = 1\n[a.d]\ny = 2\n[[a.c]]\nb = 2\n",
			appends(a.Key("c"), underHeader())},
		{"in braces where no header was asked for", "[a]\nx = 1\n", "[a]\nx = 1\nc = [{ b = 2 }]\n",
			appends(a.Key("c"), table())},
		{"or where its table has none", "a = { x = 1 }\n", "a = { x = 1, c = [{ b = 2 }] }\n",
			appends(a.Key("c"), underHeader())},
		{"or is itself missing", "[a]\nx = 1\n", "[a]\nx = 1\nd = { c = [{ b = 2 }] }\n", appends(Of("a", "d",
			"c"), underHeader())},
		{"or only others name it", "[a.d]\nx = 1\n", "[a]\nc = [{ b = 2 }]\n\n[a.d]\nx = 1\n",
			appends(a.Key("c"), underHeader())},
		{"a value into a table", "[a]\nx = 1\n", "[a]\nx = 1\nc = [7]\n",
			appends(a.Key("c"), Item{Value: TOML("7"), Headed: true})},
		{"a list of values of the file", "x = 1\n", "x = 1\na = [7]\n", appends(a, Item{Value: TOML("7")})},
		{"a list in a table that is missing", "x = 1\n", "x = 1\n\n[d]\nc = [{ b = 2 }]\n", appends(Of("d", "c"), table())},
		{"a list of the file that is missing", "x = 1\n", "x = 1\n\n[[a]]\nb = 2\n", appends(a, table())},
		{"a table without fields", "a = []\n", "a = [{}]\n", appends(a, Item{Table: true})},
	}.hold(t)
}

// What goes takes its comment along and the blank lines that would be too many, and nothing that is of others: not the
// comment that the file begins with, not that of the next table, not a line of text that looks like a comment.
func TestRemovedTablesTakeTheirOwnLines(t *testing.T) {
	a, c := Of("a"), Of("c")
	edits{
		{"comments at the top are of the file", "# ours\n# since May\n[a]\nb = 1\n", "# ours\n# since May\n", removes(a)},
		{"text is no comment", "x = '''\n# text'''\n[a]\nb = 1\n", "x = '''\n# text'''\n", removes(a)},
		{"nor that of a table", "[x]\ny = '''\n# text'''\n[a]\nb = 1\n", "[x]\ny = '''\n# text'''\n", removes(a)},
		{"the next comment is of the next", "[a]\nb = 1\n# of c\n[c]\nd = 2\n", "# of c\n[c]\nd = 2\n", removes(a)},
		{"one right below goes", "[a]\nb = 1\n# was 2\n\n[c]\nd = 2\n", "[c]\nd = 2\n", removes(a)},
		{"of the last too", "[c]\nd = 2\n\n[a]\nb = 1\n# was 2\n", "[c]\nd = 2\n", removes(a)},
		{"but one apart stays", "[c]\nd = 2\n\n[a]\nb = 1\n\n# later: a cape\n", "[c]\nd = 2\n\n# later: a cape\n",
			removes(a)},
		{"the first with the blank lines behind it", "[a]\nb = 1\n\n\n[c]\nd = 2\n", "[c]\nd = 2\n", removes(a)},
		{"the last with those before it", "[c]\nd = 2\n \n\n[a]\nb = 1\n", "[c]\nd = 2\n", removes(a)},
		{"all there is", "\n[a]\nb = 1", "", removes(a)},
		{"a gap between others stays one", "x = 1\n\n[a]\nb = 1\n\n[c]\nd = 2\n", "x = 1\n\n[c]\nd = 2\n", removes(a)},
		{"no gap where none was", "x = 1\n[a]\nb = 1\n\n[c]\nd = 2\n", "x = 1\n\n[c]\nd = 2\n", removes(a)},
		{"keys by dots within dots", "a.b.d = 1\nx = 4\na.b.e = 2\na.f = 3\n", "x = 4\n", removes(a)},
		{"and headers within those", "[c]\na.b = 1\nx = 2\n\n[c.a.d]\ne = 3\n", "[c]\nx = 2\n", removes(c.Key("a"))},
		{"wherever headers name it", "[a.b]\nx = 1\n\n[c]\nd = 2\n\n[a.e]\nx = 3\n", "[c]\nd = 2\n", removes(a)},
	}.hold(t)
}

// Moved tables take along what is within them, from wherever it stands; what stands apart in those that stay is not
// touched.
func TestMovedTablesTakeWhatIsWithinThem(t *testing.T) {
	a := Of("a")
	const apart = "[[a]]\nb = 1\n[[a]]\nb = 2\n[x]\ny = 1\n[a.c]\nd = 3\n[[a]]\nb = 4\n"
	const far = "[[a]]\nb = 1\n[[a]]\nb = 2\n[[a]]\nb = 4\n[x]\ny = 1\n[a.c]\nd = 3\n"
	const early = "[[a]]\nb = 1\n[x]\ny = 1\n[a.c]\nd = 3\n[[a]]\nb = 2\n[[a]]\nb = 4\n"
	edits{
		{"up", apart, "[[a]]\nb = 2\n[a.c]\nd = 3\n[[a]]\nb = 1\n[x]\ny = 1\n[[a]]\nb = 4\n", moves(a, 1, 0)},
		{"down", apart, "[[a]]\nb = 1\n[[a]]\nb = 4\n[x]\ny = 1\n[[a]]\nb = 2\n[a.c]\nd = 3\n", moves(a, 1, 2)},
		{"past it", apart, "[[a]]\nb = 4\n[[a]]\nb = 1\n[x]\ny = 1\n[[a]]\nb = 2\n[a.c]\nd = 3\n", moves(a, 2, 0)},
		{"above one that stays", far, "[[a]]\nb = 2\n[[a]]\nb = 1\n[[a]]\nb = 4\n[x]\ny = 1\n[a.c]\nd = 3\n",
			moves(a, 0, 1)},
		{"below one that stays", early, "[[a]]\nb = 1\n[x]\ny = 1\n[a.c]\nd = 3\n[[a]]\nb = 4\n[[a]]\nb = 2\n",
			moves(a, 1, 2)},
	}.hold(t)
}

// What a text has no place for is refused, and nothing is written.
func TestNoPlace(t *testing.T) {
	for _, c := range []struct {
		name, src string
		change    change
	}{
		{"a key of a list of tables", "[[a]]\nb = 1\n", sets(Of("a", "x"), TOML("1"))},
		{"a key of a list", "a = [1, 2]\n", removes(Of("a", "x"))},
		{"an item of a table", "\"\" = 1\n", removes(Path{}.Item(0))},
		{"an item before the first", "a = [1, 2]\n", moves(Of("a"), -1, 1)},
		{"a place before the first", "a = [1, 2]\n", moves(Of("a"), 1, -1)},
		{"an item behind the last", "a = [1, 2]\n", moves(Of("a"), 2, 0)},
		{"a list that is not there", "a = [1, 2]\n", moves(Of("b"), 0, 0)},
		{"items of a table", "[a]\nb = 1\n", moves(Of("a"), 0, 0)},
		{"a list within a list of tables", "[[a]]\nb = 1\n", appends(Of("a", "c"), underHeader())},
		{"a table by dots as a list", "a.b = 1\n", appends(Of("a"), table())},
		{"a table within as a list", "[a.c]\nb = 1\n", appends(Of("a", "c"), table())},
	} {
		if out, err := c.change([]byte(c.src)); !errors.Is(err, ErrNoPlace) || out != nil {
			t.Errorf("%s: %v, %q", c.name, err, out)
		}
	}
	bad := Field{"d", Text("\xff")}
	for _, src := range []string{"", "a = []\n", "[[a]]\nb = 1\n", "[a]\nb = 1\n"} {
		for _, at := range []Path{Of("a"), Of("c", "d")} {
			if out, err := Append([]byte(src), at, table(bad)); err == nil || out != nil {
				t.Errorf("%q takes what is no text at %s: %q", src, at, out)
			}
		}
	}
}
