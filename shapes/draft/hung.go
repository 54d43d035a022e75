package draft

import "yardlay/shapes/say"

// gored is a skirt that hangs in gores from its waist: trains lengthen it, and layers of
// net are sewn onto it.
type gored interface {
	Divided
	// called is what errors call it.
	called() string
	// unraised returns the outer layer, and by how much this one is shorter, mm.
	unraised() (gored, float64)
	// hang reckons the gores.
	hang() (hung, error)
	// backPairs is how many pairs of gores are alike, from the centre back on.
	backPairs() int
	// underNet is what layers of net need to know of it.
	underNet() (NetSkirt, error)
}

// goredOf returns the skirt that a draft is, with a train or without.
func goredOf(d Draft) (gored, bool) {
	if t, ok := d.(Train); ok {
		d = t.Skirt
	}
	s, ok := d.(gored)
	return s, ok
}

// hung is a skirt of gores as reckoned, not yet cut.
type hung struct {
	skirt
	shapes []gore  // at each of its places
	length float64 // of the outer layer, from waist to hem, mm
	rings  []Ring
	notes  []say.Text
}

// cut is what the skirt comes to, not yet notched.
func (h hung) cut() (Result, error) {
	d := Result{Joins: h.joins(), Waist: h.around(), Rings: h.rings, Notes: h.notes, Shut: true}
	for i, p := range h.list {
		piece, err := h.piece(p, h.shapes[i])
		if err != nil {
			return Result{}, err
		}
		d.Pieces = append(d.Pieces, piece)
	}
	return d, nil
}

// draft cuts and notches the skirt.
func (h hung) draft() (Result, error) {
	d, err := h.cut()
	if err != nil {
		return Result{}, err
	}
	return d, d.notch(d.Waist)
}
