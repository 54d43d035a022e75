package report

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// Four panels of 30 in, one on a width of 36 in: what of them a leftover of two
// takes depends on the lots and on what the part asks to keep.
func TestShelfKeepsGarmentsTogether(t *testing.T) {
	for _, c := range []struct {
		cloth, part string
		have        int // in, of the leftover
		onShelf     int // panels
	}{
		{"", "count = 4", 60, 0},
		{"", "count = 4\nkeep = \"piece\"", 60, 2},
		{"lots = \"all\"", "count = 4", 60, 2},
		{"lots = \"all\"", "count = 4\nkeep = \"garment\"", 60, 0},
		{"", "count = 2\ntimes = 2", 60, 2},
		{"", "count = 2\ntimes = 2", 90, 2}, // room for three: half of the second is not taken
		{"", "count = 2\ntimes = 2\nkeep = \"gown\"", 90, 0},
		{"lots = \"none\"", "count = 1\ntimes = 4", 90, 3},
	} {
		src := testjobs.Panels(1, "36", "30", "price = \"8.00/yd\"\nhave = [ { name = \"end\", length = "+
			strconv.Itoa(c.have)+" } ]\n"+c.cloth)
		r, err := runJob(t, strings.Replace(src, "count = 1\n", c.part+"\n", 1))
		if err != nil {
			t.Fatal(err)
		}
		got, sets := 0, map[int]bool{}
		each := 1
		if strings.Contains(c.part, "count = 2") {
			each = 2
		}
		for _, l := range r.Cloths[0].Shelf.Leftovers {
			for _, pl := range l.Marker {
				got++
				sets[(pl.Copy-1)/each] = true
			}
		}
		if got != c.onShelf || got > 0 && each == 2 && len(sets)*2 != got {
			t.Errorf("%q, %q: %d panels from a leftover of %d in, of the sets %v; want %d", c.cloth, c.part, got,
				c.have, sets, c.onShelf)
		}
		said := strings.Join(r.Cloths[0].Instructions, " ")
		agree, split := strings.Contains(c.cloth, "all"), strings.Contains(c.part, "piece")
		if strings.Contains(said, "of one dye lot") != agree ||
			strings.Contains(said, "cut from two lots") == (agree || split) ||
			strings.Contains(said, "compare their dyes") != (split && !agree) {
			t.Errorf("%q, %q: %s", c.cloth, c.part, said)
		}
	}
}

// Three panels of 8 yd: lengths bought at once are one lot unless the cloth says
// otherwise, and then a garment comes from one length, where one is sold that holds it.
func TestBoltsKeepGarmentsTogether(t *testing.T) {
	const cut, whole = "price = \"10.00/yd\"\nbolt = { length = \"10 yd\", price = \"60.00\" }\n",
		"whole_bolts = true\nbolt = { length = \"12 yd\", price = \"60.00\" }\n"
	for _, c := range []struct{ cloth, part, cost, says string }{
		{cut, "count = 3", "180.00", "from bolt 3"},
		{cut + "lots = \"none\"", "count = 3", "240.00", ""},
		{cut + "lots = \"none\"", "times = 3", "180.00", "Lots may differ: a garment is cut from one length."},
		{cut + "lots = \"none\"", "count = 3\nkeep = \"piece\"", "180.00", "from bolt 3"},
		{cut, "count = 3\nkeep = \"garment\"", "240.00", ""},
		{whole + "lots = \"none\"", "count = 3", "180.00",
			"Nothing sold holds all of panel, which comes from several: lay them side by side in daylight"},
		{whole, "times = 3\nkeep = \"garment\"", "180.00", "from bolt 3"},
	} {
		r, err := runJob(t, strings.Replace(testjobs.Panels(1, "36", "8 yd", c.cloth), "count = 1\n", c.part+"\n", 1))
		if err != nil {
			t.Fatal(err)
		}
		if got, said := r.Cloths[0], strings.Join(r.Cloths[0].Instructions, " "); got.Cost != c.cost || !got.Proved ||
			!strings.Contains(said, c.says) {
			t.Errorf("%q, %q: %s, proved %v, %s", c.cloth, c.part, got.Cost, got.Proved, said)
		}
	}
	_, err := runJob(t, strings.Replace(testjobs.Panels(1, "36", "8 yd", whole), "count = 1\n",
		"count = 3\nkeep = \"garment\"\n", 1))
	for _, want := range []string{"job.toml:6", "kept together of panel", "keep = \"pair\"", "price by the length"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q in it", err, want)
		}
	}
}

// The spare is a share of all that is needed, and the shelf comes after it: of three
// panels of 30 in one is on the shelf; 60 in and 10 % of 90 in are bought.
func TestSpareComesBeforeTheShelf(t *testing.T) {
	src := testjobs.Panels(3, "36", "30",
		"price = \"8.00/yd\"\nsold_by = \"1 in\"\nspare = \"10 %\"\nlots = \"all\"\nhave = [ { name = \"end\", "+
			"length = 40 } ]\n")
	r, err := runJob(t, src)
	if err != nil {
		t.Fatal(err)
	}
	c := r.Cloths[0]
	if needed := c.Needed / measure.Inches; math.Abs(needed-69) > 1e-6 ||
		math.Abs(c.Added.Spare/measure.Inches-9) > 1e-6 || !c.ProvedAsShared {
		t.Errorf("%v in are needed, %v of them to spare, want 69 and 9; proved %v", needed,
			c.Added.Spare/measure.Inches, c.ProvedAsShared)
	}
	// With bolts what these leave serves first, and is cut where it does not do.
	for bolt, cost := range map[string]string{"36 in": "2.00", "33 1/2 in": "2.67"} {
		r, err = runJob(t, strings.Replace(src, "price =",
			"bolt = { length = \""+bolt+"\", price = \"1.00\" }\nprice =", 1))
		if err != nil {
			t.Fatal(err)
		}
		if c = r.Cloths[0]; c.Cost != cost || math.Abs(c.Needed/measure.Inches-69) > 1e-6 {
			t.Errorf("%s for %v in, want %s for 69", c.Cost, c.Needed/measure.Inches, cost)
		}
	}
}
