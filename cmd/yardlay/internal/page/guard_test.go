package page

import (
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// as sends a request as a browser does that was let in, or as none, with headers of its
// own, and follows no redirection.
func (s *site) as(letIn bool, method, path, body string, headers ...string) (*http.Response, string) {
	s.Helper()
	r, err := http.NewRequest(method, s.URL+path, strings.NewReader(body))
	if err != nil {
		s.Fatal(err)
	}
	if body != "" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
			continue
		}
		r.Header.Set(headers[i], headers[i+1])
	}
	if letIn {
		r.AddCookie(&http.Cookie{Name: cookieName(r.URL.Host), Value: s.server.token})
		r.AddCookie(&http.Cookie{Name: cookieName(r.Host), Value: s.server.token}) // by that name too
	}
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		s.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		s.Fatal(err)
	}
	return answer, string(text)
}

// pages are addresses that show something of the job, or change it.
var pages = []struct{ method, path, body string }{
	{"GET", "/", ""},
	{"GET", "/job/gown.toml", ""},
	{"GET", "/job/gown.toml/text", ""},
	{"GET", "/job/gown.toml/events", ""},
	{"GET", staticURL("page.css"), ""},
	{"POST", "/jobs", "name=mine"},
	{"POST", "/job/gown.toml/text/set", "version=1&text=a"},
	{"POST", "/job/gown.toml/undo", ""},
}

// A page elsewhere that a browser shows can reach this server, by a name of its own that
// it lets stand for this machine, or by this machine's. It neither reads nor changes
// anything.
func TestPagesElsewhereAreKeptOut(t *testing.T) {
	s := newSite(t)
	here, err := url.Parse(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	attacks := [][]string{
		{"Host", "evil.example"}, {"Host", "evil.example:" + here.Port()},
		{"Host", "127.0.0.1.evil.example:" + here.Port()}, {"Host", "127.0.0.1"}, {"Host", "127.0.0.1:1"},
		{"Host", "localhost:1"}, {"Host", "0.0.0.0:" + here.Port()}, {"Host", "127.0.0.1:" + here.Port() + ":80"},
		{"Origin", "http://evil.example"}, {"Origin", "null"}, {"Origin", "https://" + here.Host},
		{"Origin", "http://127.0.0.1:1"}, {"Origin", "http://localhost:" + here.Port()},
		{"Origin", "http://" + here.Host + ".evil.example"},
		{"Origin", s.URL, "Sec-Fetch-Site", "cross-site"}, {"Origin", s.URL, "Sec-Fetch-Site", "same-site"},
	}
	for _, p := range pages {
		for _, headers := range attacks {
			answer, text := s.as(true, p.method, p.path, p.body, headers...)
			if answer.StatusCode < 400 || strings.Contains(text, "gown") || strings.Contains(text, "satin") {
				t.Errorf("%s %s with %q: %d\n%s", p.method, p.path, headers, answer.StatusCode, text)
			}
		}
		if p.method == "POST" { // a browser always says where a form comes from
			if answer, _ := s.as(true, p.method, p.path, p.body); answer.StatusCode != http.StatusForbidden {
				t.Errorf("POST %s from nowhere: %d", p.path, answer.StatusCode)
			}
		}
		if answer, _ := s.as(false, p.method, p.path, p.body, "Origin",
			s.URL); answer.StatusCode != http.StatusForbidden {
			t.Errorf("%s %s without the token: %d", p.method, p.path, answer.StatusCode)
		}
		if answer, _ := s.as(false, p.method, p.path, p.body, "Origin",
			s.URL); answer.Header.Get("HX-Retarget") != "#trouble" {
			t.Errorf("%s %s: a page of an earlier run puts the refusal in the place of something else", p.method,
				p.path)
		}
		name := cookieName(here.Host)
		if answer, _ := s.as(false, p.method, p.path, p.body, "Origin", s.URL, "Cookie",
			name+"="+s.server.token[1:]); answer.StatusCode != http.StatusForbidden {
			t.Errorf("%s %s with a wrong token: %d", p.method, p.path, answer.StatusCode)
		}
	}
	if names, err := filepath.Glob(filepath.Join(s.dir, "*")); err != nil || len(names) != 1 {
		t.Errorf("the folder has %q: %v", names, err)
	}
	for _, word := range []string{"", "x", s.server.token[1:], s.server.token + "x", strings.ToLower(s.server.token)} {
		if answer, _ := s.as(false, "GET", enterPath+word, ""); answer.StatusCode != http.StatusForbidden ||
			answer.Header.Get("Set-Cookie") != "" {
			t.Errorf("let in by %q: %d %v", word, answer.StatusCode, answer.Header)
		}
	}
}

// The address that a program is started with is seen by others on the machine: it
// serves once.
func TestAnAddressThatServesOnce(t *testing.T) {
	s := newSite(t)
	once := strings.TrimPrefix(s.server.AddressOnce(s.Listener), s.URL)
	for i, want := range []int{http.StatusSeeOther, http.StatusForbidden} {
		if answer, _ := s.as(false, "GET", once, ""); answer.StatusCode != want {
			t.Errorf("time %d: %d", i+1, answer.StatusCode)
		}
	}
	answer, _ := s.as(false, "GET", s.server.Entry(), "")
	cookie := answer.Header.Get("Set-Cookie")
	for _, want := range []string{"HttpOnly", "SameSite=Strict", "Path=/"} {
		if !strings.Contains(cookie, want) {
			t.Errorf("the cookie %q is not %s", cookie, want)
		}
	}
}

// Whatever is answered, browsers are told to run nothing in it that this server does not
// serve as a script, and to show it in nobody's frame.
func TestEveryAnswerHasThePolicy(t *testing.T) {
	s := newSite(t)
	for _, letIn := range []bool{true, false} {
		for _, path := range []string{"/", "/job/gown.toml/text", "/nowhere", "/job/nowhere.toml/text",
			staticURL("page.js")} {
			answer, text := s.as(letIn, "GET", path, "")
			h := answer.Header
			if h.Get("Content-Security-Policy") != policy || h.Get("X-Content-Type-Options") != "nosniff" ||
				h.Get("X-Frame-Options") != "DENY" || h.Get("Referrer-Policy") != "same-origin" ||
				h.Get("Cross-Origin-Resource-Policy") != "same-origin" ||
				h.Get("Cross-Origin-Opener-Policy") != "same-origin" {
				t.Errorf("%s: %v", path, h)
			}
			if path != staticURL("page.js") && h.Get("Cache-Control") != "no-store" {
				t.Errorf("%s may be kept: %v", path, h)
			}
			for _, inline := range []string{"<style", " style=", " onclick", "javascript:", "<script>"} {
				if strings.Contains(text, inline) && path != staticURL("page.js") {
					t.Errorf("%s has %q, which the policy forbids", path, inline)
				}
			}
		}
	}
}

// Nothing beyond the folder is shown, begun or written, by whatever name.
func TestNoPathLeadsOutOfTheFolder(t *testing.T) {
	s := newSite(t)
	outside := filepath.Join(filepath.Dir(s.dir), "secret.toml")
	if err := os.WriteFile(outside, []byte("title = \"secret\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, to := range map[string]string{"link.toml": "../secret.toml", "whole.toml": outside, "up": ".."} {
		if err := os.Symlink(to, filepath.Join(s.dir, name)); err != nil {
			t.Skip("this system has no links:", err)
		}
	}
	if err := os.WriteFile(filepath.Join(s.dir, ".hidden.toml"), []byte("title = \"secret\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"..%2fsecret.toml", "%2e%2e%2fsecret.toml", "..%5csecret.toml", "link.toml",
		"whole.toml",
		"up%2fsecret.toml", ".hidden.toml", url.PathEscape(outside), "gown.toml%00", "%00",
		"gown.toml%2f..%2f..%2fsecret.toml",
		"..", ".", "..%2f..%2f..%2f..%2fetc%2fpasswd"} {
		for _, path := range []string{"/job/" + name, "/job/" + name + "/text", "/job/" + name + "/events"} {
			answer, text := s.as(true, "GET", path, "")
			if answer.StatusCode < 300 || strings.Contains(text, "secret") && !strings.Contains(name, "secret") {
				t.Errorf("%s: %d\n%s", path, answer.StatusCode, text)
			}
		}
		form := url.Values{"version": {"1"}, "text": {"title = \"mine\"\n"}}
		if status, text := s.post("/job/"+name+"/text/set", form); status == http.StatusOK {
			t.Errorf("changed %s:\n%s", name, text)
		}
	}
	for _, path := range []string{"/static/../page.go", "/static/" + staticMark() + "/..%2f..%2fpage.go", "/static/",
		"/static/" + staticMark() + "/", "/../etc/passwd", "//etc/passwd"} {
		if answer, text := s.as(true, "GET", path, ""); answer.StatusCode == http.StatusOK {
			t.Errorf("%s: %s", path, text)
		}
	}
	for _, name := range []string{"../mine", "..\\mine", "a/b", "/mine", "C:mine", "up/mine", ".mine", "", " ", ".toml",
		"mine\x00",
		"mi\nne", strings.Repeat("long", 50), "con<>"} {
		if status, _ := s.post("/jobs", url.Values{"name": {name}}); status != http.StatusUnprocessableEntity {
			t.Errorf("began %q: %d", name, status)
		}
	}
	if text, err := os.ReadFile(outside); err != nil || string(text) != "title = \"secret\"\n" {
		t.Errorf("the file outside: %q, %v", text, err)
	}
	for _, name := range []string{"mine.toml", "mine"} {
		if _, err := os.Lstat(filepath.Join(filepath.Dir(s.dir), name)); err == nil {
			t.Errorf("%s was made outside", name)
		}
	}
	if _, list := s.get("/"); strings.Contains(list, "link.toml") || strings.Contains(list, "hidden") {
		t.Errorf("the list has what leads outside:\n%s", list)
	}
}

// endless is a body of so many bytes, made as they are asked for.
type endless struct{ left int }

func (e *endless) Read(p []byte) (int, error) {
	if e.left <= 0 {
		return 0, io.EOF
	}
	n := min(len(p), e.left)
	e.left -= n
	for i := range n {
		p[i] = 'a'
	}
	return n, nil
}

// A body of 100 MB is refused, before it is read where it says how long it is, else once
// it has come to the most that is taken; nothing of it is kept in memory.
func TestABodyOf100MBIsRefused(t *testing.T) {
	s := newSite(t)
	before := memory()
	for _, length := range []int64{100 << 20, -1} {
		body := &endless{100 << 20}
		r, err := http.NewRequest("POST", s.URL+"/job/gown.toml/text/set",
			io.MultiReader(strings.NewReader("version=1&text="), body))
		if err != nil {
			t.Fatal(err)
		}
		r.ContentLength = length
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", s.URL)
		answer, err := s.browser.Do(r)
		if err == nil {
			answer.Body.Close()
			if answer.StatusCode != http.StatusRequestEntityTooLarge {
				t.Errorf("of length %d: %d", length, answer.StatusCode)
			}
		} // else the server has closed the connection while it was sent
		if body.left < 80<<20 {
			t.Errorf("of length %d: %d bytes were taken", length, 100<<20-body.left)
		}
	}
	if grown := memory() - before; grown > 20<<20 {
		t.Errorf("%d MB more are held", grown>>20)
	}
	if status, text := s.get("/job/gown.toml/text"); status != http.StatusOK || strings.Contains(text, "aaaa") {
		t.Errorf("then: %d", status)
	}
}

// memory is what the heap holds.
func memory() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

// What a job says is shown as text, whatever it says: its title, its names, and what is
// wrong with it.
func TestWhatAJobSaysIsNoMarkup(t *testing.T) {
	s := newSite(t)
	const mark = "<script>alert(1)</script>"
	src := "title = '" + mark + "</textarea><b>'\nunit = '" + mark + "'\n['" + mark + "']\n[[cloth]]\nid = '" + mark +
		"'\n"
	for _, name := range []string{"loud.toml", "<b onclick=x>.toml"} {
		if err := os.WriteFile(filepath.Join(s.dir, name), []byte(src), 0o644); err != nil {
			t.Skip("this system takes no such name:", err)
		}
		for _, v := range s.server.views {
			status, text := s.get(jobPath(name, v.path))
			if status != http.StatusOK || strings.Contains(text, "<script>") || strings.Contains(text, "<b") &&
				!strings.Contains(text, "<body") {
				t.Errorf("%s of %s: %d\n%s", v.path, name, status, text)
			}
		}
	}
	if _, list := s.get("/"); strings.Contains(list, "<b onclick") {
		t.Errorf("the list:\n%s", list)
	}
}

func TestOnlyWhatThePageDoesIsAnswered(t *testing.T) {
	s := newSite(t)
	for _, method := range []string{"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"} {
		if answer, _ := s.as(true, method, "/job/gown.toml/text", "", "Origin", s.URL); answer.StatusCode < 400 {
			t.Errorf("%s: %d", method, answer.StatusCode)
		}
	}
	if answer, _ := s.as(true, "GET", "/job/gown.toml/save", ""); answer.StatusCode < 400 {
		t.Error("a job is saved by following a link")
	}
}
