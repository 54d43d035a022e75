package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb/planar"
)

// slitted is a bishop whose cuff opens.
func slitted(t failer) Sleeve {
	s := lanternSleeve(t, BishopSleeve)
	s.Slit, s.Underlap, s.CuffButtons = 70, 25, 2
	return s
}

// By hand: a cuff of 220 with an underlap of 25 is 245 long, and lapped 220; its slit of 70 stands
// square on the lower edge, a quarter of 586.5 from the back seam; the strip that binds it is twice
// as long. Two buttons on 50 mm lie 25 apart.
func TestCuffThatOpens(t *testing.T) {
	s := slitted(t)
	d, err := s.Draft()
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Pieces) != 3 || len(d.Rings) != 0 {
		t.Fatalf("%d pieces, rings %v", len(d.Pieces), d.Rings)
	}
	cuff, strip := d.Pieces[1], d.Pieces[2]
	along, across := cuff.Finished()
	near(t, "cuff", along, 245, 0.01)
	near(t, "its width", across, 100, 0.01)
	along, _ = strip.Finished()
	near(t, "binding", along, 140, 0.01)
	for _, step := range checkJoins(t, s) {
		near(t, step.Join.Name, step.Difference, 0, 0.1)
	}
	slit := d.Pieces[0].Inside[0]
	near(t, "slit", planar.Distance(slit[0], slit[1]), 70, 1e-6)
	lower, _ := d.Pieces[0].Edge("lower edge")
	at, ok := lower.Along(slit[0])
	if !ok {
		t.Fatal("it does not begin on the lower edge")
	}
	near(t, "from the back seam", lower.Length()-at, 586.5/4, 0.2)
	_, out := lower.At(at)
	way := sub2(slit[0], slit[1])
	near(t, "square", math.Abs(way[0]*out[1]-way[1]*out[0])/70, 0, 1e-6)
	if c := d.Closed[0]; c.Set() != 4 || c.Pitch != 25 || c.At != "cuff" {
		t.Errorf("%+v", c)
	}
	s.Inner = true
	lining, err := s.Draft()
	if err != nil {
		t.Fatal(err)
	}
	if len(lining.Pieces) != 2 || len(lining.Closed) != 0 {
		t.Errorf("a lining of %d pieces, closed by %v", len(lining.Pieces), lining.Closed)
	}
}

func TestSlitRefuses(t *testing.T) {
	with := func(spoil func(*Sleeve)) Sleeve {
		s := slitted(t)
		spoil(&s)
		return s
	}
	refuses(t, []refusal{
		{"no cuff", with(func(s *Sleeve) { s.Band = 0 }), "a slit of 70.0 mm, and no cuff or band below it"},
		{"short", with(func(s *Sleeve) { s.Slit = 10 }), "a slit of 10.0 mm opens no cuff, needs 30 mm"},
		{"long", with(func(s *Sleeve) { s.Slit = 400 }), "more than half of an underarm seam"},
		{"underlap", with(func(s *Sleeve) { s.Underlap = 5 }), "less than the 12 mm of the strip"},
		{"buttons", with(func(s *Sleeve) { s.CuffButtons = 0 }), "must be 1 or more"},
		{"many", with(func(s *Sleeve) { s.CuffButtons = 8 }), "6.2 mm apart, needs 12 mm"},
	})
}
