package outline

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

// worstDrawings are as large as a drawing may be, each bad for another step.
func worstDrawings() map[string]func() Drawing {
	rng := rand.New(rand.NewPCG(1, 2))
	random := func() orb.Point { return orb.Point{rng.Float64() * 20_000, rng.Float64() * 20_000} }
	of := func(lines ...orb.LineString) Drawing {
		d := Drawing{Unit: Unit{Millimetres: 1}}
		for _, l := range lines {
			d.Lines = append(d.Lines, Line{Points: l, Corners: []int{0, len(l) - 1}, Closed: len(l) > 2 && l[0] == l[len(l)-1],
				Place: "line"})
		}
		return d
	}
	many := func(n int, line func(i int) orb.LineString) func() Drawing {
		return func() Drawing {
			all := make([]orb.LineString, n)
			for i := range all {
				all[i] = line(i)
			}
			return of(all...)
		}
	}
	square := func(x, y, w float64) orb.LineString {
		return orb.LineString{{x, y}, {x + w, y}, {x + w, y + w}, {x, y + w}, {x, y}}
	}
	around := func(i, n int, r float64) orb.Point {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		return orb.Point{r * cos, r * sin}
	}
	return map[string]func() Drawing{
		"lines anywhere": many(250_000, func(int) orb.LineString { return orb.LineString{random(), random()} }),
		"short lines": many(250_000, func(int) orb.LineString {
			p := random()
			return orb.LineString{p, {p[0] + 3, p[1] + 1}}
		}),
		"a circle of short lines": many(250_000, func(i int) orb.LineString {
			return orb.LineString{around(i, 250_000, 5000), around(i+1, 250_000, 5000)}
		}),
		"a star of lines": many(250_000, func(i int) orb.LineString { return orb.LineString{{}, around(i, 250_000, 5000)} }),
		"ends within the tolerance": many(250_000, func(i int) orb.LineString {
			return orb.LineString{{rng.Float64(), rng.Float64()}, around(i, 250_000, 5000)}
		}),
		"a hatch": many(250_000, func(i int) orb.LineString {
			k := i / 2
			x, y := float64(k%450)*40, float64(k/450)*40
			if i%2 == 0 {
				return orb.LineString{{x, y}, {x + 40, y}}
			}
			return orb.LineString{{x, y}, {x, y + 40}}
		}),
		"squares": many(200_000, func(i int) orb.LineString { return square(float64(i%450)*40, float64(i/450)*40, 18) }),
		"nested squares and marks": many(180_000, func(i int) orb.LineString {
			if i < 3900 {
				return square(float64(i), float64(i), 20_000-2*float64(i))
			}
			return square(float64(i%400)*20, 9000+float64(i/400), 3)
		}),
		"one zigzag": func() Drawing {
			line := make(orb.LineString, 0, 1_000_000)
			for i := range 999_997 {
				line = append(line, orb.Point{float64(i) / 100, 100 + float64(i%2)*10_000})
			}
			return of(append(line, orb.Point{10_000, 0}, orb.Point{}, line[0]))
		},
		"many zigzags": func() Drawing {
			var all []orb.LineString
			for k := range 200 {
				var line orb.LineString
				for i := range 4_900 {
					line = append(line, orb.Point{float64(i), float64(k)*100 + 10 + float64(i%2)*80})
				}
				all = append(all, append(line, orb.Point{4900, float64(k)*100 + 1}, orb.Point{0, float64(k)*100 + 1}, line[0]))
			}
			return of(all...)
		},
		"a piece and its notches": func() Drawing {
			all := []orb.LineString{nil}
			for i := range 5000 {
				all[0] = append(all[0], around(i, 5000, 5000))
			}
			all[0] = append(all[0], all[0][0])
			for i := range 400_000 {
				all = append(all, orb.LineString{around(i, 400_000, 5000), around(i, 400_000, 4990)})
			}
			return of(all...)
		},
		"points": func() Drawing {
			d := of(square(0, 0, 20_000))
			for range 900_000 {
				d.Points = append(d.Points, Point{At: random(), Place: "line"})
			}
			return d
		},
		"texts": func() Drawing {
			d := of(square(0, 0, 20_000))
			for range 300_000 {
				d.Texts = append(d.Texts, Text{At: random(), Text: "cut 2"})
			}
			return d
		},
	}
}

// The worst drawings within the limits are read, or refused, within about a second and 500 MB.
// Processor time counts; more is allowed for slower machines.
func TestWorstAssembliesEndSoon(t *testing.T) {
	if os.Getenv("YARDLAY_LONG") == "" {
		t.Skip("set YARDLAY_LONG=1 to assemble the worst drawings")
	}
	for name, make := range worstDrawings() {
		t.Run(name, func(t *testing.T) {
			d := make()
			var a Assembly
			var err error
			staysWithin(t, 3*time.Second, 900<<20, func() { a, err = Assemble(d, Options{}) })
			t.Logf("%d shapes, %d faults, %v", len(a.Shapes), len(a.Faults), err)
		})
	}
}
