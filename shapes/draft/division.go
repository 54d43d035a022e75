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
}

func inSections(n int) Division { return Division{Called: "sections", Pieces: n} }

// Division is by two where the centre front is cut on a fold: their number stays even.
func (c CircleSkirt) Division() Division {
	if c.FrontOnFold {
		return Division{"gores", c.Gores, 2}
	}
	return Division{"gores", c.Gores, 1}
}

func (c CircleSkirt) Divide(pieces int) Draft { c.Gores = pieces; return c }

func (g GoredSkirt) Division() Division { return Division{"gores", g.Gores, 1} }

func (g GoredSkirt) Divide(pieces int) Draft { g.Gores = pieces; return g }

func (c Cape) Division() Division { return inSections(c.Sections) }

func (c Cape) Divide(pieces int) Draft { c.Sections = pieces; return c }

func (f Flounce) Division() Division { return inSections(f.Sections) }

func (f Flounce) Divide(pieces int) Draft { f.Sections = pieces; return f }

func (o Overskirt) Division() Division { return inSections(o.Sections) }

func (o Overskirt) Divide(pieces int) Draft { o.Sections = pieces; return o }

func (p Peplum) Division() Division { return inSections(p.Sections) }

func (p Peplum) Divide(pieces int) Draft { p.Sections = pieces; return p }

// Division is that of the skirt.
func (t Train) Division() Division {
	if d, ok := t.Skirt.(Divided); ok {
		return d.Division()
	}
	return Division{}
}

func (t Train) Divide(pieces int) Draft {
	if d, ok := t.Skirt.(Divided); ok {
		t.Skirt = d.Divide(pieces)
	}
	return t
}
