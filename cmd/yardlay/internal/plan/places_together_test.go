package plan_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// twoSkirts is a skirt and an overskirt, each pieced as said and each with a godet in its side seams that a piecing
// seam at the width of their cloths meets.
func twoSkirts(under, over string) string {
	another := func(name, cloth, pieced string) string {
		_, part, _ := strings.Cut(skirtUnder(75, pieced, godetIn(15)), "[[part]]\nname = \"skirt\"\n")
		part = strings.NewReplacer("\"satin\"", "\""+cloth+"\"", "name = \"godet\"", "name = \""+name+" godet\"",
			"into = \"skirt\"", "into = \""+name+"\"").Replace(part)
		return fmt.Sprintf("[[part]]\nname = \"%s\"\n%s", name, part)
	}
	return skirtUnder(75, under, godetIn(15)) + "[[cloth]]\nid = \"voile\"\nwidth = 75\nprice = \"8.00/m\"\n" +
		another("overskirt", "voile", over)
}

// Parts that cannot be cut as their cloths ask for do not keep each other from being weighed: a place is chosen for
// each, of both of them, and of one that comes after a part that could be cut as it is. It is chosen even where there
// is no time to weigh any, for without it nothing could be cut.
func TestPartsThatCannotBeCutWaitForEachOther(t *testing.T) {
	const open, set = "pieced = { from_waist = 20 }", "pieced = { from_waist = 20, within = 56 }"
	late, end := plan.Lapsed(context.Background())
	defer end()
	cases := []struct {
		called      string
		ctx         context.Context
		under, over string
		chosen      string // parts
	}{
		{"both, late", late, open, open, "skirt overskirt"},
		{"both", context.Background(), open, open, "skirt overskirt"},
		{"the second", context.Background(), "pieced = { from_waist = 20, length = \"chosen\", within = 56 }", open,
			"overskirt"},
		{"the first", context.Background(), open, set, "skirt"},
	}
	for _, c := range cases[:often.Full(2, len(cases))] {
		j := testjobs.Read(t, twoSkirts(c.under, c.over))
		if _, err := plan.Tasks(j, 1); err == nil || !strings.Contains(err.Error(), "a piecing seam meets") {
			t.Fatalf("%s: as written: %v", c.called, err)
		}
		j = plan.Placed(c.ctx, j, plan.Options{Proofs: proofs})
		if _, err := plan.Tasks(j, 1); err != nil {
			t.Errorf("%s: at the places chosen: %v", c.called, err)
		}
		var chosen []string
		for _, p := range j.Parts {
			if p.Place.Within > 0 {
				chosen = append(chosen, p.Name)
				refusedBy(t, c.called, p)
			}
		}
		if got := strings.Join(chosen, " "); got != c.chosen {
			t.Errorf("%s: chosen for %q, want %q", c.called, got, c.chosen)
		}
	}
}

// refusedBy holds the place of a part to say that its own godet refused the others.
func refusedBy(t *testing.T, called string, p job.Part) {
	t.Helper()
	want := "part `godet`"
	if p.Name != "skirt" {
		want = "part `" + p.Name + " godet`"
	}
	if p.Place.Refused == nil || !strings.Contains(p.Place.Refused.Error(), want) {
		t.Errorf("%s: %s is refused by %v, want %s", called, p.Name, p.Place.Refused, want)
	}
}
