package paper

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/sheet"
)

// anySheets draws sheets that overlap or are butted.
func anySheets(t *rapid.T) Sheets {
	s := Sheets{Width: rapid.Float64Range(130, 500).Draw(t, "width"),
		Height: rapid.Float64Range(130, 500).Draw(t, "height"),
		Margin: rapid.Float64Range(0, 12).Draw(t, "margin")}
	if rapid.Bool().Draw(t, "overlapping") {
		s.Overlap = rapid.Float64Range(leastOverlap, mostOverlap).Draw(t, "overlap")
	}
	return s
}

// anyRing draws a star-shaped ring about a point.
func anyRing(t *rapid.T, about orb.Point, most float64) orb.Ring {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	var ring orb.Ring
	for i := range n {
		r := rapid.Float64Range(5, most).Draw(t, "radius")
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring = append(ring, orb.Point{about[0] + r*cos, about[1] + r*sin})
	}
	return append(ring, ring[0])
}

// Every point of every ring and of its inside lies on a sheet that is printed, and every
// sheet that is printed has something on it: as seen point by point.
func TestPrintedSheetsHoldEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySheets(t)
		if s.Check() != nil {
			t.Skip("no sheet")
		}
		sx, sy := s.step()
		g := grid{s, rapid.IntRange(1, 5).Draw(t, "columns"), rapid.IntRange(1, 5).Draw(t, "rows")}
		all := orb.Bound{Min: orb.Point{-s.Overlap / 2, -s.Overlap / 2},
			Max: orb.Point{float64(g.cols)*sx + s.Overlap/2, float64(g.rows)*sy + s.Overlap/2}}
		var rings []orb.Ring
		for range rapid.IntRange(1, 4).Draw(t, "rings") {
			ring := anyRing(t, orb.Point{rapid.Float64Range(all.Min[0], all.Max[0]).Draw(t, "x"),
				rapid.Float64Range(all.Min[1], all.Max[1]).Draw(t, "y")}, 400)
			for i, p := range ring {
				ring[i] = orb.Point{max(all.Min[0], min(p[0], all.Max[0])), max(all.Min[1], min(p[1], all.Max[1]))}
			}
			rings = append(rings, ring)
		}
		printed := g.printed(rings)
		on := func(p orb.Point) bool {
			for r, row := range printed {
				for c, is := range row {
					if is && g.window(r, c).Pad(1e-9).Contains(p) {
						return true
					}
				}
			}
			return false
		}
		for _, ring := range rings {
			for i := 1; i < len(ring); i++ {
				for k := range 40 {
					f := float64(k) / 40
					p := orb.Point{ring[i-1][0] + f*(ring[i][0]-ring[i-1][0]),
						ring[i-1][1] + f*(ring[i][1]-ring[i-1][1])}
					if !on(p) {
						t.Fatalf("%v of a line is on no sheet", p)
					}
				}
			}
			for x := all.Min[0]; x < all.Max[0]; x += 23 {
				for y := all.Min[1]; y < all.Max[1]; y += 23 {
					if p := (orb.Point{x, y}); planar.RingContains(ring, p) && !on(p) {
						t.Fatalf("%v inside is on no sheet", p)
					}
				}
			}
		}
		for r, row := range printed {
			for c, is := range row {
				if is && !touches(rings, g.window(r, c)) {
					t.Fatalf("nothing is on sheet %s", sheetName(r, c))
				}
			}
		}
	})
}

// touches looks at a window point by point.
func touches(rings []orb.Ring, w orb.Bound) bool {
	for _, ring := range rings {
		if planar.RingContains(ring, w.Center()) {
			return true
		}
		for i := 1; i < len(ring); i++ {
			for k := range 4001 {
				f := float64(k) / 4000
				if w.Pad(inkRoom + 0.2).Contains(orb.Point{ring[i-1][0] + f*(ring[i][0]-ring[i-1][0]),
					ring[i-1][1] + f*(ring[i][1]-ring[i-1][1])}) {
					return true
				}
			}
		}
	}
	return false
}

// A sheet is left out where neighbours show all of it, and where it shows nothing.
func TestSparedSheets(t *testing.T) {
	s := Sheets{Width: 120, Height: 120, Margin: 5, Overlap: 10} // cells of 100, windows of 110
	for name, c := range map[string]struct {
		ring orb.Ring
		want int
	}{
		"in the overlap":    {sheet.Box(20, 20, 104, 60), 1},
		"beyond it":         {sheet.Box(20, 20, 106, 60), 2},
		"in both overlaps":  {sheet.Box(-4, -4, 104, 104), 1},
		"an inside":         {sheet.Box(1, 1, 299, 299), 9},
		"the far corner":    {sheet.Box(220, 220, 280, 280), 1},
		"across a corner":   {sheet.Box(50, 50, 150, 150), 4},
		"where four share":  {sheet.Box(96, 96, 104, 104), 1},
		"the whole overlap": {sheet.Box(96, 20, 104, 280), 3},
	} {
		if got := count((grid{s, 3, 3}).printed([]orb.Ring{c.ring})); got != c.want {
			t.Errorf("%s: %d sheets, not %d", name, got, c.want)
		}
	}
}

func TestSheetNames(t *testing.T) {
	for row, want := range map[int]string{0: "A4", 25: "Z4", 26: "AA4", 51: "AZ4", 52: "BA4", 701: "ZZ4", 702: "AAA4"} {
		if got := sheetName(row, 3); got != want {
			t.Errorf("row %d is called %s, not %s", row, got, want)
		}
	}
}

func TestSheetsRefused(t *testing.T) {
	good := Sheets{Width: 210, Height: 297, Margin: 10, Overlap: 10}
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*Sheets){
		"narrow":  func(s *Sheets) { s.Width = 121 },
		"low":     func(s *Sheets) { s.Height = 121 },
		"huge":    func(s *Sheets) { s.Width = 6000 },
		"none":    func(s *Sheets) { s.Height = math.NaN() },
		"margin":  func(s *Sheets) { s.Margin = 61 },
		"minus":   func(s *Sheets) { s.Margin = -1 },
		"sliver":  func(s *Sheets) { s.Overlap = 1 },
		"wide":    func(s *Sheets) { s.Overlap = 50 },
		"nothing": func(s *Sheets) { s.Margin, s.Overlap = math.NaN(), 0 },
	} {
		s := good
		if spoil(&s); s.Check() == nil {
			t.Errorf("%s: taken", name)
		}
	}
}
