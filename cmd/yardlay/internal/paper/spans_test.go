package paper

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// held counts the intervals that lie whole within some span.
func held(list []span, whole []span) (n int) {
	for _, w := range whole {
		for _, s := range list {
			if s.from <= w.from && w.to <= s.to {
				n++
				break
			}
		}
	}
	return n
}

// checkSpans holds spans to their law: from end to end, none too long, neighbours sharing
// the overlap or more.
func checkSpans(t *rapid.T, list []span, a, b, most, before, overlap float64) {
	if list[0].from != a || list[len(list)-1].to != b {
		t.Fatalf("%v do not reach from %g to %g", list, a, b)
	}
	for i, s := range list {
		room := most
		if i == 0 {
			room -= before
		}
		if length := s.to - s.from; length > room+1e-6 || length < -1e-9 {
			t.Fatalf("span %d of %v is longer than %g", i, list, room)
		}
		if i > 0 && list[i-1].to-s.from < overlap-1e-6 {
			t.Fatalf("spans %d and %d of %v share less than %g", i-1, i, list, overlap)
		}
		if i > 0 && s.from <= list[i-1].from {
			t.Fatalf("span %d of %v goes back", i, list)
		}
	}
}

func TestSpans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-500, 500).Draw(t, "from")
		b := a + rapid.Float64Range(1, 6000).Draw(t, "length")
		most := rapid.Float64Range(100, 3000).Draw(t, "most")
		before := most * rapid.Float64Range(0, 0.5).Draw(t, "before")
		overlap := rapid.Float64Range(0, 40).Draw(t, "overlap")
		list := spans(a, b, most, before, overlap)
		checkSpans(t, list, a, b, most, before, overlap)
		if n := len(list); n > 1 { // one fewer does not reach
			if reach := float64(n-1)*most - before - float64(n-2)*overlap; reach >= b-a {
				t.Fatalf("%d spans where %d reach %g of %g", n, n-1, reach, b-a)
			}
		}
		var whole []span
		for range rapid.IntRange(0, 12).Draw(t, "pieces") {
			from := rapid.Float64Range(a, b).Draw(t, "piece")
			whole = append(whole, span{from, math.Min(b, from+rapid.Float64Range(1, 1.2*most).Draw(t, "long"))})
		}
		better := keeping(a, b, most, before, overlap, whole)
		checkSpans(t, better, a, b, most, before, overlap)
		if len(better) != len(list) {
			t.Fatalf("%d spans instead of %d", len(better), len(list))
		}
		if held(better, whole) < held(list, whole) {
			t.Fatalf("%v keep fewer whole than %v", better, list)
		}
	})
}

// A slow twin tries every set of beginnings.
func TestKeepingIsTheBestOfAllWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(150, 380).Draw(t, "length")
		var whole []span
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			from := rapid.Float64Range(0, b-10).Draw(t, "piece")
			whole = append(whole, span{from, math.Min(b, from+rapid.Float64Range(5, 90).Draw(t, "long"))})
		}
		const most, overlap = 100.0, 10.0
		plain := spans(0, b, most, 0, overlap)
		starts := startsFor(plain, whole)
		best := 0
		var try func(list []span)
		try = func(list []span) {
			last := list[len(list)-1]
			if len(list) == len(plain) {
				if last.to >= b {
					best = max(best, held(list, whole))
				}
				return
			}
			for _, at := range starts {
				if at > last.from && at <= last.to-overlap {
					try(append(list[:len(list):len(list)], span{at, math.Min(b, at+most)}))
				}
			}
		}
		try([]span{{0, math.Min(b, most)}})
		if got := held(keeping(0, b, most, 0, overlap, whole), whole); got != best {
			t.Fatalf("%d kept whole, %d can be", got, best)
		}
	})
}

// Both pages at a join show its crosses whole, whichever way it runs.
func TestJoinsShowOnBothPages(t *testing.T) {
	along, across := spans(0, 4000, 1500, 200, 20), spans(0, 1700, 600, 0, 20)
	crosses := 0
	for _, it := range joins(along, across) {
		l, ok := it.(sheet.Line)
		if !ok || l.Role != sheet.RoleNotch {
			continue
		}
		crosses++
		shown := 0
		for _, x := range along {
			for _, y := range across {
				page := orb.Bound{Min: orb.Point{x.from, y.from}, Max: orb.Point{x.to, y.to}}
				if page.Contains(l.Path[0]) && page.Contains(l.Path[1]) {
					shown++
				}
			}
		}
		if shown < 2 {
			t.Errorf("%v is whole on %d pages", l.Path, shown)
		}
	}
	if want := 2 * (2*20 + 2*8); crosses < want {
		t.Errorf("%d strokes of crosses", crosses)
	}
	if letter(0) != "A" || letter(27) == letter(1) {
		t.Error("two joins have one name")
	}
}
