package plan

import (
	"testing"

	"yardlay/shapes/measure"
)

func TestRestatePutsInchesBesideMillimetres(t *testing.T) {
	text := "waist is cut on a radius of 149.225 mm, ease -25.4 mm, spans 1e+06 by 3 mm2, at most 60 m"
	want := "waist is cut on a radius of 149.225 mm (5 7/8 in), ease -25.4 mm (-1 in), spans 1e+06 by 3 mm2, at most 60 m"
	if got := restate(text, measure.Inch); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := restate(text, measure.Centimetre); got != text {
		t.Errorf("a metric job reads %s", got)
	}
	want = "waist is cut on a radius of 14.9 cm, ease -2.5 cm, spans 1e+06 by 3 mm2, at most 60 m"
	if got := inUnit(text, measure.Metre); got != want {
		t.Errorf("in few words it reads %s", got)
	}
}
