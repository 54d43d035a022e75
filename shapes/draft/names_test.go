package draft

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		gores  int
		double bool
		want   []string
	}{
		{1, false, []string{"skirt"}},
		{2, false, []string{"skirt half"}},
		{2, true, []string{"skirt"}},
		{3, false, []string{"back", "centre front"}},
		{4, false, []string{"back", "front"}},
		{4, true, []string{"back", "centre front"}},
		{5, false, []string{"back", "side", "centre front"}},
		{6, false, []string{"centre back", "side", "centre front"}},
		{6, true, []string{"back", "side", "centre front"}},
		{7, false, []string{"centre back", "side back", "side front", "centre front"}},
		{8, false, []string{"centre back", "side back", "side front", "centre front"}},
		{10, true, []string{"centre back", "side back", "side", "side front", "centre front"}},
		{12, false, []string{"centre back", "side back 1", "side back 2", "side front 2", "side front 1",
			"centre front"}},
		{14, false, []string{"centre back", "side back 1", "side back 2", "side", "side front 2", "side front 1",
			"centre front"}},
	} {
		var names []string
		for _, p := range places(c.gores, c.double) {
			names = append(names, p.name)
		}
		if d := cmp.Diff(c.want, names); d != "" {
			t.Errorf("%d gores, double front %v: %s", c.gores, c.double, d)
		}
	}
}

// For any number of gores: each place is named once, they take up all the gores,
// and each starts where the last ended.
func TestPlacesFillTheSkirt(t *testing.T) {
	for gores := 1; gores <= maxGores; gores++ {
		for _, double := range []bool{false, true} {
			if double && gores%2 == 1 {
				continue
			}
			seen, taken, back := map[string]bool{}, 0, 0
			for _, p := range places(gores, double) {
				if seen[p.name] || p.name == "" {
					t.Fatalf("%d gores: %q twice", gores, p.name)
				}
				seen[p.name] = true
				if p.back != back {
					t.Fatalf("%d gores: %q starts at %d, want %d", gores, p.name, p.back, back)
				}
				back += p.wide
				taken += p.wide
				if p.pair {
					taken += p.wide
				}
			}
			if taken != gores {
				t.Fatalf("%d gores, double %v: places take %d", gores, double, taken)
			}
		}
	}
}
