package browser

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/outside"
)

const tried = `<!DOCTYPE html><title>tried</title><link rel="icon" href="data:,">
<p id="said">nothing yet</p>
<button id="late" hidden>late</button>
<button id="ask">ask</button>
<input id="name" value="first">
<script>
var said = document.getElementById("said"), late = document.getElementById("late");
setTimeout(function () { late.hidden = false; }, 300);
late.onclick = function () { said.textContent = "clicked"; };
document.getElementById("ask").onclick = function () { said.textContent = confirm("Sure?") ? "yes" : "no"; };
</script>`

func served(t *testing.T, body string) string {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, body)
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// What a person does the page does too.
func TestOutsidePageIsUsed(t *testing.T) {
	outside.Wanted(t, "chromium")
	p := Open(t, served(t, tried))
	p.Click("#late") // waits until it is there
	p.Until(`said.textContent === "clicked"`)
	for _, value := range []string{"second é", "", "third"} {
		p.Fill("#name", value)
		if got := Get[string](p, `document.getElementById("name").value`); got != value {
			t.Errorf("the field holds %q, not %q", got, value)
		}
	}
	p.Click("#ask")
	p.Until(`said.textContent === "yes"`)
	p.Refuse(true)
	p.Click("#ask")
	p.Until(`said.textContent === "no"`)
	if got := p.Dialogs(); !slices.Equal(got, []string{"Sure?", "Sure?"}) {
		t.Errorf("asked were %q", got)
	}
	p.Reload()
	if got := p.Text("#said"); got != "nothing yet" {
		t.Errorf("after the reload the page says %q", got)
	}
	if got := len(p.Asked()); got < 2 {
		t.Errorf("%d requests for a page that was loaded twice", got)
	}
	if trouble := p.Trouble(); len(trouble) > 0 {
		t.Errorf("a page that is right: %q", trouble)
	}
}

// A page that throws, breaks a rule of its own, or asks for what lies outside is found out.
func TestOutsideTroubleIsHeard(t *testing.T) {
	outside.Wanted(t, "chromium")
	b := Start(t)
	for _, c := range []struct{ body, want string }{
		{`<script>throw new Error("torn");</script>`, "torn"},
		{`<script>setTimeout(function () { nothing.at.all(); }, 10);</script>`, "nothing is not defined"},
		{`<img src="http://elsewhere.example/a.png">`, "asks for http://elsewhere.example/a.png"},
		{`<script>new WebSocket("ws://elsewhere.example/s");</script>`, "asks for http://elsewhere.example/s"},
		{`<script>fetch("http://elsewhere.example/f").catch(function () {});</script>`, "elsewhere.example/f"},
		{`<meta http-equiv="Content-Security-Policy" content="default-src 'none'"><script>alert(1);</script>`, "refused"},
	} {
		p := b.Open(t, served(t, `<!DOCTYPE html><link rel="icon" href="data:,">`+c.body))
		var heard []string
		for range 100 {
			if heard = append(heard, p.Trouble()...); len(heard) > 0 {
				break
			}
			Get[bool](p, "new Promise(function (done) { setTimeout(function () { done(true); }, 20); })")
		}
		if !strings.Contains(strings.Join(heard, "\n"), c.want) {
			t.Errorf("%s: heard is %q", c.body, heard)
		}
	}
}

// A page that is a file may ask for nothing but itself.
func TestOutsideFileIsAlone(t *testing.T) {
	outside.Wanted(t, "chromium")
	other := "file://" + outside.File(t, "other.png", nil)
	p := Open(t, "file://"+outside.File(t, "page.html", []byte(`<!DOCTYPE html><a href="#x">x</a><p id="x">here</p>
<img src="data:image/gif;base64,R0lGODlhAQABAAAAACwAAAAAAQABAAA="><img src="`+other+`">`)))
	p.Click("a")
	if got := p.Trouble(); !slices.Equal(got, []string{"asks for " + other}) {
		t.Errorf("heard is %q", got)
	}
}
