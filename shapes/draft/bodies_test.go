package draft

import (
	"math"
	"math/rand/v2"
	"testing"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// anyone is a body from a child of four (bust 560, waist 530) to a bust of 1500 mm.
type anyone struct {
	*rand.Rand
	waist, hip, hipDepth, neck, length float64
}

// within draws a number.
func (b anyone) within(low, high float64) float64 { return low + (high-low)*b.Float64() }

// Whatever the body, a draft is pieces that can be cut and sewn, or a refusal that says which
// measure to change; most bodies are served by what is usual. Seams agree within half a
// millimetre, outlines are simple.
func TestManyBodies(t *testing.T) {
	allowance := shapes.Allowance{Seam: 12, Waist: 12, Hem: 25}
	for _, family := range []struct {
		name  string
		draft func(b anyone) Draft
		most  int // refusals of 500
	}{
		{"gathered skirt", func(b anyone) Draft {
			return GatheredSkirt{Waist: b.waist, Hip: b.hip, HipDepth: b.hipDepth, Length: b.length,
				Fullness: b.within(1.4, 4), Opening: true, ClothWidth: b.within(900, 1600), Allowance: allowance,
				HighHip: EstimatedHighHip(b.waist, b.hip, b.hipDepth)}
		}, 0},
		{"pleated skirt", func(b anyone) Draft {
			return PleatedSkirt{Waist: b.waist, Hip: b.hip, HipDepth: b.hipDepth, Length: b.length,
				Style: pleatStyles[b.IntN(3)], Pleats: 10 + b.IntN(20), Fullness: b.within(2, 3.5), Opening: true,
				ClothWidth: b.within(900, 1600), Allowance: allowance,
				HighHip: EstimatedHighHip(b.waist, b.hip, b.hipDepth)}
		}, 0},
		{"hoop petticoat", func(b anyone) Draft {
			return HoopPetticoat{Waist: b.waist, Hip: b.hip, HipDepth: b.hipDepth, Length: b.length, Hoops: 1 + b.IntN(5),
				FirstHoop: b.length * 0.45, AboveHem: 25, Sweep: b.hip * b.within(2, 3.2), Overlap: 50, Channel: 19, Gores: 6,
				FlounceFullness: 1.5, FlounceOver: 25, ClothWidth: b.within(900, 1600), Join: 10, Allowance: allowance,
				HighHip: EstimatedHighHip(b.waist, b.hip, b.hipDepth)}
		}, 100},
		{"collar", func(b anyone) Draft {
			return Collar{Style: collarStyles[b.IntN(3)], Neck: b.neck, Height: b.within(25, 90), OpenBack: b.IntN(2) == 0,
				Shorter: b.within(5, 30), Circle: b.within(0.5, 0.9), Drop: b.within(0, 20), Pleats: 20 + b.IntN(40),
				Depth: b.within(8, 20), Band: 12, EndHem: 6, ClothWidth: b.within(900, 1600), Join: 6, Allowance: shapes.Allowance{
					Seam: 6, Hem: 6}}
		}, 0},
		{"sleeve", func(b anyone) Draft {
			armhole := 145 + 0.18*(b.waist-530) // from a child's to that of a bust of 1500, from memory
			s := Sleeve{Style: SleeveStyle(b.IntN(int(FlutterSleeve) + 1)), FrontArmhole: armhole * b.within(0.95, 1),
				BackArmhole: armhole * b.within(1, 1.05), CapEase: armhole * b.within(0.05, 0.15),
				Bicep: armhole * b.within(1.45, 1.75), Length: armhole * b.within(2.3, 2.9), Fullness: b.within(1.3, 1.8),
				Puff: armhole * b.within(0, 0.2), Band: b.within(10, 60), Allowance: allowance}
			s.Hem, s.BellFrom, s.Sweep = s.Bicep*0.7, s.Length*0.6, s.Bicep*2
			if s.Style == FlutterSleeve {
				s.Hem *= b.within(1.5, 3)
			}
			if s.Style.fullCap() {
				s.Pleats = b.IntN(4)
			}
			return s
		}, 0},
		{"veil", func(b anyone) Draft {
			return Veil{Shape: veilShapes[b.IntN(3)], Length: b.length, Width: b.within(900, 2700), Comb: b.within(60, 120),
				Gathered: b.within(200, 650)}
		}, 0},
	} {
		t.Run(family.name, func(t *testing.T) {
			random, refused := rand.New(rand.NewPCG(4, 1500)), 0
			for range 500 {
				b := anyone{Rand: random}
				size := b.Float64()
				b.waist, b.hipDepth = (530+900*size)*b.within(0.95, 1.05), (120+110*size)*b.within(0.9, 1.1)
				b.hip = max(b.waist+20, (590+960*size)*b.within(0.95, 1.05))
				b.neck, b.length = (270+200*size)*b.within(0.95, 1.05), b.within(350, 1100)
				made, err := family.draft(b).Draft()
				if err != nil {
					if refused++; refused > family.most {
						t.Fatalf("refused: %v", err)
					}
					continue
				}
				sewable(t, made)
			}
		})
	}
}

func sewable(t *testing.T, made Result) {
	t.Helper()
	for _, p := range made.Pieces {
		if err := plane.CheckSimple(p.Cut); err != nil {
			t.Fatalf("%s: %v", p.Name, err)
		}
	}
	steps, err := shapes.SewingOrder(made.Pieces, made.Joins)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range steps {
		if math.Abs(s.Difference) > 0.5 {
			t.Fatalf("%s: sides of %.2f and %.2f mm", s.Join.Name, s.FinishedA, s.FinishedB)
		}
	}
}
