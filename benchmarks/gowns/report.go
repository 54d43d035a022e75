package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
)

// line is what the runs say of one cloth. Lengths in mm.
type line struct {
	name    string
	pieces  int
	runs    int
	normal  float64   // default work, seed 1; 0 before it was run
	seeds   []float64 // default work, every seed
	longer  float64   // the best of ten times the work and more; 0 before any was run
	best    float64   // of all
	bound   float64   // the largest that any run proved
	hardest int64     // the largest multiple of the default work
	proved  bool      // no less can be bought than for the default layout
}

// above returns how far the default layout lies above the best of all runs, percent.
func (l line) above() float64 { return 100 * (l.normal/l.best - 1) }

// spread returns how far the worst seed of the default work lies above the best of all.
func (l line) spread() float64 { return 100 * (slices.Max(l.seeds)/l.best - 1) }

// open returns how far the best of all lies above the bound, percent.
func (l line) open() float64 { return 100 * (l.best/l.bound - 1) }

// near is how far a default layout may lie above the best, percent.
const near = 1

// settled says that no run can show the default layout to lie more than near above the
// best: it is so near its bound.
func (l line) settled() bool { return l.normal <= (1+near/100.)*l.bound }

// lines sums up the runs by cloth, in the order of the cloths; without those whose
// default layout was not made.
func lines(cloths []cloth, runs []record) ([]line, error) {
	var out []line
	for _, c := range cloths {
		m, err := mark(c.problem)
		if err != nil {
			return nil, err
		}
		l := line{name: c.name, pieces: copies(c.problem)}
		for _, r := range runs {
			if r.Mark == m {
				l.take(r)
			}
		}
		if l.normal > 0 {
			out = append(out, l)
		}
	}
	return out, nil
}

func (l *line) take(r record) {
	if l.runs++; l.runs == 1 || r.Length < l.best {
		l.best = r.Length
	}
	l.bound, l.hardest = max(l.bound, r.Bound), max(l.hardest, r.Work)
	if r.Work == 1 {
		l.seeds = append(l.seeds, r.Length)
		if r.Seed == 1 {
			l.normal, l.proved = r.Length, r.Proved
		}
	}
	if r.Work >= 10 && (l.longer == 0 || r.Length < l.longer) {
		l.longer = r.Length
	}
}

// worstFirst sorts by how far the default layout, then any seed, lies above the best;
// last come those for which no less can be bought.
func worstFirst(all []line) {
	slices.SortStableFunc(all, func(a, b line) int {
		switch {
		case a.proved && !b.proved:
			return 1
		case b.proved && !a.proved:
			return -1
		}
		return cmp.Or(cmp.Compare(b.above(), a.above()), cmp.Compare(b.spread(), a.spread()))
	})
}

// report prints the table, worst cloth first, and what it comes to; lengths in inches. A
// cloth laid but once would be its own best: it is counted and no more, unless its bound
// says how near the best it is.
func report(w io.Writer, cloths []cloth, runs []record) error {
	all, err := lines(cloths, runs)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		return fmt.Errorf("no default layout among %d runs: run with --seeds 1 first", len(runs))
	}
	laid := len(all)
	all = slices.DeleteFunc(all, func(l line) bool { return l.runs < 2 && !l.settled() })
	fmt.Fprintf(w, "%d of %d cloths laid, %d of them but once, of which nothing is said.\n\n", laid,
		len(cloths), laid-len(all))
	if len(all) == 0 {
		return nil
	}
	worstFirst(all)
	fmt.Fprintln(w, "| cloth | pieces | default | worst seed | ten times the work | best | default above best | "+
		"worst seed above best | best above bound |")
	fmt.Fprintln(w, "| --- | --- | --- | --- | --- | --- | --- | --- | --- |")
	for _, l := range all {
		longer := ""
		if l.longer > 0 {
			longer = fmt.Sprintf("%.2f", l.longer/inch)
		}
		mark := ""
		if l.proved {
			mark = ", proved"
		}
		fmt.Fprintf(w, "| %s | %d | %.2f%s | %.2f (of %d) | %s | %.2f | %.2f %% | %.2f %% | %.2f %% |\n",
			l.name, l.pieces, l.normal/inch, mark, slices.Max(l.seeds)/inch, len(l.seeds), longer, l.best/inch,
			l.above(), l.spread(), l.open())
	}
	summary(w, all)
	return nil
}

// summary prints how many cloths lie within 1 %, the medians and the worst.
func summary(w io.Writer, all []line) {
	var above, open []float64
	within, seeds, steady, longer, runs, settled := 0, 0, 0, 0, 0, 0
	for _, l := range all {
		open = append(open, l.open())
		runs += l.runs
		if !l.proved {
			above = append(above, l.above())
			if l.above() <= near {
				within++
			}
		}
		if l.longer > 0 {
			longer++
		}
		if l.settled() {
			settled++
		}
		for _, s := range l.seeds {
			seeds++
			if 100*(s/l.best-1) <= near {
				steady++
			}
		}
	}
	fmt.Fprintf(w, "\n%d cloths compared in %d runs, %d of them with ten times the work; %d lie within %d %% of "+
		"their bounds.\n",
		len(all), runs, longer, settled, near)
	fmt.Fprintf(w, "No less can be bought, by the eighth of a yard, than for %d of the default layouts.\n",
		len(all)-len(above))
	if len(above) > 0 {
		fmt.Fprintf(w, "The others within 1 %% of the best: %d of %d (%.0f %%), median %.2f %%, worst %.2f %%: %s.\n",
			within, len(above), 100*float64(within)/float64(len(above)), median(above), all[0].above(), all[0].name)
	}
	fmt.Fprintf(w, "Layouts of any seed within 1 %%: %d of %d. Best above the bound: median %.2f %%, at most %.2f %%.\n",
		steady, seeds, median(open), slices.Max(open))
}

// median returns the middle value, of two the lower.
func median(v []float64) float64 {
	sorted := slices.Sorted(slices.Values(v))
	return sorted[(len(sorted)-1)/2]
}
