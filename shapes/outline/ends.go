package outline

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// endGrid finds points that lie near each other, by square cells.
type endGrid struct {
	size  float64
	first map[[2]int64]int32 // of each cell the last point put in
	next  []int32            // and of each point the one before it; -1: none
	at    []orb.Point
}

func newEndGrid(size float64, n int) *endGrid {
	return &endGrid{size: size, first: make(map[[2]int64]int32, n), next: make([]int32, 0, n),
		at: make([]orb.Point, 0, n)}
}

func (g *endGrid) cell(p orb.Point) [2]int64 {
	return [2]int64{int64(math.Floor(p[0] / g.size)), int64(math.Floor(p[1] / g.size))}
}

// mostInCell is how many points of one cell are held against a further one.
const mostInCell = 64

// put puts in a point.
func (g *endGrid) put(p orb.Point) {
	c := g.cell(p)
	before, ok := g.first[c]
	if !ok {
		before = -1
	}
	g.first[c] = int32(len(g.at))
	g.at, g.next = append(g.at, p), append(g.next, before)
}

// around calls found with points that lie within the size of another.
func (g *endGrid) around(p orb.Point, found func(i int32)) {
	c := g.cell(p)
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			i, ok := g.first[[2]int64{c[0] + dx, c[1] + dy}]
			for n := 0; ok && i >= 0 && n < mostInCell; i, n = g.next[i], n+1 {
				if near(p, g.at[i], g.size) {
					found(i)
				}
			}
		}
	}
}

// sameEnd is how far apart ends may lie that are written as one, mm: rounding.
const sameEnd = 0.005

// knots numbers the places at which ends of strands meet: those of strand i are at 2i and
// 2i+1.
func knots(ends []orb.Point) []int32 {
	g := newEndGrid(sameEnd, len(ends))
	of := make([]int32, len(ends))
	var put []int32 // which end each point of the grid is
	for i, p := range ends {
		of[i] = int32(i)
		exact := false
		g.around(p, func(k int32) {
			of[i] = min(of[i], of[put[k]])
			exact = exact || g.at[k] == p
		})
		if !exact {
			g.put(p)
			put = append(put, int32(i))
		}
	}
	return of
}

// pair is two loose ends that lie near each other.
type pair struct {
	i, j  int32
	apart float64
}

// mostNear is how many others one loose end may be paired with.
const mostNear = 8

// tie gives each loose end the number of the nearest other that is still loose within a
// distance, the nearest first. Which ends may be tied is for fits to say.
func tie(ends []orb.Point, of, loose []int32, within float64, fits func(i, j int32) bool) {
	g := newEndGrid(within, len(loose))
	var pairs []pair
	for k, i := range loose {
		n := 0
		g.around(ends[i], func(other int32) {
			if j := loose[other]; n < mostNear && fits(i, j) {
				pairs = append(pairs, pair{j, i, math.Hypot(ends[i][0]-ends[j][0], ends[i][1]-ends[j][1])})
				n++
			}
		})
		g.put(ends[loose[k]])
	}
	slices.SortStableFunc(pairs, func(a, b pair) int {
		return cmp.Or(cmp.Compare(a.apart, b.apart), cmp.Compare(a.i, b.i), cmp.Compare(a.j, b.j))
	})
	tied := map[int32]bool{}
	for _, p := range pairs {
		if tied[p.i] || tied[p.j] {
			continue
		}
		tied[p.i], tied[p.j] = true, true
		of[p.j] = of[p.i]
	}
}
