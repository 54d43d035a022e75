package draft

import (
	"math"
	"slices"

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
	Busk    ClosedBy = "busk"    // two steels with loops and pins
)

// Sides where a seam may open, as they are worn.
const (
	OnLeft  = "left"
	OnRight = "right"
)

// SideSeam is the seam that opens at a side unless another is named.
const SideSeam = "side seam"

// Closing is what closes the openings of a draft at one centre, or one of its seams at a
// side.
//
//	top |    .  First from the top
//	    |
//	    |    .  as far apart as they may be, or a little less
//	    |
//	    |    .  First from the end
//	    |<-->|
//	     Inset
type Closing struct {
	At      string // "centre back", "centre front", OnLeft or OnRight
	Seam    string // at a side: the name of the seam among the joins; "" means SideSeam
	By      ClosedBy
	Length  float64 // from the top, mm; 0: the whole opening
	Spacing float64 // at most from one eyelet, button or hook to the next, mm
	First   float64 // of the first and the last from the ends, mm
	Inset   float64 // of eyelets from the edge, mm; 0: between the bones beside it, else as far as First
	Inner   bool    // of a lining, which lies behind: it is left open as far, and counts nothing
	Mounted bool    // of a layer that is sewn as one with the outer one: it has the stand too, and counts nothing
	Stand   Stand
}

// Closed is a closing as drafted.
type Closed struct {
	At      string
	Seam    string // at a side: the seam that opens there
	From    string // where it is measured from: TheTop or TheWaist
	By      ClosedBy
	Opening float64 // as long as the edge is, mm
	Length  float64 // that is closed, mm; of a busk the longest that goes in
	Times   int     // openings of one such part
	Places  int     // eyelets, buttons or hooks on each edge of one; 0 for a zip or a placket
	Pitch   float64 // from one to the next, mm
	First   float64 // from the ends, mm
	Inset   float64 // from the edge, mm
	Stand   float64 // how far both halves go on beyond the centre, mm; 0: they meet
}

// Where the length of a closing is measured from.
const (
	TheTop   = "top"
	TheWaist = "waist" // of a seam that runs up from it
)

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

// Of marks the places of a closing on the pieces of a draft, leaves its seam open there, and
// says what it comes to.
func (c Closing) Of(d Result) (Result, error) {
	out := Closed{At: c.At, By: c.By, First: c.First, Inset: c.Inset, From: TheTop}
	if out.Inset == 0 && c.By == Lacing {
		if out.Inset = d.EyeletsIn; out.Inset == 0 || d.LacedAt != c.At {
			out.Inset = c.First
		}
	}
	d.Pieces, d.Joins = d.ToMark(), slices.Clone(d.Joins)
	lips, join, err := c.lips(d, &out)
	if err != nil {
		return Result{}, err
	}
	edges := 0
	for i, l := range lips {
		if i == 0 {
			if out, err = c.reckon(out, l.length, d.Shut && join < 0); err != nil {
				return Result{}, say.Errorf("%s: %w", l.piece.Name, err)
			}
		}
		if math.Abs(l.length-out.Opening) > lipsDiffer {
			return Result{}, say.Errorf("%s: its %s is %.1f long, and what it is closed to %.1f", l.piece.Name,
				l.edge.Name, say.MM(l.length), say.MM(out.Opening))
		}
		edges += l.piece.Count
		if l.piece.OnFold {
			edges += l.piece.Count
		}
	}
	switch {
	case edges == 0 && (c.Inner || c.Mounted):
		return d, nil
	case edges == 0:
		return Result{}, say.Errorf("there is no opening at the %s to close", c.At).Hint("%v", openingsOf(d))
	}
	if out.Stand = c.Stand.Over; out.Stand > 0 {
		if err := c.checkStand(out); err != nil {
			return Result{}, err
		}
	}
	for _, l := range lips {
		if err := c.mark(l, out); err != nil {
			return Result{}, err
		}
	}
	c.leaveOpen(&d, join, out)
	if out.Stand > 0 {
		if err := c.stand(&d); err != nil {
			return Result{}, err
		}
	}
	if c.Inner || c.Mounted {
		return d, nil
	}
	if out.Times = (edges + 1) / 2; join >= 0 {
		out.Times = 1
	}
	d.Closed = append(d.Closed, out)
	return d, nil
}

// lipsDiffer is by how much both edges of an opening may, mm: they are closed to each other.
const lipsDiffer = 0.5

// reckon says how far an opening of a length is closed, and by how many.
func (c Closing) reckon(out Closed, opening float64, shut bool) (Closed, error) {
	out.Opening, out.Length = opening, c.Length
	switch {
	case c.Length > opening+lipsDiffer:
		return out, say.Errorf("%s %.1f long does not go into an opening of %.1f", string(c.By), say.MM(c.Length),
			say.MM(opening)).
			Hint("a shorter one, or leave out its length: it closes the whole opening then")
	case c.Length == 0 && shut:
		return out, say.Errorf("its %s runs on to the hem, and is closed part of the way", c.At).
			Hint("give the closing a `length` that lets the hips through")
	case c.Length == 0:
		out.Length = opening
	}
	var err error
	if c.By == Busk {
		if out.Length -= 2 * c.First; out.Length < leastBusk {
			return out, say.Errorf("a busk that ends %.1f from both ends of a closing %.1f long is %.1f, needs %v",
				say.MM(c.First), say.MM(out.Length+2*c.First), say.MM(out.Length), say.MM(leastBusk)).
				Hint("nearer to its ends")
		}
		return out, nil
	}
	if c.Spacing > 0 {
		out.Places, out.Pitch, err = c.places(out.Length)
	}
	return out, err
}

// leastBusk is the shortest busk, mm: of three loops.
const leastBusk = 100
