package draft

import (
	"errors"
	"testing"
)

// A hood and a cape meet at the neck, both as long as they were asked to be once
// their darts are sewn; a skirt and a bodice at the waist.
func TestMeetings(t *testing.T) {
	hood, strip, cape, block := workedHood(), workedHood(), fittedCape(), lanternBlock()
	strip.Strip = 100
	lined := block
	lined.EasePleat = 15
	for _, c := range []struct {
		name, seam string
		a, b       Draft
		finished   [2]float64
	}{
		{"hood to cape", "neck", hood, cape, [2]float64{480, 420}},
		{"hood with a strip to a cape on the fold", "neck", strip,
			func() Cape { c := cape; c.BackSeam, c.BackOnFold = false, true; return c }(), [2]float64{480, 420}},
		{"hood to bodice", "neck", hood, block, [2]float64{480, 370}},
		{"hood to a lining with its pleat", "neck", hood, lined, [2]float64{480, 370}},
		{"peplum to bodice", "waist", Peplum{Waist: 760, Length: 150, Fraction: 0.5}, block, [2]float64{760, 760}},
	} {
		m, err := meetingOf(c.a, c.b)
		if err != nil || m.Name != c.seam {
			t.Errorf("%s: at the %q, %v", c.name, m.Name, err)
			continue
		}
		for i, d := range []Draft{c.a, c.b} {
			if _, got, err := m.Sides[i].Measure(mustDraft(t, d)); err != nil {
				t.Errorf("%s: %v", c.name, err)
			} else {
				near(t, c.name, got, c.finished[i], 0.7)
			}
		}
	}
	if _, err := meetingOf(hood, Peplum{Waist: 760, Length: 150, Fraction: 0.5}); !errors.Is(err, ErrNoMeeting) {
		t.Errorf("a hood and a peplum: %v", err)
	}
}
