package nest

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

func TestCheckNamesWhatIsWrong(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name  string
		spoil func(*Problem)
		says  []string
	}{
		{"no width", func(p *Problem) { p.Strip.Width = 0 }, []string{"strip width is 0 mm"}},
		{"width not a number", func(p *Problem) { p.Strip.Width = nan }, []string{"strip width is NaN mm"}},
		{"width infinite", func(p *Problem) { p.Strip.Width = inf }, []string{"strip width is +Inf mm"}},
		{"negative limit", func(p *Problem) { p.Strip.MaxLength = -1 }, []string{"longest strip is -1 mm"}},
		{"negative gap", func(p *Problem) { p.Gap = -2 }, []string{"gap between pieces is -2 mm"}},
		{"gap not a number", func(p *Problem) { p.Gap = nan }, []string{"gap", "NaN"}},
		{"no pieces", func(p *Problem) { p.Pieces = nil }, []string{"no pieces"}},
		{"open", func(p *Problem) { p.Pieces[1].Outline[4][0] = 1 }, []string{`"side back"`, "open"}},
		{"clockwise", func(p *Problem) { p.Pieces[1].Outline.Reverse() }, []string{`"side back"`, "clockwise"}},
		{"crossing", func(p *Problem) { p.Pieces[1].Outline[3][1] = -50 }, []string{`"side back"`, "crosses"}},
		{"vertex not a number", func(p *Problem) { p.Pieces[1].Outline[2][1] = nan },
			[]string{`"side back"`, "not finite"}},
		{"empty", func(p *Problem) { p.Pieces[1].Outline = nil }, []string{`"side back"`, "0 vertices"}},
		{"far out", func(p *Problem) { p.Pieces[1].Outline = rect(70000, 0, 10, 10) },
			[]string{`"side back"`, "(70000 mm, 0 mm)", "65536 mm"}},
		{"none to cut", func(p *Problem) { p.Pieces[2].Count = 0 }, []string{`"loop"`, "count is 0"}},
		{"odd pair", func(p *Problem) { p.Pieces[0].Count = 3 }, []string{`"centre front"`, "count is 3", "even"}},
		{"turn not a number", func(p *Problem) { p.Pieces[1].Turns[1] = nan }, []string{`"side back"`, "turn of NaN"}},
		{"unknown mirror", func(p *Problem) { p.Pieces[1].Mirror = 7 }, []string{`"side back"`, "mirror right 7"}},
		{"zone open", func(p *Problem) { p.Strip.Forbidden[0] = p.Strip.Forbidden[0][:4] },
			[]string{"forbidden zone 0", "open"}},
		{"zone off the lattice", func(p *Problem) { p.Strip.Forbidden[0] = rect(0.1, 0, 5, 5) },
			[]string{"forbidden zone 0", "lattice"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, _ := lanternFront()
			c.spoil(&p)
			err := p.Check()
			if err == nil {
				t.Fatal("accepted")
			}
			for _, part := range c.says {
				if !strings.Contains(err.Error(), part) {
					t.Errorf("%q lacks %q", err, part)
				}
			}
		})
	}
}

func TestCheckOfSizes(t *testing.T) {
	panel := ring(orb.Point{0, 0}, orb.Point{900, 0}, orb.Point{900, 500}, orb.Point{0, 300})
	for _, c := range []struct {
		name   string
		strip  Strip
		turns  []float64
		mirror Mirror
		want   *SizeError
	}{
		{"fits", Strip{Width: 500}, nil, AsDrawn, nil},
		{"one step too wide", Strip{Width: math.Nextafter(500, 0)}, nil, AsDrawn,
			&SizeError{Name: "panel", Along: 900, Across: 500, Width: math.Nextafter(500, 0)}},
		{"fits across only", Strip{Width: 600, MaxLength: 800}, []float64{0, 180}, AsDrawn,
			&SizeError{Name: "panel", Along: 900, Across: 500, Width: 600, MaxLength: 800}},
		{"fits when turned", Strip{Width: 900, MaxLength: 800}, []float64{0, 90}, AsDrawn, nil},
		{"in no turn", Strip{Width: 400, MaxLength: 2000}, []float64{0, 90}, AsDrawn,
			&SizeError{Name: "panel", Along: 900, Across: 500, Width: 400, MaxLength: 2000}},
	} {
		p := Problem{Strip: c.strip,
			Pieces: []Piece{{Name: "panel", Outline: panel, Count: 2, Turns: c.turns, Mirror: c.mirror}}}
		err := p.Check()
		var size *SizeError
		if errors.As(err, &size); !cmp.Equal(size, c.want) || (err == nil) != (c.want == nil) {
			t.Errorf("%s: got %v", c.name, err)
		}
	}
}

// A mirrored copy turns the other way, so that it is as wide as one as drawn.
func TestCheckOfSizesMirrored(t *testing.T) {
	lean := ring(orb.Point{0, 0}, orb.Point{100, 0}, orb.Point{600, 500}, orb.Point{500, 500})
	for _, mirror := range []Mirror{AsDrawn, Paired, Free} {
		p := Problem{Strip: Strip{Width: 600},
			Pieces: []Piece{{Name: "lean", Outline: lean, Count: 2, Turns: []float64{-30}, Mirror: mirror}}}
		if err := p.Check(); err != nil {
			t.Errorf("mirror right %v: %v", mirror, err)
		}
		p.Pieces[0].Turns = []float64{30} // 500 cos 30 + 600 sin 30 across
		var size *SizeError
		if err := p.Check(); !errors.As(err, &size) ||
			math.Abs(size.Across-(500*math.Cos(math.Pi/6)+600*math.Sin(math.Pi/6))) > 0.001 {
			t.Errorf("mirror right %v: %v", mirror, err)
		}
	}
}

// On a repeat across of 40 a tab 50 wide, marked 10 from its lower edge, has its
// mark at 10 to 15 on 55 of width; mirrored the mark is 10 from the upper edge, at
// 40 to 45, which is 0 to 5 of the next repeat: the two of a pair never agree, those
// that may lie either way up do, and so do two pairs that need not agree.
func TestCheckOfSizesOnARepeat(t *testing.T) {
	p := Problem{
		Strip: Strip{Width: 55, Repeat: Repeat{Across: 40}},
		Pieces: []Piece{{Name: "tab", Outline: rect(0, 0, 100, 50), Count: 2, Mirror: Free,
			Match: &Match{Point: orb.Point{0, 10}}}},
	}
	if err := p.Check(); err != nil {
		t.Errorf("free: %v", err)
	}
	p.Pieces[0].Mirror = Paired
	var size *SizeError
	if err := p.Check(); !errors.As(err, &size) || !size.Mirrored || !size.Repeat ||
		!strings.Contains(err.Error(), "it lies nowhere between the edges") {
		t.Errorf("paired: %v", err)
	}
	p.Pieces[0].Match.Groups = []int{3, 5}
	if err := p.Check(); err != nil {
		t.Errorf("left and right need not agree: %v", err)
	}
	p.Pieces[0].Mirror, p.Pieces[0].Match.Groups = AsDrawn, nil
	p.Strip.MaxLength, p.Strip.Repeat.Along = 130, 70
	if err := p.Check(); err != nil {
		t.Errorf("along: %v", err)
	}
	p.Phases = map[int]orb.Point{0: {40, 10}} // at 40 and 110: the tab ends at 140 at the least
	if err := p.Check(); !errors.As(err, &size) || !size.Repeat {
		t.Errorf("along: %v", err)
	}
}

func TestSizeErrorReads(t *testing.T) {
	err := &SizeError{Name: "cape", Along: 900, Across: 1612.4567, Width: 1450, MaxLength: 3000}
	want := `"cape" fits in no allowed turn: it takes 1612.457 mm across and 900 mm along, ` +
		`the strip is 1450 mm wide and at most 3000 mm long`
	if err.Error() != want {
		t.Errorf("got  %s\nwant %s", err, want)
	}
}
