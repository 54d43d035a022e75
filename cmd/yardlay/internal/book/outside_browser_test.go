package book

import (
	"fmt"
	"math"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"yardlay/cmd/yardlay/internal/browser"
	"yardlay/cmd/yardlay/internal/outside"
)

// inBrowser opens the page of a book, a file as a maker keeps it.
func inBrowser(t *testing.T, b Book) (p *browser.Page, in *browser.Browser, address string) {
	t.Helper()
	html, err := b.HTML()
	if err != nil {
		t.Fatal(err)
	}
	address = "file://" + outside.File(t, "workbook.html", html)
	in = browser.Start(t)
	return in.Open(t, address), in, address
}

const (
	view    = "figure.marker .view"
	theView = `document.querySelector("` + view + `")`
	boxOf   = `document.querySelector('input[data-ticks="cut-0-0-0"]')`
	pieceOf = `document.querySelector('figure.marker [data-of~="cut-0-0-0"]')`
)

// ticked is how box, piece of the first marker and count of its table stand.
func ticked(p *browser.Page) (box, piece bool, count string) {
	return browser.Get[bool](p, boxOf+".checked"), browser.Get[bool](p, pieceOf+`.classList.contains("ticked")`),
		browser.Get[string](p, boxOf+`.closest("table").querySelector(".count").textContent`)
}

// What is ticked off, in the table or on the marker, stays so when the page is loaded anew
// and in a second tab; what is cleared is gone for good.
func TestOutsideTicksAreKept(t *testing.T) {
	outside.Wanted(t, "chromium")
	p, in, address := inBrowser(t, tried())
	stand := func(when string, on *browser.Page, want bool) {
		t.Helper()
		n := 0
		if want {
			n = 1
		}
		box, piece, count := ticked(on)
		if box != want || piece != want || count != fmt.Sprintf("(%d of 1 done)", n) {
			t.Errorf("%s: box %v, piece %v, %q; want %v", when, box, piece, count, want)
		}
	}
	stand("at first", p, false)
	p.Click(`input[data-ticks="cut-0-0-0"]`)
	stand("ticked", p, true)
	second := in.Open(t, address)
	second.Until(boxOf + ".checked") // what one tab writes reaches the next a moment later
	stand("in a second tab", second, true)
	p.Reload()
	stand("loaded anew", p, true)

	tapAt(p, pieceOf)
	stand("tapped on the marker", p, false)
	if got := p.Text("#said"); got != "gore: not cut" {
		t.Errorf("a tap says %q", got)
	}
	second.Until("!" + boxOf + ".checked")
	tapAt(second, pieceOf)
	stand("tapped in the second tab", second, true)
	p.Until(boxOf + ".checked")

	p.Refuse(true)
	p.Click("#clear")
	stand("not cleared", p, true)
	p.Refuse(false)
	p.Click("#clear")
	stand("cleared", p, false)
	p.Reload()
	stand("cleared and loaded anew", p, false)
	if got := p.Dialogs(); len(got) != 2 {
		t.Errorf("asked were %q", got)
	}
}

// Two gowns, or two prints of one gown with other measures, keep their ticks apart.
func TestOutsideTicksOfAnotherMark(t *testing.T) {
	outside.Wanted(t, "chromium")
	p, in, _ := inBrowser(t, tried())
	p.Click(`input[data-ticks="cut-0-0-0"]`)
	b := tried()
	b.Mark = "z9y8"
	html, err := b.HTML()
	if err != nil {
		t.Fatal(err)
	}
	other := in.Open(t, "file://"+outside.File(t, "workbook.html", html))
	if box, piece, _ := ticked(other); box || piece {
		t.Error("the page of another mark is ticked off already")
	}
	p.Reload()
	if box, _, _ := ticked(p); !box {
		t.Error("the tick is lost when another page is opened")
	}
}

// middleOf is where the middle of a thing lies on the screen, once it is scrolled there.
func middleOf(p *browser.Page, thing string) (x, y float64) {
	at := browser.Get[[]float64](p, `(function () {
		var thing = `+thing+`;
		thing.scrollIntoView({ block: "center" });
		var b = thing.getBoundingClientRect();
		return [b.left + b.width / 2, b.top + b.height / 2];
	})()`)
	return at[0], at[1]
}

func tapAt(p *browser.Page, thing string) {
	x, y := middleOf(p, thing)
	p.Do(chromedp.MouseClickXY(x, y))
}

// seen is the view box of the first marker: x, y, width, height.
func seen(p *browser.Page) [4]float64 {
	return [4]float64(browser.Get[[]float64](p, `(function () {
		var v = document.querySelector("figure.marker svg").viewBox.baseVal;
		return [v.x, v.y, v.width, v.height];
	})()`))
}

// A marker zooms by buttons and keys about its middle, by the wheel with Ctrl about the
// pointer, and no farther than it says; it is never moved off its drawing.
func TestOutsideMarkerZooms(t *testing.T) {
	outside.Wanted(t, "chromium")
	p, _, _ := inBrowser(t, tried())
	whole := seen(p)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-3*whole[2] {
			t.Errorf("%s: %.3f, not %.3f", what, got, want)
		}
	}
	p.Click(`figure.marker [data-do="in"]`)
	v := seen(p)
	near("width after Closer", v[2], whole[2]/1.5)
	near("height after Closer", v[3], whole[3]/1.5)
	near("middle after Closer", v[0]+v[2]/2, whole[0]+whole[2]/2)
	p.Press(view, "+")
	near("width after +", seen(p)[2], whole[2]/2.25)
	p.Press(view, "-")
	near("width after -", seen(p)[2], whole[2]/1.5)
	for range 12 {
		p.Press(view, kb.ArrowRight)
	}
	near("right side after the arrow", seen(p)[0]+seen(p)[2], whole[0]+whole[2])
	p.Press(view, "0")
	if got := seen(p); got != whole {
		t.Errorf("whole is %v, was %v", got, whole)
	}

	x, y := middleOf(p, pieceOf)
	under := fmt.Sprintf(`(function () {
		var m = document.querySelector("figure.marker svg").getScreenCTM().inverse();
		var q = new DOMPoint(%f, %f).matrixTransform(m);
		return [q.x, q.y];
	})()`, x, y)
	held := browser.Get[[]float64](p, under)
	wheel := func(e *input.DispatchMouseEventParams) { e.DeltaX, e.DeltaY = -0.01, -100 } // nought is left out
	p.Do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseWheel, x, y, wheel,
		chromedp.ButtonModifiers(chromedp.ModifierCtrl)))
	p.Until(`document.querySelector("figure.marker").classList.contains("near")`)
	now := browser.Get[[]float64](p, under)
	near("x under the pointer", now[0], held[0])
	near("y under the pointer", now[1], held[1])
	for range 20 {
		p.Press(view, "+")
	}
	if got := seen(p); math.Abs(got[2]-whole[2]/24) > 0.01 || got[0] < whole[0] || got[0]+got[2] > whole[0]+whole[2] {
		t.Errorf("at the nearest %v is seen of %v", got, whole)
	}
}

// A marker is moved by dragging it, as far as the finger goes and to its edge at most;
// that ticks nothing off.
func TestOutsideMarkerIsDragged(t *testing.T) {
	outside.Wanted(t, "chromium")
	p, _, _ := inBrowser(t, tried())
	whole := seen(p)
	for range 3 {
		p.Press(view, "+")
	}
	before := seen(p)
	drag := func(thing string, dots float64) {
		x, y := middleOf(p, thing)
		at := func(kind input.DispatchMouseEventType, x float64) {
			p.Do(chromedp.MouseEvent(kind, x, y, chromedp.ButtonType(input.MouseButtonLeft), chromedp.ClickCount(1)))
		}
		at(input.DispatchMouseEventTypeMousePressed, x)
		for i := range 5 {
			at(input.DispatchMouseEventTypeMouseMoved, x+dots*float64(i+1)/5)
		}
		at(input.DispatchMouseEventTypeMouseReleased, x+dots)
	}
	dot := browser.Get[float64](p, `1 / document.querySelector("figure.marker svg").getScreenCTM().a`)
	drag(theView, -100)
	if got, want := seen(p)[0], before[0]+100*dot; math.Abs(got-want) > dot {
		t.Errorf("dragged by 100 dots, the left side lies at %.2f, not %.2f", got, want)
	}
	for range 4 { // over words of the drawing, which must not be dragged off as a text
		drag(theView, 400)
	}
	if got := seen(p)[0]; got != whole[0] {
		t.Errorf("dragged to its edge, the left side lies at %.2f, not %.2f", got, whole[0])
	}
	p.Press(view, "0")
	browser.Get[bool](p, `(window.broken = 0, `+theView+
		`.addEventListener("pointercancel", function () { broken++; }), true)`)
	drag(pieceOf, 60)
	drag(pieceOf, -60)
	if n := browser.Get[int](p, "broken"); n > 0 {
		t.Errorf("the browser takes %d drags away", n)
	}
	if said := p.Text("#said"); said != "" { // as it is of each tap
		t.Errorf("after drags the page says %q", said)
	}
}
