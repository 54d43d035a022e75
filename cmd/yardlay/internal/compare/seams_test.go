package compare

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// randomSkirts are jobs of a gored skirt with a wide hem, some lined, some with a faced hem.
var randomSkirts = rapid.Custom(func(t *rapid.T) string {
	n := func(least, most int, what string) int { return rapid.IntRange(least, most).Draw(t, what) }
	part := rapid.SampledFrom([]string{"", "facings = [ { at = \"hem\" } ]\n", "lining = { cloth = \"lawn\" }\n"}).
		Draw(t, "finish")
	return fmt.Sprintf(`unit = "in"
[body]
waist_girth = %d
hip_girth = 40
waist_to_hips = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "wool"
width = %d
price = "24.00/yd"
[[cloth]]
id = "lawn"
width = 60
[labour]
rate = "24.00/h"
seam = "6 min/yd"
piece = "2 min"
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "wool"
gores = %d
length = %d
hem_sweep = %d
%s`, n(24, 32, "waist"), n(54, 60, "width"), n(4, 6, "gores"), n(34, 42, "length"), n(150, 210, "sweep"), part)
})

// Of the steps of a cut the one is kept that costs least. It tells the seam that its drafts add, and
// what it buys is what the job buys with that step written into it.
func TestPiecedRowsBuyWhatTheJobBuys(t *testing.T) {
	rows, options := 0, plan.Options{Unit: measure.Inch, Effort: nest.Trial}
	for _, seed := range often.Seeds([]int{0, 4}, often.Jobs(2, 20)) {
		src := randomSkirts.Example(seed)
		file := testjobs.File(t, "skirt.toml", src)
		ways := piecings(file.Job(), "wool")
		if len(ways) == 0 {
			continue
		}
		r, err := Run(t.Context(), file, nil, ways, Options{Options: options, Best: Steps(ways), Price: seamsAlone})
		if err != nil {
			t.Fatal(err)
		}
		shown := r.Shown()
		if len(shown) != 2 {
			t.Fatalf("%d rows are shown of %d steps", len(shown), len(ways))
		}
		kept := shown[1]
		for _, row := range r.Rows[1:] {
			if row.PassedOver && row.Report != nil && precedes(&row, &kept) {
				t.Errorf("%s is passed over for %s", row.Name, kept.Name)
			}
		}
		if kept.Report == nil {
			t.Errorf("%s: %s", kept.Name, kept.Why)
			continue
		}
		rows++
		seam := seamOf(kept.Job) - seamOf(file.Job())
		if d := kept.Difference; seam < 100 || d.Seam != seam || !strings.Contains(kept.Sewn(measure.Inch, "USD"),
			"more of seam") {
			t.Errorf("%s: %v mm of seam more, of %v: %q", kept.Name, d.Seam, seam, kept.Sewn(measure.Inch, "USD"))
		}
		written := testjobs.Read(t, src+"pieced = { within = \""+kept.Changes[0].Value+"\" }\n")
		fresh, err := plan.Run(t.Context(), written, options)
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range kept.Cloths {
			if bought := fresh[i].Buy.Bought; bought > c.Bought || kept.Best && bought != c.Bought {
				t.Errorf("%s buys %v mm of %s, best: %v; written into the job it buys %v", kept.Name, c.Bought, c.ID,
					kept.Best, bought)
			}
		}
	}
	if rows == 0 {
		t.Error("no row was laid")
	}
}

// What is proposed follows from what a part is: no corners of what is narrow, on net or on a print;
// two pieces in one where there is a seam at a centre or a section to spare.
func TestSeamsAreProposedWhereTheyMakeSense(t *testing.T) {
	const head = "unit = \"in\"\n[body]\nwaist_girth = 28\nhip_girth = 38\nwaist_to_hips = 8\n[allowance]\nseam " +
		"= \"1/2\"\n" +
		"hem = 1\n[[cloth]]\nid = \"wool\"\nwidth = 58\n%s[[part]]\nname = \"skirt\"\ncloth = \"wool\"\n"
	const circle = "draft = \"circle-skirt\"\ncircle = \"half\"\ngores = 4\nlength = 36\n"
	const gored = "draft = \"gored-skirt\"\ngores = 6\nlength = 40\nhem_sweep = 200\n"
	for _, c := range []struct{ cloth, part, want string }{
		{"", gored, "skirt pieced within 29 in; skirt pieced within 23 3/4 in; skirt tilt 2 degrees"},
		{"", gored + "pieced = { most = 1, within = \"28\" }\n",
			"skirt pieced within 29 in; skirt pieced within 23 3/4 in; skirt tilt 2 degrees"},
		{"", gored + "pieced = { most = 1, from_waist = \"30\" }\n", "skirt tilt 2 degrees"},
		{"", gored + "pieced = { centre_front = true }\n", "skirt pieced within 29 in; skirt pieced within 23 3/4 in; " +
			"skirt pieced within 19 1/4 in; skirt cut across at 33 3/8 in; skirt cut across at 25 3/8 in; " +
			"skirt cut across at 23 3/4 in; skirt tilt 2 degrees"},
		{"", gored + "pieced = { length = \"30\", centre_front = true }\n",
			"skirt pieced within 29 in; skirt pieced within 23 3/4 in; skirt pieced within 19 1/4 in; skirt tilt 2 degrees"},
		{"", gored + "pieced = {}\n",
			"skirt pieced within 29 in; skirt pieced within 23 3/4 in; skirt tilt 2 degrees"},
		{"repeat = { along = \"4\" }\n", gored, ""},
		{"", gored + "grain = \"bias\"\n", ""},
		{"", gored + "tilt = 1\n", "skirt pieced within 29 in; skirt pieced within 23 3/4 in"},
		{"", circle, "skirt pieced within 29 in; skirt centre front cut in one; skirt tilt 2 degrees; skirt gores 2"},
		{"", circle + "front_on_fold = true\n",
			"skirt pieced within 58 in; skirt pieced within 45 7/8 in; skirt pieced within 36 in; skirt tilt 2 degrees"},
		{"", "draft = \"cape\"\nneck = 16\nlength = 30\ncircle = \"full\"\nsections = 4\n",
			"skirt pieced within 40 7/8 in; skirt sections 3; skirt tilt 2 degrees; skirt sections 2"},
		{"", "draft = \"cape\"\nneck = 16\nlength = 30\ncircle = \"half\"\nback_seam = true\n",
			"skirt pieced within 43 7/8 in; skirt centre back cut in one; skirt tilt 2 degrees"},
		{"", "draft = \"rectangle\"\nlength = 30\nwidth = 20\n", "skirt tilt 2 degrees"},
		{"shrinkage = { warp = \"-4 %%\", by = \"pieces\" }\n", "draft = \"rectangle\"\nlength = 30\nwidth = 20\n", ""},
	} {
		f := testjobs.File(t, "job.toml", fmt.Sprintf(head, strings.ReplaceAll(c.cloth, "%%", "%"))+c.part)
		var names []string
		for _, ways := range [][][]job.Change{piecings(f.Job(), "wool"), acrosses(f.Job(), "wool"),
			inOne(f.Job(), "wool"), tilted(f.Job(), "wool"), paired(f.Job(), "wool")} {
			for _, way := range ways {
				names = append(names, Name(way))
				j, err := f.With(way)
				if err == nil {
					_, err = j.Parts[0].Layers[0].Drafted()
				}
				if err != nil {
					t.Errorf("%s: %v", Name(way), err)
				}
			}
		}
		if got := strings.Join(names, "; "); got != c.want {
			t.Errorf("%s%s: %s; want %s", c.cloth, c.part, got, c.want)
		}
	}
}

// However many ways there are, steps of one choice count as one row.
func TestStepsCountAsOneRow(t *testing.T) {
	ways := [][]job.Change{one("a", "nap", "x"), one("b", "pieced.within", "30"), one("b", "pieced.within", "20"),
		one("a", "width", "9"), one("a", "width", "8")}
	if got := atMost(ways, 3); len(got) != 4 || !slices.Equal(got[3], ways[3]) {
		t.Errorf("at most three rows are %v", got)
	}
	if keys := Steps([][]job.Change{one("b", "pieced.length", "30"), one("b", "length", "30")}); !slices.Equal(keys,
		[]string{"b.pieced.length"}) {
		t.Errorf("steps of %v", keys)
	}
	if keys := Steps(ways); !slices.Equal(keys, []string{"b.pieced.within"}) {
		t.Errorf("steps of %v", keys)
	}
}
