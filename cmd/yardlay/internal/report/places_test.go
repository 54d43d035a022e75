package report

import (
	"errors"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// Where a part is pieced is said in one sentence, and first in the longer words: a sentence that a reader of both finds
// again. A job that says where has nothing to be told.
func TestPlacesInASentence(t *testing.T) {
	src := testjobs.PiecedSkirt(45, "", 4, 26, 120, "")
	across := strings.Replace(src, "pieced = {}", "pieced = { length = \"chosen\", centre_front = true }", 1)
	less := []job.Saved{{Cloth: "wool", Bought: 457.2}}
	for _, c := range []struct {
		src       string
		at        job.Place
		want, too string // in a sentence, and of the longer words
	}{
		{src, job.Place{Tried: 3, Within: 508, Less: less, Seam: 914.4},
			"skirt: pieced within 20 in; that takes 1/2 yd less of wool and 1 yd more of seam than pieced to the width of the " +
				"cloth.", "skirt: pieced within 20 in. That takes 1/2 yd less of wool and 1 yd more of seam than pieced to"},
		{src, job.Place{Tried: 3}, "skirt: pieced to the width of the cloth; of 3 other places none saves.",
			"corners are cut off where the cloth is too narrow, no further in"},
		{src, job.Place{Tried: 3, Within: 508, Refused: errors.New("a godet")},
			"skirt: pieced within 20 in; it cannot be cut when it is pieced to the width of the cloth.",
			"skirt: pieced within 20 in. It cannot be cut when it is pieced to the width of the cloth: a godet."},
		{across, job.Place{Tried: 9, Within: 508, Length: 635, Less: less},
			"skirt: pieced within 20 in and cut across at 25 in; that takes 1/2 yd less of wool than pieced to the " +
				"width of the cloth and not cut across.", "pieced within 20 in and cut across at 25 in. That takes 1/2 yd " +
				"less of wool than"},
		{across, job.Place{Bolts: 914.4},
			"skirt: cut across so that no part is longer than 36 in, which is what the longest bolt holds.",
			"skirt: cut across so that no part is longer than 36 in"},
		{src, job.Place{}, "", ""},
		{src, job.Place{Ended: true}, "skirt: " + endedWords, "skirt: " + endedWords},
	} {
		j := testjobs.Read(t, c.src).PiecedAt("skirt", c.at)
		if got := strings.Join(Places(j, measure.Inch), " "); got != c.want {
			t.Errorf("%+v: %q, want %q", c.at, got, c.want)
		}
		if got := placeWords(j, j.Parts[0], measure.Inch); !strings.Contains(got, c.too) {
			t.Errorf("%+v: %q, want %q", c.at, got, c.too)
		}
	}
}
