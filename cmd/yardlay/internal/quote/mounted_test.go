package quote

import (
	"math"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
)

// By hand, a half circle in two gores, waist 70 and length 60 cm: both side seams and half
// the waist, which is sewn to something, 2 x 60 + 35 cm; a lining as much again; what is
// basted round two gores 70 + 4 x 60 cm. The hem of the radius 70/pi + 60 is turned up in
// each cloth but the underlining.
func TestWorkOfMountedLayers(t *testing.T) {
	const seams, basted = 1200.0 + 350, 700.0 + 4*600
	hem := math.Pi * (700/math.Pi + 600)
	for _, c := range []struct {
		layers    string
		seam, hem float64
	}{
		{"", seams, hem},
		{`lining = { cloth = "lawn", shorter = 0 }`, 2 * seams, 2 * hem},
		{`underlining = { cloth = "lawn" }`, seams + basted, hem},
		{`overlay = { cloth = "lawn" }`, seams + basted, 2 * hem},
		{`overlay = { cloth = "lawn", allowance = { hem = 0 } }`, seams + basted, hem},
	} {
		cuts, err := cutsOf(testjobs.Read(t, `unit = "cm"
[allowance]
seam = 1
hem = 1
[[cloth]]
id = "satin"
width = 300
[[cloth]]
id = "lawn"
width = 300
[[part]]
name = "skirt"
draft = "circle-skirt"
circle = "half"
gores = 2
cloth = "satin"
waist = 70
length = 60
`+c.layers+"\n"), 1)
		if err != nil {
			t.Fatal(err)
		}
		if w := workOf(cuts); math.Abs(w.Seam-c.seam) > 2 || math.Abs(w.Hem-c.hem) > 2 {
			t.Errorf("%q: %.1f mm of seam, %.1f of hem; want %.1f and %.1f", c.layers, w.Seam, w.Hem, c.seam, c.hem)
		}
	}
}
