package report

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// instructions say how the cloth is spread and what was added to it, a sentence
// or two each, with lengths in unit; none for a plain open lay.
func (l laying) instructions(unit measure.Unit) []string {
	show := func(mm float64) string { return measure.FormatUp(mm, unit) }
	var list []string
	add := func(text string) {
		if text != "" {
			list = append(list, text)
		}
	}
	s := l.Task.Spread
	if all := s.Cloth.Widths; len(all) > 1 && slices.Max(all) > s.Cloth.Width {
		add(fmt.Sprintf("Laid for the narrowest of %d widths measured, %s.", len(all),
			measure.FormatDown(s.Cloth.Width, measure.SizeUnit(unit))))
	}
	add(l.shelfWords(func(mm float64) string { return measure.FormatUp(mm, s.Cloth.Offer.Per) }))
	add(l.lengthsWords())
	add(washingWords(s.Cloth))
	add(l.spreading(show))
	add(tiltWords(s))
	add(l.addedWords(show))
	return list
}

// spreading says how the cloth is folded and cut.
func (l laying) spreading(show func(float64) string) string {
	t := l.Task
	switch {
	case t.Lay == nest.Open || len(t.Stretches) == 0:
		return ""
	case t.Stretches[0].Lay == nest.Open:
		return "Nothing that is cut from bought cloth can be cut double: it is laid open."
	}
	x := plan.LossOf(t.Spread.Cloth)
	lengths, _ := plan.LengthsOf(l.Results)
	from, _ := t.Along(lengths)
	length := lengths[0] + 2*x.Ends
	var text string
	switch t.Lay {
	case nest.LengthwiseFold:
		text = fmt.Sprintf("Lengthwise fold: fold the cloth along its length, right sides together, selvedge on "+
			"selvedge, for %s: "+
			"the fold is the lower edge of the drawing. Every outline off the fold is cut through both layers.",
			show(length))
	case nest.DoubleFold:
		text = fmt.Sprintf("Double fold: fold both selvedges to the middle, right sides together, until they meet, "+
			"for %s: "+
			"both edges of the drawing are folds. Every outline off a fold is cut through both layers.", show(length))
	default:
		length += l.Task.Stretches[0].Cloth(lengths[0])/2 - lengths[0] // half a gap at the fold
		text = fmt.Sprintf("Crosswise fold: fold the cloth across its length, right sides together, cut end on cut "+
			"end, each layer %s long: "+
			"the fold is the far end of the drawing.", show(length))
		if t.Lay == nest.CrosswiseTurned {
			text += " Then cut along the fold and turn the upper layer end for end, right sides still together, " +
				"so that the nap of both layers runs one way."
		}
		text += " Every outline is cut through both layers."
	}
	if names := onFolds(t.Stretches[0].Problem); len(names) > 0 {
		text += " Lay these against a fold, which is not cut: " + strings.Join(names, ", ") + "."
	}
	if len(t.Stretches) > 1 {
		text += fmt.Sprintf(" The open stretch begins %s from the cut end: one layer, right side up, %s long.",
			show(from[1]+x.Skew), show(lengths[1]+2*x.Ends))
	}
	return text
}

// onFolds names the pieces of a stretch that lie against a fold.
func onFolds(p nest.Problem) []string {
	var names []string
	for _, piece := range p.Pieces {
		if piece.OnFold && !slices.Contains(names, piece.Name) {
			names = append(names, piece.Name)
		}
	}
	return names
}

// savedWords says what the shelf saves in money; "" where prices are not known, or bolts are bought.
func (l laying) savedWords() string {
	c := l.Task.Spread.Cloth
	whole, err := c.Offer.Buy(l.Shelf.Whole)
	if err != nil || !c.Priced || l.Task.InLengths() {
		return ""
	}
	saved, err := whole.Cost.Sub(l.Buy.Cost)
	if err != nil || saved.Minor <= 0 {
		return ""
	}
	return ", which saves " + saved.String()
}

// atLeastWords says what would be bought at the least if nothing lay on the shelf: by the area of the pieces,
// since that was not laid; "" where it is not known.
func (l laying) atLeastWords(buy func(float64) string) string {
	c, p := l.Task.Spread.Cloth, l.Task.Problem
	if l.Task.Lay != nest.Open || l.Task.InLengths() {
		return ""
	}
	least, err := c.Offer.Buy(l.Task.LeastNeeded(p.LeastArea() / p.Strip.Width))
	if err != nil {
		return ""
	}
	text := " Without it at least " + buy(least.Bought) + " would be bought"
	if c.Priced {
		text += ", for " + least.Cost.String()
	}
	return text + "."
}

// shelfWords says what the leftovers are good for, and what is cut from which.
func (l laying) shelfWords(buy func(float64) string) string {
	if l.Shelf == nil {
		return ""
	}
	if l.Shelf.Stopped && l.Shelf.Verdict == shelf.Idle {
		return "The run ended before the shelf was tried: it is left alone."
	}
	text := "The shelf saves no cloth at the counter and is left alone."
	switch l.Shelf.Verdict {
	case shelf.Enough:
		text = "The shelf is enough: nothing is bought." + l.atLeastWords(buy)
	case shelf.Helps:
		text = "The shelf saves cloth but does not hold everything: buy " + buy(l.Buy.Bought)
		if l.Shelf.Whole > 0 {
			text += " instead of " + buy(l.Shelf.Whole) + l.savedWords()
		}
		text += "."
	}
	for _, c := range l.Shelf.Cuts {
		var cuts []nest.Placed
		for _, pl := range c.Layout.Placed {
			cuts = append(cuts, c.Source(pl))
		}
		text += fmt.Sprintf(" From %s: %s.", c.Name, strings.Join(copiesOf(l.Task.Spread, cuts), ", "))
	}
	if l.Shelf.Stopped {
		text += " The run ended before other ways to use the shelf were tried."
	}
	if l.Task.Spread.Cloth.Lots == job.LotsAll {
		return text + " Leftovers and bought cloth are of one dye lot, as the job says."
	}
	if slices.ContainsFunc(l.Task.Spread.Cuts,
		func(c plan.Cut) bool { return c.Part.Keep == job.KeepPair || c.Part.Keep == job.KeepPiece }) {
		return text + " Where `keep` lets a garment be cut from several lots, compare their dyes first."
	}
	return text + " No garment is cut from two lots."
}

// CopyName says which copy of a piece it is; "" when there is one only.
func CopyName(p shapes.Piece, copy int) string {
	switch {
	case copy < len(p.Labels):
		return p.Labels[copy]
	case p.Count > 1:
		return fmt.Sprintf("%d of %d", copy+1, p.Count)
	}
	return ""
}

// washingWords says what is done about a cloth that changes in the wash.
func washingWords(c job.Cloth) string {
	w := c.Shrinkage
	if w.Warp == 0 && w.Weft == 0 {
		return ""
	}
	change := plan.ChangeWords(w)
	if w.Prewash {
		return "Wash the cloth before you lay it: it changes by " + change +
			". The length to buy and the width laid on already count that. The pieces are drawn in their own size."
	}
	return "Do not wash the cloth before cutting: the pieces are drawn larger, for it changes by " + change +
		" in its first wash."
}

// tiltWords says which leanings off the grain were tried.
func tiltWords(s plan.Spread) string {
	var said []string
	for i, cut := range s.Cuts {
		p := cut.Part
		if p.Tilt == 0 || i > 0 && s.Cuts[i-1].Part.At == p.At {
			continue
		}
		said = append(said, fmt.Sprintf("%s (%v and %v degrees either way)", p.Name, p.Tilt/2, p.Tilt))
	}
	if len(said) == 0 {
		return ""
	}
	return "Leant off the grain where it saves cloth: " + strings.Join(said, ", ") + "; no other angles were tried."
}

// addedWords says what makes the needed length of the used one.
func (l laying) addedWords(show func(float64) string) string {
	used, _ := l.Taken()
	a := l.added(used)
	if a == nil {
		return ""
	}
	x := plan.LossOf(l.Task.Spread.Cloth)
	text := "Needed: " + show(used) + " for the pieces"
	if a.Ends > 0 {
		text += fmt.Sprintf(", %s at the ends of the lays (%s at each)", show(a.Ends), show(x.Ends))
	}
	if a.Skew > 0 {
		text += ", " + show(a.Skew) + " to square the cut end"
	}
	switch {
	case a.Shrinkage > 0:
		text += ", " + show(a.Shrinkage) + " lost in the wash"
	case a.Shrinkage < 0:
		text += ", less " + show(-a.Shrinkage) + " gained in the wash"
	}
	if a.Spare > 0 {
		text += fmt.Sprintf(", %s to spare (%.4g %%)", show(a.Spare), 100*x.Spare)
	}
	return text + ": " + show(l.Needed) + "."
}
