package job

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// onCloth is a whole job in inches whose only cloth, 58 in wide, has these keys
// from line 10 on.
func onCloth(keys string) string {
	return strings.Replace(head, "width = 58\n", "width = 58\n"+keys+"\n", 1) +
		"draft = \"rectangle\"\nlength = 3\nwidth = 2\n"
}

// onPart is a whole job whose only part has these keys from line 13 on.
func onPart(keys string) string {
	return head + keys + "\ndraft = \"rectangle\"\nlength = 3\nwidth = 2\n"
}

// readCloth reads the cloth of onCloth(keys).
func readCloth(t *testing.T, keys string) Cloth {
	t.Helper()
	j, err := parse("job.toml", []byte(onCloth(keys)))
	if err != nil {
		t.Fatal(err)
	}
	return j.Cloths[0]
}

// clothSeeds are keys of a cloth for the fuzz test, right and wrong ones.
var clothSeeds = []string{
	`lay = "crosswise-fold"` + "\nupper_turned = true\nends = 1\nskew = \"3/4\"",
	`shrinkage = { warp = "-3 %", weft = "+1/2%", by = "pieces" }` + "\nspare = \"5%\"",
	`shrinkage = { warp = "−3 %", weft = [], by = 1 }`,
	`flaws = [ { from = 1, to = 2 }, { outline = [[1,3],[4,3],[2,3.5],[2,"5"]] } ]`,
	`flaws = [ { outline = [[1,3],[1.00001,3],[1,40],[1,3]] }, { from = 3, to = "0.00001" }, [[1]] ]`,
	`lots = "none"` + "\nbolt = { length = \"3 yd\", price = \"9\", in_stock = 2 }",
	`have = [ { name = "r", length = 40, width = 30, flaws = [{ from = 1, to = 39 }] }, {} ]`,
	"repeat = { along = \"12.6\" }\n[[match]]\nname = \"m\"\ncloth = \"satin\"\npoints = [ { piece = \"p\", edge = " +
		"\"far end\", at = 1 }, { piece = 3, from = \"end\" } ]",
	"[[cloth.flaws]]\nfrom = 1\nto = 2\n[[cloth.have]]\nlength = 3\n[[cloth.have.flaws]]\noutline = " +
		"[[0,0],[1,0],[0,1],[0,0]]",
	"width = [58, \"57 1/2\"]\nwidth.along = 3",
}

// A cloth says nothing of lays, washing and the like until the file does.
func TestClothByDefault(t *testing.T) {
	c := readCloth(t, "")
	want := Cloth{ID: "satin", Title: "satin", Width: 58 * measure.Inches, Widths: []float64{58 * measure.Inches},
		Lots: LotsBought, Nap: OneWay, Lay: Open, At: c.At, Offer: c.Offer}
	if diff := cmp.Diff(want, c); diff != "" {
		t.Error(diff)
	}
	j, err := parse("job.toml", []byte(onPart("")))
	if err != nil {
		t.Fatal(err)
	}
	if p := j.Parts[0]; p.Count != 1 || p.Grain != "" || p.Layers[0].Grain != LengthwiseGrain || p.Tilt != 0 {
		t.Errorf("part is %+v", p)
	}
}

func TestClothKeysAreRead(t *testing.T) {
	c := readCloth(t, `lay = "crosswise-fold"
upper_turned = true
ends = "1 1/2"
skew = "2 cm"
spare = "5 %"
repeat = { along = "12.6", across = "10 cm" }`)
	if c.Lay != CrosswiseFold || !c.TurnUpper || c.Ends != 38.1 || c.Skew != 20 || c.Spare != 0.05 {
		t.Errorf("cloth is %+v", c)
	}
	// 12.6 in is 320.04 mm (1 in = 25.4 mm exactly, the yard and pound agreement of 1959).
	if c.Repeat != (Repeat{Along: 320.04, Across: 100}) {
		t.Errorf("repeat is %+v", c.Repeat)
	}
	j, err := parse("job.toml", []byte(onPart("times = 3\ngrain = \"bias\"\ntilt = \"2 1/2\"")))
	if err != nil {
		t.Fatal(err)
	}
	if p := j.Parts[0]; p.Count != 3 || p.Grain != BiasGrain || p.Tilt != 2.5 {
		t.Errorf("part is %+v", p)
	}
}

// A part's `times` is not the `count` of a draft.
func TestTimesBesideCount(t *testing.T) {
	j, err := parse("job.toml", []byte(onPart("times = 3\ncount = 2")))
	if err != nil {
		t.Fatal(err)
	}
	r := j.Parts[0].Layers[0].Draft.(draft.Rectangle)
	if j.Parts[0].Count != 3 || r.Count != 2 {
		t.Errorf("times %d, count %d", j.Parts[0].Count, r.Count)
	}
}

// Of several widths the smallest counts, and all are kept.
func TestSmallestWidthCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eighths := rapid.SliceOfN(rapid.IntRange(80, 900), 1, 12).Draw(t, "eighths of an inch")
		var texts []string
		least := math.Inf(1)
		for _, n := range eighths {
			texts = append(texts, fmt.Sprintf(`"%d/8"`, n))
			least = min(least, float64(n)*measure.Inches/8)
		}
		src := strings.Replace(onCloth(""), "width = 58\n", "width = ["+strings.Join(texts, ", ")+"]\n", 1)
		j, err := parse("job.toml", []byte(src))
		if err != nil {
			t.Fatal(err)
		}
		if c := j.Cloths[0]; math.Abs(c.Width-least) > 1e-9 || len(c.Widths) != len(eighths) {
			t.Fatalf("widths %v give %v, kept %v", texts, c.Width, c.Widths)
		}
	})
}

func TestClothKeysAreStrict(t *testing.T) {
	wide := func(value string) string { return strings.Replace(onCloth(""), "width = 58", "width = "+value, 1) }
	tests := []struct {
		name, src, at, what, hint string
	}{
		{"unknown lay", onCloth(`lay = "lengthwise"`), "10:7", `"lengthwise"`, "did you mean `lengthwise-fold`"},
		{"a lay of another trade", onCloth(`lay = "spiral"`), "10:7", `"spiral"`,
			"open, lengthwise-fold, crosswise-fold, double-fold"},
		{"upper layer turned on an open lay", onCloth("upper_turned = true"), "10:16",
			"`upper_turned` on a lay that is open", "crosswise-fold"},
		{"upper layer turned on a lengthwise fold", onCloth("lay = \"lengthwise-fold\"\nupper_turned = true"), "11:16",
			"lengthwise-fold", "crosswise-fold"},
		{"upper layer turned by text", onCloth("upper_turned = \"yes\""), "10:16", "true or false", ""},
		{"skew negative", onCloth("skew = -1"), "10:8", "must not be negative", ""},
		{"ends negative", onCloth(`ends = "-1/2"`), "10:8", "must not be negative", ""},
		{"no widths", wide("[]"), "9:1", "lists 0 widths", "57 1/2"},
		{"a width below zero", wide("[58, -1]"), "9:14", "more than zero", ""},
		{"a width that is a truth", wide("[58, true]"), "9:14", "must be a length", ""},
		{"spare without its mark", onCloth("spare = 5"), "10:9", "a bare number", `spare = "5 %"`},
		{"spare below zero", onCloth(`spare = "-5 %"`), "10:9", `cannot be "-5 %"`, "from 0 % to 100 %"},
		{"spare beyond all", onCloth(`spare = "101 %"`), "10:9", `cannot be "101 %"`, "from 0 % to 100 %"},
		{"spare as a share", onCloth(`spare = "0.05"`), "10:9", "cannot read", "its mark"},
		{"spare as a list", onCloth(`spare = ["5 %"]`), "10:1", "must be a percentage, not a list", ""},
		{"no repeat in repeat", onCloth("repeat = {}"), "10:10", "lacks `along`", "motif"},
		{"a negative repeat", onCloth("repeat = { along = -3 }"), "10:20", "must not be negative", ""},
		{"a repeat of another axis", onCloth("repeat = { along = 3, acros = 2 }"), "10:23", "no key `acros`",
			"did you mean `across`"},
		{"a repeat as a length", onCloth("repeat = 3"), "10:10", "must be a table, not a number", "along"},
		{"tilt over 10", onPart("tilt = 11"), "13:8", "cannot be 11", "from 0 to 10"},
		{"tilt below 0", onPart("tilt = -1"), "13:8", "cannot be -1", "from 0 to 10"},
		{"unknown grain", onPart(`grain = "lengthways"`), "13:9", `"lengthways"`, "did you mean `lengthwise`"},
		{"no times", onPart("times = 0"), "13:9", "cannot be 0", "from 1 to 100"},
		{"half a time", onPart("times = 1.5"), "13:9", "whole number", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { wantError(t, tt.src, tt.at, tt.what, tt.hint) })
	}
}

// Strips reach from edge to edge of the cloth as it is when they are sewn: of a
// cloth that loses 5 % of 57 in across, 54.15 in, whether it is washed before
// or its pieces are drawn larger by 1/(1 - 0.05) and laid on all 57 in.
func TestStripsReachOverTheWashedWidth(t *testing.T) {
	for _, by := range []string{"pieces", "prewash"} {
		src := strings.Replace(onCloth("selvedge = \"1/2\"\nshrinkage = { weft = \"-5 %\", by = \""+by+"\" }"),
			"draft = \"rectangle\"\nlength = 3\nwidth = 2", "draft = \"strip\"\nlength = 200\ndepth = 5", 1)
		j, err := parse("job.toml", []byte(src))
		if err != nil {
			t.Fatal(err)
		}
		s := j.Parts[0].Layers[0].Draft.(draft.Strip)
		if got, want := s.ClothWidth, 54.15*measure.Inches; got > want || got < want-0.01 {
			t.Errorf("by %s: strips reach over %v mm, want %v", by, got, want)
		}
		if got, want := j.Cloths[0].Usable(), 57*measure.Inches; math.Abs(got-want) > 1e-9 {
			t.Errorf("by %s: usable width as bought is %v mm, want %v", by, got, want)
		}
	}
}

// The demos of folds and of a check say what their comments say.
func TestDemosOfLaysAreReadExactly(t *testing.T) {
	all := jobs(t)
	train, err := parse("velvet-train.toml", all["velvet-train.toml"])
	if err != nil {
		t.Fatal(err)
	}
	velvet, lining := train.Cloths[0], train.Cloths[1]
	if velvet.Lay != LengthwiseFold || velvet.Nap != OneWay || len(velvet.Have) != 1 || len(velvet.Have[0].Flaws) != 1 {
		t.Errorf("velvet is %+v", velvet)
	}
	if lining.Lay != Open || len(lining.Flaws) != 1 || lining.Shrinkage != (Shrinkage{-0.04, -0.025, true}) ||
		lining.Skew != 38.1 {
		t.Errorf("lining is %+v", lining)
	}
	cape, err := parse("plaid-cape.toml", all["plaid-cape.toml"])
	if err != nil {
		t.Fatal(err)
	}
	check, plain := cape.Cloths[0], cape.Cloths[1]
	if check.Repeat != (Repeat{Along: 114.3, Across: 95.25}) || plain.Width != 54*measure.Inches ||
		len(plain.Widths) != 3 {
		t.Errorf("check is %+v, lining %+v", check, plain)
	}
	// Both seams are measured from the neck: the one runs towards it, the other away.
	made, err := cape.Parts[0].Layers[0].Drafted()
	if err != nil {
		t.Fatal(err)
	}
	points := cape.Matches[0].Points
	for i, p := range made.Pieces {
		e, ok := p.Edge(points[i].Edge)
		if !ok || p.Name != points[i].Piece {
			t.Fatalf("%s has no edge %s, or is not %s", p.Name, points[i].Edge, points[i].Piece)
		}
		if atNeck := e.Line[0][0] < e.Line[len(e.Line)-1][0]; atNeck == points[i].FromEnd {
			t.Errorf("%s is not measured from the neck", p.Name)
		}
	}
}
