package page

import (
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// site is a server of a folder with one job in it, gown.toml, and a browser that was
// let in.
type site struct {
	*testing.T
	*httptest.Server
	server  *Server
	dir     string
	browser *http.Client
}

func newSite(t *testing.T) *site {
	t.Helper()
	return siteOf(t, Options{})
}

// siteOf is a site with other options.
func siteOf(t *testing.T, o Options) *site {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "gown.toml"), job.Starter(), 0o644); err != nil {
		t.Fatal(err)
	}
	o.Dir = dir
	s, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	h := httptest.NewServer(s.Handler())
	t.Cleanup(h.Close)
	t.Cleanup(s.Close)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	at := &site{t, h, s, dir, &http.Client{Jar: jar}}
	if status, text := at.get(s.Entry()); status != http.StatusOK || !strings.Contains(text, "gown.toml") {
		t.Fatalf("let in: %d\n%s", status, text)
	}
	return at
}

func (s *site) do(r *http.Request, err error) (status int, text string) {
	s.Helper()
	if err != nil {
		s.Fatal(err)
	}
	answer, err := s.browser.Do(r)
	if err != nil {
		s.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		s.Fatal(err)
	}
	return answer.StatusCode, string(body)
}

func (s *site) get(path string) (int, string) {
	s.Helper()
	return s.do(http.NewRequest(http.MethodGet, s.URL+path, nil))
}

// post posts a form as the page's script does.
func (s *site) post(path string, values url.Values) (int, string) {
	s.Helper()
	r, err := http.NewRequest(http.MethodPost, s.URL+path, strings.NewReader(values.Encode()))
	if err == nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", s.URL)
		r.Header.Set("HX-Request", "true")
	}
	return s.do(r, err)
}

func TestAJobIsBegunAndShown(t *testing.T) {
	s := newSite(t)
	status, text := s.post("/jobs", url.Values{"name": {"moth lane"}})
	if status != http.StatusOK {
		t.Fatalf("%d\n%s", status, text)
	}
	if _, text = s.get("/job/moth%20lane.toml/text"); !strings.Contains(text, "duchess satin") {
		t.Errorf("it is another job:\n%s", text)
	}
	if !strings.Contains(text, "<h1>moth lane</h1>") {
		t.Errorf("it is not called as it was begun:\n%s", text)
	}
	if status, _ := s.get("/job/moth%20lane.toml/"); status != http.StatusOK {
		t.Errorf("with a stroke at the end: %d", status)
	}
	if status, text = s.post("/jobs", url.Values{"name": {"moth lane.toml"}}); status != 422 ||
		!strings.Contains(text, "already there") {
		t.Errorf("begun twice: %d\n%s", status, text)
	}
	if _, text = s.get("/"); !strings.Contains(text, "moth lane.toml") {
		t.Errorf("it is not listed:\n%s", text)
	}
}

// An error is told by its line, without the name of the one file that is shown; what
// begins with a name is not written otherwise.
func TestTroubleIsToldOnThePage(t *testing.T) {
	at := &strict.Error{File: "gown.toml", At: strict.Position{Line: 9, Column: 2}, What: "no such cloth",
		Hint: "satin"}
	for _, c := range []struct {
		err  error
		want trouble
		word bool
	}{
		{strict.Errors{at, {What: "more"}}, trouble{"line 9: no such cloth", "satin"}, true},
		{at, trouble{"line 9: no such cloth", "satin"}, true},
		{say.Errorf("%s is there", "gown.toml").Hint("give another name"),
			trouble{"gown.toml is there", "give another name"}, false},
		{say.Errorf("`nap` cannot be"), trouble{`"nap" cannot be`, ""}, false},
	} {
		if got := troubleOf(c.err); got != c.want || got.Word() != c.word {
			t.Errorf("%v: %+v, a word: %t", c.err, got, got.Word())
		}
	}
}
