package draft

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// Outline takes pieces over as drawn elsewhere (see package outline).
type Outline struct {
	Outlines  []outline.Named
	Count     int     // copies of each; 0 means one
	Pair      bool    // half of an even count is mirrored
	Allowance float64 // cut outside the drawn line, mm; 0: the drawn line is the cut line
}

// Draft returns one piece an outline, its grain along x as drawn. Of a pair the
// left copies are as drawn, the right ones mirrored.
func (o Outline) Draft() (Result, error) {
	if len(o.Outlines) == 0 {
		return Result{}, errors.New("no outline is given")
	}
	if err := notNegative(measured{"allowance", o.Allowance}); err != nil {
		return Result{}, say.Errorf("outline: %w", err)
	}
	if err := checkCount(o.Count); err != nil {
		return Result{}, say.Errorf("outline: %w", err)
	}
	count := max(o.Count, 1)
	if o.Pair && count%2 != 0 {
		return Result{}, fmt.Errorf("outline: count is %d, left and right pieces come in even numbers", count)
	}
	out := make([]shapes.Piece, len(o.Outlines))
	for i, drawn := range o.Outlines {
		if drawn.Name == "" {
			return Result{}, fmt.Errorf("outline %d has no name", i+1)
		}
		edge := shapes.Edge{Name: "outline", Kind: shapes.Seam, Line: orb.LineString(drawn.Ring),
			Allowance: o.Allowance}
		p, err := shapes.NewPiece(drawn.Name, []shapes.Edge{edge})
		if err != nil {
			return Result{}, err
		}
		p.Count, p.Pair = count, o.Pair
		if o.Pair {
			p.Labels = sideLabels(count)
		}
		out[i] = p
	}
	return Result{Pieces: out}, nil
}

// sideLabels tells the copies of pairs apart: left, right, left ...
func sideLabels(count int) []string {
	labels := make([]string, count)
	for i := range labels {
		labels[i] = [...]string{"left", "right"}[i%2]
		if count > 2 {
			labels[i] += fmt.Sprintf(" %d of %d", i/2+1, count/2)
		}
	}
	return labels
}
