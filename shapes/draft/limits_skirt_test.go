package draft

import (
	"testing"

	"yardlay/shapes"
)

// How far the measures of skirts go, and what is said beyond.
func TestLimitsOfSkirts(t *testing.T) {
	a := shapes.Allowance{Seam: 12, Waist: 12, Hem: 20}
	hoops := func(change func(*HoopPetticoat, float64)) func(float64) Draft { return of(workedHoops(), change) }
	petti := func(change func(*Petticoat, float64)) func(float64) Draft { return of(workedPetticoat(), change) }
	yoke := func(change func(*Petticoat, float64)) func(float64) Draft { return of(shortYoke(), change) }
	gathered := func(change func(*GatheredSkirt, float64)) func(float64) Draft { return of(workedGathered(), change) }
	circle := func(change func(*CircleSkirt, float64)) func(float64) Draft {
		return of(CircleSkirt{Fraction: .5, Gores: 6, Waist: 720, Length: 900, Opening: true, Allowance: a}, change)
	}
	peplum := func(change func(*Peplum, float64)) func(float64) Draft { return of(workedPeplum(), change) }
	holds(t, []limit{
		{"hoops", hoops(func(h *HoopPetticoat, n float64) {
			h.Hoops, h.Channel, h.FirstHoop = int(n), 10, 500
		}), 20, 21,
			"hoop petticoat: hoops: 21, must be from 1 to 20"},
		{"hoops, no first one", hoops(func(h *HoopPetticoat, mm float64) { h.FirstHoop = mm }), 400, 0,
			"hoop petticoat: first hoop is 0 mm, must be more than 0"},
		{"one hoop, no first one", hoops(func(h *HoopPetticoat, mm float64) {
			h.Hoops, h.FirstHoop, h.AboveHem = 1, 0, mm
		}), 30, 1016,
			"hoop petticoat: the lowest hoop at 1016.0 mm above the hem does not lie below the waist, 1016.0 mm " +
				"above it"},
		{"sweep", hoops(func(h *HoopPetticoat, mm float64) { h.Hip, h.Sweep = 0, h.Waist+mm }), 40, .9,
			"hoop petticoat: sweep of 712.1 mm is not wider than the top of 711.2 mm by 1 mm or more\n  hint: a " +
				"wider sweep"},
		{"a sweep over the hip", hoops(func(h *HoopPetticoat, mm float64) { h.Sweep = mm }), 2198, 2196,
			"hoop petticoat: it is 1015.8 mm round at 203.2 mm below the waist and does not clear the hip of 1016.0 " +
				"mm\n  hint: a sweep of 2197.1 mm or more, or a casing"},
		{"a sweep over the high hip", hoops(func(h *HoopPetticoat, mm float64) {
			h.HighHip = HighHip{Girth: 950, Depth: mm}
		}), 102, 100,
			"hoop petticoat: it is 947.1 mm round at 100.0 mm below the waist and does not clear the high hip of " +
				"950.0 mm\n  hint: a sweep of 3076.8 mm or more, or a casing"},
		{"a high hip below the hip", hoops(func(h *HoopPetticoat, mm float64) {
			h.HighHip = HighHip{Girth: 800, Depth: mm}
		}), 203, 203.2,
			"hoop petticoat: the high hip at 203.2 mm below the waist does not lie above the hip at 203.2 mm"},
		{"room above the first hoop", hoops(func(h *HoopPetticoat, mm float64) {
			h.Hip, h.FirstHoop = 0, mm
		}), 26.8, 26.7,
			"hoop petticoat: the first hoop at 26.7 mm below the waist leaves no room above it: it needs 26.8 mm\n  " +
				"hint: a first hoop further down"},
		{"room below a casing", hoops(func(h *HoopPetticoat, mm float64) {
			h.Casing, h.FirstHoop = 30, mm
		}), 55.8, 55.5,
			"hoop petticoat: the first hoop at 55.5 mm below the waist leaves no room above it: it needs 55.7 mm\n  " +
				"hint: a first hoop further down"},
		{"room below the last", hoops(func(h *HoopPetticoat, mm float64) { h.HemRaise = mm }), 17.4, 17.8,
			"hoop petticoat: the lowest channel of 19.05 mm reaches over the hem, 9.3 mm below the hoop\n  hint: " +
				"more above the hem"},
		{"hoops apart", hoops(func(h *HoopPetticoat, mm float64) { h.Hoops, h.FirstHoop = 2, mm }), 954.8, 955,
			"hoop petticoat: hoops lie 38.0 mm apart along the cloth, channels of 19.05 mm need 38.1 mm\n  hint: " +
				"fewer hoops, or the first one higher"},
		{"flounces", hoops(func(h *HoopPetticoat, f float64) { h.FlounceFullness = f }), 1, .99,
			"hoop petticoat: fullness is 0.99, must be from 1 to 100\n  hint: flat length over gathered length: 2 to " +
				"3 for a ruffle, 3 to 6 for net"},
		{"a casing over the hip", hoops(func(h *HoopPetticoat, mm float64) {
			h.Casing, h.Waist = 20, mm
		}), 1016, 1016.1,
			"hoop petticoat: waist of 1016.1 mm is larger than the hip of 1016.0 mm: a top as wide as the hip cannot " +
				"be pulled on\n  hint: take the waist for the hip too"},
		{"yoke", petti(func(p *Petticoat, mm float64) { p.YokeDepth = mm }), 900, 1016,
			"petticoat: yoke depth of 1016 mm leaves nothing for tiers of a length of 1016 mm"},
		{"casing of a yoke", petti(func(p *Petticoat, mm float64) { p.Casing = mm }), 253, 254,
			"petticoat: casing of 254 mm takes the whole yoke of 254 mm"},
		{"waist of a yoke", petti(func(p *Petticoat, mm float64) { p.Waist = mm }), 1066.8, 1067,
			"petticoat: waist of 1067.0 mm is larger than the hip of 1066.8 mm: a yoke that goes over the hip is too " +
				"narrow to pull on\n  hint: take the waist for the hip too"},
		{"high hip of a yoke", petti(func(p *Petticoat, mm float64) {
			p.HighHip = HighHip{Girth: mm, Depth: 90}
		}), 1066.8, 1067,
			"petticoat: a yoke as wide as the hip of 1066.8 mm does not clear the high hip of 1067.0 mm\n  hint: " +
				"take the high hip for the hip"},
		{"tiers", petti(func(p *Petticoat, n float64) { p.Tiers, p.Fullness = int(n), 1.001 }), 2, -1,
			"petticoat: tiers: -1, must be from 1 to 1000"},
		{"depths and tiers", petti(func(p *Petticoat, n float64) {
			p.Tiers, p.Depths = int(n), []float64{400, 362}
		}), 2, 3,
			"petticoat: 2 depths for 3 tiers"},
		{"depths", petti(func(p *Petticoat, mm float64) { p.Tiers, p.Depths = 0, []float64{400, 362 + mm} }), .5, .6,
			"petticoat: yoke and tiers are 1016.6 mm deep, the petticoat 1016.0 mm long"},
		{"a depth", petti(func(p *Petticoat, mm float64) { p.Tiers, p.Depths = 0, []float64{762 - mm, mm} }), 100, 0,
			"petticoat: depth of tier 2 is 0 mm, must be more than 0"},
		{"hip of a fitted yoke", petti(func(p *Petticoat, mm float64) {
			p.Casing, p.Hip, p.YokeDepth = 0, p.Waist+mm, 220
		}), 30, .9,
			"petticoat: hip of 712.1 mm is not wider than the waist of 711.2 mm by 1 mm or more: no fitted yoke\n  " +
				"hint: a casing"},
		{"flare of a fitted yoke", yoke(func(p *Petticoat, mm float64) { p.Hip, p.YokeDepth = p.Waist+mm, 220 }), 6, 4,
			"petticoat: so little flare gives the yoke a radius of 35220 mm, the most is 30000 mm\n  hint: a casing"},
		{"first tier", yoke(func(p *Petticoat, mm float64) {
			p.Depths, p.Tiers = []float64{mm, 720 - mm}, 0
		}), 145, 144.9,
			"petticoat: yoke of 80.0 mm ends above the hip at 200.0 mm: its lower edge, 804.0 mm round, does not " +
				"pass the hip of 960.0 mm, and the opening does not fit into the first tier of 144.9 mm\n  hint: a yoke " +
				"of 200.0 mm, or a first tier of 145.0 mm or more"},
		{"fullness below a yoke", yoke(func(p *Petticoat, f float64) { p.Fullness = f }), 1.2, 1.16,
			"petticoat: first tier below the opening of 932.6 mm does not pass the hip of 960.0 mm: it cannot be put " +
				"on\n  hint: a fullness of 1.20 or more, or a yoke of 200.0 mm"},
		{"an estimated high hip", yoke(func(p *Petticoat, mm float64) {
			p.HighHip = HighHip{Girth: 800, Depth: mm, Estimated: true}
		}), 100, 0,
			"petticoat: high hip's depth is 0 mm, must be more than 0"},
		{"cut width", gathered(func(g *GatheredSkirt, mm float64) { g.CutWidth = mm }), 1117, 1118,
			"gathered skirt: cut width of 1118.0 mm is wider than the cloth, 1117.6 mm"},
		{"seams of a width", gathered(func(g *GatheredSkirt, mm float64) { g.CutWidth = mm }), 65.5, 65.3,
			"gathered skirt: seams of 12.7 mm leave nothing of a width of 65.2988 mm"},
		{"widths and fullness", gathered(func(g *GatheredSkirt, n float64) { g.Widths = n }), 0, 2,
			"gathered skirt: both 2 widths and a fullness of 2.5 are given\n  hint: give one of them"},
		{"widths", gathered(func(g *GatheredSkirt, n float64) {
			g.Waist, g.Hip, g.Fullness, g.Widths = 1200, 0, 0, n
		}), 100, 100.5,
			"gathered skirt: 100.5 widths of cloth, must be above 0 and at most 100"},
		{"a fullness of many widths", gathered(func(g *GatheredSkirt, mm float64) {
			g.Fullness, g.CutWidth = 8, mm
		}), 84, 83,
			"gathered skirt: 8 times a waist of 711.2 mm takes over 100 widths of 83.0 mm"},
		{"a casing that opens", gathered(func(g *GatheredSkirt, mm float64) { g.Casing = mm }), 0, 20,
			"gathered skirt: a casing of 20 mm is drawn up, and there is nothing to open\n  hint: leave out the " +
				"casing or the opening"},
		{"a casing", gathered(func(g *GatheredSkirt, mm float64) { g.Opening, g.Casing = false, mm }), 660, 660.4,
			"gathered skirt: casing of 660.4 mm takes the whole length of 660.4 mm"},
		{"strips left of widths", gathered(func(g *GatheredSkirt, n float64) {
			g.Fullness, g.Widths = 0, n
		}), 3.06, 3.04,
			"gathered skirt: 3.04 widths of 1117.6 mm leave strips cut 22.4 mm wide at the centre back, seams of " +
				"12.7 mm nothing of them\n  hint: 3 widths"},
		{"widths round the waist", gathered(func(g *GatheredSkirt, n float64) {
			g.Hip, g.Fullness, g.Widths = 0, 0, n
		}), .67, .65,
			"gathered skirt: the widths are 701.0 mm flat, less than the waist of 711.2 mm\n  hint: a fullness of " +
				"1.00 or more"},
		{"widths round the hip", gathered(func(g *GatheredSkirt, f float64) { g.Fullness = f }), 1.5, 1.42,
			"gathered skirt: the widths are 1009.9 mm flat and do not clear the hip of 1016.0 mm\n  hint: a fullness " +
				"of 1.43 or more"},
		{"widths round an estimated hip", gathered(func(g *GatheredSkirt, mm float64) {
			g.Fullness, g.HighHip = 1.5, HighHip{Girth: mm, Depth: 90, Estimated: true}
		}), 1066, 1100,
			"gathered skirt: the widths are 1066.8 mm flat, and do not clear the high hip of 1100.0 mm, estimated " +
				"from waist and hip\n  hint: a fullness of 1.55 or more, or measure the high hip"},
		{"a fold with odd gores", circle(func(c *CircleSkirt, n float64) {
			c.FrontOnFold, c.Gores = true, int(n)
		}), 4, 5,
			"circle skirt: a double-width centre front takes the place of two gores, which leaves unequal sides with " +
				"5\n  hint: an even number of gores"},
		{"gores", circle(func(c *CircleSkirt, n float64) { c.Gores = int(n) }), 100, 101,
			"circle skirt: gores: 101, must be from 1 to 100"},
		{"a piece round itself", circle(func(c *CircleSkirt, f float64) { c.Fraction, c.Gores = f, 1 }), .95, .97,
			"circle skirt: a piece of 349.2 degrees wraps round upon itself, allowances included\n  hint: at least 2 " +
				"gores"},
		{"two circles round themselves", circle(func(c *CircleSkirt, n float64) {
			c.Fraction, c.Gores = 2, int(n)
		}), 3, 2,
			"circle skirt: a piece of 360.0 degrees wraps round upon itself, allowances included\n  hint: at least 3 " +
				"gores"},
		{"two circles on a fold", circle(func(c *CircleSkirt, n float64) {
			c.Fraction, c.Gores, c.FrontOnFold = 2, int(n), true
		}), 6, 4,
			"circle skirt: a piece of 360.0 degrees wraps round upon itself, allowances included\n  hint: at least 6 " +
				"gores"},
		{"a slit too short", circle(func(c *CircleSkirt, mm float64) {
			c.Fraction, c.Gores, c.Hip, c.HipDepth, c.Waist, c.Length = 1, 1, 1400, 200, 700, mm
		}), 230, 215,
			"circle skirt: girth at the end of the slit of 1375.4 mm does not pass the hip of 1400.0 mm: it cannot " +
				"be put on\n  hint: a longer skirt, or seams"},
		{"neither hip nor fraction", peplum(func(p *Peplum, mm float64) { p.Hip = mm }), 1000, 0,
			"peplum: neither a fraction of a circle nor a hip to lie over is given\n  hint: give the hip and its " +
				"depth"},
		{"hip of a peplum", peplum(func(p *Peplum, mm float64) { p.Hip = p.Waist + mm }), 10, .9,
			"peplum: hip of 712.1 mm is not wider than the waist of 711.2 mm by 1 mm or more: no sector lies " +
				"smoothly over it\n  hint: give a fraction of a circle"},
		{"flare of a peplum", peplum(func(p *Peplum, mm float64) { p.Hip = p.Waist + mm }), 4.9, 4.7,
			"peplum: so little flare has a hem radius of 30926 mm, the most is 30000 mm"},
	})
}
