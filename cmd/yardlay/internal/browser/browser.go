// Package browser lets tests use a page as a person does, in Debian's chromium: they
// click, press keys, reload, and ask the page what it shows. A page that throws, or asks
// for anything beyond its own host, fails its test.
package browser

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"yardlay/cmd/yardlay/internal/outside"
)

// patience is how long one step may take on a busy machine.
const patience = 60 * time.Second

// Browser is one browser, its profile new and its own.
type Browser struct {
	t   testing.TB
	ctx context.Context
}

// Start starts a browser that ends with the test. The test is left out unless
// YARDLAY_OUTSIDE is set; where it is, a browser that is missing fails the test. No name
// of a host leads anywhere, so that a page works by what this machine gives it.
func Start(t testing.TB) *Browser {
	t.Helper()
	outside.Wanted(t, "chromium")
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal(err)
	}
	flags := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.DisableGPU, chromedp.WindowSize(1280, 900), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND , EXCLUDE 127.0.0.1 , EXCLUDE localhost"))
	within, end := chromedp.NewExecAllocator(context.Background(), flags...)
	ctx, _ := chromedp.NewContext(within)
	t.Cleanup(end)
	t.Cleanup(func() {
		limited, enough := context.WithTimeout(ctx, patience)
		defer enough()
		if err := chromedp.Cancel(limited); err != nil {
			t.Errorf("the browser does not end: %v", err)
		}
	})
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("the browser does not start: %v", err)
	}
	return &Browser{t, ctx}
}

// Page is a tab of a browser.
type Page struct {
	t   testing.TB
	ctx context.Context

	mu      sync.Mutex
	home    string // what every address begins with that may be asked for
	asked   []string
	trouble []string
	dialogs []string
	refuse  bool
}

// Open starts a browser and opens an address in it: see Start.
func Open(t testing.TB, address string) *Page {
	t.Helper()
	return Start(t).Open(t, address)
}

// Open opens an address in a tab of its own, and waits until it is loaded. When the test
// ends, it fails where the page threw an error or asked for anything but data: and what
// its own host has; of file:, nothing but itself.
func (b *Browser) Open(t testing.TB, address string) *Page {
	t.Helper()
	ctx, closed := chromedp.NewContext(b.ctx)
	p := &Page{t: t, ctx: ctx, home: home(address)}
	t.Cleanup(func() {
		closed()
		for _, trouble := range p.Trouble() {
			t.Errorf("%s: %s", address, trouble)
		}
	})
	if err := chromedp.Listen(ctx, p.hear); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, log.Enable, struct{}{}); err != nil {
		t.Fatal(err)
	}
	p.Do(chromedp.Navigate(address))
	return p
}

// home is what a page of an address may ask for: its host, or itself where it is a file.
func home(address string) string {
	u, err := url.Parse(address)
	if err != nil || u.Scheme == "file" {
		return address
	}
	return u.Scheme + "://" + u.Host + "/"
}

// hear keeps what the browser tells of the page. It may not call the browser.
func (p *Page) hear(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		p.ask(e.Request.URL)
	case *network.EventWebSocketCreated:
		p.ask(strings.Replace(e.URL, "ws", "http", 1))
	case *runtime.EventExceptionThrown:
		said := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			said += " " + e.ExceptionDetails.Exception.Description
		}
		p.trouble = append(p.trouble, "throws "+said)
	case *log.EventEntryAdded: // a rule for its safety that it breaks is one
		if e.Entry.Source == log.EntrySourceSecurity && e.Entry.Level == log.EntryLevelError {
			p.trouble = append(p.trouble, "is refused: "+e.Entry.Text)
		}
	case *page.EventJavascriptDialogOpening:
		p.dialogs = append(p.dialogs, e.Message)
		yes := !p.refuse
		go func() { // the page waits until it is answered
			if _, err := chromedp.Call(p.ctx, page.HandleJavaScriptDialog,
				page.HandleJavaScriptDialogParams{Accept: yes}); err != nil && p.ctx.Err() == nil {
				p.t.Errorf("the question %q is not answered: %v", e.Message, err)
			}
		}()
	}
}

func (p *Page) ask(address string) {
	p.asked = append(p.asked, address)
	inside := strings.HasPrefix(address, "data:") || strings.HasPrefix(address, "blob:") ||
		strings.HasPrefix(address, p.home)
	if strings.HasPrefix(p.home, "file:") {
		itself, _, _ := strings.Cut(address, "#")
		inside = strings.HasPrefix(address, "data:") || itself == p.home
	}
	if !inside {
		p.trouble = append(p.trouble, "asks for "+address)
	}
}

// Do takes steps of chromedp, each within its time; one that cannot be taken ends the test.
func (p *Page) Do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	for i, step := range steps {
		limited, enough := context.WithTimeout(p.ctx, patience)
		err := chromedp.Do(limited, step)
		for ; replaced(err) && limited.Err() == nil; err = chromedp.Do(limited, step) { // before it was taken
			time.Sleep(20 * time.Millisecond)
		}
		enough()
		if err != nil {
			p.t.Fatalf("step %d: %v", i+1, err)
		}
	}
}

// Get is what an expression of script gives on the page; a promise is waited for.
func Get[T any](p *Page, expression string) T {
	p.t.Helper()
	limited, enough := context.WithTimeout(p.ctx, patience)
	defer enough()
	value, err := chromedp.Run(limited, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v", expression, err)
	}
	return value
}

// replaced says whether the page was loaded anew while it was asked: a server error of the browser.
func replaced(err error) bool {
	said, ok := errors.AsType[*cdproto.Error](err)
	return ok && said.Code == -32000
}

// Until waits until an expression of script is true, on a page that is loaded anew meanwhile, too.
func (p *Page) Until(expression string) {
	p.t.Helper()
	limited, enough := context.WithTimeout(p.ctx, patience)
	defer enough()
	ask := chromedp.Poll[chromedp.Void]("!!("+expression+")", chromedp.WithPollingInterval(20*time.Millisecond),
		chromedp.WithPollingTimeout(0))
	err := chromedp.Do(limited, ask)
	for ; replaced(err) && limited.Err() == nil; err = chromedp.Do(limited, ask) {
		time.Sleep(20 * time.Millisecond)
	}
	if err != nil {
		p.t.Fatalf("%s never comes true: %v\nthe page says: %.2000s", expression, err,
			Get[string](p, "document.body.innerText"))
	}
}

// atRest is true once a thing of the page has not moved for five looks at it, as a person waits
// for a page to be drawn; it is scrolled into view first.
const atRest = `(() => {
	const e = document.querySelector(%q);
	if (!e) return false;
	e.scrollIntoView({ block: "nearest" });
	const b = e.getBoundingClientRect();
	const box = [b.x, b.y, b.width, b.height].join();
	const last = window.lastBox;
	window.lastBox = { e, box, looks: last && last.e === e && last.box === box ? last.looks + 1 : 0 };
	return window.lastBox.looks >= 5;
})()`

// Click clicks the middle of the first thing that a selector of CSS finds, once it is seen and
// at rest.
func (p *Page) Click(css string) {
	p.t.Helper()
	p.Until(fmt.Sprintf(atRest, css))
	p.Do(chromedp.Click(chromedp.CSS(css), chromedp.NodeVisible))
}

// Press gives keys to the first thing that a selector of CSS finds.
func (p *Page) Press(css, keys string) {
	p.t.Helper()
	p.Do(chromedp.Focus(chromedp.CSS(css)), chromedp.KeyEvent(keys))
}

// Fill writes a value into a field in place of what is there, as one who types.
func (p *Page) Fill(css, value string) {
	p.t.Helper()
	p.Do(chromedp.Focus(chromedp.CSS(css)))
	Get[bool](p, "(document.activeElement.select && document.activeElement.select(), true)")
	if value == "" {
		value = "\b"
	}
	p.Do(chromedp.KeyEvent(value))
}

// Text is what the first thing that a selector of CSS finds shows.
func (p *Page) Text(css string) string {
	p.t.Helper()
	return Get[string](p, fmt.Sprintf("document.querySelector(%q).innerText", css))
}

// Reload loads the page anew.
func (p *Page) Reload() {
	p.t.Helper()
	p.Do(chromedp.Reload())
}

// Refuse answers No to what the page asks from now on; it is Yes else.
func (p *Page) Refuse(no bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.refuse = no
}

// Asked is what the page asked for so far, in order.
func (p *Page) Asked() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.asked)
}

// Dialogs is what the page asked the person so far, in order.
func (p *Page) Dialogs() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.dialogs)
}

// Trouble is what would fail the test at its end: errors thrown, and what was asked for
// from outside. Who reads it has it out of the way.
func (p *Page) Trouble() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	trouble := p.trouble
	p.trouble = nil
	return trouble
}

// Worked is the processor time that the page's own thread has taken so far: its scripts, its
// styles and where things stand, but not the drawing of dots, which is another thread's.
func (p *Page) Worked() time.Duration {
	p.t.Helper()
	if _, err := chromedp.Call(p.ctx, performance.Enable, performance.EnableParams{}); err != nil {
		p.t.Fatal(err)
	}
	now, err := chromedp.Call(p.ctx, performance.GetMetrics, struct{}{})
	if err != nil {
		p.t.Fatal(err)
	}
	for _, m := range now.Metrics {
		if m.Name == "ThreadTime" {
			return time.Duration(m.Value * float64(time.Second))
		}
	}
	p.t.Fatal("the browser does not say how long it worked")
	return 0
}

// Screenshot writes what is seen into a PNG, for one who works on a test to look at.
func (p *Page) Screenshot(path string) {
	p.t.Helper()
	limited, enough := context.WithTimeout(p.ctx, patience)
	defer enough()
	png, err := chromedp.Run(limited, chromedp.CaptureScreenshot())
	if err == nil {
		err = os.WriteFile(path, png, 0o644)
	}
	if err != nil {
		p.t.Fatal(err)
	}
}
