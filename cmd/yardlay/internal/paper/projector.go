package paper

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Projector is a picture that a projector throws on the cloth at full size. Lengths are mm.
type Projector struct {
	Title, Subject string
	Date           time.Time
	Mark           string  // in the caption of each page
	Width, Height  float64 // that the light covers, along the cloth and across it
	Unit           measure.Unit
}

// Limits and measures of a projector's picture, mm.
const (
	MinPicture = 320.0 // holds the square to calibrate by, with room about it
	MaxPicture = sheet.MaxPage
	MinTable   = 300.0

	lightMargin  = 10.0
	lightCaption = 26.0
	lightOverlap = 60.0
	lightText    = 16.0
	lightBeside  = 28.0
)

// CheckProjector refuses a picture that no projector throws or no page holds.
func CheckProjector(width, height float64) error {
	for _, side := range []float64{width, height} {
		if !(side >= MinPicture && side <= MaxPicture) {
			return say.Errorf("a picture %.4g by %.4g cannot be shown", say.MM(width), say.MM(height)).
				Hint("from 13in (32cm) to 200in (5.08m) each way: measure what the light covers on the table, such " +
					"as 48x27in")
		}
	}
	return nil
}

// CheckTable refuses a table that no step of a marker is laid on.
func CheckTable(length float64) error {
	if !(length >= MinTable && length <= MaxPicture) {
		return say.Errorf("a table %.4g long cannot be worked on in steps", say.MM(length)).
			Hint("from 12in (30cm) to 200in (5.08m), such as 60in")
	}
	return nil
}

func (p Projector) paging() paging {
	return paging{height: p.Height, longest: sheet.MaxPage, margin: lightMargin, caption: lightCaption,
		overlap: lightOverlap, mark: p.Mark, theme: sheet.ThemeLight}
}

// Markers shows markers at full size, after a page to calibrate by: each in bands as wide
// as the light, a page being as long as the marker or as pages can be.
func (p Projector) Markers(names []string, markers []sheet.FullSize) (Print, error) {
	return p.print(func(i int) (Print, error) {
		return p.paging().cut(p.board(names[i], markers[i]))
	}, names, markers)
}

// Steps shows markers in steps of the table's length, each band of a step on a page. Every
// piece that is shorter than the table lies whole in one of them.
func (p Projector) Steps(table float64, names []string, markers []sheet.FullSize) (Print, error) {
	if err := CheckTable(table); err != nil {
		return Print{}, err
	}
	return p.print(func(i int) (Print, error) { return p.steps(table, names[i], markers[i]) }, names, markers)
}

func (p Projector) print(pagesOf func(marker int) (Print, error), names []string, markers []sheet.FullSize) (Print,
	error) {
	if err := CheckProjector(p.Width, p.Height); err != nil {
		return Print{}, err
	}
	all := Print{Document: sheet.Document{Title: p.Title, Subject: p.Subject, Date: p.Date,
		Pages: []sheet.Page{sheet.PageOf(p.calibration(), "calibration")}}}
	for i := range markers {
		more, err := pagesOf(i)
		if err != nil {
			return Print{}, err
		}
		all.Pages = append(all.Pages, p.keyPages(names[i]+", signs", markers[i].Key)...)
		all.add(more)
	}
	return all, nil
}

// board is a marker with a drawing of its own: the lines of joins and steps are added to it.
func (p Projector) board(name string, m sheet.FullSize) board {
	drawing := *m.Drawing
	drawing.Groups = slices.Clone(drawing.Groups)
	return board{drawing: &drawing, shown: shownOf(m, p.Height-2*lightMargin, lightBeside), pieces: m.Pieces, name: name}
}

// step is what of a marker lies on the table at a time.
type step struct {
	from, to float64
	whole    int // pieces that lie whole on it and did not before
}

// stepRoom is shown before the first piece of a step, mm.
const stepRoom = 10.0

// stepsOf cuts a marker into steps. The next step begins where the first piece begins that
// does not lie whole on the table. A piece longer than the table is cut in several steps,
// each of which begins a little before the end of the last.
func stepsOf(m sheet.FullSize, table float64) []step {
	from, end := m.Cloth.Min[0], m.Cloth.Max[0]
	left := slices.Clone(m.Pieces)
	var list []step
	for {
		s, next := step{from: from, to: math.Min(from+table, end)}, end-table
		var rest []orb.Bound
		for _, b := range left {
			switch {
			case b.Max[0] > s.to+1e-9:
				rest = append(rest, b)
				if b.Max[0]-b.Min[0]+stepRoom <= table {
					next = math.Min(next, b.Min[0]-stepRoom)
				} else {
					next = math.Min(next, s.to-lightOverlap)
				}
			case b.Min[0] >= s.from:
				s.whole++
			}
		}
		list, left, from = append(list, s), rest, next
		if s.to >= end || len(rest) == 0 {
			return list
		}
	}
}

func (p Projector) steps(table float64, name string, m sheet.FullSize) (Print, error) {
	c := p.paging()
	b := p.board(name, m)
	across, err := c.bands(b)
	if err != nil {
		return Print{}, err
	}
	list := stepsOf(m, table-2*lightMargin-lightCaption-stepRoom)
	if len(list)*len(across) > maxPages {
		return Print{}, say.Errorf("%s would take %d steps in %d bands, and the most are %d pages", name, len(list),
			len(across), maxPages).Hint("take a longer table or a larger picture")
	}
	b.join([]span{{b.shown.Min[0], b.shown.Max[0]}}, across)
	for i, s := range list[1:] {
		b.drawing.Groups = append(b.drawing.Groups, sheet.Group{Title: fmt.Sprintf("step %d", i+2),
			Items: p.moveLine(s.from, m.Cloth, i+2)})
	}
	var all Print
	for i, s := range list {
		b.name = fmt.Sprintf("%s, step %d of %d, %s to cut", name, i+1, len(list), say.Count(s.whole, "whole piece"))
		if i+1 < len(list) {
			b.name += fmt.Sprintf(", then move line %d to where this step began", i+2)
		}
		all.add(c.pages(b, []span{{s.from - stepRoom, s.to}}, across))
	}
	return all, nil
}

// moveLine draws the line at which a step begins, with its number so often along it that
// each band shows it. Nothing is covered: a line may have to be cut there.
func (p Projector) moveLine(x float64, cloth orb.Bound, step int) []sheet.Item {
	items := []sheet.Item{sheet.Line{Role: sheet.RoleMark, Path: orb.LineString{{x, cloth.Min[1]}, {x, cloth.Max[1]}}}}
	room := math.Min(p.Height-2*lightMargin, cloth.Max[1]-cloth.Min[1])
	for y := cloth.Min[1] + room/8; y <= cloth.Max[1]; y += room / 2 {
		items = append(items, sheet.Text{Role: sheet.RoleCaution, At: orb.Point{x + lightText*0.7, y},
			Anchor: sheet.Middle, Size: lightText, Turn: 90, Body: fmt.Sprintf("step %d", step)})
	}
	return items
}
