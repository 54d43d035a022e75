package page

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html/template"
	"strings"
	"sync"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// paperRoom is what a marker has on paper, mm: the less, the larger its words are on the page.
var paperRoom = map[clothSize]struct{ width, height float64 }{clothLarge: {250, 130}, clothSmall: {130, 110}}

// markersShown are the markers of a cloth, drawn, with the list of what is cut.
type markersShown struct {
	Mark      string // another for other markers
	Stretches []stretchShown
	Unit      string // of the sizes
	Lines     []cutLine
}

// stretchShown is one marker.
type stretchShown struct {
	Label, Name string
	Notes       []string
	Key         []keyShown // explains what stands in it
	SVG         template.HTML
}

// keyShown is a line of the key to a marker; or the head of those that follow.
type keyShown struct {
	Text string
	Head bool
}

// cutLine is a line of the cut list.
type cutLine struct {
	Lights  string // the ids of its copies
	Name    string
	Copies  string
	Size    string // as cut
	Notches string
}

// drawnMarkers remembers the markers drawn last.
type drawnMarkers struct {
	mu   sync.Mutex
	list []drawnMarker
}

type drawnMarker struct {
	of      *live.Picture
	index   int
	size    clothSize
	markers *markersShown
}

// mostDrawn is how many are remembered: those of all cloths of a large job, both sizes.
const mostDrawn = 64

// of draws the markers of a cloth, of that index, unless they are drawn already.
func (d *drawnMarkers) of(p *live.Picture, index int, size clothSize) (*markersShown, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, one := range d.list {
		if one.of == p && one.index == index && one.size == size {
			return one.markers, nil
		}
	}
	m, err := drawMarkers(p, index, size)
	if err != nil {
		return nil, err
	}
	d.list = append(d.list, drawnMarker{p, index, size, m})
	if len(d.list) > mostDrawn {
		d.list = d.list[1:]
	}
	return m, nil
}

// drawMarkers draws the markers of a cloth and lists what is cut.
func drawMarkers(p *live.Picture, index int, size clothSize) (*markersShown, error) {
	r, c := p.Report, p.Cloth()
	m := depict.TiedMarker(r, c, index)
	shown := &markersShown{Unit: report.UnitWords(measure.SizeUnit(r.Unit))}
	sum := sha256.New()
	for k := range m.Stretches {
		small := m.Small(k, paperRoom[size].width, paperRoom[size].height, m.Cloth)
		svg, err := small.Drawing.OnPage()
		if err != nil {
			return nil, err
		}
		s := stretchShown{Label: small.Drawing.Title, Name: small.Name, SVG: template.HTML(svg), Notes: small.Notes}
		for _, line := range small.Key {
			if line.Role != sheet.RoleCaution {
				s.Key = append(s.Key, keyShown{line.Body, line.Role == sheet.RoleHeading})
			}
		}
		shown.Stretches = append(shown.Stretches, s)
		sum.Write(svg)
	}
	for i, cut := range c.Spread.Cuts {
		line := cutLine{Name: cut.Piece.Name + report.CutOn(c.Spread.CutOn(i)), Notches: notchWords(cut.Piece),
			Copies: report.Copies(cut.Piece.Count, cut.Piece.Pair, cut.Piece.OnFold)}
		var cutSize plan.Size
		cutSize.Along, cutSize.Across = cut.Piece.Unfold().CutSize()
		line.Size = report.Sized(cutSize, measure.SizeUnit(r.Unit))
		var copies []nest.Placed
		for n := range cut.Piece.Count {
			copies = append(copies, nest.Placed{Piece: i, Copy: n})
		}
		line.Lights = depict.CopiesID(index, copies...)
		shown.Lines = append(shown.Lines, line)
		fmt.Fprintln(sum, line)
	}
	shown.Mark = hex.EncodeToString(sum.Sum(nil)[:6])
	return shown, nil
}

// notchWords counts the notches of a piece on its edges: "2 on the hem, 1 on the side seam".
func notchWords(p shapes.Piece) string {
	var edges []string
	count := map[string]int{}
	for _, n := range p.Unfold().Notches {
		if count[n.Edge] == 0 {
			edges = append(edges, n.Edge)
		}
		count[n.Edge]++
	}
	for i, edge := range edges {
		edges[i] = fmt.Sprintf("%d on the %s", count[edge], edge)
	}
	return strings.Join(edges, ", ")
}
