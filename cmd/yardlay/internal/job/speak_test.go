package job

import (
	"errors"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// By hand: 149.225 / 25.4 = 5 7/8, 1000 / 25.4 = 39.37, 1001 / 25.4 = 39.41, 0.5 /
// 25.4 = 0.0197.
func TestInchJobsSpeakInches(t *testing.T) {
	text := "a radius of 149.225 mm, ease -25.4 mm, 1000 mm is less than 1001 mm, by 0.5 mm, spans 1e+06 by 3 mm2, at most 60 m"
	want := "a radius of 5 7/8 in, ease -1 in, 39.37 in is less than 39.41 in, by 0.02 in, spans 1e+06 by 3 mm2, at most 60 m"
	for _, unit := range []measure.Unit{measure.Inch, measure.Foot, measure.Yard} {
		j := Job{Unit: unit}
		if got := j.Speak(text); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
		// Whatever is told of a place in the job speaks so, the hint as well.
		if got := j.ErrorAt(strict.Position{Line: 1, Column: 1}, errors.New("none is 50.8 mm long\n  hint: the longest is 25.4 mm")); got.What != "none is 2 in long" || got.Hint != "the longest is 1 in" {
			t.Errorf("%+v", got)
		}
	}
	if got := (&Job{Unit: measure.Centimetre}).Speak(text); got != text {
		t.Errorf("a metric job reads %s", got)
	}
}
