package compare

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Rows of a skirt that is pieced buy what the job buys with them written into it. One that is cut across says what is
// sewn more, once; one that leans by a tilt, pieced at the same place, has nothing to say of that.
func TestRowsOfAPiecedSkirt(t *testing.T) {
	const pieced, tilt = "pieced = { within = \"22\", centre_front = true }\n", "tilt = 2\n"
	src := strings.Replace(testjobs.PiecedSkirt(45, "", 4, 26, 120, ""), "pieced = {}\n", pieced, 1)
	file := testjobs.File(t, "skirt.toml", src)
	ways := append(acrosses(file.Job(), "wool"), tilted(file.Job(), "wool")...)
	if len(ways) < 2 {
		t.Fatalf("rows: %v", ways)
	}
	options := plan.Options{Unit: measure.Inch, Effort: nest.Trial}
	r, err := Run(t.Context(), file, nil, ways, Options{Options: options, Best: Steps(ways), Price: seamsAlone})
	if err != nil {
		t.Fatal(err)
	}
	shown := r.Shown()
	if len(shown) != 3 {
		t.Fatalf("%d rows are shown", len(shown))
	}
	for i, change := range []string{
		strings.Replace(pieced, " }", ", length = \""+shown[1].Changes[0].Value+"\" }", 1), pieced + tilt,
	} {
		row := shown[i+1]
		fresh, err := plan.Run(t.Context(), testjobs.Read(t, strings.Replace(src, pieced, change, 1)), options)
		if err != nil || row.Report == nil {
			t.Fatalf("%s: %s: %v", row.Name, row.Why, err)
		}
		for k, c := range row.Cloths {
			if bought := fresh[k].Buy.Bought; bought < c.Bought || row.Best && bought != c.Bought {
				t.Errorf("%s buys %v mm of %s; written into the job it buys %v", row.Name, c.Bought, c.ID, bought)
			}
		}
	}
	across, lean := shown[1].Sewn(measure.Inch, "USD"), shown[2].Sewn(measure.Inch, "USD")
	if more := seamOf(shown[1].Job) - seamOf(file.Job()); more < 100 || shown[1].Difference.Seam != more ||
		strings.Count(across, "more of seam") != 1 {
		t.Errorf("%s: %v mm more, told %q", shown[1].Name, more, across)
	}
	if lean != "" || len(shown[2].Notes) > 0 {
		t.Errorf("%s: %q, %q", shown[2].Name, lean, shown[2].Notes)
	}
	if names := []string{Name(ways[0]), shown[2].Name}; !strings.HasPrefix(names[0], "skirt cut across at ") ||
		names[1] != "skirt tilt 2 degrees" {
		t.Errorf("called %q", names)
	}
}

// Which places are the steps of a cut across is told by their lengths.
func TestStepsOfACutAcrossInWords(t *testing.T) {
	r := &Result{Rows: []Row{*rowOf(1, nest.Open, 0), *rowOf(2, nest.Open, 1), *rowOf(3, nest.Open, 1)}}
	for i, value := range []string{"30", "24"} {
		r.Rows[i+1].Changes[0] = job.Change{Key: "skirt.pieced.length", Value: value}
	}
	r.pick([]string{"skirt.pieced.length"})
	if got := strings.Join(r.Rows[1].Notes, ""); got != "the best of 2 places for the cut; at 24 it costs as "+
		"much or more." {
		t.Error(got)
	}
}

// A length that is chosen is called so.
func TestAChosenCutAcrossInWords(t *testing.T) {
	if got := Name(one("skirt", "pieced.length", "chosen")); got != "skirt cut across at a length that is chosen" {
		t.Error(got)
	}
	if got := Name(one("skirt", "pieced.within", "chosen")); got != "skirt pieced within a width that is chosen" {
		t.Error(got)
	}
}
