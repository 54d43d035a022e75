package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// quoted is a ledger of all kinds of lines.
func quoted() Ledger {
	return Ledger{Title: "Gown: quote", Banner: "Atelier Lune", Facts: []string{"for the second act", "31 May 2026"},
		Head: "USD",
		Lines: []Entry{
			{Kind: EntryHead, Text: "Cloth"},
			{Kind: EntryItem, Text: "satin", Detail: "4 1/2 yd at 12.00/yd", Amount: "54.00"},
			{Kind: EntryItem, Text: "net", Amount: "9.50"},
			{Kind: EntrySum, Text: "cloth in all", Amount: "63.50"},
			{Kind: EntryHead, Text: "Work"},
			{Kind: EntryItem, Text: "12 hours", Amount: "360.00"},
			{Kind: EntryTotal, Text: "total", Amount: "423.50"},
			{Kind: EntryNote, Text: "half of it when the cloth is cut", Amount: "211.75"},
		}, Notes: []string{"Valid for 30 days."}}
}

// set is a ledger as set: texts by what they say, and rules from the top.
type set struct {
	text  map[string]Text
	rules []orb.LineString
}

func setOf(d Drawing) set {
	s := set{text: map[string]Text{}}
	for _, it := range d.Groups[0].Items {
		switch it := it.(type) {
		case Text:
			s.text[it.Body] = it
		case Line:
			s.rules = append(s.rules, it.Path)
		}
	}
	return s
}

// Amounts of items stand in one column, what they come to in another to the right of it that ends at the edge, each
// level with the first line of its text; the currency stands over the outer one.
func TestAmountsStandInTwoColumns(t *testing.T) {
	for _, metric := range []bool{true, false} {
		for _, longest := range []string{"423.50", "123456789012.50"} {
			l := quoted()
			l.Metric, l.Lines[6].Amount = metric, longest
			d := l.Drawings()[0]
			width, height := 215.9, 279.4 // US Letter
			if metric {
				width, height = 210, 297 // A4, ISO 216
			}
			if math.Abs(d.Width-width) > 1e-9 || math.Abs(d.Height-height) > 1e-9 || d.Scale != 1 {
				t.Errorf("the page is %v by %v", d.Width, d.Height)
			}
			s := setOf(d)
			right := width - 18
			inner := s.text["54.00"].At[0]
			for _, e := range l.Lines {
				if e.Amount == "" {
					continue
				}
				at, text := s.text[e.Amount], s.text[e.Text]
				want := right
				if e.Kind == EntryItem {
					want = inner
				}
				if math.Abs(at.At[0]-want) > 1e-9 || at.Anchor != End || at.At[1] != text.At[1] || at.Size != text.Size {
					t.Errorf("%s stands at %v, its text at %v", e.Amount, at.At, text.At)
				}
			}
			size := s.text["net"].Size
			if room := right - inner; room < 6.2*size-1e-9 || room < textWidth(longest, size)+0.5*size ||
				room > max(6.3*size, textWidth(longest, size)+1.5*size) {
				t.Errorf("%s: the columns are %v apart at size %v", longest, room, size)
			}
			if head := s.text["USD"]; head.At[0] != s.text["423.50"].At[0] && head.At[0] != right || head.Anchor != End ||
				head.At[1] >= s.text["Cloth"].At[1] || head.At[1] <= s.text["31 May 2026"].At[1] {
				t.Errorf("the currency stands at %v", head.At)
			}
		}
	}
}

// From the top a ledger says whose it is, what it is, for whom, its lines in order and its notes; groups stand apart,
// items are set in under their heads, details under their items, smaller.
func TestALedgerReadsFromTheTop(t *testing.T) {
	s := setOf(quoted().Drawings()[0])
	order := []string{"Atelier Lune", "Gown: quote", "for the second act", "31 May 2026", "USD", "Cloth", "satin",
		"4 1/2 yd at 12.00/yd", "net", "cloth in all", "Work", "12 hours", "total", "half of it when the cloth is cut",
		"Valid for 30 days."}
	for i, body := range order[1:] {
		above, below := s.text[order[i]], s.text[body]
		if above.Body == "" || below.Body == "" || below.At[1] < above.At[1]+0.45*(above.Size+below.Size) {
			t.Errorf("%q at %v does not stand below %q at %v", body, below.At, order[i], above.At)
		}
	}
	down := func(a, b string) float64 { return s.text[b].At[1] - s.text[a].At[1] }
	if plain := down("4 1/2 yd at 12.00/yd", "net"); down("cloth in all", "Work") <= plain ||
		down("31 May 2026", "Cloth") <= 2*plain || down("half of it when the cloth is cut", "Valid for 30 days.") <= plain ||
		down("total", "half of it when the cloth is cut") <= plain || down("net", "cloth in all") <= plain {
		t.Errorf("groups do not stand apart: %v", s.text)
	}
	size := s.text["net"].Size
	for body, want := range map[string]Text{
		"Atelier Lune": {Role: RoleHeading, Size: size}, "Gown: quote": {Role: RoleHeading, Size: 1.7 * size},
		"31 May 2026": {Role: RoleNote, Size: size}, "Cloth": {Role: RoleHeading, Size: size},
		"satin": {Role: RoleNote, Size: size, At: orb.Point{1}}, "total": {Role: RoleHeading, Size: size},
		"4 1/2 yd at 12.00/yd": {Role: RoleNote, Size: 0.85 * size, At: orb.Point{2}},
		"cloth in all":         {Role: RoleNote, Size: size}, "Valid for 30 days.": {Role: RoleNote, Size: 0.85 * size},
	} {
		got := s.text[body]
		if got.Role != want.Role || math.Abs(got.Size-want.Size) > 1e-9 || math.Abs(got.At[0]-18-want.At[0]*size) > 1e-9 {
			t.Errorf("%q is %+v", body, got)
		}
	}
}

// A sum has a rule over its amount, the total one over the whole width above and below, the banner one below it.
func TestRulesOfALedger(t *testing.T) {
	l := quoted()
	s := setOf(l.Drawings()[0])
	size, right := s.text["net"].Size, 215.9-18
	inner := s.text["54.00"].At[0]
	for i, want := range []struct {
		above, below string
		from         float64
	}{{"Atelier Lune", "Gown: quote", 18}, {"net", "cloth in all", inner + size}, {"12 hours", "total", 18},
		{"total", "half of it when the cloth is cut", 18}} {
		if i >= len(s.rules) {
			t.Fatalf("%d rules", len(s.rules))
		}
		r := s.rules[i]
		half := 0.36 * size // of capitals
		if math.Abs(r[0][0]-want.from) > 1e-9 || math.Abs(r[1][0]-right) > 1e-9 || r[0][1] != r[1][1] ||
			r[0][1] <= s.text[want.above].At[1]+half || r[0][1] >= s.text[want.below].At[1]-half {
			t.Errorf("rule %d between %q and %q runs from %v to %v", i, want.above, want.below, r[0], r[1])
		}
	}
	if len(s.rules) != 4 {
		t.Errorf("%d rules", len(s.rules))
	}
	l.Banner = ""
	if s := setOf(l.Drawings()[0]); len(s.rules) != 3 {
		t.Errorf("%d rules without a banner", len(s.rules))
	}
}

// A ledger is set as large as it fits on one page, from 3.7 mm down to 2.5; a longer one takes several in the smallest,
// each with its banner, its title, its currency and its number, and begins each as high as the first.
func TestLedgersAreAsLargeAsTheyFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLedger(t, 60)
		l.Banner = rapid.SampledFrom([]string{"", "Atelier Lune"}).Draw(t, "banner")
		pages := l.Drawings()
		size := setOf(pages[0]).text["USD"].Size / 0.85
		if size > 3.7+1e-9 || size < 2.5-1e-9 {
			t.Fatalf("set in %v mm", size)
		}
		if len(pages) > 1 && size > 2.6 {
			t.Fatalf("%d pages in %v mm", len(pages), size)
		}
		if size < 3.65 && len(pages) == 1 && len(l.set(size+0.1)) == 1 {
			t.Fatalf("set in %v mm where %v has room", size, size+0.1)
		}
		for i, d := range pages {
			var said []string
			for _, w := range words(Group{Items: d.Groups[0].Items}) {
				said = append(said, w.Body)
			}
			if banner := slices.Contains(said, "Atelier Lune"); banner != (l.Banner != "") || !slices.Contains(said, "USD") {
				t.Fatalf("page %d says %q", i+1, said[:min(4, len(said))])
			}
			top := d.Groups[0].Items[0].(Text)
			if first := pages[0].Groups[0].Items[0].(Text); i > 0 && l.Banner != "" && top.At != first.At {
				t.Fatalf("page %d begins at %v, the first at %v", i+1, top.At, first.At)
			}
			if len(pages) == 1 {
				continue
			}
			foot := words(d.Groups[1])
			if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); len(foot) != 1 || foot[0].Body != want ||
				foot[0].At[0] != d.Width/2 || foot[0].Anchor != Middle || foot[0].At[1] < d.Height-18 {
				t.Fatalf("at the foot of page %d: %+v", i+1, foot)
			}
			if strings.Contains(strings.Join(said, " "), ", continued") != (i > 0) {
				t.Fatalf("page %d begins with %q", i+1, said[:4])
			}
		}
	})
}
