package cost

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// A maker's own settings: 4 min a metre of seam, 3 of hem, 6.5 of gathering,
// 10 min a piece. Seam 32.5 m: 130; hem 7.1 m: 21.3; gathered 24 m: 156; 18
// pieces: 180. Together 487.3 min = 8.12 h, so 8.25 h.
func TestHoursByRates(t *testing.T) {
	rates := Rates{Seam: Whole(4), Hem: Whole(3), Gathered: 65_000, Piece: Whole(10)}
	hours, steps, err := rates.Hours(Work{32_500, 7_100, 24_000, 18})
	want := []Step{{"seams", Whole(130)}, {"hems", 213_000}, {"gathering", Whole(156)}, {"pieces", Whole(180)}}
	if diff := cmp.Diff(want, steps); err != nil || hours != 82_500 || diff != "" {
		t.Errorf("%v h, %v\n%s", hours, err, diff)
	}
	for _, tt := range []struct {
		seam float64 // mm at 1 min a metre
		want string
	}{{0, "0"}, {1, "0"}, {20, "0.25"}, {15_000, "0.25"}, {15_000.0000001, "0.25"}, {15_016, "0.25"}, {15_017, "0.5"},
		{60_000, "1"}, {60_100, "1.25"}} {
		hours, _, err := Rates{Seam: one}.Hours(Work{Seam: tt.seam})
		if err != nil || hours.String() != tt.want {
			t.Errorf("%v mm at a minute a metre: %v h, %v; want %s", tt.seam, hours, err, tt.want)
		}
	}
}

func TestHoursRefused(t *testing.T) {
	for _, tt := range []struct {
		why   string
		rates Rates
		work  Work
	}{
		{"seams: -1 is negative", Rates{Seam: -one}, Work{}},
		{"pieces: -1 is negative", Rates{Piece: -one}, Work{}},
		{"hems of -1 mm", Rates{}, Work{Hem: -1}},
		{"-1 pieces", Rates{}, Work{Pieces: -1}},
		{"too large", Rates{Seam: 1 << 62}, Work{Seam: longestSum}},
	} {
		if h, _, err := tt.rates.Hours(tt.work); err == nil || !strings.Contains(err.Error(), tt.why) {
			t.Errorf("%v h, %v; want an error with %q", h, err, tt.why)
		}
	}
}

func TestLabourLines(t *testing.T) {
	l := Labour{Hours: 225_000, Fittings: 3, PerFitting: 7_500, Rate: usd(2400)}
	got, err := l.Lines("USD")
	want := []Line{
		{"making", usd(54000), KindLabour, "22.5 h at 24.00 USD/h"},
		{"fittings", usd(5400), KindLabour, "3 of 0.75 h at 24.00 USD/h"},
	}
	if diff := cmp.Diff(want, got); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
	if lines, err := (Labour{Fittings: 2}).Lines("USD"); lines != nil || err != nil {
		t.Errorf("fittings of no time: %v, %v", lines, err)
	}
	for why, l := range map[string]Labour{
		"hours: -0.5 is negative":           {Hours: -5000, Rate: usd(1)},
		"hours per fitting: -1 is negative": {Fittings: 1, PerFitting: -one, Rate: usd(1)},
		"fittings: -1 is negative":          {Fittings: -1},
		"need a rate per hour":              {Hours: one},
		"24.00 EUR is not in USD":           {Hours: one, Rate: Money{2400, "EUR"}},
		"labour: the price -0.01 USD":       {Hours: one, Rate: usd(-1)},
	} {
		if lines, err := l.Lines("USD"); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%+v: %v, %v; want an error with %q", l, lines, err, why)
		}
	}
}

// Hours are whole quarters, hold the work but for the second left out, waste
// less than a quarter, and do not fall when there is more to do.
func TestHoursProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := func(name string) Decimal { return Decimal(rapid.Int64Range(0, 300_000).Draw(t, name)) }
		length := func(name string) float64 { return rapid.Float64Range(0, 2e5).Draw(t, name) }
		r := Rates{rate("seam rate"), rate("hem rate"), rate("gathering rate"), rate("piece rate")}
		w := Work{length("seam"), length("hem"), length("gathered"), rapid.IntRange(0, 60).Draw(t, "pieces")}
		minutes := (w.Seam*float64(r.Seam)+w.Hem*float64(r.Hem)+w.Gathered*float64(r.Gathered))/(1000*one) +
			float64(w.Pieces)*float64(r.Piece)/one
		hours, _, err := r.Hours(w)
		paid := float64(hours) / one * 60
		if err != nil || hours%2500 != 0 || paid < minutes-1.0/60-1e-6 || paid >= minutes+15 {
			t.Fatalf("%v min are %v h, %v", minutes, hours, err)
		}
		w.Seam += length("more")
		if more, _, err := r.Hours(w); err != nil || more < hours {
			t.Fatalf("more work takes %v h after %v h, %v", more, hours, err)
		}
	})
}

// What work is worth is what its hours cost, but for their rounding up to the quarter hour, from which a second is left
// out. By hand: 10 m of seam at 6 minutes and 4 pieces at 3 are 72 minutes, at 24.00 an hour 28.80.
func TestWorthOfWork(t *testing.T) {
	rates := Rates{Seam: Whole(6), Piece: Whole(3)}
	if got, err := rates.Worth(Work{Seam: 10_000, Pieces: 4}, usd(2400)); err != nil || got != usd(2880) {
		t.Errorf("%v, %v", got, err)
	}
	if _, err := rates.Worth(Work{Seam: math.NaN()}, usd(2400)); err == nil {
		t.Error("a length that is none is taken")
	}
	rapid.Check(t, func(t *rapid.T) {
		rate := func(label string) Decimal { return Decimal(rapid.Int64Range(0, 600_000).Draw(t, label)) }
		r := Rates{rate("seam"), rate("hem"), rate("gathered"), rate("piece")}
		mm := func(label string) float64 { return rapid.Float64Range(0, 1e5).Draw(t, label) }
		w := Work{mm("seams"), mm("hems"), mm("gathering"), rapid.IntRange(0, 99).Draw(t, "pieces")}
		hour := usd(rapid.Int64Range(0, 9999).Draw(t, "hour"))
		worth, err := r.Worth(w, hour)
		if err != nil {
			t.Fatal(err)
		}
		hours, _, err := r.Hours(w)
		if err != nil {
			t.Fatal(err)
		}
		quarters := new(big.Rat).Mul(hours.Rat(), big.NewRat(hour.Minor, 1))
		quarter, off := big.NewRat(hour.Minor, 4), big.NewRat(1+hour.Minor/3600, 1)
		if short := new(big.Rat).Sub(quarters, big.NewRat(worth.Minor, 1)); short.Cmp(new(big.Rat).Neg(off)) < 0 ||
			short.Cmp(new(big.Rat).Add(quarter, off)) > 0 {
			t.Fatalf("%v for %v hours at %v", worth, hours, hour)
		}
	})
}
