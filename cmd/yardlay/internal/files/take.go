package files

import (
	"fmt"
	"path"
	"strings"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// TakeSet is what take makes of a drawing.
func TakeSet() folder.Set {
	return folder.Set{Name: SetTake, Makes: func(name string) bool {
		return name == SetTake+".svg" || name == SetTake+".toml" || name == SetTake+".json"
	}}
}

// PageOfDrawing names the drawing that a page of a PDF is turned into. No cloth has such a name,
// since no id holds a dot.
func PageOfDrawing(pdf string, page int) string {
	base := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(strings.TrimSuffix(pdf, path.Ext(pdf))))
	if base = strings.Trim(base, "-"); base == "" {
		base = "drawing"
	}
	return fmt.Sprintf("page-%d.%s.svg", page, base)
}

// DrawingSet is one such drawing: a set of its own, since a job may refer to it when others are
// taken.
func DrawingSet(name string) folder.Set {
	of := strings.ReplaceAll(strings.TrimSuffix(name, ".svg"), ".", "-of-")
	return folder.Set{Name: of, Makes: func(n string) bool { return n == name }}
}

// Take encodes what take writes besides: the picture, the tables to paste, and the figures.
func Take(f *take.Found, tables string, facts any, unit measure.Unit, show say.Show) ([]folder.File, error) {
	picture, err := depict.Taken(f, unit, show).Drawing().SVG()
	if err != nil {
		return nil, say.Errorf("cannot draw what %s holds: %w", f.File, err)
	}
	asJSON, err := JSON(facts)
	return []folder.File{{Name: SetTake + ".svg", Data: picture}, {Name: SetTake + ".toml", Data: []byte(tables)},
		{Name: SetTake + ".json", Data: asJSON}}, err
}
