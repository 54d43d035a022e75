package job

import (
	"slices"

	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// usualLaceLap is how far ends of lace lie over each other (common practice: 1/2 to 1 in).
const usualLaceLap = 0.5 * measure.Inches

// maxEdgings is one for each place where there may be lace.
const maxEdgings = 5

const edgingExample = `{ at = "hem", width = "2" }`

// edgingKeys are those of lace along an edge of a part.
var edgingKeys = []Key{
	{"at", oneOf("hem", "neck", "armhole", "waist", "top"), "`hem`", "along which edge; it has to be straight"},
	{"width", length, "", "of the lace"},
	{"laid", oneOf("on", "beyond"), "`on`",
		"on the cloth, its worked edge along the edge of that; or sewn on by its plain edge, so that it hangs beyond"},
	{"lap", lengthOr0, "1/2 in", "of two ends over each other, and turned in at free ends"},
	{"piece", length, "as long as is needed", "length of one piece, where it is sold in pieces"},
}

// edgings reads the lace along the edges of a part.
func (p *partTable) edgings() {
	for i, n := range p.InlineTables("edgings", edgingExample, maxEdgings) {
		t := p.within("edgings", n, label("edging", "", i)+" of "+p.Name)
		if !t.Has("width") {
			t.Need("width", "how wide the lace is: "+edgingExample)
		}
		e := draft.Edging{At: draft.Place(t.Choice("at")), Width: t.LengthOr("width", 0),
			Lap: t.LengthOr("lap", usualLaceLap), Piece: t.LengthOr("piece", 0), Beyond: t.Choice("laid") == "beyond"}
		t.Finish()
		if slices.ContainsFunc(p.edged, func(other draft.Edging) bool { return other.At == e.At }) {
			p.Fail(n.At, "one for each edge", "%s: `edgings` has two at the %s", p.Name, e.At)
		}
		p.edged = append(p.edged, e)
	}
}
