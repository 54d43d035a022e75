package files

import (
	"regexp"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

// ofShared names the markers of a cloth laid for several gowns: an id holds no dot, so that they are none of a cloth.
var ofShared = regexp.MustCompile(`^` + SetShop + `\.[a-z0-9_-]+(\.(` + MarkerParts + `))?\.(svg|geojson)$`)

// ShopSet is what shop makes of one job or several.
func ShopSet() folder.Set {
	pages := PageSet(SetShop)
	return folder.Set{Name: SetShop,
		Makes: func(name string) bool { return pages.Makes(name) || ofShared.MatchString(name) }}
}

// Shop encodes a shopping list over several gowns, and the markers of the cloths that they are laid on together.
func Shop(page sheet.Ledger, l *quote.Joint) ([]folder.File, error) {
	files, err := Pages(SetShop, page, l)
	if err != nil {
		return nil, err
	}
	for _, s := range l.Shared {
		if !s.Together {
			continue
		}
		r, err := report.New(&job.Job{Title: page.Title, Currency: l.Currency, Unit: l.Unit}, []plan.Laid{s.Laid},
			plan.Options{Unit: l.Unit})
		if err != nil {
			return nil, err
		}
		c := r.Cloths[0]
		svg, err := depict.Marker(r, c).Drawing().SVG()
		if err != nil {
			return nil, say.Errorf("cannot draw %s: %w", c.ID, err)
		}
		called := SetShop + "." + c.ID
		files = append(files, folder.File{Name: called + ".svg", Data: svg})
		for i, m := range c.Markers {
			outlines, err := c.GeoJSON(m)
			if err != nil {
				return nil, say.Errorf("cannot encode the outlines of %s: %w", c.ID, err)
			}
			part := MarkerPart(c, i)
			if part != "" {
				part = "." + part[1:]
			}
			files = append(files, folder.File{Name: called + part + ".geojson", Data: outlines})
		}
	}
	return files, nil
}
