package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// groups are facts as long as those of a print.
var groups = [][]string{{"cut 1 pair, on the bias", "for Maren"},
	{"allowances drawn: seam 5/8 in, waist 5/8 in, hem 2 in", "31 May 2026 · mark a2b3"},
	{"duchess satin, right side up", "Lantern Court gown"}}

// saidIn joins the texts of a group, which may be broken into lines anywhere.
func saidIn(g Group) string {
	var all []string
	for _, w := range words(g) {
		all = append(all, w.Body)
	}
	return strings.Join(all, " ")
}

// However large a piece is, all that it carries stands in it or, where it has no room, in
// the key: whole groups, the weightiest in the piece. On a drawing that is not at full size
// it carries none of it.
func TestEveryPieceCarriesItsFacts(t *testing.T) {
	seen := map[int]bool{}
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(8, 700).Draw(t, "width"), rapid.Float64Range(8, 300).Draw(t, "height")
		k := rapid.SampledFrom([]float64{2.5, 6}).Draw(t, "larger")
		m := sampleMarker()
		m.Pieces = []Placed{{Name: "side panel", Copy: "left", Size: "14 x 3 in", Facts: groups,
			Outline: strip(0, 0, w, h, 3)}}
		full := m.FullSize(0, k, ThemeLines)
		g := full.Drawing.Groups[slices.IndexFunc(full.Drawing.Groups, func(g Group) bool {
			return strings.HasPrefix(g.Title, "side panel")
		})]
		key := ""
		for _, p := range full.Key {
			key += p.Body + "\n"
		}
		in, said := 0, strings.NewReplacer(" · ", " ").Replace(saidIn(g))
		for i, facts := range groups {
			one := strings.NewReplacer(" · ", " ").Replace(strings.Join(facts, " "))
			switch {
			case strings.Contains(said, one):
				if in++; in != i+1 {
					t.Fatalf("group %d stands in the piece, one before it does not: %q", i, said)
				}
			case !strings.Contains(key, facts[0]) || !strings.Contains(key, facts[1]):
				t.Fatalf("%.0f x %.0f: %q is in neither the piece, %q, nor the key\n%s", w, h, facts, said, key)
			}
		}
		seen[in] = true
		if s := struckThrough(Group{Items: slices.DeleteFunc(slices.Clone(g.Items), func(it Item) bool {
			s, is := it.(Shape)
			return is && s.Role == RolePlate
		})}); s != "" && in > 0 {
			t.Fatal(s)
		}
		if small := m.Drawing(); strings.Contains(fmt.Sprint(small.Groups), "allowances") {
			t.Fatal("a small drawing carries facts")
		}
	})
	if often.Enough(1) > 0 && (!seen[0] || !seen[len(groups)]) { // which few draws may miss
		t.Errorf("tried were %v", seen)
	}
}

// What has no room is said once for copies that are alike, and a number's key says all.
func TestWhatHasNoRoomIsSaidOnce(t *testing.T) {
	m := sampleMarker()
	m.Pieces = nil
	for i := range 3 {
		copy := fmt.Sprintf("%d of 3", i+1)
		m.Pieces = append(m.Pieces,
			Placed{Name: "loop", Copy: copy, Size: "1 x 1 in", Facts: groups, Outline: strip(40*float64(i), 0, 12, 12, 3)},
			Placed{Name: "tab", Copy: copy, Size: "3 x 1 in", Facts: groups, Outline: strip(90*float64(i), 50, 80, 22, 3)})
	}
	key := ""
	for _, p := range m.FullSize(0, 2.5, ThemeLines).Key {
		key += p.Body + "\n"
	}
	for _, want := range []string{"loop, 1 x 1 in, cut 1 pair, on the bias, for Maren", ": 1 of 3, 2 of 3, 3 of 3\n",
		"What has no room in its piece\n", "tab: "} {
		if strings.Count(key, want) != 1 {
			t.Errorf("%q stands %d times in\n%s", want, strings.Count(key, want), key)
		}
	}
}

// On a marker at full size a dart has its fold line, mirrored with its piece.
func TestMarkersAtFullSizeFoldDarts(t *testing.T) {
	m := sampleMarker()
	o := strip(0, 0, 400, 300, 15)
	o.Inside, o.Darts = []orb.LineString{{{0, 100}, {50, 100}}, {{385, 130}, {200, 150}, {385, 170}}}, []int{1}
	m.Pieces = []Placed{{Name: "back", Size: "1 x 1 in", Outline: o}}
	full := m.FullSize(0, 2.5, ThemeLines)
	var folds []orb.LineString
	for _, g := range full.Drawing.Groups {
		if l := lineOf(g, RoleFold); l != nil {
			folds = append(folds, l)
		}
	}
	if len(folds) != 1 || folds[0][1][0]-folds[0][0][0] != 185 || folds[0][1][1] != folds[0][0][1] {
		t.Errorf("darts are folded on %v", folds)
	}
	for _, g := range m.Drawing().Groups {
		if lineOf(g, RoleFold) != nil {
			t.Error("a small drawing shows where the dart is folded")
		}
	}
}
