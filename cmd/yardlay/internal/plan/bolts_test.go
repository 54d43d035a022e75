package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// Slats as wide as the cloth, one behind the other with a gap between: what bolts cost that
// hold them, by every set of bolts, is never less than what a marker of them is said to cost.
// Between what is cut from two bolts there is no gap.
func TestLeastCostAgainstSlats(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	met := 0
	for range 60 {
		long, gap, count := 10+r.IntN(90), r.IntN(4), 1+r.IntN(6) // cm
		var bolts string
		holds, price := [2]int{}, [2]int{}
		for i := range holds {
			of := 1 + r.IntN(3)
			holds[i], price[i] = of, 5+r.IntN(20)
			bolts += fmt.Sprintf(`{ length = "%d cm", price = "%d" }, `, of*long+(of-1)*gap+r.IntN(2)*long/2, price[i])
		}
		offer := fmt.Sprintf("gap = %d\nprice = \"1/m\"\nwhole_bolts = true\nbolt = [ %s ]", gap, bolts)
		task := onlyTask(t, strings.Replace(panel(offer, ""), "length = 100", fmt.Sprintf("length = %d", long), 1))
		want := math.MaxInt
		for a := range count + 1 {
			for b := range count + 1 {
				if a*holds[0]+b*holds[1] >= count {
					want = min(want, 100*(a*price[0]+b*price[1]))
				}
			}
		}
		got := task.leastCost(float64(10 * (count*long + (count-1)*gap)))
		if got > int64(want) {
			t.Fatalf("%d slats of %d cm, %d apart, on bolts of [ %s]: at least %d, and %d is enough", count, long, gap,
				bolts, got, want)
		}
		if got == int64(want) {
			met++
		}
	}
	if met < 20 {
		t.Errorf("the least cost is met in only %d of 60", met)
	}
}

// A cloth sold by another offer is the task that a job with that offer has, and is refused
// for what that job is refused for.
func TestTasksOfOtherOffers(t *testing.T) {
	const counter, bolts = "price = \"2/m\"", "price = \"2/m\"\nbolt = { length = \"3 m\", price = \"5\" }"
	const short = "bolt = { length = \"0.9 m\", price = \"5\" }\nwhole_bolts = true"
	for _, repeat := range []string{"", "repeat = { along = 20 }\n"} {
		for _, from := range []string{counter, bolts} {
			for _, to := range []string{counter, bolts, short} {
				j := testjobs.Read(t, panel(repeat+to, "times = 3"))
				sold, err := onlyTask(t, panel(repeat+from, "times = 3")).SoldBy(j, j.Cloths[0].Offer)
				tasks, refused := Tasks(j, 1)
				if (err == nil) != (refused == nil) || err != nil && err.Error() != refused.Error() {
					t.Errorf("%q sold by %q: %v, and the job is refused as %v", from, to, err, refused)
				} else if err == nil && sold.Key() != tasks[0].Key() {
					t.Errorf("%q sold by %q is another task", from, to)
				}
			}
		}
	}
}

// Slats from a leftover, from bolts and from the counter: what is paid is no less than the
// best way costs, and what is said to be the least no more.
func TestLeastCostBesideLeftovers(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 5))
	met, proved := 0, 0
	jobs := often.Full(4, 10)
	for range jobs {
		long, gap, count, held := 10+r.IntN(60), r.IntN(5), 2+r.IntN(3), 1+r.IntN(2) // cm
		of, price, perCM := 1+r.IntN(3), 5+r.IntN(30), 1+r.IntN(3)
		src := fmt.Sprintf("gap = %d\nprice = \"%d.00/m\"\nsold_by = \"1 cm\"\nbolt = { length = \"%d cm\", price = "+
			"\"%d\" }\n"+
			"have = [ { length = \"%d cm\" } ]", gap, perCM*100, of*long+(of-1)*gap, price*10,
			held*long+(held-1)*gap+r.IntN(long))
		src = strings.NewReplacer("length = 100", fmt.Sprintf("length = %d", long), "width = 40", "width = 140").
			Replace(panel(src, fmt.Sprintf("times = %d\nkeep = \"piece\"", count)))
		best := math.MaxInt
		for bolts := range count + 1 {
			cost := 1000 * price * bolts
			if cut := count - held - bolts*of; cut > 0 {
				cost += 100 * perCM * (cut*long + (cut-1)*gap)
			}
			best = min(best, cost)
		}
		laid, err := Do(t.Context(), onlyTask(t, src), Options{Effort: nest.Trial, Workers: 1}, nil)
		if err != nil {
			t.Fatal(err, src)
		}
		paid, least := int(laid.Buy.Cost.Minor), int(laid.LeastCost().Minor)
		if least > best || paid < best {
			t.Errorf("%d is paid and %d the least, the best way costs %d\n%s", paid, least, best, src)
		}
		if paid == best {
			met++
		}
		if least == best {
			proved++
		}
	}
	if met < jobs*3/4 || proved < jobs/3 {
		t.Errorf("of %d the best way was found in %d, and proved in %d", jobs, met, proved)
	}
}
