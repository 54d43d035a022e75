package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// mountedJob is a half circle of satin with what is told of its further layers.
func mountedJob(layers string) string {
	return `unit = "cm"
[body]
waist_girth = 70
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
width = 300
[[cloth]]
id = "lace"
width = 300
[[cloth]]
id = "organza"
width = 300
[[cloth]]
id = "acetate"
width = 300
[[part]]
name = "skirt"
draft = "circle-skirt"
circle = "half"
gores = 2
cloth = "satin"
length = 60
` + layers
}

func listOf(t *testing.T, src string) CutList {
	t.Helper()
	j := testjobs.Read(t, src)
	spreads, err := plan.Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	list, err := List(j, spreads, measure.Centimetre)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// What is mounted on the outer cloth is basted to it first, round the waist and down both
// sides of the two gores, 70 + 4 x 60 cm, and has no seams of its own; a lining has. An
// underlining is turned up with the outer cloth, the overlay by itself.
func TestMountedIsSewnAsOne(t *testing.T) {
	list := listOf(t, mountedJob(`overlay = { cloth = "lace", allowance = { hem = 1 } }
underlining = { cloth = "organza" }
lining = { cloth = "acetate" }
`))
	var order []string
	for _, s := range list.Seams {
		order = append(order, s.Cloth+" "+s.Name)
		if strings.HasSuffix(s.Name, "basted") && math.Abs(s.A.Finished-700-4*600) > 1 {
			t.Errorf("%s: %g mm are basted", s.Name, s.A.Finished)
		}
	}
	if len(order) < 4 || order[0] != "lace overlay, basted" || order[1] != "organza underlining, basted" {
		t.Errorf("sewn in the order %q", order)
	}
	for _, cloth := range []string{"lace", "organza"} {
		if n := len(slices.DeleteFunc(slices.Clone(list.Seams), func(s Seam) bool { return s.Cloth != cloth })); n != 1 {
			t.Errorf("%d lines of %s", n, cloth)
		}
	}
	hems := map[string]float64{}
	for _, h := range list.Hems {
		hems[h.Cloth] = h.Allowance
	}
	if len(hems) != 3 || hems["satin"] != 20 || hems["lace"] != 10 || hems["acetate"] != 20 {
		t.Errorf("hems turned up: %v", hems)
	}
	cut := map[string]float64{}
	for _, c := range list.Pieces {
		cut[c.Cloth] = c.CutSize.Along
	}
	if cut["organza"] != cut["satin"] || math.Abs(cut["satin"]-cut["lace"]-10) > 1 {
		t.Errorf("cut lengths %v", cut)
	}
}

// A hem is not bagged against what is mounted on its own cloth.
func TestMountedIsNoLining(t *testing.T) {
	src := mountedJob("underlining = { cloth = \"organza\" }\nbag_hem = 0.3\n")
	_, err := job.Read("job.toml", []byte(src))
	if err == nil || !strings.Contains(err.Error(), "sews a hem to that of a lining, and there is none") {
		t.Errorf("refused with %v", err)
	}
	list := listOf(t, mountedJob("underlining = { cloth = \"organza\" }\nlining = { cloth = \"acetate\" }\nbag_hem = "+
		"0.3\n"))
	i := slices.IndexFunc(list.Seams, func(s Seam) bool { return s.Name == "hem" })
	if i < 0 || !strings.Contains(list.Seams[i].B.Edges[0].Edge, "hem") || list.Hems != nil {
		t.Errorf("hems %v, seams %v", list.Hems, list.Seams)
	}
}
