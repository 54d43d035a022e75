package main

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"sync"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// cloth is a layout problem with a name that says what is laid.
type cloth struct {
	name    string
	problem nest.Problem
}

// How many of each style there are, and how many pieces a cloth may hold.
const (
	perStyle    = 3
	fewestLaid  = 4
	mostLaid    = 60
	selvedge    = inch / 2
	gap         = inch / 8
	mostBodies  = 4
	mostTimes   = 3
	firstBodies = 1
)

// nap is which ways pieces may lie. On all-way cloth they keep to the grain and lie
// either way up, as on net.
type nap struct {
	name  string
	turns []float64
	faces bool // alike on both
}

var naps = []nap{
	{"two-way", []float64{0, 180}, false},
	{"one-way", []float64{0}, false},
	{"all-way", []float64{0, 180}, true},
}

// order is what a cloth is to hold.
type order struct {
	style         style
	first, bodies int // the bodies, from the table of them, wrapping round
	times         int
	width         float64 // as sold, in
	nap           nap
	folded        bool
}

// listed is list, drafted once however often it is asked. The cloths are shared: they are not to be changed.
var listed = sync.OnceValues(list)

// list returns all cloths, the same on each call: the corset whose full columns come
// apart, then of each style some widths, naps and numbers in turn.
func list() ([]cloth, error) {
	orders := []order{{style: styles[0], bodies: 1, times: 2, width: 45, nap: naps[0]}}
	for s, st := range styles {
		for k := range perStyle {
			orders = append(orders, order{
				style: st, first: s + k, bodies: firstBodies + (s+2*k)%mostBodies, times: 1 + (s/2+k)%mostTimes,
				width: st.widths[(s+k)%len(st.widths)], nap: naps[(s+k)%len(naps)], folded: st.folded && k == 0,
			})
		}
	}
	var out []cloth
	for _, o := range orders {
		c, err := o.sized()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", o, err)
		}
		out = append(out, c)
	}
	return out, nil
}

// sized lays out an order that holds as many pieces as it may: fewer times, then
// fewer bodies, until it does; or more times.
func (o order) sized() (cloth, error) {
	for {
		c, err := o.cloth()
		if err != nil {
			return cloth{}, err
		}
		switch n := copies(c.problem); {
		case n > mostLaid && o.times > 1:
			o.times--
		case n > mostLaid && o.bodies > 1:
			o.bodies--
		case n < fewestLaid:
			o.times++
		default:
			return c, nil
		}
	}
}

func (o order) cloth() (cloth, error) {
	p := nest.Problem{Strip: nest.Strip{Width: plane.SnapDown(o.width*inch - 2*selvedge)}, Gap: plane.SnapDown(gap)}
	for k := range o.bodies {
		drafts, err := o.style.drafts(bodies[(o.first+k)%len(bodies)], p.Strip.Width)
		if err != nil {
			return cloth{}, err
		}
		for _, d := range drafts {
			made, err := d.Draft()
			if err != nil {
				return cloth{}, err
			}
			for _, piece := range made.Pieces {
				laid := nest.Piece{
					Name: piece.Name, Outline: piece.Unfold().Cut, Count: o.times * piece.Count, Turns: o.nap.turns,
				}
				switch {
				case o.nap.faces:
					laid.Mirror = nest.Free
				case piece.Pair:
					laid.Mirror = nest.Paired
				}
				p.Pieces = append(p.Pieces, laid)
			}
		}
	}
	if !o.folded {
		return cloth{o.String(), p}, nil
	}
	stretches, err := nest.Fold(p, nest.LengthwiseFold, selvedge)
	if err != nil {
		return cloth{}, err
	}
	if len(stretches) > 1 {
		return cloth{}, fmt.Errorf("an open stretch is left beside the fold")
	}
	return cloth{o.String(), stretches[0].Problem}, nil
}

// String is the name of the cloth: "corset of 12 panels, 2 bodies twice, 45 in, two-way".
func (o order) String() string {
	who := "1 body"
	if o.bodies > 1 {
		who = fmt.Sprintf("%d bodies", o.bodies)
	}
	switch o.times {
	case 1:
	case 2:
		who += " twice"
	default:
		who += fmt.Sprintf(" %d times", o.times)
	}
	name := fmt.Sprintf("%s, %s, %g in, %s", o.style.name, who, o.width, o.nap.name)
	if o.folded {
		name += ", folded"
	}
	return name
}

// copies counts the outlines laid.
func copies(p nest.Problem) int {
	n := 0
	for _, piece := range p.Pieces {
		n += piece.Count
	}
	return n
}

// mark tells problems apart, so that a run of an outline since drawn anew does not count.
func mark(p nest.Problem) (string, error) {
	text, err := json.Marshal(p)
	if err != nil {
		return "", err
	}
	h := fnv.New64a()
	h.Write(text)
	return fmt.Sprintf("%016x", h.Sum64()), nil
}
