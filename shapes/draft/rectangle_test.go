package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func TestRectangle(t *testing.T) {
	r := Rectangle{Name: "sash", Length: 1500, Width: 200, Count: 2,
		Allowance: shapes.Allowance{Seam: 10, Waist: 99, Hem: 25}}
	p := draftOne(t, r)
	if along, across := p.CutSize(); along != 1520 || across != 220 {
		t.Errorf("cut %g x %g, want 1520 x 220", along, across)
	}
	if along, across := p.Finished(); along != 1500 || across != 200 {
		t.Errorf("finished %g x %g, want 1500 x 200", along, across)
	}
	if p.Name != "sash" || p.Count != 2 {
		t.Errorf("got %q, %d copies", p.Name, p.Count)
	}
	r.Hemmed, r.Count = true, 0
	p = draftOne(t, r)
	if along, _ := p.CutSize(); along != 1535 || p.Count != 1 {
		t.Errorf("hemmed: cut %g long, %d copies; want 1535, 1", along, p.Count)
	}
}

func TestRectangleRefuses(t *testing.T) {
	good := Rectangle{Name: "sash", Length: 1500, Width: 200}
	with := func(change func(*Rectangle)) Rectangle { r := good; change(&r); return r }
	refuses(t, []refusal{
		{"no name", with(func(r *Rectangle) { r.Name = "" }), "no name"},
		{"no length", with(func(r *Rectangle) { r.Length = 0 }), `rectangle "sash": length is 0 mm`},
		{"width not a number", with(func(r *Rectangle) { r.Width = math.NaN() }), "width is NaN mm"},
		{"endless", with(func(r *Rectangle) { r.Length = math.Inf(1) }), "at most 60000 mm"},
		{"negative count", with(func(r *Rectangle) { r.Count = -2 }), "count is -2"},
		{"a warehouse of them", with(func(r *Rectangle) { r.Count = 1001 }), "from 1 to 1000"},
		{"negative allowance", with(func(r *Rectangle) { r.Allowance.Hem = -1 }), "hem allowance is -1 mm"},
	})
}

func TestRectangleArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Rectangle{Name: "panel", Length: rapid.Float64Range(1, 9000).Draw(t, "length"),
			Width: rapid.Float64Range(1, 3000).Draw(t, "width"), Hemmed: rapid.Bool().Draw(t, "hemmed"),
			Allowance: shapes.Allowance{Seam: rapid.Float64Range(0, 40).Draw(t, "seam"),
				Hem: rapid.Float64Range(0, 90).Draw(t, "hem")}}
		far := r.Allowance.Seam
		if r.Hemmed {
			far = r.Allowance.Hem
		}
		want := (r.Length + r.Allowance.Seam + far) * (r.Width + 2*r.Allowance.Seam)
		near(t, "area", draftOne(t, r).Area(), want, plane.Lattice*(r.Length+r.Width+250))
	})
}

// Rectangles whose widths, with the gaps between them, make up the usable width
// of the cloth exactly in sixteenths of an inch lie side by side, though neither
// is a whole number of lattice steps.
func TestRectanglesFillTheCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "side by side")
		sixteenths := rapid.IntRange(17, 1000).Draw(t, "cut width")
		gap := rapid.IntRange(0, 16).Draw(t, "gap")
		seam := rapid.IntRange(0, 8).Draw(t, "seam")
		mm := func(sixteenths int) float64 { return float64(sixteenths) * inch / 16 }
		p := draftOne(t, Rectangle{Name: "panel", Length: 500, Width: mm(sixteenths - 2*seam),
			Allowance: shapes.Allowance{Seam: mm(seam)}})
		_, across := p.CutSize()
		// In whole numbers, for a size may lie on a step: a sixteenth is 254/160 mm.
		steps := func(sixteenths int) int { return sixteenths * 254 * 1024 / 160 }
		if want := float64(steps(sixteenths)) * plane.Lattice; across != want {
			t.Errorf("cut %.6f mm across, want %.6f, rounded down", across, want)
		}
		taken := n*int(across/plane.Lattice) + (n-1)*int(plane.SnapDown(mm(gap))/plane.Lattice)
		if usable := steps(n*sixteenths + (n-1)*gap); taken > usable {
			t.Errorf("%d side by side take %d steps of %d", n, taken, usable)
		}
	})
}
