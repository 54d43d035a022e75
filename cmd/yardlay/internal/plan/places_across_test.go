package plan_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// asked is a job of a pieced skirt with other keys for that.
func asked(src, keys string) string {
	return strings.Replace(src, "pieced = {}", "pieced = { "+keys+" }", 1)
}

const anywhere = "length = \"chosen\", centre_front = true"

// All places along and across the grain, and all of both together, laid in full are the slow twin: the one chosen costs
// no more than the job as it is written, saves what it is said to, and is cut alike when it is written into the job. Of
// ten skirts for one at the most another place costs less.
func TestPlacesAcrossAgainstAllOfThem(t *testing.T) {
	chosen, across, missed := 0, 0, 0
	jobs := often.Jobs(often.Full(1, 4), 40)
	for seed := range jobs {
		width, gores, length, sweep := 45, 8-2*(seed%2), 38-seed%9, 180-25*(seed%3)
		if often.ByHand() {
			width, gores, length, sweep = 58, 4, 39, 93 // soon laid
		}
		src := testjobs.PiecedSkirt(width, "nap = \"one-way\"\n", gores, length, sweep, "")
		j := testjobs.Read(t, asked(src, anywhere))
		settled := plan.Placed(context.Background(), j, plan.Options{Proofs: proofs})
		at := settled.Parts[0].Place
		parts, c := plan.OuterParts(j, "wool")
		lengths, err := plan.LengthSteps("skirt", parts, c, measure.Inch)
		if err != nil || len(lengths) == 0 {
			t.Fatalf("seed %d: no lengths: %v", seed, err)
		}
		written := paid(t, j, job.Place{})
		var places []job.Place
		for _, within := range append(plan.PieceSteps("skirt", parts, c, measure.Inch), 0) {
			for _, length := range append(lengths, 0) {
				places = append(places, job.Place{Within: within, Length: length})
			}
		}
		cost, least := paidOf(t, j, at, written, places)
		saved := savedBy(at)
		if cost > written || (at.Within+at.Length > 0) != (cost < written && saved > 0) {
			t.Errorf("seed %d: %+v costs %d, as written %d", seed, at, cost, written)
		}
		if at.Within+at.Length > 0 {
			chosen++
		}
		if at.Length > 0 {
			across++
		}
		if cost > least {
			missed++
		}
		// A length alone saves 5/8 yd of this one, the width that saves the most less, and both at another width the most.
		if often.ByHand() && (at.Within == 0 || at.Length == 0 || saved < 0.75*measure.Yards-1) {
			t.Errorf("%+v saves %v mm", at, saved)
		}
		keys := "centre_front = true"
		if at.Within > 0 {
			keys += fmt.Sprintf(", within = \"%v mm\"", at.Within)
		}
		if at.Length > 0 {
			keys += fmt.Sprintf(", length = \"%v mm\"", at.Length)
		}
		if at.Within+at.Length > 0 {
			sameCut(t, settled, testjobs.Read(t, asked(src, keys)))
		}
	}
	t.Logf("a place chosen %d times, %d times across; %d times another one costs less", chosen, across, missed)
	if across == 0 || 10*missed > jobs {
		t.Error("nothing was cut across, or too often elsewhere than where it costs least")
	}
}

// sameCut holds two jobs to cut the same pieces.
func sameCut(t *testing.T, a, b *job.Job) {
	t.Helper()
	sizes := func(j *job.Job) (all []string) {
		spreads, err := plan.Draw(j)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range spreads {
			for _, c := range s.Cuts {
				all = append(all, fmt.Sprintf("%s %d %.4f %.4f", c.Piece.Name, c.Piece.Count, c.Finished.Along, c.Finished.Across))
			}
		}
		return all
	}
	if d := cmp.Diff(sizes(a), sizes(b)); d != "" {
		t.Error(d)
	}
}

// Of cloth that is sold in whole bolts alone no part is longer than one, less what its ends and its wash take, whatever
// else is chosen; where a bolt holds all, none is cut for it. A bolt of a yard is 36 in.
func TestPiecesLongerThanBoltsAreCutAcross(t *testing.T) {
	for _, c := range []struct {
		keys  string
		bolts float64 // in
	}{
		{"", 36}, {"ends = \"1/2\"\n", 35}, {"shrinkage = { warp = \"-5 %\", weft = \"0 %\", by = \"prewash\" }\n",
			0.95 * 36},
		{"shrinkage = { warp = \"-5 %\", weft = \"0 %\", by = \"pieces\" }\n", 0.95 * 36},
	} {
		src := testjobs.PiecedSkirt(54, c.keys+"bolt = { length = \"1 yd\", price = \"20.00\" }\nwhole_bolts = true\n", 6, 38,
			110, "")
		j := testjobs.Read(t, asked(src, anywhere))
		if _, err := plan.Tasks(j, 1); err == nil || !strings.Contains(err.Error(), "too long for every bolt") {
			t.Fatalf("uncut: %v", err)
		}
		ended, end := context.WithCancel(context.Background())
		end() // nothing else is chosen
		j = plan.Placed(ended, j, plan.Options{})
		at := j.Parts[0].Place
		if math.Abs(at.Bolts-c.bolts*measure.Inches) > 1 {
			t.Errorf("%q: the bolts hold %v mm, want %v in", c.keys, at.Bolts, c.bolts)
		}
		if _, err := plan.Tasks(j, 1); err != nil {
			t.Errorf("%q: %v", c.keys, err)
		}
		longer := strings.Replace(src, "1 yd", "2 yd", 1)
		j = plan.Placed(ended, testjobs.Read(t, asked(longer, anywhere)), plan.Options{})
		if at := j.Parts[0].Place; at.Bolts != 0 {
			t.Errorf("%q: of bolts of 2 yd: %+v", c.keys, at)
		}
	}
}

// Without leave to cut its centre front a skirt is not cut across, and the place says why; a width that is written is
// kept to while a length is chosen.
func TestPlacesAcrossKeepToTheJob(t *testing.T) {
	src := testjobs.PiecedSkirt(45, "nap = \"one-way\"\n", 4, 36, 100, "")
	at := plan.Placed(context.Background(), testjobs.Read(t, asked(src, "length = \"chosen\", within = \"40\"")),
		plan.Options{Proofs: proofs}).Parts[0].Place
	if at.Length > 0 || at.Whole == nil || !strings.Contains(at.Whole.Error(), "centre front") {
		t.Errorf("at the centre front: %+v", at)
	}
	j := plan.Placed(context.Background(), testjobs.Read(t, asked(src, anywhere+", within = \"40\"")),
		plan.Options{Proofs: proofs})
	at = j.Parts[0].Place
	if at.Within != 0 || at.Length == 0 || j.Parts[0].Layers[0].Corners.Within != 40*measure.Inches {
		t.Errorf("with a width: %+v", at)
	}
}

// Lengths that are tried, by hand: of gores 40 in long, hem and seam included, what lies on the shelf, and where two
// are 22 1/2 in wide; all are cut as said.
func TestLengthSteps(t *testing.T) {
	src := testjobs.PiecedSkirt(45, "have = [ { name = \"rest\", length = \"33\" } ]\n", 8, 38, 240, "")
	j := testjobs.Read(t, asked(src, anywhere))
	parts, c := plan.OuterParts(j, "wool")
	steps, err := plan.LengthSteps("skirt", parts, c, measure.Inch)
	if err != nil || len(steps) != 3 || math.Abs(steps[0]-33*measure.Inches) > 1 {
		t.Fatalf("%v mm: %v", steps, err)
	}
	for _, step := range steps {
		made, err := j.PiecedAt("skirt", job.Place{Length: step}).Parts[0].Layers[0].Drafted()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range made.Pieces {
			if along, _ := p.Unfold().CutSize(); along > step+0.01 {
				t.Errorf("%s is %v mm long, of %v", p.Name, along, step)
			}
		}
	}
}
