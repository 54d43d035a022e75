package outline

// Pattern data is what drawing rooms hand over: a DXF in which each piece, and each size of
// it, is a block, and a line is on a layer whose number says what it is for. The numbers are
// those of ASTM D6673-10 as reproduced second-hand; conformity is not claimed. 5, 9 and 10
// (grade reference, stripe and plaid lines) are from memory.

// boundaryLayer is the layer of the outline of a piece.
const boundaryLayer = "1"

// patternRoles are roles by the number of a layer.
var patternRoles = []struct {
	layer string
	role  Role
}{
	{boundaryLayer, CutLine},
	{"2", Ignored},   // turn points
	{"3", Ignored},   // curve points
	{"4", Notch},     // notches
	{"5", Ignored},   // grade reference
	{"6", Fold},      // mirror line
	{"7", Grain},     // grain line
	{"8", Internal},  // lines inside, not cut
	{"9", Ignored},   // stripe reference
	{"10", Ignored},  // plaid reference
	{"11", Internal}, // cut-outs inside
	{"13", Internal}, // drill holes
	{"14", SeamLine}, // sew line
	{"15", Ignored},  // annotation
	{"CLOTH", Ignored},
}

// PatternRules are the roles of the lines of pattern data, by their layers. CLOTH is the layer
// on which our own markers have the edges of their cloth.
func PatternRules() []Rule {
	rules := make([]Rule, len(patternRoles))
	for i, r := range patternRoles {
		rules[i] = Rule{Layer: r.layer, Role: r.role}
	}
	return rules
}

// IsPatternData tells whether a drawing is pattern data: some block has a line on the layer of
// boundaries, and most lines in blocks are on layers of pattern data.
func IsPatternData(d Drawing) bool {
	known := map[string]bool{}
	for _, r := range patternRoles {
		known[r.layer] = true
	}
	boundary, alike, other := false, 0, 0
	for _, l := range d.Lines {
		switch {
		case l.Block == "":
		case known[l.Layer]:
			alike++
			boundary = boundary || l.Layer == boundaryLayer
		default:
			other++
		}
	}
	return boundary && alike > other
}

// isPiece tells whether a block has a line on the layer of boundaries.
func (b *dxfBlock) isPiece() bool {
	for _, e := range b.entities {
		if _, line := e.shape.(dxfCurve); line && e.layer.name == boundaryLayer {
			return true
		}
	}
	return false
}
