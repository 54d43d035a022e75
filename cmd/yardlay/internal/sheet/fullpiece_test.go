package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/plane"
)

// facts are as long as those of a print.
var facts = []string{"Lantern Court gown", "for Maren", "cut 1 pair", "duchess satin, right side up",
	"allowances drawn: seam 5/8 in, waist 5/8 in, hem 2 in", "31 May 2026 · mark a2b3"}

// words are the texts of a group.
func words(g Group) (all []Text) {
	for _, it := range g.Items {
		if t, ok := it.(Text); ok {
			all = append(all, t)
		}
	}
	return all
}

// Of every family each piece at full size says all that it carries, within what it takes up,
// and no line of it runs through a word.
func TestFamiliesAtFullSize(t *testing.T) {
	for _, s := range job.Reference() {
		if !s.Draft || s.Title == "outline" { // which reads a file
			continue
		}
		t.Run(s.Title, func(t *testing.T) {
			for _, p := range family(t, s.Example) {
				p.Facts = facts
				p.Squares = []Square{{50, "50 mm"}, {20, "20 mm"}}
				f := p.Full()
				g := f.Group(plane.Pose{}, orb.Point{})
				if s := struckThrough(g); s != "" {
					t.Errorf("%s: %s", p.Name, s)
				}
				said := ""
				for _, w := range words(g) {
					said += w.Body + " "
				}
				for _, want := range strings.Fields(strings.Join(append(facts, p.Name), " ")) {
					if !strings.Contains(said, want) {
						t.Errorf("%s does not say %q", p.Name, want)
					}
				}
				takes := upsideDown(f.Takes)
				for _, v := range p.Cut {
					if at := (orb.Point{v[0], -v[1]}); !planar.RingContains(takes, at) &&
						planar.DistanceFrom(orb.LineString(takes), at) > 1e-6 {
						t.Errorf("%s reaches beyond what it takes up", p.Name)
					}
				}
				for _, l := range f.labels {
					for _, v := range l.outline() {
						if !planar.RingContains(takes, v) {
							t.Errorf("%s: %q stands beyond the piece", p.Name, l.lines[0])
						}
					}
				}
			}
		})
	}
}

// struckThrough finds a text, turned any way, that a line of its piece runs through.
func struckThrough(g Group) string {
	lines := grounds(slices.DeleteFunc(slices.Clone(g.Items), func(it Item) bool {
		_, is := it.(Text)
		return is
	}))
	for _, w := range words(g) {
		sin, cos := plane.SinCos(w.Turn)
		level := w
		level.Turn = 0
		box := textBox(level).Bound()
		if !clearBox(w.At, cos, -sin, box.Max[0]-box.Min[0], box.Max[1]-box.Min[1], lines) {
			return fmt.Sprintf("a line runs through %q", w.Body)
		}
	}
	return ""
}

func upsideDown(ring orb.Ring) orb.Ring {
	out := make(orb.Ring, len(ring))
	for i, v := range ring {
		out[i] = orb.Point{v[0], -v[1]}
	}
	return out
}

// A piece that is turned is drawn as it is, turned, with words that can be read.
func TestFullPieceTurns(t *testing.T) {
	p := Pattern{Name: "side panel", Facts: facts,
		Outline: Outline{Cut: Box(0, 0, 400, 300), Seam: Box(15, 15, 385, 285),
			Grain:   orb.LineString{{60, 150}, {340, 150}},
			Notches: []Notch{{At: orb.Point{15, 100}, Outward: orb.Point{-1, 0}}}}}
	f := p.Full()
	plain := f.Group(plane.Pose{}, orb.Point{})
	for _, turn := range []float64{90, 180, 270} {
		pose := plane.Pose{Turn: turn, At: orb.Point{1000, 700}}
		g := f.Group(pose, orb.Point{30, 2000})
		if len(g.Items) != len(plain.Items) {
			t.Fatalf("turned by %g it has %d items, not %d", turn, len(g.Items), len(plain.Items))
		}
		cut := g.Items[0].(Shape).Ring
		for i, v := range p.Cut {
			want := pose.ApplyPoint(v)
			if got := cut[i]; math.Hypot(got[0]-30-want[0], 2000-got[1]-want[1]) > 1e-9 {
				t.Errorf("turned by %g: %v lies at %v", turn, v, got)
			}
		}
		for _, w := range words(g) {
			if w.Turn > 90 || w.Turn <= -90 {
				t.Errorf("turned by %g: %q is turned by %g", turn, w.Body, w.Turn)
			}
		}
		if said := words(g)[0].Body; said != words(plain)[0].Body {
			t.Errorf("turned by %g the words begin with %q", turn, said)
		}
		// Lines of a label follow each other as they are read.
		a, b := words(g)[0].At, words(g)[1].At
		sin, cos := plane.SinCos(words(g)[0].Turn)
		if (b[0]-a[0])*sin+(b[1]-a[1])*cos <= 0 {
			t.Errorf("turned by %g the second line stands above the first", turn)
		}
	}
}

// Notches with what is said of them, a dart's fold line and a match point are drawn, and on
// cloth with a nap the arrow has one head.
func TestFullPieceCarries(t *testing.T) {
	p := Pattern{Name: "back", Facts: facts[:1], OneWay: true,
		Matches: []Match{{"C", orb.Point{100, 100}}}, Squares: []Square{{50, "50 mm"}},
		Outline: Outline{Cut: Box(0, 0, 400, 300), Seam: Box(15, 15, 385, 285),
			Grain:  orb.LineString{{60, 60}, {340, 60}},
			Inside: []orb.LineString{{{385, 130}, {200, 150}, {385, 170}}}, Darts: []int{0},
			Notches: []Notch{{At: orb.Point{15, 100}, Outward: orb.Point{-1, 0}, Note: "1/3"},
				{At: orb.Point{385, 100}, Outward: orb.Point{1, 0}}}}}
	count := map[Role]int{}
	g := p.Full().Group(plane.Pose{}, orb.Point{})
	if fold := lineOf(g, RoleFold); !fold.Equal(orb.LineString{{200, -150}, {385, -150}}) {
		t.Errorf("the dart is folded on %v", fold)
	}
	for _, it := range g.Items {
		switch it := it.(type) {
		case Shape:
			count[it.Role]++
		case Line:
			count[it.Role]++
		}
	}
	for role, want := range map[Role]int{RoleNotch: 2, RoleFold: 1, RoleGrain: 2, RoleMatch: 3, RoleDim: 1} {
		if count[role] != want {
			t.Errorf("%d items of role %d, not %d", count[role], role, want)
		}
	}
	said := map[string]bool{}
	for _, w := range words(g) {
		said[w.Body] = true
	}
	if !said["C"] || !said["1/3"] || !said["50 mm"] {
		t.Errorf("it says %v", said)
	}
}

// lineOf is the first line of a role.
func lineOf(g Group, role Role) orb.LineString {
	for _, it := range g.Items {
		if l, ok := it.(Line); ok && l.Role == role {
			return l.Path
		}
	}
	return nil
}

// Words that have no room in a piece stand beside it, with a leader.
func TestSmallPieceHasItsWordsBeside(t *testing.T) {
	f := Pattern{Name: "loop", Facts: facts, Outline: Outline{Cut: Box(0, 0, 30, 12)}}.Full()
	if b := plane.Bounds(f.Takes); b.Max[0]-b.Min[0]+b.Max[1]-b.Min[1] < 80 {
		t.Errorf("it takes up %v alone", b)
	}
	if err := plane.CheckSimple(f.Takes); err != nil || plane.Area(f.Takes) <= 0 {
		t.Errorf("what it takes up is no outline: %v", err)
	}
}
