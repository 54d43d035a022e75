package sheet

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

func document(pages ...Page) Document {
	return Document{Title: "Lantern Court gown", Date: time.Date(2026, 5, 31, 17, 3, 2, 1, time.Local), Pages: pages}
}

func written(t *testing.T, d Document) []byte {
	t.Helper()
	b, err := d.PDF()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestPDFSameBytesTwice(t *testing.T) {
	make := func(hour int) []byte {
		m, p := sampleMarker().Drawing(), samplePieces().Drawing()
		d := document(PageOf(&m, "Marker"), PageOf(&p, "Pieces"), PageOf(&m, "Marker again"))
		d.Date = time.Date(2026, 5, 31, hour, 0, 0, 0, time.Local)
		return written(t, d)
	}
	first := make(1)
	for hour := range 20 { // maps run in another order each time
		if !bytes.Equal(first, make(hour)) {
			t.Fatal("the same document gave two files")
		}
	}
	if !bytes.Contains(first, []byte("/CreationDate (D:20260531000000)")) {
		t.Error("the file does not say the day")
	}
}

// A drawing in many views costs little more than in one.
func TestPDFStoresADrawingOnce(t *testing.T) {
	m := sampleMarker().Drawing()
	for i := range 3000 {
		m.Groups[0].Items = append(m.Groups[0].Items, Line{RoleSeam, orb.LineString{{float64(i), 0},
			{float64(i) * 1.7, math.Sqrt(float64(i))}}})
	}
	once := len(written(t, document(PageOf(&m, ""))))
	var tiles []Page
	for range 50 {
		tiles = append(tiles, PageOf(&m, ""))
	}
	if many := len(written(t, document(tiles...))); many > once+50*600 {
		t.Errorf("%d bytes for one view, %d for 50", once, many)
	}
}

func TestPDFRefuses(t *testing.T) {
	square := func(spoil func(*Drawing, *Page)) Page {
		d := Drawing{Title: "square", Width: 100, Height: 100, Scale: 1, Groups: []Group{{Items: []Item{
			Shape{Role: RolePiece, Ring: Box(10, 10, 90, 90)}, Line{RoleSeam, orb.LineString{{1, 1}, {2, 2}}},
			Text{Role: RoleNote, At: orb.Point{5, 5}, Size: 3, Body: "square"}}}}}
		p := PageOf(&d, "")
		spoil(&d, &p)
		return p
	}
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*Drawing, *Page){
		"ring":   func(d *Drawing, _ *Page) { d.Groups[0].Items[0].(Shape).Ring[1][0] = nan },
		"path":   func(d *Drawing, _ *Page) { d.Groups[0].Items[1].(Line).Path[1][1] = inf },
		"text":   func(d *Drawing, _ *Page) { d.Groups[0].Items[2] = Text{At: orb.Point{nan, 0}, Size: 3, Body: "a"} },
		"size":   func(d *Drawing, _ *Page) { d.Groups[0].Items[2] = Text{Size: inf, Body: "a"} },
		"turn":   func(d *Drawing, _ *Page) { d.Groups[0].Items[2] = Text{Size: 3, Turn: nan, Body: "a"} },
		"scale":  func(d *Drawing, _ *Page) { d.Scale = 0 },
		"width":  func(d *Drawing, _ *Page) { d.Width = nan },
		"far":    func(d *Drawing, _ *Page) { d.Groups[0].Items[1].(Line).Path[1][1] = 1e9 },
		"page":   func(_ *Drawing, p *Page) { p.Width = nan },
		"window": func(_ *Drawing, p *Page) { p.Views[0].Window.Max[0] = nan },
		"empty":  func(_ *Drawing, p *Page) { p.Views[0].Window.Max[0] = 0 },
		"from":   func(_ *Drawing, p *Page) { p.Views[0].From[1] = inf },
		"small":  func(_ *Drawing, p *Page) { p.Height = 0.5 },
	} {
		if b, err := document(square(spoil)).PDF(); err == nil || b != nil {
			t.Errorf("%s: written", name)
		}
	}
	keep := func(*Drawing, *Page) {}
	written(t, document(square(keep)))
	_, err := document(square(func(_ *Drawing, p *Page) { p.Width = MaxPage + 1 })).PDF()
	if err == nil || !strings.Contains(err.Error(), "5080 mm at most\n") {
		t.Errorf("a page beyond the format: %v", err)
	}
	if _, err := document().PDF(); err == nil {
		t.Error("a document without pages was written")
	}
	d := document(square(keep))
	d.Date = time.Time{}
	if _, err := d.PDF(); err == nil {
		t.Error("a document without a date was written")
	}
}

// Texts come from the user's file: none may break the file.
func TestPDFTextIsEscaped(t *testing.T) {
	m := sampleMarker()
	evil := ")Tj ET endstream \\( \r\n\x00\x1b\ufffe\xff\xe4\xf0\x9f 中😀"
	m.Title, m.Cloth, m.Notes, m.Cautions = evil, evil, []string{evil}, []string{evil}
	for i := range m.Pieces {
		m.Pieces[i].Name, m.Pieces[i].Copy = evil, evil
	}
	d := m.Drawing()
	doc := document(PageOf(&d, evil))
	doc.Title, doc.Subject = evil, evil
	written(t, doc)
}

func TestLackingLettersAreTold(t *testing.T) {
	d := Drawing{Width: 100, Height: 100, Scale: 1, Groups: []Group{{Items: []Item{
		Text{Role: RoleNote, Size: 3, Body: "Gewand γ ж ½ 衣裳 衣😀"}}}}}
	lacks, err := document(PageOf(&d, "")).Lacking()
	if err != nil || lacks != "衣裳😀" {
		t.Errorf("lacking %q, %v", lacks, err)
	}
}

// The room kept for a text is never less than it takes: by the metrics in the files of
// both faces, letter by letter.
func TestWidthsCoverTheFont(t *testing.T) {
	faces, err := printed()
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	n := 0
	for i, face := range faces {
		for c := rune(' '); c < 0x10000; c++ {
			glyph, err := face.GlyphIndex(&buf, c)
			if err != nil || glyph == 0 {
				continue
			}
			n++
			wide, err := face.GlyphAdvance(&buf, glyph, fixed.I(1000), font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			room := textWidth(string(c), 1000)
			if i == 1 {
				room *= boldness
			}
			if got := float64(wide) / 64; got > room {
				t.Errorf("%c (U+%04X), face %d: %.0f wide, %.0f kept", c, c, i, got, room)
			}
		}
	}
	if n < 4000 {
		t.Errorf("%d letters seen", n)
	}
	once := map[rune]bool{}
	for _, g := range glyphWidths {
		for _, c := range g.chars {
			if once[c] {
				t.Errorf("%c has two widths", c)
			}
			once[c] = true
		}
	}
	// Words of each script keep little more room than they take, so that names have room.
	for _, s := range []string{"centre front gore", "боковая часть юбки", "πλαϊνό φούστας", "boční díl sukně"} {
		took := 0.0
		for _, c := range s {
			glyph, _ := faces[0].GlyphIndex(&buf, c)
			wide, _ := faces[0].GlyphAdvance(&buf, glyph, fixed.I(1000), font.HintingNone)
			took += float64(wide) / 64
		}
		if room := textWidth(s, 1000); room > 1.25*took {
			t.Errorf("%q takes %.0f, and %.0f are kept", s, took, room)
		}
	}
}

// Each role looks like something in each theme, and writers find each class once.
func TestEveryRoleHasALook(t *testing.T) {
	for theme := range themeCount {
		p, classes := theme.palette(), map[string]bool{}
		for r, l := range p.looks {
			if classes[l.class] || l.class == "" {
				t.Errorf("theme %d: role %d has the class %q", theme, r, l.class)
			}
			classes[l.class] = true
			for _, colour := range []string{l.fill, l.stroke} {
				if colour != "" {
					if r, g, b := rgb(colour); fmt.Sprintf("#%02x%02x%02x", r, g, b) != colour && colour != white {
						t.Errorf("theme %d: %q is read as %d, %d, %d", theme, colour, r, g, b)
					}
				}
			}
			if l.stroke != "" && l.width <= 0 {
				t.Errorf("theme %d: role %d is drawn without a width", theme, r)
			}
		}
	}
	if r, g, b := rgb("#fff"); r != 255 || g != 255 || b != 255 {
		t.Error("white is not white")
	}
}
