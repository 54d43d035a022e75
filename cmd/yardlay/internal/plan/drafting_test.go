package plan_test

import (
	"testing"
	"time"

	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
)

// wholeGown has a part of nearly every kind, lined, faced and closed, for one wearer.
const wholeGown = `unit = "cm"
[allowance]
seam = 1.5
hem = 3
[body]
waist_girth = 72
bust_girth = 92
hip_girth = 98
neck_base_girth = 37
shoulder_length = 12.5
back_neck_point_to_waist = 41
armhole_depth = 21
waist_to_hips = 20
upper_arm_girth = 28
underbust_girth = 77
over_bust_girth = 87
high_hip_girth = 88
waist_to_over_bust = 22
waist_to_bust = 16
waist_to_underbust = 8
waist_to_high_hip = 10
[[cloth]]
id = "satin"
width = 150
[[cloth]]
id = "lining"
width = 140
[[cloth]]
id = "net"
width = 280
[[cloth]]
id = "fusible"
width = 90
[[part]]
name = "bodice"
draft = "bodice-block"
cloth = "satin"
panels = "shoulder"
neckline = "square"
facings = [ { at = "neck", width = 3, interfacing = "fusible" } ]
closings = [ { by = "buttons", stand = 2, interfacing = "fusible" } ]
lining = { cloth = "lining", ease_pleat = 1 }
[[part]]
name = "sleeve"
draft = "sleeve"
cloth = ["satin", "lining"]
bodice = "bodice"
style = "bishop"
length = 58
hem = 18
fullness = 1.7
band = 5
cuff_slit = 7
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = ["satin", "lining"]
gores = 8
waist_ease = 2
hip_ease = 4
length = 105
hem_sweep = 300
train = 40
sewn_to = "bodice"
facings = [ { at = "hem", width = 6 } ]
closings = [ { by = "zip", length = 22 } ]
[[part]]
name = "corset"
draft = "corset"
cloth = "satin"
panels = 12
reduction = 4
lacing_gap = 5
channel = 1
lining = { cloth = "lining" }
closings = [ { by = "lacing", spacing = 2.5, panel = 10 } ]
[[part]]
name = "petticoat"
draft = "petticoat"
cloth = "lining"
hip_ease = 8
length = 95
yoke = 20
tiers = 3
fullness = 1.6
[[part]]
name = "net"
draft = "net-layers"
cloth = "net"
circle = "full"
skirt_length = 90
first_seam = 40
gap = 4
layers = 6
widths = 4
[[part]]
name = "collar"
draft = "collar"
cloth = "satin"
style = "flat"
height = 8
sewn_to = "bodice"
[[part]]
name = "cape"
draft = "cape"
cloth = ["satin", "lining"]
circle = "half"
length = 60
[[part]]
name = "sash"
draft = "sash"
cloth = "satin"
length = 200
width = 14
`

// draftWholeGown reads the job and draws all its pieces.
func draftWholeGown(t testing.TB) int {
	f, err := job.Read("gown.toml", []byte(wholeGown))
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := plan.Draw(f.Job())
	if err != nil {
		t.Fatal(err)
	}
	pieces := 0
	for _, s := range spreads {
		pieces += len(s.Cuts)
	}
	return pieces
}

// A whole gown is drafted within 50 ms of processor time.
func TestAWholeGownIsDraftedAtOnce(t *testing.T) {
	const limit = 50 * time.Millisecond
	pieces := 0
	took := processor.Least(limit, func() { pieces = draftWholeGown(t) })
	if processor.Exceeds(took, limit) {
		t.Errorf("%d pieces took %v, want %v at most", pieces, took, limit)
	}
	if pieces < 40 {
		t.Errorf("a gown of %d pieces", pieces)
	}
}

func BenchmarkDraftWholeGown(b *testing.B) {
	pieces, began := 0, processor.Time()
	for b.Loop() {
		pieces = draftWholeGown(b)
	}
	b.ReportMetric(float64((processor.Time()-began).Microseconds())/1000/float64(b.N), "processor-ms/op")
	b.ReportMetric(float64(pieces), "pieces")
}
