package draft

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
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
	half, count := c.Panels/2, 0
	for _, b := range bones {
		count += b.Count
	}
	if want := 2 * (half + 1 + half); count != want {
		t.Errorf("%d bones, want %d", count, want)
	}
	c.Channel, c.MidBones = 0, false
	if none, err := bonesOf(c); err != nil || none != nil {
		t.Errorf("no channels: %v, %v", none, err)
	}
}

// Level edges and a straight centre back: 235 above the waist and 110 below it are 345 mm
// from edge to edge; 10 off at both ends leave 325, and allowances of 12 and 10 make a
// casing of 367. The waist of 720 less 60 and a gap of 50 takes a tape of 610, caught in
// 12 mm at each end; open in front as well, two of 305 (plain arithmetic).
func TestBonesAndTapeByHand(t *testing.T) {
	c := lanternCorset()
	c.FrontDip, c.SideDip, c.BackDip, c.SideRise, c.BackRise = 0, 0, 0, 0, 0
	c.BoneEnds, c.WaistTape = 10, 25
	d, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(d.Bones, func(b Bone) bool { return b.Channel == "centre back, at the edge" })
	want := Bone{Channel: "centre back, at the edge", Count: 2, Edge: 345, Ends: 10, Length: 325, Casing: 367}
	if i < 0 || !closeBones(d.Bones[i], want) {
		t.Errorf("%+v, want %+v", d.Bones, want)
	}
	if len(d.Tapes) != 1 || d.Tapes[0].Count != 1 || math.Abs(d.Tapes[0].Length-610) > 1e-9 ||
		math.Abs(d.Tapes[0].Cut()-634) > 1e-9 {
		t.Errorf("%+v", d.Tapes)
	}
	c.FrontOpening = true
	if d, err = c.Draft(); err != nil || d.Tapes[0].Count != 2 || math.Abs(d.Tapes[0].Length-305) > 1e-9 {
		t.Errorf("%+v, %v", d.Tapes, err)
	}
}

func closeBones(a, b Bone) bool {
	return a.Channel == b.Channel && a.Count == b.Count && a.Ends == b.Ends && math.Abs(a.Edge-b.Edge) < 1e-6 &&
		math.Abs(a.Length-b.Length) < 1e-6 && math.Abs(a.Casing-b.Casing) < 1e-6
}

// A bone is as long as its channel less its ends, and hardly longer than the longest seam of
// its corset: its wall runs round the outside of bends.
func TestBonesAreShorterThanTheSeams(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		c.BoneEnds = rapid.Float64Range(1, 20).Draw(t, "bones' ends")
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
		for _, b := range bones {
			if math.Abs(b.Edge-b.Length-2*b.Ends) > 1e-9 || !(b.Length > 0) ||
				b.Length > longest+2*c.Channel || b.Count != 2 {
				t.Fatalf("%+v; the longest seam is %.1f mm", b, longest)
			}
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

// A channel from edge to edge begins on the top and ends on the lower edge, however both
// run; trimmed it is shorter by both ends.
func TestChannelsReachBothEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		drawStyles(t, &c.PanelledBody)
		b, err := c.body()
		if err != nil {
			t.Skip(err)
		}
		for i := range b.shares {
			edges := b.edges(i)
			for _, ch := range b.channels(i) {
				line := b.within(i, ch.walls[0])
				n := len(line) - 1
				low, high := planar.DistanceFrom(edges[3].Line, line[0]), planar.DistanceFrom(edges[1].Line, line[n])
				if max(low, high) > 2.5*b.chord {
					t.Fatalf("%s of panel %d: %g from the top and %g from the lower edge", ch.name, i, low, high)
				}
				if d := plane.Length(line) - plane.Length(trimmed(line, 8)) - 16; math.Abs(d) > 0.05 {
					t.Fatalf("%s of panel %d: %g off", ch.name, i, d)
				}
			}
		}
	})
}
