package sheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// anyDrawing draws shapes, lines and texts of any role.
func anyDrawing(t *rapid.T, scale float64) Drawing {
	point := func() orb.Point {
		return orb.Point{scale * rapid.Float64Range(0, 200).Draw(t, "x"), scale * rapid.Float64Range(0, 150).Draw(t, "y")}
	}
	d := Drawing{Title: "drawing", Width: 200 * scale, Height: 150 * scale, Scale: scale,
		Theme: rapid.SampledFrom([]Theme{ThemeLines, ThemeLight, 0}).Draw(t, "theme"), Groups: []Group{{}}}
	for range rapid.IntRange(1, 5).Draw(t, "items") {
		role := Role(rapid.IntRange(0, int(roleCount)-1).Draw(t, "role"))
		path := []orb.Point{point(), point(), point()}
		var it Item
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			it = Shape{Role: role, Ring: append(path, path[0]), Tint: rapid.IntRange(0, 9).Draw(t, "tint")}
		case 1:
			it = Line{role, path[:rapid.IntRange(2, 3).Draw(t, "corners")]}
		default:
			it = Text{Role: rapid.SampledFrom([]Role{RoleNote, RoleHeading, RoleCaution}).Draw(t, "words"), At: path[0],
				Size: scale * rapid.Float64Range(1, 9).Draw(t, "size"), Anchor: Anchor(rapid.IntRange(0, 2).Draw(t, "anchor")),
				Turn: float64(rapid.SampledFrom([]int{0, 0, 90, 30, -45, 180}).Draw(t, "turn")), Body: "back (½) γ"}
		}
		d.Groups[0].Items = append(d.Groups[0].Items, it)
	}
	return d
}

// inPDF is a colour as a PDF has it: three shares, or one of grey.
func inPDF(colour string) string {
	r, g, b := rgb(colour)
	if r == g && g == b {
		return fmt.Sprintf("%.3f", float64(r)/255)
	}
	return fmt.Sprintf("%.3f %.3f %.3f", float64(r)/255, float64(g)/255, float64(b)/255)
}

// A PDF, read by the operators of its standard, paints every item in its place on the page and at the scale of its
// drawing, with the pen and the colours of its role, and nothing beyond the window of its view.
func TestPDFPaintsWhatIsDrawn(t *testing.T) {
	kinds := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.Float64Range(0.5, 15).Draw(t, "scale")
		d := anyDrawing(t, scale)
		at := orb.Point{rapid.Float64Range(0, 90).Draw(t, "left"), rapid.Float64Range(0, 90).Draw(t, "top")}
		wide, high := rapid.Float64Range(5, 150).Draw(t, "wide"), rapid.Float64Range(5, 150).Draw(t, "high")
		x, y := rapid.Float64Range(-20, 90).Draw(t, "from x"), rapid.Float64Range(-20, 90).Draw(t, "from y")
		v := View{Drawing: &d, From: orb.Point{scale * x, scale * y},
			Window: orb.Bound{Min: at, Max: orb.Point{at[0] + wide, at[1] + high}}}
		file, err := document(Page{Width: 260, Height: 250, Views: []View{v, v}}).PDF()
		if err != nil {
			t.Fatal(err)
		}
		pages, sizes := pdfPages(t, file)
		if len(pages) != 1 || planar.Distance(sizes[0], orb.Point{260, 250}) > 0.01 {
			t.Fatalf("pages of %v", sizes)
		}
		onto := func(p orb.Point) orb.Point {
			return orb.Point{at[0] + (p[0]-v.From[0])/scale, at[1] + (p[1]-v.From[1])/scale}
		}
		pal := d.Theme.palette()
		var want []painted
		for range 2 {
			if pal.ground != white {
				b := v.Window
				want = append(want, painted{how: "f", fill: inPDF(pal.ground), points: b.ToRing()[:4], closed: true})
			}
			for _, it := range d.Groups[0].Items {
				want = append(want, wanted(pal, it, onto)...)
			}
		}
		if len(pages[0]) != len(want) {
			t.Fatalf("%d items are painted, not %d: %+v", len(pages[0]), len(want), pages[0])
		}
		for i, w := range want {
			got := pages[0][i]
			kinds[got.how]++
			seen := v.Window
			if len(w.points) != 4 {
				seen = within(seen, orb.Bound{Min: onto(orb.Point{}), Max: onto(orb.Point{d.Width, d.Height})})
			}
			if c := got.clip; planar.Distance(c.Min, seen.Min)+planar.Distance(c.Max, seen.Max) > 0.04 {
				t.Fatalf("item %d is seen in %v, not in %v", i, c, seen)
			}
			if w.how != "T" && len(w.points) != 4 && got.join != 1 {
				t.Fatalf("item %d has corners of kind %v", i, got.join)
			}
			filled, drawn := strings.Contains("fBT", w.how), strings.Contains("SB", w.how)
			if got.how != w.how || got.closed != w.closed || len(got.points) != len(w.points) ||
				got.text != w.text || got.font != w.font ||
				filled && got.fill != w.fill || drawn && got.stroke != w.stroke {
				t.Fatalf("item %d is painted as\n%+v, not\n%+v", i, got, w)
			}
			if drawn && (math.Abs(got.width-w.width) > 0.004 || len(got.dash) != len(w.dash)) {
				t.Fatalf("item %d has a pen of %v and %v, not %v and %v", i, got.width, got.dash, w.width, w.dash)
			}
			for k := range w.dash {
				if drawn && math.Abs(got.dash[k]-w.dash[k]) > 0.01 {
					t.Fatalf("item %d is dashed by %v, not %v", i, got.dash, w.dash)
				}
			}
			if w.how == "T" {
				sameText(t, got, w)
				continue
			}
			if len(w.points) == 4 { // the ground, from any of its corners
				a, b := orb.MultiPoint(got.points).Bound(), v.Window
				if planar.Distance(a.Min, b.Min)+planar.Distance(a.Max, b.Max) > 0.02 {
					t.Fatalf("the ground is %v, not %v", a, b)
				}
				continue
			}
			for k, p := range w.points {
				if planar.Distance(got.points[k], p) > 0.02 {
					t.Fatalf("corner %d of item %d lies at %v, not at %v", k, i, got.points[k], p)
				}
			}
		}
	})
	for _, how := range []string{"S", "f", "B", "T"} {
		if kinds[how] < often.Enough(1) {
			t.Errorf("nothing is painted by %s: %v", how, kinds)
		}
	}
}

// wanted is how an item is to be painted; nothing where its role has neither pen nor colour.
func wanted(pal *palette, it Item, onto func(orb.Point) orb.Point) []painted {
	all := func(ps []orb.Point) (out []orb.Point) {
		for _, p := range ps {
			out = append(out, onto(p))
		}
		return out
	}
	pen := func(w *painted, role Role) bool {
		l := pal.looks[role]
		if l.stroke != "" {
			w.stroke, w.width, w.dash = inPDF(l.stroke), l.width, l.dash
		}
		return l.stroke != ""
	}
	switch it := it.(type) {
	case Shape:
		w := painted{points: all(it.Ring[:len(it.Ring)-1]), closed: true}
		if fill := pal.fill(it); fill != "" {
			w.fill, w.how = inPDF(fill), "f"
		}
		if pen(&w, it.Role) {
			w.how = map[string]string{"": "S", "f": "B"}[w.how]
		}
		if w.how != "" {
			return []painted{w}
		}
	case Line:
		if w := (painted{how: "S", points: all(it.Path)}); pen(&w, it.Role) {
			return []painted{w}
		}
	case Text:
		size := planar.Distance(onto(orb.Point{}), onto(orb.Point{it.Size, 0}))
		sin, cos := math.Sincos(it.Turn * math.Pi / 180)
		return []painted{{how: "T", points: []orb.Point{onto(it.At)}, text: it.Body, fill: inPDF(pal.looks[it.Role].fill),
			font:  "utf8liberationsans" + map[bool]string{true: "B"}[pal.looks[it.Role].bold],
			right: orb.Point{size * cos, -size * sin}, upward: orb.Point{-size * sin, -size * cos},
			anchor: it.Anchor}}
	}
	return nil
}

// sameText holds a text against where it is to stand: its baseline under the middle of the line, that begins there,
// has its middle there or ends there.
func sameText(t *rapid.T, got, want painted) {
	if planar.Distance(got.right, want.right)+planar.Distance(got.upward, want.upward) > 0.02 {
		t.Fatalf("%q runs along %v, up %v, not %v and %v", got.text, got.right, got.upward, want.right, want.upward)
	}
	size := math.Hypot(want.right[0], want.right[1])
	off := orb.Point{want.points[0][0] - got.points[0][0], want.points[0][1] - got.points[0][1]}
	along := (off[0]*want.right[0] + off[1]*want.right[1]) / size
	up := (off[0]*want.upward[0] + off[1]*want.upward[1]) / size
	faces, err := printed()
	if err != nil {
		t.Fatal(err)
	}
	face, long := faces[len(want.font)-len("utf8liberationsans")], 0.0
	var buf sfnt.Buffer
	for _, c := range want.text {
		glyph, _ := face.GlyphIndex(&buf, c)
		wide, _ := face.GlyphAdvance(&buf, glyph, fixed.I(1000), font.HintingNone)
		long += float64(wide) / 64 / 1000 * size
	}
	share := float64(want.anchor) / 2
	if math.Abs(up-0.36*size) > 0.02 || math.Abs(along-share*long) > 0.02+0.01*size {
		t.Fatalf("%q of %v stands %v along and %v up from its place, anchor %v", got.text, size, along, up, want.anchor)
	}
}

// A PDF says what it is, and of which pages, in any letters.
func TestPDFNamesItselfAndItsPages(t *testing.T) {
	d := samplePieces().Drawing()
	doc := document(PageOf(&d, "Röcke γ"), PageOf(&d, ""), PageOf(&d, "sheet B2"))
	doc.Title, doc.Subject = "Gown: ½ ж", "Pieces (all)"
	var said []string
	words := regexp.MustCompile(`(?s)/(Title|Subject|Producer) (\(.*?[^\\]\))[\n/>]`)
	for _, m := range words.FindAllSubmatch(written(t, doc), -1) {
		text := tokens(m[2])[0][1:]
		said = append(said, string(m[1])+" "+strings.TrimPrefix(fromUTF16(text), "\ufeff"))
	}
	slices.Sort(said)
	want := []string{"Producer yardlay", "Subject Pieces (all)", "Title Gown: ½ ж", "Title Röcke γ", "Title sheet B2"}
	if !slices.Equal(said, want) {
		t.Errorf("it says %q, not %q", said, want)
	}
}

// Colours are read in both ways that they are written.
func TestColours(t *testing.T) {
	for colour, want := range map[string][3]int{"#0b0d10": {11, 13, 16}, "#1a2": {17, 170, 34}, "#fff": {255, 255, 255}} {
		if r, g, b := rgb(colour); [3]int{r, g, b} != want {
			t.Errorf("%s is %d, %d, %d", colour, r, g, b)
		}
	}
}
