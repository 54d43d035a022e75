package book

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

// Sizes of text on paper, mm: 10 points for what is read, 8 for what stands beside it.
const (
	textTitle   = 8.0
	textSection = 5.6
	textHeading = 4.2
	textBody    = 3.5
	textSmall   = 2.9
	leading     = 1.32 // height of a line in its size
	rounding    = 1e-6 // mm, more than sums of widths and heights are off by
)

// setter turns blocks into strips of a width.
type setter struct{ width float64 }

// block returns the strips of a block. Those of a heading are kept with what follows.
func (s setter) block(b Block) []strip {
	switch b := b.(type) {
	case Heading:
		return append([]strip{air(3)}, kept(s.text(sheet.RoleHeading, textHeading, 0, b.Text))...)
	case Paragraph:
		role := sheet.RoleNote
		if b.Caution {
			role = sheet.RoleCaution
		}
		set := s.text(role, textBody, 0, b.Text)
		if b.Keep {
			return append(kept(set), strip{height: 1.6, keep: true})
		}
		return append(linesKept(set), air(1.6))
	case Table:
		return s.table(b)
	case Figure:
		return s.figure(b)
	}
	return nil
}

// air is room between blocks.
func air(height float64) strip { return strip{height: height, air: true} }

// text sets a text in lines from an indent on.
func (s setter) text(role sheet.Role, size, indent float64, text string) []strip {
	var list []strip
	for _, line := range lines(role, text, size, s.width-indent) {
		list = append(list, strip{height: size * leading, draw: func(at orb.Point) ([]sheet.Item, []sheet.View) {
			return []sheet.Item{word(role, orb.Point{at[0] + indent, at[1] + size*leading/2}, sheet.Start, size, line)},
				nil
		}})
	}
	return list
}

func word(role sheet.Role, at orb.Point, anchor sheet.Anchor, size float64, text string) sheet.Text {
	return sheet.Text{Role: role, At: at, Anchor: anchor, Size: size, Body: text}
}

// lines breaks a text so that no number is parted from what it counts.
func lines(role sheet.Role, text string, size, width float64) []string {
	words := say.Words(text, func(s string) bool { return sheet.TextWidth(role, s, size) <= width })
	return sheet.Lines(role, words, size, width)
}

// kept keeps all strips with the next one.
func kept(list []strip) []strip {
	for i := range list {
		list[i].keep = true
	}
	return list
}

// linesKept keeps the first two and the last two lines together, so that none stands
// alone at the foot or the top of a page.
func linesKept(list []strip) []strip {
	for i := range list {
		list[i].keep = i < len(list)-1 && (i == 0 || i == len(list)-2)
	}
	return list
}

// figure cuts a drawing into bands as wide as the page, one below the other; each shows
// a little of the one before.
func (s setter) figure(f Figure) []strip {
	const again = 12.0 // mm that two bands share
	d := f.Drawing
	width, height := d.Width/d.Scale, d.Height/d.Scale
	list := []strip{air(1.5)}
	if f.Caption != "" {
		list = append(list, kept(s.text(sheet.RoleHeading, textBody, 0, f.Caption))...)
	}
	bands := 1
	if width > s.width+rounding {
		bands = int(math.Ceil((width - again) / (s.width - again)))
	}
	for i := range bands {
		from := float64(i) * (s.width - again)
		band := math.Min(width-from, s.width)
		list = append(list, strip{height: height, draw: func(at orb.Point) ([]sheet.Item, []sheet.View) {
			return nil, []sheet.View{{Drawing: d, From: orb.Point{from * d.Scale, 0},
				Window: orb.Bound{Min: at, Max: orb.Point{at[0] + band, at[1] + height}}}}
		}})
		if i < bands-1 {
			list = append(list, air(3))
		}
	}
	return append(list, air(2))
}
