package report

import (
	"math"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// two is a job of two bodies, one worn twice, whose aprons are rectangles.
const two = `unit = "cm"
[[body]]
name = "alto"
count = 2
[[body]]
name = "bass"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "lawn"
width = 100
sold_by = "1 cm"
price = "3.00/m"
[[cloth]]
id = "lace"
width = 50
[[part]]
name = "apron"
draft = "rectangle"
cloth = "lawn"
length = 60
width = 50
[[part]]
name = "bib"
draft = "rectangle"
cloth = ["lawn", "lace"]
length = 20
width = 40
bodies = "bass"
`

// By hand: on the lawn the aprons have 3000 cm2 each and the bib 800, so an apron takes
// 3000/9800 of what is bought; of the lace the alto takes none.
func TestWhatEachTakes(t *testing.T) {
	for _, gowns := range []int{1, 2} {
		r := run(t, two, plan.Options{Unit: measure.Centimetre, Gowns: gowns})
		if len(r.Wearers) != 2 {
			t.Fatalf("%d bodies", len(r.Wearers))
		}
		alto, bass := r.Wearers[0], r.Wearers[1]
		lawn := r.Cloths[0].Bought / float64(gowns)
		if got, want := alto.Cloths[0].Bought, lawn*3000/9800; math.Abs(got-want) > 1e-6*want || len(alto.Cloths) != 1 {
			t.Errorf("%d gowns: an alto takes %g of the lawn, want %g; of %d cloths", gowns, got, want, len(alto.Cloths))
		}
		if got, want := 2*alto.Cloths[0].Bought+bass.Cloths[0].Bought, lawn; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d gowns: all take %g of %g bought", gowns, got, want)
		}
		if got := bass.Cloths[1]; got.ID != "lace" || got.Pieces != 1 || math.Abs(got.Area-80000) > 1 ||
			math.Abs(got.Bought-r.Cloths[1].Bought/float64(gowns)) > 1e-6 {
			t.Errorf("%d gowns: the bass takes %+v", gowns, got)
		}
		if words := alto.Words(measure.Centimetre); !strings.HasPrefix(words, "alto, each of 2: lawn ") {
			t.Errorf("in words: %q", words)
		}
	}
	little := Wearer{Body: "alto", Count: 1, Cloths: []WearerCloth{{ID: "lawn", Bought: 43}}}
	if words := little.Words(measure.Inch); words != "alto: lawn 1 3/4 in" {
		t.Errorf("of little: %q", words)
	}
	one := strings.NewReplacer("[[body]]\nname = \"alto\"\ncount = 2\n", "", `bodies = "bass"`, "").Replace(two)
	if r := run(t, one, plan.Options{Unit: measure.Centimetre}); r.Wearers != nil {
		t.Errorf("one body shares with %+v", r.Wearers)
	}
}

// What nobody measured is told for each body and source once, before anything is cut, beside
// the pieces that are drafted by it.
func TestUnmeasuredIsTold(t *testing.T) {
	r := run(t, `unit = "in"
[[body]]
name = "alto"
standard = "US misses 14"
[[body]]
name = "bass"
waist_girth = 34
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "lawn"
width = 60
[[part]]
name = "skirt"
draft = "circle-skirt"
circle = "half"
cloth = "lawn"
length = 20
[[part]]
name = "belt"
draft = "waistband"
cloth = "lawn"
width = 1
`, plan.Options{Unit: measure.Inch})
	want := "alto: not measured, of size US misses 14: `waist_girth` 28 in, `hip_girth` 38 in. Measure before you cut."
	count := 0
	for _, text := range r.Remarks {
		if text == want {
			count++
		}
		if strings.Contains(text, "bass") && strings.Contains(text, "measured") {
			t.Errorf("told of one who was measured: %q", text)
		}
	}
	if count != 1 {
		t.Errorf("told %d times: %q", count, r.Remarks)
	}
}
