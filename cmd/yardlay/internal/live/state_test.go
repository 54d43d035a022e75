package live

import (
	"context"
	"errors"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// panels is a job of so many rectangles, laid at once.
func panels(n int, cloth string) string {
	return testjobs.Panels(n, "13", "17", "nap = \"all-way\"\n"+cloth)
}

// tried is the one task of a job and a trial of it.
func tried(t *testing.T, src string) (plan.Task, plan.Laid) {
	t.Helper()
	tasks, err := plan.Tasks(testjobs.Read(t, src), 1)
	if err != nil {
		t.Fatal(err)
	}
	laid, err := plan.Do(context.Background(), tasks[0], plan.Options{Effort: nest.Trial}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return tasks[0], laid
}

// A cloth waits until it has a layout, is laid while something looks for a better one, and is done when nothing does:
// how far it is, is told of one search alone.
func TestHowAClothStands(t *testing.T) {
	task, laid := tried(t, panels(5, ""))
	worse, proved := laid, laid
	worse.LeastBuy, proved.LeastBuy = 0, laid.Buy.Bought
	folded, _ := tried(t, panels(4, "both_faces = true\nlay = \"crosswise-fold\"\n"))
	folded.Stretches = slices.Concat(folded.Stretches, folded.Stretches)
	shelved, _ := tried(t, panels(5, "have = [{ name = \"rest\", length = 30 }]\n"))
	wrong := errors.New("wrong")
	runs := func() {}
	half := plan.Progress{Progress: nest.Progress{Done: 0.5, Phase: "compress"}}
	for name, c := range map[string]struct {
		laying  laying
		task    plan.Task
		onAndOn bool
		state   State
		done    float64
	}{
		"waiting":              {laying{stop: runs}, task, false, Waiting, 0},
		"laying":               {laying{stop: runs, best: &worse, now: half}, task, false, Laying, 0.5},
		"on two stretches":     {laying{stop: runs, best: &worse, now: half}, folded, false, Laying, -1},
		"from leftovers":       {laying{stop: runs, best: &worse, now: half}, shelved, false, Laying, -1},
		"on and on":            {laying{stop: runs, best: &worse, found: &worse, now: half}, task, true, Laying, -1},
		"laid":                 {laying{best: &worse, found: &worse, now: half}, task, false, Laid, 1},
		"laid, stopping":       {laying{stop: runs, best: &worse, found: &worse}, task, false, Laid, 1},
		"proved":               {laying{best: &proved, found: &proved}, task, false, Proved, 1},
		"proved, on and on":    {laying{best: &proved, found: &worse}, task, true, Proved, 1},
		"found was not proved": {laying{best: &proved, found: &worse}, task, false, Laid, 1},
		"spent":                {laying{best: &worse, found: &worse, spent: true}, task, true, Laid, 1},
		"ended, on and on":     {laying{best: &worse, found: &worse}, task, true, Paused, -1},
		"paused":               {laying{best: &worse, now: half}, task, false, Paused, 0.5},
		"paused before all":    {laying{}, task, false, Paused, 0},
		"wrong":                {laying{stop: runs, err: wrong}, task, false, Refused, 0},
	} {
		k := open(t, Options{})
		k.drawn.search.OnAndOn = c.onAndOn
		c.laying.task = c.task
		got := k.cloth(&place{job: testjobs.Read(t, panels(5, "")), task: c.task, laying: &c.laying})
		if got.State != c.state || got.Done != c.done || (got.Picture != nil) != (c.laying.best != nil) || got.Old {
			t.Errorf("%s: %v, done %v, %+v", name, got.State, got.Done, got)
		}
		if (got.Refused != nil) != (c.laying.err != nil) || got.Kept != nil || got.ID != "satin" {
			t.Errorf("%s: %+v", name, got)
		}
	}
	k := open(t, Options{})
	old := &Picture{Number: 7}
	got := k.cloth(&place{task: task, refused: wrong, old: old})
	if got.State != Refused || !errors.Is(got.Refused, wrong) || got.Picture != old || !got.Old {
		t.Errorf("refused: %+v", got)
	}
	got = k.cloth(&place{task: task, laying: &laying{stop: runs}, old: old})
	if got.State != Waiting || got.Picture != old || !got.Old {
		t.Errorf("waiting with what lay there before: %+v", got)
	}
}

// A picture has a number of its own, and keeps it as long as what it shows is the best.
func TestPicturesAreNumbered(t *testing.T) {
	task, laid := tried(t, panels(5, ""))
	k := open(t, Options{})
	p := &place{job: testjobs.Read(t, panels(5, "")), task: task, laying: &laying{task: task, best: &laid}}
	first := k.pictureOf(p)
	if first == nil || first.Number != 1 || k.pictureOf(p) != first || first.Cloth().Needed != laid.Needed {
		t.Fatalf("%+v", first)
	}
	other := laid
	p.laying.best = &other
	if second := k.pictureOf(p); second == first || second.Number != 2 {
		t.Errorf("another layout has picture %d", second.Number)
	}
	if p.laying.err = errors.New("wrong"); k.pictureOf(p) != nil {
		t.Error("what is wrong has a picture")
	}
}

// A better layout is taken up, a worse one never; one that needs as much is, for its bound, as long as the search goes
// on and nothing is found to its end.
func TestWhatIsTakenUp(t *testing.T) {
	_, laid := tried(t, panels(5, ""))
	better, worse := laid, laid
	better.Needed--
	worse.Needed++
	ended, end := context.WithCancel(context.Background())
	end()
	running := context.Background()
	for name, c := range map[string]struct {
		ctx   context.Context
		was   laying
		is    plan.Laid
		taken bool
	}{
		"the first":                 {running, laying{}, laid, true},
		"the first, ended":          {ended, laying{}, laid, true},
		"a better one":              {running, laying{best: &laid}, better, true},
		"a better one, ended":       {ended, laying{best: &laid}, better, true},
		"a better one, after all":   {running, laying{best: &laid, found: &laid}, better, true},
		"a worse one":               {running, laying{best: &laid}, worse, false},
		"as good a one":             {running, laying{best: &laid}, laid, true},
		"as good a one, ended":      {ended, laying{best: &laid}, laid, false},
		"as good a one, after all":  {running, laying{best: &laid, found: &laid}, laid, false},
		"as good as one not proved": {running, laying{best: &better, found: &worse}, laid, false},
	} {
		k := open(t, Options{})
		version := k.Snapshot().Version
		plain := laid
		if c.was.found != nil {
			found := *c.was.found
			found.Plain, found.Alone = &plain, &plain
			c.was.found = &found
		}
		before := c.was.best
		k.found(c.ctx, &c.was, c.is)
		if taken := c.was.best != before; taken != c.taken || (k.Snapshot().Version > version) != taken {
			t.Errorf("%s: taken %v, version %d after %d", name, taken, k.Snapshot().Version, version)
		}
		if c.taken && (c.was.best.Needed != c.is.Needed || (c.was.best.Plain == &plain) != (c.was.found != nil) ||
			(c.was.best.Alone == &plain) != (c.was.found != nil)) {
			t.Errorf("%s: %+v", name, c.was.best)
		}
	}
}

// Progress alone makes a version twice a second at the most; each of it is noted.
func TestProgressIsToldNowAndThen(t *testing.T) {
	k := open(t, Options{})
	l := &laying{}
	before := k.Snapshot().Version
	for i := range 20 {
		k.progress(l, plan.Progress{Progress: nest.Progress{Done: float64(i) / 20}})
	}
	if v := k.Snapshot().Version; v > before+5 || v < before+1 || l.now.Done != 0.95 {
		t.Errorf("twenty steps make %d versions and end at %v", v-before, l.now.Done)
	}
	k.told = time.Now().Add(-tellEvery)
	before = k.Snapshot().Version
	k.progress(l, plan.Progress{})
	if v := k.Snapshot().Version; v != before+1 {
		t.Errorf("progress after a while makes %d versions", v-before)
	}
}

// What is left open has the values that are documented; what is said stays.
func TestOptionsLeftOpen(t *testing.T) {
	want := Options{Workers: runtime.GOMAXPROCS(0), Memory: 64e6, Idle: time.Minute, Ceiling: 10 * time.Minute, Keep: 64}
	if diff := cmp.Diff(want, Options{}.withDefaults()); diff != "" {
		t.Error(diff)
	}
	said := Options{Search: quick, Workers: 1, Memory: 1, Idle: 1, Ceiling: 1, Keep: 1}
	if diff := cmp.Diff(said, said.withDefaults()); diff != "" {
		t.Error(diff)
	}
	l := laying{job: testjobs.Read(t, panels(1, "")), search: Search{Effort: nest.Quick, Seed: 9}}
	for workers, memory := range map[int]int64{1: 64e6, 4: 16e6, 100e6: 1} {
		o := l.options(Options{Workers: workers, Memory: 64e6})
		if o.Memory != memory || o.Effort != nest.Quick || o.Seed != 9 || o.Gowns != 1 || o.Unit != l.job.Unit {
			t.Errorf("with %d workers: %+v", workers, o)
		}
	}
}

// Processors are shared out among the searches that run: as many to each, one at the least, none to what has ended.
func TestProcessorsAreSharedOut(t *testing.T) {
	_, laid := tried(t, panels(5, ""))
	over := func() *laying { return &laying{stop: func() {}, best: &laid, found: &laid} }
	runs := func() *laying { return &laying{stop: func() {}} }
	for name, c := range map[string]struct {
		kept []*laying
		want int
	}{
		"nothing": {nil, 6}, "one": {[]*laying{runs()}, 6}, "two": {[]*laying{runs(), runs()}, 3},
		"two of four": {[]*laying{runs(), over(), {}, runs()}, 3},
		"many":        {slices.Repeat([]*laying{runs()}, 9), 1},
	} {
		k := open(t, Options{Workers: 6})
		k.kept = c.kept
		got := 0
		k.inTurn(context.Background(), func(workers int) { got = workers })
		if got != c.want || len(k.turns) != 0 {
			t.Errorf("%s: %d processors, not %d; %d turns are taken", name, got, c.want, len(k.turns))
		}
		k.kept = nil
	}
	k := open(t, Options{Workers: 1})
	k.turns <- struct{}{}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	k.inTurn(ctx, func(int) { t.Error("done without a processor") })
	if <-k.turns; len(k.turns) != 0 {
		t.Error("a turn is left")
	}
}

// What is remembered is what was on the desk last, in that order, taken up again or new.
func TestTheOldestIsForgotten(t *testing.T) {
	k := open(t, Options{Search: Search{Effort: nest.Trial}, Keep: 3})
	job := func(n int) string { return panels(n, "") }
	var keys []string
	show := func(n int) string {
		f := file(t, job(n))
		k.Show(f)
		until(t, k, "an end", func(s Snapshot) bool { return s.File == f && s.Final })
		k.mu.Lock()
		defer k.mu.Unlock()
		keys = keys[:0]
		for _, l := range k.kept {
			keys = append(keys, l.key)
		}
		if len(k.tasks) != len(k.kept) {
			t.Errorf("%d tasks of %d layings", len(k.tasks), len(k.kept))
		}
		return k.places[0].laying.key
	}
	a, b, c := show(1), show(2), show(3)
	if want := []string{a, b, c}; !slices.Equal(keys, want) {
		t.Fatalf("%d are remembered in another order", len(keys))
	}
	if again := show(1); again != a || !slices.Equal(keys, []string{b, c, a}) {
		t.Error("what is taken up again is not the latest")
	}
	if d := show(4); !slices.Equal(keys, []string{c, a, d}) {
		t.Error("the oldest is not the one forgotten")
	}
	if strings.Contains(strings.Join(keys, " "), b) {
		t.Error("what is forgotten is remembered")
	}
}
