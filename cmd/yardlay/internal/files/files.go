package files

import (
	"errors"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Lay encodes all that lay writes.
func Lay(r *report.Report) ([]folder.File, error) {
	files, err := markers(r, OfCloth)
	if err != nil {
		return nil, err
	}
	asJSON, err := JSON(r)
	return append(files, folder.File{Name: SetLay + ".json", Data: asJSON}), err
}

// markers encodes of each cloth its drawing and the outlines of its markers, as they are called by its id, by what they
// are of and by their kind.
func markers(r *report.Report, called func(id, what, kind string) string) ([]folder.File, error) {
	drawings, err := drawn(r)
	if err != nil {
		return nil, err
	}
	var files []folder.File
	for k, c := range r.Cloths {
		files = append(files, folder.File{Name: called(c.ID, "", ".svg"), Data: drawings[k]})
		for i, m := range c.Markers {
			outlines, err := c.GeoJSON(m)
			if err != nil {
				return nil, say.Errorf("cannot encode the outlines of %s: %w", c.ID, err)
			}
			files = append(files, folder.File{Name: called(c.ID, MarkerPart(c, i), ".geojson"), Data: outlines})
		}
	}
	return files, nil
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
			if drawings[i], errs[i] = depict.Marker(r, c).Drawing().SVG(); errs[i] != nil {
				errs[i] = say.Errorf("cannot draw %s: %w", c.ID, errs[i])
			}
		})
	}
	all.Wait()
	return drawings, errors.Join(errs...)
}

// MarkerPart is what the name of a marker's file has after that of its cloth: the
// open stretch behind a folded one, whole bolts besides a cut and leftovers are
// named by what they are.
func MarkerPart(c report.Cloth, i int) string {
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

// Pieces draws the pieces of each cloth on a sheet, with the remarks on the parts
// that it bears pieces of at its foot.
func Pieces(title string, spreads []plan.Spread, list report.CutList, unit measure.Unit) ([]folder.File, error) {
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
			sheet.Pieces = append(sheet.Pieces, depict.Pattern(s, i, measure.SizeUnit(unit)))
		}
		svg, err := sheet.Drawing().SVG()
		if err != nil {
			return nil, say.Errorf("cannot draw the pieces of %s: %w", s.Cloth.ID, err)
		}
		files = append(files, folder.File{Name: OfCloth(s.Cloth.ID, PiecesPart, ".svg"), Data: svg})
	}
	return files, nil
}

// Sizes draws the pieces of each cloth that several bodies have, in all their sizes over
// each other; nothing of a cloth that has none.
func Sizes(title string, spreads []plan.Spread, unit measure.Unit) ([]folder.File, error) {
	var files []folder.File
	for _, s := range spreads {
		drawn := sheet.Sizes{Title: s.Cloth.Title, Pieces: depict.Sizes(s, measure.SizeUnit(unit))}
		if len(drawn.Pieces) == 0 {
			continue
		}
		if title != "" {
			drawn.Title = title + ": " + drawn.Title
		}
		svg, err := drawn.Drawing().SVG()
		if err != nil {
			return nil, say.Errorf("cannot draw the sizes of %s: %w", s.Cloth.ID, err)
		}
		files = append(files, folder.File{Name: OfCloth(s.Cloth.ID, SizesPart, ".svg"), Data: svg})
	}
	return files, nil
}
