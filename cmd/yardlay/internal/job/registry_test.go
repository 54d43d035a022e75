package job

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// everyTable is a job with a table of every kind.
var everyTable = strings.Replace(strings.Replace(measured, "[body]", "[body]\nunusual = true", 1),
	"width = 58\n", `width = 58
lay = "crosswise-fold"
shrinkage = { warp = "-3 %", by = "prewash" }
repeat = { along = 12 }
flaws = [ { from = 12, to = 14, low = 3, high = 5 } ]
have = [ { name = "remnant", length = 40, width = 30, flaws = [ { from = 1, to = 2 } ] } ]
price = "13.50/yd"
bolt = [ { length = "25 yd", price = "140.00" } ]
breaks = [ { from = "10 yd", price = "12.00/yd" } ]
offers = [ { supplier = "shop", price = "11.80/yd", bolt = { length = "25 yd", price = "140.00" }, breaks = [ { from = "10 yd", price = "11.00/yd" } ] } ]
`, 1) + `draft = "rectangle"
length = 30
width = 20
allowance = { seam = 1 }
lining = { cloth = "satin", allowance = { seam = 1 } }
interlining = { cloth = "satin", allowance = { seam = 1 } }
[[part]]
name = "q"
draft = "rectangle"
cloth = "satin"
length = 30
width = 20
[[part]]
name = "r"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
waist = 28
length = 30
facings = [ { at = "waist" } ]
closings = [ { by = "lacing", length = 7 } ]
edgings = [ { width = 0.5 } ]
[[match]]
name = "side"
cloth = "satin"
points = [ { piece = "p", edge = "left side", at = 1 }, { piece = "q", edge = "left side", at = 1 } ]
[[supplier]]
name = "mill"
[[supplier]]
name = "shop"
[[notion]]
name = "ribbon"
by = "opening"
edges = ["hem"]
per_metre = 12
price = "4.00/yd"
[[notion]]
name = "thread"
by = "seam"
per_metre = 12
reel = { length = "1000 m", price = "4.20" }
[[notion]]
name = "zip"
by = "opening"
sizes = [ { length = 9, price = "2.10" } ]
[[notion]]
name = "hooks"
by = "opening"
price = "4.00/pack"
pack = 12
[labour]
rate = "24.00/h"
seam = "6 min/m"
[quote]
overhead = "15 %"
`

// apart are keys that are left out where another is tried, which takes their place.
var apart = map[string][]string{
	"reel": {"price", "pack"}, "sizes": {"price", "pack"}, "outline": {"from", "to", "low", "high"}, "hours": {"seam"},
	"depths": {"tiers"}, "underarm": {"length"}, "bodice": {"front_armhole", "back_armhole"},
	"estimate": {"unusual"}, "deliver": {"ordered"}, "ordered": {"deliver"},
}

// inItem is in which table of a list a key means something, where it is not the first.
var inItem = map[string]int{"notion.pack": 3, "notion.spare": 3, "notion.have": 3}

// hosts are drafts whose linings have these keys; those of others may not.
var hosts = map[string]string{
	"shorter": "circle-skirt", "front_on_fold": "circle-skirt", "back_on_fold": "cape", "on_fold": "peplum",
	"ease_pleat": "bodice-block",
}

// Where the place of a tried key and of its value are, which nothing else has.
var tryKey, tryValue = strict.Position{Line: 1000, Column: 1}, strict.Position{Line: 1000, Column: 9}

// Every key of every draft and table takes what its kind says and nothing else: values at
// the limits are read, and those beyond them are refused at their place, with a hint.
func TestEveryKeyTakesWhatItsKindSays(t *testing.T) {
	w := registry{t: t, seen: map[string]bool{}}
	root, bad := fileFormat.Parse([]byte(everyTable))
	if bad != nil {
		t.Fatal(bad)
	}
	w.root = root
	w.walk("", root, fileKeys, 0)
	for _, d := range drafts {
		if w.root, bad = fileFormat.Parse([]byte(exampleJob(d))); bad != nil {
			t.Fatal(bad)
		}
		part := w.root.Fields["part"].Value.Items[0]
		for _, k := range d.keys {
			w.try(d.name+"."+k.Name, part, k)
		}
	}
	for key, draft := range hosts {
		i := slices.IndexFunc(drafts, func(d family) bool { return d.name == draft })
		if w.root, bad = fileFormat.Parse(
			[]byte(exampleJob(drafts[i]) + "\nlining = { cloth = \"satin\" }\n")); bad != nil {
			t.Fatal(bad)
		}
		lining := w.root.Fields["part"].Value.Items[0].Fields["lining"].Value
		w.try("lining."+key, lining, innerKeys[slices.IndexFunc(innerKeys, func(k Key) bool { return k.Name == key })])
	}
	if len(w.seen) < 350 {
		t.Errorf("only %d keys were tried", len(w.seen))
	}
}

// So do those of the book of a workroom.
func TestEveryKeyOfAWorkroomTakesWhatItsKindSays(t *testing.T) {
	src := strings.NewReplacer("moon-satin", "satin", `name = "mara"`, "name = \"mara\"\nunusual = true").Replace(aRoom)
	root, bad := roomFormat.Parse([]byte(src))
	if bad != nil {
		t.Fatal(bad)
	}
	w := registry{t: t, seen: map[string]bool{}, root: root, room: true}
	own := slices.DeleteFunc(slices.Clone(roomKeys), func(k Key) bool { // those of a job are tried there
		return slices.Contains([]string{"notion", "supplier", "labour", "quote", "cloth"}, k.Name)
	})
	w.walk("", root, own, 0)
	if len(w.seen) < 60 {
		t.Errorf("only %d keys were tried", len(w.seen))
	}
}

// registry tries keys in the tree of a file.
type registry struct {
	t    *testing.T
	root *strict.Value
	seen map[string]bool
	room bool // it is the book of a workroom
}

// reads tells what is wrong with the file.
func (w *registry) reads() strict.Errors {
	if w.room {
		r := newReader("workroom.toml", measure.Inch, "")
		r.workroom(w.root)
		return r.Errors
	}
	f := File{name: "job.toml", root: w.root, disk: new(disk)}
	_, wrong := f.read(w.root)
	return wrong
}

// walk tries the keys of a table and of those within it.
func (w *registry) walk(path string, n *strict.Value, keys []Key, item int) {
	for _, k := range keys {
		name := path + k.Name
		if !w.seen[name] && item >= inItem[name] && (hosts[k.Name] == "" || !strings.Contains(path, "lining")) {
			w.try(name, n, k)
		}
		f := n.Fields[k.Name]
		if k.Kind.Form != Table || f == nil {
			continue
		}
		if f.Value.Kind == strict.KindTable {
			w.walk(name+".", f.Value, k.Kind.Keys, item)
		}
		for i, item := range f.Value.Items {
			w.walk(name+".", item, k.Kind.Keys, i)
		}
	}
}

// try gives a key good values and bad ones.
func (w *registry) try(name string, n *strict.Value, k Key) {
	w.t.Helper()
	w.seen[name] = true
	words := k.Kind.String()
	if words == "" || k.Meaning == "" || k.Kind.Most != 0 && k.Kind.Numbers == nil && k.Kind.Listed == Single &&
		!strings.Contains(words, k.Kind.limit(k.Kind.Most)) {
		w.t.Errorf("%s: the reference calls it %q", name, words)
	}
	bodily := slices.ContainsFunc(bodyMeasures,
		func(m bodyMeasure) bool { return strings.HasPrefix(k.Default, "`"+m.name+"`") })
	if bodily != (k.Kind.Body != "") || !strings.Contains(k.Default, k.Kind.Body) {
		w.t.Errorf("%s: %q stands in, and the reference says %q", name, k.Kind.Body, k.Default)
	}
	if name == "rates" {
		return // the name of a file
	}
	good, bad := samples(k.Kind)
	for _, v := range good {
		if e := w.refused(n, k.Name, v); e != nil {
			w.t.Errorf("%s takes %s, and %s is refused: %v", name, words, shownValue(v), e)
		}
	}
	for _, v := range bad {
		switch e := w.refused(n, k.Name, v); {
		case e == nil:
			w.t.Errorf("%s takes %s, and also %s", name, words, shownValue(v))
		case e.Hint == "":
			w.t.Errorf("%s: no hint for %s: %v", name, shownValue(v), e)
		}
	}
}

// refused reads the job with a value for a key and returns what is wrong with the value
// itself.
func (w *registry) refused(n *strict.Value, key string, v *strict.Value) *strict.Error {
	was, order := map[string]*strict.Field{}, slices.Clone(n.Order)
	for _, k := range append(apart[key], key) {
		was[k] = n.Fields[k]
		delete(n.Fields, k)
		n.Order = slices.DeleteFunc(n.Order, func(o string) bool { return o == k })
	}
	v.MoveTo(tryValue)
	n.Set(key, tryKey, v)
	wrong := w.reads()
	delete(n.Fields, key)
	for k, f := range was {
		if f != nil {
			n.Fields[k] = f
		}
	}
	n.Order = order
	for _, e := range wrong {
		// tables of the file begin where they are named
		if e.At == tryValue || e.At == tryKey && v.Kind != strict.KindTable && n == w.root {
			return e
		}
	}
	return nil
}

func num(v float64) *strict.Value {
	return &strict.Value{Kind: strict.KindNumber, Number: v, Integer: v == math.Trunc(v)}
}
func word(s string) *strict.Value { return &strict.Value{Kind: strict.KindText, Text: s} }
func list(items ...*strict.Value) *strict.Value {
	return &strict.Value{Kind: strict.KindList, Items: items}
}

// shownValue is a value as a file would have it.
func shownValue(v *strict.Value) string {
	if v.Kind == strict.KindList {
		var items []string
		for _, item := range v.Items {
			items = append(items, shownValue(item))
		}
		return "[" + strings.Join(items, ", ") + "]"
	}
	if v.Kind == strict.KindText {
		return fmt.Sprintf("%q", v.Text)
	}
	return v.Typed()
}

// samples are values that a kind takes, at its limits, and some that it does not.
func samples(k Kind) (good, bad []*strict.Value) {
	yes := &strict.Value{Kind: strict.KindBool, Truth: true}
	switch k.Form {
	case Text:
		good, bad = append(good, word("word")), append(bad, num(3), word(" "))
		if k.Most != 0 {
			good, bad = append(good, word(strings.Repeat("w", int(k.Most)))),
				append(bad, word(strings.Repeat("w", int(k.Most)+1)))
		}
	case Truth:
		good, bad = append(good, yes, &strict.Value{Kind: strict.KindBool}), append(bad, word("yes"), num(1))
	case Length:
		good, bad = append(good, num(20), word("50 cm")), append(bad, yes, word("much"), word("20 miles"))
		if k.Sign == AnySign {
			good = append(good, num(-1), num(0))
		} else {
			bad = append(bad, num(-1))
		}
		if k.Sign == Positive {
			bad = append(bad, num(0))
		}
		for _, c := range k.Choices {
			good = append(good, word(c))
		}
	case Count:
		for _, n := range []float64{k.Least, k.Most} {
			good = append(good, num(n))
		}
		bad = append(bad, num(k.Most+1), yes)
		if k.Or == 0 {
			bad = append(bad, num(k.Least-1), num(k.Least+0.5), word("two"))
		}
		for n := int(k.Least); k.Numbers != nil && n <= int(k.Most); n++ {
			if slices.Contains(k.Numbers, n) {
				good = append(good, num(float64(n)))
			} else {
				bad = append(bad, num(float64(n)))
			}
		}
	case Ratio:
		good, bad = append(good, num(k.Least), num(k.Most)), append(bad, num(k.Least-0.005), num(k.Most*1.01),
			word("a bit"), yes)
		for _, c := range k.Choices {
			good = append(good, word(c))
		}
	case Number:
		good, bad = append(good, num(2.5), word("2.5")), append(bad, num(-1), word("some"))
	case Percent:
		good, bad = append(good, word("+5 %")), append(bad, num(5), word("5"), word("five %"))
		if k.Most != 0 {
			good = append(good, word(fmt.Sprintf("%+g %%", 100*k.Least)), word(fmt.Sprintf("%+g %%", 100*k.Most)))
			bad = append(bad, word(fmt.Sprintf("%+g %%", 100*k.Least-1)), word(fmt.Sprintf("%+g %%", 100*k.Most+1)))
		} else {
			good[0] = word("5 %")
			bad = append(bad, word("-5 %"))
		}
	case OneOf:
		for _, c := range k.Choices {
			good = append(good, word(c))
		}
		bad = append(bad, word("nothing"), num(1))
	case Currency:
		good, bad = append(good, word("USD")), append(bad, word("usd"), num(1))
	case Name:
		names := map[string]string{"cloth": "satin", "supplier": "mill", "draft": "rectangle"}
		if names[k.Of] != "" {
			good = append(good, word(names[k.Of]))
		}
		bad = append(bad, word("nobody"), num(1))
	case Amount:
		units := map[string]string{"": "", "/h": "/h", "/yd or amount/m": "/yd", "/each, /pack, /yd or /m": "/each"}
		good, bad = append(good, word("3.00"+units[k.Of])), append(bad, word("free"), num(3), word("-3.00"+units[k.Of]))
	case Minutes:
		good, bad = append(good, word("4 min")), append(bad, word("4"), num(4), word("-4 min"))
		if k.Of != "" {
			good[0], bad[2] = word("4 min/m"), word("-4 min/m")
		}
	case Table:
		bad = append(bad, num(3))
	case Day:
		date := func(text string) *strict.Value { return &strict.Value{Kind: strict.KindDate, Text: text} }
		good, bad = append(good, date("2026-10-02"), date("2024-02-29")), append(bad, word("2026-10-02"), num(2026))
	case Points:
		corner := func(x, y float64) *strict.Value { return list(num(x), num(y)) }
		good = append(good, list(corner(1, 1), corner(3, 1), corner(2, 3)))
		return good, append(bad, list(corner(1, 1)), num(1), list(num(1), num(2), num(3)))
	}
	switch k.Listed {
	case SeveralToo:
		for _, v := range slices.Clone(good) {
			good = append(good, list(v))
		}
		if bad = append(bad, list(bad[0])); k.Form != Table {
			bad = append(bad, list())
		}
	case List:
		for i, v := range good {
			good[i] = list(v)
		}
		if k.Form == Table {
			bad = append(bad, list(num(3)))
			break
		}
		for i, v := range bad {
			bad[i] = list(v)
		}
		bad = append(bad, num(1))
	}
	return good, bad
}
