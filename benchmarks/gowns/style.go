package main

import (
	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// style is what is cut for each body: some drafts on one cloth.
type style struct {
	name   string
	widths []float64 // of the cloths it is laid on, in
	drafts func(b body, cloth float64) ([]draft.Draft, error)
	folded bool // all of it is cut in pairs: the first of its cloths is folded lengthwise
}

// Widths of cloth as sold, in. What is as wide as a half circle needs the wider ones.
var (
	anyWidth = []float64{45, 60, 36, 54, 58}
	wide     = []float64{60, 54, 58}
	netting  = []float64{108, 54}
)

var allowance = shapes.Allowance{Seam: inch / 2, Waist: inch / 2, Hem: inch}

var styles = []style{
	{"corset of 12 panels", anyWidth, only(corset(12)), true},
	{"gored skirt of 6", wide, only(gored(6, 110, 0)), false},
	{"half circle skirt in 4 gores", wide, only(circle(0.5, 4, 38)), false},
	{"strapless bodice of 8 panels", anyWidth, only(strapless(8, true)), false},
	{"bodice with straight sleeves", anyWidth, blouse(draft.StraightSleeve), false},
	{"trumpet skirt of 6", wide, only(gored(6, 120, 22)), false},
	{"half circle cape in 4 sections", wide, only(cape(0.5, 34, 4)), false},
	{"flounce in 5 sections", anyWidth, only(flounce(60, 110, 9, 5)), false},
	{"corset of 8 panels", anyWidth, only(corset(8)), true},
	{"circle skirt in 8 gores", wide, only(circle(1, 8, 40)), false},
	{"petticoat of 3 tiers", wide, petticoat, false},
	{"gored skirt of 8 with a train", wide, only(trained(gored(8, 140, 0), 24)), false},
	{"bodice with bell sleeves", anyWidth, blouse(draft.BellSleeve), false},
	{"peplum in 4 sections and waistband", anyWidth, only(peplum(4), waistband), false},
	{"net layers", netting, netLayers, false},
	{"corset of 10 panels and peplum", anyWidth, only(corset(10), peplum(2)), false},
	{"trumpet skirt of 8 and waistband", anyWidth, only(gored(8, 140, 24), waistband), false},
	{"circle skirt in 10 gores with a train", wide, only(trained(circle(1, 10, 40), 20)), false},
	{"bodice with puffed sleeves", anyWidth, blouse(draft.PuffSleeve), false},
	{"strapless bodice of 10 panels and gored skirt of 8", anyWidth,
		only(strapless(10, false), gored(8, 100, 0)), false},
	{"three-quarter cape in 6 sections", anyWidth, only(cape(0.75, 22, 6)), true},
	{"gored skirt of 10, waistband and flounce", wide,
		only(gored(10, 120, 0), waistband, flounce(120, 200, 7, 8)), false},
	{"short circle skirt in 6 gores and waistband", wide, only(circle(1, 6, 22), waistband), false},
	{"corset of 6 panels", anyWidth, only(corset(6)), true},
}

// part drafts one part of a style for a body.
type part func(body) draft.Draft

func only(parts ...part) func(body, float64) ([]draft.Draft, error) {
	return func(b body, _ float64) ([]draft.Draft, error) {
		var drafts []draft.Draft
		for _, p := range parts {
			drafts = append(drafts, p(b))
		}
		return drafts, nil
	}
}

func corset(panels int) part {
	return func(b body) draft.Draft {
		return draft.Corset{Reduction: 2 * inch, PanelledBody: draft.PanelledBody{
			Figure: b.figure(), Panels: panels, LacingGap: 2 * inch, Allowance: allowance,
		}}
	}
}

func strapless(panels int, hip bool) part {
	return func(b body) draft.Draft {
		f := b.figure()
		if !hip {
			f.HighHip, f.HighHipDown = 0, 0
		}
		return draft.StraplessBodice{PanelledBody: draft.PanelledBody{
			Figure: f, Panels: panels, FrontDip: inch, SideDip: 1.5 * inch, BackDip: 2 * inch, Allowance: allowance,
		}}
	}
}

// gored is a skirt that flares from the hip, or from a depth below the waist.
func gored(gores int, sweep, flare float64) part {
	return func(b body) draft.Draft {
		return draft.GoredSkirt{
			Waist: b.waist * inch, Hip: (b.hip + 2) * inch, HipDepth: b.hipDown * inch, HighHip: b.over(1),
			HemSweep: sweep * inch, Length: 40 * inch, Gores: gores, FlareFrom: flare * inch, Opening: true,
			Allowance: allowance,
		}
	}
}

func circle(fraction float64, gores int, length float64) part {
	return func(b body) draft.Draft {
		return draft.CircleSkirt{
			Fraction: fraction, Gores: gores, Waist: b.waist * inch, Length: length * inch, Opening: true,
			Allowance: allowance,
		}
	}
}

func trained(skirt part, behind float64) part {
	return func(b body) draft.Draft {
		return draft.Train{Skirt: skirt(b), Behind: behind * inch}
	}
}

func cape(fraction, length float64, sections int) part {
	return func(b body) draft.Draft {
		return draft.Cape{
			Neck: (b.neck + 1) * inch, Length: length * inch, Fraction: fraction, Sections: sections,
			Allowance: allowance,
		}
	}
}

func flounce(top, bottom, depth float64, sections int) part {
	return func(body) draft.Draft {
		return draft.Flounce{
			Top: top * inch, Bottom: bottom * inch, Depth: depth * inch, Sections: sections, Closed: true,
			Allowance: shapes.Allowance{Seam: inch / 2, Hem: inch / 2},
		}
	}
}

func peplum(sections int) part {
	return func(b body) draft.Draft {
		return draft.Peplum{
			Waist: b.waist * inch, Length: 7 * inch, Fraction: 0.6, Sections: sections,
			Allowance: shapes.Allowance{Seam: inch / 2, Waist: inch / 2, Hem: inch / 2},
		}
	}
}

func waistband(b body) draft.Draft {
	return draft.Waistband{
		Waist: b.waist * inch, Ease: inch / 2, Underlap: inch, Width: 1.25 * inch,
		Allowance: allowance,
	}
}

func petticoat(b body, cloth float64) ([]draft.Draft, error) {
	return []draft.Draft{draft.Petticoat{
		Waist: b.waist * inch, Hip: (b.hip + 2) * inch, HipDepth: b.hipDown * inch, HighHip: b.over(1),
		Length: 36 * inch, YokeDepth: (b.hipDown + 1) * inch, Tiers: 3, Fullness: 1.5,
		ClothWidth: cloth, Join: inch / 2, Allowance: allowance,
	}}, nil
}

func netLayers(b body, cloth float64) ([]draft.Draft, error) {
	return []draft.Draft{draft.NetLayers{
		Waist: b.waist * inch, SkirtFraction: 0.5, SkirtLength: 38 * inch, FirstSeam: 20 * inch, Gap: 6 * inch,
		Layers: 3, Fullness: 2.5, Lift: draft.DefaultLift, ClothWidth: cloth, Join: inch / 2, Allowance: allowance,
	}}, nil
}

// blouse is a bodice block with its sleeves.
func blouse(cut draft.SleeveStyle) func(body, float64) ([]draft.Draft, error) {
	return func(b body, _ float64) ([]draft.Draft, error) {
		block := draft.BodiceBlock{
			Bust: b.bust * inch, Waist: b.waist * inch, BackLength: b.backLength * inch, Shoulder: b.shoulder * inch,
			Neck: b.neck * inch, ArmholeDepth: b.armhole * inch, Ease: 3.5 * inch, WaistEase: 1.5 * inch,
			FrontOnFold: true, Allowance: allowance,
		}
		front, back, err := block.Armhole()
		if err != nil {
			return nil, err
		}
		sleeve := draft.Sleeve{
			Style: cut, FrontArmhole: front, BackArmhole: back, CapEase: 1.25 * inch, Bicep: (b.bicep + 1) * inch,
			Length: 23 * inch, Hem: 9.5 * inch, Allowance: allowance,
		}
		switch cut {
		case draft.BellSleeve:
			sleeve.BellFrom, sleeve.Sweep, sleeve.Hem = 13*inch, 36*inch, 12*inch
		case draft.PuffSleeve:
			sleeve.Length, sleeve.Hem, sleeve.Fullness, sleeve.Puff, sleeve.Band = 11*inch, 13*inch, 1.6, 2*inch, inch
		}
		return []draft.Draft{block, sleeve}, nil
	}
}
