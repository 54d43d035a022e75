package page

import "net/http"

// buyView shows what to buy where.
func buyView() view {
	show := showLaid("buy", func(o *opened, r *http.Request, l *asLaid) (any, error) {
		g, err := o.gown(r.Context(), l, true)
		if err != nil {
			return nil, err
		}
		return sections(g.Buying(), g.Totals())
	})
	return view{path: "buy", name: "Buy", template: "buy", show: show,
		answers: map[string]answerOf{"GET /now": refresh("buy-now", show), "GET /file/{file}": quoteFile}}
}
