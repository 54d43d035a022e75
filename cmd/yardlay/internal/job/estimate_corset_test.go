package job_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
)

// A corset is drafted for everybody of whom besides bust, waist, hip and back length only the
// under-bust is measured; without that it is refused by name.
func TestCorsetsFromEstimates(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 1500))
	for range often.Jobs(40, 500) {
		b := newSomeone(random)
		for _, name := range []string{"over_bust_girth", "high_hip_girth", "waist_to_over_bust", "waist_to_bust",
			"waist_to_underbust", "waist_to_high_hip", "waist_to_hips"} {
			delete(b.measures, name)
		}
		src := strings.Replace(b.job("draft = \"corset\"\npanels = 10\nreduction = 20\nlacing_gap = 40\n"), "[body]\n",
			"[body]\nestimate = true\n", 1)
		if why := drafted(t, src); why != "" {
			t.Fatalf("%s in:\n%s", why, src)
		}
		if why := drafted(t, strings.Replace(src, "underbust_girth", "wrist_girth", 1)); !strings.Contains(why,
			"lacks `underbust`") && !strings.Contains(why, "wrist") {
			t.Fatalf("without an under-bust: %q", why)
		}
	}
}
