package main

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/report"
)

// pins prints where layers of net are pinned to the skirt, on which of its seams, and
// which of them are open at the centre back.
func (p listPrinter) pins(layers []report.NetLayer) {
	p.paragraph("Pin the notches of the flat edge this far round the skirt from centre back:")
	var open []string
	for _, l := range layers {
		places := make([]string, len(l.Quarters))
		for i, q := range l.Quarters {
			places[i] = bare(q, p.unit)
		}
		p.cells("%-5s"+strings.Repeat("%12s", len(places)), fmt.Sprint(l.Layer), places...)
		if l.Open {
			open = append(open, fmt.Sprint(l.Layer))
		}
	}
	alike := !slices.ContainsFunc(layers, func(l report.NetLayer) bool { return l.Seams != layers[0].Seams })
	for _, l := range layers {
		if text := onSeams(l.Seams); alike && text != "" {
			p.paragraph(text)
		} else if text != "" {
			p.paragraph(fmt.Sprintf("Layer %d: %s%s", l.Layer, strings.ToLower(text[:1]), text[1:]))
		}
		if alike {
			break
		}
	}
	switch len(open) {
	case 0:
	case 1:
		p.paragraph("Layer " + open[0] + " crosses the opening: leave its ends open at centre back.")
	default:
		p.paragraph("Layers " + strings.Join(open, ", ") + " cross the opening: leave their ends open at centre back.")
	}
}

// onSeams says on which seams of the skirt the places to pin lie, left and right alike;
// "" where they lie on none.
func onSeams(seams [4]string) string {
	first, second := seams[0], seams[1]
	const stroke = "a stroke over the seam line marks them"
	switch {
	case !slices.ContainsFunc(seams[:], func(s string) bool { return s != "" }):
		return ""
	case second == "":
		return fmt.Sprintf("The first and the last lie on the seams %s. Between seams %s.", first, stroke)
	case first == "":
		return fmt.Sprintf("The second and the third lie on the seams %s. Between seams %s.", second, stroke)
	}
	return fmt.Sprintf("The first and the last lie on the seams %s, the others on the seams %s.", first, second)
}
