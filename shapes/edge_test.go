package shapes

import "testing"

// A hem is turned up by its allowance and raw without one; nothing else is hemmed.
func TestEdgesKnowTheirFinish(t *testing.T) {
	for _, c := range []struct {
		edge Edge
		want Finish
	}{
		{Edge{Kind: Hem, Allowance: 30}, Turned}, {Edge{Kind: Hem}, Raw}, {Edge{Kind: Fold}, Whole},
		{Edge{Kind: Seam}, Joined}, {Edge{Kind: Top, Allowance: 10}, Joined}, {Edge{Kind: Opening}, Joined},
	} {
		if got := c.edge.Finish(); got != c.want {
			t.Errorf("%v edge with %g mm is %v, want %v", c.edge.Kind, c.edge.Allowance, got, c.want)
		}
	}
}
