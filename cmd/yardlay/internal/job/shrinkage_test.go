package job

import (
	"fmt"
	"math"
	"testing"
)

// Dimensional change is (after - before)/before, negative for shrinkage (ISO
// 5077): a mark of 500 mm that measures 485 mm after the wash has changed by
// -3.0 %. What is written so is read so, and takes 500 mm to 485 mm.
func TestShrinkageHasTheSignOfISO5077(t *testing.T) {
	const before, after = 500.0, 485.0
	written := fmt.Sprintf("%.1f %%", 100*(after-before)/before)
	if written != "-3.0 %" {
		t.Fatalf("500 to 485 mm is %s", written)
	}
	s := readCloth(t, fmt.Sprintf("shrinkage = { warp = %q, by = \"prewash\" }", written)).Shrinkage
	if got := before * (1 + s.Warp); math.Abs(got-after) > 1e-9 || s.Weft != 0 || !s.Prewash {
		t.Errorf("%s takes 500 mm to %v mm: %+v", written, got, s)
	}
	// A positive change is a growth: 500 mm to 505 mm.
	s = readCloth(t, `shrinkage = { weft = "+1 %", by = "pieces" }`).Shrinkage
	if got := before * (1 + s.Weft); math.Abs(got-505) > 1e-9 || s.Warp != 0 || s.Prewash {
		t.Errorf("+1 %% takes 500 mm to %v mm: %+v", got, s)
	}
}

// Cut size = finished/(1 + change), derived from ISO 5077's definition: 100 is
// cut 103.093, 105.263 and 108.696 for shrinkage of 3, 5 and 8 %.
func TestShrinkageEnlargesByItsInverse(t *testing.T) {
	for written, want := range map[string]float64{"-3 %": 103.093, "-5%": 105.263, "−8 %": 108.696} {
		s := readCloth(t, fmt.Sprintf("shrinkage = { warp = %q, by = \"pieces\" }", written)).Shrinkage
		if got := 100 / (1 + s.Warp); math.Abs(got-want) > 0.0005 {
			t.Errorf("100 at %s is cut %.3f, want %.3f", written, got, want)
		}
	}
}

// Both rows of common cloths are taken: polyester 0, woven cotton and linen 2 to
// 7, rayon 5 to 10 % (Sarkar, onlineclothingstudy.com, 2018).
func TestShrinkageOfCommonClothsIsTaken(t *testing.T) {
	for _, written := range []string{"0 %", "-2 %", "-7 %", "-5 %", "-10 %"} {
		readCloth(t, fmt.Sprintf("shrinkage = { warp = %q, weft = %q, by = \"prewash\" }", written, written))
	}
}

func TestShrinkageIsStrict(t *testing.T) {
	tests := []struct {
		name, value, at, what, hint string
	}{
		{"no sign", `{ warp = "3 %", by = "prewash" }`, "10:22", "`warp`: \"3 %\" has no sign",
			`"-3 %" where the cloth shrinks, "+3 %" where it grows (ISO 5077)`},
		{"a bare number", `{ warp = -3, by = "prewash" }`, "10:22", "bare number", `warp = "-3 %"`},
		{"a bare share", `{ weft = -0.03, by = "prewash" }`, "10:22", "bare number", `weft = "-2 %"`},
		{"text without its mark", `{ warp = "-3", by = "prewash" }`, "10:22", "cannot read", "its mark"},
		{"more than a third", `{ warp = "-31 %", by = "prewash" }`, "10:22", `cannot be "-31 %"`, "from -30 % to 10 %"},
		{"growing too much", `{ warp = "+11 %", by = "prewash" }`, "10:22", `cannot be "+11 %"`, "from -30 % to 10 %"},
		{"neither warp nor weft", `{ by = "prewash" }`, "10:13", "lacks `warp`", "weft"},
		{"nothing done about it", `{ warp = "-3 %" }`, "10:13", "lacks `by`", "never both"},
		{"both done", `{ warp = "-3 %", by = ["pieces", "prewash"] }`, "10:30", "text in quotes, not a list", ""},
		{"by something else", `{ warp = "-3 %", by = "washing" }`, "10:35", `"washing"`, "known here: pieces, prewash"},
		{"across for weft", `{ across = "-3 %", by = "pieces" }`, "10:15", "no key `across`", ""},
		{"one figure", `"-3 %"`, "10:13", "must be a table, not text", "weft"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			wantError(t, onCloth("shrinkage = "+tt.value), tt.at, tt.what, tt.hint)
		})
	}
}
