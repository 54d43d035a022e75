package live

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// patience is more than any job of these tests takes on a busy machine.
const patience = 10 * time.Minute

// open returns a desk that is closed with the test.
func open(t *testing.T, o Options) *Desk {
	k := New(o)
	t.Cleanup(k.Close)
	return k
}

// until waits for a snapshot that is as asked for, and judges each that it meets.
func until(t *testing.T, k *Desk, what string, ok func(Snapshot) bool) Snapshot {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	for s := k.Snapshot(); ; {
		for _, c := range s.Cloths {
			if c.Picture != nil {
				judge(t, c)
			}
		}
		if ok(s) {
			return s
		}
		next, err := k.Await(ctx, s.Version)
		if err != nil {
			t.Fatalf("no snapshot with %s: %v; the last is %s", what, err, states(s))
		}
		if next.Version <= s.Version {
			t.Fatalf("version %d after %d", next.Version, s.Version)
		}
		s = next
	}
}

func states(s Snapshot) string {
	text := fmt.Sprintf("busy %v, refused %v", s.Busy, s.Refused)
	for _, c := range s.Cloths {
		text += fmt.Sprintf("; %s %v, old %v, refused %v", c.ID, c.State, c.Old, c.Refused)
	}
	return text
}

func settled(s Snapshot) bool { return !s.Busy }

// judge holds every layout of a cloth that is shown to nest.Verify.
func judge(t *testing.T, c Cloth) {
	t.Helper()
	for i, m := range c.Picture.Cloth().Markers {
		if err := nest.Verify(m.Problem, m.Layout); err != nil {
			t.Fatalf("%s, marker %d is shown and does not hold: %v", c.ID, i, err)
		}
	}
}

// written is lay.json.
func written(t *testing.T, r *report.Report) string {
	t.Helper()
	text, err := json.MarshalIndent(r, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// run lays a job as the command does.
func run(t *testing.T, f *job.File, s Search) (string, error) {
	t.Helper()
	o := s.options(f.Job())
	r, err := report.Run(context.Background(), f.Job(), o)
	if err != nil {
		return "", err
	}
	return written(t, r), nil
}

// quick is a search that ends soon, in a run by hand sooner.
var quick = Search{Effort: often.Full(nest.Trial, nest.Quick), Seed: 1}

func file(t *testing.T, src string) *job.File {
	t.Helper()
	return testjobs.File(t, "job.toml", src)
}

// small is the small job with a cape so long and wool of a name.
func small(length int, wool string) string {
	src := strings.Replace(testjobs.Small, "id = \"wool\"", "id = \"wool\"\ntitle = \""+wool+"\"", 1)
	return strings.Replace(src, "length = 14", fmt.Sprintf("length = %d", length), 1)
}

// In the end there is what a run of the command finds, byte by byte; gowns and repeats too.
func TestEndsAsTheCommandDoes(t *testing.T) {
	laid := 0
	for n := range often.Jobs(4, 60) {
		seed := 7 + n // the first few ask for what cannot be laid
		s := Search{Effort: nest.Trial, Seed: uint64(seed), Gowns: 1 + seed%2}
		if n%4 == 3 {
			s.Effort = nest.Quick
		}
		f := file(t, testjobs.Gown(testjobs.RandomCloth.Example(seed)))
		want, wrong := run(t, f, s)
		k := open(t, Options{Search: s})
		k.Show(f)
		got := until(t, k, "an end", settled)
		if (wrong != nil) != (got.Report == nil) {
			t.Fatalf("job %d: the command says %v, the desk %s", seed, wrong, states(got))
		}
		if wrong != nil {
			continue
		}
		if !got.Final || k.Report() != got.Report {
			t.Errorf("job %d is laid, and not final", seed)
		}
		if diff := cmp.Diff(want, written(t, got.Report)); diff != "" {
			t.Fatalf("job %d (-command +desk):\n%s", seed, diff)
		}
		laid++
		k.Close()
	}
	if laid < 2 {
		t.Errorf("%d jobs are laid", laid)
	}
}

// However a job is edited, and whatever is cancelled by that, in the end the desk has what the command
// finds for the last text, and what the last text refuses.
func TestEditsAndCancels(t *testing.T) {
	for seed := range often.Jobs(2, 20) {
		rng := rand.New(rand.NewPCG(1, uint64(seed)))
		k := open(t, Options{Search: quick, Keep: 1 + rng.IntN(4),
			Idle: time.Duration(1+rng.IntN(50)) * time.Millisecond})
		var last *job.File
		for range 2 + rng.IntN(12) {
			src := small(10+rng.IntN(6), []string{"moss", "rust"}[rng.IntN(2)])
			if rng.IntN(5) == 0 {
				src = strings.Replace(src, "width = 58", "width = 12", 1) // the cape is wider
			}
			last = file(t, src)
			k.Show(last)
			time.Sleep(time.Duration(rng.ExpFloat64() * float64(20*time.Millisecond)))
		}
		got := until(t, k, "an end", settled)
		if got.File != last {
			t.Fatalf("%d: the last job shown is another one", seed)
		}
		want, wrong := run(t, last, quick)
		var placed strict.Errors
		if errors.As(wrong, &placed) {
			var said []string
			for _, c := range got.Cloths {
				if c.Refused != nil {
					said = append(said, c.Refused.Error())
				}
			}
			if joined := strings.Join(said, "\n"); joined != wrong.Error() {
				t.Fatalf("%d: the command says %v, the desk %q", seed, wrong, joined)
			}
			continue
		}
		if got.Report == nil {
			t.Fatalf("%d: %s, the command says %v", seed, states(got), wrong)
		}
		if diff := cmp.Diff(want, written(t, got.Report)); diff != "" {
			t.Fatalf("%d (-command +desk):\n%s", seed, diff)
		}
		for _, c := range got.Cloths {
			if c.Old {
				t.Errorf("%d: %s is old in the end", seed, c.ID)
			}
		}
	}
}

// What an edit does not touch is not laid again, and what is taken back is there at once.
func TestLaysWhatIsTouched(t *testing.T) {
	k := open(t, Options{Search: quick})
	k.Show(file(t, small(14, "moss")))
	first := until(t, k, "an end", settled)
	laid := func() int { k.mu.Lock(); defer k.mu.Unlock(); return len(k.tasks) }
	if n := laid(); n != len(first.Cloths) {
		t.Fatalf("%d tasks for %d cloths", n, len(first.Cloths))
	}
	k.Show(file(t, small(14, "rust"))) // another name, the same laying
	named := until(t, k, "the new name", func(s Snapshot) bool { return !s.Busy && s.Cloths[0].Title == "rust" })
	if laid() != len(first.Cloths) {
		t.Error("another name of a cloth is laid anew")
	}
	if got := named.Cloths[0].Picture.Cloth().Title; got != "rust" {
		t.Errorf("the picture shows %q", got)
	}
	k.Show(file(t, strings.Replace(small(14, "moss"), "width = 54", "width = 60", 1)))
	until(t, k, "an end", func(s Snapshot) bool { return s.Cloths[1].Picture.Cloth().Width > 1400 && !s.Busy })
	if n := laid(); n != len(first.Cloths)+1 {
		t.Errorf("a broader tulle makes %d tasks of %d", n, len(first.Cloths))
	}
	began := processor.Time()
	k.Show(file(t, small(14, "moss")))
	back := until(t, k, "what was",
		func(s Snapshot) bool { return s.Final && s.Cloths[1].Picture.Cloth().Width < 1400 })
	if took := processor.Time() - began; processor.Exceeds(took, time.Second) { // 5 ms
		t.Errorf("what was taken back is there after %v", took)
	}
	if written(t, back.Report) != written(t, first.Report) {
		t.Error("what was taken back is another layout")
	}
}

// What no longer fits is told old until there is something new; a cloth that is refused says
// why, and the others are laid.
func TestOldAndRefused(t *testing.T) {
	k := open(t, Options{Search: quick})
	k.Show(file(t, small(14, "moss")))
	until(t, k, "an end", settled)
	narrow := file(t, strings.Replace(small(14, "moss"), "width = 58", "width = 12", 1))
	k.Show(narrow)
	if s := k.Snapshot(); s.File == narrow && s.Cloths[0].Picture != nil && !s.Cloths[0].Old {
		t.Error("what was laid for another width is not told old")
	}
	s := until(t, k, "a refusal", func(s Snapshot) bool { return !s.Busy && s.Cloths[0].State == Refused })
	var placed strict.Errors
	if c := s.Cloths[0]; !c.Old || c.Picture == nil || !errors.As(c.Refused, &placed) || placed[0].Hint == "" {
		t.Errorf("refused: %s", states(s))
	}
	if c := s.Cloths[1]; c.Old || c.State != Laid && c.State != Proved {
		t.Errorf("the other cloth: %s", states(s))
	}
	if s.Report != nil || k.Report() != nil {
		t.Error("there is a report of a job that cannot be laid")
	}
	k.Show(file(t, strings.Replace(small(14, "moss"), "length = 14", "length = 14\nneck_drop = 14", 1)))
	s = until(t, k, "a job that cannot be drafted", func(s Snapshot) bool { return s.Refused != nil })
	for _, c := range s.Cloths {
		if c.Picture != nil && !c.Old {
			t.Errorf("%s is not told old", c.ID)
		}
	}
	k.Show(file(t, small(14, "moss")))
	if s = until(t, k, "an end", func(s Snapshot) bool { return s.Final }); s.Cloths[0].Old {
		t.Error("what fits is told old")
	}
}

// A job that cannot be drafted ends what was begun for the one before: nothing is busy for ever.
func TestRefusedBeforeItIsLaid(t *testing.T) {
	k := open(t, Options{Search: quick})
	for range cap(k.trials) {
		k.trials <- struct{}{} // no first layout is tried
	}
	k.Show(file(t, small(14, "moss")))
	until(t, k, "cloths that wait", func(s Snapshot) bool { return len(s.Cloths) > 0 && s.Cloths[0].State == Waiting })
	k.Show(file(t, strings.Replace(small(14, "moss"), "length = 14", "length = 14\nneck_drop = 14", 1)))
	s := until(t, k, "a refusal", func(s Snapshot) bool { return s.Refused != nil && !s.Busy })
	for _, c := range s.Cloths {
		if c.State != Paused || c.Picture != nil {
			t.Errorf("%s", states(s))
		}
	}
	for range cap(k.trials) {
		<-k.trials
	}
	k.Show(file(t, small(14, "moss")))
	until(t, k, "an end", func(s Snapshot) bool { return s.Final })
}

// There is a layout long before the search is over, and it gets better, never worse.
func TestFirstAtOnceThenBetter(t *testing.T) {
	k := open(t, Options{Search: quick})
	k.Show(file(t, testjobs.Panels(23, "5", "7", "nap = \"all-way\"\nprice = \"9.00/yd\"\nsold_by = \"1/8 yd\"")))
	var needed []float64
	states := map[State]bool{}
	until(t, k, "an end", func(s Snapshot) bool {
		for _, c := range s.Cloths {
			states[c.State] = true
			if c.Picture != nil && (len(needed) == 0 || needed[len(needed)-1] != c.Picture.Cloth().Needed) {
				needed = append(needed, c.Picture.Cloth().Needed)
			}
		}
		return len(s.Cloths) > 0 && settled(s)
	})
	for i := range needed[1:] {
		if needed[i+1] > needed[i] {
			t.Errorf("needed %v", needed)
		}
	}
	if !states[Laying] || !(states[Laid] || states[Proved]) {
		t.Errorf("states met: %v", states)
	}
}

// Nobody watches: the search ends, and begins again when somebody does; what it comes to is the same.
func TestPausesUnwatched(t *testing.T) {
	k := open(t, Options{Search: Search{Effort: nest.Thorough, Seed: 1}, Idle: 50 * time.Millisecond})
	k.Show(file(t, testjobs.Panels(11, "13", "17", "nap = \"all-way\"")))
	until(t, k, "a search", func(s Snapshot) bool { return len(s.Cloths) > 0 && s.Cloths[0].State == Laying })
	paused := func() bool { k.mu.Lock(); defer k.mu.Unlock(); return k.paused && k.kept[0].stop == nil }
	for began := time.Now(); !paused(); time.Sleep(5 * time.Millisecond) {
		if time.Since(began) > patience {
			t.Fatal("an unwatched search goes on")
		}
	}
	k.Search(quick)
	s := until(t, k, "an end", func(s Snapshot) bool { return s.Search == quick && s.Final })
	want, err := run(t, s.File, quick)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, written(t, s.Report)); diff != "" {
		t.Error(diff)
	}
}

// Somebody who waits watches, however long nothing changes; so does who says so, between asking too.
func TestWaitingIsWatching(t *testing.T) {
	const idle = 20 * time.Millisecond
	for name, watch := range map[string]func(k *Desk) (leave func()){
		"waits": func(k *Desk) func() {
			ctx, cancel := context.WithCancel(context.Background())
			over := make(chan error)
			go func() {
				_, err := k.Await(ctx, k.Snapshot().Version+1) // what was paused before makes one
				over <- err
			}()
			return func() {
				cancel()
				if err := <-over; !errors.Is(err, context.Canceled) {
					t.Errorf("waiting ends with %v", err)
				}
			}
		},
		"says so": func(k *Desk) func() { return k.Watch() },
	} {
		k := open(t, Options{Search: quick, Idle: idle})
		paused := func() (paused, watched bool) {
			k.mu.Lock()
			defer k.mu.Unlock()
			return k.paused, k.watching > 0
		}
		leave := watch(k)
		for _, watched := paused(); !watched; _, watched = paused() {
			time.Sleep(time.Millisecond)
		}
		for range 10 {
			time.Sleep(idle)
			if yes, _ := paused(); yes {
				t.Errorf("%s: paused while somebody is there", name)
			}
		}
		leave()
		for began := time.Now(); !k.Rests(); time.Sleep(time.Millisecond) {
			if time.Since(began) > patience {
				t.Fatalf("%s: not paused with nobody there", name)
			}
		}
	}
}

// Searching on and on never makes it worse, keeps to its ceiling, and leaves what the command finds.
func TestOnAndOn(t *testing.T) {
	on := quick
	on.OnAndOn = true
	k := open(t, Options{Search: on, Ceiling: often.Full(time.Second/10, time.Second/4)})
	f := file(t, testjobs.Panels(11, "13", "17", "nap = \"all-way\"\ngap = \"1/8\""))
	k.Show(f)
	s := until(t, k, "an end", func(s Snapshot) bool { return len(s.Cloths) > 0 && settled(s) })
	far := s.Cloths[0].Picture.Cloth()
	if s.Report.Effort != nest.Endless.String() {
		t.Errorf("what was found with more than the effort is told as %q", s.Report.Effort)
	}
	k.Search(quick)
	s = until(t, k, "an end", func(s Snapshot) bool { return s.Search == quick && s.Final })
	if c := s.Cloths[0].Picture.Cloth(); c.Needed < far.Needed {
		t.Errorf("%v mm are needed after searching on, %v before", far.Needed, c.Needed)
	}
	want, err := run(t, f, quick)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, written(t, s.Report)); diff != "" {
		t.Error(diff)
	}
}

// Closed mid-search nothing runs on, and whoever waits is told.
func TestCloseLeavesNothing(t *testing.T) {
	before := runtime.NumGoroutine()
	waited := make(chan error, 1)
	for i := range 6 {
		k := New(Options{Search: Search{Effort: nest.Thorough, Seed: 1, OnAndOn: i%2 == 0}})
		k.Show(file(t, testjobs.Panels(11+i, "13", "17", "nap = \"all-way\"")))
		if i > 2 {
			until(t, k, "a search", func(s Snapshot) bool { return len(s.Cloths) > 0 && s.Cloths[0].State == Laying })
		}
		v := k.Snapshot().Version
		go func() {
			for {
				s, err := k.Await(context.Background(), v)
				if v = s.Version; err != nil {
					waited <- err
					return
				}
			}
		}()
		began := processor.Time()
		k.Close()
		if took := processor.Time() - began; processor.Exceeds(took, 2*time.Second) { // 0.3 s of two, as nest promises
			t.Errorf("closing took %v", took)
		}
		if err := <-waited; !errors.Is(err, ErrClosed) {
			t.Errorf("who waits is told %v", err)
		}
		k.Show(file(t, testjobs.Small)) // too late
		k.Close()
	}
	for began := time.Now(); runtime.NumGoroutine() > before; time.Sleep(5 * time.Millisecond) {
		if time.Since(began) > patience {
			buf := make([]byte, 1<<16)
			t.Fatalf("%d goroutines were there, %d are:\n%s", before, runtime.NumGoroutine(),
				buf[:runtime.Stack(buf, true)])
		}
	}
}

// Tasks beyond those remembered are forgotten, those on the desk never.
func TestForgets(t *testing.T) {
	k := open(t, Options{Search: Search{Effort: nest.Trial}, Keep: 3})
	for length := 10; length < 16; length++ {
		f := file(t, small(length, "moss"))
		k.Show(f)
		until(t, k, "an end", func(s Snapshot) bool { return s.File == f && s.Final })
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if len(k.kept) != 3 || len(k.tasks) != 3 {
		t.Errorf("%d layings are kept, %d known", len(k.kept), len(k.tasks))
	}
	for _, p := range k.places {
		if k.tasks[p.laying.key] != p.laying {
			t.Error("a laying on the desk is forgotten")
		}
	}
}

// Whoever waits hears that nothing is busy any more, when what is shown is laid already and the version that
// says so is the last one.
func TestNothingIsBusyInTheEnd(t *testing.T) {
	k := open(t, Options{Search: quick})
	jobs := []*job.File{file(t, small(14, "moss")), file(t, small(14, "rust"))}
	for n := range often.Full(100, 300) {
		f := jobs[n%2]
		k.Show(f)
		until(t, k, "the end", func(s Snapshot) bool { return s.File == f && !s.Busy })
	}
}
