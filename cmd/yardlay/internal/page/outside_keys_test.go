package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"yardlay/cmd/yardlay/internal/browser"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
)

// listReachable lists what of a page takes the keyboard, in the order in which it stands there, and keeps the list.
const listReachable = `(() => {
	const can = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]";
	window.stops = [...document.querySelectorAll(can)].filter((e) => e.tabIndex >= 0 && !e.disabled &&
		e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length > 0);
	const top = document.createElement("span"); // the keyboard goes on from where it was
	top.tabIndex = -1;
	document.body.prepend(top);
	top.focus();
	top.remove();
	return window.stops.length;
})()`

// stop is where the keyboard is.
type stop struct {
	At    int    // in the list; -1: it is not in it
	Is    string // what it is
	Seen  bool   // it is marked, and stands within the window
	Over  string // what lies over its middle
	Plain bool   // it takes the keyboard only since it can be scrolled
}

const whereStopped = `(() => {
	const e = document.activeElement;
	if (!e || e === document.body) return { At: -1, Is: "" };
	const box = e.getBoundingClientRect();
	const x = Math.min(Math.max((box.left + box.right) / 2, 1), innerWidth - 2);
	const y = Math.min(Math.max((Math.max(box.top, 0) + Math.min(box.bottom, innerHeight)) / 2, 1), innerHeight - 2);
	const marked = [e, ...e.querySelectorAll(":scope > polygon.piece")].some((one) => {
		const s = getComputedStyle(one);
		return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 || one !== e && s.stroke === "rgb(138, 47, 60)";
	});
	const over = document.elementFromPoint(x, y);
	const covers = over && over !== e && !e.contains(over) && !over.contains(e) && !(over.closest("label")?.control === e);
	return { At: window.stops.indexOf(e), Is: e.outerHTML.slice(0, 120),
		Seen: e.matches(":focus-visible") && marked && box.bottom > 0 && box.top < innerHeight && box.right > 0,
		Over: covers && !e.closest("svg") ? over.outerHTML.slice(0, 120) : "",
		Plain: e.scrollHeight > e.clientHeight || e.scrollWidth > e.clientWidth };
})()`

// tabbed goes through a page by Tab alone: it stops at everything in the order of the page, shows where it is, and
// comes to the end.
func tabbed(t *testing.T, p *browser.Page, name string) {
	t.Helper()
	all := browser.Get[int](p, listReachable)
	next, last := 0, -1
	for range 3*all + 20 { // a date has stops of its own
		p.Do(chromedp.KeyEvent(kb.Tab))
		at := browser.Get[stop](p, whereStopped)
		switch {
		case at.Is == "" || at.At == 0 && last == all-1: // beyond the end
			if next != all {
				t.Errorf("%s: Tab ends at %d of %d", name, next, all)
			}
			return
		case at.At >= 0 && at.At == last:
			continue
		case at.At != next && !(at.At < 0 && at.Plain):
			t.Errorf("%s: after %d it stops at %d of %d: %s", name, last, at.At, all, at.Is)
			if at.At < 0 {
				return
			}
		}
		if !at.Seen {
			t.Errorf("%s: it is not seen that the keyboard is at %s", name, at.Is)
		}
		if at.Over != "" {
			t.Errorf("%s: the keyboard is at %s, under %s", name, at.Is, at.Over)
		}
		if at.At >= 0 {
			next, last = at.At+1, at.At
		}
	}
	t.Errorf("%s: Tab does not come to an end after %d stops", name, all)
}

// heard reads a page as a screen reader gets it: all that takes the keyboard has a name, headings go down by one step
// at a time, there is one main part, and a place from which each kind of news is told.
func heard(t *testing.T, p *browser.Page, name string) {
	t.Helper()
	level, roles, live := 0, map[string]int{}, map[string]int{}
	for _, n := range p.Heard() {
		roles[n.Role]++
		live[n.Live]++
		if named := n.Focusable && n.Role != "RootWebArea" || n.Role == "image" || n.Role == "navigation" ||
			n.Role == "progressbar" || n.Role == "ProgressIndicator" || n.Role == "table" || n.Role == "region"; named &&
			strings.TrimSpace(n.Name) == "" && n.Role != "generic" && n.Role != "main" {
			t.Errorf("%s: a %s has no name: %+v", name, n.Role, n)
		}
		if n.Role == "heading" {
			if n.Level > level+1 || level == 0 && n.Level != 1 || strings.TrimSpace(n.Name) == "" {
				t.Errorf("%s: after a heading of level %d comes %q of level %d", name, level, n.Name, n.Level)
			}
			level = n.Level
		}
	}
	if roles["main"] != 1 || roles["banner"] != 1 || roles["heading"] == 0 {
		t.Errorf("%s: it has %v", name, roles)
	}
	if live["polite"] == 0 || live["assertive"] == 0 {
		t.Errorf("%s: news are told in %v", name, live)
	}
}

// By Tab alone one comes to everything on each view, wide and narrow, as it is opened and in use; and a screen reader
// has a name for all of it.
func TestOutsideByKeyboardAndEar(t *testing.T) {
	outside.Wanted(t, "chromium")
	quickly(t)
	p := inBrowser(t, job.Starter())
	p.Until(`!document.querySelector("progress")`)
	check := func(name string) {
		t.Helper()
		for _, width := range []int64{1280, 360} {
			p.Do(chromedp.EmulateViewport(width, 900))
			tabbed(t, p, fmt.Sprintf("%s, %d wide", name, width))
			if over := browser.Get[int](p, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
				t.Errorf("%s, %d wide: the page has to be moved sideways by %d", name, width, over)
			}
		}
		heard(t, p, name)
		p.Do(chromedp.EmulateViewport(1280, 900))
	}
	for _, v := range views() {
		on(p, v.path)
		p.Until(`document.readyState === "complete" && !document.querySelector("progress")`)
		switch v.path {
		case "measures":
			p.Until(`!!document.querySelector("aside .cloth")`)
		case "cloths":
			check("cloths, as opened")
			p.Click(`#cloth-0-marker-0 [data-by="take"]`)
			p.Until(handSaid + `.startsWith("All pieces lie as they may")`)
		case "compare":
			p.Click("#compare-begin")
			p.Until(`!!document.querySelector("#rows tr.best") && !document.querySelector("#rows-stop")`)
		case "quote":
			p.Click("#try")
			p.Until(`!!document.querySelector("#what-if table") && !document.querySelector("#what-if-stop")`)
		case "sew":
			p.Click("#sew-now td button")
			p.Until(`!!document.querySelector(".seam img")?.naturalWidth`)
		case "print":
			p.Click(`form:has(#roll-roll) button`)
			p.Until(`!!document.querySelector("#made .files a")`)
		}
		check(v.path)
	}
	retype(p, "waist_girth", "waste_girth")
	p.Until(`document.body.textContent.includes("mending")`)
	check("text, wrong")
	on(p, "measures")
	p.Until(`!!document.querySelector("aside .cloth")`)
	check("measures, wrong")
	on(p, "measures/gallery")
	check("gallery")
	p.Do(chromedp.Navigate(browser.Get[string](p, "location.origin") + "/"))
	check("jobs")
	p.Do(chromedp.Navigate(browser.Get[string](p, "location.origin") + "/nowhere"))
	check("nowhere")
}
