package shapes

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Ten panels with a bone at each of the four seams of a half and at the centre back,
// a second one behind the eyelets, and one down the middle of each panel make
// 2 x (5 + 1 + 5) = 22 bones (counted off the marks).
func TestBonesAreCounted(t *testing.T) {
	c := lanternCorset()
	bones, err := c.Bones()
	if err != nil {
		t.Fatal(err)
	}
	half := c.Panels / 2
	if want := 2 * (half + 1 + half); len(bones) != want {
		t.Errorf("%d bones, want %d", len(bones), want)
	}
	c.Channel, c.MidBones = 0, false
	if none, err := c.Bones(); err != nil || none != nil {
		t.Errorf("no channels: %v, %v", none, err)
	}
}

// A bone stays clear of both finished edges, so it is shorter than the longest
// seam of its corset, by the clearance at both ends; and they come in pairs.
func TestBonesAreShorterThanTheSeams(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		bones, err := c.Bones()
		pieces, bad := c.Draft()
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
