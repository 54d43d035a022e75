package report

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// What was drawn otherwise than asked for is told in the list and in the unit of the
// job; what cannot be put on is refused at its part.
func TestRemarksOfDrafts(t *testing.T) {
	const head = `unit = "mm"
[body]
waist_girth = 700
hip_girth = 960
waist_to_hips = 200
hand_girth = 215
[allowance]
seam = 15
hem = 5
[[cloth]]
id = "satin"
width = 1500
[[part]]
name = "part"
cloth = "satin"
`
	for _, c := range []struct{ keys, remark, refused string }{
		{"draft = \"gored-skirt\"\ngores = 24\nhip_ease = 50\nlength = 1000\nhem_sweep = 4000",
			"part: The flare is not straight from the hip: it bends out below it, from 200.0 mm to 400.0 mm below " +
				"the waist.", ""},
		{"draft = \"petticoat\"\nlength = 800\nyoke = 80\nfullness = 1.75",
			"so the opening runs on 120.0 mm into the first tier", ""},
		{"draft = \"petticoat\"\nlength = 800\nyoke = 80\nfullness = 1.75\ndepths = [100, 620]", "",
			"a first tier of 145.0 mm or more"},
		{"draft = \"circle-skirt\"\nlength = 800\ncircle = \"quarter\"", "",
			"at least 0.296 of a circle, or measure the high hip"},
		{"draft = \"circle-skirt\"\nlength = 800\ncircle = \"quarter\"\nhigh_hip = 850", "", ""},
		{"draft = \"sleeve\"\nfront_armhole = 210\nback_armhole = 220\nupper_arm = 280\nlength = 600\nhem = 200", "",
			"hem of the sleeve of 200.0 mm does not pass the hand of 215.0 mm"},
	} {
		j := testjobs.Read(t, head+c.keys)
		spreads, err := plan.Draw(j)
		if c.refused != "" {
			if err == nil || !strings.Contains(err.Error(), c.refused) ||
				!strings.HasPrefix(err.Error(), "job.toml:14:") {
				t.Errorf("%s: error %v", c.keys, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.keys, err)
			continue
		}
		list, err := List(j, spreads, j.Unit)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(list.Remarks, "\n"); !strings.Contains(got, c.remark) || c.remark == "" && got != "" {
			t.Errorf("%s: remarks %q", c.keys, got)
		}
	}
}
