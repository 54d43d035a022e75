package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// trainSkirts are skirts of the same girths, one cut from a circle.
func trainSkirts() map[string]Draft {
	c := circleSkirt(0.5, 28, 42, 8)
	c.Opening, c.Allowance = true, shapes.Allowance{Seam: 15, Waist: 10, Hem: 20}
	g := fiveGores()
	g.Gores, g.FrontHem, g.HemSweep = 7, 9*inch, 120*inch
	trumpet := g
	trumpet.FlareFrom = 20 * inch
	onFold := c
	onFold.FrontOnFold = true
	return map[string]Draft{"circle": c, "gored": g, "trumpet": trumpet, "circle, front on fold": onFold}
}

// A train of 30 in: the centre back is longer by 30 in, every further seam by
// half a wave of the cosine over the girth, 30 (1 + cos(pi k/n))/2 in (plain
// geometry): with three gores a side 30, 22.5, 7.5 and 0 in.
func TestTrainLengths(t *testing.T) {
	for name, skirt := range trainSkirts() {
		train := Train{Skirt: skirt, Behind: 30 * inch, BackGores: 3}
		steps := checkJoins(t, train)
		plain := checkJoins(t, skirt)
		for k, want := range []float64{30, 22.5, 7.5, 0} {
			inches(t, name+": seam longer by", steps[k].FinishedA-plain[k].FinishedA, want)
		}
	}
}

// The hem is smooth: at each seam of the train it meets both gores at angles that
// add up to half a turn, and the centre back squarely.
func TestTrainHemIsSmooth(t *testing.T) {
	for name, skirt := range trainSkirts() {
		if c, ok := skirt.(CircleSkirt); ok {
			c.Chord = 0.001
			skirt = c
		}
		if g, ok := skirt.(GoredSkirt); ok {
			g.Chord = 0.001
			skirt = g
		}
		pieces := mustDraft(t, Train{Skirt: skirt, Behind: 900, BackGores: 3})
		before := math.Pi / 2 // from seam to hem of the gore behind, on the other side of the seam
		for i := range 4 {
			lower, hem, upper := pieces[i].Edges[0].Line, pieces[i].Edges[1].Line, pieces[i].Edges[2].Line
			back := insideAngle(hem[len(hem)-2], upper[0], upper[1])
			near(t, name+": "+pieces[i].Name+", angles at its back seam", before+back, math.Pi, 0.01)
			before = insideAngle(lower[len(lower)-2], hem[0], hem[1])
		}
	}
}

// insideAngle returns the angle at b between a and c.
func insideAngle(a, b, c orb.Point) float64 { return math.Pi - math.Abs(turnAt(a, b, c)) }

// The train adds what lies between the skirt's hem and its own: in each gore the
// integral of (r^2 - R^2)/2 over the angle, here by a sum of ten thousand slices.
func TestTrainArea(t *testing.T) {
	skirt := trainSkirts()["circle"].(CircleSkirt)
	skirt.Chord, skirt.Allowance = 0.001, shapes.Allowance{}
	train := Train{Skirt: skirt, Behind: 900, BackGores: 2}
	plain, long := mustDraft(t, skirt), mustDraft(t, train)
	_, hem := skirt.Radii()
	angle := 2 * math.Pi * skirt.Fraction / 8
	for i := range plain {
		want := 0.0
		for k := range 10_000 {
			u := (float64(i) + (float64(k)+0.5)/10_000) / 2
			if u >= 1 {
				break
			}
			r := hem + 900*(1+math.Cos(math.Pi*u))/2
			want += (r*r - hem*hem) / 2 * angle / 10_000
		}
		near(t, plain[i].Name+" area added", long[i].Area()-plain[i].Area(), want, 30)
	}
}

func TestTrainProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGored(t)
		g.HemSweep, g.Gores = max(g.HemSweep, 1.3*g.Hip), min(g.Gores, 8)
		g.Chord = 0.5
		if g.FlareFrom > 0 {
			g.HemRaise = 0
		}
		train := Train{Skirt: g, Behind: rapid.Float64Range(20, 1500).Draw(t, "behind"),
			BackGores: rapid.IntRange(0, g.Gores/2).Draw(t, "back gores")}
		pieces, err := piecesOf(train)
		if err != nil {
			t.Skip(err)
		}
		checkJoins(t, train)
		for _, p := range pieces {
			soundGore(t, p)
		}
		total := func(d Train) (sum float64) {
			pieces, err := piecesOf(d)
			if err != nil {
				t.Skip(err)
			}
			for _, p := range pieces {
				sum += float64(p.Count) * plane.Area(p.Seam)
			}
			return sum
		}
		longer, lining := train, train
		longer.Behind += 20
		raised := g
		raised.HemRaise += 10
		lining.Skirt = raised
		if was := total(train); total(longer) <= was || total(lining) >= was {
			t.Errorf("area %.0f; 20 mm longer behind %.0f, raised %.0f", was, total(longer), total(lining))
		}
	})
}

func TestTrainRefuses(t *testing.T) {
	straight := fiveGores()
	straight.HemSweep, straight.FrontHem = straight.Hip, 0
	evenFront := fiveGores()
	evenFront.Gores, evenFront.FrontHem = 6, 9*inch
	refuses(t, []refusal{
		{"no length", Train{Skirt: fiveGores()}, "train: length behind is 0 mm"},
		{"negative", Train{Skirt: fiveGores(), Behind: -300}, "length behind is -300 mm"},
		{"no skirt", Train{Behind: 300}, "has no back gores to lengthen"},
		{"one gore", Train{Skirt: circleSkirt(0.5, 28, 40, 1), Behind: 300}, "with 1 gore there is no pair"},
		{"too many gores", Train{Skirt: fiveGores(), Behind: 300, BackGores: 3}, "back gores: 3, must be from 1 to 2"},
		{"front gores of another hem", Train{Skirt: evenFront, Behind: 300, BackGores: 3}, "must be from 1 to 2"},
		{"straight", Train{Skirt: straight, Behind: 300}, "do not spread into a train"},
		{"bad skirt", Train{Skirt: GoredSkirt{Gores: 6}, Behind: 300}, "gored skirt: waist is 0 mm"},
	})
}
