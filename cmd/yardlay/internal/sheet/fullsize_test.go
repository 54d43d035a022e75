package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// At full size each cut line is as long and as large as the piece's own, lies where
// pieces may lie, and the cloth is as wide as it is.
func TestFullSizeIsFullSize(t *testing.T) {
	m := sampleMarker()
	for _, theme := range []Theme{ThemeLines, ThemeLight} {
		f := m.FullSize(0, 3, theme)
		if f.Drawing.Scale != 1 || f.Drawing.Theme != theme {
			t.Fatalf("drawn 1 : %g in theme %d", f.Drawing.Scale, f.Drawing.Theme)
		}
		if w := f.Cloth.Max[1] - f.Cloth.Min[1]; math.Abs(w-m.Width) > 1e-9 {
			t.Errorf("the cloth is %.3f mm wide, not %.3f", w, m.Width)
		}
		if l := f.Laid.Max[0] - f.Laid.Min[0]; math.Abs(l-m.Used) > 1e-9 {
			t.Errorf("laid on are %.3f mm, not %.3f", l, m.Used)
		}
		n := 0
		for _, g := range f.Drawing.Groups {
			for _, it := range g.Items {
				s, ok := it.(Shape)
				if !ok || s.Role != RolePiece {
					continue
				}
				want := m.Pieces[n].Cut
				if math.Abs(planar.Area(s.Ring))-math.Abs(planar.Area(want)) > 1e-6 ||
					math.Abs(planar.Length(s.Ring)-planar.Length(want)) > 1e-6 {
					t.Errorf("%s is not as large as it is cut", m.Pieces[n].Name)
				}
				for _, p := range s.Ring {
					at := orb.Point{p[0] - f.Laid.Min[0], f.Laid.Max[1] - p[1]}
					if !f.Laid.Contains(p) || at[0] < -1e-9 {
						t.Errorf("%s lies at %v, beyond %v", m.Pieces[n].Name, p, f.Laid)
					}
				}
				if got, want := s.Ring[0], want[0]; math.Abs(got[0]-f.Laid.Min[0]-want[0]) > 1e-9 ||
					math.Abs(f.Laid.Max[1]-got[1]-want[1]) > 1e-9 {
					t.Errorf("%s lies elsewhere on the cloth", m.Pieces[n].Name)
				}
				n++
			}
		}
		if n != len(m.Pieces) {
			t.Errorf("%d pieces drawn of %d", n, len(m.Pieces))
		}
		key := ""
		for _, p := range f.Key {
			key += p.Body + "\n"
		}
		if !strings.Contains(key, "grain line") || !strings.Contains(key, m.Cautions[0]) {
			t.Errorf("the key says\n%s", key)
		}
	}
}
