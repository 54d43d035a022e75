package draft

// Divided is a draft that goes round in a number of pieces which may be chosen: of
// more of them, each is narrower.
type Divided interface {
	Draft
	Division() Division
	// Divide returns the same draft in another number of pieces.
	Divide(pieces int) Draft
}

// Division says in how many pieces a draft goes round.
type Division struct {
	Called string // what the number is called
	Pieces int    // 0 where the draft chooses it
	Step   int    // by how many it is worth varying in a comparison; 0: it is not
	// Flat says that two pieces beside each other, sewn together, lie flat and are one of half as many: sectors of a
	// ring. Gores that bend over the hips do not.
	Flat bool
}

func inSections(n int) Division { return Division{Called: "sections", Pieces: n, Flat: true} }

// Centred is a draft with a seam at a centre, where the two pieces beside it may be cut in one
// on a fold: the same garment with a seam less.
type Centred interface {
	Draft
	// InOne returns the draft so cut, what asks for it is called, and what asked for the seam, "" where nothing did; ok
	// where there is such a seam.
	InOne() (d Draft, called, seam string, ok bool)
}

func (c CircleSkirt) InOne() (d Draft, called, seam string, ok bool) {
	ok = !c.FrontOnFold && c.Gores > 2 && c.Gores%2 == 0
	c.FrontOnFold = true
	return c, "front_on_fold", "", ok
}

func (c Cape) InOne() (d Draft, called, seam string, ok bool) {
	ok = !c.BackOnFold
	if c.BackSeam {
		seam = "back_seam"
	}
	c.BackSeam, c.BackOnFold = false, true
	return c, "back_on_fold", seam, ok
}

func (o Overskirt) InOne() (d Draft, called, seam string, ok bool) {
	ok = !o.BackOnFold
	if o.BackSeam {
		seam = "back_seam"
	}
	o.BackSeam, o.BackOnFold = false, true
	return o, "back_on_fold", seam, ok
}
