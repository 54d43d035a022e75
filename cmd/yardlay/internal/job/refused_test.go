package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// markedAt is where a text has the mark, which is taken out: what is refused stands there.
func markedAt(src string) (without, at string) {
	before, _, _ := strings.Cut(src, "§")
	last := before[strings.LastIndex(before, "\n")+1:]
	return strings.Replace(src, "§", "", 1), fmt.Sprintf("%d:%d", strings.Count(before, "\n")+1, len(last)+1)
}

// skirtJob is half a circle skirt with more keys of the job, of its cloth and of the part, and further tables.
func skirtJob(top, cloth, part, more string) string {
	return "unit = \"cm\"\n" + top + "\n[allowance]\nseam = 1\nhem = 2\n[[cloth]]\nid = \"satin\"\nwidth = 150\n" + cloth +
		"\n[[part]]\nname = \"skirt\"\ndraft = \"circle-skirt\"\nwaist = 70\ncircle = \"half\"\nlength = 60\n" + part +
		"\n" + more
}

// What does not go together, is given twice or lacks a half is refused where it stands, in its own words, with what
// would mend it.
func TestRefusedWhereItStands(t *testing.T) {
	const satin = "cloth = \"satin\""
	notion := func(keys string) string {
		return skirtJob("", "", satin, "[[notion]]\nname = \"extra\"\n"+keys+"\n")
	}
	for _, tt := range []struct{ name, src, what, hint string }{
		{"a cloth named twice", skirtJob("", "", `cloth = ["satin", §"satin"]`, ""), "`cloth` names `satin` twice",
			"a second part can cut the same draft again"},
		{"lace without a width", skirtJob("", "", satin+"\nedgings = [ §{ at = \"hem\" } ]", ""), "lacks `width`",
			"how wide the lace is"},
		{"lace twice", skirtJob("", "", satin+"\nedgings = [ { width = 5 }, §{ at = \"hem\", width = 3 } ]", ""),
			"`edgings` has two at the hem", "one for each edge"},
		{"a facing and a bagged hem",
			skirtJob("", "", satin+"\n§bag_hem = 1\nfacings = [ { at = \"hem\", width = 5 } ]", ""),
			"has both `bag_hem` and a facing at the hem", "give one of them"},
		{"two facings of an edge",
			skirtJob("", "", satin+"\nfacings = [ { at = \"hem\", width = 5 }, §{ at = \"hem\", width = 4 } ]", ""),
			"`facings` has two at the hem", "one facing for each edge"},
		{"a facing of nothing", skirtJob("", "", satin+"\nfacings = [ §{ width = 5 } ]", ""), "lacks `at`",
			"which edge it faces"},
		{"no stand for its facing",
			skirtJob("", "", satin+"\nopening = true\nclosings = [ { by = \"buttons\", §buttonhole = 2 } ]", ""),
			"has `buttonhole` and no `stand`", `stand = "3/4"`},
		{"a break without a price",
			skirtJob("", "price = \"9.00/m\"\nbreaks = [ §{ from = \"10 m\" } ]", satin, ""), "lacks `price`",
			"the price of all of a cut that is at least so long"},
		{"an offer without a price", skirtJob("", "offers = [ §{ supplier = \"mill\" } ]", satin,
			"[[supplier]]\nname = \"mill\"\n"), "lacks `price`", "/yd"},
		{"an offer of nobody", skirtJob("", "offers = [ §{ price = \"9.00/m\" } ]", satin, ""), "lacks `supplier`",
			"the name of a [[supplier]]"},
		{"steps of a table", skirtJob("", "price = \"9.00/m\"\n§sold_by = [1]", satin, ""), "`sold_by`", "1/8 yd"},
		{"no need", notion("price = \"1.00/each\""), "lacks `count`", "what a gown needs"},
		{"no price", notion("count = 3"), "lacks `price`", "each"},
		{"a length by the piece", notion("by = \"tape\"\nprice = §\"1.00/each\""),
			"a notion by tape cannot be bought by the piece", "a price by the yard or metre, or a reel"},
		{"a count by the metre", notion("count = 3\nprice = §\"1.00/m\""), "is bought by the piece or pack",
			`price = "0.35/each"`},
		{"edges in sizes", notion("by = \"edge\"\nedges = [\"hem\"]\n§sizes = [ { length = 20, price = \"1.00\" } ]"),
			"a notion by edge cannot be bought by sizes", "each of which has its length"},
		{"edges of no name", notion("by = §\"edge\"\nprice = \"1.00/m\""), "it lacks `edges`", `edges = ["hem"]`},
		{"seams of no thread", notion("by = §\"seam\"\nprice = \"1.00/m\""), "it lacks `per_metre`", "per_metre = 12"},
		{"two spare of a length", notion("by = \"edge\"\nedges = [\"hem\"]\nprice = \"1.00/m\"\nspare = §2"),
			"the spare of a length is a percentage", `spare = "10 %"`},
		{"a percentage of sizes",
			notion("by = \"opening\"\nsizes = [ { length = 20, price = \"1.00\" } ]\nspare = §\"10 %\""),
			"the spare of a notion sold by size is a number", "spare = 1"},
		{"sizes on the shelf",
			notion("by = \"opening\"\nsizes = [ { length = 20, price = \"1.00\" } ]\nhave = §2"),
			"a notion sold by size has no `have`", "leave out those you have"},
		{"a reel of no length", notion("by = \"seam\"\nper_metre = 3\nreel = §{ price = \"2.40\" }"), "lacks `length`",
			"for example reel = "},
		{"a reel too long", notion("by = \"seam\"\nper_metre = 3\nreel = { length = §\"2000 km\", price = \"2.40\" }"),
			"`length`", ""},
		{"hours without a rate", skirtJob("", "", satin, "[§labour]\nhours = 3\n"), "[labour] lacks `rate`",
			`rate = "24.00/h"`},
		{"fittings without a rate", skirtJob("", "", satin, "[§labour]\nfittings = 3\nfitting_hours = 1\n"),
			"[labour] lacks `rate`", "what an hour of yours costs"},
		{"a godet into itself", skirtJob("", "", satin,
			"[[part]]\nname = \"wedge\"\ndraft = \"godet\"\ncloth = \"satin\"\nlength = 20\nhem = 15\ninto = §\"wedge\"\n"),
			"part `wedge` cannot be set into itself", "name a skirt"},
		{"a godet into nothing", skirtJob("", "", satin,
			"[[part]]\nname = \"wedge\"\ndraft = \"godet\"\ncloth = \"satin\"\nlength = 20\nhem = 15\ninto = §\"skrit\"\n"),
			`there is no part "skrit" to set it into`, "skirt"},
		{"a place that is no length", skirtJob("", "", satin, "[[part]]\nname = \"wedge\"\ndraft = \"godet\"\n"+
			"cloth = \"satin\"\nlength = 20\nhem = 15\npieced = { length = §\"choosen\" }\n"),
			`cannot be "choosen"`, `a length as "40", or "chosen"`},
		{"a width that is none", skirtJob("", "", satin, "[[part]]\nname = \"wedge\"\ndraft = \"godet\"\n"+
			"cloth = \"satin\"\nlength = 20\nhem = 15\npieced = { within = §\"wide\" }\n"),
			"`within` cannot be \"wide\"", `a length as "54", or "chosen"`},
	} {
		src, at := markedAt(tt.src)
		if src == tt.src { // what lacks is told of the table as a whole
			at = fmt.Sprintf("%d:3", strings.Count(src[:strings.Index(src, "[[notion]]")], "\n")+1)
		}
		t.Run(tt.name, func(t *testing.T) { wantError(t, src, at, tt.what, tt.hint) })
	}
}

// What is no job at all is refused before it is read: a text too long, and the book of a workroom.
func TestNoJobs(t *testing.T) {
	for _, tt := range []struct{ name, src, what, hint string }{
		{"gown.toml", strings.Repeat("#", MaxFile+1), fmt.Sprintf("the file is over %d bytes long, the most a job takes",
			MaxFile), "a job is a few hundred lines of text"},
		{"room/" + WorkroomFile, "unit = \"cm\"\n", "this is the book of a workroom, not a job",
			"name one of the jobs beside it; `yardlay workroom` lists what is in it"},
	} {
		_, err := Read(tt.name, []byte(tt.src))
		var all strict.Errors
		if !errors.As(err, &all) || len(all) != 1 || all[0].What != tt.what || all[0].Hint != tt.hint || all[0].At.Line != 1 {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	if f, err := Read("gown.toml", []byte(skirtJob("", "", "cloth = \"satin\"", strings.Repeat("#", 100)))); err != nil ||
		f.Name() != "gown.toml" || f.Job() == nil {
		t.Error(err)
	}
}

// The keys that a change can give another value are those that the file has, then those that it may have: values of
// their own, no lists or tables, and nothing that others call a table by. A change of each that is there to what it
// was changes nothing.
func TestKeysThatCanVary(t *testing.T) {
	src := skirtJob("", "price = \"9.00/m\"", "cloth = \"satin\"", "")
	f, err := Read("gown.toml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	all := f.Variable()
	for _, name := range []string{"satin.width", "satin.price", "skirt.length", "skirt.circle", "allowance.hem"} {
		if i := slices.Index(all, name); i < 0 || i > slices.Index(all, "satin.nap") {
			t.Errorf("%s stands at %d, behind keys that the file lacks", name, i)
		}
	}
	for _, name := range all {
		if key := name[strings.LastIndex(name, ".")+1:]; slices.Contains([]string{"id", "name", "title", "have", "flaws",
			"closings", "offers"}, key) {
			t.Errorf("%s can vary", name)
		}
	}
	if sorted := slices.Compact(slices.Sorted(slices.Values(all))); len(sorted) != len(all) {
		t.Errorf("%d keys, %d of them different", len(all), len(sorted))
	}
	same, err := f.With([]Change{{"satin.width", "150"}, {"skirt.length", "60"}, {"satin.price", "9.00/m"}})
	if err != nil || same.Cloths[0].Width != f.Job().Cloths[0].Width ||
		same.Cloths[0].Offer.Price != f.Job().Cloths[0].Offer.Price {
		t.Errorf("%v", err)
	}
}

// Changes of a workroom go where its book has the table; what it has not is refused by its name.
func TestSpotsOfAWorkroom(t *testing.T) {
	src := []byte("unit = \"in\"\n[[cloth]]\nid = \"net\"\nwidth = 60\n[[cloth]]\nid = \"satin\"\nwidth = 45\n" +
		"[[person]]\nname = \"mara\"\n")
	spots, err := RoomSpots(src, []Change{{"satin.width", "44"}, {"net.price", "9.00/yd"}, {"satin.priced", "2026-05-31"}})
	if diff := cmp.Diff([]Spot{{List: "cloth", Item: 1, Keys: []string{"width"}, Text: "44", TOML: true},
		{List: "cloth", Item: 0, Keys: []string{"price"}, Text: "9.00/yd"},
		{List: "cloth", Item: 1, Keys: []string{"priced"}, Text: "2026-05-31", TOML: true}},
		spots); err != nil || diff != "" {
		t.Errorf("%v %s", err, diff)
	}
	for _, c := range []Change{{"velvet.width", "44"}, {"satin", "44"}, {"satin.width", ""}} {
		var bad *ChangeError
		if _, err := RoomSpots(src, []Change{c}); !errors.As(err, &bad) || !strings.Contains(err.Error(), c.Key) {
			t.Errorf("%v: %v", c, err)
		}
	}
	var all strict.Errors
	if _, err := RoomSpots([]byte("unit = "), nil); !errors.As(err, &all) {
		t.Errorf("%v", err)
	}
}

// What the workroom gives is shown with its unit, where the job does not say it itself.
func TestWhatTheRoomGives(t *testing.T) {
	w, err := ReadWorkroom(WorkroomFile, []byte("unit = \"in\"\n[[cloth]]\nid = \"net\"\nwidth = 60\nnap = \"one-way\"\n"+
		"repeat = { along = 4 }\n[[person]]\nname = \"mara\"\n[[person.measured]]\non = 2026-05-01\nwaist_girth = \"27\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if got := w.Names(OfRoomCloth); !slices.Equal(got, []string{"net"}) {
		t.Errorf("%q", got)
	}
	if got := w.Names(OfRoomPerson); !slices.Equal(got, []string{"mara"}) {
		t.Errorf("%q", got)
	}
	root, bad := Tree([]byte("cloth = [ { id = \"a\", from = \"net\" }, { id = \"b\", from = \"net\", width = 50 } ]\n"))
	if bad != nil {
		t.Fatal(bad)
	}
	cloths := root.Fields["cloth"].Value.Items
	key := func(name string, form Form) Key { return Key{Name: name, Kind: Kind{Form: form}} }
	for _, tt := range []struct {
		table *strict.Value
		key   Key
		want  string
	}{
		{cloths[0], key("width", Length), "60 in"}, {cloths[1], key("width", Length), ""},
		{cloths[0], key("nap", Text), "one-way"}, {cloths[0], key("gap", Length), ""},
		{cloths[0], key("repeat", Table), "what is written there"},
	} {
		if got := w.Gives("cloth", tt.table, tt.key); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.key.Name, got, tt.want)
		}
		if got := (*Workroom)(nil).Gives("cloth", tt.table, tt.key); got != "" {
			t.Errorf("without a room: %q", got)
		}
	}
}

// Naps forbid less and less: one-way, two-way, all-way.
func TestFreerNaps(t *testing.T) {
	order := []Nap{OneWay, TwoWay, AllWay}
	for i, a := range order {
		for k, b := range order {
			if got := a.Freer(b); got != (i > k) {
				t.Errorf("%s is freer than %s: %v", a, b, got)
			}
		}
	}
}

// A job shown in another unit is the same job; the shelf has what is not used.
func TestShownAndShelved(t *testing.T) {
	j := &Job{Unit: measure.Inch, Title: "Gown"}
	if shown := j.ShownIn(measure.Metre); shown.Unit != measure.Metre || j.Unit != measure.Inch || shown.Title != "Gown" {
		t.Errorf("%v, %v", shown.Unit, j.Unit)
	}
	w := &Workroom{Leftovers: []Leftover{{Used: "a.toml"}, {Promised: "b.toml"}, {}}}
	w.Leftovers[1].Name, w.Leftovers[2].Name = "promised", "free"
	var names []string
	for _, l := range w.Shelf() {
		names = append(names, l.Name)
	}
	if !slices.Equal(names, []string{"promised", "free"}) || len(w.Leftovers) != 3 || w.Leftovers[0].Used == "" {
		t.Errorf("%q", names)
	}
	for text, want := range map[string]string{strings.Repeat("é", 40): strings.Repeat("é", 40),
		strings.Repeat("é", 41): strings.Repeat("é", 40) + "..."} {
		if got := shortened(text); got != want {
			t.Errorf("%s", got)
		}
	}
}
