package edit

import (
	"slices"
	"strings"
	"testing"
)

// What is typed over a value stays of its kind where it reads as one; all else is text. Text keeps the quotes that
// stand there, else takes those that most of the file has.
func TestTypedAndQuoted(t *testing.T) {
	a := Of("a")
	const single = "x = ['p', 'q']\ny = \"r\"\n"
	edits{
		{"text over a number is text", "a = 7\n", "a = \"12\"\n", sets(a, Text("12"))},
		{"a number typed over one", "a = 7\n", "a = 1.5\n", sets(a, Typed(" 1.5 "))},
		{"two numbers are text", "a = 7\n", "a = \"1 2\"\n", sets(a, Typed("1 2"))},
		{"a number with a comment is text", "a = 7\n", "a = \"1 # 2\"\n", sets(a, Typed("1 # 2"))},
		{"a number with a key behind it is text", "a = 7\n", "a = \"1\\nb = 2\"\n", sets(a, Typed("1\nb = 2"))},
		{"true over a number is text", "a = 7\n", "a = \"true\"\n", sets(a, Typed("true"))},
		{"a number over true is text", "a = true\n", "a = \"7\"\n", sets(a, Typed("7"))},
		{"false over true", "a = true\n", "a = false\n", sets(a, Typed("false"))},
		{"a date is no number", "a = 1979-05-27\n", "a = \"1979-05-28\"\n", sets(a, Typed("1979-05-28"))},
		{"quotes typed are letters", "a = 'y'\n", "a = \"'x'\"\n", sets(a, Typed("'x'"))},
		{"a number typed over text", "a = 'y'\n", "a = '7'\n", sets(a, Typed("7"))},
		{"a number typed where nothing was", "", "a = \"7\"\n", sets(a, Typed("7"))},
		{"white space of text stays", "a = 'y'\n", "a = ' x '\n", sets(a, Typed(" x "))},
		{"double quotes stay in a file of single ones", single, "x = ['p', 'q']\ny = \"s\"\n", sets(Of("y"), Text("s"))},
		{"single ones in a file of double ones", "x = \"p\"\ny = \"q\"\na = 'r'\n", "x = \"p\"\ny = \"q\"\na = 's'\n",
			sets(a, Text("s"))},
		{"most of the file counts lists too", single, single + "a = 's'\n", sets(a, Text("s"))},
		{"and tables", "[x]\np = 'q'\n", "a = 's'\n\n[x]\np = 'q'\n", sets(a, Text("s"))},
		{"double where it has as many of both", "x = 'p'\ny = \"q\"\n", "x = 'p'\ny = \"q\"\na = \"s\"\n",
			sets(a, Text("s"))},
		{"a tab stands in single quotes", "a = 'y'\n", "a = 'x\ty'\n", sets(a, Text("x\ty"))},
		{"other signs of control do not", "a = 'y'\n", "a = \"x\\u001F\"\n", sets(a, Text("x\x1f"))},
		{"nor the last of them", "a = 'y'\n", "a = \"x\\u007F\"\n", sets(a, Text("x\x7f"))},
		{"a table in braces gives way", "a = { b = 1 } # was\n", "a = 2 # was\n", sets(a, TOML("2"))},
		{"a list gives way", "a = [1,\n2] # was\n", "a = 2 # was\n", sets(a, TOML("2"))},
		{"the letters of a bare key", "", "0aAzZ9-_ = 1\n", sets(Of("0aAzZ9-_"), TOML("1"))},
		{"other letters need quotes", "", "\"é\" = 1\n", sets(Of("é"), TOML("1"))},
	}.hold(t)
}

// The equals sign of a new key stands as those of its table do: in one column where they stand in one, else as that of
// the last line.
func TestEqualsStandInLine(t *testing.T) {
	c, long := Of("c"), Of("cccc")
	edits{
		{"in the column", "a  = 1\nbb = 2\n", "a  = 1\nbb = 2\nc  = 3\n", sets(c, TOML("3"))},
		{"in that of the first too", "a    = 1\nlong = 2\n", "a    = 1\nlong = 2\nc    = 3\n", sets(c, TOML("3"))},
		{"behind it where the key is too long", "a  = 1\nbb = 2\n", "a  = 1\nbb = 2\ncccc = 3\n", sets(long, TOML("3"))},
		{"by letters, not bytes", "\"é\"  = 1\nlong = 2\n", "\"é\"  = 1\nlong = 2\nc    = 3\n", sets(c, TOML("3"))},
		{"by a space where columns differ", "a = 1\nbb  = 2\n", "a = 1\nbb  = 2\nc = 3\n", sets(c, TOML("3"))},
		{"by a space where no line is padded", "bb = 1\n", "bb = 1\nc = 3\n", sets(c, TOML("3"))},
		{"by none as the last has none", "bb=1\n", "bb=1\nc=3\n", sets(c, TOML("3"))},
		{"with the space behind it", "a =  1\n", "a =  1\nc =  3\n", sets(c, TOML("3"))},
		{"by dots too", "x.a   = 1\n", "x.a   = 1\nx.c   = 3\n", sets(Of("x", "c"), TOML("3"))},
	}.hold(t)
}

// Lists and tables in braces keep their lines, comments and line ends, whatever comes or goes.
func TestThingsInBracketsKeepTheirLines(t *testing.T) {
	a := Of("a")
	three := Item{Value: TOML("3")}
	edits{
		{"added before a bracket on the line", "a = [\n  1,\n  2]\n", "a = [\n  1,\n  2,\n  3]\n", appends(a, three)},
		{"added below a comment on the last line", "a = [\n\t1, # one\n\t2 # two\n]\n",
			"a = [\n\t1, # one\n\t2, # two\n\t3\n]\n",
			appends(a, three)},
		{"into empty braces", "a = {}\n", "a = { b = 1 }\n", sets(a.Key("b"), TOML("1"))},
		{"into empty lines", "a = [\n]\n", "a = [\n3]\n", appends(a, three)},
		{"the only one before a comment goes", "a = [ 1 # one\n]\n", "a = [  # one\n]\n", removes(a.Item(0))},
		{"the only one behind a comment goes", "a = [ # one\n1 ]\n", "a = [ # one\n ]\n", removes(a.Item(0))},
		{"the last of a line goes", "a = [\n  1, 2\n]\n", "a = [\n  1\n]\n", removes(a.Item(1))},
		{"by tabs", "a = [1,\t2\t,\t3]\n", "a = [1,\t3]\n", removes(a.Item(1))},
		{"a key before a comment goes", "a = 1\t# one\nb = 2\n", "# one\nb = 2\n", removes(a)},
		{"line ends of a file that begins with one", "\r\nb = 1\r\n", "\r\nb = 1\r\na = 2\r\n", sets(a, TOML("2"))},
		{"line ends of a file that begins with a plain one", "\nb = 1\n", "\nb = 1\na = 2\n", sets(a, TOML("2"))},
		{"a mark before all", "\ufeffb = 1\n", "\ufeffb = 1\na = 2\n", sets(a, TOML("2"))},
	}.hold(t)
}

// Keys in either quotes are read as TOML has them, and what is no path is said in its own words.
func TestPathsAsTyped(t *testing.T) {
	for text, want := range map[string]Path{
		"": nil, "a.b[2].c": Of("a", "b").Item(2).Key("c"), "'a.b'.c": Of("a.b", "c"), `'a\'.b`: Of(`a\`, "b"),
		`"a\".b".c`: Of(`a".b`, "c"), `"\u00e9"[0]`: Of("é").Item(0), "'[0]'[10]": Of("[0]").Item(10),
	} {
		if p, err := ParsePath(text); err != nil || !slices.Equal(p, want) {
			t.Errorf("%q reads as %#v, %v", text, p, err)
		}
	}
	for text, want := range map[string]string{
		"a[x]": `"x" is no index of a path`, "a[+1]": `"+1" is no index of a path`, "a[]": `"" is no index of a path`,
		"a ": `"a " is no path`, " a": `" a" is no path`, "'a": `"'a" is no path`, `"a\"`: `"\"a\\\"" is no path`,
		"a[1]b": `"a[1]b" is no path`, "'a'b": `"'a'b" is no path`, "a=1.b": `"a=1.b" is no path`,
	} {
		if p, err := ParsePath(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q reads as %#v, %v; want %s", text, p, err, want)
		}
	}
}
