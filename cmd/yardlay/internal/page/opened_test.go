package page

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// However many jobs of a folder are looked at, few are open at a time, and what was typed
// into one that was closed is there again.
func TestFewJobsAreOpenAtATime(t *testing.T) {
	s := newSite(t)
	s.post("/job/gown.toml/text/set", url.Values{"version": {"1"}, "text": {"mine = 1\n"}})
	for i := range 2 * mostOpen {
		name := fmt.Sprintf("other-%d.toml", i)
		if err := os.WriteFile(filepath.Join(s.dir, name), []byte(noJob), 0o644); err != nil {
			t.Fatal(err)
		}
		if status, _ := s.get(jobPath(name, "text")); status != 200 {
			t.Fatal(status)
		}
	}
	s.server.mu.Lock()
	open, first := len(s.server.open), s.server.open["gown.toml"]
	s.server.mu.Unlock()
	if open > mostOpen || first != nil {
		t.Errorf("%d jobs are open, the first %v", open, first)
	}
	if text := s.now(); text != "mine = 1\n" {
		t.Errorf("what was typed: %q", text)
	}
}

// With nobody on any page the program that a desktop started ends; as long as a page is
// open it does not.
func TestServesWhileAPageIsOpen(t *testing.T) {
	s, err := New(Options{Dir: t.TempDir(), WhileOpen: 200 * time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	leave := s.pages.listens()
	done := make(chan error, 1)
	go func() { done <- s.Serve(context.Background(), l) }()
	select {
	case err := <-done:
		t.Fatal("it ended with a page open:", err)
	case <-time.After(500 * time.Millisecond):
	}
	leave()
	select {
	case err := <-done:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(long):
		t.Error("it goes on with nobody there")
	}
}
