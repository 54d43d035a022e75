package page

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"yardlay/cmd/yardlay/internal/browser"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
)

// inBrowser serves a folder with one job, gown.toml, as the command does, and opens it in a browser.
func inBrowser(t *testing.T, src []byte) *browser.Page {
	t.Helper()
	outside.Wanted(t, "chromium")
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "gown.toml"), src, 0o644); err != nil {
		t.Fatal(err)
	}
	s, l := listening(t, Options{Dir: dir, Job: "gown.toml"})
	p := browser.Open(t, s.Address(l))
	p.Do(chromedp.Navigate(fmt.Sprintf("http://%s/job/gown.toml/cloths", l.Addr())))
	p.Until(`!!document.querySelector(".cloths svg")`)
	return p
}

const viewBox = `document.querySelector("#cloth-0-view-0 svg").getAttribute("viewBox")`

// Markers zoom by buttons, keys and wheel, and are dragged; whole again they are as before.
func TestOutsideMarkersZoom(t *testing.T) {
	p := inBrowser(t, job.Starter())
	p.Until(`!document.querySelector("progress")`)
	whole := browser.Get[string](p, viewBox)
	changed := func(how string, from string) string {
		t.Helper()
		now := browser.Get[string](p, viewBox)
		if now == from {
			t.Errorf("%s changes nothing", how)
		}
		return now
	}
	p.Click("#cloth-0-marker-0 [data-do=in]")
	near := changed("a button", whole)
	p.Press("#cloth-0-view-0", "+")
	near = changed("a key", near)
	box := `document.querySelector("#cloth-0-view-0").getBoundingClientRect()`
	x := browser.Get[float64](p, "("+box+".left + "+box+".right) / 2")
	y := browser.Get[float64](p, "("+box+".top + "+box+".bottom) / 2")
	wheel := func(e *input.DispatchMouseEventParams) { e.DeltaX, e.DeltaY = -0.01, -120 } // nought is left out
	p.Do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseWheel, x, y, wheel))
	p.Until(viewBox + ` !== "` + near + `"`)
	near = changed("the wheel over a marker in focus", near)
	mouse := func(kind input.DispatchMouseEventType, dx, dy float64) {
		p.Do(chromedp.MouseEvent(kind, x+dx, y+dy, chromedp.ButtonType(input.MouseButtonLeft), chromedp.ClickCount(1)))
	}
	mouse(input.DispatchMouseEventTypeMousePressed, 0, 0)
	mouse(input.DispatchMouseEventTypeMouseMoved, 20, 10)
	mouse(input.DispatchMouseEventTypeMouseMoved, 60, 20)
	mouse(input.DispatchMouseEventTypeMouseReleased, 60, 20)
	changed("a drag", near)
	p.Press("#cloth-0-view-0", "0")
	if now := browser.Get[string](p, viewBox); now != whole {
		t.Errorf("whole again it shows %s, at first %s", now, whole)
	}
}

// A line of the list, in focus, lights up its pieces and they it; a tap keeps them lit.
func TestOutsidePiecesLightUp(t *testing.T) {
	p := inBrowser(t, job.Starter())
	p.Until(`!document.querySelector("progress")`)
	lit := `[...document.querySelectorAll(".cloths [data-of].lit")].map((g) => g.dataset.of).join(" ")`
	if now := browser.Get[string](p, lit); now != "" {
		t.Errorf("lit at first: %s", now)
	}
	p.Do(chromedp.Focus("#cloth-0-line-0"))
	if now := browser.Get[string](p, lit); now != "cut-0-0-0 cut-0-0-1" {
		t.Errorf("the first line lights up %q", now)
	}
	if said := p.Text("#cloth-0-marker-0 .lit-said"); said == "" {
		t.Error("nothing is said of what is lit")
	}
	p.Press("#cloth-0-line-0", "\r")
	if !browser.Get[bool](p, `document.querySelector("#cloth-0-line-0").getAttribute("aria-pressed") === "true"`) {
		t.Error("Enter does not keep the line lit")
	}
	p.Click(`#cloth-1-view-0 [data-of="cut-1-0-0"] polygon`)
	p.Until(lit + ` === "cut-1-0-0"`)
	if !browser.Get[bool](p, `document.querySelector("#cloth-1-line-0").closest("tr").classList.contains("lit")`) {
		t.Error("a piece that is tapped does not light its line")
	}
}

// From a change of the waist to the new first marker on the screen.
func TestOutsideFirstMarkerOnTheScreen(t *testing.T) {
	chorus, err := os.ReadFile("../../../../testdata/chorus-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		src  []byte
		most time.Duration // on an idle machine
	}{{"starter", job.Starter(), 500 * time.Millisecond}, {"chorus", chorus, 1500 * time.Millisecond}} {
		p := inBrowser(t, c.src)
		took := browser.Get[float64](p, `(async () => {
			const page = await (await fetch("/job/gown.toml/text")).text();
			const text = new DOMParser().parseFromString(page, "text/html");
			const body = new URLSearchParams({ version: text.querySelector("[name=version]").value,
				text: text.querySelector("textarea").value.replace(/(waist_girth *= *"?)([0-9]+)/g,
					(_, key, inches) => key + (Number(inches) - 1)) });
			const began = performance.now();
			let fresh = false; // a marker is new
			const drawn = new Promise((done) => new MutationObserver((changes) => {
				fresh = fresh || changes.some((c) => c.target.matches(".view"));
				if (fresh && !document.querySelector(".cloths .old")) done();
			}).observe(document.querySelector(".cloths"), { childList: true, subtree: true }));
			await fetch("/job/gown.toml/text/set", { method: "POST", headers: { "HX-Request": "true" }, body });
			await drawn;
			await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
			return performance.now() - began;
		})()`)
		t.Logf("%s: the first markers are on the screen after %.0f ms", c.name, took)
		if took > 8*float64(c.most.Milliseconds()) {
			t.Errorf("%s: the first markers are on the screen after %.0f ms", c.name, took)
		}
	}
}
