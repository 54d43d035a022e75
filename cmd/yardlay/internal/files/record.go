package files

import (
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/record"
	"yardlay/shapes/say"
)

// Record encodes what gowns took: its pictures, and its figures.
func Record(y record.Year) ([]folder.File, error) {
	var files []folder.File
	for i, d := range y.Pictures() {
		svg, err := d.SVG()
		if err != nil {
			return nil, say.Errorf("cannot draw the record: %w", err)
		}
		files = append(files, folder.File{Name: Page(SetRecord, i), Data: svg})
	}
	asJSON, err := JSON(y)
	return append(files, folder.File{Name: SetRecord + ".json", Data: asJSON}), err
}
