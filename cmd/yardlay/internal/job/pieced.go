package job

import (
	"slices"

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

// Place is where the corners of a part are cut off.
type Place struct {
	Open   bool    // the job does not say where
	Tried  int     // places that were weighed beside those of the widths of the cloths; -1: none were looked for
	Within float64 // mm, chosen of these: no part is cut wider; 0: the widths of the cloths
	Less   []Saved // what that saves of each cloth; less than 0 where it takes more
	Seam   float64 // sewn more for it, mm; less than 0 where it is less
}

// Saved is a length bought of a cloth, mm.
type Saved struct {
	Cloth  string
	Bought float64
}

// PlacesOpen are the parts that leave open where their corners are cut off, as they are called in the file, as far as
// that is not settled.
func (j *Job) PlacesOpen() (called []string) {
	for _, p := range j.Parts {
		if p.Place.Open && p.Place.Tried < 0 && !slices.Contains(called, p.Called) {
			called = append(called, p.Called)
		}
	}
	return called
}

// PiecedAt returns the job with the corners of a part cut off where it is said, whoever wears it: no part is cut
// wider, nor wider than its cloth.
func (j *Job) PiecedAt(called string, at Place) *Job {
	pieced := *j
	pieced.Parts = slices.Clone(j.Parts)
	for i := range pieced.Parts {
		p := &pieced.Parts[i]
		if p.Called != called || !p.Place.Open {
			continue
		}
		p.Place, p.Place.Open = at, true
		p.Layers = slices.Clone(p.Layers)
		for k, l := range p.Layers {
			if l.Corners != nil && at.Within > 0 && at.Within < l.Corners.Within {
				p.Layers[k] = l.piecedWithin(at.Within)
			}
		}
	}
	return &pieced
}

// piecedWithin returns the layer with its corners cut off elsewhere.
func (l Layer) piecedWithin(mm float64) Layer {
	corners := *l.Corners
	corners.Within = mm
	l.Corners, l.made = &corners, new(made)
	return l
}

// pieced reads how the pieces of a part are pieced, in each of the cloths.
func (p *partTable) pieced(layers []Layer) (at Place) {
	t := p.sub("pieced", "`pieced` of "+p.Name, `{ within = "54" }`)
	if t == nil {
		return at
	}
	asked := PiecedWithin(Cloth{}, p.allow.Seam)
	asked.Most = t.Count("most", asked.Most)
	asked.Length = t.LengthOr("length", 0)
	asked.FromWaist = t.LengthOr("from_waist", asked.FromWaist)
	asked.Centre = t.Truth("centre_front", false)
	asked.Allowance = t.LengthOr("seam", asked.Allowance)
	within := t.LengthOr("within", 0)
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
	return Place{Open: within == 0 && asked.Length == 0, Tried: -1}
}
