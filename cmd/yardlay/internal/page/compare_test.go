package page

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
)

// Steps of one choice are ticked together, come back as a row each, and the best of them is kept,
// unless the same key is typed besides.
func TestStepsAreTickedTogether(t *testing.T) {
	way := func(key, value string) []job.Change { return []job.Change{{Key: key, Value: value}} }
	ways := [][]job.Change{way("satin.width", "45 in"), way("satin.width", "54 in"),
		way("skirt.pieced.within", "29 in"), way("skirt.pieced.within", "23 3/4 in"), way("skirt.tilt", "2")}
	boxes := boxesOf(ways)
	if len(boxes) != 4 || boxes[2].Name != "skirt pieced within 29 in or 23 3/4 in" {
		t.Fatalf("boxes %+v", boxes)
	}
	form := url.Values{}
	for _, b := range boxes {
		form.Add("way", b.Value)
	}
	read := func() ([][]job.Change, []string) {
		r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		_, rows, steps, err := asked(r)
		if err != nil {
			t.Fatal(err)
		}
		return rows, steps
	}
	rows, steps := read()
	if len(rows) != len(ways) || compare.Name(rows[3]) != "skirt pieced within 23 3/4 in" || len(steps) != 1 {
		t.Errorf("rows %v, steps %v", rows, steps)
	}
	form.Add("key", "skirt.pieced.within")
	form.Add("values", "20 in")
	if rows, steps := read(); len(rows) != len(ways)+1 || len(steps) != 0 {
		t.Errorf("typed besides: rows %v, steps %v", rows, steps)
	}
}
