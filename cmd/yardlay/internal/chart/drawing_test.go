package chart

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// parts are the items of a drawing by what they are.
type parts struct {
	texts  []sheet.Text
	lines  []sheet.Line
	shapes []sheet.Shape
}

func partsOf(d sheet.Drawing) (p parts) {
	for _, item := range d.Groups[0].Items {
		switch item := item.(type) {
		case sheet.Text:
			p.texts = append(p.texts, item)
		case sheet.Line:
			p.lines = append(p.lines, item)
		case sheet.Shape:
			p.shapes = append(p.shapes, item)
		}
	}
	return p
}

// text returns the one text that reads so.
func (p parts) text(t rapid.TB, body string) sheet.Text {
	t.Helper()
	i := slices.IndexFunc(p.texts, func(s sheet.Text) bool { return s.Body == body })
	if i < 0 {
		t.Fatalf("%q is not written", body)
	}
	return p.texts[i]
}

// boxOf is what a text covers at the most, with letters as wide as figures.
func boxOf(s sheet.Text) orb.Bound {
	w, h := float64(len(s.Body))*s.Size*digit, s.Size
	if s.Turn == 90 {
		return orb.Bound{Min: orb.Point{s.At[0] - h/2, s.At[1] - w/2}, Max: orb.Point{s.At[0] + h/2, s.At[1] + w/2}}
	}
	x := s.At[0]
	if s.Anchor == sheet.Middle {
		x -= w / 2
	}
	return orb.Bound{Min: orb.Point{x, s.At[1] - h/2}, Max: orb.Point{x + w, s.At[1] + h/2}}
}

// onPaper checks that all that is drawn lies on the paper, and no figure in the title.
func onPaper(t rapid.TB, d sheet.Drawing) {
	t.Helper()
	p := partsOf(d)
	bounds := map[string]orb.Bound{}
	for _, s := range p.texts {
		bounds[s.Body] = boxOf(s)
	}
	for i, s := range p.shapes {
		bounds[fmt.Sprint("shape ", i)] = s.Ring.Bound()
	}
	for i, l := range p.lines {
		if len(l.Path) > 0 {
			bounds[fmt.Sprint("line ", i)] = l.Path.Bound()
		}
	}
	title := boxOf(p.text(t, d.Title))
	for what, b := range bounds {
		if b.Min[0] < 0 || b.Min[1] < 0 || b.Max[0] > d.Width || b.Max[1] > d.Height {
			t.Fatalf("%s at %v lies off a paper of %v x %v", what, b, d.Width, d.Height)
		}
		if what != d.Title && b.Min[1] < title.Max[1] {
			t.Fatalf("%s at %v lies over the title, which ends at %v", what, b, title.Max[1])
		}
	}
}

// tickAt returns how a scale along an axis is labelled: the place of 0 and mm of paper for
// one of the quantity, from the least and the greatest figure.
func tickAt(t rapid.TB, p parts, axis int, at func(s sheet.Text) bool) (zero, per float64) {
	t.Helper()
	var values, places []float64
	for _, s := range p.texts {
		if v, err := strconv.ParseFloat(s.Body, 64); err == nil && s.Size == small && at(s) {
			values, places = append(values, v), append(places, s.At[axis])
		}
	}
	if len(values) < 3 || values[0] != 0 {
		t.Fatalf("figures %v at the axis", values)
	}
	per = (places[len(places)-1] - places[0]) / values[len(values)-1]
	for i, v := range values {
		if math.Abs(places[i]-places[0]-v*per) > 1e-6 {
			t.Fatalf("figures %v stand at %v", values, places)
		}
	}
	return places[0], per
}

func anyBars(t *rapid.T) Bars {
	b := Bars{Title: "What it costs", Axis: "price", Parts: []string{"cloth", "lining", "work"}, Notes: []string{"a note"}}
	scale := math.Pow(10, float64(rapid.IntRange(-2, 5).Draw(t, "scale")))
	for i := range rapid.IntRange(1, 6).Draw(t, "rows") {
		row := Bar{Name: fmt.Sprint("row ", i, strings.Repeat(" and more", rapid.IntRange(0, 8).Draw(t, "more"))),
			Best: i == 0, Total: fmt.Sprint("total ", i), Least: math.NaN()}
		if rapid.IntRange(0, 3).Draw(t, "none") == 0 {
			row.Why = fmt.Sprint("why ", i)
		}
		sum := 0.0
		for k := range b.Parts {
			v := scale * rapid.Float64Range(0.01, 9).Draw(t, "value")
			row.Parts, sum = append(row.Parts, Part{Of: k, Value: v, Label: fmt.Sprint("label ", i, k)}), sum+v
		}
		if rapid.Bool().Draw(t, "bounded") {
			row.Least = sum * rapid.Float64Range(0.5, 1.1).Draw(t, "least")
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

// A bar is as long as its parts say on the scale that the figures at the axis give, part
// after part, with a dash at its least; a row without a bar says why.
func TestBarsAreToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBars(t)
		d := b.Drawing()
		onPaper(t, d)
		p := partsOf(d)
		zero, per := tickAt(t, p, 0, func(s sheet.Text) bool { return s.Anchor == sheet.Middle })
		bars := slices.DeleteFunc(p.shapes, func(s sheet.Shape) bool {
			return s.Role != sheet.RolePiece || s.Ring.Bound().Max[1]-s.Ring.Bound().Min[1] < barHeight-1e-9
		})
		dashes := slices.DeleteFunc(p.lines, func(l sheet.Line) bool { return l.Role != sheet.RoleMark })
		for _, row := range b.Rows {
			if row.Why != "" {
				if i := slices.IndexFunc(p.texts, func(s sheet.Text) bool { return s.Body == row.Total }); i >= 0 {
					t.Fatal("a total of no bar is written")
				}
				p.text(t, row.Why)
				continue
			}
			total, end := row.Total, zero
			if row.Best {
				total += ", the best"
			}
			mid := p.text(t, total).At[1]
			for _, part := range row.Parts {
				box := bars[0].Ring.Bound()
				if math.Abs(box.Min[0]-end) > 1e-6 || math.Abs(box.Max[0]-box.Min[0]-part.Value*per) > 1e-6 ||
					math.Abs((box.Min[1]+box.Max[1])/2-mid) > 1e-6 || bars[0].Tint != part.Of {
					t.Fatalf("%v of %v lies at %v, the one before ends at %v", part, row, box, end)
				}
				bars, end = bars[1:], box.Max[0]
				if i := slices.IndexFunc(p.texts, func(s sheet.Text) bool { return s.Body == part.Label }); i >= 0 {
					if l := boxOf(p.texts[i]); l.Min[0] < box.Min[0] || l.Max[0] > box.Max[0] {
						t.Fatalf("%q is wider than its part", part.Label)
					}
				}
			}
			if least := zero + row.Least*per; least < end-0.2 {
				if x := dashes[0].Path[0][0]; math.Abs(x-least) > 1e-6 {
					t.Fatalf("the least is marked at %v, not at %v", x, least)
				}
				dashes = dashes[1:]
			}
		}
		if len(bars) > 0 || len(dashes) > 0 {
			t.Fatalf("%d parts and %d dashes of no row", len(bars), len(dashes))
		}
	})
}

// Rows follow each other downward and cover none of each other, however long their names.
func TestRowsOfBarsStandApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBars(t)
		p, last := partsOf(b.Drawing()), 0.0
		for _, row := range b.Rows {
			for i, line := range fold(row.Name, nameWide) {
				var at []float64
				for _, s := range p.texts {
					if s.Body == line && s.At[1] > last {
						at = append(at, s.At[1])
					}
				}
				if len(at) == 0 || i > 0 && at[0]-last < text {
					t.Fatalf("line %d of %q is written at %v, the one before at %v", i, row.Name, at, last)
				}
				last = at[0]
			}
		}
	})
}

func anyPoints(t *rapid.T) Points {
	p := Points{Title: "Widths", Across: "width", Up: "price", Notes: []string{"one note"}}
	n, value := rapid.IntRange(2, 9).Draw(t, "places"), 0.0
	for i := range n {
		value += rapid.Float64Range(0.1, 40).Draw(t, "step")
		p.Places = append(p.Places, Place{Value: value, Best: i == 1, Lines: []string{fmt.Sprint("at ", i)}})
	}
	for k := range rapid.IntRange(1, 6).Draw(t, "series") {
		s := Series{Name: fmt.Sprint("cloth ", k)}
		for i := range n {
			v := float64(rapid.OneOf(rapid.IntRange(0, 50000), rapid.IntRange(49900, 50000)).Draw(t, "cents")) / 100
			if rapid.IntRange(0, 4).Draw(t, "none") == 0 {
				v = math.NaN()
			}
			s.Values, s.Labels = append(s.Values, v), append(s.Labels, fmt.Sprint("label ", k, i))
			s.Least = append(s.Least, v*rapid.Float64Range(0.5, 1.2).Draw(t, "least"))
		}
		p.Series = append(p.Series, s)
	}
	return p
}

// A point stands over its place at the height of its value, by the figures at the axis, and
// its label to the right of it; a dash stands at the least. What there is none of has none.
func TestPointsAreToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := anyPoints(t)
		d := points.Drawing()
		onPaper(t, d)
		p := partsOf(d)
		zero, per := tickAt(t, p, 1, func(s sheet.Text) bool { return s.Anchor != sheet.Middle })
		dots := slices.DeleteFunc(slices.Clone(p.shapes), func(s sheet.Shape) bool { return s.Role == sheet.RoleGround })
		dashes := slices.DeleteFunc(slices.Clone(p.lines), func(l sheet.Line) bool { return l.Role != sheet.RoleMark })
		for i, place := range points.Places {
			x := p.text(t, place.Lines[0]).At[0]
			for k, s := range points.Series {
				if math.IsNaN(s.Values[i]) {
					continue
				}
				want := orb.Point{x, zero + per*s.Values[i]}
				if !near(dots[0].Ring[0], dotAt(k, want[0], want[1]).(sheet.Shape).Ring[0]) {
					t.Fatalf("%s is drawn at %v, not about %v", s.Labels[i], dots[0].Ring, want)
				}
				dots = dots[1:]
				if s.Least[i] < s.Values[i] {
					if !near(dashes[0].Path[0], orb.Point{x - 5, zero + per*s.Least[i]}) {
						t.Fatalf("the least of %s is marked at %v", s.Labels[i], dashes[0].Path)
					}
					dashes = dashes[1:]
				}
				if l := p.text(t, s.Labels[i]); l.At[0] < x || l.At[1] < zero-high {
					t.Fatalf("%s is written at %v, its point is at %v", s.Labels[i], l.At, want)
				}
			}
		}
		if len(dots) != len(points.Series) || len(dashes) > 0 { // what is left is the key
			t.Fatalf("%d points and %d dashes of nothing", len(dots)-len(points.Series), len(dashes))
		}
	})
}

func near(a, b orb.Point) bool { return math.Abs(a[0]-b[0]) < 1e-6 && math.Abs(a[1]-b[1]) < 1e-6 }

// Steps in proportion say so, and so do even ones.
func TestPlacesInProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPoints(t)
		at, even := p.spaced()
		if even != p.Even() {
			t.Fatal("even and not even")
		}
		for i := 2; i < len(at); i++ {
			a, b := at[i]-at[i-1], at[1]-at[0]
			if !even {
				a, b = a*(p.Places[1].Value-p.Places[0].Value), b*(p.Places[i].Value-p.Places[i-1].Value)
			}
			if math.Abs(a-b) > 1e-6*(a+b) {
				t.Fatalf("even %v: places %v of %v", even, at, p.Places)
			}
		}
	})
}

// Words stay in order, lines within their letters but for a word that is longer, and no
// line ends where the next word would still have fitted.
func TestFoldBreaksBetweenWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,12}`), 0, 12).Draw(t, "words")
		letters := rapid.IntRange(1, 20).Draw(t, "letters")
		lines := fold(strings.Join(words, "  "), letters)
		if got := strings.Fields(strings.Join(lines, " ")); !slices.Equal(got, words) && len(words) > 0 {
			t.Fatalf("%q is folded to %q", words, lines)
		}
		for i, line := range lines {
			if len(line) > letters && strings.Contains(line, " ") {
				t.Fatalf("%q is longer than %d", line, letters)
			}
			if i > 0 && len(lines[i-1])+1+len(strings.Fields(line)[0]) <= letters {
				t.Fatalf("%q would have held the first word of %q", lines[i-1], line)
			}
		}
	})
}

// Names in a key stand apart, each with its mark before it, in as many lines as they take.
func TestKeyNamesStandApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-z ]{1,25}[a-z]`), 1, 9, rapid.ID[string]).Draw(t, "names")
		width := rapid.Float64Range(40, 200).Draw(t, "width")
		c := begin("title", "")
		c.key(names, 0, width, func(i int, x float64) sheet.Item { return dotAt(i, x+2, c.y) })
		p := partsOf(c.end())
		last := orb.Bound{}
		for i, name := range names {
			b, mark := boxOf(p.text(t, name)), p.shapes[i].Ring.Bound()
			if mark.Max[0] > b.Min[0] || math.Abs(mark.Center()[1]-b.Center()[1]) > 0.5 {
				t.Fatalf("%q at %v is marked at %v", name, b, mark)
			}
			if i > 0 && b.Min[1] < last.Max[1] && mark.Min[0] < last.Max[0] {
				t.Fatalf("%q begins at %v, the one before ends at %v", name, mark.Min, last.Max)
			}
			if mark.Min[0] > edge+1 && b.Max[0] > edge+width {
				t.Fatalf("%q ends at %v, of %v", name, b.Max[0], edge+width)
			}
			last = b
		}
	})
}
