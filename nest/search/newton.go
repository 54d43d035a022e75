package search

import "math"

// newtonSteps bounds the walk; most end after two to four.
const newtonSteps = 12

// finalists is how many of the places that a first step was taken from are walked on from: half. By experiment at
// equal work that is better than all (benchmarks/README.md, "First steps").
const finalists = 2

// descent is a place of an item on its way out of overlaps.
type descent struct {
	trial
	last contact // whose line the last step led to
}

// race takes a step from the present place of item i and from the best of some samples, walks on from the cheapest
// and returns the cheapest place it comes to.
func (l *lane) race(i int, now trial, best [refined]trial) trial {
	var descents [1 + refined]descent
	n := 0
	enter := func(t trial) {
		w := descent{trial: t}
		l.step(i, &w)
		at := n
		for ; at > 0 && descents[at-1].loss > w.loss; at-- {
			descents[at] = descents[at-1]
		}
		descents[at], n = w, n+1
	}
	enter(now)
	for _, t := range best {
		if !math.IsInf(t.loss, 1) {
			enter(t)
		}
	}
	winner := descents[0].trial
	for k := range min(n, finalists) {
		l.walkOn(i, &descents[k], newtonSteps-1)
		if descents[k].loss < winner.loss {
			winner = descents[k].trial
		}
	}
	return winner
}

// newton walks from a place for as long as it gets cheaper.
func (l *lane) newton(i int, t trial) trial {
	w := descent{trial: t}
	l.walkOn(i, &w, newtonSteps)
	return w.trial
}

// walkOn takes so many steps at most, for as long as it gets cheaper.
func (l *lane) walkOn(i int, w *descent, steps int) {
	for range steps {
		if !l.step(i, w) {
			return
		}
	}
}

// step moves the item out along one way out, or to where two of them are met at once: the loss is piecewise linear
// near a vertex of its no-fit regions, and that is its next corner. It says whether that is cheaper.
func (l *lane) step(i int, w *descent) bool {
	way := &l.items[i].ways[w.way]
	s, along, across := way.shape, l.along(i, way), l.across(i, way)
	w.loss = l.lossContacts(i, s, w.x, w.y)
	if w.loss == 0 {
		return false
	}
	heavy := l.heaviest()
	best := *w
	try := func(dx, dy float64, line contact) {
		x, y := along.nearest(w.x+dx), across.nearest(w.y+dy)
		if loss := l.loss(i, s, x, y, best.loss); loss < best.loss {
			best = descent{trial{w.way, x, y, loss}, line}
		}
	}
	for a, c := range heavy {
		if c.depth == 0 {
			break
		}
		try(c.nx*c.depth, c.ny*c.depth, c)
		for _, d := range heavy[a+1:] {
			if d.depth == 0 {
				break
			}
			crossLines(c, d, try)
		}
		if w.last.loss > 0 {
			crossLines(c, contact{nx: w.last.nx, ny: w.last.ny}, try)
		}
		slideAlongEdge(w.trial, c, along, across, try)
	}
	if best.loss >= w.loss {
		return false
	}
	*w = best
	return true
}

// heaviest returns up to three contacts of greatest loss, heaviest first.
func (l *lane) heaviest() (h [3]contact) {
	for _, c := range l.contacts {
		for k := range h {
			if c.loss > h[k].loss {
				c, h[k] = h[k], c
			}
		}
	}
	return h
}

// crossLines tries the move that satisfies both lines n . move = depth.
func crossLines(c, d contact, try func(dx, dy float64, line contact)) {
	det := c.nx*d.ny - c.ny*d.nx
	if math.Abs(det) < 1e-6 {
		return
	}
	try((c.depth*d.ny-d.depth*c.ny)/det, (d.depth*c.nx-c.depth*d.nx)/det, c)
}

// slideAlongEdge tries to leave one overlap along the strip's edge that the
// way out runs into, or along the line of a grid that it misses.
func slideAlongEdge(t trial, c contact, along, across track, try func(dx, dy float64, line contact)) {
	dx, dy := c.nx*c.depth, c.ny*c.depth
	if x := along.nearest(t.x + dx); x != t.x+dx && math.Abs(c.ny) > 1e-6 {
		dx = x - t.x
		try(dx, (c.depth-c.nx*dx)/c.ny, c)
	}
	if y := across.nearest(t.y + dy); y != t.y+dy && math.Abs(c.nx) > 1e-6 {
		dy = y - t.y
		try((c.depth-c.ny*dy)/c.nx, dy, c)
	}
}
