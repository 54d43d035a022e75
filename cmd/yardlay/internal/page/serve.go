package page

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"time"
)

// What a browser may take to ask for something, and what it may say of it.
const (
	headerTime = 5 * time.Second
	askTime    = 20 * time.Second
	answerTime = time.Minute // streams set their own
	restTime   = 2 * time.Minute
	mostHeader = 16 << 10
	mostConns  = 256 // at a time; browsers use six each
)

// Listen listens on the loopback interface; port 0 takes a free one.
func Listen(port int) (net.Listener, error) {
	return net.ListenTCP("tcp4", &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: port})
}

// Address is what to open in a browser. It has the token.
func (s *Server) Address(l net.Listener) string { return "http://" + l.Addr().String() + s.Entry() }

// Serve serves until the context ends, and then ends all streams and searches.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{Handler: s.handler, ReadHeaderTimeout: headerTime, ReadTimeout: askTime,
		WriteTimeout: answerTime, IdleTimeout: restTime, MaxHeaderBytes: mostHeader,
		ErrorLog: log.New(io.Discard, "", 0)}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(&limited{l, make(chan struct{}, mostConns)}) }()
	var err error
	select {
	case err = <-failed:
	case <-ctx.Done():
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
