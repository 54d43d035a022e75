package page

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var versionField = regexp.MustCompile(`name="version" value="(\d+)"`)

// versionIn is the version of the job that a page shows.
func versionIn(t *testing.T, text string) string {
	t.Helper()
	found := versionField.FindStringSubmatch(text)
	if found == nil {
		t.Fatalf("no version in\n%s", text)
	}
	return found[1]
}

// now is the text of gown.toml as it is on the page.
func (s *site) now() string {
	s.Helper()
	_, text := s.get("/job/gown.toml/text/now")
	return text
}

func (s *site) disk() string {
	s.Helper()
	text, err := os.ReadFile(filepath.Join(s.dir, "gown.toml"))
	if err != nil {
		s.Fatal(err)
	}
	return string(text)
}

func TestTheTextIsTypedSavedAndTakenBack(t *testing.T) {
	s := newSite(t)
	was := s.disk()
	_, shown := s.get("/job/gown.toml/text")
	wrong := strings.Replace(was, `nap      = "one-way"`, `nap      = "sideways"`, 1)
	status, told := s.post("/job/gown.toml/text/set", url.Values{"version": {versionIn(t, shown)}, "text": {wrong}})
	if status != http.StatusOK || !strings.Contains(told, "sideways") || !strings.Contains(told, `data-line="22"`) {
		t.Fatalf("what is wrong is not told: %d\n%s", status, told)
	}
	if s.now() != wrong || s.disk() != was {
		t.Error("the page or the file has another text")
	}
	if _, bar := s.post("/job/gown.toml/bar", nil); !strings.Contains(bar, "Not saved yet") ||
		!strings.Contains(bar, "1 thing needs mending") {
		t.Errorf("the bar:\n%s", bar)
	}
	if _, bar := s.post("/job/gown.toml/undo", nil); !strings.Contains(bar, "Saved") || s.now() != was {
		t.Errorf("undone:\n%s", bar)
	}
	s.post("/job/gown.toml/redo", nil)
	if _, bar := s.post("/job/gown.toml/save", nil); !strings.Contains(bar, "Saved") || s.disk() != wrong {
		t.Errorf("saved:\n%s", bar)
	}
	if status, told := s.post("/job/gown.toml/text/set", url.Values{"text": {"a"}}); status != 422 {
		t.Errorf("a text of no version: %d\n%s", status, told)
	}
}

// Two pages show the same job. What is typed on the one is told to the other, and is lost
// on neither.
func TestTwoPagesOfOneText(t *testing.T) {
	quickly(t)
	for _, how := range []string{"over", "other"} {
		s := newSite(t)
		_, shown := s.get("/job/gown.toml/text")
		first := versionIn(t, shown)
		s.post("/job/gown.toml/text/set", url.Values{"version": {first}, "text": {"theirs = 1\n"}})
		mine := url.Values{"version": {first}, "text": {"mine = 1\n"}}
		for range 2 { // whoever types on is told again
			_, told := s.post("/job/gown.toml/text/set", mine)
			if !strings.Contains(told, "another page") || versionIn(t, told) != first || s.now() != "theirs = 1\n" {
				t.Fatalf("typed into a text that is not there any more:\n%s", told)
			}
			mine.Set(how, regexp.MustCompile(how + `" value="(\d+)"`).FindStringSubmatch(told)[1])
			if how == "over" {
				break
			}
			mine.Del(how)
		}
		if how == "over" {
			if _, told := s.post("/job/gown.toml/text/set", mine); strings.Contains(told, "another page") ||
				s.now() != "mine = 1\n" {
				t.Errorf("mine is not put in its place: %q\n%s", s.now(), told)
			}
			if s.post("/job/gown.toml/undo", nil); s.now() != "theirs = 1\n" {
				t.Errorf("a step back is %q", s.now())
			}
			continue
		}
		mine.Set("other", strconv.Itoa(s.server.open["gown.toml"].State().Version))
		if _, told := s.post("/job/gown.toml/text/set", mine); !strings.Contains(told, "theirs = 1") ||
			s.now() != "theirs = 1\n" {
			t.Errorf("the other is not shown: %q\n%s", s.now(), told)
		}
		if s.post("/job/gown.toml/redo", nil); s.now() != "mine = 1\n" {
			t.Errorf("a step forth is %q", s.now())
		}
	}
}

func TestAFileThatSomeoneElseWrites(t *testing.T) {
	s := newSite(t)
	was := s.disk()
	s.post("/job/gown.toml/text/set", url.Values{"version": {"1"}, "text": {"mine = 1\n"}})
	const theirs = "theirs = 22\n"
	if err := os.WriteFile(filepath.Join(s.dir, "gown.toml"), []byte(theirs), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, bar := s.post("/job/gown.toml/save", nil); !strings.Contains(bar, "has changed on the disk") ||
		!strings.Contains(bar, "Take theirs") || s.disk() != theirs || s.now() != "mine = 1\n" {
		t.Fatalf("saved over it, or not told:\n%s", bar)
	}
	if status, text := s.post("/job/gown.toml/save-as", url.Values{"name": {"gown"}}); status != 422 ||
		!strings.Contains(text, "already there") {
		t.Errorf("saved under its own name: %d\n%s", status, text)
	}
	if status, text := s.post("/job/gown.toml/save-as", url.Values{"name": {"mine"}}); status != http.StatusOK {
		t.Errorf("saved under another name: %d\n%s", status, text)
	}
	if _, text := s.get("/job/mine.toml/text/now"); text != "mine = 1\n" || s.now() != theirs || s.disk() != theirs {
		t.Errorf("then mine is %q, theirs %q", text, s.now())
	}
	for i, want := range []string{"mine = 1\n", was} {
		if s.post("/job/gown.toml/undo", nil); s.now() != want {
			t.Errorf("%d steps back is %q", i+1, s.now())
		}
	}
}

// A browser sends lines that end in CR LF (HTML Living Standard, form submission). Those
// that nobody touched keep the ends that the file gave them.
func TestLinesKeepTheirEnds(t *testing.T) {
	line := rapid.Custom(func(t *rapid.T) string {
		return rapid.SampledFrom([]string{"", "a", "b = 1", "# c"}).Draw(t, "line")
	})
	end := rapid.SampledFrom([]string{"\n", "\r\n"})
	rapid.Check(t, func(t *rapid.T) {
		var src, same strings.Builder
		lines := rapid.SliceOfN(line, 1, 8).Draw(t, "lines")
		var ends []string
		for i, l := range lines {
			src.WriteString(l)
			same.WriteString(l)
			if i < len(lines)-1 {
				ends = append(ends, end.Draw(t, "end"))
				src.WriteString(ends[i])
				same.WriteString("\r\n")
			}
		}
		if got := string(typed([]byte(src.String()), same.String())); got != src.String() {
			t.Fatalf("untouched: %q, not %q", got, src.String())
		}
		at := rapid.IntRange(0, len(lines)-1).Draw(t, "at")
		changed := append([]string(nil), lines...)
		changed[at] = "x = 2"
		got := string(typed([]byte(src.String()), strings.Join(changed, "\r\n")))
		var want strings.Builder
		for i, l := range changed {
			want.WriteString(l)
			if i == len(changed)-1 {
				break
			}
			if i != at || lines[at] == "x = 2" {
				want.WriteString(ends[i])
				continue
			}
			if crlf := strings.Count(src.String(), "\r\n"); 2*crlf > strings.Count(src.String(), "\n") {
				want.WriteString("\r\n")
			} else {
				want.WriteString("\n")
			}
		}
		if got != want.String() {
			t.Fatalf("one line changed: %q, not %q", got, want.String())
		}
	})
}
