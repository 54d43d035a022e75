package nest

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// twoFolds is a sound marker on cloth folded twice, its selvedges 20 mm either
// side of the middle: two halves on the folds, one mirrored; a strip below the
// middle and one above it, half a gap of 3 mm from the folds.
func twoFolds() (Problem, Layout) {
	half := ring(orb.Point{0, 10}, orb.Point{100, 10}, orb.Point{100, 60}, orb.Point{0, 40})
	p := Problem{
		Strip: Strip{Width: 400, Folds: FoldBoth, Middle: 20},
		Pieces: []Piece{
			{Name: "front", Outline: half, Count: 2, OnFold: true},
			{Name: "facing", Outline: rect(0, 0, 100, 178.5), Count: 2},
		},
		Gap: 3,
	}
	l := Layout{Length: 300, Placed: []Placed{
		{Piece: 0, Copy: 0, At: orb.Point{0, -10}},
		{Piece: 0, Copy: 1, Mirrored: true, At: orb.Point{0, 410}},
		{Piece: 1, Copy: 0, At: orb.Point{103, 1.5}},
		{Piece: 1, Copy: 1, At: orb.Point{200, 220}},
	}}
	return p, l
}

// checked is a marker on a check of 40 by 30 mm: a tab and its mirrored partner with
// their marks two repeats apart, and a flap turned about that need not agree.
func checked() (Problem, Layout) {
	tab := rect(0, 0, 50, 20)
	p := Problem{
		Strip: Strip{Width: 100, Repeat: Repeat{Along: 40, Across: 30}},
		Pieces: []Piece{
			{Name: "tab", Outline: tab, Count: 2, Mirror: Paired, Match: &Match{Point: orb.Point{5, 15}}},
			{Name: "flap", Outline: tab, Count: 1, Turns: []float64{180},
				Match: &Match{Point: orb.Point{5, 15}, Groups: []int{1}}},
			{Name: "lining", Outline: rect(0, 0, 7, 7), Count: 1},
		},
	}
	l := Layout{Length: 150, Placed: []Placed{
		{Piece: 0, Copy: 0, At: orb.Point{0, 0}},
		{Piece: 0, Copy: 1, Mirrored: true, At: orb.Point{80, 60}},
		{Piece: 1, Copy: 0, Turn: 180, At: orb.Point{150, 30}},
		{Piece: 2, Copy: 0, At: orb.Point{60.25, 13}},
	}}
	return p, l
}

func TestVerifyFoldsAndRepeats(t *testing.T) {
	const one = plane.Lattice
	for _, c := range []struct {
		name  string
		from  func() (Problem, Layout)
		spoil func(*Problem, *Layout)
		rule  Rule
		says  string
	}{
		{"two folds", twoFolds, func(p *Problem, l *Layout) {}, "", ""},
		{"turned about, other fold", twoFolds, func(p *Problem, l *Layout) {
			p.Pieces[0].Turns = []float64{0, 180}
			l.Placed[0] = Placed{Piece: 0, Copy: 0, Turn: 180, At: orb.Point{100, 410}}
			l.Placed[1] = Placed{Piece: 0, Copy: 1, Turn: -180, Mirrored: true, At: orb.Point{100, -10}}
		}, "", ""},
		{"off the lower fold", twoFolds, func(p *Problem, l *Layout) { l.Placed[0].At[1] += one }, OffFold,
			`"front" copy 1 lies off the fold near (0 mm, 0.001 mm): its fold edge belongs on y = 0`},
		{"off the upper fold", twoFolds, func(p *Problem, l *Layout) { l.Placed[1].At[1] -= one }, OffFold,
			"belongs on y = 400 mm"},
		{"past the upper fold", twoFolds, func(p *Problem, l *Layout) { l.Placed[1].At[1] += one }, OutsideStrip, ""},
		{"quarter turn on a fold", twoFolds,
			func(p *Problem, l *Layout) { p.Pieces[0].Turns = []float64{0, 90}; l.Placed[0].Turn = 90 }, WrongTurn,
			"takes it off every fold"},
		{"turn not allowed on a fold", twoFolds, func(p *Problem, l *Layout) { l.Placed[0].Turn = 180 }, WrongTurn,
			"allowed [0]"},
		{"mirrored on a single fold", twoFolds,
			func(p *Problem, l *Layout) { p.Strip.Folds, p.Strip.Middle = FoldBelow, 0 }, WrongMirror,
			`"front" copy 2 is mirrored as it may not be near (0 mm, 410 mm): its fold edge would lie away from the fold`},
		{"near the lower fold", twoFolds, func(p *Problem, l *Layout) { l.Placed[2].At[1] -= one }, NearFold,
			`"facing" copy 1 is too close to the fold near (103 mm, 1.499 mm): half the gap is 1.5 mm`},
		{"near the upper fold", twoFolds, func(p *Problem, l *Layout) { l.Placed[3].At[1] += one }, NearFold,
			`"facing" copy 2 is too close to the fold`},
		{"half a gap between two steps", twoFolds, func(p *Problem, l *Layout) { p.Gap = 3 + one/4 }, NearFold, ""},
		{"no gap, along the fold", twoFolds, func(p *Problem, l *Layout) { p.Gap = 0; l.Placed[2].At[1] = 0 }, "", ""},
		{"over the middle from below", twoFolds, func(p *Problem, l *Layout) { l.Placed[2].At[1] += one }, OverMiddle,
			`"facing" copy 1 lies over the middle, where the selvedges meet near (203 mm, 180.001 mm): ` +
				`20 mm are to be kept clear on either side of y = 200 mm`},
		{"over the middle from above", twoFolds, func(p *Problem, l *Layout) { l.Placed[3].At[1] -= one }, OverMiddle,
			"near (200 mm, 219.999 mm)"},
		{"right across the middle", twoFolds, func(p *Problem, l *Layout) { l.Placed[2].At[1] = 110 }, OverMiddle, ""},
		{"up to a middle without selvedges", twoFolds,
			func(p *Problem, l *Layout) { p.Strip.Middle = 0; l.Placed[3].At[1] = 200; l.Placed[2].At[1] = 18.5 }, "",
			""},
		{"one fold has no middle", twoFolds, func(p *Problem, l *Layout) {
			p.Strip.Folds, p.Strip.Middle = FoldBelow, 0
			l.Placed[1] = Placed{Piece: 0, Copy: 1, At: orb.Point{400, -10}}
			l.Placed[2].At[1], l.Placed[3].At = 221.5, orb.Point{206, 1.5}
			l.Length = 500
		}, "", ""},
		{"check", checked, func(p *Problem, l *Layout) {}, "", ""},
		{"a step apart, half to either side", checked, func(p *Problem, l *Layout) { l.Placed[1].At[0] += one }, "",
			""},
		{"two steps apart", checked, func(p *Problem, l *Layout) { l.Placed[1].At[0] += 2 * one }, OffRepeat, ""},
		{"off along", checked, func(p *Problem, l *Layout) { l.Placed[1].At[0] += 1 }, OffRepeat,
			`"tab" copy 2 lies off the repeat near (86 mm, 45 mm): its match point is ` +
				`1 mm off "tab" copy 1 along the cloth, where the repeat is 40 mm`},
		{"off across", checked, func(p *Problem, l *Layout) { l.Placed[1].At[1] -= 2 }, OffRepeat,
			`2 mm off "tab" copy 1 across the cloth, where the repeat is 30 mm`},
		{"both moved on", checked,
			func(p *Problem, l *Layout) { l.Placed[0].At, l.Placed[1].At = orb.Point{7, 3}, orb.Point{87, 63} }, "",
			""},
		{"a group of its own", checked,
			func(p *Problem, l *Layout) { l.Placed[2].At[1] -= 2; l.Placed[2].At[0] -= 1; l.Length-- }, "", ""},
		{"both in one group", checked, func(p *Problem, l *Layout) { p.Pieces[1].Match.Groups[0] = 0 }, OffRepeat,
			`"flap" copy 1 lies off the repeat near (145 mm, 15 mm): its match point is 20 mm off "tab" copy 1 along`},
		{"half a step off a given phase", checked,
			func(p *Problem, l *Layout) { p.Phases = map[int]orb.Point{0: {45 + one/2, -15}} }, "", ""},
		{"more than half a step off it", checked,
			func(p *Problem, l *Layout) { p.Phases = map[int]orb.Point{0: {5 + one*0.51, 15}} }, OffRepeat, ""},
		{"a single one off a given phase", checked,
			func(p *Problem, l *Layout) { p.Phases = map[int]orb.Point{1: {145, 12}} }, OffRepeat,
			`3 mm off the phase that is given across the cloth`},
		{"striped along only", checked, func(p *Problem, l *Layout) { p.Strip.Repeat.Along = 0; l.Placed[1].At[0]-- },
			"", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, l := c.from()
			c.spoil(&p, &l)
			err := Verify(p, l)
			var broken *Broken
			switch {
			case c.rule == "" && err != nil:
				t.Error(err)
			case c.rule == "":
			case !errors.As(err, &broken) || broken.Rule != c.rule || !strings.Contains(err.Error(), c.says):
				t.Errorf("got %v\nwant %q with %q", err, c.rule, c.says)
			}
		})
	}
}

func TestCheckOfFoldsAndRepeats(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*Problem)
		says  []string
	}{
		{"unknown folds", func(p *Problem) { p.Strip.Folds = 3 }, []string{"unknown folds 3"}},
		{"negative middle", func(p *Problem) { p.Strip.Middle = -1 }, []string{"middle is -1 mm"}},
		{"a middle with one fold", func(p *Problem) { p.Strip.Folds = FoldBelow },
			[]string{"middle is 20 mm", "two folds"}},
		{"all middle", func(p *Problem) { p.Strip.Middle = 200 }, []string{"within 200 mm of the middle", "400 mm"}},
		{"fold off the lattice", func(p *Problem) { p.Strip.Width = 400.0001 }, []string{"400.0001 mm", "lattice"}},
		{"negative repeat", func(p *Problem) { p.Strip.Repeat.Along = -3 }, []string{"repeat along is -3 mm"}},
		{"repeat over a fold", func(p *Problem) { p.Strip.Repeat.Across = 3 }, []string{"repeat across", "open"}},
		{"match far out", func(p *Problem) { p.Pieces[1].Match = &Match{Point: orb.Point{0, 1e6}} },
			[]string{`"facing"`, "match point", "65536 mm"}},
		{"phase far out", func(p *Problem) { p.Phases = map[int]orb.Point{3: {math.NaN(), 0}} },
			[]string{"of group 3", "65536 mm"}},
		{"groups of too few", func(p *Problem) { p.Pieces[1].Match = &Match{Groups: []int{1}} },
			[]string{`"facing"`, "the group of 1 copies, there are 2"}},
		{"a repeat finer than thread", func(p *Problem) { p.Strip.Repeat.Along = 0.01 },
			[]string{"repeat along is 0.01 mm", "at least 0.1"}},
		{"no fold for a half", func(p *Problem) { p.Strip.Folds, p.Strip.Middle = NoFold, 0 },
			[]string{`"front"`, "fold"}},
		{"left and right on a fold", func(p *Problem) { p.Pieces[0].Mirror = Paired },
			[]string{`"front"`, "left and right"}},
		{"across on a fold", func(p *Problem) { p.Pieces[0].Turns = []float64{90, 270} },
			[]string{`"front"`, "[90 270]"}},
		{"half of a half", func(p *Problem) { p.Pieces[0].Half = rect(0, 0, 5, 5) },
			[]string{`"front"`, "a half itself"}},
		{"half of another", func(p *Problem) { p.Pieces[1].Half = rect(0, 0, 100, 80) },
			[]string{`"facing": half`, "not the outline"}},
		{"open half", func(p *Problem) { p.Pieces[1].Half = rect(0, 0, 100, 80)[:4] },
			[]string{`"facing": half`, "open"}},
		{"its half", func(p *Problem) { p.Pieces[1].Half = rect(3, 9, 100, 89.25) }, nil},
		{"too wide for half the width", func(p *Problem) { p.Pieces[1].Outline = rect(0, 0, 100, 179) },
			[]string{`"facing" fits in no allowed turn`, "178.5 mm wide"}},
		{"too wide on a fold", func(p *Problem) { p.Pieces[0].Outline = rect(0, 0, 100, 181) },
			[]string{`"front" fits in no allowed turn`, "180 mm wide"}},
	} {
		p, _ := twoFolds()
		c.spoil(&p)
		err := p.Check()
		if (err == nil) != (c.says == nil) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, part := range c.says {
			if !strings.Contains(err.Error(), part) {
				t.Errorf("%s: %q lacks %q", c.name, err, part)
			}
		}
	}
}

// TestMirroredTurns: the turns of a mirrored copy are the reflections of those as
// drawn, in the same order where they are the same turns.
func TestMirroredTurns(t *testing.T) {
	for _, c := range []struct{ turns, want []float64 }{
		{nil, []float64{0}},
		{[]float64{0}, []float64{0}},
		{[]float64{0, 180}, []float64{0, 180}},
		{[]float64{0, 90, 180, 270}, []float64{0, 90, 180, 270}},
		{[]float64{0, 3, -3}, []float64{0, 3, -3}},
		{[]float64{0, 90}, []float64{0, -90}},
		{[]float64{45, 225}, []float64{-45, -225}},
	} {
		got := Piece{Turns: c.turns}.turnsOf(true)
		if len(got) != len(c.want) {
			t.Fatalf("%v: %v", c.turns, got)
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v: %v, want %v", c.turns, got, c.want)
			}
		}
	}
}
