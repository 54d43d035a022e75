package report

import (
	"context"
	"math"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// Parts that hang together with nothing need not agree. By hand, on cloth 25 cm wide
// with a repeat of 15 cm: three pieces 8 cm long from the cut end on and three of
// 3 cm behind each of them take 41 cm, of which 45 cm are bought. If all lay on one
// phase, the short ones would come behind the others: 78 cm.
func TestPartsShareTheRepeatOut(t *testing.T) {
	j := testjobs.Read(t, testjobs.Striped(25, 15)+`[[part]]
name = "strip"
draft = "rectangle"
cloth = "stripe"
length = 3
width = 23
count = 3
[[part]]
name = "block"
draft = "rectangle"
cloth = "stripe"
length = 8
width = 13
count = 3
`)
	r, err := Run(context.Background(), j, plan.Options{Effort: nest.Quick, Unit: j.Unit})
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Cloths[0]; math.Abs(c.Used-410) > 0.01 || c.Buy.Bought != 450 {
		t.Errorf("%v mm used, %v mm bought; want 410 and 450", c.Used, c.Buy.Bought)
	}
}
