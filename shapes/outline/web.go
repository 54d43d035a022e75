package outline

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// web is lines that meet at their ends. Line i has two halves, 2i as it is drawn and 2i+1
// the other way round; the knot of a half is the place it starts from.
type web struct {
	lines  []int // of the drawing
	all    []Line
	ends   []orb.Point // where halves start
	of     []int32     // knots of halves, named by one of these
	halves []int32     // knot after knot
	begin  []int32     // where those of a knot begin among them, and of the last where they end
}

func newWeb(all []Line, lines []int) *web {
	w := &web{lines: lines, all: all, ends: make([]orb.Point, 2*len(lines))}
	for k, i := range lines {
		p := all[i].Points
		w.ends[2*k], w.ends[2*k+1] = p[0], p[len(p)-1]
	}
	w.of = knots(w.ends)
	w.gather()
	return w
}

// gather lists the halves that start from each knot.
func (w *web) gather() {
	n := len(w.of)
	w.begin, w.halves = make([]int32, n+1), make([]int32, n)
	for _, knot := range w.of {
		w.begin[knot+1]++
	}
	for k := range n {
		w.begin[k+1] += w.begin[k]
	}
	at := slices.Clone(w.begin)
	for half, knot := range w.of {
		w.halves[at[knot]] = int32(half)
		at[knot]++
	}
}

// from are the halves that start from a knot, in order.
func (w *web) from(knot int32) []int32 { return w.halves[w.begin[knot]:w.begin[knot+1]] }

// tieLoose ties ends that meet nothing to each other where they lie within a tolerance.
func (w *web) tieLoose(tolerance float64) {
	var loose []int32
	for half, knot := range w.of {
		if len(w.from(knot)) == 1 {
			loose = append(loose, int32(half))
		}
	}
	tie(w.ends, w.of, loose, tolerance, func(i, j int32) bool {
		return i/2 != j/2 || plane.Length(w.all[w.lines[i/2]].Points) > 4*tolerance
	})
	w.gather()
}

// walks are the ways round the web on its outside, each a list of halves that end where they
// began and pass no knot twice, and the lines that lie between such ways. What hangs loose at
// one end is in neither.
func (w *web) walks() (walks [][]int32, chords []int32) {
	core := w.core()
	next := w.turns(core)
	seen := make([]bool, len(w.ends))
	outer := make([]bool, len(w.lines))
	inner := make([]bool, len(w.lines))
	for half := range w.ends {
		if !core[half/2] || seen[half] {
			continue
		}
		var face []int32
		area := 0.
		for h := int32(half); !seen[h]; h = next[h] {
			seen[h] = true
			face = append(face, h)
			area += w.sweep(h)
		}
		if area > 0 {
			for _, h := range face {
				inner[h/2] = true
			}
			continue // a region between lines
		}
		for _, walk := range w.split(face) {
			walks = append(walks, walk)
			for _, h := range walk {
				outer[h/2] = true
			}
		}
	}
	for k := range w.lines {
		if inner[k] && !outer[k] {
			chords = append(chords, int32(k))
		}
	}
	return walks, chords
}

// core says of each line whether it is left when those that hang loose are taken away, one
// after the other.
func (w *web) core() []bool {
	core := make([]bool, len(w.lines))
	degree := make([]int32, len(w.of))
	var ends []int32
	for k := range core {
		core[k] = true
	}
	for knot := range w.of {
		halves := w.from(int32(knot))
		if degree[knot] = int32(len(halves)); len(halves) == 1 {
			ends = append(ends, halves[0])
		}
	}
	for len(ends) > 0 {
		h := ends[len(ends)-1]
		ends = ends[:len(ends)-1]
		if !core[h/2] {
			continue
		}
		core[h/2] = false
		degree[w.of[h]]--
		other := w.of[h^1]
		if degree[other]--; degree[other] == 1 {
			for _, g := range w.from(other) {
				if core[g/2] {
					ends = append(ends, g)
				}
			}
		}
	}
	return core
}

// turns gives for each half of the core the one to follow it: at its end, the next one
// clockwise from the way back, so that a walk keeps what it goes round on its left.
func (w *web) turns(core []bool) []int32 {
	next := make([]int32, len(w.ends))
	var around []int32
	angle := make([]float64, len(w.ends))
	for knot := range w.of {
		around = around[:0]
		for _, h := range w.from(int32(knot)) {
			if core[h/2] {
				around = append(around, h)
			}
		}
		if len(around) > 2 {
			for _, h := range around {
				angle[h] = w.heading(h)
			}
			slices.SortFunc(around, func(a, b int32) int { return cmp.Or(cmp.Compare(angle[a], angle[b]), int(a-b)) })
		}
		for k, h := range around {
			next[h^1] = around[(k+len(around)-1)%len(around)]
		}
	}
	return next
}

// headingAt is how far along a line its heading at a knot is taken, mm: what starts in the
// same direction has parted there.
const headingAt = 2.0

// heading is the angle in which a half leaves its knot.
func (w *web) heading(h int32) float64 {
	line := w.all[w.lines[h/2]].Points
	at := func(i int) orb.Point {
		if h%2 == 1 {
			i = len(line) - 1 - i
		}
		return line[i]
	}
	a := at(0)
	far := min(headingAt, plane.Length(line)/3)
	for i := 1; i < len(line); i++ {
		if b := at(i); i == len(line)-1 || math.Hypot(b[0]-a[0], b[1]-a[1]) >= far {
			return math.Atan2(b[1]-a[1], b[0]-a[0])
		}
	}
	return 0
}

// sweep is twice the area that a half sweeps, seen from the origin.
func (w *web) sweep(h int32) float64 {
	line, sum := w.all[w.lines[h/2]].Points, 0.
	for i := 1; i < len(line); i++ {
		sum += line[i-1][0]*line[i][1] - line[i][0]*line[i-1][1]
	}
	if h%2 == 1 {
		return -sum
	}
	return sum
}

// split takes a way round apart where it passes a knot again, and leaves out what it runs
// along both ways.
func (w *web) split(face []int32) (walks [][]int32) {
	var way []int32
	at := map[int32]int{} // where in the way each knot is left
	for _, h := range face {
		if k, again := at[w.of[h]]; again {
			if piece := slices.Clone(way[k:]); len(piece) != 2 || piece[0] != piece[1]^1 {
				walks = append(walks, piece)
			}
			for _, g := range way[k:] {
				delete(at, w.of[g])
			}
			way = way[:k]
		}
		at[w.of[h]] = len(way)
		way = append(way, h)
	}
	if len(way) != 2 || way[0] != way[1]^1 {
		walks = append(walks, way)
	}
	return walks
}

// chains are the longest ways along lines that meet nothing else between, in the order of
// their first lines.
func (w *web) chains() (all [][]int32) {
	used := make([]bool, len(w.lines))
	follow := func(h int32) (way []int32) { // from a half on
		for !used[h/2] {
			used[h/2] = true
			way = append(way, h)
			on := w.from(w.of[h^1])
			if len(on) != 2 {
				break
			}
			if h = on[0]; h/2 == way[len(way)-1]/2 || used[h/2] {
				h = on[1]
			}
		}
		return way
	}
	for k := range w.lines {
		if used[k] {
			continue
		}
		ahead := follow(int32(2 * k))
		used[k] = false
		back := follow(int32(2*k + 1))
		way := make([]int32, 0, len(ahead)+len(back)-1)
		for _, h := range slices.Backward(back[1:]) {
			way = append(way, h^1)
		}
		all = append(all, append(way, ahead...))
	}
	return all
}
