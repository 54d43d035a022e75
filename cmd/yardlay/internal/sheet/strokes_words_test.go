package sheet

import (
	"encoding/xml"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// svgWord is a text of an SVG of line work.
type svgWord struct {
	X      float64 `xml:"x,attr"`
	Y      float64 `xml:"y,attr"`
	Size   float64 `xml:"font-size,attr"`
	Anchor string  `xml:"text-anchor,attr"`
	Turn   string  `xml:"transform,attr"`
	Body   string  `xml:",chardata"`
}

var rotated = regexp.MustCompile(`^rotate\((\S+) (\S+) (\S+)\)$`)

// Every text of line work stands in its SVG where it was drawn, on a page whose corner may lie anywhere, turned about
// its place; closed lines are closed, and layers follow each other as a machine works.
func TestSVGWordsStandWhereDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomStrokes.Draw(t, "work")
		left, foot := float64(rapid.IntRange(-500, 500).Draw(t, "left")), float64(rapid.IntRange(-500, 400).Draw(t, "foot"))
		s.Page.Min = orb.Point{left, foot}
		for i := range s.Texts {
			s.Texts[i].Anchor, s.Texts[i].Body = Anchor(rapid.IntRange(0, 2).Draw(t, "anchor")), "a <word> & more"
		}
		want := s.Texts[:len(s.Texts):len(s.Texts)]
		turned := func(w Text, by Place) Text {
			sin, cos := math.Sincos(by.Turn * math.Pi / 180)
			w.Turn += by.Turn
			w.At = orb.Point{by.At[0] + w.At[0]*cos - w.At[1]*sin, by.At[1] + w.At[0]*sin + w.At[1]*cos}
			return w
		}
		for i := range s.Parts {
			for k := range s.Parts[i].Texts {
				s.Parts[i].Texts[k].Body = "part " + strconv.Itoa(i)
			}
		}
		for _, p := range s.Places {
			for _, w := range s.Parts[p.Part].Texts {
				want = append(want, turned(w, p))
			}
			if at := s.Parts[p.Part].Copy; at != nil && p.Copy != "" {
				w := turned(*at, p)
				w.Body = p.Copy
				want = append(want, w)
			}
		}
		data, err := s.SVG()
		if err != nil {
			t.Fatal(err)
		}
		var read struct {
			Groups []struct {
				ID    string    `xml:"id,attr"`
				Words []svgWord `xml:"text"`
				Paths []struct {
					D string `xml:"d,attr"`
				} `xml:"path"`
			} `xml:"g"`
		}
		if err := xml.Unmarshal(data, &read); err != nil {
			t.Fatal(err)
		}
		var got []svgWord
		last, closed := -1, 0
		for _, g := range read.Groups {
			n := 0
			for layers[n].id != g.ID {
				n++
			}
			if n <= last || len(g.Words) > 0 && g.ID != "words" {
				t.Fatalf("layer %s with %d words follows layer %d", g.ID, len(g.Words), last)
			}
			last, got = n, append(got, g.Words...)
			for _, p := range g.Paths {
				if strings.HasSuffix(p.D, " Z") {
					closed++
				}
			}
		}
		rings := 0
		count := func(l Stroke) {
			if len(l.Path) > 2 && l.Path[0] == l.Path[len(l.Path)-1] {
				rings++
			}
		}
		for _, l := range s.Loose {
			count(l)
		}
		for _, p := range s.Places {
			for _, l := range s.Parts[p.Part].Strokes {
				count(l)
			}
		}
		if closed != rings || len(got) != len(want) {
			t.Fatalf("%d of %d rings are closed, %d texts of %d written", closed, rings, len(got), len(want))
		}
		for i, w := range want {
			sameWord(t, got[i], w, s.Page)
		}
	})
}

// sameWord holds a text of an SVG against where it is to stand.
func sameWord(t *rapid.T, got svgWord, want Text, page orb.Bound) {
	x, y := want.At[0]-page.Min[0], page.Max[1]-want.At[1]
	if math.Abs(got.X-x) > 0.0002 || math.Abs(got.Y-y-0.36*want.Size) > 0.0003 || math.Abs(got.Size-want.Size) > 0.0001 ||
		got.Body != want.Body || got.Anchor != []string{"start", "middle", "end"}[want.Anchor] {
		t.Fatalf("%+v is written as %+v", want, got)
	}
	turn, about := 0.0, orb.Point{x, y}
	if m := rotated.FindStringSubmatch(got.Turn); m != nil {
		turn, _ = strconv.ParseFloat(m[1], 64)
		about[0], _ = strconv.ParseFloat(m[2], 64)
		about[1], _ = strconv.ParseFloat(m[3], 64)
	} else if got.Turn != "" {
		t.Fatalf("turned by %q", got.Turn)
	}
	if math.Abs(math.Remainder(turn+want.Turn, 360)) > 0.0001 || math.Hypot(about[0]-x, about[1]-y) > 0.0003 {
		t.Fatalf("%+v is turned by %q", want, got.Turn)
	}
}
