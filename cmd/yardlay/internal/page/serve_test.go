package page

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/processor"
)

// noJob is a text of which nothing is laid.
const noJob = "# no job yet\n"

// long is more than anything of these tests takes on a machine that does much else.
const long = 10 * time.Minute

// served is a server as the program runs it.
type served struct {
	*testing.T
	*Server
	at   string // host and port
	end  context.CancelFunc
	done chan error
}

func serve(t *testing.T, p patience) *served {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "gown.toml"), []byte(noJob), 0o644); err != nil {
		t.Fatal(err)
	}
	s, err := New(Options{Dir: dir, Job: "gown.toml"})
	if err != nil {
		t.Fatal(err)
	}
	s.patience = p
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, end := context.WithCancel(context.Background())
	run := &served{t, s, l.Addr().String(), end, make(chan error, 1)}
	go func() { run.done <- s.Serve(ctx, l) }()
	t.Cleanup(func() { end(); s.Close() })
	return run
}

// get asks for a page by a connection of its own, which the answer's body holds.
func (s *served) get(path string) (*http.Response, error) {
	r, err := http.NewRequest("GET", "http://"+s.at+path, nil)
	if err != nil {
		return nil, err
	}
	r.AddCookie(&http.Cookie{Name: cookieName(s.at), Value: s.token})
	return (&http.Transport{DisableKeepAlives: true, ResponseHeaderTimeout: long}).RoundTrip(r)
}

// answers says that pages are answered still, with little work.
func (s *served) answers() {
	s.Helper()
	began := processor.Time()
	answer, err := s.get("/job/gown.toml/text")
	if err != nil {
		s.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if took := processor.Time() - began; err != nil || answer.StatusCode != http.StatusOK ||
		!strings.Contains(string(text), "no job yet") || processor.Exceeds(took, 5*time.Second) {
		s.Errorf("%d after %s, %v", answer.StatusCode, took, err)
	}
}

// ended ends the server and says that it leaves nothing running, whatever streams are
// open.
func (s *served) ended(before int, streams ...*http.Response) {
	s.Helper()
	s.end()
	select {
	case err := <-s.done:
		if err != nil {
			s.Error(err)
		}
	case <-time.After(long):
		s.Fatal("it goes on")
	}
	for _, stream := range streams { // each comes to its end
		io.Copy(io.Discard, stream.Body)
		stream.Body.Close()
	}
	left := 0
	for began := time.Now(); time.Since(began) < long; time.Sleep(5 * time.Millisecond) {
		if left = runtime.NumGoroutine(); left <= before {
			return
		}
	}
	stacks := make([]byte, 1<<16)
	s.Errorf("%d goroutines are left of it\n%s", left-before, stacks[:runtime.Stack(stacks, true)])
}

// 200 pages at a time: so many as may have a stream follow the job, the others are told
// so, and all is still answered. With all of them open it ends at once.
func TestServes200StreamsAndEnds(t *testing.T) {
	before := runtime.NumGoroutine()
	s := serve(t, usualPatience)
	open, refused := 0, 0
	var streams []*http.Response
	for range 200 {
		answer, err := s.get("/job/gown.toml/events")
		if err != nil {
			t.Fatal(err)
		}
		switch answer.StatusCode {
		case http.StatusOK:
			open++
			streams = append(streams, answer)
		case http.StatusServiceUnavailable:
			refused++
			answer.Body.Close()
		default:
			t.Fatal(answer.Status)
		}
	}
	if open != mostStreams || refused != 200-mostStreams {
		t.Errorf("%d streams are open, %d refused", open, refused)
	}
	s.answers()
	for _, stream := range []*http.Response{streams[0], streams[len(streams)-1]} {
		lines := bufio.NewReader(stream.Body)
		for {
			line, err := lines.ReadString('\n')
			if err != nil {
				t.Fatal(err)
			}
			if line == "event: document\n" {
				break
			}
		}
	}
	streams[0].Body.Close() // its place is free for another, in a moment
	for began := time.Now(); time.Since(began) < long; time.Sleep(20 * time.Millisecond) {
		answer, err := s.get("/job/gown.toml/events")
		if err != nil {
			t.Fatal(err)
		}
		if answer.StatusCode == http.StatusOK {
			streams[0] = answer
			break
		}
		answer.Body.Close()
	}
	if streams[0].StatusCode != http.StatusOK {
		t.Error("the place of a page that was closed stays taken")
	}
	s.ended(before, streams...)
}

// Who asks slower than any browser does is left, and others are answered meanwhile.
func TestWhoAsksSlowlyIsLeft(t *testing.T) {
	before := runtime.NumGoroutine()
	s := serve(t, patience{300 * time.Millisecond, 600 * time.Millisecond, 2 * time.Second, time.Second})
	gone := make(chan error)
	begin := []string{
		"GET / HTTP/1.1\r\nHost: " + s.at + "\r\n",
		fmt.Sprintf("POST /job/gown.toml/text/set HTTP/1.1\r\nHost: %s\r\nOrigin: http://%s\r\nCookie: %s=%s\r\n"+
			"Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000000\r\n\r\nversion=1&text=",
			s.at, s.at, cookieName(s.at), s.token),
	}
	const each = 20
	for range each {
		for i, text := range begin {
			go func() {
				c, err := net.Dial("tcp", s.at)
				if err != nil {
					gone <- err
					return
				}
				defer c.Close()
				next := []string{"X: y\r\n", "a"}[i]
				_, err = io.WriteString(c, text)
				for end := time.Now().Add(long); err == nil && time.Now().Before(end); {
					time.Sleep(100 * time.Millisecond)
					_, err = io.WriteString(c, next)
				}
				if err == nil {
					gone <- fmt.Errorf("it is still listened to")
				} else {
					gone <- nil
				}
			}()
		}
	}
	s.answers()
	for range each * len(begin) {
		if err := <-gone; err != nil {
			t.Error(err)
		}
	}
	s.answers()
	s.ended(before)
}

// The page is served to this machine alone.
func TestListensOnTheLoopbackInterfaceAlone(t *testing.T) {
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	at := l.Addr().(*net.TCPAddr)
	if !at.IP.Equal(net.IPv4(127, 0, 0, 1)) || at.Port == 0 {
		t.Errorf("at %v", at)
	}
	if other, err := Listen(at.Port); err == nil {
		other.Close()
		t.Error("two servers have one port")
	}
}
