package compare

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// Measures of the bars, mm of paper, and the most of them.
const (
	barHeight = 5.0
	barPitch  = 8.0
	nameWide  = 30 // letters of a row's name in a line
	whyWide   = 72 // and of what is written in place of its bar: plot over small x letter
	mostBars  = 60
)

// part of a bar is one cloth.
type part struct {
	cloth  int // into the names of cloths
	value  float64
	bought string
}

// bar is one row: its parts in the order of the cloths.
type bar struct {
	row   *Row
	parts []part
	total string
	least float64 // what no layouts could undercut
}

// scale says what bars measure.
type scale struct {
	title string
	of    func(c report.Cloth) (value, least float64)
	total func(w *Row, value float64) string
}

// scale measures bars in money, or in length where some cloth has no price.
func (r *Result) scale() scale {
	if len(r.unpriced()) == 0 {
		one := math.Pow10(cost.Decimals(r.Currency))
		return scale{"cost of cloth, " + r.Currency, func(c report.Cloth) (float64, float64) {
			return float64(c.Buy.Cost.Minor) / one, float64(c.Laid.LeastCost().Minor) / one
		}, func(w *Row, _ float64) string {
			if w.Price != "" {
				return w.Cost + ", gown " + w.Price
			}
			return w.Cost
		}}
	}
	per := measure.Yard
	if r.Unit.Metric() {
		per = measure.Metre
	}
	return scale{"bought length of all cloths, " + per.String(), func(c report.Cloth) (float64, float64) {
		return c.Bought / per.Millimetres(), c.Laid.LeastBuy / per.Millimetres()
	}, func(_ *Row, value float64) string { return inUnit(value*per.Millimetres(), per) }}
}

// bars draws a bar for each row, of a part for each cloth.
func (p *picture) bars() {
	s := p.scale()
	rows := p.drawn(mostBars)
	var cloths []string
	var bars []bar
	most := 0.0
	for _, row := range rows {
		b := newBar(row, s, &cloths)
		sum := 0.0
		for _, part := range b.parts {
			sum += part.value
		}
		most = max(most, sum)
		bars = append(bars, b)
	}
	p.key(cloths)
	at, decimals := ticks(most)
	x0 := edge + nameWide*text*letter + 2
	per := plot / at[len(at)-1]
	top := p.y
	mark := len(p.items) // the lines of the axis lie under the bars
	for _, b := range bars {
		p.bar(b, x0, per)
	}
	var under []sheet.Item
	for _, v := range at {
		x := x0 + v*per
		under = append(under, sheet.Line{Role: sheet.RoleDim, Path: orb.LineString{{x, top}, {x, p.y + 1}}})
		p.centred(sheet.RoleNote, x, p.y+3, small, number(v, decimals))
	}
	p.items = slices.Insert(p.items, mark, under...)
	p.centred(sheet.RoleNote, x0+plot/2, p.y+7.5, text, s.title)
	p.y += 10
	p.footnotes(bars, len(rows))
	p.right = max(p.right, x0+plot)
}

func newBar(row *Row, s scale, cloths *[]string) bar {
	b := bar{row: row}
	if row.Report == nil {
		return b
	}
	sum := 0.0
	for _, c := range row.Report.Cloths {
		k := slices.Index(*cloths, c.ID)
		if k < 0 {
			k = len(*cloths)
			*cloths = append(*cloths, c.ID)
		}
		value, least := s.of(c)
		b.parts = append(b.parts, part{k, value, inUnit(c.Bought, c.Spread.Cloth.Offer.Per)})
		b.least += least
		sum += value
	}
	slices.SortFunc(b.parts, func(a, b part) int { return a.cloth - b.cloth })
	b.total = s.total(row, sum)
	return b
}

// key names the cloths by their tints, in the order of the parts.
func (p *picture) key(cloths []string) {
	x := edge
	for i, id := range cloths {
		w := 5 + float64(len(id))*text*letter + 4
		if x > edge && x+w > edge+nameWide*text*letter+plot {
			x, p.y = edge, p.y+text*1.6
		}
		p.add(sheet.Shape{Role: sheet.RolePiece, Ring: ring(x, p.y-0.4, x+4, p.y+text), Tint: i})
		p.text(sheet.RoleNote, x+5, p.y+text/2-0.2, text, id)
		x += w
	}
	p.y += text * 2
}

// bar draws one row.
func (p *picture) bar(b bar, x0, per float64) {
	names := fold(b.row.Title(), nameWide)
	var why []string
	if b.row.Report == nil {
		why = fold("not laid: "+b.row.Brief, whyWide)
	}
	pitch := max(barPitch, float64(len(names))*text*1.25+2, float64(len(why))*small*1.2+2)
	mid := p.y + pitch/2
	role := sheet.RoleNote
	if b.row.Best {
		role = sheet.RoleHeading
	}
	for i, name := range names {
		p.text(role, edge, mid+(float64(i)-float64(len(names)-1)/2)*text*1.25, text, name)
	}
	defer func() { p.y += pitch }()
	if b.row.Report == nil {
		p.why(why, x0+2, mid)
		return
	}
	x := x0
	for _, part := range b.parts {
		w := part.value * per
		p.add(sheet.Shape{Role: sheet.RolePiece, Ring: ring(x, mid-barHeight/2, x+w, mid+barHeight/2), Tint: part.cloth})
		if float64(len(part.bought))*small*digit < w-1 {
			p.centred(sheet.RoleNote, x+w/2, mid, small, part.bought)
		}
		x += w
	}
	if least := x0 + b.least*per; !b.row.Proved && least < x-0.2 {
		p.line(sheet.RoleMark, orb.Point{least, mid - barHeight/2 - 0.8}, orb.Point{least, mid + barHeight/2 + 0.8})
	}
	total := b.total
	if b.row.Best {
		total += ", the best"
	}
	under := ring(x+1, mid-text*0.6, x+2+float64(len(total))*text*letter, mid+text*0.6)
	p.add(sheet.Shape{Role: sheet.RoleGround, Ring: under})
	p.text(role, x+2, mid, text, total)
}

// why writes what keeps a row from being laid in place of its bar.
func (p *picture) why(lines []string, x, mid float64) {
	h := float64(len(lines)) * small * 1.2
	p.add(sheet.Shape{Role: sheet.RoleGround, Ring: ring(x-1, mid-h/2, x+plot, mid+h/2)})
	for i, line := range lines {
		p.text(sheet.RoleNote, x, mid+(float64(i)-float64(len(lines)-1)/2)*small*1.2, small, line)
	}
}

// footnotes explain what stands in the picture.
func (p *picture) footnotes(bars []bar, drawn int) {
	var notes []string
	if drawn < len(p.Rows) {
		notes = append(notes, fmt.Sprintf("The %d best of %d rows and the job as written.", drawn-1, len(p.Rows)))
	}
	notes = append(notes, "In the bars: the length bought of each cloth, in the unit it is sold by.")
	if slices.ContainsFunc(bars, func(b bar) bool { return b.row.Report != nil && !b.row.Proved }) {
		notes = append(notes, "Dashed: no layouts could undercut this. Where there is none the purchase is proved minimal.")
	}
	for _, note := range notes {
		p.text(sheet.RoleNote, edge, p.y+small/2, small, note)
		p.y += small * 1.4
	}
}
