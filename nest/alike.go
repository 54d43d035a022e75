package nest

import (
	"cmp"
	"context"
	"math"
	"slices"
	"time"

	"yardlay/nest/judge"
	"yardlay/nest/search"
	"yardlay/shapes/plane"
)

// sameGrain says whether two turns of a piece, as drawn, lay the threads of the cloth
// along the same lines of it: whether they are half turns apart. Of a mirrored copy turns
// are counted clockwise, so that a pair leans as mirror images do: worn, left and right
// then hang as each other's reflection, and what is cut double leans like that anyway.
func sameGrain(a, b float64) bool { return math.Abs(math.Remainder(a-b, 180)) < turnTolerance }

// turnTolerance is how far turns may differ and count as one, degrees: they are given to
// a few decimals.
const turnTolerance = 1e-6

// grains says, for each piece whose copies lie alike two by two, a straight turn of the
// grain on which each two of them lie. The search keeps the lean of a pair, and it knows
// no grains: they are settled before.
type grains map[int][]float64

// allows says whether a copy may lie in a way, its turn as drawn leaning off straight.
func (g grains) allows(pl Placed, straight float64) bool {
	turns, ok := g[pl.Piece]
	return !ok || sameGrain(turns[pl.Copy/2], straight)
}

// grainsOf reads the grains of a layout that has passed Verify.
func (p Problem) grainsOf(l Layout) grains {
	g := grains{}
	for i, piece := range p.Pieces {
		if piece.Alike && len(p.grainChoices(i)) > 0 {
			g[i] = make([]float64, (piece.Count+1)/2)
		}
	}
	for _, pl := range l.Placed {
		if turns, ok := g[pl.Piece]; ok {
			_, turns[pl.Copy/2] = lean(pl, p.Pieces[pl.Piece].straightOf())
		}
	}
	return g
}

// grainChoices lists the grains on which the copies of a piece fit, a turn for each.
func (p Problem) grainChoices(i int) []float64 {
	var choices []float64
	straight := p.Pieces[i].straightOf()
	for _, turn := range p.Pieces[i].turns() {
		if turn = straight[turn]; !slices.ContainsFunc(choices, func(c float64) bool { return sameGrain(c, turn) }) {
			choices = append(choices, turn)
		}
	}
	alone := p
	alone.Pieces = slices.Clone(p.Pieces[i : i+1])
	return slices.DeleteFunc(choices, func(c float64) bool {
		alone.Pieces[0].Turns = slices.DeleteFunc(slices.Clone(p.Pieces[i].turns()), func(t float64) bool {
			return !sameGrain(c, straight[t])
		})
		return alone.sizeOf(0) != nil
	})
}

// grainTrials is the most short searches made to settle grains, and trialWork the
// evaluations of a lane in each: together less than a tenth of a normal search.
const (
	grainTrials = 24
	trialWork   = 1 << 16
	trialShare  = 0.25 // of the time, where it is limited
)

// grainTrials is how many are made: all together at most a quarter of the search's
// work, but two, so that all pairs of the largest piece are tried across.
func (o Options) grainTrials() int {
	if work := o.work(); work > 0 {
		return int(min(grainTrials, max(2, work/4/trialWork)))
	}
	return grainTrials
}

// settleGrains settles the grains of pairs by short searches: all copies of a piece
// on its first grain, then piece by piece, the largest first, on another where that
// is shorter, then pair by pair.
func (p Problem) settleGrains(ctx context.Context, o Options) grains {
	g := grains{}
	choices := map[int][]float64{}
	var open []int
	for i, piece := range p.Pieces {
		if !piece.Alike || piece.Count < 2 {
			continue
		}
		choices[i] = p.grainChoices(i)
		if len(choices[i]) == 0 {
			continue
		}
		g[i] = slices.Repeat(choices[i][:1], (piece.Count+1)/2)
		if len(choices[i]) > 1 && p.pinGrains(i, g[i]) < len(g[i]) {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		return g
	}
	slices.SortStableFunc(open, func(a, b int) int {
		return cmp.Compare(plane.Area(p.Pieces[b].Outline), plane.Area(p.Pieces[a].Outline))
	})
	upright := p.withoutLeans()
	ctx, cancel := shareOfTime(ctx, trialShare)
	defer cancel()
	t := grainTrial{problem: upright, judge: judge.New(upright.toJudge()), options: o}
	least := t.length(ctx, g)
	try := func(i int, change func(turns []float64)) {
		was := g[i]
		g[i] = slices.Clone(was)
		change(g[i])
		p.pinGrains(i, g[i])
		if length := t.length(ctx, g); length < least {
			least = length
		} else {
			g[i] = was
		}
	}
	for _, i := range open {
		for _, turn := range choices[i][1:] {
			try(i, func(turns []float64) {
				for k := range turns {
					turns[k] = turn
				}
			})
		}
	}
	for _, i := range open {
		for k := range g[i] {
			for _, turn := range choices[i] {
				if len(g[i]) > 1 && turn != g[i][k] {
					try(i, func(turns []float64) { turns[k] = turn })
				}
			}
		}
	}
	return g
}

// pinGrains sets the grains of pairs of piece i of which one is pinned, and counts them.
func (p Problem) pinGrains(i int, turns []float64) (pinned int) {
	seen := map[int]bool{}
	for _, pin := range p.Pins {
		if pin.Piece == i {
			_, turns[pin.Copy/2] = lean(pin, p.Pieces[i].straightOf())
			seen[pin.Copy/2] = true
		}
	}
	return len(seen)
}

// onThread says whether a turn lays the grain along the threads of the cloth, either way.
func onThread(turn float64) bool { return math.Mod(turn, 90) == 0 }

// withoutLeans returns the problem without turns a few degrees off others, where a piece
// may lie along the threads of the cloth: which grain is shorter does not hang on those,
// and their no-fit regions take most of the time.
func (p Problem) withoutLeans() Problem {
	p.Pieces = slices.Clone(p.Pieces)
	for i := range p.Pieces {
		if slices.ContainsFunc(p.Pins, func(pin Placed) bool { return pin.Piece == i }) {
			continue // it has its lean
		}
		straight := p.Pieces[i].straightOf()
		along := slices.DeleteFunc(slices.Clone(p.Pieces[i].Turns), func(turn float64) bool {
			return !onThread(turn) && straight[turn] != turn
		})
		if upright := p; slices.ContainsFunc(along, onThread) {
			upright.Pieces = slices.Clone(p.Pieces)
			upright.Pieces[i].Turns = along
			if upright.sizeOf(i) == nil {
				p = upright
			}
		}
	}
	return p
}

// shareOfTime returns a context that ends once a share of the time that is left is over.
func shareOfTime(ctx context.Context, share float64) (context.Context, context.CancelFunc) {
	end, limited := ctx.Deadline()
	if !limited {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, time.Duration(share*float64(time.Until(end))))
}

// grainTrial measures grains by short searches, as many as it may make.
type grainTrial struct {
	problem Problem
	judge   *judge.Judge
	options Options
	made    int
}

// length returns the length that a short search comes to, mm; infinite when it
// comes to nothing, or no more may be made.
func (t *grainTrial) length(ctx context.Context, g grains) float64 {
	if t.made >= t.options.grainTrials() || ctx.Err() != nil {
		return math.Inf(1)
	}
	t.made++
	s := newSearcher(t.problem, g)
	first := search.Construct(ctx, s.problem, search.Options{
		Seed: t.options.Seed, Workers: t.options.Workers, Memory: t.options.memory(),
		Work: trialWork, Began: time.Now(), Judge: s.judgedBy(t.judge),
	})
	out, err := search.Improve(first, search.Goal{
		Bound:  func() float64 { return s.problem.Bound },
		Enough: func(length, bound float64) bool { return length <= bound },
	})
	if err != nil {
		return math.Inf(1)
	}
	return out.Layout.Length
}
