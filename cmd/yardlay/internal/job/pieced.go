package job

import (
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

// pieced reads how the pieces of a part are pieced, in each of the cloths.
func (p *partTable) pieced(layers []Layer) {
	t := p.sub("pieced", "`pieced` of "+p.Name, `{ within = "54" }`)
	if t == nil {
		return
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
}
