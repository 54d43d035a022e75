package draft

import (
	"testing"
)

// limit is a measure that a draft takes as far as the first value, and refuses at the second in so many words.
type limit struct {
	name        string
	of          func(mm float64) Draft
	taken, over float64
	want        string
}

func holds(t *testing.T, limits []limit) {
	t.Helper()
	for _, l := range limits {
		if _, err := l.of(l.taken).Draft(); err != nil {
			t.Errorf("%s of %g: %v", l.name, l.taken, err)
		}
		_, err := l.of(l.over).Draft()
		if err == nil {
			t.Errorf("%s of %g is drafted", l.name, l.over)
		} else if err.Error() != l.want {
			t.Errorf("%s of %g:\n%v\nwant\n%s", l.name, l.over, err, l.want)
		}
	}
}

// of is a worked example changed by one measure.
func of[T Draft](worked T, change func(*T, float64)) func(float64) Draft {
	return func(mm float64) Draft {
		d := worked
		change(&d, mm)
		return d
	}
}

// How far the measures of close-fitting bodies go, and what is said beyond.
func TestLimitsOfPanelledBodies(t *testing.T) {
	corset := func(change func(*Corset, float64)) func(float64) Draft { return of(lanternCorset(), change) }
	bare := lanternCorset()
	bare.MidBones, bare.Channel, bare.Facing = false, 0, 0
	plain := func(change func(*Corset, float64)) func(float64) Draft { return of(bare, change) }
	strapless := func(change func(*StraplessBodice, float64)) func(float64) Draft {
		return of(lanternStrapless(), change)
	}
	holds(t, []limit{
		{"reduction", corset(func(c *Corset, mm float64) { c.Reduction, c.LacingGap, c.Facing = mm, 0, 0 }), 144, 144.5,
			"corset: reduction of 144.5 mm is more than a fifth of the waist of 720.0 mm: it would hurt\n  hint: " +
				"from 50.8 mm to 76.2 mm in a first corset"},
		{"channel", plain(func(c *Corset, mm float64) { c.Channel, c.Panels = mm, 6 }), 25, 25.1,
			"corset: channel width is 25.1 mm, must be at most 25 mm"},
		{"waist tape", corset(func(c *Corset, mm float64) { c.WaistTape = mm }), 60, 60.1,
			"corset: waist tape is 60.1 mm wide, must be at most 60 mm"},
		{"waist tape below nothing", corset(func(c *Corset, mm float64) { c.WaistTape = mm }), 0, -1,
			"corset: waist tape is -1 mm, must be 0 or more"},
		{"ends of bones", corset(func(c *Corset, mm float64) { c.BoneEnds = mm }), 117, 118,
			"corset: bones that end 118.0 mm from both edges leave less than 20 mm of a body 255.0 mm high\n  hint: " +
				"shorter ends, or a body that is cut out less"},
		{"bones of a raised lining", corset(func(c *Corset, mm float64) { c.BoneEnds, c.HemRaise = 100, mm }), 34, 36,
			"corset: bones that end 100.0 mm from both edges leave less than 20 mm of a body 219.0 mm high\n  hint: " +
				"shorter ends, or a body that is cut out less"},
		{"facing", corset(func(c *Corset, mm float64) { c.Facing = mm }), 1, .99,
			"corset: facing is 0.99 mm, must be at least 1 mm, or 0 for none"},
		{"facing, wide", corset(func(c *Corset, mm float64) { c.Facing, c.MidBones, c.Channel = mm, false, 0 }), 52, 53,
			"corset: a facing of 53.0 mm covers the back panel of 58.0 mm at the waist"},
		{"front dip", plain(func(c *Corset, mm float64) { c.FrontDip, c.SideDip = mm, 0 }), 150, 150.1,
			"corset: front dip is 150.1 mm: the top edge would lie below the under-bust, 150.0 mm down"},
		{"side dip", plain(func(c *Corset, mm float64) { c.SideDip, c.BackDip = mm, 0 }), 150, 150.1,
			"corset: side dip is 150.1 mm: the top edge would lie below the under-bust, 150.0 mm down"},
		{"back dip", plain(func(c *Corset, mm float64) { c.BackDip, c.SideDip = mm, 0 }), 150, 150.1,
			"corset: back dip is 150.1 mm: the top edge would lie below the under-bust, 150.0 mm down"},
		{"side rise", plain(func(c *Corset, mm float64) { c.SideRise = mm }), 110, 110.1,
			"corset: side rise is 110.1 mm: the lower edge would lie above the waist, 110.0 mm up"},
		{"back rise", plain(func(c *Corset, mm float64) { c.BackRise = mm }), 110, 110.1,
			"corset: back rise is 110.1 mm: the lower edge would lie above the waist, 110.0 mm up"},
		{"back rise of a raised lining", plain(func(c *Corset, mm float64) {
			c.BackRise, c.HemRaise = 90, mm
		}), 20, 20.1,
			"corset: back rise is 90.0 mm: the lower edge would lie above the waist, 89.9 mm up"},
		{"raise", plain(func(c *Corset, mm float64) {
			c.SideRise, c.BackRise, c.SideDip, c.HemRaise = 0, 0, 0, mm
		}), 190, 196,
			"corset: hem raise is 196.0 mm: the lower edge would lie above the under-bust"},
		{"peak", plain(func(c *Corset, mm float64) { c.Top, c.FrontDip, c.FrontPeak = PointedTop, 0, mm }), 150, 150.1,
			"corset: front peak is 150.1 mm, must be at most 150 mm"},
		{"no peak", plain(func(c *Corset, mm float64) { c.Top, c.FrontDip, c.FrontPeak = PointedTop, 0, mm }), 1, 0,
			"corset: a pointed top has a front peak of 0 mm\n  hint: say how high the point stands"},
		{"a peak that dips", plain(func(c *Corset, mm float64) {
			c.Top, c.FrontDip, c.FrontPeak = PointedTop, mm, 20
		}), 0, 5,
			"corset: a pointed top rises at centre front, and a front dip of 5.0 mm falls there"},
		{"a peak of another style", plain(func(c *Corset, mm float64) { c.FrontPeak = mm }), 0, 5,
			"corset: a front peak of 5.0 mm is that of a pointed top\n  hint: leave it out, or choose that style"},
		{"point", plain(func(c *Corset, mm float64) { c.Lower, c.FrontPoint = PointedLower, mm }), 150, 150.1,
			"corset: front point is 150.1 mm, must be at most 150 mm"},
		{"no point", plain(func(c *Corset, mm float64) { c.Lower, c.SideRise = PointedLower, mm }), 1, 0,
			"corset: a pointed lower edge has a front point and a side rise of 0 mm\n  hint: say how far the point " +
				"lies below the high hip, or the side above it"},
		{"a point of another style", plain(func(c *Corset, mm float64) { c.FrontPoint = mm }), 0, 5,
			"corset: a front point of 5.0 mm is that of a pointed lower edge\n  hint: leave it out, or choose that " +
				"style"},
		{"scoop", plain(func(c *Corset, mm float64) { c.Lower, c.FrontRise = Scooped, mm }), 110, 110.1,
			"corset: front rise is 110.1 mm: the lower edge would lie above the waist, 110.0 mm up"},
		{"no scoop", plain(func(c *Corset, mm float64) { c.Lower, c.FrontRise = Scooped, mm }), 1, 0,
			"corset: a scooped lower edge has a front rise of 0 mm\n  hint: say how far it is cut out"},
		{"a scoop of another style", plain(func(c *Corset, mm float64) { c.FrontRise = mm }), 0, 5,
			"corset: a front rise of 5.0 mm is that of a scooped lower edge\n  hint: leave it out, or choose that " +
				"style"},
		{"no sweetheart", plain(func(c *Corset, mm float64) { c.Top, c.FrontDip = Sweetheart, mm }), 1, 0,
			"corset: a sweetheart top has a front dip of 0 mm\n  hint: say how deep it falls between the lobes"},
		{"a point at the waist", strapless(func(s *StraplessBodice, mm float64) {
			if mm > 0 {
				s.Lower, s.FrontPoint = PointedLower, mm
			}
		}), 0, 30,
			"strapless bodice: a pointed lower edge on a body that ends at the waist\n  hint: let it end at the high " +
				"hip"},
		{"a scoop at the waist", strapless(func(s *StraplessBodice, mm float64) {
			if mm > 0 {
				s.Lower, s.FrontRise = Scooped, mm
			}
		}), 0, 30,
			"strapless bodice: a scooped lower edge on a body that ends at the waist\n  hint: let it end at the high " +
				"hip"},
		{"shares in all", plain(func(c *Corset, mm float64) { c.Shares = []float64{.19, .2, .22, .2, mm} }), .19, .1901,
			"corset: shares sum to 1.0001, must sum to 1"},
		{"one of the shares", plain(func(c *Corset, mm float64) {
			c.Shares = []float64{.3, mm, .2, .15, .35 - mm}
		}), .2, 0,
			"corset: share of the side front panel is 0, must be above 0 and below 1"},
		{"a share of all", plain(func(c *Corset, mm float64) {
			c.Panels, c.Shares = 6, []float64{.27, .43, .3 + mm}
		}), 0, .7,
			"corset: share of the back panel is 1, must be above 0 and below 1"},
		{"the first share", plain(func(c *Corset, mm float64) {
			c.Panels, c.Shares = 6, []float64{mm, .7 - mm, .3}
		}), .44, .46,
			"corset: shares put the bust at 0.46 of the half body, must be below 0.45: in front of the side"},
		{"the first two of six", plain(func(c *Corset, mm float64) {
			c.Panels, c.Shares = 12, []float64{.3, mm, .15, .12, .1, .33 - mm}
		}), .2, .32,
			"corset: shares put the bust at 0.46 of the half body, must be below 0.45: in front of the side"},
		{"ease", strapless(func(s *StraplessBodice, mm float64) { s.Ease = mm }), 86, 87,
			"strapless bodice: ease of 87.0 mm is more than 12 % of the waist of 720.0 mm"},
		{"ease drawn in", strapless(func(s *StraplessBodice, mm float64) { s.Ease = mm }), -93, -94,
			"strapless bodice: ease of -94.0 mm is more than 12 % of the under-bust of 780.0 mm"},
		{"ease pleat", strapless(func(s *StraplessBodice, mm float64) { s.EasePleat = mm }), 60, 60.1,
			"strapless bodice: ease pleat is 60.1 mm deep, must be at most 60 mm"},
		{"ease pleat below nothing", strapless(func(s *StraplessBodice, mm float64) { s.EasePleat = mm }), 0, -1,
			"strapless bodice: ease pleat is -1 mm, must be 0 or more"},
		{"ease pleat beside a facing", strapless(func(s *StraplessBodice, mm float64) {
			s.EasePleat, s.Facing = 10, mm
		}), 0, 20,
			"strapless bodice: an ease pleat 10.0 mm deep at centre back, where a facing of 20.0 mm is grown on\n  " +
				"hint: leave one of them out"},
		{"lacing gap", strapless(func(s *StraplessBodice, mm float64) { s.LacingGap = mm }), 0, 30,
			"strapless bodice: a lacing gap of 30.0 mm is given without lacing"},
		{"bones in the middle", strapless(func(s *StraplessBodice, mm float64) {
			s.MidBones, s.Channel = true, mm
		}), 9, 0,
			"strapless bodice: bones in the middle of the panels need a channel width"},
		{"channels", corset(func(c *Corset, mm float64) { c.Channel = mm }), 14.2, 14.5,
			"corset: boning channels of 14.5 mm take 58.5 mm of the back panel, 58.0 mm wide at the waist\n  hint: " +
				"narrower channels, fewer panels, or none in the middle"},
		{"channels of a front", plain(func(c *Corset, mm float64) {
			c.BackSeam, c.FrontOpening, c.Channel, c.Panels, c.LacingGap = true, true, mm, 12, 0
		}), 6, 12,
			"corset: boning channels of 12.0 mm take 51.0 mm of the centre front panel, 48.4 mm wide at the " +
				"under-bust\n  hint: narrower channels, fewer panels, or none in the middle"},
		{"chord", strapless(func(s *StraplessBodice, mm float64) { s.Chord = mm }), .01, .0009,
			"strapless bodice: chord error is 0.0009 mm, must be at least 0.001 mm"},
	})
}
