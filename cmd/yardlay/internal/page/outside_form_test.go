package page

import (
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"yardlay/cmd/yardlay/internal/browser"
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/form"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
)

// looked opens the form of a starter in a browser.
func looked(t *testing.T) (*browser.Page, *Server) {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "gown.toml"), job.Starter(), 0o644); err != nil {
		t.Fatal(err)
	}
	s, err := New(Options{Dir: dir, Job: "gown.toml"})
	if err != nil {
		t.Fatal(err)
	}
	h := httptest.NewServer(s.Handler())
	t.Cleanup(h.Close)
	t.Cleanup(s.Close)
	outside.Wanted(t, "chromium")
	p := browser.Open(t, h.URL+s.Entry())
	p.Do(chromedp.Navigate(h.URL + "/job/gown.toml/measures"))
	return p, s
}

// jobTextOf is the text that the program has.
func jobTextOf(s *Server) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return string(s.open["gown.toml"].State().Text)
}

// A maker fills the form in, with a wrong value on the way, and nothing that she types is
// taken from under her hands.
func TestOutsideFormIsFilledIn(t *testing.T) {
	p, s := looked(t)
	const waist = `[id="f-body.waist_girth"]`
	p.Click(waist)
	p.Until(`document.querySelector("#taken-waist_girth.lit") !== null`)
	p.Fill(waist, "abc")
	p.Until(`document.querySelector('` + waist + `').getAttribute("aria-invalid") === "true"`)
	p.Until(`document.getElementById("form-said").textContent.includes("abc")`)
	p.Until(`document.querySelector("#taken-waist_girth.lit") !== null`) // still
	if !strings.Contains(jobTextOf(s), `waist_girth = "abc"`) {
		t.Errorf("it was not kept:\n%s", jobTextOf(s))
	}
	p.Fill(waist, "29 1/2")
	p.Until(`!document.querySelector('` + waist + `').hasAttribute("aria-invalid")`)
	if got := browser.Get[string](p, `document.activeElement.id`); got != "f-body.waist_girth" {
		t.Errorf("the focus went to %q", got)
	}
	if !strings.Contains(jobTextOf(s), `waist_girth = "29 1/2"`) {
		t.Errorf("it was not kept:\n%s", jobTextOf(s))
	}
	p.Press(waist, " ") // on the way to 29 1/2 and more
	p.Until(`document.querySelector('` + waist + `').value === "29 1/2 "`)
	p.Click("#undo")
	p.Until(`document.querySelector('` + waist + `').value === "28"`)
}

// What is typed right before a step is not left behind: saving saves it, and two pages
// that type into two fields keep both.
func TestOutsideFormLosesNothing(t *testing.T) {
	p, s := looked(t)
	p.Fill(`[id="f-title"]`, "Lantern gown")
	browser.Get[bool](p, `document.activeElement.dispatchEvent(new KeyboardEvent("keydown", `+
		`{ key: "s", ctrlKey: true, bubbles: true, cancelable: true }))`)
	soon(t, "a saved title", func() bool {
		file, err := s.folder.ReadFile("gown.toml")
		return err == nil && strings.Contains(string(file), "Lantern gown")
	})
	p.Click(`[id="d-cloth[0]"] summary`)
	p.Until(`document.querySelector('[id="f-cloth[0].skew"]') !== null`)
	s.mu.Lock()
	o := s.open["gown.toml"]
	s.mu.Unlock()
	p.Fill(`[id="f-cloth[0].skew"]`, "1/2")
	now := o.State()
	if _, err := o.Apply(now.Version, "", func(src []byte) ([]byte, error) {
		return form.Set(src, edit.Of("gap"), "1/4")
	}); err != nil {
		t.Fatal(err)
	}
	p.Until(`document.querySelector('[id="f-gap"]').value === "1/4" && ` +
		`document.querySelector('[id="f-cloth[0].skew"]').value === "1/2"`)
	soon(t, "both changes", func() bool {
		text := jobTextOf(s)
		return strings.Contains(text, `skew     = "1/2"`) && strings.Contains(text, `"1/4"    # clear`)
	})
}

// soon waits for something to come true.
func soon(t *testing.T, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !is(); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("%s: never", what)
		}
	}
}

// A part comes from the gallery, a cloth is named otherwise, moved and removed, by
// buttons that keyboards reach.
func TestOutsideFormTakesParts(t *testing.T) {
	p, s := looked(t)
	p.Click("#add-part a")
	p.Do(chromedp.WaitVisible(".gallery"))
	p.Until(`document.querySelectorAll(".gallery img").length > 20`)
	browser.Get[bool](p, `document.querySelector("#h-cape").scrollIntoView() === undefined`)
	p.Until(`(() => { const i = document.querySelector("#h-cape").closest("li").querySelector("img"); ` +
		`return i.complete && i.naturalWidth > 0 })()`)
	p.Click(`#h-cape ~ button`)
	p.Do(chromedp.WaitVisible(`[id="t-part[2]"]`))
	p.Until(`document.querySelector('[id="f-body.neck_base_girth"]') !== null`)
	p.Fill(`[id="f-cloth[0].id"]`, "silk")
	p.Press(`[id="f-cloth[0].id"]`, "\r")
	p.Until(`document.querySelector('[id="f-part[2].cloth"]').value === "silk"`)
	p.Click(`[id="up-cloth[1]"]`)
	p.Until(`document.querySelector('[id="f-cloth[0].id"]').value === "lining"`)
	p.Click(`[id="cut-part[1]"]`)
	p.Until(`document.getElementById("t-part[2]") === null`)
	p.Click(`#add-cloth button`)
	p.Until(`document.activeElement.id === "f-cloth[2].id"`)
	text := jobTextOf(s)
	if strings.Contains(text, "waistband") || !strings.Contains(text, `["silk", "lining"]`) ||
		!strings.Contains(text, "# the first is the outer cloth") {
		t.Errorf("the text is:\n%s", text)
	}
}

// The lines of the text are numbered, and those marked that something is wrong with, also
// after one has typed another line.
func TestOutsideTextMarksLines(t *testing.T) {
	p, _ := looked(t)
	p.Click(`.tabs a[href$="/text"]`)
	p.Do(chromedp.WaitVisible("#gutter"))
	const bad = `[...document.querySelectorAll("#gutter .bad")].map((l) => l.textContent).join()`
	p.Until(`document.getElementById("gutter").childElementCount === ` +
		`document.getElementById("text").value.split("\n").length`)
	retyped := func(from, to string) {
		t.Helper()
		p.Do(chromedp.Focus(chromedp.CSS("#text")))
		browser.Get[bool](p, `(() => { const b = document.getElementById("text"); b.value = b.value.replace(`+
			from+`, `+to+`); b.dispatchEvent(new Event("input", { bubbles: true })); return true })()`)
	}
	retyped(`'"one-way"'`, `'"sideways"'`)
	p.Until(bad + ` === "22"`)
	retyped(`"# Lay it"`, `"\n# Lay it"`)
	p.Until(bad + ` === "23"`)
	p.Until(`document.querySelector("#gutter .bad").title.includes("sideways")`)
	if off := browser.Get[float64](p, `Math.abs(document.querySelector("#gutter span").getBoundingClientRect().top - `+
		`document.getElementById("text").getBoundingClientRect().top - 8)`); off > 3 {
		t.Errorf("the numbers stand %g px off their lines", off)
	}
	if dir := os.Getenv("YARDLAY_LOOK"); dir != "" {
		p.Screenshot(dir + "/text.png")
	}
}

// On a narrow screen the cloths stand below the form: one link that stays in view leads there, and one leads back to
// the field that was left for them. On a wide one there is neither.
func TestOutsideFormToClothsAndBack(t *testing.T) {
	p := inBrowser(t, job.Starter())
	on(p, "measures")
	p.Until(`!!document.querySelector("aside .cloth svg") && !document.querySelector("progress")`)
	jumps := func() int {
		return browser.Get[int](p, `[...document.querySelectorAll(".jump a")].filter((a) => {
			const box = a.getBoundingClientRect();
			return box.height > 0 && box.top >= 0 && box.bottom <= innerHeight;
		}).length`)
	}
	if n := jumps(); n != 0 {
		t.Errorf("on a wide screen %d links lead to what is in sight", n)
	}
	p.Do(chromedp.EmulateViewport(360, 800))
	const field = `document.querySelector('[id="f-part[0].length"]')`
	p.Do(chromedp.Focus(chromedp.CSS(`[id="f-part[0].length"]`)))
	if n := jumps(); n != 1 {
		t.Errorf("in the middle of the form %d links to the cloths are in sight", n)
	}
	shot(p, "jump-form")
	p.Click(`.jump a[href="#beside"]`)
	p.Until(`document.querySelector("aside").getBoundingClientRect().top < innerHeight / 2`)
	shot(p, "jump-cloths")
	if n := jumps(); n != 1 {
		t.Errorf("at the cloths %d links back are in sight", n)
	}
	p.Press("#to-form", "\r")
	p.Until(`document.activeElement === ` + field)
	if y := browser.Get[float64](p, field+`.getBoundingClientRect().top`); y < 0 || y > 800 {
		t.Errorf("back at the field it stands at %.0f", y)
	}
}
