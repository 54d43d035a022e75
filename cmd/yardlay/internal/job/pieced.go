package job

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// leastFromWaist is how far below the waist piecing seams begin unless the job says otherwise:
// where a skirt is seen as one (our own figure).
const leastFromWaist = 12 * measure.Inches

// PiecedWithin returns the corners of a part cut from a cloth as they are pieced unless the job
// says otherwise.
func PiecedWithin(c Cloth, seam float64) draft.Corners {
	return draft.Corners{Within: c.washed(), Most: 2, FromWaist: leastFromWaist, Allowance: seam}
}

// Place is where a part is pieced.
type Place struct {
	Along  bool    // the job does not say where corners are cut off
	Across bool    // it has it chosen where pieces are cut across, or whether they are
	Tried  int     // places that were weighed beside those that cloth asks for; -1: none were looked for
	Within float64 // mm, chosen of these: no part is cut wider; 0: the widths of the cloths
	Length float64 // mm, likewise: none is cut longer; 0: as bolts ask for
	Bolts  float64 // mm, the longest that is sold of a cloth in which pieces are longer; 0: none are
	Less   []Saved // what that saves of each cloth; less than 0 where it takes more
	Seam   float64 // sewn more for it, mm; less than 0 where it is less
	Whole  error   // why no piece can be cut across; nil where one can, or that was not looked for

	Ended bool // the run was over before all places were weighed

	Refused error // why it cannot be as the cloths ask for; nil where it could
}

// Open says whether the job leaves something of it open.
func (p Place) Open() bool { return p.Along || p.Across }

// Saved is a length bought of a cloth, mm.
type Saved struct {
	Cloth  string
	Bought float64
}

// PlacesOpen are the parts that leave open where they are pieced, as they are called in the file, as far as
// that is not settled.
func (j *Job) PlacesOpen() (called []string) {
	for _, p := range j.Parts {
		if p.Place.Open() && p.Place.Tried < 0 && !slices.Contains(called, p.Called) {
			called = append(called, p.Called)
		}
	}
	return called
}

// PiecedAt returns the job with a part that leaves it open pieced where it is said, whoever wears it: nothing is cut
// wider or longer, nor wider than its cloth, nor longer than it was to be.
func (j *Job) PiecedAt(called string, at Place) *Job {
	pieced := *j
	pieced.Parts = slices.Clone(j.Parts)
	for i := range pieced.Parts {
		p := &pieced.Parts[i]
		if p.Called != called || !p.Place.Open() {
			continue
		}
		at.Along, at.Across = p.Place.Along, p.Place.Across
		p.Place, p.Layers = at, slices.Clone(p.Layers)
		for k, l := range p.Layers {
			p.Layers[k] = l.piecedAt(at)
		}
	}
	return &pieced
}

// OthersWhole returns the job with the parts whole that leave it open where they are pieced, but for one.
func (j *Job) OthersWhole(but string) *Job {
	whole := *j
	whole.Parts = slices.Clone(j.Parts)
	for i := range whole.Parts {
		p := &whole.Parts[i]
		if p.Called == but || !p.Place.Open() {
			continue
		}
		p.Layers = slices.Clone(p.Layers)
		for k, l := range p.Layers {
			p.Layers[k] = l.Whole()
		}
	}
	return &whole
}

// piecedAt returns the layer pieced further in, where that is so.
func (l Layer) piecedAt(at Place) Layer {
	if l.Corners == nil {
		return l
	}
	corners := *l.Corners
	if at.Within > 0 {
		corners.Within = min(corners.Within, at.Within)
	}
	for _, most := range []float64{at.Length, at.Bolts} {
		if most > 0 && (corners.Length == 0 || most < corners.Length) {
			corners.Length = most
		}
	}
	if corners != *l.Corners {
		l.Corners, l.made = &corners, new(made)
	}
	return l
}

// ChosenLength is what a job says for a length that is chosen for it.
const ChosenLength = "chosen"

// lengthOrChosen reads how wide or long a part may be, 0 where it is not said; or that this is chosen.
func (t *table) lengthOrChosen(key, example string) (mm float64, chosen bool) {
	f := t.Field(key)
	if f == nil || f.Value.Kind != strict.KindText || strings.ContainsAny(f.Value.Text, "0123456789") {
		return t.LengthOr(key, 0), false
	}
	if f.Value.Text != ChosenLength {
		t.Fail(f.Value.At, fmt.Sprintf(`a length as "%s", or "chosen"`, example), "`%s` cannot be %q", key, f.Value.Text)
	}
	return 0, f.Value.Text == ChosenLength
}

// pieced reads how the pieces of a part are pieced, in each of the cloths.
func (p *partTable) pieced(layers []Layer) (at Place) {
	t := p.sub("pieced", "`pieced` of "+p.Name, `{ within = "54" }`)
	if t == nil {
		return at
	}
	asked := PiecedWithin(Cloth{}, p.allow.Seam)
	asked.Most = t.Count("most", asked.Most)
	var across bool
	asked.Length, across = t.lengthOrChosen("length", "40")
	asked.FromWaist = t.LengthOr("from_waist", asked.FromWaist)
	asked.Centre = t.Truth("centre_front", false)
	asked.Allowance = t.LengthOr("seam", asked.Allowance)
	within, along := t.lengthOrChosen("within", "54")
	t.Finish()
	for i := range layers {
		one := asked
		if one.Within = within; within == 0 {
			for _, c := range p.allCloths {
				if c.ID == layers[i].Cloth {
					one.Within = c.washed()
				}
			}
		}
		layers[i].Corners = &one
	}
	return Place{Along: along || within == 0 && asked.Length == 0, Across: across, Tried: -1}
}
