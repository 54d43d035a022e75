package outline

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"
)

func nested(n int, open, inner, end string) string {
	return strings.Repeat(open, n) + inner + strings.Repeat(end, n)
}

// fill repeats something up to the size of the largest file.
func fill(open, one, end string) string {
	return open + strings.Repeat(one, (MaxDrawingBytes-len(open)-len(end))/len(one)) + end
}

// rules is a style sheet of so many rules.
func rules(n int, selector string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, selector+"{fill:red}\n", i)
	}
	return "<style>" + b.String() + "</style>"
}

// uses is a chain of groups, each of which draws the one before so many times.
func uses(levels, times int) string {
	var b strings.Builder
	b.WriteString(`<defs><g id="g0"><path d="M0 0h1"/></g>`)
	for i := range levels {
		fmt.Fprintf(&b, `<g id="g%d">%s</g>`, i+1, strings.Repeat(fmt.Sprintf(`<use href="#g%d"/>`, i), times))
	}
	fmt.Fprintf(&b, `</defs><use href="#g%d"/>`, levels)
	return b.String()
}

// Files made to take the machine down, or broken, are refused in words, at a place, in less
// than a second and 500 MB.
type hostile struct{ what, text, want string }

func TestHostileSVG(t *testing.T) {
	for _, c := range []hostile{
		{"nothing", "", "SVG text is empty"},
		{"space", " \n\n", "SVG text is empty"},
		{"words", "hello", `it begins with "hello"`},
		{"PDF", "%PDF-1.4 and so on", "this is not SVG"},
		{"packed", "\x1f\x8b\x08\x00", "packed by gzip (.svgz)\n  hint: save it as plain SVG"},
		{"UTF-16", "\xff\xfe<\x00s\x00", "UTF-16"},
		{"other encoding", `<?xml version="1.0" encoding="shift_jis"?><svg/>`, `"shift_jis"`},
		{"HTML", "<html><body/></html>", `line 1: the outermost element is "html", not svg`},
		{"two", "<svg/>\n<svg/>", "line 2: a second outermost element"},
		{"no element", "<!-- nothing -->", "SVG text has no element"},
		{"cut off", "<svg>\n<path d='M0 0'", "the text ends here"},
		{"not closed", "<svg>\n<g>\n</svg>", "line 3, column 7: this is not XML"},
		{"entity", "<svg>&bomb;</svg>", "this is not XML: invalid character entity &bomb;"},
		{"bomb", "<?xml version='1.0'?>\n<!DOCTYPE svg [\n<!ENTITY a 'aaaa'>\n<!ENTITY b '&a;&a;&a;'>]>\n<svg>&b;</svg>",
			"line 2: the DOCTYPE declares the entity \"b\", which is not a short plain text\n  hint: save the drawing as"},
		{"entity of a file", `<!DOCTYPE svg [<!ENTITY a SYSTEM "/etc/passwd">]><svg>&a;</svg>`,
			"entities that are not plain text"},
		{"entity of a parameter", `<!DOCTYPE svg [<!ENTITY % a "b">]><svg/>`, "entities that are not plain text"},
		{"entity of itself", `<!DOCTYPE svg [<!ENTITY a "&a;">]><svg>&a;</svg>`, "not a short plain text"},
		{"entity of an element", `<!DOCTYPE svg [<!ENTITY a "<g/>">]><svg>&a;</svg>`, "not a short plain text"},
		{"entities", "<!DOCTYPE svg [" + strings.Repeat(`<!ENTITY a "b">`, 101) + "]><svg/>", "over 100 entities"},
		{"used entities", `<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("b", 200) + `">]><svg><text>` +
			strings.Repeat("&a;", 6000) + "</text></svg>", "come to over 1 MiB where they are used"},
		{"control character", "<svg>\n<path id=\"a\x01b\"/></svg>", "line 2, column 15: this is not XML: illegal character"},
		{"control character as entity", "<svg><path id=\"a&#27;b\"/></svg>", "this is not XML"},
		{"control character of Latin 1", page("\n<path id=\"a\u009bb\" d=\"M0 0h1\"/>"),
			"line 2, path: the name \"a\\u009bb\" holds a letter that cannot be printed"},
		{"no number", page(`<rect width="NaN" height="5"/>`), "line 1, rect: width: a number is missing"},
		{"infinite", page(`<rect width="Infinity" height="5"/>`), "width: a number is missing"},
		{"too large", page(`<rect width="1e999" height="5"/>`), "width: the number 1e999 at character 1 is too large"},
		{"too far", page(`<rect width="1e9" height="5"/>`), "coordinate 1e+09 lies beyond 30 m\n  hint: check the unit"},
		{"scaled too far", page(nested(50, `<g transform="scale(1e9)">`, `<path d="M0 0h1"/>`, "</g>")),
			"g: transform: its numbers are too large"},
		{"below 0", page(`<circle r="-1"/>`), "circle: r -1 is below 0"},
		{"em", page(`<circle r="3em"/>`), "r: 3 em has no certain length"},
		{"odd", page(`<polygon points="1 2 3"/>`), "points: 3 numbers make no pairs"},
		{"odd points", page(`<polygon points="1 2 x"/>`), `points: no number at character 5: "x"`},
		{"viewBox", `<svg viewBox="0 0 1"/>`, "viewBox: "},
		{"flat viewBox", `<svg viewBox="0 0 1 0"/>`, "viewBox: its width 1 and height 0 are not above 0"},
		{"flat page", `<svg width="0mm"/>`, "width 0 is not above 0"},
		{"aspect", `<svg viewBox="0 0 1 1" preserveAspectRatio="xMid"/>`, `preserveAspectRatio "xMid" is none`},
		{"percent", `<svg><rect width="5%"/></svg>`, "width: 5% of a page whose size the file does not give"},
		{"symbol of unknown size", `<svg><symbol id="s" viewBox="0 0 1 1"/><use href="#s"/></svg>`, "as large as the page"},
		{"itself", page(`<g id="a"><use href="#a"/></g>`), "use: it draws itself again and again"},
		{"each other", page(`<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`), "it draws itself"},
		{"use of a use of itself", page(`<use id="a" href="#a"/>`), "it draws itself"},
		{"nested elements", page(nested(100_000, "<g>", "", "</g>")), "line 1: over 200 elements stand within each other"},
		{"nested uses", page(uses(150, 1)), "over 200 elements stand within each other"},
		{"use bomb", page(uses(40, 10)), "over 200000 elements are drawn, with those that are used again"},
		{"use bomb of nothing", page(strings.Replace(uses(40, 10), "<path", "<desc", 1)), "over 200000 elements are drawn"},
		{"points again", page(`<path id="p" d="M0 0` + strings.Repeat("h1", 5000) + `"/>` +
			strings.Repeat(`<use href="#p"/>`, 5000)), "the lines of the drawing have over 1000000 points"},
		{"curves", page(`<path d="M0 0` + strings.Repeat("C20000-20000-20000-20000 0 0", 5000) + `"/>`),
			"have over 1000000 points"},
		{"names", page(nested(150, `<g id="`+strings.Repeat("n", 100)+`">`,
			strings.Repeat(`<g id="x"><path d="M0 0h1"/></g>`, 15_000), "</g>")), "the names of groups in groups come to over"},
		{"rules", page(rules(20_000, ".a.b%d") + strings.Repeat(`<g class="a"/>`, 2000)), "looks at style rules"},
		{"rules for all", page(rules(10_000, "*.b%d,*") + strings.Repeat(`<g class="a"/>`, 2000)), "looks at style rules"},
	} {
		t.Run(c.what, c.isRefused)
	}
}

// The same of the largest size.
func TestHostileLargeSVG(t *testing.T) {
	if os.Getenv("YARDLAY_LONG") == "" {
		t.Skip("YARDLAY_LONG=1 reads files of the largest size")
	}
	svg := func(one string) string { return fill(`<svg xmlns="http://www.w3.org/2000/svg">`, one, "</svg>") }
	for _, c := range []hostile{
		{"too many points", svg(`<path d="M0 0h1h1h1h1h1h1"/>`), "over 1000000 attributes"},
		{"points", fill(`<svg><path d="M0 0`, "h1h-1", `"/></svg>`), "have over 1000000 points"},
		{"polyline", fill(`<svg><polyline points="`, "1 2 ", `"/></svg>`), "points: over 2000000 numbers"},
		{"elements", svg("<g/>"), "over 200000 elements"},
		{"attributes", fill("<svg", ` a=""`, "/>"), "over 1000000 attributes"},
		{"too long", svg("<g/>") + strings.Repeat(" ", 100), "SVG text is over 32 MiB"},
		{"numbers", page(`<path d="M` + strings.Repeat("1", 10<<20) + ` 0"/>`), "is too large"},
		{"transforms", page(`<g transform="` + strings.Repeat("scale(2)", 1<<20) + `"/>`), "numbers are too large"},
		{"selectors", page("<style>" + strings.Repeat("a,", 5<<20) + "b{fill:red}</style>"), "over 20000 style rules"},
		{"one bracket", page("<style>" + strings.Repeat("a{", 5<<20) + "</style>" + `<rect width="x"/>`),
			"a number is missing"},
		{"comments", page("<style>" + strings.Repeat("/*", 5<<20) + "</style>" + `<rect width="x"/>`), "a number is missing"},
		{"classes", page(`<style>.a{fill:red}</style><g class="` + strings.Repeat("b ", 5<<20) + `"/>`), "looks at style"},
	} {
		t.Run(c.what, c.isRefused)
	}
}

func (c hostile) isRefused(t *testing.T) {
	var err error
	staysWithin(t, time.Second, 500<<20, func() { _, err = ReadSVG(strings.NewReader(c.text)) })
	if err == nil || !strings.Contains(err.Error(), c.want) {
		t.Errorf("%v, want %q", err, c.want)
	} else if !strings.HasPrefix(err.Error(), "SVG") && !strings.HasPrefix(err.Error(), "this is not SVG") {
		t.Errorf("%v", err)
	}
}

// What costs the most and is read all the same: files of the largest size, and style that
// is passed over.
func TestLargestSVG(t *testing.T) {
	if os.Getenv("YARDLAY_LONG") == "" {
		t.Skip("YARDLAY_LONG=1 reads files of the largest size")
	}
	for _, c := range []struct {
		what, text string
		points     int
	}{
		{"comments", fill("<svg>", "<!-- -->", "</svg>"), 0},
		{"letters", fill("<svg><text>", "words ", "</text></svg>"), 0},
		{"picture", fill(`<svg><image href="data:image/png;base64,`, "QUFB", `"/></svg>`), 0},
		{"vertices", `<svg><path d="M0 0` + strings.Repeat("l-1.2345,.123456 1.234500,-.123456", 499_999) + `"/></svg>`,
			999_999},
		{"lines", `<svg>` + strings.Repeat(`<path stroke="red" id="x" class="y" d="M-1.2345,.123456 l1.2345,-.123456"/>`,
			199_000) + `</svg>`, 398_000},
		{"curves", `<svg width="9in" height="9in" viewBox="0 0 864 864"><path d="M0 0` +
			strings.Repeat("c100 0 100 100 0 100s-100-100 0-100", 23_800) + `"/></svg>`,
			999_601},
		{"texts", `<svg>` + strings.Repeat(`<text x="1" y="2">3</text>`, 99_000) + `</svg>`, 0},
		{"selector", page("<style>" + strings.Repeat(".a", 5<<20) + "{fill:red}</style>"), 0},
		{"style", page(`<g style="` + strings.Repeat("fill:red;", 3<<20) + `"/>`), 0},
	} {
		if len(c.text) > 4<<20 && os.Getenv("YARDLAY_LONG") == "" {
			continue
		}
		t.Run(c.what, func(t *testing.T) {
			var d Drawing
			var err error
			t.Logf("%d MB of text", len(c.text)>>20)
			// 0.9 s at most on 2.5 GHz
			staysWithin(t, 2*time.Second, 500<<20, func() { d, err = ReadSVG(strings.NewReader(c.text)) })
			if err != nil {
				t.Fatal(err)
			}
			n := 0
			for _, l := range d.Lines {
				n += len(l.Points)
			}
			if c.points != n {
				t.Errorf("%d points, want %d", n, c.points)
			}
		})
	}
}
