package plan

import (
	"context"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// gores is a skirt of twelve straight-sided gores, 5 in at the top, 12 at the hem
// and 40 long, on cloth 55 in wide.
const gores = `unit = "in"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "corduroy"
width = 55
nap = "one-way"
price = "10.00/yd"
[[part]]
name = "skirt"
draft = "outline"
cloth = "corduroy"
file = "testdata/gore.geojson"
count = 12
`

// Head to tail a row of n gores takes n(5 + 12)/2 + (12 - 5)/2 in, 54.5 for six:
// two rows, 80 in, 2 1/4 yd. One way up four go beside each other in 48 in: three
// rows, 120 in, 3 3/8 yd. Both are plain geometry, rows that a lay must not exceed
// (which cloths have a nap: Tondl, Nebraska Extension NF00-416, 2000); and what
// one-way cloth takes is never less than what two-way cloth does.
func TestNapOfTwelveGores(t *testing.T) {
	bought := map[string]float64{}
	for nap, most := range map[string]float64{"one-way": 3.375, "two-way": 2.25} {
		task := onlyTask(t, strings.Replace(gores, "one-way", nap, 1))
		effort := nest.Quick
		if nap == "one-way" { // nothing is proved of it
			effort = often.Full(nest.Trial, effort)
		}
		l, err := Do(context.Background(), task, Options{Effort: effort}, nil)
		if err != nil {
			t.Fatal(err)
		}
		bought[nap] = l.Buy.Bought
		if yards := l.Buy.Bought / measure.Yards; yards > most+1e-9 {
			t.Errorf("%s: %v yd are bought, rows take %v", nap, yards, most)
		}
		if nap == "two-way" && !l.Proved() {
			t.Error("two rows head to tail are not proved")
		}
	}
	if bought["one-way"] < bought["two-way"] {
		t.Errorf("one-way takes less than two-way: %v", bought)
	}
}
