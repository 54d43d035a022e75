package plan

import (
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
)

// Gown is what one of several gowns cuts from a cloth that they share.
type Gown struct {
	Name   string // goes before those of its parts and pieces
	Job    *job.Job
	Spread Spread
}

// Together returns the task of laying what several gowns, drawn from jobs of their own, cut from the
// same cloth. Their pieces come one gown after the other. The error is a strict.Errors: what can be laid gown by gown
// and not together, being too much for one marker.
func Together(shown *job.Job, cloth job.Cloth, gowns []Gown) (Task, error) {
	all := Spread{Cloth: cloth, Gowns: 1}
	j := &job.Job{File: shown.File, Unit: shown.Unit, Currency: shown.Currency}
	for _, g := range gowns {
		for _, c := range g.Spread.Cuts {
			c.Part.Name, c.Piece.Name = g.Name+" "+c.Part.Name, g.Name+" "+c.Piece.Name
			c.Part.Body = strings.TrimSpace(g.Name + " " + c.Part.Body)
			all.Cuts = append(all.Cuts, c)
		}
		for _, m := range g.Job.Matches {
			if m.Cloth == g.Spread.Cloth.ID {
				j.Matches = append(j.Matches, g.match(m, cloth.ID))
			}
		}
	}
	if bad := tooMany(j, []Spread{all}, 1); bad != nil {
		return Task{}, bad
	}
	t, bad := all.task(j, 1)
	if bad != nil {
		return t, bad
	}
	return t, nil
}

// match is a match of a gown among those of all.
func (g Gown) match(m job.Match, cloth string) job.Match {
	m.Name, m.Cloth = g.Name+" "+m.Name, cloth
	points := m.Points
	m.Points = nil
	for _, p := range points {
		p.Piece = g.Name + " " + p.Piece
		m.Points = append(m.Points, p)
	}
	return m
}

// EndToEnd returns the markers of the gowns of a task that Together made, one behind the other on one length, to begin
// from: so that they never take more together than apart. It is nil where they lie on folds, on leftovers or on several
// lengths.
func (t Task) EndToEnd(laid []Laid) *Start {
	var all nest.Layout
	piece := 0
	for _, l := range laid {
		onShelf := l.Shelf != nil && l.Shelf.Verdict != shelf.Idle
		if t.Lay != nest.Open || len(l.Results) != 1 || l.Several() || onShelf {
			return nil
		}
		from := 0.0
		if len(all.Placed) > 0 {
			from = all.Length + t.Problem.Gap
		}
		for _, pl := range l.Opened.Placed {
			pl.Piece += piece
			pl.At = orb.Point{pl.At[0] + from, pl.At[1]}
			all.Placed = append(all.Placed, pl)
		}
		all.Length = t.Problem.Used(all.Placed)
		piece += len(l.Task.Spread.Cuts)
	}
	return &Start{stretches: []nest.Layout{all}, opened: all, task: t}
}
