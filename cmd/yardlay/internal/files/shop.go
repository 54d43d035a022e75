package files

import (
	"regexp"
	"strings"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
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
		laid, err := markers(r, ofGowns)
		if err != nil {
			return nil, err
		}
		files = append(files, laid...)
	}
	return files, nil
}

// ofGowns names a file of a cloth laid for several gowns, as ofShared knows it.
func ofGowns(id, what, kind string) string {
	return SetShop + "." + id + strings.Replace(what, "-", ".", 1) + kind
}
