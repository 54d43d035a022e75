// Package depict describes pieces as drafted and markers as laid for the drawing model: what the
// pictures of every command, print and page show.
package depict

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Marker describes the drawing of a cloth's markers: the stretches of what is
// bought, then what is cut from the shelf.
func Marker(r *report.Report, c report.Cloth) sheet.Marker {
	cloth := c.Spread.Cloth
	m := sheet.Marker{
		Title: r.Title, Cloth: c.Title, Nap: c.Nap, OneWay: c.Nap == string(job.OneWay), Width: cloth.Width,
		Selvedge: cloth.Selvedge,
		Used:     c.Used, Needed: c.Needed, Bought: c.Bought, Unit: r.Unit,
		Cautions: report.Cautions([]plan.Spread{c.Spread}),
	}
	if cloth.Shrinkage.Prewash {
		m.Width, m.Selvedge = (1+cloth.Shrinkage.Weft)*m.Width, (1+cloth.Shrinkage.Weft)*m.Selvedge
	}
	if c.Used > 0 {
		least := "no marker is under "
		switch {
		case len(c.Lengths) > 0:
			least = "together no markers are under "
		case c.Pinned > 0 && !c.Proved:
			least = "around the pins, no marker is under "
		case len(c.Stretches) > 0 && !c.Proved:
			least = "with these pieces cut double, no marker is under "
		}
		m.Notes = []string{report.Percent(c.Utilisation) + " filled", least + measure.FormatDown(c.Bound, r.Unit)}
	}
	switch {
	case c.Proved:
		m.Notes = append(m.Notes, "purchase proved minimal")
	case c.ProvedAsShared && c.Shelf != nil:
		m.Notes = append(m.Notes, "purchase proved minimal as the shelf is used")
	case c.ProvedAsShared && c.Pinned > 0:
		m.Notes = append(m.Notes, "purchase proved minimal around the pins")
	case c.ProvedAsShared:
		m.Notes = append(m.Notes, "purchase proved minimal for what each stretch holds")
	}
	for i, s := range c.Markers {
		drawn := stretch(r, c, s, m.Selvedge)
		if i == 0 {
			drawn.Notes = c.Instructions
		}
		m.Stretches = append(m.Stretches, drawn)
	}
	return m
}

// TiedMarker is Marker with the ids of the copies that each outline cuts, by which a page ties it to
// its list; index is that of the cloth.
func TiedMarker(r *report.Report, c report.Cloth, index int) sheet.Marker {
	m := Marker(r, c)
	for i := range m.Stretches {
		for n, cuts := range c.Markers[i].Cuts {
			m.Stretches[i].Pieces[n].ID = CopiesID(index, cuts...)
		}
	}
	return m
}

// CopiesID names copies of pieces on a cloth, alike in every layout of a job.
func CopiesID(cloth int, copies ...nest.Placed) string {
	var ids []string
	for _, c := range copies {
		ids = append(ids, fmt.Sprintf("cut-%d-%d-%d", cloth, c.Piece, c.Copy))
	}
	return strings.Join(ids, " ")
}

// stretch describes the drawing of one marker.
func stretch(r *report.Report, c report.Cloth, s report.Stretch, selvedge float64) sheet.Stretch {
	strip := s.Problem.Strip
	drawn := sheet.Stretch{
		Name: report.LengthName(c, s), Shelf: s.Shelf, Lay: sheet.Lay(s.Fold), Width: s.Strip, Selvedge: selvedge,
		Used: s.Used, Ends: c.Spread.Cloth.Ends, Skew: s.Skew, Length: s.Length, Repeat: sheet.Repeat(strip.Repeat),
	}
	if s.Bare {
		drawn.Selvedge, drawn.Ends = 0, 0
	}
	for i, zone := range strip.Forbidden {
		flaw := sheet.Flaw{Outline: zone}
		if s.Flaws != nil {
			flaw.Name = s.Flaws[i]
			flaw.Away = s.Bare && flaw.Name == plan.NoCloth
		}
		drawn.Flaws = append(drawn.Flaws, flaw)
	}
	for i, pl := range s.Layout.Placed {
		drawn.Pieces = append(drawn.Pieces, Placed(r, c, s.Problem, pl, s.Cuts[i]))
	}
	return drawn
}

// Placed describes one outline of a marker, with the copies that it cuts.
func Placed(r *report.Report, c report.Cloth, p nest.Problem, pl nest.Placed, cuts []nest.Placed) sheet.Placed {
	laid, piece := p.Pieces[pl.Piece], c.Spread.Cuts[cuts[0].Piece].Piece
	whole := piece.Unfold()
	grain, word := c.Spread.LiesOn(cuts[0].Piece, pl.Turn, cuts[0].Mirrored)
	drawn := sheet.Placed{Name: piece.Name, GrainNote: grainNotes[word], Copy: CopyNames(piece, cuts),
		Size: cutSize(whole, measure.SizeUnit(r.Unit))}
	pose := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn, At: pl.At}
	if laid.OnFold {
		half := plan.HalfPose(piece, whole.Cut)
		drawn.Outline = Posed(Posed(Outline(OnCopies(piece, cuts)), half), pose)
		drawn.Fold = PosedLine(PosedLine(Fold(piece), half), pose)
	} else {
		pose.Mirrored = cuts[0].Mirrored // the outline may be cut from its mirror image
		outline := opened(piece, whole, cuts)
		outline.Grain = whole.GrainLine(grain)
		drawn.Outline = Posed(outline, pose)
	}
	drawn.Cut = p.Outline(pl)
	drawn.Matches = Matches(c.Spread.Cuts[cuts[0].Piece].Meets, whole, laid.OnFold, pose)
	return drawn
}

// grainNotes is what a piece says that does not follow the warp.
var grainNotes = map[job.Grain]string{job.BiasGrain: sheet.Bias, job.CrossGrain: sheet.CrossGrain}

// OnCopies leaves a piece the notches that one of the copies cut bears.
func OnCopies(p shapes.Piece, cuts []nest.Placed) shapes.Piece {
	p.Notches = slices.DeleteFunc(slices.Clone(p.Notches), func(n shapes.Notch) bool {
		return !slices.ContainsFunc(cuts, func(c nest.Placed) bool { return n.On(c.Copy) })
	})
	return p
}

// Matches places the match points of a piece that is laid whole or on a fold,
// where what is cut of the lower layer lies under its mirror image.
func Matches(meets []plan.Meet, whole shapes.Piece, onFold bool, pose plane.Pose) []sheet.Match {
	var list []sheet.Match
	b := plane.Bounds(whole.Cut)
	for _, m := range meets {
		at := m.At
		if middle := (b.Min[1] + b.Max[1]) / 2; onFold && at[1] < middle {
			at[1] = 2*middle - at[1]
		}
		if point := (sheet.Match{Name: m.Name, At: pose.ApplyPoint(at)}); !slices.Contains(list, point) {
			list = append(list, point)
		}
	}
	return list
}

// CopyNames says which copies of a piece an outline cuts; "" when there is one only.
func CopyNames(p shapes.Piece, cuts []nest.Placed) string {
	first := report.CopyName(p, cuts[0].Copy)
	if len(cuts) < 2 {
		return first
	}
	second := report.CopyName(p, cuts[1].Copy)
	if n, of, ok := strings.Cut(first, " of "); ok && strings.HasSuffix(second, " of "+of) && len(p.Labels) == 0 {
		return fmt.Sprintf("%s and %s", n, second)
	}
	return first + " and " + second
}

// Posed moves all lines of an outline to where it lies.
func Posed(o sheet.Outline, pose plane.Pose) sheet.Outline {
	moved := sheet.Outline{Cut: pose.Apply(o.Cut), Seam: pose.Apply(o.Seam), Grain: PosedLine(o.Grain, pose),
		Names: o.Names, Darts: o.Darts}
	for _, l := range o.Inside {
		moved.Inside = append(moved.Inside, PosedLine(l, pose))
	}
	turn := plane.Pose{Mirrored: pose.Mirrored, Turn: pose.Turn}
	for _, n := range o.Notches {
		n.At, n.Outward = pose.ApplyPoint(n.At), turn.ApplyPoint(n.Outward)
		moved.Notches = append(moved.Notches, n)
	}
	return moved
}

// PosedLine moves a line, start to end.
func PosedLine(l orb.LineString, pose plane.Pose) orb.LineString {
	out := make(orb.LineString, len(l))
	for i, v := range l {
		out[i] = pose.ApplyPoint(v)
	}
	return out
}

// Fold returns the edge of a piece that lies on a fold; nil when there is none.
func Fold(p shapes.Piece) orb.LineString {
	for _, e := range p.Edges {
		if e.Kind == shapes.Fold {
			return e.Line
		}
	}
	return nil
}
