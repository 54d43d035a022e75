package sheet

import (
	"bytes"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	bold "github.com/go-fonts/liberation/liberationsansbold"
	regular "github.com/go-fonts/liberation/liberationsansregular"
	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// PDF writes the document: the same bytes for the same document. Texts are set in
// Liberation Sans, of which the file holds the letters that it uses; Lacking tells
// which of them the font does not have. A page beyond MaxPage, a number that is not
// finite and a document without a date or pages are errors.
func (d Document) PDF() ([]byte, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	letters, err := newLettered()
	if err != nil {
		return nil, err
	}
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: a4Width, Ht: a4Height}})
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCatalogSort(true)
	day := time.Date(d.Date.Year(), d.Date.Month(), d.Date.Day(), 0, 0, 0, 0, time.UTC)
	pdf.SetCreationDate(day)
	pdf.SetModificationDate(day)
	pdf.SetProducer("yardlay", true)
	pdf.SetTitle(basic(d.Title), true)
	pdf.SetSubject(basic(d.Subject), true)
	pdf.AddUTF8FontFromBytes(face, "", regular.TTF)
	pdf.AddUTF8FontFromBytes(face, "B", bold.TTF)
	stored := map[*Drawing]fpdf.Template{}
	for _, p := range d.Pages {
		pdf.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
		pdf.SetFont(face, "", 10) // a bookmark is written in the letters of the font
		if p.Bookmark != "" {
			pdf.Bookmark(basic(p.Bookmark), 0, 0)
		}
		for _, v := range p.Views {
			if stored[v.Drawing] == nil {
				stored[v.Drawing] = store(pdf, v.Drawing, letters, len(stored))
			}
			v.show(pdf, stored[v.Drawing])
		}
	}
	var out bytes.Buffer
	if err := pdf.Output(&out); err != nil {
		return nil, say.Errorf("cannot write %q: %w", d.Title, err)
	}
	return out.Bytes(), nil
}

// face is what the font is called within the file.
const face = "LiberationSans"

// show clips a drawing that is stored to the window of the view.
func (v View) show(pdf *fpdf.Fpdf, t fpdf.Template) {
	w, k := v.Window, v.Drawing.Scale
	pdf.ClipRect(w.Min[0], w.Min[1], w.Max[0]-w.Min[0], w.Max[1]-w.Min[1], false)
	if ground := v.Drawing.Theme.palette().ground; ground != white {
		pdf.SetFillColor(rgb(ground))
		pdf.Rect(w.Min[0], w.Min[1], w.Max[0]-w.Min[0], w.Max[1]-w.Min[1], "F")
	}
	_, size := t.Size()
	pdf.UseTemplateScaled(t, fpdf.PointType{X: w.Min[0] - v.From[0]/k, Y: w.Min[1] - v.From[1]/k}, size)
	pdf.ClipEnd()
}

// numberedTemplate names a template by its number: the library's own names digest the whole
// of it each time that it is shown.
type numberedTemplate struct {
	fpdf.Template
	id string
}

func (t numberedTemplate) ID() string { return t.id }

// store draws a drawing once.
func store(pdf *fpdf.Fpdf, d *Drawing, letters *lettered, n int) fpdf.Template {
	size := fpdf.SizeType{Wd: d.Width / d.Scale, Ht: d.Height / d.Scale}
	t := pdf.CreateTemplateCustom(fpdf.PointType{}, size, func(t *fpdf.Tpl) {
		w := &pdfWriter{pdf: &t.Fpdf, scale: d.Scale, palette: d.Theme.palette(), letters: letters}
		t.SetLineJoinStyle("round")
		for _, g := range d.Groups {
			for _, it := range g.Items {
				w.item(it)
			}
		}
	})
	return &numberedTemplate{t, strconv.Itoa(n)}
}

type pdfWriter struct {
	pdf     *fpdf.Fpdf
	scale   float64
	palette *palette
	letters *lettered
	pen     *look // taken up
}

// onto is a point of the drawing on paper.
func (w *pdfWriter) onto(p orb.Point) (x, y float64) { return p[0] / w.scale, p[1] / w.scale }

func (w *pdfWriter) item(it Item) {
	switch it := it.(type) {
	case Shape:
		style := ""
		if fill := w.palette.fill(it); fill != "" {
			w.pdf.SetFillColor(rgb(fill))
			style = "F"
		}
		if w.stroke(it.Role) {
			style = "D" + style
		}
		w.path(it.Ring, style, true)
	case Line:
		if w.stroke(it.Role) {
			w.path(it.Path, "D", false)
		}
	case Text:
		w.text(it)
	}
}

// stroke takes up the pen of a role; false where it has none.
func (w *pdfWriter) stroke(r Role) bool {
	l := &w.palette.looks[r]
	if l.stroke == "" {
		return false
	}
	if l == w.pen {
		return true
	}
	w.pen = l
	w.pdf.SetDrawColor(rgb(l.stroke))
	w.pdf.SetLineWidth(l.width)
	w.pdf.SetDashPattern(l.dash, 0)
	return true
}

// path draws a path filled, drawn or both.
func (w *pdfWriter) path(points []orb.Point, style string, closed bool) {
	if len(points) < 2 || style == "" {
		return
	}
	if closed && points[0] == points[len(points)-1] {
		points = points[:len(points)-1]
	}
	for i, p := range points {
		if x, y := w.onto(p); i == 0 {
			w.pdf.MoveTo(x, y)
		} else {
			w.pdf.LineTo(x, y)
		}
	}
	if closed {
		w.pdf.ClosePath()
	}
	w.pdf.DrawPath(style)
}

func (w *pdfWriter) text(t Text) {
	if t.Body == "" || t.Size <= 0 {
		return
	}
	l, body := w.palette.looks[t.Role], w.letters.text(t.Body)
	style := ""
	if l.bold {
		style = "B"
	}
	w.pdf.SetFont(face, style, t.Size/w.scale*w.pdf.GetConversionRatio())
	w.pdf.SetTextColor(rgb(l.fill))
	x, y := w.onto(t.At)
	from := x - [...]float64{Start: 0, Middle: 0.5, End: 1}[t.Anchor]*w.pdf.GetStringWidth(body)
	if t.Turn != 0 {
		w.pdf.TransformBegin()
		w.pdf.TransformRotate(t.Turn, x, y)
		defer w.pdf.TransformEnd()
	}
	w.pdf.Text(from, y+middle*t.Size/w.scale, body)
}

// rgb reads a colour of a palette, "#rrggbb" or "#rgb".
func rgb(colour string) (r, g, b int) {
	digits := colour[1:]
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	n, err := strconv.ParseUint(digits, 16, 24)
	if err != nil {
		panic("sheet: no colour: " + colour) // the palettes are our own
	}
	return int(n >> 16), int(n >> 8 & 255), int(n & 255)
}
