package job_test

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// girth is one that goes round a body, as sewn from the pieces, and what it is meant to be, mm.
type girth struct {
	name string
	side func(draft.Result) (shapes.JoinSide, error)
	want func(b someone, src string) float64
}

// number reads a key of a job, otherwise where it is not there.
func number(src, key string, otherwise float64) float64 {
	m := regexp.MustCompile(`(?m)^` + key + ` = (-?[0-9.]+)$`).FindStringSubmatch(src)
	if m == nil {
		return otherwise
	}
	v, _ := strconv.ParseFloat(m[1], 64)
	return v
}

// told is a measure as it stands in the job, to the millimetre.
func told(name string) func(someone, string) float64 {
	return func(b someone, _ string) float64 { return math.Round(b.measures[name]) }
}

// eased adds ease to a measure.
func eased(name string, by float64) func(someone, string) float64 {
	return func(b someone, src string) float64 { return told(name)(b, src) + by }
}

// capOf is the cap of a sleeve, whose ease, gathers or pleats are worked in.
func capOf(d draft.Result) (shapes.JoinSide, error) { return d.Cap, nil }

// armholes are both, as the job gives them.
func armholes(_ someone, src string) float64 {
	return number(src, "front_armhole", 0) + number(src, "back_armhole", 0)
}

// girths are those of the families that go round a body: an inch of ease is usual at the waist of a
// block, what strapless bodices have is asked for.
var girths = map[string][]girth{
	"circle-skirt": {{"waist", draft.WaistOf, told("waist_girth")}},
	"gored-skirt":  {{"waist", draft.WaistOf, told("waist_girth")}},
	"petal":        {{"waist", draft.WaistOf, told("waist_girth")}},
	"peplum":       {{"waist", draft.WaistOf, told("waist_girth")}},
	"waistband":    {{"waist", draft.WaistOf, told("waist_girth")}},
	"bodice-block": {{"waist", draft.WaistOf, eased("waist_girth", 25.4)},
		{"neck", draft.NeckOf, told("neck_base_girth")}},
	"cape":             {{"neck", draft.NeckOf, told("neck_base_girth")}},
	"collar":           {{"neck", draft.NeckOf, told("neck_base_girth")}},
	"sleeve":           {{"cap", capOf, armholes}},
	"gathered-skirt":   {{"waist", draft.WaistOf, told("waist_girth")}},
	"pleated-skirt":    {{"waist", draft.WaistOf, told("waist_girth")}},
	"strapless-bodice": {{"waist", draft.WaistOf, eased("waist_girth", -10)}},
}

// fits checks the girths of a part straight from its pieces; it returns how many there were.
func fits(t *testing.T, family string, b someone, src string) int {
	t.Helper()
	f, err := job.Read("job.toml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	part := f.Job().Parts[0]
	made, err := part.Layers[0].Drafted()
	if err != nil {
		t.Fatal(err)
	}
	measured := 0
	for _, g := range girths[family] {
		side, err := g.side(made)
		if err != nil || len(side.Edges) == 0 {
			continue // a casing, a neck that runs over sleeves
		}
		_, finished, err := side.Measure(made.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		if want := g.want(b, src); math.Abs(finished+side.Open-want) > 0.5 {
			t.Fatalf("%s: %s of %.2f mm, want %.2f in:\n%s", family, g.name, finished+side.Open, want, src)
		}
		measured++
	}
	return measured
}
