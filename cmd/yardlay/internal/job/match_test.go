package job

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
)

// matching is a job with a repeat and a [[match]] of these keys from line 16 on.
func matching(keys string) string {
	return onCloth("repeat = { along = \"12.6\" }") + "[[match]]\n" + keys + "\n"
}

func TestMatchesAreRead(t *testing.T) {
	j, err := parse("job.toml", []byte(matching(`name = "side"
cloth = "satin"
points = [
  { piece = "skirt side gore", edge = "left seam", at = "7", from = "end" },
  { piece = "skirt front gore", edge = "right seam", at = "18 cm" },
]`)))
	if err != nil {
		t.Fatal(err)
	}
	want := []Match{{Name: "side", Cloth: "satin", At: strict.Position{Line: 18, Column: 8}, Points: []MatchPoint{
		{"skirt side gore", "left seam", 177.8, true, strict.Position{Line: 21, Column: 3}},
		{"skirt front gore", "right seam", 180, false, strict.Position{Line: 22, Column: 3}},
	}}}
	if diff := cmp.Diff(want, j.Matches); diff != "" {
		t.Error(diff)
	}
}

func TestMatchesAreStrict(t *testing.T) {
	const a, b = `{ piece = "p", edge = "e", at = 1 }`, `{ piece = "q", edge = "e", at = 1 }`
	both := "points = [" + a + ", " + b + "]"
	tests := []struct {
		name, src, at, what, hint string
	}{
		{"one point", matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a + "]"), "20:1",
			"match `m`: 1 point, a match needs two", "both sides of the seam"},
		{"no point", matching("name = \"m\"\ncloth = \"satin\"\npoints = []"), "20:1", "0 points", "both sides"},
		{"points missing", matching("name = \"m\"\ncloth = \"satin\""), "17:3", "lacks `points`", "piece"},
		{"a point twice", matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a + ", " + a + "]"), "20:48",
			"the same point of `p` twice", "agree as they are"},
		{"no name", matching("cloth = \"satin\"\n" + both), "17:3", "lacks `name`", "side seams"},
		{"no cloth", matching("name = \"m\"\n" + both), "17:3", "lacks `cloth`", "id of the cloth"},
		{"no such cloth", matching("name = \"m\"\ncloth = \"satn\"\n" + both), "19:9", `no cloth "satn"`,
			"did you mean `satin`"},
		{"a plain cloth", onCloth("") + "[[match]]\nname = \"m\"\ncloth = \"satin\"\n" + both, "19:9",
			"has no `repeat`", "repeat = {"},
		{"a repeat of nothing", onCloth("repeat = { along = 0 }") + "[[match]]\nname = \"m\"\ncloth = \"satin\"\n" +
			both, "19:9", "has no `repeat`", ""},
		{"a point without a piece",
			matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a + ", { edge = \"e\", at = 1 }]"), "20:48",
			"a point of match `m` lacks `piece`", "cut list"},
		{"a point without an edge",
			matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a + ", { piece = \"e\", at = 1 }]"), "20:48",
			"lacks `edge`", "left seam"},
		{"a point without a place",
			matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a + ", { piece = \"e\", edge = \"e\" }]"), "20:48",
			"lacks `at`", "how far"},
		{"before the edge", matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a +
			", { piece = \"e\", edge = \"e\", at = -1 }]"), "20:80", "must not be negative", ""},
		{"from the middle", matching("name = \"m\"\ncloth = \"satin\"\npoints = [" + a +
			", { piece = \"e\", edge = \"e\", at = 1, from = \"middle\" }]"), "20:90", `"middle"`, "start, end"},
		{"points that are lists", matching("name = \"m\"\ncloth = \"satin\"\npoints = [[1]]"), "20:1",
			"lists tables, not a list", ""},
		{"two of a name", matching("name = \"m\"\ncloth = \"satin\"\n" + both +
			"\n[[match]]\nname = \"m\"\ncloth = \"satin\"\n" + both), "22:8", "match `m` is already on line 18",
			"name of its own"},
		{"match as a table", onCloth("") + "[match]\nname = \"m\"", "17:2", "[[match]]", "own line"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { wantError(t, tt.src, tt.at, tt.what, tt.hint) })
	}
}
