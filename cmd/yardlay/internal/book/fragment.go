package book

import (
	"bytes"
	"html/template"

	"yardlay/shapes/say"
)

// screenImage is a drawing that stands in a document of its own.
type screenImage struct {
	Caption, Label, Address string
}

// Fragment writes the blocks of a section for a page that has looks of its own: no style,
// no script, nothing to tick off. Its drawings, numbered from 0, stand where address says.
func (s Section) Fragment(address func(figure int) string) (template.HTML, error) {
	var shown []screenBlock
	figures := 0
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case Figure:
			shown = append(shown, screenBlock{Image: &screenImage{b.Caption, b.Drawing.Title, address(figures)}})
			figures++
			continue
		case Table:
			if len(b.Rows) > 0 {
				t := tableOnScreen(b)
				t.Ticked = false
				for i := range t.Rows {
					t.Rows[i].Ticks = ""
				}
				shown = append(shown, screenBlock{Table: t})
			}
			continue
		}
		one, err := onScreen(b, "")
		if err != nil {
			return "", err
		}
		shown = append(shown, one)
	}
	var out bytes.Buffer
	if err := page().ExecuteTemplate(&out, "blocks", shown); err != nil {
		return "", say.Errorf("cannot write %q: %w", s.Title, err)
	}
	return template.HTML(out.String()), nil
}
