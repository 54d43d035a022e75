package ways

import (
	"bytes"
	"context"
	"image"
	"image/png"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/chalk"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// The scale at which the table is followed with a ruler, and the fineness of the picture,
// dots a millimetre of it.
const (
	tenth     = 10.0
	tenthDots = 20.0
)

// With a ruler, on paper at 1 : 10, the set-out tables give the layout: in the drawing, as
// another program shows it, a line runs where each placed outline lies, and where each point
// of the printed table and each line drawn from it lies.
func TestOutsideChalkAtATenth(t *testing.T) {
	outside.Wanted(t, "rsvg-convert")
	for name, f := range allJobs(t) {
		if name != "lantern-gown.toml" && name != "plaid-cape.toml" && name != "stage-cape.toml" {
			continue
		}
		p := &Printing{file: f, unit: f.Job().Unit}
		p.lay.Effort, p.lay.Unit = nest.Trial, p.unit
		r, err := p.chalked(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range r.Cloths {
			d, err := p.chalkOf(r, c, nil)
			if err != nil {
				t.Fatal(err)
			}
			for k, l := range d.Markers {
				if c.ID == "net" { // strips alone
					continue
				}
				s := ruled(t, l, d.Tape)
				cloth, m := c.Spread.Cloth, c.Markers[k]
				shift := orb.Point{cloth.Ends, c.Spread.WashedAcross(cloth.Selvedge)}
				if lay := job.Lay(m.Lay); lay == job.LengthwiseFold || lay == job.DoubleFold {
					shift[1] = 0
				}
				for _, pl := range m.Layout.Placed {
					ring := m.Problem.Outline(pl)
					for i := range ring {
						ring[i] = orb.Point{ring[i][0] + shift[0], ring[i][1] + shift[1]}
					}
					s.follows(t, name+", "+c.ID+", as laid", ring)
				}
				for i, told := range readChalk(t, l.Text(d.Tape), d.Tape.Unit) {
					s.follows(t, name+", "+l.Pieces[i].Title()+", as told", told.follow(t, d.Tape.Unit))
				}
				if s.looked < 40*len(l.Pieces) {
					t.Errorf("%s, %s: only %d places of %d pieces", name, c.ID, s.looked, len(l.Pieces))
				}
			}
		}
	}
}

// sketched is the drawing of a marker at 1 : 10.
type sketched struct {
	dots   *image.Gray
	origin orb.Point // where cut end and edge meet, mm of paper
	most   float64   // that a line may be off, mm of cloth
	looked int
}

// ruled draws the marker of a lay at 1 : 10.
func ruled(t *testing.T, l chalk.Marker, tape chalk.Tape) *sketched {
	t.Helper()
	const beside, over = 10 + 7.0, 7.0 // free beside the cloth and over it, on paper
	drawing := l.Overview(tape, l.Used/tenth+beside, 1e6)
	if math.Abs(drawing.Scale-tenth) > 1e-9 {
		t.Fatalf("drawn 1 : %v", drawing.Scale)
	}
	svg, err := drawing.SVG()
	if err != nil {
		t.Fatal(err)
	}
	shown := outside.Run(t, "rsvg-convert", "--dpi-x", "508", "--dpi-y", "508", "-b", "white",
		outside.File(t, "marker.svg", svg))
	m, err := png.Decode(bytes.NewReader(shown))
	if err != nil {
		t.Fatal(err)
	}
	b := m.Bounds()
	if want := drawing.Width / tenth * tenthDots; math.Abs(float64(b.Dx())-want) > 2 {
		t.Fatalf("%d dots wide, not %.0f", b.Dx(), want)
	}
	s := &sketched{image.NewGray(b), orb.Point{10, over + l.Cloth.Max[1]/tenth}, 1, 0}
	if tape.Unit == measure.Inch {
		s.most = measure.Inches / 16
	}
	for y := range b.Dy() {
		for x := range b.Dx() {
			s.dots.Set(x, y, m.At(x, y))
		}
	}
	return s
}

// follows looks for a line along a ring, mm of cloth from cut end and edge.
func (s *sketched) follows(t *testing.T, name string, ring orb.Ring) {
	t.Helper()
	const (
		step = 40.0 // from one place to the next, mm of cloth
		half = 0.15 // of the width of a line, mm of paper
		dot  = 1 / tenthDots
	)
	missed, rest := 0, 0.0
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		for rest += length; rest >= step; rest -= step {
			f := 1 - (rest-step)/length
			x := s.origin[0] + (a[0]+min(f, 1)*(b[0]-a[0]))/tenth
			y := s.origin[1] - (a[1]+min(f, 1)*(b[1]-a[1]))/tenth
			reach := s.most/tenth + half + dot
			box := image.Rect(int((x-reach)*tenthDots), int((y-reach)*tenthDots), int((x+reach)*tenthDots)+1,
				int((y+reach)*tenthDots)+1)
			if s.looked++; outside.Dark(s.dots, box).Empty() {
				missed++
			}
		}
	}
	if missed > 0 {
		t.Errorf("%s: no line in %d places", name, missed)
	}
}
