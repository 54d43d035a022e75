package draft

import (
	"slices"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Place is where a garment has an edge that may be faced.
type Place string

// Places of edges.
const (
	AtHem     Place = "hem"
	AtWaist   Place = "waist"
	AtNeck    Place = "neck"
	AtArmhole Place = "armhole"
	AtTop     Place = "top"

	AtNeckAndArmhole Place = "neck-and-armhole" // in one, over the shoulder
)

// has says whether an edge lies there.
func (at Place) has(e shapes.Edge) bool {
	switch at {
	case AtHem:
		return e.Kind == shapes.Hem
	case AtWaist:
		return e.Kind == shapes.Waist
	case AtTop:
		return e.Kind == shapes.Top
	case AtNeckAndArmhole:
		return slices.Contains([]string{neckName, "armhole", "shoulder"}, e.Name)
	}
	return e.Name == string(at)
}

// Finish is what becomes of the edges of a draft where it is not what is usual. The
// zero value leaves all as it is: hems are turned up, their corners mirrored in the seams.
type Finish struct {
	StraightHem bool    // the corners of hems run straight on from the seams
	BaggedHem   bool    // hems are sewn to those of a lining, and take the seam allowance
	Faced       []Place // edges that are sewn to a facing; hems take the seam allowance
	Seam        float64 // that allowance, mm
	Closings    []Closing
	Edgings     []Edging
}

// Of returns what a draft comes to with its edges so finished and its openings closed. A
// draft without edges to finish is refused, and so are hems both bagged and faced.
func (f Finish) Of(d Result) (Result, error) {
	var err error
	for _, e := range f.Edgings {
		edged, err := e.of(d)
		if err != nil {
			return Result{}, err
		}
		d.Edged = append(d.Edged, edged)
		d.Notes = append(slices.Clip(d.Notes), edged.note())
	}
	if f.StraightHem || f.BaggedHem || len(f.Faced) > 0 {
		if d, err = f.edges(d); err != nil {
			return Result{}, err
		}
	}
	for _, c := range f.Closings {
		if d, err = c.Of(d); err != nil {
			return Result{}, err
		}
	}
	return d, nil
}

// edges finishes the edges.
func (f Finish) edges(d Result) (Result, error) {
	if d.Gathered && f.faced(AtTop) {
		return Result{}, say.Errorf("its top is gathered and sewn on, and cannot be faced").
			Hint("leave out its facing")
	}
	var err error
	found := map[Place]bool{}
	change := func(e shapes.Edge) shapes.Edge {
		if e.Kind == shapes.Hem {
			found[AtHem] = true
			e.Straight = f.StraightHem
		}
		for _, at := range f.Faced {
			if at.has(e) {
				found[at] = true
				return f.sewn(e)
			}
		}
		if f.BaggedHem && e.Kind == shapes.Hem {
			return f.sewn(e)
		}
		return e
	}
	if f.BaggedHem {
		if d.Bag, err = d.hems(); err != nil {
			return Result{}, err
		}
	}
	pieces := make([]shapes.Piece, len(d.Pieces))
	for i, p := range d.Pieces {
		if pieces[i], err = p.Refinish(change); err != nil {
			return Result{}, err
		}
	}
	for _, at := range f.Faced {
		if !found[at] {
			return Result{}, say.Errorf("there is no edge at the %s to face", string(at)).
				Hint("%s", placesOf(d.Pieces))
		}
	}
	if !found[AtHem] && (f.StraightHem || f.BaggedHem) {
		return Result{}, say.Errorf("there is no hem to finish").
			Hint("leave out `hem_corners`, `bag_hem` and `jump_hem`, or let its lower edge be a hem where it has a " +
				"`lower_edge`")
	}
	d.Pieces = pieces
	return d, nil
}

// placesOf says at which places there are edges to face.
func placesOf(pieces []shapes.Piece) say.Text {
	var names []string
	for _, at := range []Place{AtNeck, AtArmhole, AtWaist, AtTop, AtHem} {
		if len(edgesAt(pieces, at).Edges) > 0 {
			names = append(names, string(at))
		}
	}
	if len(names) == 0 {
		return say.Textf("leave out its facing")
	}
	return say.Textf("it has edges at the %s", say.InWords(names, "and"))
}

// faced says whether edges at a place are.
func (f Finish) faced(at Place) bool {
	for _, place := range f.Faced {
		if place == at {
			return true
		}
	}
	return false
}

// sewn is an edge that is sewn to a facing or a lining.
func (f Finish) sewn(e shapes.Edge) shapes.Edge {
	if e.Kind == shapes.Hem {
		e.Allowance = f.Seam
	}
	e.Kind, e.Straight = shapes.Seam, false
	return e
}

// edgesAt are the edges of some pieces at a place, piece by piece and all copies.
func edgesAt(pieces []shapes.Piece, at Place) shapes.JoinSide {
	var s shapes.JoinSide
	for _, p := range pieces {
		copies := p.Count
		if p.OnFold {
			copies *= 2
		}
		for _, e := range p.Edges {
			if at.has(e) {
				s.Edges = append(s.Edges, shapes.SewnEdge{Piece: p.Name, Edge: e.Name, Copies: copies})
			}
		}
	}
	return s
}

// hems are the hems of a draft as a side of a seam, with darts and an ease pleat folded.
func (d Result) hems() (shapes.JoinSide, error) {
	var s shapes.JoinSide
	for _, p := range d.Pieces {
		for _, e := range p.Edges {
			if AtHem.has(e) {
				s.Edges = append(s.Edges, copiesOf(p, e.Name)...)
			}
		}
	}
	if d.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, d.EasePleat
	}
	if len(s.Edges) == 0 {
		return s, nil
	}
	return s, s.FoldDarts(d.Pieces)
}
