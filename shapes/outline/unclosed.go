package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// An open line is taken for an outline that should close where its ends come near each
// other and it goes round something: a circle has an eighth of the square of its length in it,
// over 1.5.
const (
	widestGap  = 25.0 // mm
	gapShare   = 0.2  // of the length, where the gap is wider
	leastRound = 0.01 // area over the square of the length
)

// mostLoose is how many loose lines are tried for outlines that nearly close.
const mostLoose = 10_000

// unclosed tells outlines that do not close, and lines that lie at none.
func (a *assembler) unclosed() {
	w := newWeb(a.Lines, a.loose)
	var walks [][]int32
	if len(a.loose) <= mostLoose {
		w.tieLoose(widestGap)
		walks, _ = w.walks()
	}
	taken := map[int]bool{}
	for _, walk := range walks {
		var ring orb.Ring
		gap, at := 0., orb.Point{}
		for k := range walk { // the other way round: the outside of a web is walked clockwise
			h := walk[len(walk)-1-k] ^ 1
			ring = append(ring, a.part(w.lines[h/2], h%2 == 1).points...)
			on := walk[(2*len(walk)-2-k)%len(walk)] ^ 1
			end, start := w.ends[h^1], w.ends[on]
			if d := math.Hypot(end[0]-start[0], end[1]-start[1]); d >= gap {
				gap, at = d, end
			}
		}
		if !goesRound(append(ring, ring[0])) {
			continue
		}
		for _, h := range walk {
			taken[w.lines[h/2]] = true
		}
		a.openOutline(walk, w, gap, at)
	}
	var rest []int
	for _, i := range a.loose {
		if !taken[i] {
			rest = append(rest, i)
		}
	}
	w = newWeb(a.Lines, rest)
	w.tieLoose(a.Tolerance)
	for _, chain := range w.chains() {
		var line orb.LineString
		for _, h := range chain {
			line = append(line, a.part(w.lines[h/2], h%2 == 1).points...)
		}
		start, end := line[0], line[len(line)-1]
		gap := math.Hypot(start[0]-end[0], start[1]-end[1])
		outline := a.Roles[w.lines[chain[0]/2]].Role != Unnamed
		if outline || gap <= gapShare*plane.Length(line) && goesRound(append(orb.Ring(line), start)) {
			a.openOutline(chain, w, gap, end)
			continue
		}
		for _, h := range chain {
			i := w.lines[h/2]
			a.Roles[i] = LineRole{Role: Ignored, Because: "it lies at no outline"}
			a.fault(Fault{Kind: Stray, What: say.Textf("a line is left out: it lies at no outline"),
				At: a.Lines[i].Points[0], Place: a.Lines[i].Place})
		}
	}
}

// goesRound says whether a ring is as long as it is because it goes round something.
func goesRound(ring orb.Ring) bool {
	long := plane.Length(ring)
	return long >= 2*smallest && math.Abs(plane.Area(ring)) >= leastRound*long*long
}

// openOutline tells one that does not close.
func (a *assembler) openOutline(way []int32, w *web, gap float64, at orb.Point) {
	first := a.Lines[w.lines[way[0]/2]]
	hint := "close it where it was drawn"
	if gap <= MaxTolerance {
		hint += say.Textf(", or join ends that lie up to %.3g apart", say.MM(math.Ceil(gap*10)/10)).String()
	}
	for _, h := range way {
		r := &a.Roles[w.lines[h/2]]
		if r.Role == Unnamed {
			r.Role, r.Because = a.Outline, "it goes round something"
		}
	}
	a.fault(Fault{Kind: Open, What: say.Textf("an outline is open: its ends lie %.3g apart", say.MM(gap)), Hint: hint,
		At: at, Place: first.Place})
}
