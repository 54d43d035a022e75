package page

import (
	"html/template"

	"yardlay/cmd/yardlay/internal/book"
)

// section is a part of a workbook on the page.
type section struct {
	Title string
	HTML  template.HTML
}

// sections writes parts of a workbook as the page speaks, leaving out those with nothing in them. They have no
// drawings.
func sections(parts ...book.Section) ([]section, error) {
	var list []section
	for _, p := range parts {
		html, err := p.Fragment(func(int) string { return "" })
		if err != nil {
			return nil, err
		}
		if html != "" {
			list = append(list, section{p.Title, spokenHTML(html)})
		}
	}
	return list, nil
}
