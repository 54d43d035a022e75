package cost

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// atCounter is what a cut of so many whole steps costs, in minor units, by the price that
// holds for its length: the lowest of which the cut is long enough.
func atCounter(o Offer, steps int64) int64 {
	length := new(big.Rat).Mul(o.CutStep(), big.NewRat(steps, 1))
	price := o.Price
	for _, b := range o.Breaks {
		from := ceil(new(big.Rat).Quo(exact(b.From), o.CutStep()))
		if from.Cmp(big.NewInt(steps)) <= 0 {
			price = b.Price
		}
	}
	length.Quo(length, o.Per.Exact())
	return halfAway(length.Mul(length, big.NewRat(price.Minor, 1))).Int64()
}

// sold draws how a cloth is sold at a counter with breaks, and by the bolt.
func sold(t *rapid.T) Offer {
	o := Offer{Price: usd(rapid.Int64Range(400, 2000).Draw(t, "price")),
		Per: rapid.SampledFrom([]measure.Unit{measure.Yard, measure.Metre}).Draw(t, "per")}
	if rapid.Bool().Draw(t, "whole") {
		o.Step = new(big.Rat).Set(o.Per.Exact())
	}
	from, price := 0.0, o.Price.Minor
	for range rapid.IntRange(0, 2).Draw(t, "breaks") {
		from += rapid.Float64Range(500, 4000).Draw(t, "from")
		price -= rapid.Int64Range(1, 150).Draw(t, "less")
		o.Breaks = append(o.Breaks, Break{From: from, Price: usd(price)})
	}
	if rapid.Bool().Draw(t, "bolts") {
		o.Bolt = &Bolt{Length: 5000, Price: usd(rapid.Int64Range(900, 9000).Draw(t, "bolt"))}
	}
	return o
}

// Longer cuts of a purchase, by hand: the same bolts, the cut longer by whole steps each
// time, priced as the counter prices that length, none dearer than it may be; every length
// that no longer one undercuts is there until that is reached.
func TestLongerCutsByHand(t *testing.T) {
	listed := 0
	rapid.Check(t, func(t *rapid.T) {
		o := sold(t)
		p, err := o.Buy(rapid.Float64Range(300, 12_000).Draw(t, "used"))
		if err != nil {
			t.Fatal(err)
		}
		dearer := usd(rapid.Int64Range(0, 1500).Draw(t, "dearer"))
		all := o.Longer(p, dearer)
		last := len(p.Parts) - 1
		if p.Parts[last].Bolt {
			if all != nil {
				t.Fatalf("without a cut: %+v", all)
			}
			return
		}
		step := nearest(o.CutStep())
		stepsOf := func(p Purchase) int64 { return int64(math.Round(p.Parts[last].Length / step)) }
		was := p
		for _, q := range all {
			n := stepsOf(q)
			bolts := int64(0)
			for i, part := range q.Parts[:last] {
				if part != p.Parts[i] {
					t.Fatalf("other bolts: %+v, at first %+v", q, p)
				}
				bolts += part.Cost.Minor
			}
			cut := q.Parts[last]
			switch {
			case n <= stepsOf(was) || math.Abs(float64(n)*step-cut.Length) > 1e-6:
				t.Fatalf("a cut of %v behind one of %v", cut.Length, was.Parts[last].Length)
			case cut.Cost.Minor != atCounter(o, n) || q.Cost.Minor != bolts+cut.Cost.Minor:
				t.Fatalf("%d steps cost %v of %v, want %d", n, cut.Cost, q.Cost, atCounter(o, n))
			case q.Cost.Minor > p.Cost.Minor+dearer.Minor || q.Cost.Minor < was.Cost.Minor:
				t.Fatalf("%v behind %v, at most %v dearer than %v", q.Cost, was.Cost, dearer, p.Cost)
			case q.Used != p.Used || math.Abs(q.Bought-p.Bought-cut.Length+p.Parts[last].Length) > 1e-6 ||
				math.Abs(q.Leftover-max(0, q.Bought-q.Used)) > 1e-9 || q.Saved.Minor != 0 || q.Reason != "":
				t.Fatalf("%+v made longer is %+v", p, q)
			}
			for between := stepsOf(was) + 1; between < n; between++ { // passed over: a longer one costs less
				if atCounter(o, between) < cut.Cost.Minor {
					t.Fatalf("%d steps at %d are left out before %d at %v", between, atCounter(o, between), n, cut.Cost)
				}
			}
			was, listed = q, listed+1
		}
		if next := stepsOf(was) + 1; len(all) < mostLonger {
			least := atCounter(o, next)
			for n := next; n < next+60; n++ {
				least = min(least, atCounter(o, n))
			}
			if was.Cost.Minor-was.Parts[last].Cost.Minor+least <= p.Cost.Minor+dearer.Minor {
				t.Fatalf("it ends at %d steps, and one more costs %d", stepsOf(was), least)
			}
		}
	})
	if listed < 50 {
		t.Errorf("only %d longer cuts", listed)
	}
}

// A price by its definition, in exact numbers: cost, markup, margin or doubled; the margin
// is its share of the price, the markup its share of the cost; every price is rounded once.
func TestPricesByTheirDefinition(t *testing.T) {
	half := big.NewRat(1, 2)
	rapid.Check(t, func(t *rapid.T) {
		cost := usd(rapid.Int64Range(0, 1e9).Draw(t, "cost"))
		percent := Decimal(rapid.Int64Range(0, 99*one).Draw(t, "percent"))
		how := Pricing(rapid.IntRange(0, 3).Draw(t, "pricing"))
		if how == AtCost || how == Doubled {
			percent = 0
		}
		price, err := how.price(cost, percent)
		if err != nil {
			t.Fatal(err)
		}
		c, p := new(big.Rat).SetInt64(cost.Minor), new(big.Rat).SetInt64(price.Minor)
		share := new(big.Rat).Quo(percent.Rat(), big.NewRat(100, 1))
		off := new(big.Rat) // of the price from the exact one
		switch profit := new(big.Rat).Sub(p, c); how {
		case AtCost:
			off.Set(profit)
		case Markup:
			off.Sub(profit, share.Mul(share, c))
		case Margin: // profit = share x price, with the price that is not rounded
			keep := new(big.Rat).Sub(big.NewRat(1, 1), share)
			off.Sub(p, c.Quo(c, keep))
		case Doubled:
			off.Sub(profit, c)
		}
		if off.Abs(off).Cmp(half) > 0 {
			t.Fatalf("%v at %v of %v %% is priced %v, off by %v cents", cost, how, percent, price, off.FloatString(3))
		}
		if again, _ := how.price(price, percent); again.Minor < price.Minor {
			t.Fatalf("priced again %v is less than %v", again, price)
		}
	})
	for _, bad := range []struct {
		how     Pricing
		percent Decimal
	}{{AtCost, 1}, {Doubled, Whole(5)}, {Margin, Whole(100)}, {Markup, -1}, {Margin, -1}, {Pricing(7), 0}, {-1, 0}} {
		if price, err := bad.how.price(usd(100), bad.percent); err == nil {
			t.Errorf("%v of %v %% prices 1.00 at %v", bad.how, bad.percent, price)
		}
	}
}

// Rounding to steps, to the nearest or up, against whole numbers: the step nearest, a half
// away from zero, or the least one not below.
func TestStepsOfMoney(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minor := rapid.Int64Range(-5000, 5000).Draw(t, "minor")
		step := rapid.Int64Range(1, 700).Draw(t, "step")
		nearest, err := usd(minor).toSteps(big.NewInt(step), false)
		up, bad := usd(minor).toSteps(big.NewInt(step), true)
		if err != nil || bad != nil {
			t.Fatal(err, bad)
		}
		off := max(nearest.Minor-minor, minor-nearest.Minor)
		if nearest.Minor%step != 0 || 2*off > step || 2*off == step && (nearest.Minor > minor) != (minor > 0) {
			t.Fatalf("%d to steps of %d is %d", minor, step, nearest.Minor)
		}
		if up.Minor%step != 0 || up.Minor < minor || up.Minor >= minor+step {
			t.Fatalf("%d up to steps of %d is %d", minor, step, up.Minor)
		}
	})
}
