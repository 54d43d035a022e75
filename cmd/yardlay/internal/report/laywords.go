package report

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/nest"
	"yardlay/shapes/measure"
)

// ToBuy shows the length to buy in both systems, or the bolts and the length cut
// besides.
func (c Cloth) ToBuy() string {
	per := c.Spread.Cloth.Offer.Per
	if c.Bought == 0 {
		return "nothing"
	}
	bolts := fmt.Sprintf("%d bolts", c.Bolts)
	switch c.Bolts {
	case 0:
		return measure.BothUp(c.Bought, per)
	case 1:
		bolts = "1 bolt"
	}
	for _, p := range c.Buy.Parts {
		if !p.Bolt {
			return bolts + " + " + measure.FormatUp(p.Length, per)
		}
	}
	return bolts + ", " + measure.FormatUp(c.Bought, per)
}

// AllPinned says whether every piece lies where it is pinned; one that is cut double lies there once.
func (c Cloth) AllPinned() bool {
	placed := 0
	for _, r := range c.Laid.Results {
		placed += len(r.Layout.Placed)
	}
	return c.Pinned > 0 && c.Pinned == placed
}

// CouldSave says how much less shorter markers could let be bought, with the pieces
// shared out as they are.
func (c Cloth) CouldSave() string {
	switch {
	case c.Proved:
		return "nothing: proved minimal"
	case c.Laid.Lengths != nil && !c.ProvedAsShared:
		if less, err := c.Buy.Cost.Sub(c.Laid.Lengths.LeastFor); err == nil {
			return less.String()
		}
	case c.ProvedAsShared && c.Shelf != nil:
		return "nothing, as the shelf is used"
	case c.ProvedAsShared && c.Pinned > 0:
		return "nothing around the pins"
	case c.ProvedAsShared:
		return "nothing on these stretches"
	}
	return c.stepped(c.StepsAsShared)
}

// stepped is the length that so many steps of the counter come to.
func (c Cloth) stepped(n int) string {
	offer := c.Spread.Cloth.Offer
	step, _ := offer.CutStep().Float64()
	return measure.BothUp(float64(n)*step, offer.Per)
}

// SharedOtherwise says what could be saved without pins, or by sharing the pieces out over shelf and
// stretches in another way; "" where there is none, or it is proved that it saves
// nothing.
func (c Cloth) SharedOtherwise() string {
	switch {
	case c.AllPinned() && !c.Proved:
		return fmt.Sprintf("all pieces stay where they are. Laid in another way %s could be saved at most.",
			c.stepped(c.Steps))
	case c.Pinned > 0 && !c.Proved:
		pieces := "the pinned piece where it is"
		if c.Pinned > 1 {
			pieces = fmt.Sprintf("the %d pinned pieces where they are", c.Pinned)
		}
		return fmt.Sprintf("bound and gap hold with %s. Without pins %s could be saved at most.", pieces,
			c.stepped(c.Steps))
	case c.Shelf != nil && !c.Proved:
		return fmt.Sprintf("bound and gap are of the bought cloth, with the shelf used as it is. "+
			"Another use of the shelf could save %s at most. None was found, which does not prove that there is "+
			"none.", c.stepped(c.Steps))
	case len(c.Stretches) > 0 && !c.Proved:
		words := "None was found that saves, which does not prove that there is none."
		if c.Laid.SharesTried == 0 {
			words = "That was not tried."
		}
		return fmt.Sprintf("bound and gap are of the cloth as folded, with these pieces cut double. "+
			"With others cut double %s could be saved at most. %s", c.stepped(c.Steps), words)
	}
	return ""
}

// Lines say of a cloth how it is spread and cut, how it is bought where that is
// not a single length, what a repeat takes, and the share of one gown of several.
func (r *Report) Lines(c Cloth) []string {
	lines := slices.Clone(c.Instructions)
	if cloth := c.Spread.Cloth; c.Pinned > 0 && (len(cloth.Have) > 0 || len(cloth.Offer.Sizes()) > 0) {
		lines = append(lines, "With pieces pinned it is cut from one length; leftovers and whole bolts are left aside.")
	}
	if words := PurchaseWords(c.Spread.Cloth.Offer, c.Buy); words != "" {
		lines = append(lines, words)
	}
	if c.Repeat != nil {
		lines = append(lines, r.repeatWords(c))
	}
	if c.PerGown != nil {
		lines = append(lines, r.gownWords(c))
	}
	return lines
}

// repeatWords says what keeping to the repeat of a cloth takes, and how far the
// bound, which mostly leaves it out, may be too low.
func (r *Report) repeatWords(c Cloth) string {
	per := c.Spread.Cloth.Offer.Per
	text := fmt.Sprintf("Plain cloth would take %s and %s to buy; ", measure.FormatUp(c.Repeat.PlainUsed, r.Unit),
		measure.BothUp(c.Repeat.PlainBought, per))
	switch {
	case c.Repeat.ExtraBought > 0:
		text += "the repeat takes " + measure.BothUp(c.Repeat.ExtraBought, per) + " more."
	case c.Repeat.Extra > 0:
		text += "the repeat takes " + measure.FormatUp(c.Repeat.Extra,
			r.Unit) + " more, and nothing more at the counter."
	default:
		text += "the repeat takes no more."
	}
	loose := measure.FormatUp(c.Repeat.Loose, r.Unit)
	switch {
	case c.Repeat.Loose < shownLoose:
		return text
	case c.Repeat.Counted:
		return text + " The bound counts whole repeats only where pieces must follow each other: it may be up to " +
			loose + " too low."
	case c.Repeat.PlainLoose < shownLoose:
		text += " The bound leaves the repeat out: on plain cloth it is met"
	default:
		text += " The bound leaves the repeat out: on plain cloth it is " + measure.FormatUp(c.Repeat.PlainLoose,
			r.Unit) + " under the marker"
	}
	return text + ", here it may be up to " + loose + " too low."
}

// shownLoose is the least distance between a bound and a marker that is told, mm: a
// maker measures no finer.
const shownLoose = 1.0

// gownWords sets the cloth of one gown of several beside that of one alone.
func (r *Report) gownWords(c Cloth) string {
	show := func(mm float64) string { return measure.FormatUp(mm, r.Unit) }
	text := fmt.Sprintf("%d gowns on one lay: %s of cloth for each, %s for one alone; bought %s for each, %s for one "+
		"alone",
		r.Gowns, show(c.PerGown.Used), show(c.PerGown.AloneUsed), show(c.PerGown.Bought), show(c.PerGown.AloneBought))
	if c.PerGown.AloneCost != "" {
		text += fmt.Sprintf(". Together they cost %s, one alone %s %s", c.Cost, c.PerGown.AloneCost, r.Currency)
	}
	return text + "."
}

// Notes say what is out of the ordinary with a run.
func (r *Report) Notes() []string {
	list := r.Unfinished()
	for _, c := range r.Cloths {
		if c.Cost == "" {
			list = append(list, fmt.Sprintf("%s has no price and is not in the sum.", c.ID))
		}
	}
	return list
}

// Unfinished says what was cut short, if anything was.
func (r *Report) Unfinished() []string {
	var list, stopped, late []string
	for _, c := range r.Cloths {
		switch c.Ended {
		case nest.Stopped:
			stopped = append(stopped, c.ID)
		case nest.OutOfTime:
			late = append(late, c.ID)
		}
	}
	if len(stopped) > 0 {
		list = append(list, "Interrupted: the best layout so far is kept for "+strings.Join(stopped, ", ")+
			". It holds, but a full run may take less cloth.")
	}
	if len(late) > 0 {
		list = append(list, "Out of time: the best layout so far is kept for "+strings.Join(late, ", ")+
			". It holds, but more time may save cloth.")
	}
	return list
}
