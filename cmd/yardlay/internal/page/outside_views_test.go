package page

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"yardlay/cmd/yardlay/internal/browser"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// on leads a browser to another view of its job.
func on(p *browser.Page, view string) {
	at := browser.Get[string](p, "location.href")
	p.Do(chromedp.Navigate(at[:strings.LastIndex(at, "/")] + "/" + view))
}

// Ways are compared, a row is looked at by keys alone and taken over, and one step goes back;
// what is asked for wrongly is said beside it.
func TestOutsideCompareAndTakeOver(t *testing.T) {
	quickly(t)
	p := inBrowser(t, []byte(testjobs.Small))
	on(p, "compare")
	p.Press("#key-1", "wool")
	p.Click("#compare-begin")
	p.Until(`document.querySelector("#ways-wrong").textContent.includes("empty")`)
	p.Do(chromedp.Navigate(browser.Get[string](p, "location.href")))
	p.Press("#key-1", "wool.width")
	p.Press("#values-1", "60 in, 45 in")
	p.Click("#compare-begin")
	p.Until(`!!document.querySelector("#rows tr.best") && !document.querySelector("#rows-stop")`)
	if wrong := browser.Get[string](p, `document.querySelector("#ways-wrong").textContent`); wrong != "" {
		t.Errorf("it still says %q", wrong)
	}
	p.Until(`!!document.querySelector("#rows figure img")?.naturalWidth`)
	row := browser.Get[string](p,
		`[...document.querySelectorAll("#rows tbody tr")].find(r => r.textContent.includes("wool width 60 in"))`+
			`.querySelector("button").id`)
	p.Press("#"+row, "\r")
	p.Until(`!!document.querySelector("#row img")?.naturalWidth`)
	p.Press("#"+strings.Replace(row, "look", "take", 1), "\r")
	p.Until(`document.querySelector("#rows").textContent.includes("The job has been changed since")`)
	p.Until(`!document.querySelector("#undo").disabled`)
	on(p, "text")
	if text := browser.Get[string](p, `document.querySelector("#text").value`); !strings.Contains(text, "60 in") {
		t.Errorf("the row is not taken over:\n%s", text)
	}
	p.Click("#undo")
	p.Until(`document.querySelector("#text").value.includes("width = 58")`)
}

// Both sides of a seam are shown; a print that cannot be is said beside its choice, one that
// can has files to keep.
func TestOutsideSewAndPrint(t *testing.T) {
	quickly(t)
	p := inBrowser(t, []byte(testjobs.Small))
	on(p, "sew")
	p.Until(`!!document.querySelector("#sew-now td button") && ` +
		`!document.querySelector("#sew-now").textContent.includes("looked for")`)
	p.Press("#"+browser.Get[string](p, `document.querySelector("#sew-now td button").id`), "\r")
	p.Until(`!!document.querySelector(".seam img")?.naturalWidth`)
	on(p, "print")
	p.Do(chromedp.SetValue(chromedp.CSS("#roll-roll"), "1 in"))
	p.Click(`form:has(#roll-roll) button`)
	p.Until(`document.querySelector("#wrong-roll-roll").textContent.length > 20`)
	p.Do(chromedp.SetValue(chromedp.CSS("#print-date"), "2026-05-31"))
	p.Do(chromedp.SetValue(chromedp.CSS("#roll-roll"), "36 in"))
	p.Click(`form:has(#roll-roll) button`)
	p.Until(`!!document.querySelector("#made .files a")`)
	p.Until(`document.querySelector("#wrong-roll-roll").textContent === ""`)
	if got := browser.Get[string](p,
		`fetch(document.querySelector("#made .files a").href).then(r => r.text()).then(t => t.slice(0, 5))`); got != "%PDF-" {
		t.Errorf("the file begins with %q", got)
	}
	if !browser.Get[bool](p,
		`fetch(document.querySelector("#made .files a").href).then(r => r.text()).then(t => t.includes("D:20260531"))`) {
		t.Error("the file has another date than was chosen")
	}
}
