package plane

import (
	"testing"

	"github.com/paulmach/orb"
)

func TestTidy(t *testing.T) {
	square := orb.Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}
	for name, r := range map[string]orb.Ring{
		"repeated":           {{0, 0}, {0, 0}, {4, 0}, {4, 4}, {4, 4}, {0, 4}, {0, 0}, {0, 0}},
		"collinear":          {{0, 0}, {1, 0}, {2, 0}, {4, 0}, {4, 1}, {4, 4}, {0, 4}, {0, 0}},
		"clockwise":          {{0, 0}, {0, 4}, {4, 4}, {4, 0}, {0, 0}},
		"starts mid-side":    {{2, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {1, 0}, {2, 0}},
		"spike":              {{0, 0}, {4, 0}, {7, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}},
		"spike where closed": {{-3, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {-3, 0}},
	} {
		got := Tidy(r)
		if Area(got) != 16 || len(got) != 5 || CheckSimple(got) != nil {
			t.Errorf("%s: %v, want %v turned about at most", name, got, square)
		}
	}
}
