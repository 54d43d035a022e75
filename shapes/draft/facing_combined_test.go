package draft

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// The hem of a quarter of a handkerchief has two legs of a = r + Length that meet in a corner: faced
// w wide it takes w (2 a - w) of cloth.
func TestHemFacingRoundACorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Handkerchief{Waist: 700, Length: rapid.Float64Range(200, 700).Draw(t, "length"), Panels: 4,
			Allowance: shapes.Allowance{Seam: 12, Waist: 10, Hem: 20}}
		w := rapid.Float64Range(15, 90).Draw(t, "width")
		d, err := Facing{Of: h, At: AtHem, Width: w, Seam: 12}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		a := h.Radius() + h.Length
		near(t, "area", plane.Area(d.Pieces[0].Seam), w*(2*a-w), 0.5)
		free, _ := d.Pieces[0].Edge(freeEdge)
		near(t, "free edge", free.Length(), 2*(a-w), 0.01)
		soundGore(t, d.Pieces[0])
		of, err := h.Draft()
		if err != nil {
			t.Fatal(err)
		}
		facingMeets(t, of, d)
	})
}

// A facing of neck and armhole in one has their edges and the shoulder as they are, is as deep as the
// piece less what is below its free edge, and is sewn at the shoulder with the same ease.
func TestCombinedFacings(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		drawLines(t, &b)
		if !b.measuresFromBust().NoBustDart {
			b.BustDartAt = DartAtWaist
		}
		of, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		width := 0.15 * b.BackLength
		d, err := Facing{Of: b, At: AtNeckAndArmhole, Width: width}.Draft()
		if err != nil {
			t.Skip(err)
		}
		drawn++
		for i, p := range d.Pieces {
			soundGore(t, p)
			for _, name := range []string{"neck", "armhole", "shoulder"} {
				mine, _ := p.Edge(name)
				its, _ := of.Pieces[i].Edge(name)
				near(t, name, mine.Length(), its.Length(), 1e-6)
			}
			if plane.Area(p.Seam) >= plane.Area(of.Pieces[i].Seam) {
				t.Errorf("%s is larger than what it faces", p.Name)
			}
		}
		facingMeets(t, of, d)
		steps, err := shapes.SewingOrder(d.Pieces, d.Joins)
		if err != nil {
			t.Fatal(err)
		}
		sewn := map[string]bool{}
		for _, s := range steps {
			near(t, s.Join.Name, s.Difference, 0, 0.1)
			sewn[s.Join.Name] = true
		}
		if !sewn["neck-and-armhole facing, shoulder seam"] || !sewn["neck-and-armhole facing, side seam"] {
			t.Errorf("sewn are %v", sewn)
		}
	})
	if least := often.Enough(30); drawn < least {
		t.Errorf("only %d facings could be drafted, want %d", drawn, least)
	}
}

// A bust dart in the armhole is closed in the facing, which is so much shorter.
func TestArmholeFacingClosesItsDart(t *testing.T) {
	b := lanternBlock()
	b.BustDartAt = DartAtArmhole
	of, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	d, err := Facing{Of: b, At: AtArmhole, Width: 40}.Draft()
	if err != nil {
		t.Fatal(err)
	}
	hole, _ := of.Pieces[0].Edge("armhole")
	faced, _ := d.Pieces[0].Edge("armhole")
	taken := 0.0
	for _, dart := range of.Pieces[0].Darts {
		if dart.Edge == "armhole" {
			taken += dart.Mouth.Width
		}
	}
	if taken < 10 {
		t.Fatalf("a dart %.1f mm wide", taken)
	}
	near(t, "facing", faced.Length(), hole.Length()-taken, 0.01)
	if len(d.Pieces[0].Darts) > 0 {
		t.Error("it has a dart")
	}
	facingMeets(t, of, d)
}

func TestCombinedFacingRefuses(t *testing.T) {
	dart, panels, narrow := lanternBlock(), lanternBlock(), lanternBlock()
	dart.BustDartAt, panels.PanelsFrom, narrow.BustDartAt = DartAtArmhole, DartAtShoulder, DartAtWaist
	side := lanternBlock()
	for want, f := range map[string]Facing{
		"a dart opens on its armhole":          {Of: dart, Width: 50},
		"its neck and its armhole do not meet": {Of: panels, Width: 50},
		"a dart opens on its side seam":        {Of: side, Width: 60},
		"width is 0 mm":                        {Of: narrow},
		"a facing 400.0 mm wide needs":         {Of: narrow, Width: 400},
	} {
		f.At = AtNeckAndArmhole
		if _, err := f.Draft(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
