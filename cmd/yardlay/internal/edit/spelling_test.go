package edit

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const gown = `# the gown of the second act
unit = 'in'    # of all

[body]
waist_girth = 28 # taken twice

# satin first
[[cloth]]
id       = 'satin'
width    = '58'

[[cloth]]
id = "lining"    # acetate
# price = "5.50/yd"

# The skirt.
[[part]]
name  = 'skirt'
cloth = ['satin', "lining"]
lining.cloth = 'net'

# later: a cape
`

// What is written looks as if the one who wrote the file had written it.
func TestSpelling(t *testing.T) {
	set := func(at Path, v Value) func([]byte) ([]byte, error) {
		return func(src []byte) ([]byte, error) { return Set(src, at, v) }
	}
	cut := func(at Path) func([]byte) ([]byte, error) {
		return func(src []byte) ([]byte, error) { return Remove(src, at) }
	}
	cloth, part := Of("cloth").Item(0), Of("part").Item(0)
	for _, c := range []struct {
		name   string
		change func([]byte) ([]byte, error)
		want   string // lines that go and come
	}{
		{"a number stays one", set(Of("body", "waist_girth"), Typed("27.5")),
			"-waist_girth = 28 # taken twice\n+waist_girth = 27.5 # taken twice\n"},
		{"till it is none, then the file's quotes", set(Of("body", "waist_girth"), Typed("27 1/2")),
			"-waist_girth = 28 # taken twice\n+waist_girth = '27 1/2' # taken twice\n"},
		{"text keeps its quotes", set(part.Key("name"), Typed("12")), "-name  = 'skirt'\n+name  = '12'\n"},
		{"but where they cannot hold it", set(part.Key("name"), Text("it's")),
			"-name  = 'skirt'\n+name  = \"it's\"\n"},
		{"a new key stands in line", set(cloth.Key("nap"), Text("one-way")), "+nap      = 'one-way'\n"},
		{"a dotted one beside its like", set(part.Key("lining").Key("shorter"), Text("1")),
			"+lining.shorter = '1'\n"},
		{"a table within in braces", set(part.Key("allowance").Key("hem"), Text("2")),
			"+allowance = { hem = '2' }\n"},
		{"one of the file with a header", set(Of("quote", "markup"), Text("20 %")), "+[quote]\n+markup = '20 %'\n+\n"},
		{"a comment outlives its key", cut(Of("body", "waist_girth")),
			"-waist_girth = 28 # taken twice\n+# taken twice\n"},
		{"that above a table goes with it", cut(cloth),
			"-# satin first\n-id       = 'satin'\n-width    = '58'\n-\n-[[cloth]]\n"},
		{"other comments do not", cut(part), "-# The skirt.\n-[[part]]\n-name  = 'skirt'\n" +
			"-cloth = ['satin', \"lining\"]\n-lining.cloth = 'net'\n-\n"},
		{"a list of one on one line", cut(part.Key("cloth").Item(0)),
			"-cloth = ['satin', \"lining\"]\n+cloth = [\"lining\"]\n"},
		{"a new table follows its like",
			func(src []byte) ([]byte, error) {
				return Append(src, Of("cloth"), Item{Table: true, Fields: []Field{{"id", Text("net")}}})
			}, "+[[cloth]]\n+id = 'net'\n+\n"},
	} {
		out, err := c.change([]byte(gown))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		} else if diff := lines(gown, string(out)); diff != c.want {
			t.Errorf("%s (-want +got):\n%s\nin:\n%s", c.name, cmp.Diff(c.want, diff), out)
		}
	}
}

// lines lists those that go, with a -, and those that come, with a +, in order.
func lines(a, b string) (diff string) {
	x, y := split(a), split(b)
	longest := make([][]int, len(x)+1) // common to x[i:] and y[j:]
	for i := range longest {
		longest[i] = make([]int, len(y)+1)
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			longest[i][j] = max(longest[i+1][j], longest[i][j+1])
			if x[i] == y[j] {
				longest[i][j] = longest[i+1][j+1] + 1
			}
		}
	}
	for i, j := 0, 0; i < len(x) || j < len(y); {
		switch {
		case i < len(x) && j < len(y) && x[i] == y[j]:
			i, j = i+1, j+1
		case j == len(y) || i < len(x) && longest[i+1][j] >= longest[i][j+1]:
			diff += "-" + x[i]
			i++
		default:
			diff += "+" + y[j]
			j++
		}
	}
	return diff
}

func split(text string) (all []string) {
	for line := range strings.Lines(text) {
		all = append(all, line)
	}
	return all
}

// What cannot be done is refused and the text is left as it was.
func TestRefused(t *testing.T) {
	for name, change := range map[string]func() ([]byte, error){
		"a list of tables for a value": func() ([]byte, error) { return Set([]byte(gown), Of("cloth"), Text("x")) },
		"an item that is not there":    func() ([]byte, error) { return Set([]byte(gown), Of("cloth").Item(2), Text("x")) },
		"a key of a text":              func() ([]byte, error) { return Set([]byte(gown), Of("unit", "of"), Text("x")) },
		"another value for no value": func() ([]byte, error) {
			return Replace([]byte(gown), []Given{{Of("unit"), Text("cm")}, {Of("gap"), Text("x")}})
		},
		"a missing key":       func() ([]byte, error) { return Remove([]byte(gown), Of("gap")) },
		"the whole file":      func() ([]byte, error) { return Remove([]byte(gown), nil) },
		"a move from nowhere": func() ([]byte, error) { return Move([]byte(gown), Of("cloth"), 0, 2) },
		"a text into a list of tables": func() ([]byte, error) {
			return Append([]byte(gown), Of("cloth"), Item{Value: Text("x")})
		},
	} {
		if out, err := change(); !errors.Is(err, ErrNoPlace) || out != nil {
			t.Errorf("%s: %v, %q", name, err, out)
		}
	}
	for _, bad := range []string{"1 # one", "1\nb = 2", "", "'", "{", "1 2"} {
		if out, err := Set([]byte(gown), Of("gap"), TOML(bad)); err == nil {
			t.Errorf("%q was written:\n%s", bad, out)
		}
	}
	for _, bad := range []string{"a = ", "a = 1\na = 2", "a = \xff"} {
		if _, err := Set([]byte(bad), Of("gap"), Text("1")); !errors.Is(err, ErrNotTOML) {
			t.Errorf("%q: %v", bad, err)
		}
	}
	if _, err := Set([]byte("a = 1"), Of("b"), Text("\xff")); err == nil {
		t.Error("bytes that are no text were written")
	}
}

// Whatever the text, a change leaves one that can be read, which says what was set.
func FuzzSet(f *testing.F) {
	for _, text := range []string{gown, "", "a = 1", "[a.b]\nc = [ { d = 1 }, # x\n ]", "\ufeffa.b = '''\n'''\r\n"} {
		f.Add([]byte(text), "part[0].name", "x")
		f.Add([]byte(text), "a.b", "'\"\n")
	}
	f.Fuzz(func(t *testing.T, src []byte, at, value string) {
		path, err := ParsePath(at)
		if err != nil || len(path) == 0 {
			return
		}
		out, err := Set(src, path, Text(value))
		if err != nil {
			return
		}
		d, err := scan(out)
		if err != nil {
			t.Fatal(err)
		}
		n, steps := d.find(path)
		if got := decoded(t, append([]byte("v = "), d.src[n.start:n.end]...))["v"]; steps < len(path) || got != value {
			t.Fatalf("%s is %q, not %q, in:\n%s", path, got, value, out)
		}
		if _, err := Remove(out, path); err != nil {
			t.Fatal(err)
		}
	})
}
