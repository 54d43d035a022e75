package page

import (
	"net/http"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// sewView shows what is cut, and in which order it is sewn.
func sewView() view {
	within := showLaid("sew", sewing)
	show := func(o *opened, r *http.Request) (any, error) {
		data, err := within(o, r)
		f := data.(follows)
		if f.Laid != nil { // the pieces do not change with the layouts
			f.Mark = (&asLaid{Number: f.Laid.Text, Old: f.Laid.Old, Busy: f.Laid.Busy}).mark()
		}
		return f, err
	}
	return view{path: "sew", name: "Sew", template: "sew", show: show,
		answers: map[string]answerOf{"GET /now": refresh("sew-now", show), "GET /seam/{row}": showSeam,
			"GET /seam/{row}/drawing.svg": drawSeam}}
}

// toSew is what the view of the sewing order shows.
type toSew struct {
	Before, After []section
	Note          string
	Heads         []string
	Groups        []seamGroup
}

// seamGroup is the seams of a part in a cloth.
type seamGroup struct {
	Title string
	Seams []seamRow
}

type seamRow struct {
	Number  int
	Name    string
	Cells   []string
	Details []string
	Drawn   bool // it has pieces to show
}

func sewing(o *opened, r *http.Request, l *asLaid) (any, error) {
	g, err := o.gown(r.Context(), l, false)
	if err != nil {
		return nil, err
	}
	unit := measure.SizeUnit(l.Report.Unit)
	shown := toSew{Note: report.SeamNote(unit), Heads: report.SeamHeads}
	for i, s := range g.List.Seams {
		if h := s.Part + " in " + s.Cloth; len(shown.Groups) == 0 || shown.Groups[len(shown.Groups)-1].Title != h {
			shown.Groups = append(shown.Groups, seamGroup{Title: h})
		}
		to := &shown.Groups[len(shown.Groups)-1]
		cells := s.Row(unit)
		to.Seams = append(to.Seams, seamRow{i, cells[0], cells[1:], s.Details(unit), len(s.A.Edges)+len(s.B.Edges) > 0})
	}
	if shown.Before, err = sections(g.CutList()); err != nil {
		return nil, err
	}
	shown.After, err = sections(g.Gathers(), g.Cutting(), g.Cautions())
	return shown, err
}

// seamShown is a seam with both its sides.
type seamShown struct {
	Job    string
	Number int
	Title  string
	Words  []string
	Notes  []string
	Text   int
}

// seamOf returns the seam that the address names, and what its pieces are drafted as.
func (o *opened) seamOf(r *http.Request) (n int, s report.Seam, spreads []plan.Spread, l *asLaid, err error) {
	if l, err = o.laidNow(); err != nil {
		return
	}
	n, bad := rowAsked(r)
	if l == nil || bad != nil {
		return n, s, nil, l, notFound("there is no such seam")
	}
	g, err := o.gown(r.Context(), l, false)
	if err != nil {
		return
	}
	if n >= len(g.List.Seams) {
		return n, s, nil, l, notFound("there is no such seam")
	}
	for _, c := range l.Report.Cloths {
		spreads = append(spreads, c.Spread)
	}
	return n, g.List.Seams[n], spreads, l, nil
}

func showSeam(o *opened, w http.ResponseWriter, r *http.Request) error {
	n, s, _, l, err := o.seamOf(r)
	if err != nil {
		return err
	}
	unit := measure.SizeUnit(l.Report.Unit)
	shown := seamShown{Job: o.Name(), Number: n, Title: s.Name, Text: l.Text, Words: s.Details(unit)}
	if len(s.Notches) > 0 {
		at := ""
		for i, d := range s.Notches {
			if i > 0 {
				at += ", "
			}
			at += measure.Format(d, unit)
		}
		shown.Notes = append(shown.Notes, "Notches meet at "+at+" from the start of the seam.")
	}
	o.server.render(w, http.StatusOK, "seam", shown)
	return nil
}

func drawSeam(o *opened, w http.ResponseWriter, r *http.Request) error {
	_, s, spreads, l, err := o.seamOf(r)
	if err != nil {
		return err
	}
	svg, err := depict.Seam(s, spreads, measure.SizeUnit(l.Report.Unit)).Drawing().SVG()
	return picture(w, svg, err)
}
