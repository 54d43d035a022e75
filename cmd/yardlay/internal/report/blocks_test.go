package report

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
)

// Layers of net that are cut alike lie one after the other along the cloth.
func TestLayersLieSideBySide(t *testing.T) {
	var parts strings.Builder
	for _, layer := range []string{"first", "second", "third"} {
		fmt.Fprintf(&parts, "[[part]]\nname = \"%s\"\ndraft = \"rectangle\"\ncloth = \"satin\"\nwidth = 12\nlength = "+
			"20\ncount = 4\n", layer)
	}
	src := testjobs.Panels(2, "12", "30", "")
	r, err := runJob(t, src+parts.String())
	if err != nil {
		t.Fatal(err)
	}
	c := r.Cloths[0]
	places := map[string][]float64{}
	for _, pl := range c.Layout.Placed {
		name := c.Problem.Pieces[pl.Piece].Name
		places[name] = append(places[name], pl.At[0])
	}
	last := 0.0
	for _, layer := range []string{"first", "second", "third"} {
		if first := slices.Min(places[layer]); first < last {
			t.Errorf("%s begins at %v, before the one above it ends: %v", layer, first, places)
		}
		last = slices.Max(places[layer])
	}
}
