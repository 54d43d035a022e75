// Package page shows the jobs of a folder in a browser on the same machine: the job
// file as a form and as text, its cloths as they are laid, and what follows from them.
// The state is in the job files and here, so that a page can be loaded anew at any time.
//
// The server listens on the loopback interface alone. Whoever asks has to know a random
// token, which the address has that is opened first and a cookie after that; guard.go
// keeps out the pages of others. Nothing is read or written outside the folder.
package page

import (
	"crypto/rand"
	"net/http"
	"os"
	"sync"
	"time"

	"yardlay/shapes/say"
)

// Options steer a server. The zero value serves the folder that the program runs in.
type Options struct {
	Dir string // the folder of the jobs; "": the one that the program runs in
	Job string // the file in it to show first; "": the list of jobs

	// WhileOpen ends serving once there has been no page for so long; 0: never.
	WhileOpen time.Duration

	// Idle is how long to search on for a job that nobody has on a page; 0: a minute.
	Idle time.Duration
}

// Server shows the jobs of one folder.
type Server struct {
	options Options
	folder  *os.Root
	token   string
	views   []view
	handler http.Handler
	streams chan struct{} // one for each stream that may be open
	working chan struct{} // one for each run that may go on
	over    chan struct{} // closed at the end

	patience patience
	pages    presence       // of all jobs, and without one
	closing  sync.WaitGroup // jobs

	mu     sync.Mutex
	ticket string             // lets one browser in, once; "" when it has been used
	open   map[string]*opened // by the names of their files
}

// New makes a server of a folder.
func New(o Options) (*Server, error) {
	if o.Dir == "" {
		o.Dir = "."
	}
	if o.Idle == 0 {
		o.Idle = time.Minute
	}
	folder, err := os.OpenRoot(o.Dir)
	if err != nil {
		return nil, say.Errorf("cannot open the folder of the jobs: %w", err)
	}
	s := &Server{options: o, folder: folder, token: rand.Text(), views: views(), open: map[string]*opened{},
		streams: make(chan struct{}, mostStreams), working: make(chan struct{}, mostRuns), over: make(chan struct{}),
		patience: usualPatience, pages: presence{left: time.Now()}}
	s.handler = s.guarded(compressed(s.routes()))
	return s, nil
}

// Handler serves the pages to who knows the token.
func (s *Server) Handler() http.Handler { return s.handler }

// Entry is the path of the address to open first. It has the token.
func (s *Server) Entry() string { return enterPath + s.token }

// Close ends all streams and searches, and waits for that.
func (s *Server) Close() {
	s.mu.Lock()
	defer s.mu.Unlock()
	select {
	case <-s.over:
		return
	default:
		close(s.over)
	}
	for _, o := range s.open {
		o.close(&s.closing)
	}
	s.closing.Wait()
	s.folder.Close()
}

// routes is what is served, to who may ask.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.Handle("GET "+staticPath, static())
	mux.Handle("GET /{$}", s.handle(s.showJobs))
	mux.Handle("GET /events", s.handle(s.here))
	mux.Handle("POST /jobs", s.handle(s.newJob))
	mux.Handle("GET /job/{name}", s.handle(s.showFirst))
	mux.Handle("GET /job/{name}/{$}", s.handle(s.showFirst))
	mux.Handle("GET /job/{name}/events", s.handle(s.events))
	mux.Handle("POST /job/{name}/save-as", s.handle(s.saveAs))
	for path, change := range changes() {
		mux.Handle("POST /job/{name}/"+path, s.handle(s.changing(change)))
	}
	for _, v := range s.views {
		mux.Handle("GET /job/{name}/"+v.path, s.handle(s.showing(v)))
		for pattern, answer := range v.answers {
			method, path, _ := cutMethod(pattern)
			mux.Handle(method+" /job/{name}/"+v.path+path, s.handle(s.answering(answer)))
		}
	}
	mux.Handle("/", s.handle(func(http.ResponseWriter, *http.Request) error {
		return notFound("there is nothing at this address")
	}))
	return mux
}
