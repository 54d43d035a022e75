package nest

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// lanternFront is a marker with every kind of right in it, sound as it stands:
// two fronts (a pair), two backs (as drawn, either way round), a loop (free).
func lanternFront() (Problem, Layout) {
	front := ring(orb.Point{0, 0}, orb.Point{600, 0}, orb.Point{600, 300}, orb.Point{0, 150})
	back := ring(orb.Point{0, 0}, orb.Point{500, 0}, orb.Point{500, 200}, orb.Point{0, 200})
	p := Problem{
		Strip: Strip{Width: 1000, MaxLength: 2000, Forbidden: []orb.Ring{rect(1500, 0, 50, 50)}},
		Pieces: []Piece{
			{Name: "centre front", Outline: front, Count: 2, Mirror: Paired},
			{Name: "side back", Outline: back, Count: 2, Turns: []float64{0, 180}},
			{Name: "loop", Outline: rect(0, 0, 100, 40), Count: 1, Turns: []float64{0, 270}, Mirror: Free},
		},
		Gap: 2,
	}
	l := Layout{Length: 1102, Placed: []Placed{
		{Piece: 0, Copy: 0, At: orb.Point{0, 0}},
		{Piece: 0, Copy: 1, Mirrored: true, At: orb.Point{0, 602}},
		{Piece: 1, Copy: 0, At: orb.Point{602, 0}},
		{Piece: 1, Copy: 1, Turn: 180, At: orb.Point{1102, 402}},
		{Piece: 2, Copy: 0, Turn: 90, Mirrored: true, At: orb.Point{700, 602}},
	}}
	return p, l
}

func TestVerifyAcceptsSoundMarker(t *testing.T) {
	p, l := lanternFront()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	if err := Verify(p, l); err != nil {
		t.Fatal(err)
	}
	l.Placed[3].Turn = -180 // the same turn by another number
	l.Placed[4].Turn = 450
	if err := Verify(p, l); err != nil {
		t.Fatal(err)
	}
}

func TestVerifyReportsEachRule(t *testing.T) {
	const one = plane.Lattice
	nan := math.NaN()
	for _, c := range []struct {
		name  string
		spoil func(*Problem, *Layout)
		rule  Rule
		says  string
	}{
		{"turn", func(p *Problem, l *Layout) { l.Placed[2].Turn = 90 }, WrongTurn,
			`"side back" copy 1 is turned as it may not be near (602 mm, 0 mm): turned 90 degrees, allowed [0 180]`},
		{"turn, a hair off", func(p *Problem, l *Layout) { l.Placed[3].Turn = math.Nextafter(180, 0) }, WrongTurn,
			"179.99999999999997"},
		{"turn, mirrored, the wrong way", func(p *Problem, l *Layout) { l.Placed[4].Turn = 270 }, WrongTurn,
			"turned 270 degrees, allowed [0 270] clockwise, as it is mirrored"},
		{"turn, as drawn, the wrong way", func(p *Problem, l *Layout) { l.Placed[4].Mirrored = false }, WrongTurn,
			"turned 90 degrees, allowed [0 270]"},
		{"turn, none listed", func(p *Problem, l *Layout) { l.Placed[0].Turn = 180 }, WrongTurn, "allowed [0]"},
		{"turn not a number", func(p *Problem, l *Layout) { l.Placed[0].Turn = nan }, WrongTurn, "NaN"},
		{"turn infinite", func(p *Problem, l *Layout) { l.Placed[0].Turn = math.Inf(1) }, WrongTurn, "Inf"},
		{"mirror, as drawn", func(p *Problem, l *Layout) { l.Placed[2].Mirrored = true }, WrongMirror,
			"every copy is cut as drawn"},
		{"mirror, first of a pair", func(p *Problem, l *Layout) { l.Placed[0].Mirrored = true }, WrongMirror,
			`"centre front" copy 1`},
		{"mirror, second of a pair", func(p *Problem, l *Layout) { l.Placed[1].Mirrored = false }, WrongMirror,
			`"centre front" copy 2`},
		{"off the lattice", func(p *Problem, l *Layout) { l.Placed[0].At[0] += one / 2 }, OffLattice, ""},
		{"not a number", func(p *Problem, l *Layout) { l.Placed[0].At[1] = nan }, OffLattice, ""},
		{"infinite", func(p *Problem, l *Layout) { l.Placed[0].At[0] = math.Inf(1) }, OffLattice, ""},
		{"beyond reach", func(p *Problem, l *Layout) { l.Placed[0].At[0] = 1e6 }, OffLattice, ""},
		{"past reach", func(p *Problem, l *Layout) { p.Strip.MaxLength = 0; l.Placed[2].At[0] = Reach - 499 },
			OutsideStrip, "65536 mm from the origin"},
		{"past reach across", func(p *Problem, l *Layout) { p.Strip.Width = 1e6; l.Placed[2].At[1] = Reach - 199 },
			OutsideStrip, "65536 mm from the origin"},
		{"under the lower edge", func(p *Problem, l *Layout) { l.Placed[0].At[1] = -one }, OutsideStrip,
			"1000 mm wide"},
		{"over the upper edge", func(p *Problem, l *Layout) { p.Strip.Width = math.Nextafter(702, 0) }, OutsideStrip,
			`"loop" copy 1 lies outside the strip`},
		{"before the cut end", func(p *Problem, l *Layout) { l.Placed[0].At[0] = -one }, OutsideStrip, "cut end"},
		{"past the longest", func(p *Problem, l *Layout) { p.Strip.MaxLength = 1101.9995 }, OutsideStrip,
			"at most 1102 mm long"},
		{"no such piece", func(p *Problem, l *Layout) { l.Placed[0].Piece = 3 }, WrongCount,
			"the problem has 3 pieces"},
		{"negative piece", func(p *Problem, l *Layout) { l.Placed[0].Piece = -1 }, WrongCount,
			"the problem has 3 pieces"},
		{"no such copy", func(p *Problem, l *Layout) { l.Placed[3].Copy = 2 }, WrongCount, "there are 2 to cut"},
		{"negative copy", func(p *Problem, l *Layout) { l.Placed[3].Copy = -1 }, WrongCount, "there are 2 to cut"},
		{"twice", func(p *Problem, l *Layout) { l.Placed[3].Copy = 0 }, WrongCount,
			`"side back" copy 1 does not match the count: placed twice`},
		{"missing", func(p *Problem, l *Layout) { l.Placed = l.Placed[:4] }, WrongCount,
			`"loop" copy 1 does not match the count: not placed`},
		{"nothing placed", func(p *Problem, l *Layout) { l.Placed = nil }, WrongCount, "not placed"},
		{"length short", func(p *Problem, l *Layout) { l.Length = 1102 - one }, WrongLength, "ends at 1102 mm"},
		{"length long", func(p *Problem, l *Layout) { l.Length = math.Nextafter(1102, 1103) }, WrongLength, ""},
		{"length not a number", func(p *Problem, l *Layout) { l.Length = nan }, WrongLength, ""},
		{"on a flaw", func(p *Problem, l *Layout) { p.Strip.Forbidden[0] = rect(1102-one, 10, 50, 50) }, InForbidden,
			`"side back" copy 1 covers a forbidden zone near (1102 mm, `},
		{"beside a flaw", func(p *Problem, l *Layout) { p.Strip.Forbidden[0] = rect(1102, 10, 50, 50) }, "", ""},
		{"overlap", func(p *Problem, l *Layout) { l.Placed[3].At[1] = 400 - one }, Overlap,
			`"side back" copy 1 overlaps "side back" copy 2 near (`},
		{"same place", func(p *Problem, l *Layout) { l.Placed[3] = l.Placed[2]; l.Placed[3].Copy = 1 }, Overlap,
			"near (852 mm, 0 mm)"},
		{"too close", func(p *Problem, l *Layout) { l.Placed[2].At[0] -= one; l.Placed[2].At[1] = 100 }, TooClose,
			`is too close to "side back" copy 1 near (600 mm, `},
		{"too close across", func(p *Problem, l *Layout) { l.Placed[3].At[1] = 401 }, TooClose,
			`"side back" copy 1 is too close to "side back" copy 2`},
		{"too close across, upper first", func(p *Problem, l *Layout) {
			l.Placed[2].At[1], l.Placed[3].At[1] = 201, 200
		}, TooClose, `"side back" copy 1 is too close to "side back" copy 2`},
		{"touching", func(p *Problem, l *Layout) { l.Placed[3].At[1] = 400 }, TooClose, "the gap is 2 mm"},
		{"gap a hair more", func(p *Problem, l *Layout) { p.Gap = math.Nextafter(2, 3) }, TooClose, "the gap is 2 mm"},
		{"no gap, touching", func(p *Problem, l *Layout) { p.Gap = 0; l.Placed[3].At[1] = 400 }, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, l := lanternFront()
			c.spoil(&p, &l)
			if c.rule == "" {
				if err := Verify(p, l); err != nil {
					t.Error(err)
				}
				return
			}
			var broken *Broken
			if err := Verify(p, l); !errors.As(err, &broken) {
				t.Fatalf("got %v, want a broken rule %q", err, c.rule)
			} else if broken.Rule != c.rule || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %q: %v\nwant %q with %q", broken.Rule, err, c.rule, c.says)
			}
		})
	}
}

func TestBrokenIsFilledIn(t *testing.T) {
	p, l := lanternFront()
	l.Placed[3].At[1] = 300
	want := &Broken{Rule: Overlap, Piece: "side back", Copy: 0, Other: "side back", OtherCopy: 1, Pair: [2]int{2, 3},
		At: orb.Point{1102, 150}}
	sameText := cmp.Comparer(func(a, b say.Text) bool { return a.String() == b.String() })
	if diff := cmp.Diff(want, Verify(p, l), sameText); diff != "" {
		t.Error(diff)
	}
	if got, want := want.Error(), `"side back" copy 1 overlaps "side back" copy 2 near (1102 mm, 150 mm)`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestVerifyRefusesUnsoundProblem(t *testing.T) {
	p, l := lanternFront()
	p.Pieces[1].Outline = p.Pieces[1].Outline[:3]
	if err := Verify(p, l); err == nil || !strings.Contains(err.Error(), `"side back"`) {
		t.Errorf("got %v", err)
	}
}

// A sliver whose turned outline rounds to nothing is refused, not crashed on.
func TestVerifyOfVanishingPiece(t *testing.T) {
	sliver := ring(orb.Point{0, 0}, orb.Point{100, 0}, orb.Point{50, 1e-5})
	p := Problem{Strip: Strip{Width: 500}, Pieces: []Piece{{Name: "thread", Outline: sliver, Count: 1}}}
	if err := p.Check(); err == nil || !strings.Contains(err.Error(), `"thread" turned 0 degrees`) {
		t.Errorf("check: %v", err)
	}
	var broken *Broken
	if err := Verify(p, Layout{Placed: []Placed{{}}, Length: 100}); !errors.As(err, &broken) ||
		broken.Rule != OffLattice {
		t.Errorf("verify: %v", err)
	}
}

// At odd turns outlines with details finer than the lattice touch and cross
// themselves once snapped; they are judged all the same.
func TestVerifyAtOddTurns(t *testing.T) {
	fine := ring(orb.Point{0, 0}, orb.Point{200, 0}, orb.Point{200, 100}, orb.Point{100.0002, 100},
		orb.Point{100.0001, 20}, orb.Point{100, 100}, orb.Point{50, 100}, orb.Point{50, 100.0001}, orb.Point{0, 100})
	p := Problem{Strip: Strip{Width: 1000}, Pieces: []Piece{{Name: "slit", Outline: fine, Count: 2}}}
	crossed := 0
	for degrees := range 360 {
		turn := float64(degrees) + 0.37
		p.Pieces[0].Turns = []float64{turn}
		if plane.CheckSimple(p.Outline(Placed{Turn: turn})) != nil {
			crossed++
		}
		box := plane.Bounds(p.Outline(Placed{Turn: turn}))
		first := Placed{Turn: turn, At: orb.Point{-box.Min[0], -box.Min[1]}}
		second := first
		second.Copy, second.At[0] = 1, first.At[0]+box.Max[0]-box.Min[0]
		l := Layout{Placed: []Placed{first, second}, Length: second.At[0] + box.Max[0]}
		if err := Verify(p, l); err != nil {
			t.Fatalf("turn %v, side by side: %v", turn, err)
		}
		l.Placed[1].At[0] = first.At[0] + 1
		l.Length = l.Placed[1].At[0] + box.Max[0]
		var broken *Broken
		if err := Verify(p, l); !errors.As(err, &broken) || broken.Rule != Overlap {
			t.Fatalf("turn %v, one over the other: %v", turn, err)
		}
	}
	if crossed < 100 {
		t.Errorf("only %d of 360 turns spoil the outline", crossed)
	}
}

func FuzzVerify(f *testing.F) {
	f.Add(0, 0, 0.0, false, 0.0, 0.0, 600.0)
	f.Add(1, 1, 180.0, true, 1102.0, 402.0, 1102.0)
	f.Add(9, -1, 33.3, true, 1e300, -5.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, piece, copy int, turn float64, mirrored bool, x, y, length float64) {
		p, l := lanternFront()
		sound := l.Placed[3]
		l.Placed[3] = Placed{Piece: piece, Copy: copy, Turn: turn, Mirrored: mirrored, At: orb.Point{x, y}}
		l.Length = length
		err := Verify(p, l)
		var broken *Broken
		if err != nil && !errors.As(err, &broken) {
			t.Fatalf("not a *Broken: %v", err)
		}
		if err != nil && err.Error() == "" {
			t.Fatal("says nothing")
		}
		if err == nil && (piece != sound.Piece || copy != sound.Copy || mirrored != sound.Mirrored) {
			t.Fatalf("accepted: %+v", l.Placed[3])
		}
	})
}
