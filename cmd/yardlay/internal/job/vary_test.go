package job

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

const varied = `unit = "in"
gap = "1/4"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
selvedge = "1/2"
price = "13.50/yd"
bolt = { length = "25 yd", price = "280" }
[[cloth]]
id = "net"
width = 108
[[part]]
name = "side panel"
draft = "rectangle"
cloth = "satin"
length = 40
width = 12
count = 4
[[part]]
name = "net"
draft = "rectangle"
cloth = "net"
length = 30
width = 20
`

// vary reads the job with changes written KEY=VALUE.
func vary(changes ...string) (*Job, error) {
	var list []Change
	for _, c := range changes {
		key, value, _ := strings.Cut(c, "=")
		list = append(list, Change{key, value})
	}
	return readAs("varied.toml", []byte(varied), list)
}

func TestVarySetsAnyKey(t *testing.T) {
	panel := func(j *Job) draft.Rectangle { return j.Parts[0].Layers[0].Draft.(draft.Rectangle) }
	for _, c := range []struct {
		changes []string
		got     func(j *Job) any
		want    any
	}{
		{[]string{"gap=1/8"}, func(j *Job) any { return j.Cloths[0].Gap }, 25.4 / 8},
		{[]string{"title=Sunday coat"}, func(j *Job) any { return j.Title }, "Sunday coat"},
		{[]string{"unit=cm"}, func(j *Job) any { return j.Cloths[0].Width }, 580.0},
		{[]string{"satin.width=60in"}, func(j *Job) any { return j.Cloths[0].Width }, 60 * 25.4},
		{[]string{"satin.width=45"}, func(j *Job) any { return j.Cloths[0].Width }, 45 * 25.4},
		{[]string{"satin.width=150 cm"}, func(j *Job) any { return j.Cloths[0].Width }, 1500.0},
		{[]string{`satin.width="1 1/2 yd"`}, func(j *Job) any { return j.Cloths[0].Width }, 54 * 25.4},
		{[]string{"satin.nap=two-way"}, func(j *Job) any { return j.Cloths[0].Nap }, TwoWay},
		{[]string{"satin.both_faces=true"}, func(j *Job) any { return j.Cloths[0].BothFaces }, true},
		{[]string{"satin.price=14/m"}, func(j *Job) any { return j.Cloths[0].Offer.Price },
			cost.Money{Minor: 1400, Currency: "USD"}},
		{[]string{"satin.bolt.price=250"}, func(j *Job) any { return j.Cloths[0].Offer.Bolt.Price.Minor },
			int64(25000)},
		{[]string{"satin.bolt.length=20 yd"}, func(j *Job) any { return j.Cloths[0].Offer.Bolt.Length }, 20 * 914.4},
		{[]string{`net.bolt={ length = "10 m", price = "30" }`},
			func(j *Job) any { return j.Cloths[1].Offer.Bolt.Length }, 10000.0},
		{[]string{"net.bolt.length=10 m", "net.bolt.price=30"},
			func(j *Job) any { return j.Cloths[1].Offer.Bolt.Price.Minor }, int64(3000)},
		{[]string{"allowance.hem=2"}, func(j *Job) any { return panel(j).Allowance.Hem }, 50.8},
		{[]string{"side panel.allowance.hem=2"}, func(j *Job) any { return panel(j).Allowance.Hem }, 50.8},
		{[]string{"side-panel.width=15"}, func(j *Job) any { return panel(j).Width }, 15 * 25.4},
		{[]string{"Side-Panel.count=6"}, func(j *Job) any { return panel(j).Count }, 6},
		{[]string{"side panel.cloth=net"}, func(j *Job) any { return j.Parts[0].Layers[0].Cloth }, "net"},
		{[]string{`side panel.cloth=["net", "satin"]`}, func(j *Job) any { return len(j.Parts[0].Layers) }, 2},
		{[]string{"side panel.draft=waistband", "side-panel.waist=70 cm"}, nil, nil},
		// the cloth's, by its key
		{[]string{"net.nap=all-way"}, func(j *Job) any { return j.Cloths[1].Nap }, AllWay},
		{[]string{"net.length=31"}, func(j *Job) any { return j.Cloths[1].Width }, 108 * 25.4}, // the part's
		{[]string{"cloth.net.width=54", "part.net.width=9"}, func(j *Job) any { return j.Cloths[1].Width }, 54 * 25.4},
		{[]string{"body.waist_girth=70 cm"}, func(j *Job) any { return len(j.Parts) }, 2},
	} {
		j, err := vary(c.changes...)
		if c.got == nil {
			if err == nil { // a waistband has no key `length`
				t.Errorf("%v is read", c.changes)
			}
			continue
		}
		if err != nil {
			t.Errorf("%v: %v", c.changes, err)
		} else if got := c.got(j); got != c.want {
			t.Errorf("%v gives %v, want %v", c.changes, got, c.want)
		}
	}
}

func TestVaryRefusesWithTheNearestKnown(t *testing.T) {
	for _, c := range []struct{ change, what, hint string }{
		{"satin.widht=45", "cloth `satin` has no key `widht`", "did you mean `width`?"},
		{"stain.width=45", `there is no cloth, part or table called "stain"`, "did you mean `satin`?"},
		{"velvet.width=45", `there is no cloth, part or table called "velvet"`,
			"known here: body, allowance, satin, net, side panel"},
		{"gapp=1", "the job has no key `gapp`", "did you mean `gap`?"},
		{"satin=45", "cloth `satin` is a table, not a value", "satin.width"},
		{"body.waist=70", "[body] has no key `waist`", "did you mean `waist_girth`?"},
		{"side panel.gores=7", "part `side panel` has no key `gores`", "known here: name,"},
		{"side-panel.cuont=7", "part `side panel` has no key `cuont`", "did you mean `count`?"},
		{"side panel.allowance.hemm=1", "`allowance` of part `side panel` has no key `hemm`", "did you mean `hem`?"},
		{"satin.bolt.prise=9", "`bolt` of cloth `satin` has no key `prise`", "did you mean `price`?"},
		{"satin.width.low=9", "`width` of cloth `satin` is a number and has no key `low`", ""},
		{"net.width=54", "cloth `net` and part `net` both have `width`",
			"say which: cloth.net.width or part.net.width"},
		{"satin.nap=oneway", "`nap` cannot be \"oneway\"", "did you mean `one-way`?"},
		{"satin.width=wide", "`width`: ", "a length reads like"},
		{"satin.width=", "it is empty", ""},
		{"satin.width=[45", "cannot read", "a list reads like"},
		{"satin.both_faces=perhaps", "`both_faces` must be true or false, not text", ""},
		{"side panel.count=many", "`count` must be a whole number, not text", ""},
		{"side panel.count=2.5", "`count` must be a whole number", ""},
		{"satin.=3", "cloth `satin` has no key", ""},
		{"side panel.cloth=stain", `there is no cloth "stain"`, "did you mean `satin`?"},
	} {
		_, err := vary(c.change)
		var refused *ChangeError
		if !errors.As(err, &refused) {
			t.Errorf("%s: %v, want a refusal of the change", c.change, err)
			continue
		}
		if !strings.Contains(refused.What, c.what) || !strings.Contains(refused.Hint, c.hint) ||
			refused.Change.String() != c.change {
			t.Errorf("%s: %v\nwant %q and %q", c.change, refused, c.what, c.hint)
		}
	}
}

// Of several keys that a table gets anew and does not take, the first is refused.
func TestVaryRefusesTheFirst(t *testing.T) {
	_, err := vary("satin.nap=none", "satin.lay=askew", "satin.have=nothing")
	var refused *ChangeError
	if !errors.As(err, &refused) || refused.Change.String() != "satin.nap=none" {
		t.Errorf("%v, want the nap refused", err)
	}
}

// A value that is sound in itself and at odds with another is an error of the
// job, at that other's place; so is a job that does not hold as written.
func TestVaryLeavesTheRestToTheJob(t *testing.T) {
	_, err := vary("satin.width=1")
	var bad strict.Errors
	if !errors.As(err, &bad) || bad[0].At != (strict.Position{Line: 9, Column: 12}) ||
		!strings.Contains(bad[0].What, "two selvedges") {
		t.Errorf("a cloth of an inch: %v", err)
	}
	if _, err := readAs("x.toml", []byte("unit = 3"), []Change{{"gap", "1"}}); !errors.As(err, &bad) {
		t.Errorf("a job that does not hold: %v", err)
	}
}

// Every value of every job that comes with the program can be named and set;
// set to what it is, it changes nothing.
func TestVaryReachesEveryValue(t *testing.T) {
	for name, src := range jobs(t) {
		name := filepath.Join("../../../../testdata", name)
		root, bad := fileFormat.Parse(src)
		if bad != nil {
			t.Fatal(bad)
		}
		file, err := Read(name, src)
		if err != nil {
			t.Fatal(err)
		}
		want := file.Job()
		var all []Change
		for _, key := range root.Order {
			if v := root.Fields[key].Value; v.Kind != strict.KindTable && v.Kind != strict.KindList {
				all = append(all, Change{key, v.Typed()})
			}
		}
		for _, l := range jobFile(root).tables() {
			prefix := l.id
			if l.kind != "" {
				prefix = l.kind + "." + l.id
			}
			all = append(all, changesOf(l.node, prefix)...)
		}
		for i, c := range all {
			if strings.HasSuffix(c.Key, ".id") || c.Key == "unit" || i%often.Full(3, 1) > 0 {
				continue
			}
			got, err := file.With([]Change{c})
			if err != nil {
				t.Errorf("%s: %v: %v", name, c, err)
			} else if !reflect.DeepEqual(got, want) {
				t.Errorf("%s: %v changes the job", name, c)
			}
		}
	}
}

func changesOf(n *strict.Value, prefix string) []Change {
	var all []Change
	for _, key := range slices.Sorted(slices.Values(n.Order)) {
		v := n.Fields[key].Value
		if v.Kind == strict.KindTable {
			all = append(all, changesOf(v, prefix+"."+key)...)
			continue
		}
		if v.Kind == strict.KindList {
			continue // its items have places of their own
		}
		all = append(all, Change{prefix + "." + key, v.Typed()})
	}
	return all
}

func TestWrittenTellsWhatStandsInTheFile(t *testing.T) {
	file, err := Read("varied.toml", []byte(varied))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ key, value, takes string }{
		{"satin.width", "58", "length or list of lengths"},
		{"satin.price", "13.50/yd", "amount/yd or amount/m"},
		{"satin.bolt.length", "25 yd", "length"},
		{"side-panel.count", "4", "whole number from 1 to 1000"},
		{"gap", "1/4", "length"},
		{"net.nap", "", "`one-way`, `two-way` or `all-way`"},
		{"net.bolt.length", "", ""},
		{"satin.bolt", "", "table or list of tables"},
		{"stain.width", "", ""},
	} {
		value, takes := file.Written(c.key)
		if value != c.value || takes.String() != c.takes {
			t.Errorf("%s is %q and takes %q, want %q and %q", c.key, value, takes, c.value, c.takes)
		}
	}
}

// A file may be made otherwise as often as one likes: what it says itself stays.
func TestChangesLeaveTheFileAsItIs(t *testing.T) {
	f, err := Read("v.toml", []byte(varied))
	if err != nil {
		t.Fatal(err)
	}
	again := func(changes ...Change) *Job {
		t.Helper()
		j, err := f.With(changes)
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	bolt := func(j *Job) float64 { return j.Cloths[0].Offers[0].Offer.Bolt.Length }
	was := bolt(f.Job())
	if got := bolt(again(Change{"satin.bolt.length", "30 yd"})); got != 30*measure.Yards {
		t.Errorf("the bolt changed is %v mm long", got)
	}
	again(Change{"satin.width", "[45, 46]"}, Change{"body.hip_girth", "40"},
		Change{"side-panel.lining", `{ cloth = "net" }`})
	title := again(Change{"satin.title", "shot"})
	if bolt(f.Job()) != was || bolt(title) != was || len(title.Cloths[0].Widths) != 1 ||
		len(title.Bodies[0].Measures) != 0 || len(title.Parts[0].Layers) != 1 {
		t.Errorf("changes before are still there: %+v", title)
	}
	if !again().Same(f.Job()) || !again(Change{"satin.title", f.Job().Cloths[0].Title}).Same(f.Job()) {
		t.Error("without a change it is another job")
	}
}

// A change that would undo one before it is refused, whatever names their key goes by.
func TestNoChangeUndoesAnother(t *testing.T) {
	for _, tt := range []struct{ first, second, want string }{
		{"satin.width=45in", "cloth.satin.width=60in", "cloth.satin.width=60in: it would undo satin.width=45in"},
		{"satin.width=45in", "SATIN.width=45in", "SATIN.width=45in: it would undo satin.width=45in"},
		{"side-panel.layers=2", "side panel.layers=1", "side panel.layers=1: it would undo side-panel.layers=2"},
		{"satin.gap=1in", "cloth.satin.gap=2in", "cloth.satin.gap=2in: it would undo satin.gap=1in"},
		{"satin.bolt.price=9", "satin.bolt={ length = 3 }", "satin.bolt={ length = 3 }: it would undo satin.bolt.price=9"},
		{"gap=1", " gap =2", " gap =2: it would undo gap=1"},
		{"satin.bolt={ length = 30 }", "satin.bolt.price=9", ""},
		{"satin.bolt.length=30", "satin.bolt.price=9", ""},
		{"satin.width=45in", "cloth.net.width=45in", ""},
	} {
		var changes []Change
		for _, text := range []string{tt.first, tt.second} {
			key, value, _ := strings.Cut(text, "=")
			changes = append(changes, Change{key, value})
		}
		_, err := readAs("v.toml", []byte(varied), changes)
		var refused *ChangeError
		switch {
		case tt.want == "" && err != nil:
			t.Errorf("%s, %s: %v", tt.first, tt.second, err)
		case tt.want != "" && (!errors.As(err, &refused) || refused.Change != changes[1]):
			t.Errorf("%s, %s: %v", tt.first, tt.second, err)
		case tt.want != "":
			if got, _ := refused.Parts(nil); got != tt.want {
				t.Errorf("it says %q, want %q", got, tt.want)
			}
		}
	}
}

// The files that a job refers to are read once, with the job: one that changes, or is
// gone, while rows are made does not tear them apart.
func TestFilesBesideAreReadOnce(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("rates.toml", "[labour]\nhours = 3\nrate = \"20.00/h\"\n")
	write("hook.geojson", `{"type":"Polygon","coordinates":[[[0,0],[100,0],[100,50],[0,50],[0,0]]]}`)
	f, err := Read(filepath.Join(dir, "v.toml"),
		[]byte("rates = \"rates.toml\"\n"+varied+
			"[[part]]\nname = \"hook\"\ndraft = \"outline\"\ncloth = [\"satin\", \"net\"]\nfile = \"hook.geojson\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	hook := func(j *Job, layer int) draft.Result {
		t.Helper()
		made, err := j.Parts[len(j.Parts)-1].Layers[layer].Drafted()
		if err != nil {
			t.Fatal(err)
		}
		return made
	}
	area := hook(f.Job(), 0).Pieces[0].Area()
	write("rates.toml", "[labour]\nhours = 9\n")
	if err := os.Remove(filepath.Join(dir, "hook.geojson")); err != nil {
		t.Fatal(err)
	}
	j, err := f.With([]Change{{"satin.width", "45"}})
	if err != nil {
		t.Fatal(err)
	}
	if j.Labour.Hours != cost.Whole(3) {
		t.Errorf("the rates are read again: %v hours", j.Labour.Hours)
	}
	for layer := range 2 {
		if got := hook(j, layer).Pieces[0].Area(); got != area {
			t.Errorf("layer %d has %v mm2 of %v", layer, got, area)
		}
	}
}

func FuzzVary(f *testing.F) {
	f.Add("satin.width", "45in")
	f.Add("side-panel.cloth", `["net"]`)
	f.Add("satin.bolt.price", "9")
	f.Add("net.bolt", `{ length = 3 }`)
	f.Fuzz(func(t *testing.T, key, value string) {
		j, err := readAs("v.toml", []byte(varied), []Change{{key, value}})
		var refused *ChangeError
		var bad strict.Errors
		if (j == nil) == (err == nil) || err != nil && !errors.As(err, &refused) && !errors.As(err, &bad) {
			t.Fatalf("%v, %v", j, err)
		}
	})
}

// Every key of every draft that counts something takes a number as it is typed,
// whether the job has the key or not: what is refused is the number, not its kind.
func TestVaryCountsInEveryDraft(t *testing.T) {
	counts := 0
	for _, d := range drafts {
		if d.name == outlineFile.name {
			continue // reads a file
		}
		lines := strings.Split(exampleJob(d), "\n")
		for _, key := range slices.Concat(d.keys, partKeys) {
			without := slices.DeleteFunc(slices.Clone(lines), func(line string) bool {
				word, _, _ := strings.Cut(strings.TrimSpace(line), " ")
				return word == key.Name
			})
			_, plain := readAs("gown.toml", []byte(strings.Join(without, "\n")), nil)
			if !key.Kind.Counted() || plain != nil {
				continue // a key that the job needs has its number before
			}
			counts++
			_, err := readAs("gown.toml", []byte(strings.Join(without, "\n")), []Change{{"p." + key.Name, "2"}})
			if err != nil && strings.Contains(err.Error(), "not text") {
				t.Errorf("%s: %v", d.name, err)
			}
		}
	}
	if counts < 20 {
		t.Errorf("only %d keys count something", counts)
	}
}
