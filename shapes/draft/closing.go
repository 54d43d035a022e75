package draft

import (
	"math"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// ClosedBy is what closes an opening.
type ClosedBy string

// Ways to close an opening.
const (
	Zip     ClosedBy = "zip"
	Placket ClosedBy = "placket" // a strip that binds both edges of a slit in one
	Lacing  ClosedBy = "lacing"
	Buttons ClosedBy = "buttons" // and loops
	Hooks   ClosedBy = "hooks"   // and eyes
)

// Closing is what closes the openings of a draft at one centre.
//
//	top |    .  First from the top
//	    |
//	    |    .  as far apart as they may be, or a little less
//	    |
//	    |    .  First from the end
//	    |<-->|
//	     Inset
type Closing struct {
	At      string // "centre back" or "centre front"
	By      ClosedBy
	Length  float64 // from the top, mm; 0: the whole opening
	Spacing float64 // at most from one eyelet, button or hook to the next, mm
	First   float64 // of the first and the last from the ends, mm
	Inset   float64 // of eyelets from the edge, mm; 0: between the bones beside it, else as far as First
}

// Closed is a closing as drafted.
type Closed struct {
	At      string
	By      ClosedBy
	Opening float64 // as long as the edge is, mm
	Length  float64 // that is closed, mm
	Times   int     // openings of one such part
	Places  int     // eyelets, buttons or hooks on each edge of one; 0 for a zip or a placket
	Pitch   float64 // from one to the next, mm
	First   float64 // from the ends, mm
	Inset   float64 // from the edge, mm
}

// Set is how many eyelets, buttons or hooks and eyes one such part takes: eyelets on both
// edges.
func (c Closed) Set() int {
	if c.By == Lacing {
		return 2 * c.Times * c.Places
	}
	return c.Times * c.Places
}

// mostPlaces is the most eyelets, buttons or hooks on an edge: one to every 5 mm of a
// metre and a half. More is a slip of the pen.
const mostPlaces = 300

// places returns how many places lie on a length, and how far apart.
func (c Closing) places(length float64) (n int, pitch float64, err error) {
	room := length - 2*c.First
	if room < 0 {
		return 0, 0, say.Errorf("%s %.1f long has no room for two %.1f from its ends", string(c.By), say.MM(length),
			say.MM(c.First)).
			Hint("a longer opening, or nearer to its ends")
	}
	gaps := math.Ceil(room/c.Spacing - 1e-9)
	if gaps+1 > mostPlaces {
		return 0, 0, say.Errorf("%s: %.0f on an edge of %.1f, at most %d", string(c.By), gaps+1, say.MM(length),
			mostPlaces).
			Hint("further apart")
	}
	if gaps == 0 {
		return 1, 0, nil
	}
	return int(gaps) + 1, room / gaps, nil
}

// Of marks the places of a closing on the pieces of a draft, and says what it comes to.
func (c Closing) Of(d Result) (Result, error) {
	out := Closed{At: c.At, By: c.By, First: c.First, Inset: c.Inset}
	if out.Inset == 0 && c.By == Lacing {
		if out.Inset = d.EyeletsIn; out.Inset == 0 {
			out.Inset = c.First
		}
	}
	d.Pieces = d.ToMark()
	edges := 0
	for i := range d.Pieces {
		p := &d.Pieces[i]
		for k, e := range p.Edges {
			if !c.closes(e) {
				continue
			}
			line, in := closingLine(*p, k)
			length := plane.Length(line)
			if out.Opening == 0 {
				var err error
				if out, err = c.reckon(out, length, d.Shut); err != nil {
					return Result{}, say.Errorf("%s: %w", p.Name, err)
				}
			}
			if math.Abs(length-out.Opening) > legsDiffer {
				return Result{}, say.Errorf("%s: its %s is %.1f long, and what it is closed to %.1f", p.Name, e.Name,
					say.MM(length), say.MM(out.Opening))
			}
			edges += p.Count
			if p.OnFold {
				edges += p.Count
			}
			c.mark(p, line, in, out)
		}
	}
	if edges == 0 {
		return Result{}, say.Errorf("there is no opening at the %s to close", c.At)
	}
	out.Times = (edges + 1) / 2
	d.Closed = append(d.Closed, out)
	return d, nil
}

// legsDiffer is by how much both edges of an opening may, mm: they are closed to each other.
const legsDiffer = 0.5

// closes says whether an edge is one of those that are closed; a facing grown on is that
// of the centre back.
func (c Closing) closes(e shapes.Edge) bool {
	return e.Kind == shapes.Opening &&
		(strings.Contains(e.Name, c.At) || c.At == "centre back" && e.Name == grownOn)
}

// grownOn is the edge of a facing that is grown on at the centre back.
const grownOn = "facing"

// reckon says how far an opening of a length is closed, and by how many.
func (c Closing) reckon(out Closed, opening float64, shut bool) (Closed, error) {
	out.Opening, out.Length = opening, c.Length
	switch {
	case c.Length > opening+legsDiffer:
		return out, say.Errorf("%s %.1f long does not go into an opening of %.1f", string(c.By), say.MM(c.Length),
			say.MM(opening))
	case c.Length == 0 && shut:
		return out, say.Errorf("its %s runs on to the hem, and is closed part of the way", c.At).
			Hint("give the closing a `length` that lets the hips through")
	case c.Length == 0:
		out.Length = opening
	}
	var err error
	if c.Spacing > 0 {
		out.Places, out.Pitch, err = c.places(out.Length)
	}
	return out, err
}

// mark marks the places on a piece: eyelets by crosses, all else by strokes in from the
// edge.
func (c Closing) mark(p *shapes.Piece, line orb.LineString, in orb.Point, out Closed) {
	const arm, stroke = 3, 8 // mm
	e := shapes.Edge{Line: line}
	for i := range out.Places {
		at, normal := e.At(out.First + float64(i)*out.Pitch)
		if normal[0]*in[0]+normal[1]*in[1] < 0 {
			normal = orb.Point{-normal[0], -normal[1]}
		}
		point := func(across, along float64) orb.Point {
			return orb.Point{at[0] + across*normal[0] - along*normal[1], at[1] + across*normal[1] + along*normal[0]}
		}
		if c.By == Lacing {
			x := out.Inset
			p.Inside = append(p.Inside, orb.LineString{point(x-arm, 0), point(x+arm, 0), point(x, 0), point(x, -arm),
				point(x, arm)})
			continue
		}
		p.Inside = append(p.Inside, orb.LineString{point(0, 0), point(stroke, 0)})
	}
}

// closingLine is the line of a piece that an opening edge of it is closed along, from its
// top down: the edge, or the fold of a facing grown on, which is the first line inside;
// and a direction into the piece there.
func closingLine(p shapes.Piece, k int) (line orb.LineString, in orb.Point) {
	e := p.Edges[k]
	before, next := p.Edges[(k+len(p.Edges)-1)%len(p.Edges)], p.Edges[(k+1)%len(p.Edges)]
	middle, out := e.At(e.Length() / 2)
	line, in = e.Line.Clone(), orb.Point{-out[0], -out[1]}
	top := line[0]
	if upper(next) > upper(before) {
		top = line[len(line)-1]
	}
	if e.Name == grownOn && len(p.Inside) > 0 {
		line = p.Inside[0].Clone()
		in = sub2(line[0], middle) // away from the facing, its part along the line set aside
		d := sub2(line[len(line)-1], line[0])
		t := dot(in, d) / dot(d, d)
		in = orb.Point{in[0] - t*d[0], in[1] - t*d[1]}
	}
	if planar.Distance(top, line[0]) > planar.Distance(top, line[len(line)-1]) {
		line.Reverse()
	}
	return line, in
}

// upper ranks the neighbours of an opening: the one at its top ranks higher.
func upper(e shapes.Edge) int {
	switch e.Kind {
	case shapes.Top:
		return 3
	case shapes.Waist:
		return 2
	case shapes.Hem:
		return 0
	}
	return 1
}
