package plan

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// panel is a job of one panel of finished 100 by 40 cm without allowances, with
// more keys for its cloth and its part.
func panel(cloth, part string) string {
	return `unit = "cm"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "linen"
width = 150
nap = "two-way"
` + cloth + `
[[part]]
name = "panel"
draft = "rectangle"
cloth = "linen"
length = 100
width = 40
` + part + "\n"
}

func onlyTask(t *testing.T, src string) Task {
	t.Helper()
	tasks, err := Tasks(testjobs.Read(t, src), 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(tasks) != 1 {
		t.Fatalf("%d tasks", len(tasks))
	}
	return tasks[0]
}

// Cut size is finished size over 1 - s, s being the shrinkage: 100 is cut 103.093
// at 3 %, 105.263 at 5 % and 108.696 at 8 %. That is plain arithmetic from the
// sign and meaning of ISO 5077 (change = (after - before)/before, negative for
// shrinkage): what is cut 103.093 and loses 3 % is 100 again.
func TestPiecesAreDrawnLargerForAClothThatShrinks(t *testing.T) {
	for change, want := range map[string]float64{"-3 %": 103.093, "-5 %": 105.263, "-8 %": 108.696} {
		for _, c := range []struct {
			grain         string
			along, across float64
		}{
			{"lengthwise", want, 40}, // the length runs along the warp
			{"cross", 100, 40 * want / 100},
		} {
			task := onlyTask(t, panel(`shrinkage = { warp = "`+change+`", by = "pieces" }`, `grain = "`+c.grain+`"`))
			along, across := task.Spread.Cuts[0].Piece.CutSize()
			if math.Abs(along/10-c.along) > 5e-4 || math.Abs(across/10-c.across) > 5e-4 {
				t.Errorf("%s on the %s grain: cut %.4f x %.4f, want %.3f x %.3f", change, c.grain, along/10, across/10,
					c.along, c.across)
			}
			if got := task.Spread.Cuts[0].Finished; math.Abs(got.Along-1000) > 1e-6 || math.Abs(got.Across-400) > 1e-6 {
				t.Errorf("finished size is %v", got)
			}
			if task.Problem.Strip.Width != 1500 || task.Needed([]float64{1000}) != 1000 {
				t.Error("cloth is counted for washing although the pieces are: never both")
			}
		}
	}
}

// Cloth that is washed first is laid on its width after washing, and its length
// before washing is bought: usable width times 1 - s of the weft, length over 1 - s
// of the warp; the pieces keep their size.
func TestClothIsWashedFirst(t *testing.T) {
	task := onlyTask(t, panel("selvedge = 1\nshrinkage = { warp = \"-3 %\", weft = \"-2 %\", by = \"prewash\" }", ""))
	if along, across := task.Spread.Cuts[0].Piece.CutSize(); math.Abs(along-1000) > 1e-2 ||
		math.Abs(across-400) > 1e-2 {
		t.Errorf("cut %v x %v", along, across)
	}
	if w := task.Problem.Strip.Width; math.Abs(w-1480*0.98) > 1e-9 {
		t.Errorf("laid on %v mm, want %v", w, 1480*0.98)
	}
	if got := task.Needed([]float64{1000}) / 10; math.Abs(got-103.093) > 5e-4 {
		t.Errorf("needed %.4f cm, want 103.093", got)
	}
}

// ISO 5077: 500 mm that become 485 have changed by -3.0 %. A shrinkage of 3 % in
// the file means the same piece, whichever way it is asked for.
func TestTheSignOfAChangeIsThatOfISO5077(t *testing.T) {
	if change := (485.0 - 500) / 500; change != -0.03 {
		t.Fatal("plain arithmetic fails")
	}
	task := onlyTask(t, panel(`shrinkage = { warp = "-3.0 %", by = "pieces" }`, ""))
	along, _ := task.Spread.Cuts[0].Piece.CutSize()
	if after := along * (1 - 0.03); math.Abs(after-1000) > 1e-2 {
		t.Errorf("after the wash it is %v mm long", after)
	}
}

// What may lie several ways cannot be drawn larger for all of them.
func TestUnequalShrinkageIsRefusedWhereTheGrainIsOpen(t *testing.T) {
	const unequal = `shrinkage = { warp = "-5 %", weft = "-2 %", by = "pieces" }`
	for part, why := range map[string]string{
		`grain = "bias"`: "on the bias", `grain = "either"`: "on either grain",
		"tilt = 2": "up to 2 degrees off the grain",
	} {
		_, err := Tasks(testjobs.Read(t, panel(unequal, part)), 1)
		if err == nil || !strings.Contains(err.Error(), why) || !strings.Contains(err.Error(), "`panel`") ||
			!strings.Contains(err.Error(), "wash the cloth before cutting") {
			t.Errorf("%s: %v", part, err)
		}
		for _, fine := range []string{strings.Replace(unequal, "pieces", "prewash", 1),
			strings.Replace(unequal, "-2", "-5", 1)} {
			if _, err := Tasks(testjobs.Read(t, panel(fine, part)), 1); err != nil {
				t.Errorf("%s with %s: %v", part, fine, err)
			}
		}
	}
	allWay := strings.Replace(panel(unequal, ""), "two-way", "all-way", 1)
	if _, err := Tasks(testjobs.Read(t, allWay), 1); err != nil { // the nap turns nothing across
		t.Errorf("all-way: %v", err)
	}
}

// Worked by hand: a marker of 100 cm with 2 cm at each end and 3 cm off square
// takes 107 cm, with 10 % to spare 117.7; on a crosswise fold each of the two
// layers has its own ends: 2 x 104 + 3 = 211, 232.1 with the spare.
func TestWhatIsAddedToAMarker(t *testing.T) {
	const added = "ends = 2\nskew = 3\nspare = \"10 %\"\n"
	for lay, want := range map[string]float64{"open": 1177, "crosswise-fold": 2321} {
		task := onlyTask(t, panel(added+`lay = "`+lay+`"`, "times = 2"))
		if got := task.Needed([]float64{1000}); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: needed %v mm, want %v", lay, got, want)
		}
	}
}

// What is needed and bought never falls when a marker gets longer, whatever is
// added: one function serves layouts and bounds.
func TestNeededIsMonotone(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		cm := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(r, name) * 10 }
		c := job.Cloth{Ends: cm("ends", 10), Skew: cm("skew", 10), Spare: rapid.Float64Range(0, 1).Draw(r, "spare")}
		c.Shrinkage = job.Shrinkage{Warp: rapid.Float64Range(-0.3, 0.1).Draw(r, "warp"),
			Prewash: rapid.Bool().Draw(r, "prewash")}
		c.Offer.Per, c.Offer.Price.Currency = measure.Yard, "USD"
		task := Task{Spread: Spread{Cloth: c}, Problem: nest.Problem{Gap: cm("gap", 3)}}
		if rapid.Bool().Draw(r, "patterned") {
			task.Problem.Strip.Repeat.Along = cm("repeat", 60)
		}
		lays := []nest.Lay{nest.Open, nest.LengthwiseFold, nest.CrosswiseFold, nest.CrosswiseTurned, nest.DoubleFold}
		task.Stretches = []nest.Stretch{{Lay: rapid.SampledFrom(lays).Draw(r, "lay"), Problem: task.Problem}}
		if rapid.Bool().Draw(r, "two") {
			task.Stretches = append(task.Stretches, nest.Stretch{Lay: nest.Open, Problem: task.Problem})
		}
		var short, long []float64
		for range task.Stretches {
			short = append(short, cm("marker", 1000))
			long = append(long, short[len(short)-1]+cm("more", 10))
		}
		if a, b := task.Needed(short), task.Needed(long); a > b {
			r.Errorf("needed %v for %v, %v for %v", a, short, b, long)
		}
		if a, b := task.Bought(short), task.Bought(long); a > b || a < task.Needed(short)-measure.Guard {
			r.Errorf("bought %v for %v, %v for %v", a, short, b, long)
		}
	})
}
