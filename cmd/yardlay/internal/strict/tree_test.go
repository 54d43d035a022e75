package strict

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"pgregory.net/rapid"
)

// roomy is a format that takes all that a test writes.
var roomy = Format{Deep: 20, Keys: 200, Tables: 200}

// sameAs says where a tree is not what the library's decoder, which knows no places,
// makes of the same text.
func sameAs(v *Value, decoded any) error {
	switch d := decoded.(type) {
	case map[string]any:
		if v.Kind != KindTable || len(v.Fields) != len(d) || len(v.Order) != len(d) {
			return fmt.Errorf("%v: %s of %d keys, in order %d, not a table of %d",
				v.At, v.Kind, len(v.Fields), len(v.Order), len(d))
		}
		for _, key := range v.Order {
			inner, ok := d[key]
			if !ok {
				return fmt.Errorf("%v: a key %q", v.At, key)
			}
			if err := sameAs(v.Fields[key].Value, inner); err != nil {
				return err
			}
		}
	case []any:
		if v.Kind != KindList || len(v.Items) != len(d) {
			return fmt.Errorf("%v: %s of %d, not a list of %d", v.At, v.Kind, len(v.Items), len(d))
		}
		for i := range d {
			if err := sameAs(v.Items[i], d[i]); err != nil {
				return err
			}
		}
	case string:
		if v.Kind != KindText || v.Text != d {
			return fmt.Errorf("%v: %s %q, not %q", v.At, v.Kind, v.Text, d)
		}
	case bool:
		if v.Kind != KindBool || v.Truth != d {
			return fmt.Errorf("%v: %s %v, not %v", v.At, v.Kind, v.Truth, d)
		}
	case int64:
		if v.Kind != KindNumber || !v.Integer || v.Number != float64(d) {
			return fmt.Errorf("%v: %s %v, not %d", v.At, v.Kind, v.Number, d)
		}
	case float64:
		if same := v.Number == d || math.IsNaN(v.Number) && math.IsNaN(d); v.Kind != KindNumber || v.Integer || !same {
			return fmt.Errorf("%v: %s %v, not %v", v.At, v.Kind, v.Number, d)
		}
	case toml.LocalDate:
		if v.Kind != KindDate || v.Text != d.String() {
			return fmt.Errorf("%v: %s %q, not %v", v.At, v.Kind, v.Text, d)
		}
	default:
		if v.Kind != KindTime {
			return fmt.Errorf("%v: %s, not %T", v.At, v.Kind, decoded)
		}
	}
	return nil
}

// checkTree holds what is read to the decoder, and a clone to what it is of.
func checkTree(t rapid.TB, src string) *Value {
	t.Helper()
	root, bad := roomy.Parse([]byte(src))
	if bad != nil {
		t.Fatalf("%v\n%s", bad, src)
	}
	var decoded map[string]any
	if err := toml.Unmarshal([]byte(strings.TrimPrefix(src, "\ufeff")), &decoded); err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	clone := root.Clone()
	root.MoveTo(Position{Put: 1})
	for _, v := range []*Value{root, clone} {
		if err := sameAs(v, decoded); err != nil {
			t.Fatalf("%v in\n%s", err, src)
		}
	}
	return clone
}

// Numbers, texts and tables in all that TOML writes them as (toml.io, 1.0.0).
func TestTreeIsWhatTheDecoderReads(t *testing.T) {
	for _, src := range []string{
		"", "# nothing\n", "\ufeffa = 1", "a = 1\r\nb = 2\r\n",
		"a = +99\nb = -17\nc = 1_000\nd = 0xDEAD_beef\ne = 0o755\nf = 0b1101\ng = -0",
		"a = +1.0\nb = -2E-2\nc = 224_617.445_991_228\nd = inf\ne = -inf\nf = nan\ng = -nan\nh = +nan\ni = +inf",
		"a = \"\\u00e9\\t\\\"\"\nb = 'C:\\n'\nc = \"\"\"\nx \\\n   y\"\"\"\nd = '''\nz'''\n\"\" = 1\n'é é' = 2",
		"a = true\nb = false\nc = 1979-05-27T07:32:00Z\nd = 07:32:00\ne = 1979-05-27",
		"a.b.c = 1\na.b.d = 2\n[x.y]\nz = 1\n[x]\nw = 2\n[a.e]\nf = []",
		"[[p]]\nn = 1\n[p.q]\nr = 2\n[[p.s]]\nt = 3\n[[p.s]]\n[[p]]\nn = 4\n[[p.s]]\nt = 5\n",
		"a = [ 1, [\n 2, # two\n], { b = 1, c.d = [ {}, { e = 2 } ] }, ]",
	} {
		checkTree(t, src)
	}
}

// FuzzTree holds any file to the decoder; what is refused has its place in the file.
func FuzzTree(f *testing.F) {
	for _, src := range []string{
		"a = -nan", "[[p]]\n[p.q]\nr = [{s=1}]\n[[p]]\n", "a.b=\"é\"\n[a.c]\n'x y'=07:32:00", "a = [\n1,", "\xff",
	} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		if _, bad := roomy.Parse([]byte(src)); bad == nil {
			checkTree(t, src)
		} else if at := bad.At; at.Line < 1 || at.Line > 1+strings.Count(src, "\n") ||
			at.Column < 1 || at.Column > 1+len(src) || bad.What == "" {
			t.Errorf("%q: %+v", src, bad)
		}
	})
}

// Every value and every key stands where its place says, in letters from the beginning
// of its line.
func TestPlacesAreThoseInTheText(t *testing.T) {
	name := rapid.StringMatching(`[a-zé_]{1,6}`)
	rapid.Check(t, func(t *rapid.T) {
		var src strings.Builder
		keys := rapid.SliceOfNDistinct(name, 1, 8, rapid.ID).Draw(t, "keys")
		for i, key := range keys {
			if rapid.IntRange(0, 3).Draw(t, "header") == 0 {
				fmt.Fprintf(&src, "%s[t%d]\n", strings.Repeat(" ", rapid.IntRange(0, 2).Draw(t, "indent")), i)
			}
			indent := strings.Repeat("\t", rapid.IntRange(0, 2).Draw(t, "indent"))
			fmt.Fprintf(&src, "%s%q = %s # ü\n", indent, key, literal(t, 2))
		}
		lines := strings.Split(src.String(), "\n")
		var walk func(v *Value)
		walk = func(v *Value) {
			rest := string([]rune(lines[v.At.Line-1])[v.At.Column-1:])
			switch {
			case v.Kind == KindText && !strings.HasPrefix(rest, strconv.Quote(v.Text)),
				v.Kind == KindNumber && !strings.HasPrefix(rest, strconv.FormatFloat(v.Number, 'g', -1, 64)),
				v.Kind == KindBool && !strings.HasPrefix(rest, strconv.FormatBool(v.Truth)):
				t.Fatalf("%s %q %v at %v: %q\n%s", v.Kind, v.Text, v.Number, v.At, rest, &src)
			}
			for _, item := range v.Items {
				walk(item)
			}
			for _, key := range v.Order {
				at := v.Fields[key].At
				rest := string([]rune(lines[at.Line-1])[at.Column-1:])
				if !strings.HasPrefix(strings.TrimPrefix(rest, `"`), key) {
					t.Fatalf("key %q at %v: %q\n%s", key, at, rest, &src)
				}
				walk(v.Fields[key].Value)
			}
		}
		walk(checkTree(t, src.String()))
	})
}

// literal writes a value, of lists and tables within each other so deep.
func literal(t *rapid.T, deep int) string {
	switch kind := rapid.IntRange(0, 5).Draw(t, "kind"); {
	case kind == 0:
		return strconv.Quote(rapid.StringMatching(`[a-z é#=]{0,5}`).Draw(t, "text"))
	case kind == 1:
		return strconv.Itoa(rapid.IntRange(-2000, 2000).Draw(t, "whole"))
	case kind == 2:
		return strconv.FormatFloat(rapid.Float64Range(0.5, 99).Draw(t, "number"), 'g', -1, 64)
	case kind == 3 || deep == 0:
		return strconv.FormatBool(rapid.Bool().Draw(t, "truth"))
	case kind == 4:
		var items []string
		for range rapid.IntRange(0, 3).Draw(t, "items") {
			items = append(items, literal(t, deep-1))
		}
		return "[ " + strings.Join(items, ", ") + " ]"
	}
	var fields []string
	for _, key := range []string{"a", "b", "éa"}[:rapid.IntRange(0, 3).Draw(t, "fields")] {
		fields = append(fields, fmt.Sprintf("%q = %s", key, literal(t, deep-1)))
	}
	return "{ " + strings.Join(fields, ", ") + " }"
}
