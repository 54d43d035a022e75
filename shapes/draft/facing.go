package draft

import (
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Facing is the facing of a draft's edges at one place: strips of the shape of its
// pieces there, sewn to the edge and turned inside.
//
//	    shoulder
//	   ,-------.         the faced edge as it is on the piece, with its allowance
//	  (        |  Width  the seams at both ends as they are, Width long
//	 / faced   |
//	|   edge   |         free edge: Width from the faced one, measured at its ends along
//	'----------'         the seams, between them in directions that swing from one to
//	  the other, so that facings are as deep on both sides of every seam
//
// A dart that opens on the faced edge is folded, so that the facing has none. The
// allowances are those of the pieces; the free edge has one of its own.
type Facing struct {
	Of    Draft
	At    Place
	Width float64 // finished, mm
	Seam  float64 // allowance of a hem that is faced, mm
	Free  float64 // allowance of the free edge, mm; 0 where it is overcast
	Fused bool    // interfacing of such a facing
	Bare  float64 // allowance of interfacing all round, mm

	// Stands are closings with stands, whose own facings face the edges at an opening as far as they
	// reach beyond the centre: this one ends there.
	Stands []Closing
}

// freeEdge is the name of a facing's edge that is sewn to nothing.
const freeEdge = "free edge"

// Draft returns the facing of each piece that has an edge there, in its order, and the
// seams between them.
func (f Facing) Draft() (Result, error) {
	return named(string(f.At) + " facing")(f.draft())
}

func (f Facing) draft() (Result, error) {
	if err := positive(measured{"width", f.Width}); err != nil {
		return Result{}, err
	}
	if err := notNegative(measured{"seam allowance", f.Seam}, measured{"allowance of the free edge", f.Free},
		measured{"interfacing allowance", f.Bare}); err != nil {
		return Result{}, err
	}
	of, err := f.Of.Draft()
	if err != nil {
		return Result{}, err
	}
	if of.Gusseted {
		return Result{}, say.Errorf("its edges run over gussets, which a facing does not follow").
			Hint("bind them, or line it")
	}
	whole := of.Pieces
	of.Pieces = slices.Clone(whole)
	for _, c := range f.Stands {
		if err := c.onStands(&of, c.Stand.cutBack); err != nil {
			return Result{}, err
		}
	}
	d := Result{Fused: f.Fused, Apart: true, Faced: shapes.Join{Name: string(f.At) + " facing"}}
	for k, p := range of.Pieces {
		runs, err := facedRuns(p, f.At)
		if err != nil {
			return Result{}, say.Errorf("%s: %w", p.Name, err)
		}
		for i, c := range runs {
			piece, err := f.piece(p, c, i)
			if err != nil {
				return Result{}, say.Errorf("%s: %w", p.Name, err)
			}
			d.Pieces = append(d.Pieces, piece)
			for _, e := range c.edges {
				if f.within(e.Name) {
					continue
				}
				long, _ := whole[k].Edge(e.Name)
				for _, s := range copiesOf(p, e.Name) {
					d.Faced.A.Edges = append(d.Faced.A.Edges, s)
					d.Faced.A.Treatment.Lap += float64(max(s.Copies, 1)) * (long.Length() - e.Length())
				}
				d.Faced.B.Edges = append(d.Faced.B.Edges, copiesOf(piece, e.Name)...)
			}
		}
	}
	if len(d.Pieces) == 0 {
		return Result{}, say.Errorf("there is no edge at the %s to face", string(f.At)).
			Hint("%s", placesOf(of.Pieces))
	}
	if f.Fused {
		d.Faced = shapes.Join{}
		return d, nil
	}
	if d.Faced.A.Treatment.Lap < 1e-6 {
		d.Faced.A.Treatment.Lap = 0
	}
	if err := d.Faced.A.FoldDarts(whole); err != nil {
		return Result{}, err
	}
	d.Joins = f.joins(of, d.Pieces)
	return d, nil
}

// copiesOf is an edge of all copies of a piece along a seam; one with darts copy by copy,
// for those of each are folded.
func copiesOf(p shapes.Piece, edge string) []shapes.SewnEdge {
	copies := p.Count
	if p.OnFold {
		copies *= 2
	}
	e := shapes.SewnEdge{Piece: p.Name, Edge: edge, Copies: copies}
	if !slices.ContainsFunc(p.Darts, func(d shapes.Dart) bool { return d.Edge == edge }) {
		return []shapes.SewnEdge{e}
	}
	e.Copies = 0
	return slices.Repeat([]shapes.SewnEdge{e}, copies)
}

// nameOf is what the facing of a piece is called.
func (f Facing) nameOf(piece string, run int) string {
	name := piece + " " + string(f.At) + " facing" + strings.Repeat(" more", run)
	if f.Fused {
		name += ", interfacing"
	}
	return name
}

// joins returns the seams of the draft that run on through the facings. At an opening
// their ends are turned in, and sewn to the tape of a zip; but the opening of a skirt is
// shut at its hem.
func (f Facing) joins(of Result, facings []shapes.Piece) []shapes.Join {
	opening := func(e shapes.SewnEdge) bool {
		i := slices.IndexFunc(of.Pieces, func(p shapes.Piece) bool { return p.Name == e.Piece })
		edge, _ := of.Pieces[i].Edge(e.Edge)
		return edge.Kind == shapes.Opening && !(of.Shut && f.At == AtHem)
	}
	side := func(s shapes.JoinSide) (shapes.JoinSide, bool) {
		var out shapes.JoinSide
		for _, e := range s.Edges {
			e.Piece = f.nameOf(e.Piece, 0)
			if !slices.ContainsFunc(facings, func(p shapes.Piece) bool {
				_, ok := p.Edge(e.Edge)
				return ok && p.Name == e.Piece
			}) {
				return shapes.JoinSide{}, false
			}
			out.Edges = append(out.Edges, e)
			if f.within(e.Edge) {
				out.Treatment = s.Treatment
			}
		}
		return out, len(out.Edges) > 0
	}
	var out []shapes.Join
	for _, j := range of.Joins {
		if slices.ContainsFunc(j.A.Edges, opening) {
			continue
		}
		a, okA := side(j.A)
		b, okB := side(j.B)
		if okA && okB {
			out = append(out, shapes.Join{Name: string(f.At) + " facing, " + j.Name, Times: j.Times, A: a, B: b})
		}
	}
	return out
}

// facedRun are edges of a piece at one place that follow each other, and those before and
// behind them.
type facedRun struct {
	edges        []shapes.Edge
	before, next shapes.Edge
	darts        []folded // on the edges, from their start
}

// facedRuns finds the edges of a piece at a place.
func facedRuns(p shapes.Piece, at Place) ([]facedRun, error) {
	n := len(p.Edges)
	first := slices.IndexFunc(p.Edges, func(e shapes.Edge) bool { return !at.has(e) })
	if first < 0 {
		return nil, say.Errorf("its %s runs all round in one, so that a facing would be a ring", string(at)).
			Hint("seams that part it, or a binding on the bias")
	}
	var out []facedRun
	for i := range n {
		e := p.Edges[(first+i)%n]
		before := p.Edges[(first+i+n-1)%n]
		switch {
		case !at.has(e):
		case at.has(before):
			last := &out[len(out)-1]
			last.edges, last.next = append(last.edges, e), p.Edges[(first+i+1)%n]
		default:
			out = append(out, facedRun{edges: []shapes.Edge{e}, before: before, next: p.Edges[(first+i+1)%n]})
		}
	}
	for i := range out {
		var err error
		if out[i].darts, err = dartsOn(p, out[i].edges); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// piece drafts the facing of a piece along a run of its edges.
func (f Facing) piece(p shapes.Piece, c facedRun, number int) (shapes.Piece, error) {
	draw := c.strip
	if f.At == AtNeckAndArmhole {
		draw = c.combined
	}
	s, err := draw(p, f.Width)
	if err != nil {
		return shapes.Piece{}, err
	}
	allowed := func(mm float64, kind shapes.EdgeKind) float64 {
		switch {
		case kind == shapes.Fold:
			return 0
		case f.Fused:
			return f.Bare
		}
		return mm
	}
	var edges []shapes.Edge
	add := func(name string, kind shapes.EdgeKind, line orb.LineString, mm float64) {
		edges = append(edges, shapes.Edge{Name: name, Kind: kind, Line: line, Allowance: allowed(mm, kind)})
	}
	for i, e := range c.edges {
		mm := e.Allowance
		if e.Kind == shapes.Hem {
			mm = f.Seam
		}
		add(e.Name, shapes.Seam, s.faced[i], mm)
	}
	add(c.next.Name, endKind(c.next), s.next, c.next.Allowance)
	add(freeEdge, shapes.Hem, s.free, f.Free)
	before := c.before.Name
	if before == c.next.Name {
		before += ", other end"
	}
	add(before, endKind(c.before), s.before, c.before.Allowance)
	out, err := shapes.NewPiece(f.nameOf(p.Name, number), edges)
	if err != nil {
		return shapes.Piece{}, err
	}
	out.Count, out.Pair, out.Labels = p.Count, p.Pair, p.Labels
	if p.OnFold && !out.OnFold {
		out.Count, out.Pair = 2*p.Count, true
		if p.Count == 1 {
			out.Labels = []string{"left", "right"}
		}
	}
	return out, f.notch(&out, p, c)
}

// endKind is the kind of a facing's end: a fold stays one, all else is sewn.
func endKind(e shapes.Edge) shapes.EdgeKind {
	if e.Kind == shapes.Fold {
		return shapes.Fold
	}
	return shapes.Seam
}

// notch gives a facing the notches of the edges that it is sewn to, but for those of
// darts.
func (f Facing) notch(out *shapes.Piece, p shapes.Piece, c facedRun) error {
	if f.Fused {
		return nil
	}
	for _, e := range c.edges {
		for _, n := range p.Notches {
			at, ok := e.Along(n.At)
			if n.Edge != e.Name || !ok {
				continue
			}
			if at, ok = c.foldedAt(e.Name, at); !ok {
				continue
			}
			if err := out.AddNotch(e.Name, at); err != nil {
				return err
			}
			last := &out.Notches[len(out.Notches)-1]
			last.Copy, last.Of = n.Copy, n.Of
		}
	}
	return nil
}

// CheckFacings refuses facings of one draft that overlap along an edge between them, as
// those of neck and armhole do on a short shoulder.
func CheckFacings(of Result, facings []Facing) error {
	type end struct {
		facing Facing
		from   bool // it lies at the start of the edge
	}
	for _, p := range of.Pieces {
		ends := map[string][]end{}
		for _, f := range facings {
			runs, err := facedRuns(p, f.At)
			if err != nil {
				continue // told when it is drawn
			}
			for _, c := range runs {
				ends[c.next.Name] = append(ends[c.next.Name], end{f, true})
				ends[c.before.Name] = append(ends[c.before.Name], end{f, false})
			}
		}
		for _, e := range p.Edges {
			at := ends[e.Name]
			if len(at) < 2 || at[0].from == at[1].from {
				continue
			}
			if length := plane.Length(e.Line); at[0].facing.Width+at[1].facing.Width > length {
				return say.Errorf("%s: the facings of %s and %s, %.1f and %.1f wide, overlap on its %s of %.1f", p.Name,
					string(at[0].facing.At), string(at[1].facing.At), say.MM(at[0].facing.Width),
					say.MM(at[1].facing.Width), e.Name, say.MM(length)).
					Hint("narrower facings, one in one piece (at = \"neck-and-armhole\"), or a lining in place of one")
			}
		}
	}
	return nil
}
