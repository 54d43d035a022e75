package report

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
)

// stretches describes the markers of bought cloth one by one.
func (l laying) stretches(show func(mm float64) string) []Stretch {
	lengths, _ := plan.LengthsOf(l.Results)
	from, _ := l.Task.Along(lengths)
	cuts, skew := l.cuts(), l.Task.Spread.Cloth.Skew
	var list []Stretch
	for i, s := range l.Task.Stretches {
		r := l.Results[i]
		d := Stretch{
			Lay: string(stretchLay(l.Task.Spread.Cloth, s)), Layers: s.Layers(), From: from[i] +
				skew, Width: s.Problem.Strip.Width,
			Used: r.Layout.Length, Bound: r.Bound.Length, Argument: string(r.Bound.Kind), Reason: r.Bound.Reason(show),
			Utilisation: r.Utilisation, Status: r.Status.String(), Marker: l.marker(r.Layout.Placed, cuts[i]),
			Problem: s.Problem, Layout: r.Layout, Cuts: cuts[i], Fold: s.Lay,
			Strip: l.Task.Spread.WashedAcross(l.Task.Spread.Cloth.Width),
		}
		d.Flaws = l.Task.Spread.FlawNames(s.Problem.Strip.Forbidden, l.Task.Spread.Cloth.Flaws)
		if i == 0 {
			d.Skew = skew
		}
		d.Length = s.Cloth(d.Used)/float64(d.Layers) + 2*l.Task.Spread.Cloth.Ends + d.Skew
		if i == len(l.Task.Stretches)-1 { // it has all that is bought besides
			d.Length = (l.Task.Spread.WashedAlong(l.CounterLength())-d.From)/float64(d.Layers) + d.Skew
		}
		list = append(list, d)
	}
	return list
}

// leftovers describes the markers of what is used from the shelf.
func (l laying) leftovers() []Stretch {
	if l.Shelf == nil {
		return nil
	}
	var list []Stretch
	for _, c := range l.Shelf.Cuts {
		haves := l.Task.Spread.Cloth.Have
		have := haves[slices.IndexFunc(haves, func(h job.Have) bool { return h.Name == c.Name })]
		m := l.whole(c, c.Source, have.Flaws)
		m.Shelf = true
		if have.Outline != nil {
			m.Bare, m.Flaws = true, l.Task.Spread.LeftoverZones(have, c.Strip)
			m.Strip, m.Length, m.Skew = c.Strip.Width, c.Strip.MaxLength, 0
		}
		list = append(list, m)
	}
	return list
}

// whole describes the marker of a length that is there, or bought, as it is: laid
// open.
func (l laying) whole(c shelf.Cut, source func(nest.Placed) nest.Placed, flaws []job.Flaw) Stretch {
	s, cuts := l.Task.Spread, onceEach(c.Layout.Placed, source)
	return Stretch{
		Lay: string(job.Open), Layers: 1, Width: c.Strip.Width, Used: c.Layout.Length,
		Utilisation: c.Problem.Utilisation(c.Layout),
		Marker:      l.marker(c.Layout.Placed, cuts), Problem: c.Problem, Layout: c.Layout, Cuts: cuts, Name: c.Name,
		Flaws:  s.FlawNames(c.Problem.Strip.Forbidden, flaws),
		Strip:  c.Strip.Width + 2*s.WashedAcross(s.Cloth.Selvedge),
		Length: c.Strip.MaxLength + 2*s.Cloth.Ends + s.Cloth.Skew, Skew: s.Cloth.Skew,
	}
}

// stretchLay says how a stretch of a cloth lies, in the words of the job.
func stretchLay(c job.Cloth, s nest.Stretch) job.Lay {
	if s.Lay == nest.Open {
		return job.Open
	}
	return c.Lay
}

// cuts tells for each placed outline of each stretch which copies of the whole
// problem it cuts: two where it goes through two layers. They stand in the order
// in which the stretches are opened out.
func (l laying) cuts() [][][]nest.Placed {
	opened := l.Opened.Placed
	next := func() nest.Placed {
		pl := opened[0]
		opened = opened[1:]
		return l.Source(pl)
	}
	var all [][][]nest.Placed
	for i, s := range l.Task.Stretches {
		var cuts [][]nest.Placed
		for _, pl := range l.Results[i].Layout.Placed {
			cut := []nest.Placed{next()}
			if s.Lay != nest.Open && !s.Problem.Pieces[pl.Piece].OnFold {
				cut = append(cut, next())
			}
			cuts = append(cuts, cut)
		}
		all = append(all, cuts)
	}
	return all
}

// marker lists placed outlines by the copies that they cut.
func (l laying) marker(placed []nest.Placed, cuts [][]nest.Placed) []Placed {
	list := make([]Placed, len(placed))
	for i, pl := range placed {
		of := cuts[i][0]
		_, grain := l.Task.Spread.LiesOn(of.Piece, pl.Turn, of.Mirrored)
		list[i] = Placed{
			Piece: l.Task.Problem.Pieces[of.Piece].Name, Copy: of.Copy + 1, Grain: string(grain),
			Turn: pl.Turn, Mirrored: of.Mirrored, At: pl.At,
		}
		if len(cuts[i]) > 1 {
			list[i].Second = cuts[i][1].Copy + 1
		}
	}
	return list
}

// opened lists the pieces on the single cloth.
func (l laying) opened() []Placed {
	return l.marker(l.Opened.Placed, onceEach(l.Opened.Placed, l.Source))
}

// onceEach lists the copies of placed outlines that each cut one.
func onceEach(placed []nest.Placed, source func(nest.Placed) nest.Placed) [][]nest.Placed {
	cuts := make([][]nest.Placed, len(placed))
	for i, pl := range placed {
		cuts[i] = []nest.Placed{source(pl)}
	}
	return cuts
}
