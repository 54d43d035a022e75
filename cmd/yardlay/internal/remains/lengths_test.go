package remains

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often" // by hand few cases
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// randomLaid lays a small job on a random cloth; false where the job refuses that cloth.
func randomLaid(t *rapid.T) (plan.Laid, bool) {
	cloth := testjobs.RandomCloth.Draw(t, "cloth")
	src := testjobs.Gown(cloth)
	if rapid.Bool().Draw(t, "panels") {
		src = testjobs.Panelled("width = 120\nselvedge = 1\nprice = \"10.00/m\"\n"+cloth,
			[3]float64{rapid.Float64Range(10, 90).Draw(t, "long"), 33, 3}, [3]float64{25, 40, 2})
	}
	laid, err := plan.Run(context.Background(), testjobs.Read(t, src), plan.Options{Effort: nest.Trial, Workers: 1})
	if err != nil || len(laid) == 0 {
		return plan.Laid{}, false
	}
	return laid[0], true
}

// Of random jobs on all lays, every piece lies on a length once, apart from the others and off flaws, where
// the cloth really is; what remains holds; areas balance by another way.
func TestLengthsOfRandomJobs(t *testing.T) {
	laid := 0
	rapid.Check(t, func(t *rapid.T) {
		l, ok := randomLaid(t)
		if !ok {
			return
		}
		laid++
		more := rapid.SampledFrom([]float64{0, 0, 400}).Draw(t, "more")
		counter := 0.0
		if more > 0 && l.CounterLength() > 0 {
			counter = l.CounterLength() + more
		}
		lengths, err := Lengths(l, counter)
		if err != nil {
			t.Fatal(err)
		}
		pieces, area := 0, 0.0
		for _, one := range lengths {
			pieces += len(one.Pieces)
			for _, r := range one.Pieces {
				area += plane.Area(r)
			}
			whole := one.Cloth
			whole.Pieces = one.Pieces[1:]
			if err := whole.judge([]Left{{Outline: one.Pieces[0]}}); err != nil {
				t.Fatalf("pieces of %q: %v", one.Name, err)
			}
			left, err := Of(one.Cloth)
			if err != nil {
				t.Fatal(err)
			}
			taken := slices.Clone(one.Pieces)
			for _, k := range left {
				taken = append(taken, k.OnCloth())
			}
			edges := one.Covered - one.Strip.Width*one.Strip.MaxLength
			b := BalanceOf(one.Cloth, left)
			if free := freeByLines(one.Strip, taken) + edges; math.Abs(free-b.Waste) > 1 || edges < -1 {
				t.Fatalf("waste is %v by the balance, %v by lines across, edges %v", b.Waste, free, edges)
			}
		}
		want := 0
		for _, p := range l.Task.Problem.Pieces {
			want += p.Count
		}
		if pieces != want || math.Abs(area-l.Task.Problem.Area()) > 1 {
			t.Fatalf("%d pieces of %v mm2 on the lengths, want %d of %v", pieces, area, want, l.Task.Problem.Area())
		}
	})
	if laid == 0 {
		t.Error("no job was laid")
	}
}

// A crosswise fold lies in the middle of what is bought: what goes beyond the marker is there, in one.
func TestBeyondACrosswiseFold(t *testing.T) {
	src := testjobs.Panelled("width = 50\nselvedge = 0\nnap = \"two-way\"\nboth_faces = true\nprice = \"10.00/m\"\n"+
		"sold_by = \"1 m\"\nlay = \"crosswise-fold\"\ngap = 0", [3]float64{30, 50, 2})
	laid, err := plan.Run(context.Background(), testjobs.Read(t, src), plan.Options{Effort: nest.Trial})
	if err != nil {
		t.Fatal(err)
	}
	lengths, err := Lengths(laid[0], 0)
	if err != nil {
		t.Fatal(err)
	}
	left, err := Of(lengths[0].Cloth)
	if err != nil {
		t.Fatal(err)
	}
	if len(left) != 1 || left[0].From[0] != 300 || left[0].Area() != 400*500 {
		t.Errorf("left %v, want 400 x 500 from 300 on", left)
	}
	if _, err := Lengths(laid[0], 590); err == nil {
		t.Error("a length is taken that is too short")
	}
}

// A leftover with an outline is cut, and what remains of it lies within it.
func TestWhatRemainsOfAnOutline(t *testing.T) {
	j := testjobs.Read(t, testjobs.Panelled("width = 120\nselvedge = 1\nprice = \"10.00/m\"", [3]float64{40, 30, 2}))
	task, err := plan.Tasks(j, 1)
	if err != nil {
		t.Fatal(err)
	}
	ring := orb.Ring{{0, 0}, {1500, 0}, {1500, 300}, {400, 300}, {400, 900}, {0, 600}, {0, 0}}
	task[0].Spread.Cloth.Have = []job.Have{{Name: "left", Length: 1500, Width: 900, Outline: ring}}
	l, err := plan.Do(context.Background(), task[0], plan.Options{Effort: nest.Quick}, nil)
	if err != nil {
		t.Fatal(err)
	}
	lengths, err := Lengths(l, 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(lengths) != 1 || !lengths[0].Shelf || lengths[0].Covered != plane.Area(ring) {
		t.Fatalf("cut from %v", lengths)
	}
	left, err := Of(lengths[0].Cloth)
	if err != nil {
		t.Fatal(err)
	}
	b := BalanceOf(lengths[0].Cloth, left)
	if b.Pieces != 2*400*300 || b.Kept < 700*300 || b.Waste < 0 {
		t.Errorf("balance %+v", b)
	}
}

// Whole bolts and a length cut besides are each cut by themselves: every piece from one of them.
func TestSeveralLengthsAreCut(t *testing.T) {
	for _, cloth := range []string{
		"", "ends = 1\nskew = 2\n", "shrinkage = { warp = \"-5 %\", weft = \"-2 %\", by = \"prewash\" }\n",
	} {
		src := testjobs.Panelled("width = 70\nselvedge = 1\n"+cloth+"sold_by = \"0.1 m\"\nprice = \"12.00/m\"\n"+
			"bolt = { length = \"1 m\", price = \"5.00\", in_stock = 2 }", [3]float64{40, 60, 6})
		laid, err := plan.Run(context.Background(), testjobs.Read(t, src), plan.Options{Effort: nest.Quick})
		if err != nil {
			t.Fatal(err)
		}
		lengths, err := Lengths(laid[0], 0)
		if err != nil {
			t.Fatal(err)
		}
		if len(lengths) != 3 || lengths[0].Name != "bolt 1" || lengths[2].Name != "cut" {
			t.Fatalf("cut from %d lengths, want two bolts and a cut", len(lengths))
		}
		pieces, bought := 0, 0.0
		for _, one := range lengths {
			pieces, bought = pieces+len(one.Pieces), bought+one.Bought
			whole := one.Cloth
			whole.Pieces = one.Pieces[1:]
			if err := whole.judge([]Left{{Outline: one.Pieces[0]}}); err != nil {
				t.Errorf("%s: %v", one.Name, err)
			}
			if _, err := Of(one.Cloth); err != nil {
				t.Errorf("%s: %v", one.Name, err)
			}
		}
		if pieces != 6 || math.Abs(bought-laid[0].Buy.Bought) > 1e-6 {
			t.Errorf("%d pieces of %v mm, want 6 of %v", pieces, bought, laid[0].Buy.Bought)
		}
	}
}
