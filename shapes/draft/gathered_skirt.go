package draft

import (
	"cmp"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// GatheredSkirt is straight widths of cloth, sewn to a ring and gathered to the waist.
// A whole width lies across the centre front, or a seam; whole widths follow on both
// sides, and what is left over is a part width on either side of the centre back, where
// it opens:
//
//	 part    whole      whole      whole    part      3.5 widths
//	+-----+---------+-----|-----+---------+-----+
//	|     |         |     |     |         |     |     Length, along the grain
//	|     |         |     |     |         |     |
//	+-----+---------+-----|-----+---------+-----+
//	CB                    CF                   CB
//
// All are cut from selvedge to selvedge: widths times the cloth's width, less both
// allowances of every seam, is the flat length, and that is Fullness times the waist.
//
// With a casing it is pulled on: the upper edge is turned down for elastic or a
// drawstring, and nothing opens.
type GatheredSkirt struct {
	Waist     float64 // girth sewn to the waistband, or drawn up, mm
	Length    float64 // from waist to hem, finished, of the outer layer, mm
	Hip       float64 // girth that it must clear, ease included, mm; 0 is not checked
	HipDepth  float64 // from waist to hip, mm; needed with a hip
	HighHip   HighHip // that it must clear besides
	Widths    float64 // of cloth in it, whole or part; or else:
	Fullness  float64 // flat length over the waist, 1 or more
	FrontSeam bool    // a seam at the centre front, not the middle of a width
	Opening   bool    // the centre back seam is an opening
	Casing    float64 // width of a casing, mm; 0 for none

	ClothWidth float64 // usable, mm
	CutWidth   float64 // cut width of a whole width, mm; 0: that of the cloth
	HemRaise   float64 // how much shorter this layer is than the outer one, mm
	Allowance  shapes.Allowance
}

// widths are those of a gathered skirt as cut.
type widths struct {
	whole float64 // cut width of a whole one, mm
	part  float64 // of both at the centre back, mm; of the only one
	count int     // of all; those but the parts are whole
	seam  float64 // allowance on each side, mm
}

// flat is what they measure sewn together, mm.
func (w widths) flat() float64 {
	sum := 0.0
	for i := range w.count {
		sum += w.cut(i, w.count-1-i) - 2*w.seam
	}
	return sum
}

// cut is how wide the one is cut that lies so many from both ends, mm.
func (w widths) cut(from, to int) float64 {
	if min(from, to) == 0 {
		return w.part
	}
	return w.whole
}

// leastPart is the narrowest part width between its seams that is pieced on without being
// asked for, mm: two fingers (our own figure).
const leastPart = 40

// Draft returns the widths from the centre back to the centre front, left and right ones
// as a pair.
func (g GatheredSkirt) Draft() (Result, error) { return named("gathered skirt")(g.draft()) }

func (g GatheredSkirt) draft() (Result, error) {
	if err := g.check(); err != nil {
		return Result{}, err
	}
	w, err := g.widths()
	if err != nil {
		return Result{}, err
	}
	if err := g.checkGirth(w); err != nil {
		return Result{}, err
	}
	length := g.Length - g.HemRaise
	h := hung{length: g.Length, rings: g.rings(w.flat()), skirt: skirt{
		gores: w.count, opening: g.Opening, notches: []float64{length / 2}, list: places(w.count, false),
		allowance: shapes.Allowance{Seam: g.Allowance.Seam, Waist: g.Casing + g.Allowance.Waist, Hem: g.Allowance.Hem},
	}}
	for i := range h.list {
		h.list[i].cut = "width"
		half := w.cut(h.list[i].back, w.count-1-h.list[i].back)/2 - w.seam
		h.shapes = append(h.shapes, gore{flank: orb.LineString{{0, half}, {length, half}}})
	}
	if g.Fullness > 0 {
		h.notes = easedNote("the skirt", g.Fullness, w.flat()/g.Waist)
	}
	d, err := h.cut()
	if err != nil {
		return Result{}, err
	}
	d.Gathered, d.Shut = true, g.Opening
	for i := range d.Pieces {
		g.finish(&d.Pieces[i], w)
	}
	d.Waist.Treatment = gathered(w.flat() / g.Waist)
	if err := d.notch(d.Waist); err != nil {
		return Result{}, err
	}
	if g.Casing > 0 {
		d.Waist = shapes.JoinSide{} // drawn up, not sewn on
	}
	return d, nil
}

// finish makes the upper edge of a width one that is gathered, and marks the casing's line.
func (g GatheredSkirt) finish(p *shapes.Piece, w widths) {
	for i, e := range p.Edges {
		if e.Kind == shapes.Waist {
			p.Edges[i].Kind = shapes.Top
		}
		if e.Kind == shapes.Waist && g.Casing > 0 {
			a, b := e.Line[0], e.Line[len(e.Line)-1]
			p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: "casing"})
			p.Inside = append(p.Inside, orb.LineString{{a[0] + g.Casing, a[1]}, {b[0] + g.Casing, b[1]}})
		}
	}
}

// whole is the cut width of a whole width: an even number of lattice steps, so that both
// halves of it, drawn about the middle, are on the lattice and together no wider than the
// cloth.
func (g GatheredSkirt) whole() float64 {
	mm := g.ClothWidth
	if g.CutWidth > 0 {
		mm = g.CutWidth
	}
	return 2 * plane.Floor(mm/2)
}

// widths divides the flat length up.
func (g GatheredSkirt) widths() (widths, error) {
	if g.Widths > 0 {
		w := g.ofWidths(g.Widths)
		if left := w.part - 2*w.seam; left < leastSewn {
			return w, say.Errorf("%g widths of %.1f leave strips cut %.1f wide at the centre back, seams of %.6g "+
				"nothing of them", g.Widths, say.MM(w.whole), say.MM(w.part), say.MM(w.seam)).
				Hint("%g widths", math.Round(g.Widths))
		}
		return w, nil
	}
	flat := g.Fullness * g.Waist
	w := g.ofFlat(flat)
	cut := (w.flat() + 2*w.seam*float64(w.count)) / w.whole
	for _, n := range []float64{math.Floor(cut), math.Ceil(cut)} {
		eased := g.ofWidths(n)
		if n > 0 && math.Abs(eased.flat()-flat) <= mostGiven*flat && eased.flat() >= g.Waist &&
			eased.part-2*w.seam >= leastPart {
			return eased, nil
		}
	}
	if w.count > 2 && w.part-2*w.seam < leastPart {
		w.part = leastPart + 2*w.seam
	}
	return w, nil
}

// inside is how many whole widths lie between the parts: so many that both parts are no
// wider than whole ones, an odd number but with a seam at the centre front; -1 where
// there is but one width in all.
func (g GatheredSkirt) inside(widths float64) int {
	const guard = 1e-9
	if g.FrontSeam {
		return 2 * int(math.Ceil(widths/2-guard)-1)
	}
	return 2*int(math.Ceil((widths-1)/2-guard)) - 1
}

// ofWidths are so many widths as cut.
func (g GatheredSkirt) ofWidths(n float64) widths {
	inside := g.inside(n)
	w := widths{whole: g.whole(), seam: g.Allowance.Seam, count: inside + 2}
	w.part = (n - float64(inside)) / 2 * w.whole
	if inside < 0 {
		w.part = n * w.whole
	}
	w.part = 2 * plane.Floor(w.part/2)
	return w
}

// ofFlat are as many as make up a flat length, mm.
func (g GatheredSkirt) ofFlat(flat float64) widths {
	w := widths{whole: g.whole(), seam: g.Allowance.Seam}
	sewn := w.whole - 2*w.seam
	inside := g.inside(flat / sewn)
	w.count, w.part = inside+2, (flat-float64(inside)*sewn)/2+2*w.seam
	if inside < 0 {
		w.part = flat + 2*w.seam
	}
	return w
}

func (g GatheredSkirt) check() error {
	if err := cmp.Or(
		positive(measured{"waist", g.Waist}, measured{"length", g.Length}, measured{"cloth width", g.ClothWidth}),
		notNegative(measured{"cut width", g.CutWidth}, measured{"casing", g.Casing}),
		checkHem(g.HemRaise, g.Length, 0, g.Allowance),
	); err != nil {
		return err
	}
	switch whole := g.whole(); {
	case g.CutWidth > g.ClothWidth:
		return say.Errorf("cut width of %.1f is wider than the cloth, %.1f", say.MM(g.CutWidth), say.MM(g.ClothWidth))
	case whole-2*g.Allowance.Seam < leastPart:
		return say.Errorf("seams of %.6g leave nothing of a width of %.6g", say.MM(g.Allowance.Seam), say.MM(whole))
	case g.Widths != 0 && g.Fullness != 0:
		return say.Errorf("both %g widths and a fullness of %g are given", g.Widths, g.Fullness).
			Hint("give one of them")
	case g.Fullness == 0 && !(g.Widths > 0 && g.Widths <= maxGores):
		return say.Errorf("%g widths of cloth, must be above 0 and at most %d", g.Widths, maxGores)
	case g.Fullness != 0 && g.Fullness*g.Waist/(whole-2*g.Allowance.Seam) > maxGores-2:
		return say.Errorf("%g times a waist of %.1f takes over %d widths of %.1f", g.Fullness, say.MM(g.Waist),
			maxGores, say.MM(whole))
	case g.Casing > 0 && g.Opening:
		return say.Errorf("a casing of %.6g is drawn up, and there is nothing to open", say.MM(g.Casing)).
			Hint("leave out the casing or the opening")
	case g.Casing >= g.Length-g.HemRaise:
		return say.Errorf("casing of %.6g takes the whole length of %.6g", say.MM(g.Casing),
			say.MM(g.Length-g.HemRaise))
	}
	if g.Fullness != 0 {
		return shapes.CheckFullness(g.Fullness)
	}
	return nil
}

// checkGirth refuses widths that do not go round the body or cannot be gathered.
func (g GatheredSkirt) checkGirth(w widths) error {
	flat := w.flat()
	enough := func(girth float64) say.Text {
		return say.Textf("a fullness of %.2f or more", ceilTo(girth/g.Waist, 0.01))
	}
	if flat < g.Waist-girthSlack {
		return say.Errorf("the widths are %.1f flat, less than the waist of %.1f", say.MM(flat), say.MM(g.Waist)).
			Hint("%v", enough(g.Waist))
	}
	if g.Hip > 0 {
		if err := cmp.Or(positive(measured{"hip", g.Hip}, measured{"hip depth", g.HipDepth}),
			g.HighHip.check(g.HipDepth)); err != nil {
			return err
		}
		if flat < g.Hip-girthSlack {
			return say.Errorf("the widths are %.1f flat and do not clear the hip of %.1f", say.MM(flat), say.MM(g.Hip)).
				Hint("%v", enough(g.Hip))
		}
		straight := func(float64) float64 { return flat }
		if at, short := tightest(straight, g.Waist, g.Hip, g.HipDepth, g.HighHip); short {
			return say.Errorf("the widths are %.1f flat, and do not clear %v", say.MM(flat), at.over).
				Hint("%v%s", enough(at.needs), g.HighHip.hint())
		}
	}
	return cmp.Or(checkRings(g.rings(flat)...), checkHeld(g.Opening || g.Casing > 0, g.Waist, g.Hip))
}

// rings returns what is closed where nothing opens.
func (g GatheredSkirt) rings(flat float64) []Ring {
	if g.Casing > 0 {
		return []Ring{{Name: "casing, drawn out", Girth: flat, Over: OverHips, Needs: g.Hip, Hint: say.Textf("more widths")}}
	}
	return pulledOn(g.Opening, g.Waist, g.Hip)
}
