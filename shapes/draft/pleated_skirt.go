package draft

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// PleatedSkirt is straight widths of cloth laid in pleats all round and stitched down
// from the waist to the hip:
//
//	waist ||  ||  ||  ||    each pleat takes up more, the narrower the body
//	      ||  ||  ||  ||    stitched down
//	hip   |.  |.  |.  |.    Depth from fold to fold
//	      | ' | ' | ' | '
//	hem   |  '|  '|  '|     hangs free; folded it measures HemSweep
//
// The cloth is as wide everywhere: at the hip its girth and two depths of every fold,
//
//	flat = Hip + 2 Depth folds,   folds = Pleats, or twice as many where they are pairs,
//
// and at any other girth G each pleat is (flat - G) / (2 folds) deep: depth by
// subtraction, as in "A Complete Course in Dressmaking", vol. 5 (1921), which takes waist,
// hip and hem from the width of the cloth in turn. Widths are joined at inner folds, each
// of whole pleats, so that no seam shows, and the opening is such a seam.
type PleatedSkirt struct {
	Waist    float64 // girth sewn to the waistband, mm
	Hip      float64 // girth at the hip, ease included, mm
	HipDepth float64 // from waist to hip, mm: down to there the pleats are stitched
	HighHip  HighHip // that it has to clear between them
	HemSweep float64 // round the hem with the pleats folded, mm; 0 means as the hip
	Length   float64 // from waist to hem, finished, of the outer layer, mm
	Style    PleatStyle
	Pleats   int     // knife pleats, or pairs of pleats: boxes, or inverted ones
	Depth    float64 // at the hip, from outer to inner fold, mm; or else:
	Fullness float64 // flat length over the hip: 3 where each pleat reaches the next
	Gap      float64 // between neighbouring boxes, mm
	Opening  bool    // the seam at the centre back is an opening

	ClothWidth float64 // usable, mm
	HemRaise   float64 // how much shorter this layer is than the outer one, mm
	Allowance  shapes.Allowance
}

// Flat returns the width of the cloth laid in pleats, seams not counted, mm.
func (p PleatedSkirt) Flat() float64 { return p.pleating().flat() }

// pleating is how the cloth is folded.
func (p PleatedSkirt) pleating() pleating {
	out := pleating{style: p.Style, count: p.Pleats, gap: p.Gap}
	share := p.Hip / float64(p.Pleats)
	out.repeat = share + 2*p.Depth*float64(out.folds())
	if p.Fullness > 0 {
		out.repeat = share * p.Fullness
	}
	out.levels = []pleatLevel{{0, p.Waist}}
	straight := p.Waist + (p.Hip-p.Waist)*p.HighHip.Depth/p.HipDepth
	if h := p.HighHip; h.Girth > straight {
		out.levels = append(out.levels, pleatLevel{h.Depth, h.Girth})
	}
	return pleatingWith(out, pleatLevel{p.HipDepth, p.Hip}, pleatLevel{p.Length, p.hem()})
}

func pleatingWith(p pleating, levels ...pleatLevel) pleating {
	p.levels = append(p.levels, levels...)
	return p
}

func (p PleatedSkirt) hem() float64 {
	if p.HemSweep == 0 {
		return p.Hip
	}
	return p.HemSweep
}

// Draft returns the widths in their order from the centre back round the right side and the
// front, folds and placement lines marked, with the line down to which they are stitched.
func (p PleatedSkirt) Draft() (Result, error) { return named("pleated skirt")(p.draft()) }

func (p PleatedSkirt) draft() (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	run, err := p.pleating().over(p.ClothWidth, p.Allowance.Seam)
	if err != nil {
		return Result{}, err
	}
	d := Result{Rings: pulledOn(p.Opening, p.Waist, p.Hip), Notes: run.notes(), Shut: true}
	kinds := run.kinds("skirt", "first width", "width", "last width")
	for _, k := range kinds {
		piece, err := p.width(run, k)
		if err != nil {
			return Result{}, err
		}
		d.Pieces = append(d.Pieces, piece)
		d.Waist.Edges = append(d.Waist.Edges,
			shapes.SewnEdge{Piece: k.name, Edge: "waist", Copies: k.count, Reversed: true})
	}
	d.Waist.Treatment = run.taken()
	d.Joins = pleatedJoins(kinds, p.HipDepth)
	return d, d.notch(d.Waist)
}

// pleatedKind is so many widths alike.
type pleatedKind struct {
	name         string
	repeats      int
	count        int
	lower, upper string // its edges; both at the centre back where it is the only one
}

const (
	widthStart, widthEnd = "left seam", "right seam" // as seen from outside
	backStart, backEnd   = "right centre back", "left centre back"
)

// kinds returns the widths from the first to the last; they are called by their names.
func (p pleated) kinds(only, first, between, last string) []pleatedKind {
	n := len(p.perWidth)
	if n == 1 {
		return []pleatedKind{{only, p.perWidth[0], 1, backStart, backEnd}}
	}
	all := []pleatedKind{
		{first, p.perWidth[0], 1, backStart, widthEnd},
		{between, p.perWidth[0], n - 2, widthStart, widthEnd},
		{last, p.perWidth[n-1], 1, widthStart, backEnd},
	}
	return slices.DeleteFunc(all, func(k pleatedKind) bool { return k.count == 0 })
}

// width drafts one of them.
func (p PleatedSkirt) width(run pleated, k pleatedKind) (shapes.Piece, error) {
	seam := func(name string) side {
		kind := shapes.Seam
		if p.Opening && (name == backStart || name == backEnd) {
			kind = shapes.Opening
		}
		return side{name, kind, p.Allowance.Seam}
	}
	length := p.Length - p.HemRaise
	piece, err := panel{
		along: length, across: run.repeat * float64(k.repeats),
		lower: seam(k.lower), far: side{"hem", shapes.Hem, p.Allowance.Hem}, upper: seam(k.upper),
		near: side{"waist", shapes.Waist, p.Allowance.Waist},
	}.piece(k.name)
	if err != nil {
		return shapes.Piece{}, err
	}
	piece.Count = k.count
	corner := piece.Edges[0].Line[0]
	down, across := corner[0]+p.HipDepth, run.repeat*float64(k.repeats)
	piece.Names = append(piece.Names, shapes.LineName{Line: len(piece.Inside), Name: "stitched down to here"})
	piece.Inside = append(piece.Inside, orb.LineString{{down, corner[1]}, {down, corner[1] + across}})
	run.mark(&piece, corner, k.repeats, length)
	return piece, nil
}

// pleatedJoins are the seams between the widths, and the one at the centre back.
func pleatedJoins(kinds []pleatedKind, notch float64) []shapes.Join {
	var out []shapes.Join
	// Lower edges run away from the top, upper ones back to it.
	join := func(name string, a, b pleatedKind, times int) {
		out = append(out, seamOf(name, times, against(a.name, a.upper), along(b.name, b.lower), notch))
	}
	for i, k := range kinds {
		if k.count > 1 {
			join(k.name+" to "+k.name, k, k, k.count-1)
		}
		if i > 0 {
			join(fmt.Sprintf("%s to %s", kinds[i-1].name, k.name), kinds[i-1], k, 1)
		}
	}
	join("centre back", kinds[len(kinds)-1], kinds[0], 1)
	return out
}

func (p PleatedSkirt) check() error {
	if err := cmp.Or(
		positive(measured{"waist", p.Waist}, measured{"hip", p.Hip}, measured{"hip depth", p.HipDepth},
			measured{"length", p.Length}, measured{"cloth width", p.ClothWidth}),
		notNegative(measured{"pleat depth", p.Depth}, measured{"gap", p.Gap}, measured{"hem sweep", p.HemSweep}),
		p.HighHip.check(p.HipDepth),
		checkHem(p.HemRaise, p.Length, 0, p.Allowance),
	); err != nil {
		return err
	}
	switch {
	case !slices.Contains(pleatStyles, p.Style):
		return fmt.Errorf("there are no %q pleats", string(p.Style))
	case p.HipDepth >= p.Length-p.HemRaise:
		return say.Errorf("hip depth of %.1f does not lie above the hem at %.1f", say.MM(p.HipDepth),
			say.MM(p.Length-p.HemRaise))
	case p.Depth != 0 && p.Fullness != 0:
		return say.Errorf("both a depth of %.6g and a fullness of %g are given", say.MM(p.Depth), p.Fullness).
			Hint("give one of them")
	case p.Depth == 0 && !(p.Fullness > 1 && p.Fullness <= mostLayers):
		return say.Errorf("fullness is %g, must be above 1 and at most %g", p.Fullness, mostLayers).
			Hint("3 where each pleat reaches the next, or give the depth")
	case p.hem() < p.Hip:
		return say.Errorf("hem sweep of %.1f is less than the hip of %.1f: the pleats would cross", say.MM(p.HemSweep),
			say.MM(p.Hip)).Hint("a wider hem sweep, at least as wide as the hip")
	}
	return cmp.Or(p.pleating().check(mostLayers),
		checkWorn(pulledOn(p.Opening, p.Waist, p.Hip), p.Opening, p.Waist, p.Hip))
}
