package page

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"yardlay/cmd/yardlay/internal/browser"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
)

// checker is the script of axe-core, a checker of accessibility by the rules of WCAG 2.2 A and AA
// (https://www.w3.org/TR/WCAG22/) and common practice. It is no part of the project: .ci/run fetches it.
func checker(t *testing.T) string {
	t.Helper()
	outside.Wanted(t, "axe-core, in the file that YARDLAY_AXE names")
	text, err := os.ReadFile(os.Getenv("YARDLAY_AXE"))
	if err != nil {
		t.Fatalf("YARDLAY_AXE names the axe.min.js of the package axe-core: %v", err)
	}
	return string(text)
}

// violation is a rule that a page breaks.
type violation struct {
	ID, Impact, Help string
	Nodes            []struct{ HTML, FailureSummary string }
}

// violations checks what a page shows.
func violations(t *testing.T, p *browser.Page, checker string) (list []violation) {
	t.Helper()
	text := browser.Get[string](p, checker+`;
		axe.run(document, {resultTypes: ["violations"]}).then((found) => JSON.stringify(found.violations))`)
	if err := json.Unmarshal([]byte(text), &list); err != nil {
		t.Fatal(err)
	}
	return list
}

// An outside checker of accessibility finds nothing on any place of the page, as it is opened and in use, on a
// wide screen, a tablet and a telephone.
func TestOutsideEverybodyCanUseThePage(t *testing.T) {
	script := checker(t)
	p := inBrowser(t, job.Starter())
	p.Until(`!document.querySelector("progress")`)
	check := func(name string) {
		t.Helper()
		for _, width := range []int64{1440, 768, 360} {
			p.Do(chromedp.EmulateViewport(width, 1000))
			for _, v := range violations(t, p, script) {
				var where []string
				for _, n := range v.Nodes {
					where = append(where, n.HTML+"\n      "+strings.ReplaceAll(n.FailureSummary, "\n", " "))
				}
				t.Errorf("%s, %d wide: %s, %s: %s\n    %s", name, width, v.Impact, v.ID, v.Help, strings.Join(where, "\n    "))
			}
			shot(p, "view-"+name+"-"+map[int64]string{1440: "wide", 768: "tablet", 360: "telephone"}[width])
		}
		p.Do(chromedp.EmulateViewport(1440, 1000))
	}
	for _, v := range views() {
		on(p, v.path)
		p.Until(`document.readyState === "complete" && !document.querySelector("progress")`)
		check(v.path)
	}
	on(p, "cloths")
	p.Until(`!!document.querySelector('#cloth-0-marker-0 [data-by="take"]')`)
	p.Click(`#cloth-0-marker-0 [data-by="take"]`)
	p.Until(handSaid + `.startsWith("All pieces lie as they may")`)
	drag(p, "cut-0-2-1", -100, 0)
	p.Until(handSaid + `.includes("overlaps")`)
	check("in-hand")
	on(p, "text")
	retype(p, "waist_girth", "waste_girth")
	p.Until(`document.body.textContent.includes("mending")`)
	check("text-wrong")
	on(p, "measures")
	p.Until(`document.readyState === "complete"`)
	check("measures-wrong")
	p.Do(chromedp.Navigate(browser.Get[string](p, "location.origin") + "/"))
	check("jobs")
	p.Do(chromedp.Navigate(browser.Get[string](p, "location.origin") + "/nowhere"))
	check("nowhere")
}
