package draft

import (
	"testing"

	"yardlay/shapes"
)

// How far the measures of pleats, gussets and gores go, and what is said beyond.
func TestLimitsOfPleatsGussetsAndGores(t *testing.T) {
	pleats := func(change func(*PleatedSkirt, float64)) func(float64) Draft { return of(workedPleated(), change) }
	boxes := func(change func(*PleatedSkirt, float64)) func(float64) Draft {
		return pleats(func(p *PleatedSkirt, v float64) { p.Style, p.Pleats = BoxPleats, 10; change(p, v) })
	}
	plain := lanternCorset()
	plain.Channel, plain.MidBones, plain.Panels = 0, false, 8
	gusset := func(change func(*Corset, float64)) func(float64) Draft { return of(plain, change) }
	gores := func(change func(*GoredSkirt, float64)) func(float64) Draft {
		g := fiveGores()
		g.Chord = 0
		return of(g, change)
	}
	holds(t, []limit{
		{"pleats", pleats(func(p *PleatedSkirt, n float64) { p.Pleats = int(n) }), 100, 0,
			"pleated skirt: pleats: 0, must be from 1 to 500"},
		{"many pleats", pleats(func(p *PleatedSkirt, n float64) {
			p.Pleats, p.Waist, p.Hip, p.Fullness = int(n), 4000, 4400, 5
		}), 500, 501,
			"pleated skirt: pleats: 501, must be from 1 to 500"},
		{"faces of pleats", pleats(func(p *PleatedSkirt, n float64) { p.Pleats, p.Fullness = int(n), 4.8 }), 50, 370,
			"pleated skirt: 370 pleats of a girth of 711.2 mm with gaps of 0 mm show 1.9 mm of each, at least 2 mm\n " +
				" hint: fewer pleats, or a smaller gap"},
		{"depth of pleats", pleats(func(p *PleatedSkirt, n float64) { p.Pleats = int(n) }), 338, 350,
			"pleated skirt: pleats are 2.9 mm deep where it is 1016.0 mm round, at least 3 mm\n  hint: deeper " +
				"pleats, or fewer"},
		{"fullness of pleats", pleats(func(p *PleatedSkirt, f float64) { p.Waist, p.Fullness = p.Hip, f }), 7, 7.1,
			"pleated skirt: fullness is 7.1, must be above 1 and at most 7\n  hint: 3 where each pleat reaches the " +
				"next, or give the depth"},
		{"no fullness of pleats", pleats(func(p *PleatedSkirt, f float64) { p.Fullness = f }), 1.2, 1,
			"pleated skirt: fullness is 1, must be above 1 and at most 7\n  hint: 3 where each pleat reaches the " +
				"next, or give the depth"},
		{"layers of pleats", pleats(func(p *PleatedSkirt, f float64) { p.Fullness = f }), 4.8, 5,
			"pleated skirt: 7.1 layers lie on each other where it is 711.2 mm round, at most 7\n  hint: shallower " +
				"pleats, or fewer"},
		{"a repeat on narrow cloth", pleats(func(p *PleatedSkirt, mm float64) { p.ClothWidth = mm }), 177.9, 177.7,
			"pleated skirt: one repeat of the pleats is 152.4 mm wide flat, more than a width of 177.7 mm takes " +
				"between its seams\n  hint: shallower pleats, or more of them"},
		{"a gap between knife pleats", pleats(func(p *PleatedSkirt, mm float64) { p.Gap = mm }), 0, 5,
			"pleated skirt: a gap of 5 mm is left between box pleats, knife pleats have none"},
		{"a gap between boxes", boxes(func(p *PleatedSkirt, mm float64) { p.Gap = mm }), 60, 69.2,
			"pleated skirt: 10 pleats of a girth of 711.2 mm with gaps of 69.2 mm show 1.9 mm of each, at least 2 " +
				"mm\n  hint: fewer pleats, or a smaller gap"},
		{"a hem that opens the seams in boxes", boxes(func(p *PleatedSkirt, mm float64) {
			p.HemSweep = mm
		}), 1900, 2100,
			"pleated skirt: pleats 50.8 mm deep are 23.7 mm deep where it is 2100.0 mm round: the seams in them " +
				"would show\n  hint: deeper pleats, or a smaller hem sweep"},
		{"depth and fullness", pleats(func(p *PleatedSkirt, mm float64) { p.Depth = mm }), 0, 20,
			"pleated skirt: both a depth of 20 mm and a fullness of 3 are given\n  hint: give one of them"},
		{"hem below the hip", pleats(func(p *PleatedSkirt, mm float64) { p.HemRaise = mm }), 450, 457.2,
			"pleated skirt: hip depth of 203.2 mm does not lie above the hem at 203.2 mm"},
		{"sweep of pleats", pleats(func(p *PleatedSkirt, mm float64) { p.HemSweep = mm }), 1016, 1015,
			"pleated skirt: hem sweep of 1015.0 mm is less than the hip of 1016.0 mm: the pleats would cross\n  " +
				"hint: a wider hem sweep, at least as wide as the hip"},
		{"a bust gusset's point", gusset(func(c *Corset, mm float64) { c.BustGusset = mm }), 140, 79.5,
			"corset: bust gusset is 79.5 mm: its point must lie from 80.0 mm to 150.0 mm below the over-bust, " +
				"between bust and under-bust\n  hint: a length between the two"},
		{"a bust gusset below the bust", gusset(func(c *Corset, mm float64) { c.BustGusset = mm }), 150, 150.5,
			"corset: bust gusset is 150.5 mm: its point must lie from 80.0 mm to 150.0 mm below the over-bust, " +
				"between bust and under-bust\n  hint: a length between the two"},
		{"a hip gusset", gusset(func(c *Corset, mm float64) { c.HipGusset = mm }), 80, 80.5,
			"corset: hip gusset is 80.5 mm: its point would lie above the waist, 80.0 mm from the lower edge at the " +
				"side\n  hint: a shorter one"},
		{"a short hip gusset", gusset(func(c *Corset, mm float64) { c.HipGusset, c.GussetShare = mm, .2 }), 40, 39.9,
			"corset: hip gusset is 39.9 mm, must be at least 40 mm\n  hint: a longer one; on a small body leave it " +
				"to the seams"},
		{"a share of gussets", gusset(func(c *Corset, f float64) { c.HipGusset, c.GussetShare = 70, f }), .5, 1.01,
			"corset: gussets take 1.01 of the spring, must be above 0 and at most 1"},
		{"a share of no gusset", gusset(func(c *Corset, f float64) { c.GussetShare = f }), 0, .5,
			"corset: gussets take 0.5 of the spring, and there are none\n  hint: give a bust gusset or a hip gusset, " +
				"or leave the share out"},
		{"a gusset hardly open", gusset(func(c *Corset, f float64) { c.HipGusset, c.GussetShare = 70, f }), .3, .05,
			"corset: a hip gusset would be 5.2 mm wide at the high hip, must be 8 mm or more\n  hint: leave it out: " +
				"the body widens too little from its point"},
		{"hip depth of gores", gores(func(g *GoredSkirt, mm float64) { g.HemRaise = mm }), 700, 838.2,
			"gored skirt: hip depth of 177.8 mm does not lie above the hem at 177.8 mm"},
		{"flare above the hip", gores(func(g *GoredSkirt, mm float64) { g.FlareFrom = mm }), 177.8, 177,
			"gored skirt: flare from 177.0 mm starts above the hip at 177.8 mm"},
		{"flare below the hem", gores(func(g *GoredSkirt, mm float64) { g.FlareFrom = mm }), 900, 1016,
			"gored skirt: flare from 1016.0 mm does not start above the hem at 1016.0 mm"},
		{"sweep of gores", gores(func(g *GoredSkirt, mm float64) { g.FrontHem, g.HemSweep = 0, mm }), 1030, 1015.9,
			"gored skirt: hem sweep of 1015.9 mm is less than the hip of 1016.0 mm: the skirt would bind the legs"},
		{"front hem", gores(func(g *GoredSkirt, mm float64) { g.FrontHem = mm }), 203.3, 203.1,
			"gored skirt: front hem of 203.1 mm is less than the gore's hip of 203.2 mm"},
		{"front hem of all", gores(func(g *GoredSkirt, mm float64) { g.HemSweep, g.FrontHem = 1200, mm }), 380, 390,
			"gored skirt: front hem of 390.0 mm leaves 202.5 mm to each other gore, less than its hip of 203.2 mm"},
		{"front hem of one", gores(func(g *GoredSkirt, mm float64) {
			g.Gores, g.HipDepth, g.FrontHem = 1, 600, mm
		}), 0, 254,
			"gored skirt: front hem of 254.0 mm: with 1 gore there is no hem but the sweep's share"},
		{"a gore too steep", gores(func(g *GoredSkirt, mm float64) { g.HipDepth = mm }), 100, 40,
			"gored skirt: from a waist of 127.0 mm to a hip of 203.2 mm a gore is too steep for a hip depth of 40.0 " +
				"mm\n  hint: more gores"},
	})
}

// How far those of veils, petals, nets, trains and trimmings go.
func TestLimitsOfTrimmings(t *testing.T) {
	veil := func(change func(*Veil, float64)) func(float64) Draft { return of(workedVeil(), change) }
	petals := func(change func(*Petals, float64)) func(float64) Draft { return of(workedPetals(), change) }
	net := func(change func(*NetLayers, float64)) func(float64) Draft { return of(workedNet(), change) }
	train := func(change func(*Train, float64)) func(float64) Draft {
		return of(Train{Skirt: circleSkirt(.5, 700, 900, 8), Behind: 400}, change)
	}
	flounce := func(change func(*Flounce, float64)) func(float64) Draft { return of(workedFlounce(), change) }
	bow := func(change func(*Bow, float64)) func(float64) Draft { return of(workedBow(), change) }
	sash := func(change func(*Sash, float64)) func(float64) Draft { return of(workedSash(), change) }
	a := shapes.Allowance{Seam: 10, Hem: 10}
	loops := func(change func(*Loops, float64)) func(float64) Draft {
		return of(Loops{Count: 12, Length: 50, Width: 5, ClothWidth: 1400, Allowance: a}, change)
	}
	ties := func(change func(*Ties, float64)) func(float64) Draft {
		return of(Ties{Length: 400, Width: 20, Slant: 15, Count: 4, Allowance: a}, change)
	}
	over := func(change func(*Overskirt, float64)) func(float64) Draft { return of(workedOverskirt(), change) }
	scarf := func(change func(*Handkerchief, float64)) func(float64) Draft {
		return of(workedHandkerchief(4), change)
	}
	holds(t, []limit{
		{"blusher", veil(func(v *Veil, mm float64) {
			v.Shape, v.Blusher, v.Round, v.Gathered = OvalVeil, mm, 0, 0
		}), 700, 5000,
			"veil: blusher of 5000.0 mm is longer than the veil of 1066.8 mm behind"},
		{"comb", veil(func(v *Veil, mm float64) { v.Gathered = mm }), 400, 5,
			"veil: 5.0 mm gathered onto a comb of 101.6 mm: nothing is gathered\n  hint: a wider veil, or a narrower " +
				"comb"},
		{"an edge to gather", veil(func(v *Veil, mm float64) { v.Gathered = mm }), 400, 9000,
			"veil: 9000.0 mm are to be gathered of an edge of 1828.8 mm"},
		{"corners of a veil", veil(func(v *Veil, mm float64) {
			v.Shape, v.Blusher, v.Width, v.Round = RectangleVeil, 0, 1000, mm
		}), 495, 495.1,
			"veil: corners of a radius of 495.1 mm take more than a veil of 1066.8 mm by 1000.0 mm has"},
		{"petals", petals(func(p *Petals, n float64) { p.Overlap, p.Count = 0, int(n) }), 200, 1001,
			"petals: petals: 1001, must be from 1 to 1000"},
		{"side of a petal", petals(func(p *Petals, mm float64) { p.Side = mm }), 500, 558.8,
			"petals: side of 558.8 mm leaves nothing to round of a length of 558.8 mm"},
		{"overlap of petals", petals(func(p *Petals, mm float64) { p.Overlap = mm }), 140, 142.3,
			"petals: overlap of 142.3 mm is more than a petal's share of the waist, 142.24 mm: three would lie on " +
				"each other\n  hint: fewer petals or less overlap"},
		{"half a turn of a petal", petals(func(p *Petals, f float64) {
			p.Count, p.Overlap, p.Fraction = 1, 0, f
		}), .5, .51,
			"petals: a petal opens to 183.6 degrees, the most is 180\n  hint: more petals or a smaller fraction of a " +
				"circle"},
		{"allowance of a petal's waist", petals(func(p *Petals, mm float64) { p.Allowance.Waist = mm }), 226, 226.5,
			"petals: the waist is cut on a radius of 226.4 mm, its allowance of 226.5 mm leaves nothing\n  hint: a " +
				"smaller allowance or less flare"},
		{"layers of net", net(func(n *NetLayers, k float64) { n.Layers = int(k) }), 12, 13,
			"net layers: layer 13 of 13 would be sewn 25.4 mm above the waist\n  hint: fewer layers, a smaller gap, " +
				"or a first seam further down"},
		{"no layers of net", net(func(n *NetLayers, k float64) { n.Layers = int(k) }), 1, 0,
			"net layers: layers: 0, must be from 1 to 1000"},
		{"gaps of net", net(func(n *NetLayers, mm float64) { n.GapChange = mm }), -6, -6.4,
			"net layers: the gap below layer 10 is -0.4 mm, must be more than 0\n  hint: fewer layers, or a smaller " +
				"change of the gap"},
		{"first seam of net", net(func(n *NetLayers, mm float64) { n.FirstSeam = mm }), 1000, 1041.4,
			"net layers: the first seam line lies 1041.4 mm below the waist, the hem 1041.4 mm\n  hint: sew the " +
				"first layer on above the hem"},
		{"lift", net(func(n *NetLayers, f float64) { n.Lift = f }), 1, 1.01,
			"net layers: lift is 1.01, must be from 0 to 1 (0.03 is 3 %)"},
		{"widths and fullness of net", net(func(n *NetLayers, f float64) { n.Fullness = f }), 0, 3,
			"net layers: both widths of cloth (4) and fullness (3) are given\n  hint: give one of them"},
		{"neither", net(func(n *NetLayers, w float64) { n.Widths = w }), 3, 0,
			"net layers: neither widths of cloth nor fullness is given\n  hint: net takes a fullness of 3 to 6"},
		{"widths of net round the skirt", net(func(n *NetLayers, w float64) { n.Widths = w }), 1, .8,
			"net layers, layer 1: 0.8 widths sew up to 2400 mm, less than the 2547 mm they go round\n  hint: at " +
				"least 1 width"},
		{"back gores of a train", train(func(tr *Train, n float64) { tr.BackGores = int(n) }), 4, 5,
			"train: back gores: 5, must be from 1 to 4 a side"},
		{"length of a train", train(func(tr *Train, mm float64) { tr.Behind = mm }), 10, 0,
			"train: length behind is 0 mm, must be more than 0"},
		{"a train of no gores", train(func(tr *Train, n float64) {
			if n > 0 {
				tr.Skirt = workedGathered()
			}
		}), 0, 1, "train: what it hangs on has no back gores to lengthen\n  hint: a gored or a circle skirt"},
		{"a train of one gore", train(func(tr *Train, n float64) {
			if n > 0 {
				tr.Skirt = circleSkirt(.5, 700, 900, int(n))
			}
		}), 0, 1, "train: with 1 gore there is no pair of back gores to lengthen\n  hint: more gores"},
		{"a flounce", flounce(func(f *Flounce, mm float64) { f.Bottom = f.Top + mm }), 20, .9,
			"flounce: bottom (1829.7 mm) is not longer than top (1828.8 mm) by 1 mm or more\n  hint: draft a strip " +
				"instead"},
		{"a flounce round and round", flounce(func(f *Flounce, mm float64) { f.Depth = mm }), 83, 15,
			"flounce: bottom 2844.8 mm on top 1828.8 mm goes 10.8 times round at a depth of 15 mm, the most is 10\n  " +
				"hint: a deeper flounce, a shorter bottom, or gather the top"},
		{"a bow's knot", bow(func(b *Bow, mm float64) { b.KnotWidth = mm }), 40, 5000,
			"bow: knot width of 5000 mm hides a bow 300 mm wide"},
		{"bows", bow(func(b *Bow, n float64) { b.Count = int(n) }), 500, 501,
			"bow: count is 501, the most is 500 with two tails each"},
		{"ends of a sash", sash(func(s *Sash, mm float64) { s.End = mm }), 100, 9000,
			"sash: ends of 9000 mm take the whole length of 3000 mm"},
		{"layers of a sash", sash(func(s *Sash, n float64) { s.Layers = int(n) }), 2, 3,
			"sash: layers: 3, must be 1 or 2"},
		{"loops", loops(func(l *Loops, n float64) { l.Count = int(n) }), 1000, 1001,
			"loops: count is 1001, must be from 1 to 1000"},
		{"loops and an opening", loops(func(l *Loops, mm float64) { l.Opening = mm }), 0, 300,
			"loops: both a count (12) and an opening to fill (300 mm) are given\n  hint: give one of them"},
		{"loops on each other", loops(func(l *Loops, mm float64) { l.Count, l.Opening, l.Pitch = 0, 300, mm }), 5, 4.9,
			"loops: pitch of 4.9 mm is less than the width of 5 mm: loops would lie on each other"},
		{"slant of a tie", ties(func(s *Ties, mm float64) { s.Slant = mm }), 399, 400,
			"tie: slant of 400 mm takes the whole length of 400 mm"},
		{"ties", ties(func(s *Ties, n float64) { s.Count = int(n) }), 1000, 1001,
			"tie: count is 1001, must be from 1 to 1000"},
		{"a gap of an overskirt", over(func(o *Overskirt, mm float64) { o.Gap = mm }), 300, 711.2,
			"overskirt: a gap of 711.2 mm leaves nothing of a waist of 711.2 mm"},
		{"panels of a handkerchief", scarf(func(h *Handkerchief, n float64) { h.Panels = int(n) }), 2, 3,
			"handkerchief: panels: 3, must be 1, 2 or 4"},
		{"allowance of a handkerchief's waist", scarf(func(h *Handkerchief, mm float64) {
			h.Allowance.Waist = mm
		}), 112, 114,
			"handkerchief: the waist is cut on a radius of 113.2 mm, its allowance of 114 mm leaves nothing\n  hint: " +
				"a smaller allowance or less flare"},
	})
}
