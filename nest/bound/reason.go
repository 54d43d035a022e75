package bound

import (
	"fmt"
	"slices"

	"yardlay/shapes/say"
)

// Reason says in a maker's words why no marker can be shorter; length prints
// millimetres in the unit she reads.
func (b Bound) Reason(length func(mm float64) string) string {
	switch b.Kind {
	case Area:
		return fmt.Sprintf("the pieces alone cover %s of the cloth, with nothing left between them", length(b.Length))
	case LongestPiece:
		return fmt.Sprintf("%s is %s long along the cloth whichever way it may lie", names(b.Pieces), length(b.Length))
	case LastPin:
		return fmt.Sprintf("%s is pinned, and ends %s along the cloth", names(b.Pieces), length(b.Length))
	case Row:
		return fmt.Sprintf("%s %s the line %s from the edge wherever laid: such pieces follow each other in one row, "+
			"%sand no order makes that row shorter",
			names(b.Pieces), crosses(b.Pieces), length(b.Certificate.At), b.repeats())
	case Column:
		return fmt.Sprintf("on a shorter cloth a line across runs through %s, %s"+
			"and side by side they are wider than the cloth", names(b.Pieces), b.repeats())
	case Rectangles:
		return fmt.Sprintf("wherever %s begin along a shorter cloth, some line across it meets more of them than "+
			"fit side by side", names(b.Pieces))
	case Chords:
		if b.Certificate.Axis == LinesAlong {
			return "counting how many pieces fit one behind another on each line along a shorter cloth, " +
				b.repeats() + "the pieces need more such lines than the cloth is wide"
		}
		return "counting how many pieces fit side by side on each line across the cloth, " +
			b.repeats() + "the pieces need more such lines than a shorter cloth is long"
	}
	if b.Kind == Abreast {
		return fmt.Sprintf("side by side on a line across the cloth, %s keep each other farther apart than they are wide "+
			"there; counting what fits on each such line, the pieces need more of them than a shorter cloth is long",
			names(b.Pieces))
	}
	where := "from the edge"
	if b.Certificate.Axis == LinesAcross {
		where = "from the cut end"
	}
	from, to := b.Certificate.band()
	text := fmt.Sprintf("the scarce part of the cloth is from %s to %s %s", length(from), length(to), where)
	if b.Kind == OneWay {
		text += fmt.Sprintf("; %s all point one way and leave cloth idle between them", names(b.Pieces))
	} else if b.OnRepeat() {
		text += fmt.Sprintf("; %s lie on the repeat, %sand cloth stays idle between them", names(b.Pieces), b.repeats())
	} else if len(b.Pieces) > 0 {
		text += fmt.Sprintf("; %s %s it wherever laid", names(b.Pieces), crosses(b.Pieces))
	}
	return text + "; the pieces need more of that part than a shorter cloth has"
}

// repeats says in a row or column how pieces lie on the repeat.
func (b Bound) repeats() string {
	if !b.OnRepeat() {
		return ""
	}
	return "matched ones whole repeats apart, "
}

// Brief says the same in a few words, without figures.
func (b Bound) Brief() string {
	switch b.Kind {
	case Area:
		return "the pieces alone cover that much cloth"
	case LastPin:
		return "a pinned piece ends there"
	case LongestPiece:
		return "the longest piece is that long"
	case Row:
		if b.OnRepeat() {
			return "pieces too wide to lie side by side follow each other whole repeats apart"
		}
		return "pieces too wide to lie side by side follow each other in one row"
	case Column:
		return "on less, pieces would lie side by side that are too wide together"
	case Rectangles:
		return "wherever the pieces begin along less cloth, too many lie side by side"
	case Chords, Prices:
		if b.OnRepeat() {
			return "on the repeat too many pieces need the same part of the cloth"
		}
	case Abreast:
		return "pieces side by side keep each other apart by their widest parts"
	case OneWay:
		return "pieces that all point one way leave cloth idle between them"
	}
	return "too many pieces need the same part of the cloth"
}

// bandShare is the share of all prices that lies in the band a reason names.
const bandShare = 0.9

// band returns the middle part of the cloth that carries most of the prices.
func (c Certificate) band() (from, to float64) {
	sum := 0.0
	each := make([]float64, len(c.Borders)-1)
	for _, layer := range c.Prices {
		for k, price := range layer {
			each[k] += price * (c.Borders[k+1] - c.Borders[k])
			sum += price * (c.Borders[k+1] - c.Borders[k])
		}
	}
	at := func(share float64) float64 {
		left := share * sum
		for k, v := range each {
			if v >= left && v > 0 {
				return c.Borders[k] + (c.Borders[k+1]-c.Borders[k])*left/v
			}
			left -= v
		}
		return c.Borders[len(c.Borders)-1]
	}
	return max(at((1-bandShare)/2)-c.Gap/2, 0), at((1+bandShare)/2) - c.Gap/2
}

// names lists pieces as in a sentence.
func names(pieces []string) string {
	if len(pieces) == 0 {
		return "some pieces"
	}
	return say.InWords(pieces, "and")
}

func crosses(pieces []string) string {
	if len(pieces) == 1 {
		return "crosses"
	}
	return "cross"
}

// mustCross names the items that take up part of every line of the band wherever
// they lie.
func (l lines) mustCross(from, to float64) []string {
	var out []string
next:
	for _, it := range l.items {
		for _, o := range it.options {
			at := o.shares[0].at
			if o.hi+at[0] > from || o.lo+at[len(at)-1] < to {
				continue next
			}
		}
		if !slices.Contains(out, it.name) { // several flaws
			out = append(out, it.name)
		}
	}
	return out
}
