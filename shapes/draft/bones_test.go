package draft

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// Ten panels with a bone at each of the four seams of a half and at the centre back,
// a second one behind the eyelets, and one down the middle of each panel make
// 2 x (5 + 1 + 5) = 22 bones (counted off the marks).
func TestBonesAreCounted(t *testing.T) {
	c := lanternCorset()
	bones, err := bonesOf(c)
	if err != nil {
		t.Fatal(err)
	}
	half := c.Panels / 2
	if want := 2 * (half + 1 + half); len(bones) != want {
		t.Errorf("%d bones, want %d", len(bones), want)
	}
	c.Channel, c.MidBones = 0, false
	if none, err := bonesOf(c); err != nil || none != nil {
		t.Errorf("no channels: %v, %v", none, err)
	}
}

// A bone stays clear of both finished edges, so it is shorter than the longest
// seam of its corset, by the clearance at both ends; and they come in pairs.
func TestBonesAreShorterThanTheSeams(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		bones, err := bonesOf(c)
		pieces, bad := piecesOf(c)
		if (err == nil) != (bad == nil) {
			t.Fatalf("bones say %v, the draft says %v", err, bad)
		}
		longest := 0.0
		for _, p := range pieces {
			for _, e := range p.Edges {
				longest = max(longest, e.Length())
			}
		}
		for i := 0; i < len(bones); i += 2 {
			if bones[i] != bones[i+1] || !(bones[i] > 0) || bones[i] > longest {
				t.Fatalf("bones %v; the longest seam is %.1f mm", bones, longest)
			}
		}
		if len(bones) > 0 && math.IsNaN(slices.Max(bones)) {
			t.Fatal("a bone without a length")
		}
	})
}

// Down the middle of a laced back panel goes a bone between the eyelets' second
// bone and the next seam: no channel runs into another, whatever the panels.
func TestBonesStayClearOfEachOther(t *testing.T) {
	c := lanternCorset()
	c.Shares = nil
	for c.Panels = 6; c.Panels <= 12; c.Panels += 2 {
		for _, p := range mustDraft(t, c) {
			for i, a := range p.Inside {
				for _, b := range p.Inside[:i] {
					if low, high := apart(a, b); low < 1 && high > -1 {
						t.Errorf("%d panels, %s: two lines come within %.1f and %.1f mm", c.Panels, p.Name, low, high)
					}
				}
			}
		}
	}
}

// apart returns the least and the greatest y by which line a lies above line b,
// where both run.
func apart(a, b orb.LineString) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	from, to := max(a[0][0], b[0][0]), min(a[len(a)-1][0], b[len(b)-1][0])
	for k := range 101 {
		x := from + (to-from)*float64(k)/100
		d := heightAt(a, x) - heightAt(b, x)
		low, high = min(low, d), max(high, d)
	}
	return low, high
}

// heightAt is the y of a line that runs along x.
func heightAt(l orb.LineString, x float64) float64 {
	for i := 1; i < len(l); i++ {
		if a, b := l[i-1], l[i]; x <= b[0] {
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	return l[len(l)-1][1]
}
