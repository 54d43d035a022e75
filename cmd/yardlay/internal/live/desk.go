package live

import (
	"context"
	"errors"
	"runtime"
	"slices"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// Search says how hard and how cloths are laid.
type Search struct {
	Effort nest.Effort
	Seed   uint64
	Gowns  int // laid together; 0: one
	// OnAndOn searches on once the effort is spent, for as long as somebody watches and up to
	// Options.Ceiling.
	OnAndOn bool
}

// Options steer a desk. The zero value is a normal search, as plan.Options has it.
type Options struct {
	Search
	Workers int           // processors; 0: all
	Memory  int64         // bytes that the no-fit regions of all searches may take; 0: 64 MB
	Idle    time.Duration // unwatched for so long, searches end; 0: a minute
	Ceiling time.Duration // of searching on and on; 0: ten minutes a cloth
	Keep    int           // tasks whose layings are remembered; 0: 64
}

// withDefaults returns the options with what they leave open.
func (o Options) withDefaults() Options {
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.Memory <= 0 {
		o.Memory = 64e6
	}
	if o.Idle <= 0 {
		o.Idle = time.Minute
	}
	if o.Ceiling <= 0 {
		o.Ceiling = 10 * time.Minute
	}
	if o.Keep <= 0 {
		o.Keep = 64
	}
	return o
}

// ErrClosed is that of a desk that has been closed.
var ErrClosed = errors.New("the job is closed")

// Desk lays one open job. It may be used by any number of goroutines.
type Desk struct {
	options Options
	all     context.Context // of everything that runs
	end     context.CancelFunc
	running sync.WaitGroup
	trials  chan struct{} // one for each processor: those of first layouts
	turns   chan struct{} // and those of searches

	mu      sync.Mutex
	version int
	changed chan struct{} // closed at the next version
	closed  bool
	wanted  wanted
	drawing bool               // a goroutine draws what is wanted
	drawn   wanted             // what the places are of; its file is nil before the first
	refused error              // why nothing of it could be laid
	places  []*place           // one for each cloth
	kept    []*laying          // layings of the last tasks, the latest last
	tasks   map[string]*laying // the same by key

	watching int       // who look, and callers that wait for the next version
	seen     time.Time // when somebody asked last
	idle     *time.Timer
	paused   bool
	told     time.Time // when progress made a version last
	pictures int       // made so far
	report   *whole    // that was asked for last
}

// wanted is what is to lie on the desk: a job, laid in a way, from a layout.
type wanted struct {
	file   *job.File
	search Search
	from   *kept.File // never changed; nil: from none
}

// New returns an empty desk. It is to be closed.
func New(o Options) *Desk {
	o = o.withDefaults()
	k := &Desk{options: o, changed: make(chan struct{}), tasks: map[string]*laying{}, seen: time.Now(),
		trials: make(chan struct{}, o.Workers), turns: make(chan struct{}, o.Workers)}
	k.all, k.end = context.WithCancel(context.Background())
	k.wanted.search = o.Search
	k.idle = time.AfterFunc(o.Idle, k.lookAround)
	return k
}

// Show lays a job. Cloths that are laid already as it says stay as they are.
func (k *Desk) Show(f *job.File) { k.want(func(w *wanted) { w.file = f }) }

// Search lays the job in another way.
func (k *Desk) Search(s Search) { k.want(func(w *wanted) { w.search = s }) }

// From lays the job from a layout, which does not change any more: what it pins stays where it is, as
// far as it may. Nil lays it from none.
func (k *Desk) From(f *kept.File) { k.want(func(w *wanted) { w.from = f }) }

func (k *Desk) want(change func(*wanted)) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.closed {
		return
	}
	k.attend()
	change(&k.wanted)
	if !k.drawing && k.wanted.file != nil && k.wanted != k.drawn {
		k.drawing = true
		k.running.Go(k.draw)
	}
}

// Close ends all searches, and returns when nothing runs any more.
func (k *Desk) Close() {
	k.mu.Lock()
	if !k.closed {
		k.closed = true
		k.end()
		k.idle.Stop()
		k.change()
	}
	k.mu.Unlock()
	k.running.Wait()
}

// change makes a version, and wakes who waits for it.
func (k *Desk) change() {
	k.version++
	close(k.changed)
	k.changed = make(chan struct{})
}

// draw drafts what is wanted, until nothing newer is.
func (k *Desk) draw() {
	for drawing := true; drawing; {
		k.mu.Lock()
		w := k.wanted
		k.mu.Unlock()
		plan.Settle(k.all, w.file, plan.Options{Workers: k.options.Workers, Memory: k.options.Memory})
		all, err := plan.EachTask(w.file.Job(), max(w.search.Gowns, 1))
		var alone []plan.Drawn
		if err == nil && w.search.Gowns > 1 {
			alone, err = plan.EachTask(w.file.Job(), 1)
		}
		from := begunFrom(w.from, all)
		k.mu.Lock()
		k.drawing = k.wanted != w && !k.closed // of the version that lay makes: nothing more may follow it
		k.lay(w, all, from, alone, err)
		drawing = k.drawing
		k.mu.Unlock()
	}
}

// lay puts what has been drawn on the desk, ends the searches for what is no longer there and
// begins those for what is new.
func (k *Desk) lay(w wanted, all []plan.Drawn, from []begun, alone []plan.Drawn, err error) {
	k.drawn, k.refused = w, err
	if err == nil {
		was := k.places
		k.places = nil
		for i, d := range all {
			p := &place{job: w.file.Job(), task: d.Task, search: w.search, old: k.oldOf(was, d.Task.Spread.Cloth.ID)}
			if d.Refused != nil {
				p.refused = d.Refused
			} else {
				p.task, p.from = from[i].task, from[i]
				p.laying = k.layingOf(p, alone, i)
			}
			k.places = append(k.places, p)
		}
	}
	for _, l := range k.kept {
		lies := slices.ContainsFunc(k.places, func(p *place) bool { return p.laying == l })
		if err != nil || !lies || l.over(k.onAndOn()) {
			l.end()
		}
	}
	k.begin()
	k.change()
}

// oldOf returns the last report of a cloth, by its id; nil where there is none.
func (k *Desk) oldOf(places []*place, id string) *Picture {
	for _, p := range places {
		if p.task.Spread.Cloth.ID == id {
			if now := k.pictureOf(p); now != nil {
				return now
			}
			return p.old
		}
	}
	return nil
}

// layingOf returns the laying of a place's task: the one that is remembered, or a new one.
func (k *Desk) layingOf(p *place, alone []plan.Drawn, i int) *laying {
	key := p.key()
	l := k.tasks[key]
	if l == nil || l.err != nil { // its place in the file may have changed
		k.kept = slices.DeleteFunc(k.kept, func(one *laying) bool { return one == l })
		l = &laying{key: key, job: p.job, task: p.task, search: p.search}
		if alone != nil && alone[i].Refused == nil {
			l.alone = &alone[i].Task
		}
		k.tasks[key] = l
	} else {
		k.kept = slices.DeleteFunc(k.kept, func(one *laying) bool { return one == l })
	}
	k.kept = append(k.kept, l)
	for len(k.kept) > max(k.options.Keep, len(k.places)+1) {
		k.kept[0].end()
		delete(k.tasks, k.kept[0].key)
		k.kept = k.kept[1:]
	}
	return l
}
