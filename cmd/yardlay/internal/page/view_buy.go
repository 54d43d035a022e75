package page

import (
	"net/http"

	"yardlay/cmd/yardlay/internal/files"
)

// toBuy is what the view shows.
type toBuy struct {
	Files    []string // to keep
	Sections []section
}

// buyView shows what to buy where.
func buyView() view {
	show := showLaid("buy", func(o *opened, r *http.Request, l *asLaid) (any, error) {
		g, err := o.gown(r.Context(), l, true)
		if err != nil {
			return nil, err
		}
		shown := toBuy{}
		for i := range g.Shopping.Ledger().Drawings() {
			shown.Files = append(shown.Files, files.Page(files.SetShop, i))
		}
		shown.Sections, err = sections(g.Buying(), g.Totals())
		return shown, err
	})
	return view{path: "buy", name: "Buy", template: "buy", show: show,
		answers: map[string]answerOf{"GET /now": refresh("buy-now", show), "GET /file/{file}": quoteFile}}
}
