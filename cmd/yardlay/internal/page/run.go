package page

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/say"
)

// mostRuns is how many pieces of work that take a while go on at a time, of all jobs;
// others wait.
const mostRuns = 2

// bench holds the work on a job that takes a while: one run of each kind, the last that was
// begun.
type bench struct {
	mu      sync.Mutex
	version int
	changed chan struct{} // closed at the next version; nil when nobody waits
	runs    map[string]*run
	last    int // number of a run
	closed  bool
}

// close ends all runs, and begins no more.
func (b *bench) close() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.closed = true
	for _, r := range b.runs {
		r.end()
	}
}

// run is work on a job as its text stood. It ends when the job is edited, when nobody has
// the job on a page any more, or when somebody ends it; what it has found by then stays.
type run struct {
	bench  *bench
	number int
	text   string // of the job
	file   *job.File
	search live.Search // that cloths are laid by
	end    context.CancelFunc

	// What follows is guarded by the mutex of the bench.
	stage string
	told  time.Time // when the stage was told last
	found any       // so far
	over  bool
	ended bool // before it was done
	err   error
}

// running is a run at one time.
type running struct {
	Number int
	Stage  string
	Over   bool
	Ended  bool // before it was done
	Err    error
	Old    bool // of another text than the job has now
}

// errUnread is that of a text that holds no job.
var errUnread = say.Errorf("the job cannot be read as it stands").Hint("the text view says what needs mending")

// begin begins a run of a kind on the job as it stands; it takes the place of the last one.
func (o *opened) begin(kind string, work func(ctx context.Context, r *run) error) error {
	now := o.State()
	if !now.Holds {
		return invalid(errUnread)
	}
	ctx, end := context.WithCancel(context.Background())
	search := o.desk.Snapshot().Search
	b := &o.bench
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		end()
		return notFound("the job has been closed")
	}
	if was := b.runs[kind]; was != nil {
		was.end()
	}
	if b.runs == nil {
		b.runs = map[string]*run{}
	}
	b.last++
	r := &run{bench: b, number: b.last, text: string(now.Text), file: now.File, search: search, end: end,
		stage: "waiting for other work"}
	b.runs[kind] = r
	b.tell()
	o.ended.Go(func() { o.attend(ctx, r, now.Version) })
	o.ended.Go(func() {
		defer end()
		err := o.inTurn(ctx, r, work)
		r.set(func() { r.over, r.ended, r.err, r.stage = true, ctx.Err() != nil, err, "" })
	})
	return nil
}

// inTurn waits for a place and works.
func (o *opened) inTurn(ctx context.Context, r *run, work func(context.Context, *run) error) error {
	select {
	case o.server.working <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	defer func() { <-o.server.working }()
	plan.Settle(ctx, r.file, plan.Options{})
	return work(ctx, r)
}

// attend ends a run when its job is edited, and when nobody has had it on a page for a
// while.
func (o *opened) attend(ctx context.Context, r *run, version int) {
	defer r.end()
	idle := o.server.options.Idle
	beat := time.NewTicker(max(idle/8, time.Millisecond))
	defer beat.Stop()
	edited := make(chan struct{})
	ctx, done := context.WithCancel(ctx)
	defer done()
	o.ended.Go(func() {
		defer close(edited)
		for {
			now, err := o.Await(ctx, version)
			if err != nil || string(now.Text) != r.text {
				return
			}
			version = now.Version
		}
	})
	began := time.Now()
	for {
		select {
		case <-edited: // or over
			return
		case <-beat.C:
		}
		if gone, nobody := o.pages.gone(); nobody && min(gone, time.Since(began)) > idle {
			return
		}
	}
}

// set changes a run, and tells of it.
func (r *run) set(change func()) {
	r.bench.mu.Lock()
	defer r.bench.mu.Unlock()
	change()
	r.bench.tell()
}

// say says what the run does now; a page hears of it a few times a second at most.
func (r *run) say(stage string) {
	const often = 300 * time.Millisecond
	r.bench.mu.Lock()
	defer r.bench.mu.Unlock()
	if r.stage = stage; time.Since(r.told) > often {
		r.told = time.Now()
		r.bench.tell()
	}
}

// progress says how far a search is.
func (r *run) progress(p plan.Progress) {
	switch {
	case p.Of > 0 && p.Cloth != "":
		r.say(fmt.Sprintf("%d of %s done, now %s", p.Finished, say.Count(p.Of, "laying"), p.Cloth))
	case p.Cloth != "":
		r.say(p.Phase + ", " + p.Cloth)
	default:
		r.say(p.Phase)
	}
}

// tell makes a version, and wakes who waits for it.
func (b *bench) tell() {
	b.version++
	if b.changed != nil {
		close(b.changed)
		b.changed = nil
	}
}

// await returns the version once it is above after, or the error of the context.
func (b *bench) await(ctx context.Context, after int) (int, error) {
	for {
		b.mu.Lock()
		now := b.version
		if b.changed == nil {
			b.changed = make(chan struct{})
		}
		next := b.changed
		b.mu.Unlock()
		if now > after {
			return now, nil
		}
		select {
		case <-next:
		case <-ctx.Done():
			return now, ctx.Err()
		}
	}
}

// stop ends the run of a kind; what it has found stays.
func (o *opened) stop(kind string) {
	o.bench.mu.Lock()
	defer o.bench.mu.Unlock()
	if r := o.bench.runs[kind]; r != nil {
		r.end()
	}
}

// runOf returns the last run of a kind, as it is now, and what it has found; nil for none.
func (o *opened) runOf(kind string) (*running, *run, any) {
	text := string(o.State().Text)
	o.bench.mu.Lock()
	defer o.bench.mu.Unlock()
	r := o.bench.runs[kind]
	if r == nil {
		return nil, nil, nil
	}
	now := &running{Number: r.number, Stage: r.stage, Over: r.over, Ended: r.ended, Old: r.text != text}
	if r.err != nil && !r.ended {
		now.Err = r.err
	}
	return now, r, r.found
}

// runState is a run as the page shows it: how it stands, and what ends it.
type runState struct {
	Run          *running
	Stop, Target string
}

// ID is that of the button that ends it: what has one keeps the focus when it is shown anew.
func (s runState) ID() string { return strings.TrimPrefix(s.Target, "#") + "-stop" }

// stopOf is how the run of what is shown stands; stop ends it, and target is shown anew.
func stopOf(shown interface{ running() *running }, stop, target string) runState {
	return runState{shown.running(), stop, target}
}

func (s rowsShown) running() *running  { return s.Run }
func (s printShown) running() *running { return s.Run }
func (s whatIf) running() *running     { return s.Run }
