package plan

import (
	"fmt"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// godets is a job of so many godets, shared out over cloths.
func godets(cloths, each int) string {
	var b strings.Builder
	b.WriteString("unit = \"in\"\n[allowance]\nseam = 1\nhem = 1\n")
	for i := range cloths {
		fmt.Fprintf(&b, "[[cloth]]\nid = \"c%d\"\nwidth = 58\n[[part]]\nname = \"p%d\"\ndraft = \"rectangle\"\ncloth "+
			"= \"c%d\"\nlength = 9\nwidth = 8\ncount = %d\n", i, i, i, each)
	}
	return b.String()
}

// More pieces than can be laid, judged and told at once are refused, before any is
// laid: in all, and those of all gowns.
func TestPiecesOfAJobAreBounded(t *testing.T) {
	for _, c := range []struct {
		cloths, each, gowns int
		want                string
	}{
		{4, 500, 1, ""},
		{5, 401, 1, "job.toml:6:6: 2005 pieces on all cloths, the most of a job is 2000"},
		{1, 21, 100, "2100 pieces on all cloths"},
		{1, 11, 50, "550 pieces on `c0`, the most is 500"},
	} {
		j := testjobs.Read(t, godets(c.cloths, c.each))
		j.Unit = measure.Inch
		_, err := Tasks(j, c.gowns)
		if (err != nil) != (c.want != "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%d x %d, %d gowns: %v", c.cloths, c.each, c.gowns, err)
		}
	}
}
