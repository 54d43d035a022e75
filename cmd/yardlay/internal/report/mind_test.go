package report

import (
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// A skirt of 30 in on a band of 28 leaves 2 in over, whatever cloth each is cut in; a
// flounce from 24 to 120 in over 8 has a hem on a radius of 120 x 8 / 96 = 10 in, on
// which 1 1/4 in is 12.5 % too long and 4 % are 0.4 in, 3/8 on a tape.
func TestWhatToMind(t *testing.T) {
	parse := func(waist, hem string) []string {
		t.Helper()
		j := testjobs.Read(t, `unit = "in"
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
`)
		said, err := mind(j, j.Unit)
		if err != nil {
			t.Fatal(err)
		}
		return texts(said)
	}
	want := []string{
		"skirt is sewn to band and does not fit it: 30 in to 28 in, so 2 in is left over on skirt. Change one of " +
			"them, or ease it in.",
		"collar in satin, hem: 1 1/4 in turned up is 29 % too long at the raw edge, where the curve has a radius of " +
			"10 in. Turn up 3/8 in at most, or face it.",
	}
	if got := parse("30", "1 1/4"); !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
	if got := parse("28", "3/8"); len(got) != 0 {
		t.Errorf("what fits: %q", got)
	}
}

// A hood is held against the neck it is sewn to, as a skirt is against its band.
func TestHoodsFitTheirNecks(t *testing.T) {
	for neck, want := range map[string][]string{
		"420": nil,
		"450": {"hood is sewn to cape and does not fit it: 45.0 cm to 42.0 cm, so 3.0 cm is left over on hood. " +
			"Change one of them, or ease it in."},
	} {
		j := testjobs.Read(t, `unit = "mm"
[body]
neck_base_girth = 420
[allowance]
seam = 10
hem = 30
[[cloth]]
id = "wool"
width = 1500
[[part]]
name = "cape"
draft = "cape"
cloth = "wool"
circle = "half"
length = 900
dart = 25
dart_length = 110
neck_drop = 50
[[part]]
name = "hood"
draft = "hood"
cloth = "wool"
neck = `+neck+`
height = 350
depth = 260
round = 130
drop = 45
dart = 20
dart_length = 70
sewn_to = "cape"
`)
		told, err := mind(j, measure.Centimetre)
		if err != nil {
			t.Fatal(err)
		}
		said := slices.DeleteFunc(texts(told), func(s string) bool { return !strings.Contains(s, "sewn to") })
		if !slices.Equal(said, want) {
			t.Errorf("%q\nwant %q", said, want)
		}
		spreads, err := plan.Draw(j)
		if err != nil {
			t.Fatal(err)
		}
		list, err := List(j, spreads, j.Unit)
		if err != nil {
			t.Fatal(err)
		}
		if last := list.Seams[len(list.Seams)-1]; last.Name != "neck" || len(last.A.Darts) != 2 ||
			len(last.B.Darts) != 2 {
			t.Errorf("the last seam is %+v", last)
		}
	}
}

// A collar that opens in front on a bodice that opens behind closes a ring that the head has to pass.
func TestCollarsThatOpenApart(t *testing.T) {
	for at, want := range map[string]string{
		"front": "collar opens at the centre front and bodice at the centre back: sewn together they close in a ring " +
			"at the neck, 37.0 cm round. Check that the head of 56.0 cm passes, or open both at one centre.",
		"back": "",
	} {
		j := testjobs.Read(t, `unit = "mm"
[body]
waist_girth = 720
bust_girth = 920
neck_base_girth = 370
head_girth = 560
shoulder_length = 125
back_neck_point_to_waist = 410
armhole_depth = 213
[allowance]
seam = 6
hem = 5
[[cloth]]
id = "wool"
width = 1500
[[part]]
name = "bodice"
draft = "bodice-block"
cloth = "wool"
[[part]]
name = "collar"
draft = "collar"
cloth = "wool"
height = 40
opening = "`+at+`"
sewn_to = "bodice"
`)
		said, err := mind(j, measure.Centimetre)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(texts(said), "\n"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A peplum that is open in front on a bodice that is open behind leaves a ring at the
// waist, 720 mm with 25.4 of ease, that neither bust nor hip passes.
func TestPartsThatOpenApart(t *testing.T) {
	for front, want := range map[string]string{
		"front": "peplum opens at the centre front and bodice at the centre back: sewn together they close in a ring " +
			"at the waist, 74.5 cm round. " +
			"Check that the hip of 96.0 cm passes, or open both at one centre.",
		"back": "",
	} {
		j := testjobs.Read(t, `unit = "mm"
[body]
waist_girth = 720
bust_girth = 920
hip_girth = 960
waist_to_hips = 200
neck_base_girth = 370
shoulder_length = 125
back_neck_point_to_waist = 410
armhole_depth = 213
[allowance]
seam = 10
hem = 5
[[cloth]]
id = "wool"
width = 1500
[[part]]
name = "bodice"
draft = "bodice-block"
cloth = "wool"
[[part]]
name = "peplum"
draft = "peplum"
cloth = "wool"
waist_ease = "1 in"
length = 150
opening = "`+front+`"
sewn_to = "bodice"
`)
		said, err := mind(j, measure.Centimetre)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(texts(said), "\n"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
