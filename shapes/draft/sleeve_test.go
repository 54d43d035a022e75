package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// lanternSleeve is a sleeve set into the block of our own gown.
func lanternSleeve(t failer, style SleeveStyle) Sleeve {
	t.Helper()
	front, back, err := lanternBlock().Armhole()
	if err != nil {
		t.Fatalf("%v", err)
	}
	s := Sleeve{
		Style: style, FrontArmhole: front, BackArmhole: back, CapEase: 30, Bicep: 345, Length: 590, Hem: 240,
		Allowance: shapes.Allowance{Seam: 12, Hem: 25},
	}
	switch style {
	case BellSleeve:
		s.BellFrom, s.Sweep, s.Hem = 330, 900, 300
	case PuffSleeve:
		s.Length, s.Fullness, s.Puff, s.Band, s.Hem = 230, 1.6, 40, 25, 300
	case BishopSleeve:
		s.Fullness, s.Puff, s.Band, s.Hem = 1.7, 30, 50, 220
	case LegOfMuttonSleeve:
		s.Fullness, s.Puff, s.Pleats = 1.7, 50, 4
	case FlutterSleeve:
		s.Length, s.Hem = 230, 640
	}
	return s
}

func drawSleeve(t *rapid.T) Sleeve {
	s := Sleeve{
		Style:        SleeveStyle(rapid.IntRange(0, int(FlutterSleeve)).Draw(t, "style")),
		FrontArmhole: rapid.Float64Range(190, 280).Draw(t, "front armhole"),
		CapEase:      rapid.Float64Range(0, 40).Draw(t, "cap ease"),
		Allowance: shapes.Allowance{Seam: rapid.Float64Range(0, 15).Draw(t, "seam"),
			Hem: rapid.Float64Range(0, 40).Draw(t, "hem allowance")},
	}
	s.BackArmhole = s.FrontArmhole * rapid.Float64Range(0.9, 1.15).Draw(t, "back over front")
	s.Bicep = (s.FrontArmhole + s.BackArmhole) * rapid.Float64Range(0.6, 0.92).Draw(t, "bicep over armhole")
	s.Length = rapid.Float64Range(230, 640).Draw(t, "length")
	s.Hem = s.Bicep * rapid.Float64Range(0.5, 1).Draw(t, "hem over bicep")
	s.HemRaise = rapid.Float64Range(0, 20).Draw(t, "hem raise")
	s.Chord = 0.2 // coarse, for speed
	switch s.Style {
	case BellSleeve:
		s.BellFrom = s.Length * rapid.Float64Range(0.4, 0.8).Draw(t, "bell from")
		s.Sweep = s.Hem * rapid.Float64Range(1.2, 4).Draw(t, "sweep over hem")
	case PuffSleeve:
		s.Fullness = rapid.Float64Range(1, 2.5).Draw(t, "fullness")
		s.Puff = rapid.Float64Range(0, 60).Draw(t, "puff")
		s.Band = rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(leastBand, 40)).Draw(t, "band")
		s.Pleats = rapid.IntRange(0, 5).Draw(t, "pleats")
	case BishopSleeve:
		s.Fullness = rapid.Float64Range(1, 2.5).Draw(t, "fullness")
		s.Puff = rapid.Float64Range(0, 60).Draw(t, "puff")
		s.Band = rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(leastBand, 90)).Draw(t, "cuff")
	case LegOfMuttonSleeve:
		s.Fullness = rapid.Float64Range(1, 2.2).Draw(t, "fullness")
		s.Puff = rapid.Float64Range(0, 60).Draw(t, "puff")
		s.Pleats = rapid.IntRange(0, 5).Draw(t, "pleats")
	case FlutterSleeve:
		s.Hem = s.Bicep * rapid.Float64Range(1, 3).Draw(t, "flutter's hem over bicep")
	}
	return s
}

func TestSleeveProperties(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSleeve(t)
		pieces, err := piecesOf(s)
		if err != nil {
			t.Skip(err)
		}
		drawn++
		checkJoins(t, s)
		for _, p := range pieces {
			soundGore(t, p)
			checkAreas(t, p)
		}
		if s.Style == TwoPieceSleeve {
			return // TestTwoPieceByFormulas
		}
		front, _ := pieces[0].Edge("front cap")
		back, _ := pieces[0].Edge("back cap")
		crown, err := s.crown()
		if err != nil {
			t.Fatal(err)
		}
		took := crown.Treatment
		cut := front.Length() + back.Length()
		finished, err := took.Finished(cut)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "cap in the armhole", finished, s.FrontArmhole+s.BackArmhole, seamSlack)
		if !s.Style.fullCap() {
			near(t, "cap", cut, s.FrontArmhole+s.BackArmhole+s.CapEase, seamSlack)
			near(t, "crown at the shoulder", front.Length()/cut, s.FrontArmhole/(s.FrontArmhole+s.BackArmhole), 1e-3)
		} else if s.Pleats > 0 {
			checkCapPleats(t, s, took, front.Length(), back.Length())
		} else if took.Gather < 1 {
			t.Errorf("the cap is gathered %g to 1", took.Gather)
		}
	})
	if least := often.Enough(50); drawn < least {
		t.Errorf("only %d of the sleeves could be drafted, want %d", drawn, least)
	}
}

// Pleats of a cap: what they take up is all of the surplus, the shoulder lies at the crown,
// and the cap is plain between the underarm and its notches.
func checkCapPleats(t failer, s Sleeve, took shapes.Treatment, front, back float64) {
	t.Helper()
	sum := 0.0
	for _, f := range took.Folds {
		sum += f.Width
	}
	whole := s.FrontArmhole + s.BackArmhole
	near(t, "taken up", sum, front+back-whole, 1e-6)
	near(t, "taken up by as many alike", 2*took.PleatDepth*float64(took.Pleats), sum, 1e-6)
	near(t, "shoulder", took.OnCut(s.FrontArmhole, whole), front, 1e-6)
	near(t, "front notch", took.OnCut(armholeNotch*s.FrontArmhole, whole), armholeNotch*s.FrontArmhole, 1e-6)
	near(t, "back notch", front+back-took.OnCut(whole-armholeNotch*s.BackArmhole, whole), armholeNotch*s.BackArmhole, 1e-6)
}

// A sleeve in its armhole: equal once eased or gathered, its notches on those of
// the block, and sewn after side and shoulder seams.
func TestArmholeJoin(t *testing.T) {
	for _, style := range []SleeveStyle{StraightSleeve, BellSleeve, PuffSleeve, BishopSleeve,
		LegOfMuttonSleeve, TwoPieceSleeve, FlutterSleeve} {
		body, s := lanternBlock(), lanternSleeve(t, style)
		pieces := append(mustDraft(t, body), mustDraft(t, s)...)
		j, err := armholeJoin(body, s)
		if err != nil {
			t.Fatal(err)
		}
		joins, err := joinsOf(body)
		if err != nil {
			t.Fatal(err)
		}
		steps, err := shapes.SewingOrder(pieces, append([]shapes.Join{j}, joins...))
		if err != nil {
			t.Fatal(err)
		}
		last := steps[len(steps)-1]
		if last.Join.Name != "armhole" {
			t.Errorf("the last seam is %q", last.Join.Name)
		}
		near(t, "difference", last.Difference, 0, seamSlack)
		before := 0
		for _, p := range pieces {
			before += len(p.Notches)
		}
		if err := shapes.MatchNotches(pieces, []shapes.Join{j}); err != nil {
			t.Fatal(err)
		}
		a, b := notchesAlong(t, pieces, j.A), notchesAlong(t, pieces, j.B)
		for _, m := range j.Notches {
			for _, side := range []struct {
				found []float64
				want  float64
			}{{a, m}, {b, j.B.Treatment.OnCut(m, last.FinishedB)}} {
				nearest := math.Inf(1)
				for _, d := range side.found {
					nearest = min(nearest, math.Abs(d-side.want))
				}
				if nearest > seamSlack {
					t.Errorf("style %d: no notch at %.2f, only %.2f", style, side.want, side.found)
				}
			}
		}
	}
}

// The puff by hand: spread 1.6 times over a bicep of 345 is 552 mm wide; its lower
// edge, bowed, is longer than that and is gathered into 300.
func TestPuffByHand(t *testing.T) {
	s := lanternSleeve(t, PuffSleeve)
	p := mustDraft(t, s)[0]
	_, across := p.Finished()
	near(t, "width", across, 552, 0.01)
	plain := s
	plain.Style, plain.Hem = StraightSleeve, 300
	along, _ := p.Finished()
	was, _ := mustDraft(t, plain)[0].Finished()
	near(t, "length", along, was+40+40, 0.1) // higher by the puff and lower by it
	steps := checkJoins(t, s)
	if g := steps[len(steps)-1].Join.B.Treatment.Gather; g < 552./300 || g > 552./300*1.05 {
		t.Errorf("lower edge gathered %.3f to 1", g)
	}
}

// The bell by hand: a sector of radius top x depth/(bottom - top) = 300 x 260/600
// = 130 (L. Baldt, "Clothing for Women", 1916) and angle 600/260 rad.
func TestBellByHand(t *testing.T) {
	pieces := mustDraft(t, lanternSleeve(t, BellSleeve))
	if len(pieces) != 2 || pieces[1].Name != "sleeve bell" || pieces[1].Count != 2 {
		t.Fatalf("%d pieces, %q", len(pieces), pieces[len(pieces)-1].Name)
	}
	angle := 600. / 260
	near(t, "area", plane.Area(pieces[1].Seam), angle/2*(390*390-130*130), 60)
}

// Areas are those inside the seam lines. What is cut may shrink as the hem grows: on a
// short, steep underarm seam, some 20 mm deep, a hem wider by 4 mm adds about 22 mm2, and
// takes about 1 mm off each seam, with 15 mm of allowance beside it.
func TestSleeveMonotone(t *testing.T) {
	total := func(s Sleeve) (sum float64, copies int, err error) {
		pieces, err := piecesOf(s)
		for _, p := range pieces {
			sum += plane.Area(p.Seam) * float64(p.Count)
			copies += p.Count
		}
		return sum, copies, err
	}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSleeve(t)
		was, copies, err := total(s)
		if err != nil {
			t.Skip(err)
		}
		height, err := s.CapHeight()
		if err != nil {
			t.Fatal(err)
		}
		for what, change := range someOf(t, map[string]func(*Sleeve){
			"longer":      func(s *Sleeve) { s.Length += 10; s.BellFrom += 5 },
			"wider hem":   func(s *Sleeve) { s.Hem += 4; s.Sweep += 8 },
			"less raised": func(s *Sleeve) { s.HemRaise -= 5 },
			"fuller":      func(s *Sleeve) { s.Fullness += 0.1 },
			"puffier":     func(s *Sleeve) { s.Puff += 5 },
			"wider band":  func(s *Sleeve) { s.Band += 5 },
		}) {
			more := s
			change(&more)
			now, nowCopies, err := total(more)
			full := s.Style.fullCap() || s.Style == BishopSleeve
			unused := !full && (what == "fuller" || what == "puffier") || !s.Style.banded() && what == "wider band" ||
				// a band comes to be, or a bell loses a seam
				s.Style.banded() && what == "wider hem" || nowCopies != copies
			if err != nil || unused {
				continue
			}
			if now <= was {
				t.Errorf("%s: area %.1f, was %.1f", what, now, was)
			}
		}
		for what, c := range map[string]struct {
			change func(*Sleeve)
			higher bool
		}{
			"wider bicep":    {func(s *Sleeve) { s.Bicep += 5 }, false},
			"larger armhole": {func(s *Sleeve) { s.FrontArmhole += 5 }, true},
			"more ease":      {func(s *Sleeve) { s.CapEase += 5 }, true},
		} {
			other := s
			c.change(&other)
			h, err := other.CapHeight()
			if err == nil && (h > height) != c.higher {
				t.Errorf("%s: cap %.2f high, was %.2f", what, h, height)
			}
		}
	})
}

func TestSleeveRefuses(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*Sleeve){
		"bicep is 0 mm":                      func(s *Sleeve) { s.Bicep = 0 },
		"front armhole is -1 mm":             func(s *Sleeve) { s.FrontArmhole = -1 },
		"bicep of 480.0 mm is too wide for":  func(s *Sleeve) { s.Bicep = 480 },
		"bicep of 200.0 mm is too narrow":    func(s *Sleeve) { s.Bicep = 200 },
		"cap ease of 90.0 mm is not between": func(s *Sleeve) { s.CapEase = 90 },
		"differ too much for one cap":        func(s *Sleeve) { s.BackArmhole = 500 },
		"mm of underarm seam, needs 20":      func(s *Sleeve) { s.Length = 160 },
		"hem raise is 600 mm":                func(s *Sleeve) { s.HemRaise = 600 },
		"hem of 700.0 mm is more than half":  func(s *Sleeve) { s.Hem = 700 },
		"bell from 600.0 mm does not start":  func(s *Sleeve) { s.Style, s.BellFrom = BellSleeve, 600 },
		"bell: flounce: bottom (100 mm) is not": func(s *Sleeve) {
			s.Style, s.BellFrom,
				s.Sweep = BellSleeve, 300, 100
		},
		"fullness is 0.5": func(s *Sleeve) { s.Style, s.Fullness = PuffSleeve, 0.5 },
		"band of 600.0 mm is longer than": func(s *Sleeve) {
			s.Style, s.Fullness,
				s.Hem = PuffSleeve, 1.5, 600
		},
		"finished width of 0.5 mm cannot be turned": func(s *Sleeve) {
			s.Style, s.Fullness,
				s.Band = PuffSleeve, 1.5, 0.5
		},
		"style 7 is no style of sleeve": func(s *Sleeve) { s.Style = 7 },
		"lower edge of 900.0 mm fans the sleeve out by 207 degrees, the most is 180": func(s *Sleeve) {
			s.Style, s.Length, s.Hem = FlutterSleeve, 230, 900
		},
		"hem of 240.0 mm is narrower than the bicep of 345.0 mm": func(s *Sleeve) { s.Style = FlutterSleeve },
		"this style has its length from the crown":               func(s *Sleeve) { s.Style, s.Underarm = BellSleeve, 30 },
		"an underarm seam of 30.0 mm cannot lean from a bicep of 345.0 mm to a hem of 240.0 mm": func(s *Sleeve) {
			s.Length, s.Underarm = 0, 30
		},
		"a hem of 125.0 mm leaves 28.0 mm of it to the under sleeve, needs 30": func(s *Sleeve) {
			s.Style, s.Hem = TwoPieceSleeve, 125
		},
		"mm below the underarm, needs 20":    func(s *Sleeve) { s.Style, s.Length = TwoPieceSleeve, 160 },
		"both a length and an underarm seam": func(s *Sleeve) { s.Underarm = 400 },
		"pleats in each half of the cap: 21": func(s *Sleeve) {
			s.Style, s.Fullness, s.Pleats = LegOfMuttonSleeve, 1.6, 21
		},
		"9 pleats in each half of the cap are 2.3 mm deep, at least 3": func(s *Sleeve) {
			s.Style, s.Fullness, s.Pleats = LegOfMuttonSleeve, 1.2, 9
		},
		"layers, the most is 7": func(s *Sleeve) {
			s.Style, s.Fullness, s.Puff, s.Pleats = LegOfMuttonSleeve, 2, 800, 2
		},
		"down to the elbow, the most is": func(s *Sleeve) {
			s.Style, s.Fullness, s.Length = LegOfMuttonSleeve, 2.2, 300
		},
		"must end below the elbow": func(s *Sleeve) {
			s.Style, s.Fullness, s.HemRaise = LegOfMuttonSleeve, 1.2, 300
		},
	} {
		s := lanternSleeve(t, StraightSleeve)
		spoil(&s)
		cases = append(cases, refusal{want, s, want})
	}
	refuses(t, cases)
}
