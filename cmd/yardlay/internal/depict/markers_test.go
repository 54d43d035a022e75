package depict

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// grainJob cuts a part of every grain, one that leans, one that is free and one drawn
// on the bias, from one cloth.
func grainJob(cloth string) string {
	src := "unit = \"cm\"\n[allowance]\nseam = 1\nhem = 2\n[[cloth]]\nid = \"crepe\"\nwidth = 140\n" + cloth + "\n"
	for i, grain := range []string{"", `grain = "cross"`, `grain = "bias"`, `grain = "either"`, "tilt = 3"} {
		src += fmt.Sprintf("[[part]]\nname = \"panel %d\"\ndraft = \"rectangle\"\ncloth = \"crepe\"\nlength = "+
			"%d\nwidth = 12\ncount = 2\n%s\n", i, 30+7*i, grain)
	}
	return src + `
[[part]]
name = "edge"
draft = "binding"
cloth = "crepe"
length = 90
width = 1.5
[[part]]
name = "neck"
draft = "ties"
cloth = "crepe"
length = 40
width = 2
count = 2
`
}

// On every marker the arrow of every piece is its line along the warp, but for what it
// may lean, inside the piece; on one-way cloth its head points along the cloth. What
// is cut on the bias or across says so, as pieces do in the sheet of a draft.
func TestArrowsLieAlongTheWarp(t *testing.T) {
	for _, cloth := range []string{
		"nap = \"one-way\"", "nap = \"two-way\"", "nap = \"all-way\"", "nap = \"all-way\"\nboth_faces = true",
		"nap = \"two-way\"\nlay = \"lengthwise-fold\"", "nap = \"all-way\"\nlay = \"crosswise-fold\"",
	} {
		j := testjobs.Read(t, grainJob(cloth))
		r, err := report.Run(context.Background(), j,
			plan.Options{Effort: nest.Trial, Workers: 1, Unit: measure.Centimetre})
		if err != nil {
			t.Fatalf("%s: %v", cloth, err)
		}
		drawn := Marker(r, r.Cloths[0])
		pieces := 0
		for _, s := range drawn.Stretches {
			for _, pl := range s.Pieces {
				pieces++
				checkArrow(t, cloth, pl)
			}
		}
		if pieces == 0 {
			t.Errorf("%s: nothing is drawn", cloth)
		}
		svg, err := drawn.Drawing().SVG()
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{">warp<", "bias, cut at 45 degrees to the warp"} {
			if !strings.Contains(strings.ToLower(strings.Join(strings.Fields(string(svg)), " ")), want) {
				t.Errorf("%s: the drawing does not say %q", cloth, want)
			}
		}
	}
}

func checkArrow(t *testing.T, cloth string, pl sheet.Placed) {
	t.Helper()
	a, b := pl.Outline.Grain[0], pl.Outline.Grain[1]
	angle, lean := math.Atan2(b[1]-a[1], b[0]-a[0])*180/math.Pi, 1e-6
	if strings.HasPrefix(pl.Name, "panel 4") {
		lean = 3 + 1e-6
	}
	if math.Abs(math.Remainder(angle, 180)) > lean || strings.Contains(cloth, "one-way") && math.Abs(angle) > lean {
		t.Errorf("%s: the arrow of %s lies at %v degrees", cloth, pl.Name, angle)
	}
	box := pl.Cut.Bound()
	if !box.Contains(a) || !box.Contains(b) || a == b {
		t.Errorf("%s: the arrow of %s from %v to %v is not in it", cloth, pl.Name, a, b)
	}
	notes := map[string][]string{
		"panel 0": {""}, "panel 1": {sheet.CrossGrain}, "panel 2": {sheet.Bias}, "panel 3": {"",
			sheet.CrossGrain}, "panel 4": {""},
		"edge bi": {sheet.Bias}, "neck ti": {"", sheet.CrossGrain},
	}
	if want := notes[pl.Name[:7]]; !slices.Contains(want, pl.GrainNote) || pl.GrainNote == sheet.CrossGrain &&
		pl.Name == "neck tie" && !strings.Contains(cloth, "all-way") {
		t.Errorf("%s: %s says %q, want one of %q", cloth, pl.Name, pl.GrainNote, want)
	}
}
