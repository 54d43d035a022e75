package page

import (
	"context"
	"errors"
	"io/fs"
	"net/http"
	"strings"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/nest"
)

// opened is a job that somebody has on a page.
type opened struct {
	*document.Document
	desk   *live.Desk // its cloths, laid
	drawn  drawnMarkers
	hand   *byHand
	server *Server
	done   context.CancelFunc // ends what runs for it
	ended  sync.WaitGroup

	pages presence

	bench    bench   // work that takes a while
	laidLast *asLaid // the last report of the whole job; guarded by the mutex of the bench
}

// presence counts pages that have a stream.
type presence struct {
	mu   sync.Mutex
	open int
	left time.Time // when the last one was closed
}

// listens counts a page, until it calls what is returned.
func (p *presence) listens() (leave func()) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.open++
	return func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.open--
		p.left = time.Now()
	}
}

// gone is how long there has been no page; false as long as there is one.
func (p *presence) gone() (time.Duration, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return time.Since(p.left), p.open == 0
}

// mostOpen is how many jobs are open, if they are not all on a page: each holds its steps
// and its layings.
const mostOpen = 8

// makeRoom closes the job that has been on no page for the longest, when as many are open
// as may be. What is not saved of it is kept beside its file.
func (s *Server) makeRoom() {
	if len(s.open) < mostOpen {
		return
	}
	longest, name := time.Duration(-1), ""
	for n, o := range s.open {
		if gone, ok := o.pages.gone(); ok && gone > longest {
			longest, name = gone, n
		}
	}
	if name != "" {
		s.open[name].close(&s.closing)
		delete(s.open, name)
	}
}

// suffix is what the names of job files end in.
const suffix = ".toml"

// IsJobName says whether a file of the folder is taken for a job by its name, which
// leads nowhere else.
func IsJobName(name string) bool {
	return fs.ValidPath(name) && !strings.ContainsAny(name, `/\`) && !strings.HasPrefix(name, ".") &&
		strings.HasSuffix(strings.ToLower(name), suffix) && !job.IsWorkroom(name)
}

// opened returns the job that the address names, opened when it is not open yet.
func (s *Server) opened(r *http.Request) (*opened, error) {
	name := r.PathValue("name")
	if !IsJobName(name) {
		return nil, notFound("no job has that name")
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if o := s.open[name]; o != nil {
		return o, nil
	}
	s.makeRoom()
	d, err := document.Open(s.folder, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, notFound("there is no job " + name + " in this folder")
	} else if err != nil {
		return nil, invalid(err)
	}
	ctx, done := context.WithCancel(context.Background())
	o := &opened{Document: d, server: s, done: done,
		desk: live.New(live.Options{Search: usual, Idle: s.options.Idle}), pages: presence{left: time.Now()}}
	o.hand = newByHand(s.folder, d.Name(), o.desk)
	o.ended.Go(func() { o.watch(ctx) })
	o.ended.Go(func() { o.lay(ctx) })
	s.open[name] = o
	return o, nil
}

// watch looks after the file on the disk.
func (o *opened) watch(ctx context.Context) {
	const every = time.Second
	for {
		select {
		case <-ctx.Done():
			return
		case <-time.After(every):
			o.Look()
		}
	}
}

// usual is how cloths are laid if nobody says how: as the command lays them.
var usual = live.Search{Effort: nest.Normal, Seed: 1}

// lay lays each text of the job that holds.
func (o *opened) lay(ctx context.Context) {
	now := o.State()
	for shown, err := (*job.File)(nil), error(nil); err == nil; now, err = o.Await(ctx, now.Version) {
		if now.Holds && now.File != shown {
			shown = now.File
			o.desk.Show(shown)
		}
	}
}

// close lets others open the job at once and ends all that runs for it, which takes a
// moment that is waited for elsewhere.
func (o *opened) close(closing *sync.WaitGroup) {
	o.done()
	o.bench.close()
	o.Close()
	closing.Go(func() {
		o.desk.Close()
		o.ended.Wait()
	})
}
