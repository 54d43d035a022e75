package plan

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// What is its own mirror image still is when it is drawn larger for the wash: folded, two of it are cut at once.
func TestWhatIsAlikeOnBothSidesIsDrawnLargerSo(t *testing.T) {
	const text = `
unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "3/8"
hem = "5/8"
[[cloth]]
id = "lawn"
width = 60
lay = "lengthwise-fold"
shrinkage = { warp = "%+.2f %%", weft = "%+.2f %%", by = "pieces" }
[[part]]
name = "part"
cloth = "lawn"
times = 2
%s
`
	drafts := []string{
		`draft = "godet"
		length = 14
		hem = 6`,
		`draft = "petal"
		petals = 6
		overlap = "1 1/2"
		circle = "half"
		length = 24
		side = 8`,
		`draft = "sash"
		length = 40
		width = 5
		tail_width = 9
		ends = "pointed"
		end = 4`,
		`draft = "rectangle"
		length = "7 1/3"
		width = "5 1/7"`,
	}
	percent := func(r *rapid.T, name string) float64 { return float64(rapid.IntRange(-3000, 1000).Draw(r, name)) / 100 }
	rapid.Check(t, func(r *rapid.T) {
		part := rapid.SampledFrom(drafts).Draw(r, "part")
		job := fmt.Sprintf(text, percent(r, "warp"), percent(r, "weft"), part)
		tasks, err := Tasks(testjobs.Read(t, job), 1)
		if err != nil || len(tasks[0].Stretches) != 1 {
			r.Fatalf("%s: %v", job, err)
		}
	})
}

// A middle that corners lie on is a middle still, and all else is drawn to half a step of where it should lie.
func TestAMiddleIsAMiddleStill(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		step := func(name string) float64 { return float64(rapid.IntRange(1, 1<<20).Draw(r, name)) * plane.Lattice }
		length, wide, point := step("length"), step("half"), step("point")
		pointed := shapes.Piece{Cut: orb.Ring{{0, 0}, {length, 0}, {length + point, wide}, {length, 2 * wide},
			{0, 2 * wide}, {0, 0}}}
		across := rapid.Float64Range(0.9, 1.5).Draw(r, "across")
		got := stretched(pointed, 1, across).Cut
		for i, v := range got {
			if v[1]+got[(4-i+5)%5][1] != got[3][1] { // corner i and its mirror image
				r.Errorf("%v drawn larger by %v: %v", pointed.Cut, across, got)
			}
			if off := v[1] - pointed.Cut[i][1]*across; off > plane.Lattice || off < -plane.Lattice {
				r.Errorf("corner %d of %v lies %v off", i, pointed.Cut, off)
			}
		}
	})
}
