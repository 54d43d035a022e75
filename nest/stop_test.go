package nest

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
)

// TestRowsWhenThereIsNoTime: a run that is over before it begins gives rows, which
// the judge accepts, on folds, repeats and flaws. It may refuse only for a limit of
// length in which the pieces one after the other do not fit either.
func TestRowsWhenThereIsNoTime(t *testing.T) {
	laid := 0
	rapid.Check(t, func(t *rapid.T) {
		lay := rapid.SampledFrom(lays).Draw(t, "lay")
		p := foldable(t, lay)
		stretches, err := Fold(p, lay, rapid.SampledFrom([]float64{0, 3.3, 10}).Draw(t, "selvedge"))
		if err != nil {
			return
		}
		ctx, o, status := context.Background(), Options{Time: 1}, OutOfTime
		if rapid.Bool().Draw(t, "cancelled") {
			cancelled, cancel := context.WithCancel(ctx)
			cancel()
			ctx, o, status = cancelled, Options{}, Stopped
		}
		for _, s := range stretches {
			r, err := Solve(ctx, s.Problem, o)
			if l := rows(t, s.Problem); err != nil &&
				(s.Problem.Strip.MaxLength == 0 || l.Length <= s.Problem.Strip.MaxLength) {
				t.Fatalf("%v of %v mm: %v", s.Lay, l.Length, err)
			} else if err != nil {
				continue
			}
			if err := Verify(s.Problem, r.Layout); err != nil {
				t.Fatalf("%v: %v", s.Lay, err)
			}
			if r.Status != status && r.Status != Proved {
				t.Fatalf("%v, want %v", r.Status, status)
			}
			laid++
		}
	})
	t.Logf("%d layouts", laid)
}

// fine draws outlines of very many corners: a comb of thin teeth, a rosette, a cog.
func fine(kind, corners int, size float64) orb.Ring {
	var out orb.Ring
	switch kind {
	case 0:
		teeth := (corners - 3) / 4
		step := size / float64(teeth)
		for i := range teeth {
			x := float64(i) * step
			out = append(out, orb.Point{x, size / 2}, orb.Point{x, 0}, orb.Point{x + step/2, 0},
				orb.Point{x + step/2, size / 2})
		}
		out = append(out, orb.Point{size, size / 2}, orb.Point{size, size * 0.6}, orb.Point{0, size * 0.6})
	default:
		for i := range corners {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
			r := size / 2
			if kind == 1 {
				r *= 0.8 + 0.2*math.Cos(12*2*math.Pi*float64(i)/float64(corners))
			} else if i%2 == 0 {
				r *= 0.7
			}
			out = append(out, orb.Point{size/2 + r*cos, size/2 + r*sin})
		}
	}
	return append(out, out[0])
}

// heavy lists problems that take long at one stage or another.
func heavy() map[string]Problem {
	tilted := []float64{0, 2, 1, -1, -2, 90, 92, 91, 89, 88, 180, 182, 181, 179, 178, 270, 272, 271, 269, 268}
	all := map[string]Problem{}
	p := Problem{Strip: Strip{Width: 1400}, Gap: 3}
	p.Pieces = []Piece{{Name: "comb", Outline: fine(0, 603, 300), Count: 8, Turns: []float64{0, 180}}}
	all["one comb of 603 corners, 8 times"] = p
	p.Pieces = nil
	for i := range 4 {
		p.Pieces = append(p.Pieces, Piece{Name: fmt.Sprint("comb ", i), Outline: fine(0, 603, 300+20*float64(i)),
			Count: 4, Turns: []float64{0, 180}})
	}
	all["four combs of 603 corners"] = p
	p.Pieces = nil
	for i := range 3 {
		p.Pieces = append(p.Pieces, Piece{Name: fmt.Sprint("fine ", i), Outline: fine(i, 1500, 250), Count: 60,
			Turns: []float64{0, 180}})
	}
	all["outlines of 1,500 corners, 180 pieces"] = p
	p.Pieces = nil
	for i := range 40 {
		p.Pieces = append(p.Pieces, Piece{Name: fmt.Sprint("petal ", i), Outline: fine(1, 150+i, 200+9*float64(i)),
			Count: 1, Turns: tilted})
	}
	all["40 curved outlines in 20 ways"] = p
	r := rand.New(rand.NewPCG(1, 1))
	p.Pieces = nil
	for i := range 3000 {
		p.Pieces = append(p.Pieces,
			Piece{Name: fmt.Sprint("slip ", i), Outline: rect(0, 0, 10+float64(r.IntN(90)), 10+float64(r.IntN(90))),
				Count: 1, Turns: []float64{0, 90}})
	}
	all["3,000 different rectangles"] = p
	p.Pieces = []Piece{{Name: "slip", Outline: rect(0, 0, 60, 40), Count: 3000, Turns: []float64{0, 90}}}
	all["3,000 rectangles alike"] = p
	return all
}

// heavyBut leaves some of them out by hand, those that another test takes.
func heavyBut(names ...string) map[string]Problem {
	all := heavy()
	for _, name := range often.Full(names, nil) {
		delete(all, name)
	}
	return all
}

// TestCancelledAnswersSoon: cancelled at any moment, a problem that takes long is
// answered soon, by a layout that stands. 0.3 s is promised, of two processors; what was measured is
// printed.
func TestCancelledAnswersSoon(t *testing.T) {
	const limit = slowdown * 4 * time.Second
	for name, p := range heavyBut("four combs of 603 corners", "40 curved outlines in 20 ways", "3,000 rectangles alike") {
		t.Run(name, func(t *testing.T) {
			worst := time.Duration(0)
			r := rand.New(rand.NewPCG(7, 7))
			for k := range 2 {
				after := time.Duration(float64(k*k) * (0.5 + r.Float64()) * float64(60*time.Millisecond))
				ctx, cancel := context.WithCancel(context.Background())
				var at time.Duration
				time.AfterFunc(after, func() { at = processor.Time(); cancel() })
				got, err := Solve(ctx, p, Options{Effort: Endless})
				if err != nil {
					t.Fatalf("cancelled after %v: %v", after, err)
				}
				took := processor.Time() - at
				if processor.Exceeds(took, limit) {
					t.Errorf("cancelled after %v: answered %v later", after, took)
				}
				worst = max(worst, took)
				if err := Verify(p, got.Layout); err != nil {
					t.Fatalf("cancelled after %v: %v", after, err)
				}
			}
			t.Logf("%s: answered within %v", name, worst)
		})
	}
}

// TestTimeCoversEverything: the ceiling holds for problems that take longer to make
// ready than that.
func TestTimeCoversEverything(t *testing.T) {
	for name, p := range heavyBut("one comb of 603 corners, 8 times", "outlines of 1,500 corners, 180 pieces",
		"3,000 different rectangles") {
		t.Run(name, func(t *testing.T) {
			began := processor.Time()
			r, err := Solve(context.Background(), p, Options{Effort: Endless, Time: 100 * time.Millisecond})
			if err != nil {
				t.Fatal(err)
			}
			took := processor.Time() - began
			if processor.Exceeds(took, slowdown*5*time.Second) {
				t.Errorf("0.1 s took %v of processor time", took)
			}
			t.Logf("0.1 s took %v of processor time, first layout after %v, %.1f %% filled", took, r.Stats.First,
				100*r.Utilisation)
			if err := Verify(p, r.Layout); err != nil {
				t.Fatal(err)
			}
		})
	}
}

// TestLimitsAreNamed: what would take too long is refused, and the refusal names
// the limit.
func TestLimitsAreNamed(t *testing.T) {
	p := Problem{Strip: Strip{Width: 1400},
		Pieces: []Piece{{Name: "lace", Outline: fine(1, MostCorners+1, 300), Count: 1}}}
	if err := p.Check(); err == nil || !strings.Contains(err.Error(), "5001 corners, at most 5000") {
		t.Errorf("a corner too many: %v", err)
	}
	p.Pieces = []Piece{{Name: "slip", Outline: rect(0, 0, 9, 9), Count: MostPieces},
		{Name: "one more", Outline: rect(0, 0, 9, 9), Count: 1}}
	if err := p.Check(); err == nil || !strings.Contains(err.Error(), `more than 10000 pieces with "one more"`) {
		t.Errorf("a piece too many: %v", err)
	}
}

// TestLargeLotsTakeLittle: lots of thousands of pieces are laid in a few seconds and
// little memory.
func TestLargeLotsTakeLittle(t *testing.T) {
	all := heavy()
	for _, name := range often.Full([]string{"3,000 different rectangles"},
		[]string{"3,000 different rectangles", "3,000 rectangles alike"}) {
		p := all[name]
		began := time.Now()
		r, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		t.Logf("%s: %v, %.1f %% filled, %d MB", name, time.Since(began), 100*r.Utilisation, m.Sys/1e6)
		if err := Verify(p, r.Layout); err != nil {
			t.Fatal(err)
		}
		if m.Sys > 500e6 || r.Utilisation < 0.8 {
			t.Errorf("%s: %d MB, %.1f %% filled", name, m.Sys/1e6, 100*r.Utilisation)
		}
	}
}

// TestProgressFromTheFirstMoment: it says that it prepares before anything is done,
// then how many pieces are laid, then how long the layout is.
func TestProgressFromTheFirstMoment(t *testing.T) {
	p, corners := Problem{Strip: Strip{Width: 1400}, Gap: 3}, often.Full(50, 100)
	for i := range 6 {
		p.Pieces = append(p.Pieces, Piece{Name: fmt.Sprint("petal ", i), Outline: fine(1, corners+i, 200+9*float64(i)),
			Count: 2, Turns: []float64{0, 180}})
	}
	var told []Progress
	if _, err := Solve(context.Background(), p,
		Options{Effort: Trial, Progress: func(now Progress) { told = append(told, now) }}); err != nil {
		t.Fatal(err)
	}
	if told[0].Phase != "preparing" || told[0].Length != 0 {
		t.Errorf("it begins with %+v", told[0])
	}
	seen := map[string]bool{}
	for _, now := range told {
		seen[now.Phase] = true
		if now.Phase == "first layout" && (now.Laid < 1 || now.Laid > now.Pieces || now.Pieces != 12) {
			t.Errorf("%+v", now)
		}
	}
	if !seen["first layout"] || !seen["exploring"] || told[len(told)-1].Length == 0 {
		t.Errorf("phases %v, at last %+v", seen, told[len(told)-1])
	}
}
