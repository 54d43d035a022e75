package paper

import (
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Each word of a key is shown once, in order, within what the light covers, on pages that
// are dark to their edges.
func TestKeyIsShownInLight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Projector{Mark: "mark a2b3", Width: rapid.Float64Range(MinPicture, 1500).Draw(t, "width"),
			Height: rapid.Float64Range(MinPicture, 900).Draw(t, "height")}
		var key []sheet.Paragraph
		var want []string
		for i := range rapid.IntRange(0, 30).Draw(t, "paragraphs") {
			var words []string
			for k := range rapid.IntRange(1, 40).Draw(t, "words") {
				words = append(words, fmt.Sprintf("piece%d.%d", i, k))
			}
			want = append(want, words...)
			key = append(key, sheet.Paragraph{Role: sheet.RoleNote, Size: 6, Body: strings.Join(words, " "), After: 5})
		}
		var got []string
		for _, page := range p.keyPages("satin, signs", key) {
			if page.Width > p.Width+1e-9 || page.Height != p.Height {
				t.Fatalf("a page of %.0f x %.0f in light of %.0f x %.0f", page.Width, page.Height, p.Width, p.Height)
			}
			if ground := page.Views[0].Drawing; ground.Width != page.Width || ground.Height != page.Height {
				t.Fatal("the page is not dark to its edges")
			}
			d := page.Views[len(page.Views)-1].Drawing
			for _, it := range d.Groups[0].Items {
				text := it.(sheet.Text)
				if text.At[1]+text.Size/2 > d.Height || text.At[0]+text.Width() > d.Width+1e-9 {
					t.Fatalf("%q stands beyond the page", text.Body)
				}
				got = append(got, strings.Fields(text.Body)...)
			}
		}
		if strings.Join(got, " ") != strings.Join(want, " ") {
			t.Fatalf("shown is %q, the key says %q", got, want)
		}
	})
}

// Bands and steps of one marker are drawn from it, and leave it as it was: the lines of one
// way of cutting it are not in the other.
func TestBandsAndStepsLeaveTheMarker(t *testing.T) {
	p := Projector{Mark: "mark a2b3", Width: 900, Height: 400}
	d := &sheet.Drawing{Width: 3000, Height: 900, Scale: 1, Theme: sheet.ThemeLight}
	m := sheet.FullSize{Drawing: d, Cloth: orb.Bound{Max: orb.Point{3000, 900}},
		Laid:   orb.Bound{Max: orb.Point{3000, 900}},
		Pieces: []orb.Bound{{Max: orb.Point{700, 300}}, {Min: orb.Point{800, 0}, Max: orb.Point{1600, 900}}}}
	first, err := p.Markers([]string{"satin"}, []sheet.FullSize{m})
	if err != nil {
		t.Fatal(err)
	}
	steps, err := p.Steps(1000, []string{"satin"}, []sheet.FullSize{m})
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Groups) != 0 {
		t.Errorf("%d groups are added to the marker", len(d.Groups))
	}
	for name, made := range map[string]Print{"bands": first, "steps": steps} {
		views := made.Pages[len(made.Pages)-1].Views
		has := false
		for _, g := range views[len(views)-1].Drawing.Groups {
			has = has || strings.HasPrefix(g.Title, "step ")
		}
		if has != (name == "steps") {
			t.Errorf("%s show the lines of steps: %v", name, has)
		}
	}
}
