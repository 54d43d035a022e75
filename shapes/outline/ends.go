package outline

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// endGrid finds points that lie within a distance of each other, by square cells.
type endGrid struct {
	within float64
	size   float64          // of a cell
	first  map[uint64]int32 // of each cell the last point put in
	next   []int32          // and of each point the one before it; -1: none
	at     []orb.Point
}

// newEndGrid makes one for some n points, with cells so many times as large as the distance.
func newEndGrid(within, cells float64, n int) *endGrid {
	return &endGrid{within: within, size: within * cells, first: make(map[uint64]int32, n), next: make([]int32, 0, n),
		at: make([]orb.Point, 0, n)}
}

func (g *endGrid) column(v float64) int32 { return int32(math.Floor(v / g.size)) }

func cellOf(x, y int32) uint64 { return uint64(uint32(x))<<32 | uint64(uint32(y)) }

// mostInCell is how many points of one cell are held against a further one.
const mostInCell = 24

// put puts in a point.
func (g *endGrid) put(p orb.Point) {
	c := cellOf(g.column(p[0]), g.column(p[1]))
	before, ok := g.first[c]
	if !ok {
		before = -1
	}
	g.first[c] = int32(len(g.at))
	g.at, g.next = append(g.at, p), append(g.next, before)
}

// around calls found with points that lie within the distance of another.
func (g *endGrid) around(p orb.Point, found func(i int32)) {
	for x := g.column(p[0] - g.within); x <= g.column(p[0]+g.within); x++ {
		for y := g.column(p[1] - g.within); y <= g.column(p[1]+g.within); y++ {
			i, ok := g.first[cellOf(x, y)]
			for n := 0; ok && i >= 0 && n < mostInCell; i, n = g.next[i], n+1 {
				if near(p, g.at[i], g.within) {
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
	g := newEndGrid(sameEnd, 8, len(ends))
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
const mostNear = 4

// tie gives each loose end the number of the nearest other that is still loose within a
// distance, the nearest first. Which ends may be tied is for fits to say.
func tie(ends []orb.Point, of, loose []int32, within float64, fits func(i, j int32) bool) {
	g := newEndGrid(within, 1, len(loose))
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
