package files

import (
	"encoding/json"
	"fmt"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

// JSON returns indented JSON that ends in a new line.
func JSON(v any) ([]byte, error) {
	text, err := json.MarshalIndent(v, "", "  ")
	return append(text, '\n'), err
}

// Compare encodes a comparison: its picture and its figures.
func Compare(r *compare.Result) ([]folder.File, error) {
	svg, err := r.Picture().SVG()
	if err != nil {
		return nil, say.Errorf("cannot draw the comparison: %w", err)
	}
	asJSON, err := JSON(r)
	return []folder.File{{Name: SetCompare + ".svg", Data: svg}, {Name: SetCompare + ".json", Data: asJSON}}, err
}

// Page names page i of a set, from 0.
func Page(set string, i int) string {
	if i > 0 {
		return fmt.Sprintf("%s-%d.svg", set, i+1)
	}
	return set + ".svg"
}

// Pages encodes a ledger: one page where it fits on one, and its figures.
func Pages(name string, l sheet.Ledger, figures any) ([]folder.File, error) {
	var files []folder.File
	for i, page := range l.Drawings() {
		svg, err := page.SVG()
		if err != nil {
			return nil, say.Errorf("cannot draw the %s: %w", name, err)
		}
		files = append(files, folder.File{Name: Page(name, i), Data: svg})
	}
	asJSON, err := JSON(figures)
	return append(files, folder.File{Name: name + ".json", Data: asJSON}), err
}
