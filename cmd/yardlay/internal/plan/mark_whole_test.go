package plan_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/plane"
)

// skirtUnder is a skirt in cm, pieced as said, from cloth so wide, under or with what follows.
func skirtUnder(width int, pieced, rest string) string {
	return fmt.Sprintf(`unit = "cm"
[body]
waist_girth = 70
hip_girth = 96
waist_to_hips = 20
[allowance]
seam = 1.5
hem = 1
[[cloth]]
id = "satin"
width = %d
price = "10.00/m"
[[cloth]]
id = "tulle"
width = 150
net = true
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "satin"
gores = 4
waist_ease = 2
hip_ease = 4
hem_sweep = 320
length = 80
%s
%s`, width, pieced, rest)
}

const netOver = `[[part]]
name = "net"
draft = "net-layers"
cloth = "tulle"
sewn_to = "skirt"
skirt_length = 80
waist_ease = 2
first_seam = 60
gap = 15
layers = 4
fullness = 2.5
join = 1
`

// godetIn is a godet so long in the side seams.
func godetIn(length int) string {
	return fmt.Sprintf("[[part]]\nname = \"godet\"\ndraft = \"godet\"\ncloth = \"satin\"\nhem = 25\nlength = "+
		"%d\ncount = 2\n"+
		"into = \"skirt\"\nseams = [\"back gore to front gore\"]\n", length)
}

// netOf lists the pieces of net, and how long all lines of each layer are on the gores, mm.
func netOf(t *testing.T, src string) (net []string, lines map[string]float64) {
	t.Helper()
	spreads, err := plan.Draw(testjobs.Read(t, src))
	if err != nil {
		t.Fatal(err)
	}
	lines = map[string]float64{}
	for _, s := range spreads {
		for _, c := range s.Cuts {
			if s.Cloth.Net {
				net = append(net, fmt.Sprintf("%s %d %v", c.Piece.Name, c.Piece.Count, c.Finished))
				continue
			}
			for _, name := range c.Piece.Names {
				line := c.Piece.Inside[name.Line]
				lines[name.Name] += plane.Length(line) * float64(c.Piece.Count)
				onEdges(t, c.Piece, name.Name, line[0], line[len(line)-1])
			}
		}
	}
	return net, lines
}

// onEdges holds points to lie on the seams of a piece.
func onEdges(t *testing.T, p shapes.Piece, name string, points ...orb.Point) {
	t.Helper()
	for _, v := range points {
		off := math.Inf(1)
		for i := 1; i < len(p.Seam); i++ {
			off = min(off, planar.DistanceFromSegment(p.Seam[i-1], p.Seam[i], v))
		}
		if off > 2*draft.DefaultChord {
			t.Errorf("%s: %s ends at %v, %v mm off all edges", p.Name, name, v, off)
		}
	}
}

// However a skirt is pieced, the net over it is the same, and the lines that it is sewn along are as long on all parts
// together as on whole gores; on each they run from seam to seam.
func TestNetOverPiecedSkirts(t *testing.T) {
	net, lines := netOf(t, skirtUnder(150, "", netOver))
	if len(net) < 4 || len(lines) != 4 {
		t.Fatalf("%q, %v", net, lines)
	}
	for _, keys := range []string{
		"within = 60, from_waist = 20", "within = 70, from_waist = 20, most = 1, centre_front = true",
		"length = 55, centre_front = true", "within = 65, length = 40, from_waist = 20, centre_front = true",
	} {
		again, cut := netOf(t, skirtUnder(150, "pieced = { "+keys+" }", netOver))
		if d := cmp.Diff(net, again); d != "" {
			t.Errorf("%s: %s", keys, d)
		}
		for name, long := range lines {
			if math.Abs(cut[name]-long) > 0.5 || len(cut) != len(lines) {
				t.Errorf("%s: %s is %v mm long in all, on whole gores %v", keys, name, cut[name], long)
			}
		}
	}
}

// A piecing seam that meets the slit of a godet is refused at the godet with what would mend it. Where the place is
// left open one is chosen that leaves the slit whole, and says why.
func TestGodetsKeepPiecingSeamsOff(t *testing.T) {
	_, err := plan.Draw(testjobs.Read(t, skirtUnder(75, "pieced = { within = 65, from_waist = 20 }", godetIn(15))))
	if err == nil || !strings.Contains(err.Error(), "part `godet`: a piecing seam meets the front seam of "+
		"the back gore") ||
		!strings.Contains(err.Error(), "hint: a shorter godet") {
		t.Fatalf("refused: %v", err)
	}
	j := plan.Placed(context.Background(), testjobs.Read(t, skirtUnder(75, "pieced = { from_waist = 20 }", godetIn(15))),
		plan.Options{})
	at := j.Parts[0].Place
	if at.Within == 0 || at.Refused == nil || !strings.Contains(at.Refused.Error(), "a piecing seam meets") {
		t.Errorf("chosen: %+v", at)
	}
	if _, err := plan.Tasks(j, 1); err != nil {
		t.Errorf("at the place chosen: %v", err)
	}
	j = plan.Placed(context.Background(), testjobs.Read(t, skirtUnder(75, "pieced = { from_waist = 20 }", godetIn(60))),
		plan.Options{})
	if _, err := plan.Tasks(j, 1); err == nil || j.Parts[0].Place.Within > 0 {
		t.Errorf("a godet that no place leaves whole: %v, %+v", err, j.Parts[0].Place)
	}
}
