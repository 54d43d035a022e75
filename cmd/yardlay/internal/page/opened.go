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
	server *Server
	done   context.CancelFunc // ends what runs for it
	ended  sync.WaitGroup

	mu        sync.Mutex
	listening int // pages that have a stream
}

// suffix is what the names of job files end in.
const suffix = ".toml"

// IsJobName says whether a file of the folder is taken for a job by its name, which
// leads nowhere else.
func IsJobName(name string) bool {
	return fs.ValidPath(name) && !strings.ContainsAny(name, `/\`) && !strings.HasPrefix(name, ".") &&
		strings.HasSuffix(strings.ToLower(name), suffix)
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
	d, err := document.Open(s.folder, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, notFound("there is no job " + name + " in this folder")
	} else if err != nil {
		return nil, invalid(err)
	}
	ctx, done := context.WithCancel(context.Background())
	o := &opened{Document: d, server: s, done: done, desk: live.New(live.Options{Search: usual, Idle: s.options.Idle})}
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

// close ends all that runs for the job.
func (o *opened) close() {
	o.done()
	o.desk.Close()
	o.ended.Wait()
	o.Close()
}

// listens counts a page that has a stream, until it calls what is returned.
func (o *opened) listens() (leave func()) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.listening++
	return func() {
		o.mu.Lock()
		defer o.mu.Unlock()
		o.listening--
	}
}
