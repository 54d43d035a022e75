package job

import (
	"errors"
	"io/fs"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// By hand: 149.225 / 25.4 = 5 7/8, 1000 / 25.4 = 39.37, 1001 / 25.4 = 39.41, 0.5 /
// 25.4 = 0.0197.
func TestErrorsSayLengthsAsTheJobMeasures(t *testing.T) {
	err := say.Errorf("a radius of %v, ease %v, %v is less than %v, by %v, spans 3 mm2: %w", say.MM(149.225),
		say.MM(-25.4),
		say.MM(1000), say.MM(1001), say.MM(0.5), fs.ErrInvalid).Hint("the longest is %.1f", say.MM(25.4))
	at := strict.Position{Line: 2, Column: 5}
	for _, c := range []struct {
		units      []measure.Unit
		what, hint string
	}{
		{[]measure.Unit{measure.Inch, measure.Foot, measure.Yard},
			"a radius of 5 7/8 in, ease -1 in, 39.37 in is less than 39.41 in, " +
				"by 0.02 in, spans 3 mm2: invalid argument", "the longest is 1 in"},
		{[]measure.Unit{measure.Centimetre, measure.Metre},
			"a radius of 14.92 cm, ease -2.54 cm, 100.0 cm is less than 100.1 cm, " +
				"by 0.5 mm, spans 3 mm2: invalid argument", "the longest is 2.54 cm"},
		{[]measure.Unit{measure.Millimetre},
			"a radius of 149.225 mm, ease -25.4 mm, 1000 mm is less than 1001 mm, " +
				"by 0.5 mm, spans 3 mm2: invalid argument", "the longest is 25.4 mm"},
	} {
		for _, unit := range c.units {
			got := (&Job{File: "gown.toml", Unit: unit}).ErrorAt(at, err)
			if got.What != c.what || got.Hint != c.hint || got.Error() != "gown.toml:2:5: "+c.what+"\n  hint: "+c.hint {
				t.Errorf("%v: %v", unit, got)
			}
			if all := (strict.Errors{{What: "another"}, got}); !errors.Is(all, fs.ErrInvalid) {
				t.Errorf("%v has lost its cause", all)
			}
		}
	}
}
