package draft

import (
	"github.com/paulmach/orb"

	"yardlay/shapes"
)

// tube is a strip folded lengthwise, sewn along its long side and turned:
//
//	.--------------------.
//	|      upper edge      '.
//	|- - - - - fold - - - - - >   slant: folded, the end is cut at an angle
//	|      lower edge      .'
//	'--------------------'
//
// Its far end is sewn shut, or to the near end, which makes it a ring.
type tube struct {
	name          string
	length, width float64 // finished, folded, mm
	slant         float64 // how much longer the fold is than the edges, mm
	ring          bool
	allowance     float64 // of all edges, mm
}

func (s tube) piece() (shapes.Piece, error) {
	edge := func(name string, line ...orb.Point) shapes.Edge {
		return shapes.Edge{Name: name, Kind: shapes.Seam, Line: line, Allowance: s.allowance}
	}
	near, corner, tip, top := orb.Point{}, orb.Point{s.length - s.slant, 0}, orb.Point{s.length,
		s.width}, orb.Point{s.length - s.slant, 2 * s.width}
	edges := []shapes.Edge{edge("lower edge", near, corner)}
	if s.ring {
		edges = append(edges, edge("far end", corner, top))
	} else {
		edges = append(edges, edge("lower end", corner, tip), edge("upper end", tip, top))
	}
	edges = append(edges, edge("upper edge", top, orb.Point{0, 2 * s.width}),
		edge("near end", orb.Point{0, 2 * s.width}, near))
	p, err := shapes.NewPiece(s.name, edges)
	if err != nil {
		return shapes.Piece{}, err
	}
	p.Mark(edges, orb.LineString{{0, s.width}, {s.length, s.width}})
	// In the middle the arrow would lie on the fold line.
	p.Grain = p.Inside[0].Clone()
	length := s.length - s.slant
	for i, share := range []float64{0.15, 0.85} {
		p.Grain[i] = orb.Point{p.Inside[0][0][0] + share*length, p.Inside[0][0][1] - s.width/2}
	}
	return p, nil
}

// joins returns the seam along the tube, and that of its end.
func (s tube) joins() []shapes.Join {
	lower, upper := along(s.name, "lower edge"), against(s.name, "upper edge")
	long := seamOf(s.name+", long seam", 1, lower, upper, (s.length-s.slant)/2)
	if s.ring {
		return []shapes.Join{long, seamOf(s.name+", ring", 1, against(s.name, "near end"), along(s.name, "far end"))}
	}
	return []shapes.Join{long, seamOf(s.name+", end", 1, along(s.name, "lower end"), against(s.name, "upper end"))}
}

// tubes drafts several, each with a count, and their seams.
func tubes(list []tube, counts []int) (Result, error) {
	var d Result
	for i, s := range list {
		p, err := s.piece()
		if err != nil {
			return Result{}, err
		}
		p.Count = counts[i]
		d.Pieces = append(d.Pieces, p)
		for _, j := range s.joins() {
			j.Times = counts[i]
			d.Joins = append(d.Joins, j)
		}
	}
	return d, d.notch()
}
