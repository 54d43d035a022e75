package page

import (
	"context"
	"fmt"
	"net/http"
	"time"

	"yardlay/shapes/say"
)

// mostStreams is how many streams are open at a time; each page has one.
const mostStreams = 100

// Streams are kept alive by a word now and then, and given up when a browser takes
// nothing for so long.
const heartbeat, slowest = 15 * time.Second, 10 * time.Second

// source is something that a page follows: it waits until its version is above after,
// and returns it. A stream tells the page of each by its name, and elements that
// refresh by it have hx-trigger="NAME from:body".
type source struct {
	name  string
	await func(ctx context.Context, after int) (version int, err error)
}

// sources lists what pages of a job follow.
func (o *opened) sources() []source {
	return []source{
		{"document", func(ctx context.Context, after int) (int, error) {
			s, err := o.Await(ctx, after)
			return s.Version, err
		}},
		{"cloths", func(ctx context.Context, after int) (int, error) {
			s, err := o.desk.Await(ctx, after)
			return s.Version, err
		}},
		{"runs", o.bench.await},
	}
}

// events streams to a page what changes of its job.
func (s *Server) events(w http.ResponseWriter, r *http.Request) error {
	o, err := s.opened(r)
	if err != nil {
		return err
	}
	defer o.pages.listens()()
	defer o.desk.Watch()()
	return s.stream(w, r, o.sources())
}

// here streams to a page without a job, which shows that the program answers, and the
// program that there is a page.
func (s *Server) here(w http.ResponseWriter, r *http.Request) error { return s.stream(w, r, nil) }

// stream streams what changes, as server-sent events: the name of a source and its
// version.
func (s *Server) stream(w http.ResponseWriter, r *http.Request, sources []source) error {
	select {
	case s.streams <- struct{}{}:
		defer func() { <-s.streams }()
	default:
		return &refusal{http.StatusServiceUnavailable, say.Errorf("too many pages are open").Hint("close some of them")}
	}
	defer s.pages.listens()()
	ctx, done := context.WithCancel(r.Context())
	defer done()
	told := make(chan string)
	for _, from := range sources {
		go follow(ctx, from, told)
	}
	w.Header().Set("Content-Type", "text/event-stream")
	alive := time.NewTicker(heartbeat)
	defer alive.Stop()
	out := http.NewResponseController(w)
	for event := "retry: 2000\n\n"; ; {
		out.SetWriteDeadline(time.Now().Add(slowest)) // a writer that knows none waits as long as it takes
		if _, err := fmt.Fprint(w, event); err != nil {
			return nil
		}
		if err := out.Flush(); err != nil {
			return nil
		}
		select {
		case event = <-told:
		case <-alive.C:
			event = ": on\n\n"
		case <-ctx.Done():
			return nil
		case <-s.over:
			return nil
		}
	}
}

// follow tells of each version of a source until the context ends.
func follow(ctx context.Context, from source, told chan<- string) {
	for after := 0; ; {
		version, err := from.await(ctx, after)
		if err != nil {
			return
		}
		after = version
		select {
		case told <- fmt.Sprintf("event: %s\ndata: %d\n\n", from.name, version):
		case <-ctx.Done():
			return
		}
	}
}
