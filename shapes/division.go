package shapes

// Divided is a draft that goes round in a number of pieces which may be chosen: of
// more of them, each is narrower.
type Divided interface {
	Draft
	// Division says how many pieces go round, and what that number is called; 0
	// where the draft chooses it.
	Division() (called string, pieces int)
	// Divide returns the same draft in another number of pieces.
	Divide(pieces int) Draft
}

func (c CircleSkirt) Division() (string, int) { return "gores", c.Gores }

func (c CircleSkirt) Divide(pieces int) Draft { c.Gores = pieces; return c }

func (g GoredSkirt) Division() (string, int) { return "gores", g.Gores }

func (g GoredSkirt) Divide(pieces int) Draft { g.Gores = pieces; return g }

func (c Cape) Division() (string, int) { return "sections", c.Sections }

func (c Cape) Divide(pieces int) Draft { c.Sections = pieces; return c }

func (f Flounce) Division() (string, int) { return "sections", f.Sections }

func (f Flounce) Divide(pieces int) Draft { f.Sections = pieces; return f }

func (o Overskirt) Division() (string, int) { return "sections", o.Sections }

func (o Overskirt) Divide(pieces int) Draft { o.Sections = pieces; return o }

func (p Peplum) Division() (string, int) { return "sections", p.Sections }

func (p Peplum) Divide(pieces int) Draft { p.Sections = pieces; return p }

// Division is that of the skirt.
func (t Train) Division() (string, int) {
	if d, ok := t.Skirt.(Divided); ok {
		return d.Division()
	}
	return "", 0
}

func (t Train) Divide(pieces int) Draft {
	if d, ok := t.Skirt.(Divided); ok {
		t.Skirt = d.Divide(pieces)
	}
	return t
}
