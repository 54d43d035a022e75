package main

import (
	"errors"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// layFiles encodes all that lay writes.
func layFiles(r *report.Report) ([]folder.File, error) {
	drawings, err := drawn(r)
	if err != nil {
		return nil, err
	}
	var files []folder.File
	for k, c := range r.Cloths {
		files = append(files, folder.File{Name: clothFile(c.ID, "", ".svg"), Data: drawings[k]})
		for i, m := range c.Markers {
			outlines, err := c.GeoJSON(m)
			if err != nil {
				return nil, say.Errorf("cannot encode the outlines of %s: %w", c.ID, err)
			}
			files = append(files, folder.File{Name: clothFile(c.ID, markerPart(c, i), ".geojson"), Data: outlines})
		}
	}
	asJSON, err := encode(r)
	return append(files, folder.File{Name: setLay + ".json", Data: asJSON}), err
}

// drawn draws the markers of all cloths, as many at a time as there are processors.
func drawn(r *report.Report) ([][]byte, error) {
	drawings, errs := make([][]byte, len(r.Cloths)), make([]error, len(r.Cloths))
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i, c := range r.Cloths {
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			if drawings[i], errs[i] = marker(r, c).Drawing().SVG(); errs[i] != nil {
				errs[i] = say.Errorf("cannot draw %s: %w", c.ID, errs[i])
			}
		})
	}
	all.Wait()
	return drawings, errors.Join(errs...)
}

// markerPart is what the name of a marker's file has after that of its cloth: the
// open stretch behind a folded one, whole bolts besides a cut and leftovers are
// named by what they are.
func markerPart(c report.Cloth, i int) string {
	m := c.Markers[i]
	switch {
	case m.Bolt > 0:
		return fmt.Sprintf("-bolt-%d", m.Bolt)
	case m.Shelf:
		first := slices.IndexFunc(c.Markers, func(m report.Stretch) bool { return m.Shelf })
		return fmt.Sprintf("-shelf-%d", i+1-first)
	case i > 0:
		return "-open"
	}
	return ""
}

// cutSize shows the cut size of a piece along and across the grain: what is
// measured on the table.
func cutSize(p shapes.Piece, unit measure.Unit) string {
	along, across := p.CutSize()
	return fmt.Sprintf("%s x %s", report.Bare(along, unit), measure.Format(across, unit))
}

// outlineOf takes the lines of a piece over for drawing.
func outlineOf(p shapes.Piece) sheet.Outline {
	o := sheet.Outline{Cut: p.Cut, Seam: p.Seam, Grain: p.Grain}
	o.Inside = append(o.Inside, p.Inside...)
	for _, n := range p.Names {
		o.Names = append(o.Names, sheet.LineName{Line: n.Line, Name: n.Name})
	}
	for _, n := range p.Notches {
		o.Notches = append(o.Notches, sheet.Notch{At: n.At, Outward: n.Outward})
	}
	return o
}

// pieceFiles draws the pieces of each cloth on a sheet, with the remarks on the parts
// that it bears pieces of at its foot.
func pieceFiles(title string, spreads []plan.Spread, list report.CutList, unit measure.Unit) ([]folder.File, error) {
	var files []folder.File
	for _, s := range spreads {
		sheet := sheet.Pieces{
			Title: title + ": " + s.Cloth.Title, Unit: measure.SizeUnit(unit),
			Remarks: list.RemarksOn(s), Cautions: report.Cautions([]plan.Spread{s}),
		}
		if title == "" {
			sheet.Title = s.Cloth.Title
		}
		if larger := s.Larger(); larger != "" {
			sheet.Notes = append(sheet.Notes, larger)
		}
		for i := range s.Cuts {
			sheet.Pieces = append(sheet.Pieces, pattern(s, i, measure.SizeUnit(unit)))
		}
		svg, err := sheet.Drawing().SVG()
		if err != nil {
			return nil, say.Errorf("cannot draw the pieces of %s: %w", s.Cloth.ID, err)
		}
		files = append(files, folder.File{Name: clothFile(s.Cloth.ID, piecesPart, ".svg"), Data: svg})
	}
	return files, nil
}

// pattern describes the drawing of piece i of a cloth as drafted, its grain arrow
// along the warp.
func pattern(s plan.Spread, i int, unit measure.Unit) sheet.Pattern {
	p := s.Cuts[i].Piece
	drawn := sheet.Pattern{
		Name: p.Name,
		Facts: []string{"cut " + report.Copies(p.Count, p.Pair,
			p.OnFold) + report.CutOn(s.CutOn(i)) + ", cut size " + cutSize(p, unit)},
		Outline: outlineOf(p),
	}
	drawn.Outline.Grain = p.GrainLine(s.Grain(i))
	drawn.Along, drawn.Across = p.Finished()
	drawn.Fold = foldOf(p)
	return drawn
}
