package report

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// Grid is figures in rows, as they are read. It may have a caption alone.
type Grid struct {
	Caption string
	Heads   []string
	Rows    [][]string
	Notes   []string // what follows from it
}

// CutHeads stand over the rows of a cut list; the first names a part in a cloth.
var CutHeads = []string{"cut", "finished", "cut size"}

// Row is a line of the cut list: the name of the piece within its part, how many,
// its finished and its cut size.
func (c Cut) Row(unit measure.Unit) []string {
	return []string{WithoutPart(c.Piece, c.Part) + CutOn(job.Grain(c.Grain)), Copies(c.Count, c.Pair, c.OnFold),
		Sized(c.Finished, unit), Sized(c.CutSize, unit)}
}

// SizeNotes say how the sizes of the pieces are to be read.
func (l CutList) SizeNotes(unit measure.Unit) []string {
	notes := []string{fmt.Sprintf("Sizes are along the grain x across it, in %s.", UnitWords(unit))}
	if slices.ContainsFunc(l.Pieces, func(c Cut) bool { return CutOn(job.Grain(c.Grain)) != "" }) {
		notes = append(notes, "Pieces on the bias or the cross grain are measured along x across their length as drafted.")
	}
	if slices.ContainsFunc(l.Pieces, func(c Cut) bool { return c.OnFold }) {
		notes = append(notes, "A piece on fold has the size of the whole, opened out.")
	}
	return notes
}

// Words say what is done with the free ends of a part.
func (e Ends) Words(unit measure.Unit) string {
	what := e.Part + " in " + e.Cloth + " has two free ends"
	if e.Tiers > 1 {
		what += " in each tier"
	}
	switch {
	case e.Allowance == 0:
		return what + ", left raw."
	case e.Bound:
		return what + ". Turn in " + measure.Format(e.Allowance, unit) + " at each."
	}
	return what + ". Hem each, " + measure.Format(e.Allowance, unit) + " turned up."
}

// Grids hold the figures of a gathered or bound part: sizes in one unit, lengths of
// cloth in the other.
func (t Table) Grids(unit, buy measure.Unit) []Grid {
	if b := t.Binding; b != nil {
		return []Grid{{Caption: fmt.Sprintf(
			"%s in %s, in %s: %d strips %s wide with joins: %d, together %s long; side by side they take %s of cloth",
			t.Part, t.Cloth, UnitWords(unit), b.Strips, Bare(b.CutWidth, unit), b.Joins, Bare(b.Length, unit),
			BareUp(b.Cloth, unit))}}
	}
	caption := fmt.Sprintf("%s in %s, in %s; cloth at one strip a row, in %s", t.Part, t.Cloth, UnitWords(unit),
		UnitWords(buy))
	heads := []string{"gathered to", "flat edge", "full", "strips", "cut depth", "cloth"}
	var grids []Grid
	if t.Tiers != nil {
		g := Grid{Heads: slices.Concat([]string{"tier", "depth"}, heads)}
		for _, l := range t.Tiers {
			gathered, full := "-", "-"
			if l.Edge > 0 {
				gathered, full = Bare(l.Edge, unit), fmt.Sprintf("%.2f", l.Fullness)
			}
			g.Rows = append(g.Rows, []string{fmt.Sprint(l.Tier), Bare(l.Depth, unit), gathered, Bare(l.Flat, unit), full,
				fmt.Sprint(l.Strips), Bare(l.CutDepth, unit), BareUp(l.Cloth, buy)})
		}
		grids = append(grids, g)
	}
	if t.Layers != nil {
		g := Grid{Heads: slices.Concat([]string{"layer", "from waist"}, heads)}
		for _, l := range t.Layers {
			g.Rows = append(g.Rows, []string{fmt.Sprint(l.Layer), Bare(l.Depth, unit), Bare(l.Girth, unit),
				Bare(l.Flat, unit), fmt.Sprintf("%.2f", l.Fullness), fmt.Sprint(l.Strips), Bare(l.CutDepth, unit),
				BareUp(l.Cloth, buy)})
		}
		grids = append(grids, g, pins(t.Layers, unit))
	}
	grids[0].Caption = caption
	return grids
}

// pins tells where layers of net are pinned to the skirt, on which of its seams, and
// which of them are open at the centre back.
func pins(layers []NetLayer, unit measure.Unit) Grid {
	g := Grid{Caption: "Pin the notches of the flat edge this far round the skirt from centre back:",
		Heads: []string{"layer", "first", "second", "third", "last"}}
	var open []string
	for _, l := range layers {
		row := []string{fmt.Sprint(l.Layer)}
		for _, q := range l.Quarters {
			row = append(row, Bare(q, unit))
		}
		g.Rows = append(g.Rows, row)
		if l.Open {
			open = append(open, fmt.Sprint(l.Layer))
		}
	}
	alike := !slices.ContainsFunc(layers, func(l NetLayer) bool { return l.Seams != layers[0].Seams })
	for _, l := range layers {
		if text := onSeams(l.Seams); alike && text != "" {
			g.Notes = append(g.Notes, text)
		} else if text != "" {
			g.Notes = append(g.Notes, fmt.Sprintf("Layer %d: %s%s", l.Layer, strings.ToLower(text[:1]), text[1:]))
		}
		if alike {
			break
		}
	}
	switch len(open) {
	case 0:
	case 1:
		g.Notes = append(g.Notes, "Layer "+open[0]+" crosses the opening: leave its ends open at centre back.")
	default:
		g.Notes = append(g.Notes, "Layers "+strings.Join(open, ", ")+
			" cross the opening: leave their ends open at centre back.")
	}
	return g
}

// onSeams says on which seams of the skirt the places to pin lie, left and right alike;
// "" where they lie on none.
func onSeams(seams [4]string) string {
	first, second := seams[0], seams[1]
	const stroke = "a stroke over the seam line marks them"
	switch {
	case !slices.ContainsFunc(seams[:], func(s string) bool { return s != "" }):
		return ""
	case second == "":
		return fmt.Sprintf("The first and the last lie on the seams %s. Between seams %s.", first, stroke)
	case first == "":
		return fmt.Sprintf("The second and the third lie on the seams %s. Between seams %s.", second, stroke)
	}
	return fmt.Sprintf("The first and the last lie on the seams %s, the others on the seams %s.", first, second)
}
