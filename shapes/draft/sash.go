package draft

import (
	"cmp"
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Sash is a band round the waist with tails that may widen to slanted or pointed
// ends:
//
//	          centre back
//	 slanted     Width            pointed
//	.-----------___|___-----------.
//	 \         ___ : ___           >   TailWidth
//	  '-------'    |    '---------'
//	|<---------- Length ---------->|
//
// Cut in one, or in halves with a seam at the centre back; of one layer with
// hems, or of two bagged out: sewn together all round but for a gap, and turned
// through it.
type Sash struct {
	Length    float64 // finished, from tip to tip, mm
	Width     float64 // finished, at the centre back, mm
	TailWidth float64 // finished, at the ends, mm; 0 means Width
	End       float64 // depth of the point or the slant, mm; 0 for square ends
	Slanted   bool    // the ends are slanted instead of pointed
	Halves    bool    // a seam at the centre back
	Layers    int     // 1 or 2; 0 means 1
	Allowance shapes.Allowance
}

// Draft returns the one piece with its count. Long sides and ends take the hem
// allowance of one layer, the seam allowance of two.
func (s Sash) Draft() (Result, error) { return named("sash")(s.draft()) }

func (s Sash) draft() (Result, error) {
	if err := s.check(); err != nil {
		return Result{}, err
	}
	layers := max(s.Layers, 1)
	name, edges, copies := "sash", s.whole(), 1
	if s.Halves {
		name, edges, copies = "sash half", s.half(), 2
	}
	p, err := shapes.NewPiece(name, edges)
	if err != nil {
		return Result{}, err
	}
	p.Count = copies * layers
	if s.Halves && s.Slanted && s.End > 0 { // a pointed half is its own mirror image
		p.Pair, p.Labels = true, sideLabels(p.Count)
	}
	var joins []shapes.Join
	if s.Halves {
		back := against(name, "centre back")
		joins = append(joins, seamOf("centre back", layers, back, back))
	}
	if layers == 2 {
		joins = append(joins, s.bagged(name, edges, copies)...)
	}
	d := Result{Pieces: []shapes.Piece{p}, Joins: joins}
	return d, d.notch()
}

// bagged returns the seams that sew two layers together all round, the last of them with
// the gap to turn them through: the lower edge, from end to end.
func (s Sash) bagged(name string, edges []shapes.Edge, copies int) []shapes.Join {
	var joins []shapes.Join
	for _, e := range edges {
		if e.Name != "centre back" && e.Name != gapEdge {
			edge := along(name, e.Name)
			joins = append(joins, seamOf("layer to layer, "+e.Name, copies, edge, edge, e.Length()/2))
		}
	}
	run, half := []shapes.SewnEdge{along(name, gapEdge)}, edges[0].Length()/2
	if s.Halves {
		run, half = thereAndBack([]shapes.SewnEdge{against(name, gapEdge)}), edges[0].Length()
	}
	reach := min(turningGap, 2*half/3) / 2
	side := shapes.JoinSide{Edges: run}
	last := shapes.Join{Name: "layer to layer, " + gapEdge, A: side, B: side,
		Gap: shapes.Gap{From: half - reach, To: half + reach}}
	last.Notches = []float64{last.Gap.From, last.Gap.To}
	return append(joins, last)
}

// gapEdge is the first edge of a sash, which the gap is in.
const gapEdge = "lower edge"

// turningGap is the gap that a sash is turned through, mm: 4 in, wide enough for a hand
// (common practice); of a shorter edge a third.
const turningGap = 101.6

func (s Sash) edge(name string, line ...orb.Point) shapes.Edge {
	kind := shapes.Hem
	if s.Layers == 2 {
		kind = shapes.Seam
	}
	return shapes.Edge{Name: name, Kind: kind, Line: line, Allowance: s.Allowance.For(kind)}
}

// tail returns the end of the sash at high x from its lower to its upper corner,
// x from the centre back; a slanted end is longest at its lower corner.
func (s Sash) tail() []orb.Point {
	half, tip := s.Length/2, s.TailWidth/2
	if s.TailWidth == 0 {
		tip = s.Width / 2
	}
	switch {
	case s.End == 0:
		return []orb.Point{{half, -tip}, {half, tip}}
	case s.Slanted:
		return []orb.Point{{half, -tip}, {half - s.End, tip}}
	}
	return []orb.Point{{half - s.End, -tip}, {half, 0}, {half - s.End, tip}}
}

func (s Sash) half() []shapes.Edge {
	end := s.tail()
	lower, upper := orb.Point{0, -s.Width / 2}, orb.Point{0, s.Width / 2}
	return []shapes.Edge{
		s.edge(gapEdge, lower, end[0]),
		s.edge("end", end...),
		s.edge("upper edge", end[len(end)-1], upper),
		{Name: "centre back", Kind: shapes.Seam, Line: orb.LineString{upper, lower},
			Allowance: s.Allowance.For(shapes.Seam)},
	}
}

func (s Sash) whole() []shapes.Edge {
	far := s.tail()
	near := make([]orb.Point, 0, len(far))
	for i := len(far) - 1; i >= 0; i-- {
		near = append(near, orb.Point{-far[i][0], far[i][1]})
	}
	lower, upper := orb.Point{0, -s.Width / 2}, orb.Point{0, s.Width / 2}
	return []shapes.Edge{
		s.edge(gapEdge, near[len(near)-1], lower, far[0]),
		s.edge("far end", far...),
		s.edge("upper edge", far[len(far)-1], upper, near[0]),
		s.edge("near end", near...),
	}
}

func (s Sash) check() error {
	if err := cmp.Or(
		positive(measured{"length", s.Length}, measured{"width", s.Width}),
		notNegative(measured{"tail width", s.TailWidth}, measured{"end", s.End}),
	); err != nil {
		return err
	}
	if s.End >= s.Length/2 {
		return say.Errorf("ends of %.6g take the whole length of %.6g", say.MM(s.End), say.MM(s.Length))
	}
	if s.Layers < 0 || s.Layers > 2 {
		return fmt.Errorf("layers: %d, must be 1 or 2", s.Layers)
	}
	return s.Allowance.Check()
}
