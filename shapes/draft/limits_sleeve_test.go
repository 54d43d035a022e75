package draft

import (
	"testing"

	"yardlay/shapes"
)

// How far the measures of sleeves go, and what is said beyond.
func TestLimitsOfSleeves(t *testing.T) {
	as := func(style SleeveStyle) func(func(*Sleeve, float64)) func(float64) Draft {
		return func(change func(*Sleeve, float64)) func(float64) Draft { return of(lanternSleeve(t, style), change) }
	}
	straight, puff, bishop, mutton := as(StraightSleeve), as(PuffSleeve), as(BishopSleeve), as(LegOfMuttonSleeve)
	cuffed := func(change func(*Sleeve, float64)) func(float64) Draft { return of(slitted(t), change) }
	// Armholes of 200 and 200 are eased by 0.12 of 400 at the most, and held in by a quarter of that.
	round := func(change func(*Sleeve, float64)) func(float64) Draft {
		return straight(func(s *Sleeve, mm float64) {
			s.FrontArmhole, s.BackArmhole, s.Bicep = 200, 200, 290
			change(s, mm)
		})
	}
	holds(t, []limit{
		{"ease", round(func(s *Sleeve, mm float64) { s.CapEase = mm }), 48, 48.2,
			"sleeve: cap ease of 48.2 mm is not between -12.0 mm and 48.0 mm for an armhole of 400.0 mm\n  hint: " +
				"more is gathered or pleated: a puff, a leg-of-mutton"},
		{"ease held in", round(func(s *Sleeve, mm float64) { s.CapEase = mm }), -12, -12.2,
			"sleeve: cap ease of -12.2 mm is not between -12.0 mm and 48.0 mm for an armhole of 400.0 mm\n  hint: " +
				"more is gathered or pleated: a puff, a leg-of-mutton"},
		{"a larger front", round(func(s *Sleeve, mm float64) { s.FrontArmhole, s.BackArmhole = mm, 400-mm }), 266, 267,
			"sleeve: front and back armhole of 267.0 mm and 133.0 mm differ too much for one cap"},
		{"a larger back", round(func(s *Sleeve, mm float64) { s.FrontArmhole, s.BackArmhole = 400-mm, mm }), 266, 267,
			"sleeve: front and back armhole of 133.0 mm and 267.0 mm differ too much for one cap"},
		{"hem", straight(func(s *Sleeve, mm float64) { s.Hem = mm }), 517.5, 517.6,
			"sleeve: hem of 517.6 mm is more than half as wide again as the bicep of 345.0 mm\n  hint: a bell, or a " +
				"flutter sleeve"},
		{"bell", as(BellSleeve)(func(s *Sleeve, mm float64) { s.BellFrom = mm }), 560, 590,
			"sleeve: bell from 590.0 mm does not start between the crown and the hem at 590.0 mm"},
		{"no bell", as(BellSleeve)(func(s *Sleeve, mm float64) { s.BellFrom = mm }), 300, 0,
			"sleeve: bell from 0.0 mm does not start between the crown and the hem at 590.0 mm"},
		{"puff", puff(func(s *Sleeve, mm float64) { s.Puff = mm }), 0, -1,
			"sleeve: puff is -1 mm, must be 0 or more"},
		{"ease of a puff", puff(func(s *Sleeve, mm float64) { s.CapEase = mm }), 0, -1,
			"sleeve: cap ease of a full cap is -1 mm, must be 0 or more"},
		{"pleats", puff(func(s *Sleeve, n float64) { s.Fullness, s.Pleats, s.Puff = 2.5, int(n), 100 }), 20, 21,
			"sleeve: pleats in each half of the cap: 21, must be from 0 to 20"},
		{"pleats below none", puff(func(s *Sleeve, n float64) { s.Pleats = int(n) }), 0, -1,
			"sleeve: pleats in each half of the cap: -1, must be from 0 to 20"},
		{"fullness", puff(func(s *Sleeve, f float64) { s.Fullness = f }), 1, .99,
			"sleeve: fullness is 0.99, must be from 1 to 100\n  hint: flat length over gathered length: 2 to 3 for a " +
				"ruffle, 3 to 6 for net"},
		{"band", puff(func(s *Sleeve, mm float64) { s.Band = mm }), 5, 4.9,
			"sleeve: band of a finished width of 4.9 mm cannot be turned, must be 5 mm or more"},
		{"band below none", puff(func(s *Sleeve, mm float64) { s.Band = mm }), 0, -1,
			"sleeve: band is -1 mm, must be 0 or more"},
		{"girth of a band", puff(func(s *Sleeve, mm float64) { s.Hem = mm }), 552, 552.1,
			"sleeve: band of 552.1 mm is longer than the lower edge of 552.0 mm gathered into it"},
		{"girth of a cuff", bishop(func(s *Sleeve, mm float64) { s.Hem = mm }), 586.5, 586.6,
			"sleeve: band of 586.6 mm is longer than the lower edge of 586.5 mm gathered into it"},
		{"hem of a leg-of-mutton", mutton(func(s *Sleeve, mm float64) { s.Hem = mm }), 510, 518,
			"sleeve: hem of 518.0 mm is more than half as wide again as the bicep of 345.0 mm\n  hint: a bell, or a " +
				"flutter sleeve"},
		{"hem of a flutter", as(FlutterSleeve)(func(s *Sleeve, mm float64) { s.Hem = mm }), 345, 344.9,
			"sleeve: hem of 344.9 mm is narrower than the bicep of 345.0 mm, which it is fanned out from\n  hint: a " +
				"wider hem, or a straight sleeve"},
		{"underarm of a bell", as(BellSleeve)(func(s *Sleeve, mm float64) { s.Underarm = mm }), 0, 200,
			"sleeve: an underarm seam of 200.0 mm: this style has its length from the crown\n  hint: a length instead"},
		{"underarm of a leg-of-mutton", mutton(func(s *Sleeve, mm float64) { s.Underarm = mm }), 0, 200,
			"sleeve: an underarm seam of 200.0 mm: this style has its length from the crown\n  hint: a length instead"},
		{"underarm of two pieces", as(TwoPieceSleeve)(func(s *Sleeve, mm float64) { s.Underarm = mm }), 0, 200,
			"sleeve: an underarm seam of 200.0 mm: this style has its length from the crown\n  hint: a length instead"},
		{"underarm", straight(func(s *Sleeve, mm float64) { s.Length, s.Underarm = 0, mm }), 57, 52.5,
			"sleeve: an underarm seam of 52.5 mm cannot lean from a bicep of 345.0 mm to a hem of 240.0 mm\n  hint: " +
				"a longer underarm seam, or a hem nearer to the bicep"},
		{"underarm below none", straight(func(s *Sleeve, mm float64) { s.Length, s.Underarm = 0, mm }), 57, -5,
			"sleeve: underarm seam is -5 mm, must be more than 0"},
		{"underarm without a hem", straight(func(s *Sleeve, mm float64) {
			s.Length, s.Underarm, s.Hem = 0, 400, mm
		}), 240, 0,
			"sleeve: hem is 0 mm, must be more than 0"},
		{"slit", cuffed(func(s *Sleeve, mm float64) { s.Slit = mm }), 30, 29.9,
			"sleeve: a slit of 29.9 mm opens no cuff, needs 30 mm\n  hint: 2 to 3 in are usual"},
		{"slit below none", cuffed(func(s *Sleeve, mm float64) { s.Slit = mm }), 0, -1,
			"sleeve: slit is -1 mm, must be 0 or more"},
		{"underlap", cuffed(func(s *Sleeve, mm float64) { s.Underlap = mm }), 12, 11.9,
			"sleeve: an underlap of 11.9 mm is less than the 12 mm of the strip that binds the slit\n  hint: 1 in is " +
				"usual"},
		{"buttons of a cuff", cuffed(func(s *Sleeve, n float64) { s.CuffButtons = int(n) }), 4, 5,
			"sleeve: 5 buttons on a cuff 50.0 mm wide lie 10.0 mm apart, needs 12 mm\n  hint: fewer buttons, or a " +
				"wider cuff"},
		{"one button on a narrow cuff", cuffed(func(s *Sleeve, n float64) { s.Band, s.CuffButtons = 10, int(n) }), 1, 2,
			"sleeve: 2 buttons on a cuff 10.0 mm wide lie 5.0 mm apart, needs 12 mm\n  hint: fewer buttons, or a " +
				"wider cuff"},
		{"a band to slit", cuffed(func(s *Sleeve, mm float64) { s.Band = mm }), 50, 0,
			"sleeve: a slit of 70.0 mm, and no cuff or band below it\n  hint: give the width of the cuff or band, or " +
				"leave out the slit"},
		{"raise", straight(func(s *Sleeve, mm float64) { s.HemRaise = mm }), 300, 590,
			"sleeve: hem raise is 590 mm, must be less than the length of 590 mm\n  hint: by the hem raise a lining " +
				"is shorter than the outer cloth"},
	})
}

// How far those of collars and hoods go.
func TestLimitsOfCollarsAndHoods(t *testing.T) {
	as := func(style CollarStyle) func(func(*Collar, float64)) func(float64) Draft {
		return func(change func(*Collar, float64)) func(float64) Draft { return of(workedCollar(style), change) }
	}
	stand, flat, ruff := as(StandCollar), as(FlatCollar), as(RuffCollar)
	hood := func(change func(*Hood, float64)) func(float64) Draft { return of(workedHood(), change) }
	plain := func(change func(*Hood, float64)) func(float64) Draft {
		return hood(func(h *Hood, mm float64) { h.Dart = 0; change(h, mm) })
	}
	cape := func(change func(*Cape, float64)) func(float64) Draft { return of(fittedCape(), change) }
	holds(t, []limit{
		{"height", stand(func(c *Collar, mm float64) { c.Height = mm }), 30, 0,
			"collar: height is 0 mm, must be more than 0"},
		{"shorter", stand(func(c *Collar, mm float64) { c.Shorter = mm }), 1, .9,
			"collar: the upper edge is shorter by 0.9 mm, at least by 1 mm or not at all"},
		{"half the neck", stand(func(c *Collar, mm float64) { c.Shorter, c.Height = mm, 80 }), 177.8, 178,
			"collar: an upper edge shorter by 178.0 mm leaves less than half of a neck of 355.6 mm"},
		{"half a turn", stand(func(c *Collar, mm float64) { c.Shorter, c.Height = 100, mm }), 31.9, 31,
			"collar: an upper edge shorter by 100.0 mm on a height of 31.0 mm turns by 185 degrees, at most 180\n  " +
				"hint: a higher collar, or less of a difference"},
		{"radius of a stand", stand(func(c *Collar, mm float64) { c.Shorter, c.Neck, c.Height = 1, 400, mm }), 74, 76,
			"collar: the neck edge has a radius of 30400 mm, the most is 30000 mm"},
		{"corners", stand(func(c *Collar, mm float64) { c.Round = mm }), 40, 60,
			"collar: corners of a radius of 60.0 mm have no room on a collar 50.8 mm high and 355.6 mm long\n  hint: " +
				"a smaller radius"},
		{"of a circle", flat(func(c *Collar, f float64) { c.Circle = f }), .2, .19,
			"collar: 0.19 of a circle, must be from 0.2 to 1 for a collar that lies flat"},
		{"of more than a circle", flat(func(c *Collar, f float64) {
			c.Circle, c.Allowance = f, shapes.Allowance{}
		}), 1, 1.01,
			"collar: 1.01 of a circle, must be from 0.2 to 1 for a collar that lies flat"},
		{"drop", flat(func(c *Collar, mm float64) { c.Circle, c.Drop, c.Allowance.Seam = .5, mm, 0 }), 120, 124,
			"collar: a drop of 124 mm is too much for a neck of 355.6 mm: it would be cut on a radius of 7.9 mm\n  " +
				"hint: less drop, or less of a circle"},
		{"a drop on a wide allowance", flat(func(c *Collar, mm float64) {
			c.Circle, c.Drop, c.Allowance.Seam = .5, 60, mm
		}), 74, 76,
			"collar: a drop of 60 mm is too much for a neck of 355.6 mm: it would be cut on a radius of 74.9 mm\n  " +
				"hint: less drop, or less of a circle"},
		{"overlap", flat(func(c *Collar, mm float64) { c.Overlap = mm }), 0, -1,
			"collar: overlap is -1 mm, must be 0 or more"},
		{"ends that come together", flat(func(c *Collar, mm float64) {
			c.Circle, c.Drop, c.Allowance.Seam = 1, 0, mm
		}), 0, 5,
			"collar: cut from 1.00 of a circle, its ends come together: an allowance of 5.0 mm lies over the fold\n  " +
				"hint: less of a circle, or less allowance"},
		{"corners of a ruff", ruff(func(c *Collar, mm float64) { c.Round = mm }), 0, 5,
			"collar: corner radius of 5.0 mm: the ends of a ruff are square"},
		{"band of a ruff", ruff(func(c *Collar, mm float64) { c.Band = mm }), 5, 4.9,
			"collar: band of a finished width of 4.9 mm cannot be turned, must be 5 mm or more"},
		{"no band", ruff(func(c *Collar, mm float64) { c.Band = mm }), 6, 0,
			"collar: band is 0 mm, must be more than 0"},
		{"cloth of a ruff", ruff(func(c *Collar, mm float64) { c.ClothWidth = mm }), 500, 0,
			"collar: cloth width is 0 mm, must be more than 0"},
		{"layers of a ruff", ruff(func(c *Collar, mm float64) { c.Depth = mm }), 76, 77,
			"collar: 25.3 layers lie on each other where it is 355.6 mm round, at most 25\n  hint: shallower pleats, " +
				"or fewer"},
		{"strip", hood(func(h *Hood, mm float64) { h.Strip, h.Dart = mm, 0 }), 100, 480,
			"hood: strip of 480 mm leaves nothing of a neck of 480 mm to the sides"},
		{"round", hood(func(h *Hood, mm float64) { h.Round = mm }), 152.5, 152.6,
			"hood: round of 152.6 mm does not fit a side 260 mm deep and the upper half, 152.5 mm, of its back"},
		{"round of a shallow hood", hood(func(h *Hood, mm float64) { h.Depth = mm }), 140, 130,
			"hood: round of 130 mm does not fit a side 130 mm deep and the upper half, 152.5 mm, of its back"},
		{"drop of a hood", plain(func(h *Hood, mm float64) { h.Drop, h.Round = mm, 90 }), 114, 115,
			"hood: a neck of 240.0 mm a side cannot rise by a drop of 115.0 mm"},
		{"dart", hood(func(h *Hood, mm float64) { h.Dart, h.Drop = mm, 0 }), 60, 240,
			"hood: dart of 240 mm takes more than half of a side's neck of 480.0 mm"},
		{"dart length", hood(func(h *Hood, mm float64) { h.DartLength = mm }), 175, 175.1,
			"hood: dart length of 175.1 mm reaches above half the height of 350 mm"},
		{"no dart length", hood(func(h *Hood, mm float64) { h.DartLength = mm }), 60, 0,
			"hood: dart length is 0 mm, must be more than 0"},
		{"a front set back to the dart", hood(func(h *Hood, mm float64) { h.HemRaise = mm }), 100, 118,
			"hood: a front edge set back by 118 mm leaves nothing of the neck in front of the dart"},
		{"a front set back to the neck's end", plain(func(h *Hood, mm float64) {
			h.Neck, h.Drop, h.Depth, h.HemRaise = 200, 0, 260, mm
		}),
			95, 100, "hood: a front edge set back by 100 mm leaves nothing of the neck"},
		{"neck drop", cape(func(c *Cape, mm float64) { c.Dart, c.NeckDrop = 0, mm }), 110, 200,
			"cape: neck drop of 200 mm is too much for a neck of 420 mm"},
		{"drop of a short cape", cape(func(c *Cape, mm float64) { c.Dart, c.Length = 0, mm }), 61, 60,
			"cape: neck drop of 60 mm leaves nothing of a length of 60 mm at the centre front"},
		{"dart of a cape", cape(func(c *Cape, mm float64) { c.DartLength = mm }), 300, 840,
			"cape: dart length of 840 mm reaches the hem"},
		{"no dart length of a cape", cape(func(c *Cape, mm float64) { c.DartLength = mm }), 100, 0,
			"cape: dart length is 0 mm, must be more than 0"},
		{"shoulder", cape(func(c *Cape, mm float64) { c.Shoulder = mm }), 100, 210,
			"cape: shoulder at 210 mm from the centre back does not lie on half a neck of 210 mm"},
		{"allowance in the neck", cape(func(c *Cape, mm float64) {
			c.Dart, c.NeckDrop, c.Allowance.Seam = 0, 0, mm
		}), 130, 134,
			"cape: the neck is cut on a radius of 133.7 mm, its allowance of 134 mm leaves nothing\n  hint: a " +
				"smaller allowance or less flare"},
	})
}
