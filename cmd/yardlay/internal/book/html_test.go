package book

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// node is an element of the page, or a text in it.
type node struct {
	name  string
	attr  map[string]string
	text  string
	inner []*node
	above *node
}

var script = regexp.MustCompile(`(?s)<script>.*</script>`)

// parsed reads the page strictly: every element is closed, every value quoted.
func parsed(t testing.TB, html []byte) *node {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(script.ReplaceAllString(string(html), "<script></script>")))
	root := &node{}
	at := root
	for {
		token, err := d.Token()
		if err == io.EOF && at == root {
			return root
		}
		if err != nil {
			t.Fatalf("the page cannot be read: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			n := &node{name: token.Name.Local, attr: map[string]string{}, above: at}
			for _, a := range token.Attr {
				n.attr[a.Name.Local] = a.Value
			}
			at.inner, at = append(at.inner, n), n
		case xml.EndElement:
			at = at.above
		case xml.CharData:
			at.inner = append(at.inner, &node{text: string(token), above: at})
		}
	}
}

// all finds the elements of a name, in order.
func (n *node) all(name string) []*node {
	var found []*node
	for _, in := range n.inner {
		if in.name == name {
			found = append(found, in)
		}
		found = append(found, in.all(name)...)
	}
	return found
}

// words are what the node says, with plain spaces.
func (n *node) words() string {
	text := n.text
	for _, in := range n.inner {
		text += " " + in.words()
	}
	return strings.Join(strings.Fields(text), " ")
}

func (n *node) each(do func(*node)) {
	do(n)
	for _, in := range n.inner {
		in.each(do)
	}
}

func pageOf(t testing.TB, b Book) (*node, string) {
	t.Helper()
	html, err := b.HTML()
	if err != nil {
		t.Fatal(err)
	}
	return parsed(t, html), string(html)
}

// The page says all that the book says, section by section, in its order.
func TestPageSaysWhatTheBookSays(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := someBook(rt)
		root, _ := pageOf(t, b)
		sections := root.all("section")
		if len(sections) != len(b.Sections) {
			rt.Fatalf("%d sections, not %d", len(sections), len(b.Sections))
		}
		for i, s := range b.Sections {
			words, rows := sections[i].words(), 0
			has := func(text string) {
				text = strings.Join(strings.Fields(text), " ")
				at := strings.Index(words, text)
				if at < 0 {
					rt.Fatalf("%q does not come next in %q", text, words)
				}
				words = words[at+len(text):]
			}
			has(s.Title)
			for _, block := range s.Blocks {
				switch block := block.(type) {
				case Heading:
					has(block.Text)
				case Paragraph:
					has(block.Text)
				case Figure:
					has(block.Caption)
				case Table:
					if len(block.Rows) > 0 {
						rows += len(block.Rows) + 1
					}
					for _, r := range block.Rows {
						has(r.Cells[0])
						for _, d := range r.Details {
							has(d)
						}
						for _, c := range r.Cells[1:] {
							has(c)
						}
					}
				}
			}
			if got := len(sections[i].all("tr")); got != rows {
				rt.Fatalf("%d rows, not %d", got, rows)
			}
		}
	})
}

// Nothing is loaded from anywhere: what the page refers to is in it.
func TestPageLoadsNothing(t *testing.T) {
	root, html := pageOf(t, tried())
	ids := map[string]bool{}
	root.each(func(n *node) {
		if id := n.attr["id"]; id != "" {
			if ids[id] {
				t.Errorf("two elements are called %q", id)
			}
			ids[id] = true
		}
	})
	root.each(func(n *node) {
		for name, value := range n.attr {
			switch name {
			case "src", "href", "srcset", "action", "poster", "data", "background", "xlink:href":
				if to, local := strings.CutPrefix(value, "#"); local && !ids[to] {
					t.Errorf("%s leads to %q, which is not in the page", n.name, value)
				} else if !local && !strings.HasPrefix(value, "data:") {
					t.Errorf("%s loads %q", n.name, value)
				}
			case "aria-labelledby", "for":
				if !ids[value] {
					t.Errorf("%s is named by %q, which is not in the page", n.name, value)
				}
			}
		}
		if slices.Contains([]string{"iframe", "object", "embed", "base", "form"}, n.name) {
			t.Errorf("the page has a %s", n.name)
		}
	})
	for _, word := range []string{"url(", "@import", "fetch(", "XMLHttpRequest", "WebSocket", "sendBeacon", "import(",
		"eval(", "innerHTML", "http:", "https:"} {
		if n := strings.Count(html, word); word == "http:" &&
			n == strings.Count(html, `xmlns="http://www.w3.org/2000/svg"`) {
			continue
		} else if n > 0 {
			t.Errorf("the page has %q", word)
		}
	}
	meta := root.all("meta")
	if !slices.ContainsFunc(meta, func(n *node) bool {
		return n.attr["http-equiv"] == "Content-Security-Policy" &&
			strings.HasPrefix(n.attr["content"], "default-src 'none'")
	}) {
		t.Error("the browser is not told to load nothing")
	}
}

// What is ticked off is a checkbox with a label of its own words, under headings in their
// order, within landmarks; drawings and tables are named; all of it without script.
func TestPageIsAccessible(t *testing.T) {
	root, _ := pageOf(t, tried())
	for name, most := range map[string]int{"main": 1, "nav": 1, "header": 1, "footer": 1, "h1": 1} {
		if got := len(root.all(name)); got != most {
			t.Errorf("%d of %s", got, name)
		}
	}
	if root.all("html")[0].attr["lang"] == "" || root.all("title")[0].words() == "" {
		t.Error("the page has no language or no title")
	}
	boxes := root.all("input")
	if len(boxes) == 0 {
		t.Fatal("nothing to tick off")
	}
	for _, box := range boxes {
		if label := box.above; box.attr["type"] != "checkbox" || label.name != "label" || label.words() == "" ||
			box.attr["data-ticks"] == "" {
			t.Errorf("a box without a label: %v", box.attr)
		}
	}
	last := 0
	root.each(func(n *node) {
		if len(n.name) == 2 && n.name[0] == 'h' && n.name[1] >= '1' && n.name[1] <= '6' {
			level := int(n.name[1] - '0')
			if level > last+1 || n.words() == "" {
				t.Errorf("heading %q of level %d under one of level %d", n.words(), level, last)
			}
			last = level
		}
	})
	for _, b := range root.all("button") {
		if b.words() == "" || b.attr["type"] != "button" {
			t.Errorf("a button without words: %v", b.attr)
		}
	}
	for _, svg := range root.all("svg") {
		if svg.attr["role"] != "img" || len(svg.all("title")) == 0 {
			t.Errorf("a drawing without a name: %v", svg.attr)
		}
	}
	for _, table := range root.all("table") {
		if len(table.all("caption")) != 1 || table.all("caption")[0].words() == "" {
			t.Error("a table without a caption")
		}
		for _, th := range table.all("th") {
			if th.attr["scope"] == "" {
				t.Errorf("a head of nothing: %q", th.words())
			}
		}
	}
	for _, n := range root.all("div") { // what needs script is not shown without it
		if _, hidden := n.attr["hidden"]; n.attr["class"] == "tools" && !hidden {
			t.Error("buttons are shown that do nothing without script")
		}
	}
}

// Each drawing brings its own looks and none that touch another.
func TestPageKeepsDrawingsApart(t *testing.T) {
	root, _ := pageOf(t, tried())
	drawings := root.all("svg")
	if len(drawings) < 2 {
		t.Fatalf("%d drawings", len(drawings))
	}
	for _, svg := range drawings {
		for _, style := range svg.all("style") {
			for line := range strings.Lines(style.text + style.words()) {
				if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#"+svg.attr["id"]+" ") {
					t.Errorf("drawing %s: %q", svg.attr["id"], line)
				}
			}
		}
	}
}

// Text stands out from its ground by 4.5 to 1 at least: WCAG 2.2, success criterion 1.4.3.
func TestPageHasContrast(t *testing.T) {
	grounds := []string{"#ffffff", "#f3f1ec", "#e6e8ec"}
	for _, found := range regexp.MustCompile(`[{; ]color: (#[0-9a-f]{6})`).FindAllStringSubmatch(pageCSS, -1) {
		for _, ground := range grounds {
			if got := contrast(t, found[1], ground); got < 4.5 {
				t.Errorf("%s on %s: %.2f to 1", found[1], ground, got)
			}
		}
	}
	if got := contrast(t, "#767676", "#ffffff"); math.Abs(got-4.54) > 0.01 { // the known grey that just passes
		t.Errorf("the measure itself is off: %.2f", got)
	}
}

// contrast is the ratio of WCAG 2.2, from the relative luminance of sRGB.
func contrast(t *testing.T, a, b string) float64 {
	light := func(colour string) float64 {
		n, err := strconv.ParseUint(colour[1:], 16, 24)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i, share := range []float64{0.0722, 0.7152, 0.2126} {
			c := float64(n>>(8*i)&255) / 255
			if c <= 0.04045 {
				c /= 12.92
			} else {
				c = math.Pow((c+0.055)/1.055, 2.4)
			}
			sum += share * c
		}
		return sum
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// What a job says is text on the page and nothing else.
func TestPageEscapes(t *testing.T) {
	b := tried()
	nasty := `</script><script>alert("1")</script> & <b>'"` + "`"
	b.Title, b.Sections[0].Title = nasty, nasty
	b.Sections[0].Blocks = append(b.Sections[0].Blocks, Paragraph{Text: nasty},
		Table{Caption: nasty, Columns: []Column{{Head: nasty}, {Head: nasty}}, Rows: []Row{
			{Cells: []string{nasty, nasty}, Details: []string{nasty}, Ticks: []string{nasty}}}})
	html, err := b.HTML()
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(html), "<script>"); n != 1 {
		t.Errorf("%d scripts", n)
	}
	root := parsed(t, html)
	if got := root.all("body")[0].attr["data-key"]; got != "yardlay a2b3 "+nasty {
		t.Errorf("key %q", got)
	}
	if fmt.Sprint(root.all("h1")[0].words()) != strings.Join(strings.Fields(nasty+": workbook"), " ") {
		t.Errorf("title %q", root.all("h1")[0].words())
	}
}
