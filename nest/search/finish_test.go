package search

import "testing"

// Where nothing that was found since passes the judge, the first layout counts, which
// has, and not its items lined up in a row.
func TestTheFirstLayoutCountsWhereNoLaterOnePasses(t *testing.T) {
	first := &Layout{Length: 100}
	in := readyInstance(Problem{Width: 20, Items: []Item{
		{Choices: []Choice{{Ring: rectangle(60, 15)}}}, {Choices: []Choice{{Ring: rectangle(60, 15)}}},
	}})
	p := in.emptyPlacement()
	p.x[1], p.length = 30, 90
	r := &First{instance: in, clock: &clock{}, bests: []*placement{p}, shortestPassed: first, firstPassed: first}
	r.options.Judge = func(l Layout, _ func() bool) Verdict { return Verdict{OK: l.Length >= 120} }
	if out, err := r.best(); err != nil || out.Length != 100 {
		t.Errorf("%v mm, %v", out.Length, err)
	}
}
