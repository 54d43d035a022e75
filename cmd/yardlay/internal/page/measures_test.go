package page

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/job"
)

var versionOf = regexp.MustCompile(`data-version="(\d+)"|name="version" value="(\d+)"`)

// form asks for a view of the job that names its version, and returns that too.
func (s *site) form(path string) (text, version string) {
	s.Helper()
	status, text := s.get("/job/gown.toml/" + path)
	found := versionOf.FindStringSubmatch(text)
	if status != http.StatusOK || found == nil {
		s.Fatalf("%s: %d\n%s", path, status, text)
	}
	return text, found[1] + found[2]
}

// change makes a change by the form as it is now.
func (s *site) change(what string, values url.Values) string {
	s.Helper()
	_, version := s.form("measures")
	values.Set("version", version)
	status, text := s.post("/job/gown.toml/measures/"+what, values)
	if status != http.StatusOK {
		s.Fatalf("%s %v: %d\n%s", what, values, status, text)
	}
	return text
}

// text is the job as it is in the program.
func (s *site) text() string {
	s.Helper()
	s.server.mu.Lock()
	defer s.server.mu.Unlock()
	return string(s.server.open["gown.toml"].State().Text)
}

// has fails unless a text has all of these.
func has(t *testing.T, text string, wanted ...string) {
	t.Helper()
	for _, want := range wanted {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in:\n%s", want, text)
		}
	}
}

// What is typed stands in the text, right or wrong, and what is wrong with it beside its
// field, as text.
func TestFormTakesWhatIsTyped(t *testing.T) {
	s := newSite(t)
	text := s.change("set", url.Values{"path": {"body.waist_girth"}, "value": {"27 1/2"}})
	has(t, s.text(), `waist_girth = "27 1/2"`, "# measures of the wearer")
	has(t, text, `value="27 1/2"`)
	if strings.Contains(text, "aria-invalid") {
		t.Errorf("something is wrong with it:\n%s", text)
	}
	text = s.change("set", url.Values{"path": {"body.waist_girth"}, "value": {"<b>wide"}})
	has(t, s.text(), `waist_girth = "<b>wide"`)
	has(t, text, `value="&lt;b&gt;wide"`, `aria-invalid="true"`,
		`<div class="errors" id="e-body.waist_girth"><p>`, "&lt;b&gt;wide&#34;",
		`<span class="hint">A length reads`)
	if strings.Contains(text, "<b>wide") {
		t.Error("it became markup")
	}
	s.post("/job/gown.toml/undo", nil)
	has(t, s.text(), `waist_girth = "28"`) // both were typed into one field: one step
}

// Tables come, move and go; names are followed.
func TestFormAddsMovesAndRemoves(t *testing.T) {
	quickly(t)
	s := newSite(t)
	text := s.change("add", url.Values{"path": {"cloth"}})
	has(t, s.text(), "[[cloth]]\nid = \"cloth\"\n")
	has(t, text, `id="t-cloth[2]"`, "lacks <code>width</code>")
	s.change("set", url.Values{"path": {"cloth[2].width"}, "value": {"36"}})
	s.change("move", url.Values{"path": {"cloth[2]"}, "to": {"0"}})
	s.change("set", url.Values{"path": {"cloth[1].id"}, "value": {"silk"}})
	has(t, s.text(), `cloth  = ["silk", "lining"]`)
	s.change("remove", url.Values{"path": {"cloth[0]"}})
	s.change("move", url.Values{"path": {"part[0].cloth[1]"}, "to": {"0"}})
	has(t, s.text(), `cloth  = ["lining", "silk"]    # the first`)
	s.change("remove", url.Values{"path": {"part[0].cloth[0]"}})
	has(t, s.text(), `cloth  = ["silk"]    # the first`)
}

// Fields that nobody has given come when their table is opened, those with an error at
// once.
func TestFormShowsMoreWhenAsked(t *testing.T) {
	s := newSite(t)
	const skew = `id="f-cloth[0].skew"`
	text, _ := s.form("measures")
	if strings.Contains(text, skew) {
		t.Error("all fields are sent")
	}
	if text, _ = s.form("measures?open=cloth[0]"); !strings.Contains(text, skew) ||
		strings.Contains(text, `id="f-cloth[1].skew"`) {
		t.Errorf("not the fields of the first cloth alone:\n%s", text)
	}
	text = s.change("set", url.Values{"path": {"cloth[0].skew"}, "value": {"much"}})
	has(t, text, skew, "cannot read &#34;much&#34;")
	if text, _ = s.form("measures?open=part[0]&open=part[0].lining"); !strings.Contains(text,
		`id="f-part[0].lining.cloth"`) {
		t.Errorf("no fields of a lining:\n%s", text)
	}
}

// The gallery has all drafts with a picture each, and adds one that holds.
func TestGallery(t *testing.T) {
	quickly(t)
	s := newSite(t)
	text, version := s.form("measures/gallery")
	for _, r := range job.Reference() {
		if !r.Draft {
			continue
		}
		has(t, text, `value="`+r.Name+`"`)
		status, svg := s.get("/job/gown.toml/measures/draft/" + r.Name)
		if status != http.StatusOK || !strings.HasPrefix(svg, "<svg") {
			t.Errorf("%s: %d\n%.100s", r.Name, status, svg)
		}
		again, _ := pictures.of(r.Name)
		if n := strings.Count(svg, "<path"); n < 2 || n%2 != 0 || string(again) != svg || strings.Contains(svg, "NaN") {
			t.Errorf("%s: %d outlines in:\n%s", r.Name, n, svg)
		}
	}
	if status, _ := s.get("/job/gown.toml/measures/draft/toga"); status != http.StatusNotFound {
		t.Errorf("a draft that is not there: %d", status)
	}
	status, text := s.post("/job/gown.toml/measures/part", url.Values{"draft": {"sash"}, "version": {version}})
	if status != http.StatusOK {
		t.Fatalf("%d\n%s", status, text)
	}
	has(t, s.text(), `name       = "sash"`, `draft      = "sash"`, `cloth      = "satin"`)
	s.server.mu.Lock()
	now := s.server.open["gown.toml"].State()
	s.server.mu.Unlock()
	if !now.Holds || now.Disk != document.Same {
		t.Errorf("it does not hold: %v", now.Errors)
	}
}

// What the form has no place for is refused, and nothing is written.
func TestFormRefuses(t *testing.T) {
	s := newSite(t)
	_, version := s.form("measures")
	before := s.text()
	for _, c := range []struct {
		what   string
		values url.Values
	}{
		{"set", url.Values{"path": {"body.nothing"}, "value": {"1"}}},
		{"set", url.Values{"path": {"../x"}, "value": {"1"}}},
		{"set", url.Values{"value": {"1"}}},
		{"set", url.Values{"path": {"title"}, "value": {"a\nb"}}},
		{"add", url.Values{"path": {"title"}}},
		{"move", url.Values{"path": {"cloth[0]"}, "to": {"9"}}},
		{"move", url.Values{"path": {"cloth[0]"}, "to": {"-1"}}},
		{"move", url.Values{"path": {"cloth"}, "to": {"1"}}},
		{"part", url.Values{"draft": {"toga"}}},
	} {
		c.values.Set("version", version)
		if status, text := s.post("/job/gown.toml/measures/"+c.what,
			c.values); status != http.StatusUnprocessableEntity {
			t.Errorf("%s %v: %d\n%s", c.what, c.values, status, text)
		}
	}
	if status, _ := s.post("/job/gown.toml/measures/set", url.Values{"path": {"title"}, "value": {"x"},
		"version": {"0"}}); status != http.StatusConflict {
		t.Errorf("a page that shows an old version: %d", status)
	}
	if s.text() != before {
		t.Errorf("something was written:\n%s", s.text())
	}
}

// A text that is no TOML has no form, and the way back is shown.
func TestFormOfABrokenText(t *testing.T) {
	s := newSite(t)
	_, version := s.form("text")
	if status, _ := s.post("/job/gown.toml/text/set",
		url.Values{"text": {"unit = \n"}, "version": {version}}); status != 200 {
		t.Fatal(status)
	}
	text, _ := s.form("measures")
	has(t, text, "The form waits", "Line 1")
	status, _ := s.post("/job/gown.toml/measures/set", url.Values{"path": {"title"}, "value": {"x"},
		"version": {versionOf.FindStringSubmatch(text)[1]}})
	if status != http.StatusUnprocessableEntity {
		t.Errorf("it was changed: %d", status)
	}
	has(t, s.text(), "unit = \n")
}

// Every measure of the body has its line in the figure, within the drawing.
func TestFigureShowsEveryMeasure(t *testing.T) {
	svg := string(figure())
	for _, k := range bodyKeys() {
		has(t, svg, `id="taken-`+k.Name+`"`)
		for _, l := range []job.Landmark{k.Kind.Taken.Round, k.Kind.Taken.From, k.Kind.Taken.To} {
			_, level := levels[l]
			_, point := spots[l]
			if l != "" && level == point {
				t.Errorf("%s: the figure has %q as level %v, as point %v", k.Name, l, level, point)
			}
		}
		if l := k.Kind.Taken.Round; l != "" && levels[l].reach == 0 {
			t.Errorf("%s: no tape goes round %q", k.Name, l)
		}
	}
}
