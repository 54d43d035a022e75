package quote

import (
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// bought is a notion with what is bought of it and what the shelf gives.
type bought struct {
	notion job.Notion
	cost.Item
	unit      measure.Unit // to show single lengths in
	need      cost.Notion  // of all gowns
	fromShelf float64      // pieces or mm
	anew      cost.Item    // what would be bought if nothing were on the shelf
}

// none says that the shelf has all of it.
func (b bought) none() bool {
	return b.BoughtCount == 0 && b.BoughtLength == 0
}

// buyNotions says what to buy of every notion.
func (m *maker) buyNotions() ([]bought, error) {
	var all []bought
	for _, n := range m.job.Notions {
		b, err := m.notion(n)
		if err != nil {
			return nil, m.job.ErrorAt(n.At, err)
		}
		all = append(all, b)
	}
	return all, nil
}

func (m *maker) notion(n job.Notion) (bought, error) {
	need, err := m.needed(n)
	if err != nil {
		return bought{}, say.Errorf("notion `%s`: %w", n.Name, err)
	}
	return m.buy(n, need)
}

// buy says what to buy of a notion for all that is needed of it.
func (m *maker) buy(n job.Notion, need cost.Notion) (b bought, err error) {
	b = bought{notion: n, unit: measure.SizeUnit(m.options.Unit), need: need}
	if b.anew, err = need.Buy(); err != nil {
		return b, say.Errorf("notion %w", err)
	}
	switch {
	case n.Counted():
		b.fromShelf = min(n.Have, need.Wanted())
		need.OwnedCount = int(b.fromShelf)
	case need.Lengths == nil:
		b.fromShelf = min(n.Have, need.Wanted())
		need.OwnedLength = b.fromShelf
	}
	if b.Item, err = need.Buy(); err != nil {
		return b, say.Errorf("notion %w", err)
	}
	return b, nil
}

// needed says what all gowns take of a notion.
func (m *maker) needed(n job.Notion) (cost.Notion, error) {
	need := n.Sold
	need.Inside = n.By == job.ByChannel || n.By == job.ByBusk
	var from []cut
	for _, c := range m.cuts {
		if c.among(n) {
			from = append(from, c)
		}
	}
	switch n.By {
	case job.ByCount:
		need.Count = n.Count * m.gowns
		return need, nil
	case job.ByLength:
		need.Length = n.Length * float64(m.gowns)
		return need, nil
	case job.ByPiece:
		for _, c := range from {
			need.Count += c.copies
		}
	case job.ByEyelet, job.ByButton, job.ByHook:
		need.Count = m.set(n.By, from)
	case job.ByComb:
		for _, c := range from {
			need.Count += c.combs * c.part.Count * m.gowns
		}
	case job.ByCasing, job.ByTape:
		need.Length = m.tapes(n.By, from)
	case job.ByEdging:
		for _, c := range from {
			for _, e := range c.edged {
				need.Length += e.Cut * float64(c.part.Count*m.gowns)
			}
		}
	case job.ByEdge:
		need.Length = edgesOf(from, n.Edges)
	case job.BySeam:
		seam := seamOf(from, n.Edges)
		var err error
		if need.Length, err = cost.ThreadLength(seam, n.PerMetre); err != nil {
			return need, err
		}
	default:
		if err := spread(&need, m.lengths(n, from)); err != nil {
			return need, err
		}
	}
	if need.Count == 0 && need.Length == 0 && len(need.Lengths) == 0 {
		return need, nothing(n)
	}
	return need, nil
}

// lengths are those of the openings, channels or hoops that a notion follows from, part
// by part.
func (m *maker) lengths(n job.Notion, from []cut) []float64 {
	var all []float64
	switch n.By {
	case job.ByChannel:
		for _, c := range from {
			for _, b := range c.bones {
				all = append(all, slices.Repeat([]float64{b.Length}, b.Count*c.part.Count*m.gowns)...)
			}
		}
		return all
	case job.ByHoop:
		for _, c := range from {
			all = append(all, slices.Repeat(c.hoops, c.part.Count*m.gowns)...)
		}
		return all
	case job.ByBusk:
		return m.closings(draft.Busk, from)
	}
	for _, part := range m.job.Parts {
		own := slices.DeleteFunc(slices.Clone(from), func(c cut) bool { return c.part.Name != part.Name })
		if len(part.Closings) > 0 {
			all = append(all, m.closings(draft.Zip, own)...)
			continue
		}
		all = append(all, openings(own, n.Length)...)
	}
	return all
}

// closings are the lengths of those that close openings in one way, mm.
func (m *maker) closings(by draft.ClosedBy, own []cut) []float64 {
	var all []float64
	for _, c := range own {
		for _, o := range c.closed {
			if o.By == by {
				all = append(all, slices.Repeat([]float64{o.Length}, o.Times*c.part.Count*m.gowns)...)
			}
		}
	}
	return all
}

// tapes are the lengths of tape in all, mm: the casings of bones, or the tapes sewn on.
func (m *maker) tapes(by job.NotionBy, from []cut) float64 {
	sum := 0.0
	for _, c := range from {
		each := float64(c.part.Count * m.gowns)
		for _, b := range c.bones {
			if by == job.ByCasing {
				sum += b.Casing * float64(b.Count) * each
			}
		}
		for _, t := range c.tapes {
			if by == job.ByTape {
				sum += t.Cut() * float64(t.Count) * each
			}
		}
	}
	return sum
}

// set is how many eyelets, buttons or hooks the openings take.
func (m *maker) set(by job.NotionBy, from []cut) int {
	n := 0
	for _, c := range from {
		for _, o := range c.closed {
			if map[draft.ClosedBy]job.NotionBy{draft.Lacing: job.ByEyelet, draft.Buttons: job.ByButton,
				draft.Hooks: job.ByHook}[o.By] == by {
				n += o.Set() * c.part.Count * m.gowns
			}
		}
	}
	return n
}

// spread puts single lengths in the way they are sold.
func spread(need *cost.Notion, lengths []float64) error {
	switch {
	case need.Sizes != nil:
		need.Lengths = lengths
	case need.Each != nil:
		need.Count = len(lengths)
	default:
		for _, l := range lengths {
			need.Length += l
		}
	}
	if need.Length > 1000*measure.Longest || math.IsNaN(need.Length) {
		return say.Errorf("%v are too much", say.MM(need.Length))
	}
	return nil
}

// edgesOf is the length of the named edges of all copies, mm.
func edgesOf(cuts []cut, names []string) float64 {
	sum := 0.0
	for _, c := range cuts {
		for _, e := range c.piece.Edges {
			if called(e, names) {
				sum += e.Length() * float64(c.copies)
			}
		}
	}
	return sum
}

// seamOf is the length of seam of all copies, mm: of the named edges only, where
// there are names; then hems and gathered edges count too, in full.
func seamOf(cuts []cut, names []string) float64 {
	sum := 0.0
	for _, c := range cuts {
		for _, e := range c.piece.Edges {
			switch length := c.sewn(e); {
			case len(names) > 0 && !called(e, names), c.fused:
			case length > 0 || len(names) == 0:
				sum += length
			default:
				sum += e.Length() * float64(c.copies)
			}
		}
	}
	return sum
}

// nothing says that a notion has nothing to follow from.
func nothing(n job.Notion) error {
	what := map[job.NotionBy]string{
		job.ByOpening: "opening", job.ByEdge: "such edge", job.ByChannel: "boning channel", job.BySeam: "such seam",
		job.ByPiece: "piece", job.ByEyelet: "eyelet of `closings`", job.ByButton: "button of `closings`",
		job.ByHook: "hook of `closings`", job.ByBusk: "busk of `closings`", job.ByCasing: "boning channel",
		job.ByTape: "tape sewn on inside", job.ByHoop: "hoop", job.ByComb: "comb",
		job.ByEdging: "lace of `edgings`",
	}[n.By]
	where := "the job"
	if len(n.Parts) > 0 || len(n.Cloths) > 0 {
		where = "these parts and cloths"
	}
	return say.Errorf("there is no %s in %s that it could follow from", what,
		where).Hint("give a `count` or a `length`")
}

// describe says what is bought of a notion.
func (b bought) describe() Item {
	i := Item{
		Name: b.notion.Name, Kind: cost.KindNotion, Cost: b.Cost, NeededCount: b.NeededCount,
		BoughtCount:  b.BoughtCount,
		NeededLength: b.NeededLength, BoughtLength: b.BoughtLength,
	}
	switch {
	case b.need.Spare > 0:
		i.Spare = b.need.Spare.String() + " %"
	case b.need.SpareCount > 0: // of all gowns
		i.Spare = fmt.Sprint(b.need.SpareCount)
	}
	i.Quantity, i.Price = b.terms()
	if b.Purchase != nil {
		i.Leftover, i.Reason = b.Purchase.Leftover, b.Purchase.Reason
	}
	return i
}

// terms says how much is bought, in the words of who sells it, and its price.
func (b bought) terms() (quantity, price string) {
	sold := b.notion.Sold
	switch {
	case b.Purchase != nil:
		return parts(*b.Purchase, sold.ByLength.Per)
	case sold.Reel != nil:
		return say.Count(b.Packs, "reel") + " of " + reelLength(sold.Reel.Length), sold.Reel.Price.Amount() + "/reel"
	case sold.Each != nil && sold.Each.Pack > 1:
		return fmt.Sprintf("%s of %d", say.Count(b.Packs, "pack"), sold.Each.Pack), sold.Each.Price.Amount() + "/pack"
	case sold.Each != nil:
		return fmt.Sprint(b.BoughtCount), sold.Each.Price.Amount() + "/each"
	}
	for i, s := range b.Sizes {
		if i > 0 {
			quantity, price = quantity+" and ", price+" and "
		}
		quantity += fmt.Sprintf("%d of %s", s.Count, measure.Format(s.Length, b.unit))
		price += s.Price.Amount() + "/each"
	}
	return quantity, price
}

// reelLength shows whole metres as such, else yards.
func reelLength(mm float64) string {
	if metres := mm / measure.Metres; metres == math.Round(metres) {
		return fmt.Sprintf("%.0f m", metres)
	}
	return measure.Format(mm, measure.Yard)
}
