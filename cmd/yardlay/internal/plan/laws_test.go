package plan

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

func anyLoss(t *rapid.T) job.Cloth {
	c := job.Cloth{Width: 1500, Ends: rapid.Float64Range(0, 50).Draw(t, "ends"),
		Skew:  rapid.Float64Range(0, 50).Draw(t, "skew"),
		Spare: rapid.Float64Range(0, 0.5).Draw(t, "spare")}
	c.Shrinkage = job.Shrinkage{Warp: rapid.Float64Range(-0.2, 0.1).Draw(t, "warp"),
		Prewash: rapid.Bool().Draw(t, "washed")}
	return c
}

// What can be laid on a cloth needs that cloth.
func TestLaidUndoesNeeded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loss := LossOf(anyLoss(t))
		laid := rapid.Float64Range(1, 50_000).Draw(t, "laid")
		if back := loss.laid(loss.Needed(laid)); math.Abs(back-laid) > 1e-6 {
			t.Fatalf("%v mm laid on need %v, on which %v are laid", laid, loss.Needed(laid), back)
		}
		if loss.Needed(laid) < laid && loss.Washed <= 1 {
			t.Fatalf("%v mm laid on need %v", laid, loss.Needed(laid))
		}
	})
}

// The longest marker of a bolt is bought with the bolt, and one that is a trifle more than
// the guard longer is not.
func TestBoltsHoldTheirLongestMarker(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		task := Task{Spread: Spread{Cloth: anyLoss(t)}}
		bolt := cost.Bolt{Length: rapid.Float64Range(1000, 60_000).Draw(t, "bolt")}
		longest := task.boltStrip(bolt).MaxLength
		if longest <= 0 || longest == nest.Reach {
			t.Skip("nothing can be laid on it, or more than is")
		}
		if needed := task.LeastNeeded(longest); needed > bolt.Length+measure.Guard+1e-9 {
			t.Fatalf("%v mm on a bolt of %v need %v", longest, bolt.Length, needed)
		}
		if needed := task.LeastNeeded(longest + plane.Lattice); needed <= bolt.Length+measure.Guard-1e-9 {
			t.Fatalf("a bolt of %v holds a step more than %v mm: that needs %v", bolt.Length, longest, needed)
		}
	})
}

// Stretches follow each other along the cloth: their markers a gap apart at the least, each
// begun on a whole repeat, with its ends, and no more between them than that takes.
func TestStretchesFollowEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		task := Task{Spread: Spread{Cloth: anyLoss(t)},
			Problem: nest.Problem{Gap: rapid.Float64Range(0, 100).Draw(t, "gap")}}
		repeat := rapid.SampledFrom([]float64{0, 0, 90, 640}).Draw(t, "repeat")
		task.Problem.Strip.Repeat.Along = repeat
		var used []float64
		for range rapid.IntRange(1, 3).Draw(t, "stretches") {
			lay := rapid.SampledFrom([]nest.Lay{nest.Open, nest.LengthwiseFold, nest.CrosswiseFold}).Draw(t, "lay")
			task.Stretches = append(task.Stretches, nest.Stretch{Lay: lay, Problem: task.Problem})
			used = append(used, rapid.Float64Range(1, 3000).Draw(t, "used"))
		}
		from, end := task.Along(used)
		last := 0.0 // where the one before ends, with its ends
		ends := task.Spread.Cloth.Ends
		for i, s := range task.Stretches {
			if repeat > 0 && math.Abs(math.Remainder(from[i], repeat)) > 1e-6 {
				t.Fatalf("stretch %d begins at %v on a repeat of %v", i, from[i], repeat)
			}
			between := from[i] - last + 2*ends // of the two markers
			if i > 0 && (between < task.Problem.Gap-1e-6 || from[i] < last-1e-6 ||
				from[i]-last > max(0, task.Problem.Gap-2*ends)+repeat+1e-6) {
				t.Fatalf("stretch %d begins %v behind the one before, with ends of %v and a gap of %v", i, from[i]-last,
					ends, task.Problem.Gap)
			}
			last = from[i] + used[i] + 2*ends
			if s.Lay == nest.CrosswiseFold { // the cloth lies there and back, half a gap from the crease
				last += used[i] + 2*ends + 2*plane.Ceil(task.Problem.Gap/2)
			}
		}
		if math.Abs(end-last) > 1e-6 {
			t.Fatalf("the last stretch ends at %v, not at %v", end, last)
		}
	})
}

// A copy lies on the grain from which its turn comes, as drawn or mirrored, leant or not.
func TestCopiesLieOnTheirGrain(t *testing.T) {
	words := map[float64]job.Grain{0: job.LengthwiseGrain, 90: job.CrossGrain, 45: job.BiasGrain}
	for _, nap := range []job.Nap{job.OneWay, job.TwoWay, job.AllWay} {
		for _, grain := range []job.Grain{job.LengthwiseGrain, job.CrossGrain, job.EitherGrain, job.FreeGrain,
			job.BiasGrain} {
			for _, tilt := range []float64{0, 3, 10} {
				part := job.Part{Grain: grain, Tilt: tilt}
				s := Spread{Cloth: job.Cloth{Nap: nap}, Cuts: []Cut{{Part: part}}}
				lain := map[job.Grain]bool{}
				for _, turn := range turns(nap, part) {
					from, word := s.LiesOn(0, turn, false)
					if off := math.Abs(math.Remainder(turn-from, 180)); off > tilt || words[from] != word {
						t.Errorf("%v, %v, tilt %v: turned %v it lies on %v, %v", nap, grain, tilt, turn, from, word)
					}
					if back, again := s.LiesOn(0, math.Mod(360-turn, 360), true); back != from || again != word {
						t.Errorf("%v, %v: mirrored %v lies on %v, %v", nap, grain, turn, back, again)
					}
					lain[word] = true
				}
				if on := s.CutOn(0); len(lain) == 1 && !lain[on] || (len(lain) > 1) != (on == job.EitherGrain) {
					t.Errorf("%v, %v: it is cut on %v and lies on %v", nap, grain, on, lain)
				}
				if !lain[words[s.Grain(0)]] {
					t.Errorf("%v, %v: its first grain is %v", nap, grain, s.Grain(0))
				}
			}
		}
	}
}
