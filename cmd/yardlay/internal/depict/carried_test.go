package depict

import (
	"testing"

	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// Allowances are said kind by kind, as a span where edges of a kind differ.
func TestAllowanceWords(t *testing.T) {
	edges := []shapes.Edge{{Kind: shapes.Seam, Allowance: 15}, {Kind: shapes.Hem, Allowance: 0}, {Kind: shapes.Fold},
		{Kind: shapes.Seam, Allowance: 25}, {Kind: shapes.Waist, Allowance: 10}}
	if got := Allowances(edges, measure.Millimetre); got !=
		"allowances drawn: seam 15.0 to 25.0 mm, hem none, waist 10.0 mm" {
		t.Errorf("says %q", got)
	}
}
