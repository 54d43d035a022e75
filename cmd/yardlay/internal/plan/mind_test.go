package plan

import (
	"slices"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
)

// A skirt of 30 in on a band of 28 leaves 2 in over, whatever cloth each is cut in; a
// flounce from 24 to 120 in over 8 has a hem on a radius of 120 x 8 / 96 = 10 in, on
// which 1 1/4 in is 12.5 % too long and 4 % are 0.4 in, 3/8 on a tape.
func TestWhatToMind(t *testing.T) {
	parse := func(waist, hem string) []string {
		t.Helper()
		j, err := job.Parse("job.toml", []byte(`unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = "`+hem+`"
[[cloth]]
id = "satin"
width = 58
[[cloth]]
id = "brocade"
width = 45
[[part]]
name = "band"
draft = "waistband"
cloth = "brocade"
width = 2
underlap = 1
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
length = 30
waist = `+waist+`
sewn_to = "band"
[[part]]
name = "collar"
draft = "flounce"
cloth = "satin"
top = 24
bottom = 120
depth = 8
`))
		if err != nil {
			t.Fatal(err)
		}
		said, err := mind(j, j.Unit)
		if err != nil {
			t.Fatal(err)
		}
		return said
	}
	want := []string{
		"skirt is sewn to band and does not fit it: 30 in to 28 in, so 2 in is left over on skirt. Change one of them, or ease it in.",
		"collar in satin, hem: 1 1/4 in turned up is 13 % too long at the raw edge, where the curve has a radius of 10 in. Turn up 3/8 in at most, or face it.",
	}
	if got := parse("30", "1 1/4"); !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
	if got := parse("28", "3/8"); len(got) != 0 {
		t.Errorf("what fits: %q", got)
	}
}
