package page

import (
	"context"
	"crypto/rand"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"time"
)

// patience is how long a browser may take: to say what it asks for, to ask, to take
// the answer, and between two of them. Streams set their own for answers.
type patience struct{ header, ask, answer, rest time.Duration }

var usualPatience = patience{5 * time.Second, 20 * time.Second, time.Minute, 2 * time.Minute}

// The most that a browser may say of what it asks for, in bytes, and the most
// connections at a time; browsers use six each.
const mostHeader, mostConns = 16 << 10, 256

// Listen listens on the loopback interface; port 0 takes a free one.
func Listen(port int) (net.Listener, error) {
	return net.ListenTCP("tcp4", &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: port})
}

// Address is what to open in a browser. It has the token.
func (s *Server) Address(l net.Listener) string { return "http://" + l.Addr().String() + s.Entry() }

// AddressOnce is an address that lets one browser in, once: others on this machine may
// see what programs are started with.
func (s *Server) AddressOnce(l net.Listener) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.ticket = rand.Text()
	return "http://" + l.Addr().String() + enterPath + s.ticket
}

// Serve serves until the context ends, or all pages have been closed for as long as
// Options say, and then ends all streams and searches.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{Handler: s.handler, ReadHeaderTimeout: s.patience.header, ReadTimeout: s.patience.ask,
		WriteTimeout: s.patience.answer, IdleTimeout: s.patience.rest, MaxHeaderBytes: mostHeader,
		ErrorLog: log.New(io.Discard, "", 0)}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(&limited{l, make(chan struct{}, mostConns)}) }()
	var err error
	select {
	case err = <-failed:
	case <-ctx.Done():
	case <-s.left(ctx):
	}
	s.Close()
	last, done := context.WithTimeout(context.Background(), time.Second)
	defer done()
	if server.Shutdown(last) != nil {
		server.Close()
	}
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// left tells when there has been no page for as long as Options say.
func (s *Server) left(ctx context.Context) <-chan struct{} {
	left := make(chan struct{})
	if s.options.WhileOpen <= 0 {
		return left
	}
	go func() {
		look := time.NewTicker(max(s.options.WhileOpen/20, time.Millisecond))
		defer look.Stop()
		for {
			select {
			case <-ctx.Done():
				return
			case <-s.over:
				return
			case <-look.C:
			}
			if gone, ok := s.pages.gone(); ok && gone >= s.options.WhileOpen {
				close(left)
				return
			}
		}
	}()
	return left
}

// limited takes so many connections at a time; others wait.
type limited struct {
	net.Listener
	free chan struct{}
}

func (l *limited) Accept() (net.Conn, error) {
	l.free <- struct{}{}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.free
		return nil, err
	}
	return &counted{Conn: c, free: l.free}, nil
}

// counted gives its place free when it is closed.
type counted struct {
	net.Conn
	once sync.Once
	free chan struct{}
}

func (c *counted) Close() error {
	c.once.Do(func() { <-c.free })
	return c.Conn.Close()
}
