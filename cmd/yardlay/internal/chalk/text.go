package chalk

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"yardlay/shapes/measure"
)

// textWidth is the longest line of the text, but for names.
const textWidth = 78

// longTable is more points than one piece is drawn by with patience.
const longTable = 60

// HowTo says how the tables are read, a paragraph each.
func HowTo(t Tape) []string {
	unit, mark := "inches", "1/16 in"
	if t.Unit.Metric() {
		unit, mark = "centimetres", "1 mm"
		if t.Unit == measure.Millimetre {
			unit = "millimetres"
		}
	}
	return []string{
		"Distances are in " + unit + ", to the nearest " + mark + ". Lay the cloth flat and do not stretch it. Make " +
			"the cut end square to the selvedge first.",
		"Points: measure the first figure along the cloth from the cut end, the second straight across from the edge " +
			"named, the one nearest to you. Make a small cross and write the number beside it.",
		"Lines: join the points as said, round the piece. They are cut lines, allowances included. A length that is " +
			"given beside a line is there to check.",
		"Arcs: hold one end of the string at P and the chalk at the other, at the length given. P is no hole: hold " +
			"it down, or pin it where nothing shows. String that stretches is no use.",
		"Curves: lay the tape from point to point and measure off it at a right angle, out of the piece or into it " +
			"as said. \"At every 2 from 5: out 1/4, 3/8\" means 1/4 at 2 from point 5, 3/8 at 4. Join the marks. " +
			"Left and right, of lines inside, are seen on the way from the first point to the second.",
		"What is drawn so lies within " + mark + " of the cut line. Try the chalk on a scrap.",
	}
}

// Text writes the tables of a marker.
func (m Marker) Text(t Tape) string {
	var b strings.Builder
	if m.Name != "" {
		fmt.Fprintf(&b, "%s\n", strings.ToUpper(m.Name[:1])+m.Name[1:])
	}
	for _, s := range m.Facts(t) {
		b.WriteString(wrapped(s, "", ""))
	}
	for _, p := range m.Pieces {
		b.WriteString("\n" + wrapped(p.Title(), "", "   "))
		p.text(&b, t, m.Edge)
	}
	return b.String()
}

// Facts says what holds for all pieces of a marker.
func (m Marker) Facts(t Tape) []string {
	var facts []string
	if m.Begins > 0 {
		facts = append(facts, fmt.Sprintf("Draw a line straight across, %s from the cut end: it is the cut end of "+
			"this marker.", t.Show(t.Round(m.Begins))))
	}
	facts = append(facts, fmt.Sprintf("Pieces: %d, within %s of the cut end. Across is measured from the %s.",
		len(m.Pieces), t.Show(t.Round(m.Used)), m.Edge))
	for _, s := range []string{m.Double, m.On} {
		if s != "" {
			facts = append(facts, s)
		}
	}
	var long []string
	for _, p := range m.Pieces {
		if len(p.Figures.Places) > longTable {
			long = append(long, strconv.Itoa(p.Number))
		}
	}
	if len(long) > 0 {
		facts = append(facts, fmt.Sprintf("Long tables, of more than %d points: piece %s. Paper may be quicker.",
			longTable, strings.Join(long, ", ")))
	}
	return facts
}

// Title names a piece with its number and size.
func (p Piece) Title() string {
	words := []string{p.Name}
	for _, s := range []string{p.Copy, p.Size} {
		if s != "" {
			words = append(words, s)
		}
	}
	return fmt.Sprintf("%d. %s", p.Number, strings.Join(words, ", "))
}

// text writes the two tables of a piece.
func (p Piece) text(b *strings.Builder, t Tape, edge string) {
	row := func(cells ...any) { b.WriteString(wrapped(fmt.Sprintf("   %-8s%14s%18s", cells...), "", "")) }
	row("point", "from cut end", "from "+edge)
	for _, r := range p.Figures.Points() {
		row(r.Label, t.Show(r.At[0]), t.Show(r.At[1]))
	}
	for _, r := range p.Figures.Lines(t) {
		b.WriteString(wrapped(fmt.Sprintf("   %-10s%s", r.Label, r.Words), "", strings.Repeat(" ", 13)))
	}
}

// wrapped breaks a text between words into lines, of which those after the first are
// indented.
func wrapped(text, first, rest string) string {
	var b strings.Builder
	line := first
	for i, word := range strings.SplitAfter(text, " ") {
		if i > 0 && utf8.RuneCountInString(strings.TrimRight(line+word, " ")) > textWidth {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = rest
		}
		line += word
	}
	return strings.ReplaceAll(b.String()+strings.TrimRight(line, " ")+"\n", noBreak, " ")
}
