package page

import (
	"bufio"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A browser that is closed while cloths are searched for ends the search after a while;
// until then it goes on. It takes a search that is long on any machine.
func TestABrowserClosedMidSearchEndsIt(t *testing.T) {
	if os.Getenv("YARDLAY_LONG") == "" {
		t.Skip("YARDLAY_LONG=1 lays a chorus; the desk's own tests lay less")
	}
	chorus, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "chorus-gown.toml"))
	if err != nil {
		t.Fatal(err)
	}
	s := newSite(t)
	s.server.options.Idle = 500 * time.Millisecond
	if err := os.WriteFile(filepath.Join(s.dir, "chorus.toml"), chorus, 0o644); err != nil {
		t.Fatal(err)
	}
	r, err := http.NewRequest("GET", s.URL+"/job/chorus.toml/events", nil)
	if err != nil {
		t.Fatal(err)
	}
	stream, err := s.browser.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Body.Close()
	s.server.mu.Lock()
	desk := s.server.open["chorus.toml"].desk
	s.server.mu.Unlock()
	lines := bufio.NewReader(stream.Body)
	for told := 0; told < 5; { // it is being laid
		line, err := lines.ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(line, "event: cloths") {
			told++
		}
	}
	if desk.Rests() {
		t.Error("it rests while somebody is there")
	}
	stream.Body.Close()
	for closed := time.Now(); !desk.Rests(); time.Sleep(20 * time.Millisecond) {
		if time.Since(closed) > long {
			t.Fatal("it searches on with nobody there")
		}
	}
}
