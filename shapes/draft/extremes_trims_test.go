package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
)

// Whatever the measures, a draft is sound pieces whose seams match or a refusal,
// never a panic.
func TestDraftsAnswerAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, about float64) float64 {
			if rapid.IntRange(0, 24).Draw(t, name+" odd") == 0 {
				return rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), 1e-9, 1e5}).Draw(t, name)
			}
			return about * math.Pow(10, rapid.Float64Range(-0.6, 0.6).Draw(t, name))
		}
		or0 := func(name string, about float64) float64 {
			if rapid.Bool().Draw(t, name+" left out") {
				return 0
			}
			return mm(name, about)
		}
		n := func(name string) int { return rapid.IntRange(-1, 12).Draw(t, name) }
		yes := func(name string) bool { return rapid.Bool().Draw(t, name) }
		f := mm("fraction", 0.6)
		a := shapes.Allowance{Seam: or0("seam", 6), Waist: or0("waist allowance", 6), Hem: or0("hem allowance", 10)}
		waist, hip, depth, length, raise := mm("waist", 700), or0("hip", 1200), or0("hip depth", 200), mm("length",
			800), or0("raise", 10)
		for _, d := range []Draft{
			Train{Skirt: CircleSkirt{Fraction: f, Gores: n("gores"), Waist: waist, Length: length, HemRaise: raise,
				Allowance: a, Chord: 1}, Behind: mm("behind", 600), BackGores: n("back gores")},
			Cape{Neck: waist, Length: length, Fraction: f, BackSeam: yes("seam"), BackOnFold: yes("fold"),
				NeckDrop: or0("drop", 30), Dart: or0("dart", 15), DartLength: mm("dart length", 60), HemRaise: raise,
				Allowance: a, Chord: 1},
			Peplum{Waist: waist, Length: length, Fraction: f * float64(n("given")) / 4, Hip: hip, HipDepth: depth,
				FrontOpen: yes("front"), OnFold: yes("on fold"), Sections: n("sections"), HemRaise: raise, Allowance: a,
				Chord: 1},
			Overskirt{Waist: waist, Gap: or0("gap", 100), Length: length, FrontLength: or0("front length", 600),
				Fraction: f,
				BackSeam: yes("back seam"), BackOnFold: yes("back on fold"), Sections: n("sections"), HemRaise: raise,
				Allowance: a, Chord: 1},
			Godet{Length: length, Hem: mm("hem", 400), Count: n("count"), HemRaise: raise, Allowance: a, Chord: 1},
			Petals{Waist: waist, Length: length, Side: or0("side", 150), Count: n("petals"),
				Overlap:  or0("overlap", 30),
				Fraction: f, HemRaise: raise, Allowance: a, Chord: 1},
			Handkerchief{Waist: waist, Length: length, Panels: n("panels"), Opening: yes("opening"), Hip: hip,
				HipDepth: depth,
				HemRaise: raise, Allowance: a, Chord: 1},
			Petticoat{Waist: waist, Hip: hip, HipDepth: depth, Length: length, YokeDepth: mm("yoke", 200),
				Casing: or0("casing", 20), Tiers: n("tiers"), Fullness: mm("fullness", 2),
				ClothWidth: mm("cloth", 1400),
				Join:       or0("join", 8), HemRaise: raise, Allowance: a, Chord: 1},
			Binding{Bias: yes("bias"), Length: length, Width: mm("width", 60), Folds: n("folds"), Closed: yes("closed"),
				ClothWidth: mm("cloth", 1400), Join: or0("join", 8)},
			Sash{Length: length, Width: mm("width", 60), TailWidth: or0("tail width", 80), End: or0("end", 60),
				Slanted: yes("slanted"), Halves: yes("halves"), Layers: n("layers"), Allowance: a},
			Bow{Width: mm("width", 60), Height: mm("height", 200), TailLength: or0("tail", 300),
				TailWidth: or0("tail width", 80), TailSlant: or0("slant", 40), KnotLength: mm("knot", 120),
				KnotWidth: mm("knot width", 30), Count: n("count"), Allowance: a},
			Ties{Length: length, Width: mm("width", 60), Slant: or0("slant", 40), Count: n("count"), Allowance: a},
			Loops{Count: n("loops"), Opening: or0("opening", 400), Pitch: or0("pitch", 60), Length: length,
				Width: mm("width", 60), ClothWidth: mm("cloth", 1400), Allowance: a},
			Hood{Neck: waist, Height: mm("hood height", 350), Depth: mm("depth", 250), Round: mm("round", 70),
				Drop: mm("drop", 30), Strip: or0("strip", 90), Dart: or0("dart", 15), DartLength: mm("dart length", 60),
				HemRaise: raise, Allowance: a, Chord: 1},
		} {
			pieces, err := piecesOf(d)
			if err != nil {
				continue
			}
			for _, p := range pieces {
				sound(t, p)
				if p.OnFold {
					sound(t, p.Unfold())
				}
			}
			joins, err := joinsOf(d)
			if err != nil {
				t.Fatalf("%+v: drafted, but %v", d, err)
			}
			if _, err := shapes.SewingOrder(pieces, joins); err != nil {
				t.Errorf("%+v: %v", d, err)
			}
		}
	})
}
