package sheet

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// DXFUnit is the unit that the numbers of a DXF file count.
type DXFUnit uint8

// The units.
const (
	DXFMillimetres DXFUnit = iota
	DXFInches
)

// mmPerInch is the length of the international inch of 1959.
const mmPerInch = 25.4

// DXF writes the line work as DXF R12 (AC1009): ASCII, each part a block, each place an
// insertion of it, each layer by its number. The same line work gives the same bytes.
//
// R12 has no word for its unit. The file says it in a comment, in a text on the layer of
// words, and by $MEASUREMENT (0 inches, 1 metric) and $INSUNITS (1 inches, 4 mm), which came
// with later releases: readers look header variables up by name, and one that does not
// know these passes over them. In millimetres a point of the lattice is exact and any other
// is rounded to 0.001 mm; in inches all are rounded to 0.000001 in.
func (s Strokes) DXF(unit DXFUnit) ([]byte, error) {
	if !s.finite() {
		return nil, fmt.Errorf("line work %q has a coordinate that is not a finite number", s.Title)
	}
	w := &dxfWriter{unit: unit, blocks: blockNames(s.Parts)}
	for _, n := range append([]string{s.Title, s.Description, w.unitWords()}, s.Notes...) {
		for _, line := range dxfText(n) {
			w.pair(999, line)
		}
	}
	w.header(s.Page)
	w.tables(s.used())
	w.section("BLOCKS", func() {
		for i, p := range s.Parts {
			w.block(w.blocks[i], p)
		}
	})
	w.section("ENTITIES", func() {
		for _, l := range s.Loose {
			w.stroke(l)
		}
		for _, t := range append(slices.Clip(s.Texts), w.signed(s)...) {
			w.text(t)
		}
		for _, p := range s.Places {
			w.pair(0, "INSERT")
			w.pair(8, "0")
			w.pair(2, w.blocks[p.Part])
			w.point(10, p.At)
			if p.Turn != 0 {
				w.pair(50, strconv.FormatFloat(p.Turn, 'f', -1, 64))
			}
			if t, ok := s.copyText(p); ok {
				w.text(t)
			}
		}
	})
	w.pair(0, "EOF")
	return w.buf.Bytes(), nil
}

type dxfWriter struct {
	buf    bytes.Buffer
	unit   DXFUnit
	blocks []string // names, by part
}

// pair writes a group: its code and its value, each on a line as DOS ends them.
func (w *dxfWriter) pair(code int, value string) { fmt.Fprintf(&w.buf, "%3d\r\n%s\r\n", code, value) }

func (w *dxfWriter) flag(code, value int) { w.pair(code, strconv.Itoa(value)) }

func (w *dxfWriter) section(name string, body func()) {
	w.pair(0, "SECTION")
	w.pair(2, name)
	body()
	w.pair(0, "ENDSEC")
}

// unitWords says the unit as readers of pattern data look for it (a custom of such files;
// no source seen), then in words.
func (w *dxfWriter) unitWords() string {
	if w.unit == DXFInches {
		return "UNITS: ENGLISH, lengths in inches"
	}
	return "UNITS: METRIC, lengths in millimetres"
}

// signed are the texts below the page that say what the file is of, and its unit; none
// where there are no words at all.
func (w *dxfWriter) signed(s Strokes) (texts []Text) {
	if !s.used()[LayerWords] {
		return nil
	}
	const size, step = 10.0, 15.0 // mm
	for i, said := range []string{s.Title, w.unitWords()} {
		at := orb.Point{s.Page.Min[0], s.Page.Min[1] - step*float64(i+1)}
		texts = append(texts, Text{At: at, Size: size, Body: said})
	}
	return texts
}

func (w *dxfWriter) header(page orb.Bound) {
	measurement, units, digits := 1, 4, 3
	if w.unit == DXFInches {
		measurement, units, digits = 0, 1, 4
	}
	w.section("HEADER", func() {
		w.pair(9, "$ACADVER")
		w.pair(1, "AC1009")
		for _, corner := range []struct {
			name string
			at   orb.Point
		}{{"$EXTMIN", page.Min}, {"$EXTMAX", page.Max}} {
			w.pair(9, corner.name)
			w.point(10, corner.at)
		}
		for _, v := range []struct {
			name  string
			value int
		}{{"$LUNITS", 2}, {"$LUPREC", digits}, {"$MEASUREMENT", measurement}, {"$INSUNITS", units}} {
			w.pair(9, v.name)
			w.flag(70, v.value)
		}
	})
}

// tables writes the one type of line, since a machine would cut dashes as they stand, the
// layers, and the one style of text.
func (w *dxfWriter) tables(used [layerCount]bool) {
	table := func(name string, entries int, body func()) {
		w.pair(0, "TABLE")
		w.pair(2, name)
		w.flag(70, entries)
		body()
		w.pair(0, "ENDTAB")
	}
	w.section("TABLES", func() {
		table("LTYPE", 1, func() {
			w.pair(0, "LTYPE")
			w.pair(2, "CONTINUOUS")
			w.flag(70, 0)
			w.pair(3, "Solid line")
			w.flag(72, 65)
			w.flag(73, 0)
			w.pair(40, "0.0")
		})
		n := 1
		for _, u := range used {
			if u {
				n++
			}
		}
		table("LAYER", n, func() {
			w.layer("0", 7)
			for l, look := range layers {
				if used[l] {
					w.layer(look.dxf, look.colour)
				}
			}
		})
		table("STYLE", 1, func() {
			w.pair(0, "STYLE")
			w.pair(2, "STANDARD")
			w.flag(70, 0)
			for _, v := range []struct {
				code  int
				value string
			}{{40, "0.0"}, {41, "1.0"}, {50, "0.0"}, {71, "0"}, {42, "2.5"}, {3, "txt"}, {4, ""}} {
				w.pair(v.code, v.value)
			}
		})
	})
}

func (w *dxfWriter) layer(name string, colour int) {
	w.pair(0, "LAYER")
	w.pair(2, name)
	w.flag(70, 0)
	w.flag(62, colour)
	w.pair(6, "CONTINUOUS")
}

func (w *dxfWriter) block(name string, p StrokePart) {
	w.pair(0, "BLOCK")
	w.pair(8, "0")
	w.pair(2, name)
	w.flag(70, 0)
	w.point(10, orb.Point{})
	w.pair(3, name)
	for _, l := range p.Strokes {
		w.stroke(l)
	}
	for _, t := range p.Texts {
		w.text(t)
	}
	w.pair(0, "ENDBLK")
	w.pair(8, "0")
}

// stroke writes a line between two points as such, and any other as a polyline.
func (w *dxfWriter) stroke(s Stroke) {
	layer := layers[s.Layer].dxf
	if len(s.Path) == 2 {
		w.pair(0, "LINE")
		w.pair(8, layer)
		w.point(10, s.Path[0])
		w.point(11, s.Path[1])
		return
	}
	path, closed := s.Path, 0
	if s.Closed() {
		path, closed = path[:len(path)-1], 1
	}
	w.pair(0, "POLYLINE")
	w.pair(8, layer)
	w.flag(66, 1) // vertices follow
	w.point(10, orb.Point{})
	w.flag(70, closed)
	for _, p := range path {
		w.pair(0, "VERTEX")
		w.pair(8, layer)
		w.point(10, p)
	}
	w.pair(0, "SEQEND")
	w.pair(8, layer)
}

// capital is the height of capitals, which a DXF text has for its height, in the size.
const capital = 2 * middle

// text writes a text, broken where it is too long for one.
func (w *dxfWriter) text(t Text) {
	sin, cos := plane.SinCos(t.Turn)
	for i, line := range dxfText(t.Body) {
		down := float64(i) * lineHeight * t.Size
		at := orb.Point{t.At[0] + sin*down, t.At[1] - cos*down}
		w.pair(0, "TEXT")
		w.pair(8, layers[LayerWords].dxf)
		w.point(10, at)
		w.pair(40, w.num(capital*t.Size))
		w.pair(1, line)
		if t.Turn != 0 {
			w.pair(50, strconv.FormatFloat(t.Turn, 'f', -1, 64))
		}
		w.flag(72, int(t.Anchor)) // left, centre, right
		w.point(11, at)
		w.flag(73, 2) // its middle lies there
	}
}

// point writes a point whose x has a code.
func (w *dxfWriter) point(code int, p orb.Point) {
	w.pair(code, w.num(p[0]))
	w.pair(code+10, w.num(p[1]))
	w.pair(code+20, "0.0")
}

// num prints a length, always with a point, as R12 itself does.
func (w *dxfWriter) num(mm float64) string {
	digits := 3
	switch {
	case w.unit == DXFInches:
		mm, digits = mm/mmPerInch, 6
	case mm == plane.Snap(mm):
		digits = -1 // all there are, ten at most
	}
	whole, part, _ := strings.Cut(strconv.FormatFloat(mm, 'f', digits, 64), ".")
	if part = strings.TrimRight(part, "0"); part == "" {
		part = "0"
	}
	if s := whole + "." + part; s != "-0.0" {
		return s
	}
	return "0.0"
}

// longestDXF is the most bytes of a text of R12, 255, less a margin for readers that
// count its end.
const longestDXF = 250

// dxfText makes a text safe in R12, which is ASCII: other characters are written \U+XXXX,
// those beyond 16 bits as the two halves of UTF-16. What a text takes for a sign is
// written so that it stands for itself: a backslash before U+ or M+, a caret, and a second
// percent sign, which is set apart by a space. Control characters become spaces. A text
// too long for one is broken in several, the last of them perhaps empty.
func dxfText(s string) []string {
	lines := []string{""}
	runes := []rune(strings.ToValidUTF8(s, "\uFFFD"))
	for i, r := range runes {
		part := string(r)
		next := string(runes[i+1 : min(i+3, len(runes))])
		switch {
		case r < ' ' || r == 0x7f:
			part = " "
		case r == '^':
			part = "^ "
		case r == '%' && strings.HasPrefix(next, "%"):
			part = "% "
		case r == '\\' && (next == "U+" || next == "M+"):
			part = `\U+005C`
		case r > 0xFFFF:
			high, low := utf16.EncodeRune(r)
			part = fmt.Sprintf(`\U+%04X\U+%04X`, high, low)
		case r > '~':
			part = fmt.Sprintf(`\U+%04X`, r)
		}
		last := len(lines) - 1
		if len(lines[last])+len(part) > longestDXF {
			lines, last = append(lines, ""), last+1
		}
		lines[last] += part
	}
	return lines
}

// longestBlock is the most letters of a name in R12.
const longestBlock = 31

// blockNames gives each part a name of its own that R12 allows: capitals, figures and
// hyphens, at most 31 of them. Of names that come to the same later ones get a number.
func blockNames(parts []StrokePart) []string {
	names, taken, next := make([]string, len(parts)), map[string]bool{}, map[string]int{}
	for i, p := range parts {
		base := strings.Trim(strings.Map(func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z':
				return r - 'a' + 'A'
			case r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
				return r
			}
			return '-'
		}, p.Name), "-")
		for strings.Contains(base, "--") {
			base = strings.ReplaceAll(base, "--", "-")
		}
		if base == "" {
			base = "PIECE"
		}
		base = strings.TrimRight(base[:min(len(base), longestBlock)], "-")
		name := base
		for taken[name] {
			next[base] = max(next[base]+1, 2)
			number := fmt.Sprintf("-%d", next[base])
			name = strings.TrimRight(base[:min(len(base), longestBlock-len(number))], "-") + number
		}
		names[i], taken[name] = name, true
	}
	return names
}
