package outside_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/shapes/outline"
)

// sampleProgram samples every shape of SVG files by Debian's python3-svgelements: for
// each subpath its id, whether it is closed, and its points in px. Points are mapped, not curves:
// of arcs it takes the half diameters for square after any map.
const sampleProgram = `
import json, sys
from svgelements import SVG, Shape, Path, Move, Line, Close
for name in sys.argv[1:]:
    lines = []
    for e in SVG.parse(name, reify=False).elements():
        if not isinstance(e, Shape):
            continue
        own, closed = [], False
        for s in Path(e):
            if isinstance(s, Move) or closed:
                points, closed = [] if isinstance(s, Move) else [s.start], False
                own.append({"ID": e.id or "", "Closed": closed, "Points": points})
            if isinstance(s, Close):
                closed = own[-1]["Closed"] = True
            if isinstance(s, (Move, Line, Close)):
                if s.end is not None:
                    points.append(s.end)
            else:
                points += [s.point(i / 400) for i in range(1, 401)]
        for l in own:
            l["Points"] = [[q.x, q.y] for q in map(e.transform.point_in_matrix_space, l["Points"])]
        lines += own
    print(json.dumps(lines))
`

// sampled is a line as another reader has it, in px, y down.
type sampled struct {
	ID     string
	Closed bool
	Points orb.LineString
}

func sample(t *testing.T, files ...string) [][]sampled {
	t.Helper()
	args := []string{"-c", sampleProgram}
	for _, text := range files {
		args = append(args, outside.File(t, "drawing.svg", []byte(text)))
	}
	decoder := json.NewDecoder(bytes.NewReader(outside.Run(t, "/usr/bin/python3", args...)))
	all := make([][]sampled, len(files))
	for i := range all {
		if err := decoder.Decode(&all[i]); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// inMM turns px to mm and y up, and drops points that repeat the one before.
func (s sampled) inMM() orb.LineString {
	var line orb.LineString
	for _, p := range s.Points {
		q := orb.Point{p[0] * 25.4 / 96, -p[1] * 25.4 / 96}
		if len(line) == 0 || planar.Distance(q, line[len(line)-1]) > 1e-9 {
			line = append(line, q)
		}
	}
	return line
}

// strays is the farthest that a point of one line lies from another.
func strays(from, to orb.LineString) float64 {
	worst := 0.
	for _, p := range from {
		worst = max(worst, planar.DistanceFrom(to, p))
	}
	return worst
}

// coarse is the farthest that samples of a curve lie from it: an eighth of the second
// difference of those that lie around a place, as of any parabola.
func coarse(line orb.LineString) float64 {
	worst := 0.
	for i := 2; i < len(line); i++ {
		a, b, c := line[i-2], line[i-1], line[i]
		if d, e := planar.Distance(a, b), planar.Distance(b, c); max(d, e) < 1.5*min(d, e) && d < 3 {
			worst = max(worst, math.Hypot(a[0]-2*b[0]+c[0], a[1]-2*b[1]+c[1])/8)
		}
	}
	return worst
}

// random writes files of shapes of every kind in groups with transforms.
type random struct {
	*rand.Rand
	strings.Builder
	shapes int
	plain  []int // shapes without a transform of their own
}

func (r *random) n(most float64) string { return fmt.Sprintf("%.2f", (r.Float64()*2-1)*most) }
func (r *random) size() string          { return fmt.Sprintf("%.2f", 1+r.Float64()*60) }

func (r *random) transform() string {
	if r.IntN(2) == 0 {
		return ""
	}
	var all []string
	for range 1 + r.IntN(2) {
		switch r.IntN(6) {
		case 0:
			all = append(all, fmt.Sprintf("translate(%s,%s)", r.n(40), r.n(40)))
		case 1:
			all = append(all, fmt.Sprintf("rotate(%s)", r.n(180)))
		case 2:
			all = append(all, fmt.Sprintf("rotate(%s %s %s)", r.n(180), r.n(30), r.n(30)))
		case 3:
			all = append(all, fmt.Sprintf("scale(%.2f %.2f)", .5+r.Float64(), -.5-r.Float64()))
		case 4:
			all = append(all, fmt.Sprintf("skewX(%s)", r.n(30)))
		case 5:
			all = append(all, fmt.Sprintf("matrix(%.2f %s %s %.2f %s %s)", .6+r.Float64(), r.n(.3), r.n(.3), .6+r.Float64(),
				r.n(20), r.n(20)))
		}
	}
	return fmt.Sprintf(` transform="%s"`, strings.Join(all, " "))
}

// path writes path data with every command, numbers run together as they may be.
func (r *random) path() string {
	var b strings.Builder
	for range 1 + r.IntN(2) {
		fmt.Fprintf(&b, "%c%s,%s", "Mm"[r.IntN(2)], r.n(50), r.n(50))
		before := byte('m')
		for range 2 + r.IntN(6) {
			c := "LlHhVvCcSsQqTtAa"[r.IntN(16)]
			if k := c | 0x20; k == 't' && (before == 'c' || before == 's') || k == 's' && (before == 'q' || before == 't') {
				c = 'l' // svgelements goes on from a curve of the other kind, which the recommendation does not
			}
			before = c | 0x20
			b.WriteByte(c)
			if c|0x20 == 'a' {
				fmt.Fprintf(&b, "%s %s %s %d%d%s %s", r.size(), r.size(), r.n(180), r.IntN(2), r.IntN(2), r.n(50), r.n(50))
				continue
			}
			for range map[byte]int{'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2}[c|0x20] {
				if v := r.n(50); v[0] == '-' {
					b.WriteString(v)
				} else {
					b.WriteString(" " + v)
				}
			}
		}
		if r.IntN(2) == 0 {
			b.WriteByte("Zz"[r.IntN(2)])
		}
	}
	return b.String()
}

func (r *random) shape() {
	r.shapes++
	transform, kind := r.transform(), r.IntN(12)
	if transform == "" && kind != 6 {
		defer func() { r.plain = append(r.plain, r.shapes) }()
	}
	head := fmt.Sprintf(`id="s%d"%s`, r.shapes, transform)
	switch kind {
	case 0:
		fmt.Fprintf(r, `<rect %s x="%s" y="%s" width="%s" height="%s"/>`, head, r.n(50), r.n(50), r.size(), r.size())
	case 1:
		fmt.Fprintf(r, `<rect %s x="%s" y="%s" width="70" height="50" rx="%s" ry="%s"/>`, head, r.n(50), r.n(50), r.size(),
			r.size())
	case 2:
		fmt.Fprintf(r, `<circle %s cx="%s" cy="%s" r="%s"/>`, head, r.n(50), r.n(50), r.size())
	case 3:
		fmt.Fprintf(r, `<ellipse %s cx="%s" cy="%s" rx="%s" ry="%s"/>`, head, r.n(50), r.n(50), r.size(), r.size())
	case 4:
		fmt.Fprintf(r, `<line %s x1="%s" y1="%s" x2="%s" y2="%s"/>`, head, r.n(50), r.n(50), r.n(50), r.n(50))
	case 5:
		fmt.Fprintf(r, `<poly%s %s points="%s,%s %s,%s %s,%s"/>`, []string{"gon", "line"}[r.IntN(2)], head,
			r.n(50), r.n(50), r.n(50), r.n(50), r.n(50), r.n(50))
	case 6:
		// svgelements does some transforms twice where a use or what it draws has one of its own
		if n := len(r.plain); n > 0 {
			fmt.Fprintf(r, `<use xlink:href="#s%d" x="%s" y="%s"/>`, r.plain[r.IntN(n)], r.n(30), r.n(30))
		}
		r.shapes--
	default:
		fmt.Fprintf(r, `<path %s d="%s"/>`, head, r.path())
	}
	r.WriteByte('\n')
}

func (r *random) file() string {
	sizes := []string{`width="200mm" height="100mm" viewBox="0 0 100 50"`, `width="6in" height="30cm"`,
		`width="20cm" height="90mm" viewBox="-30 -20 70 90"`, `width="700px" height="400px" viewBox="5 5 900 300"`,
		`width="90mm" height="40pc" viewBox="0 0 90 50" preserveAspectRatio="xMinYMax slice"`,
		`width="90mm" height="400pt" viewBox="0 0 90 50" preserveAspectRatio="none"`}
	fmt.Fprintf(r, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" %s>`+"\n",
		sizes[r.IntN(len(sizes))])
	for range 4 {
		fmt.Fprintf(r, "<g%s>", r.transform())
		r.shape()
		fmt.Fprintf(r, "<g%s>", r.transform())
		r.shape()
		r.shape()
		r.WriteString("</g></g>\n")
	}
	r.WriteString("</svg>\n")
	return r.String()
}

// python3-svgelements has the same lines in any file, within the chord error, and they enclose
// the same to what is a hundredth of a mm around them.
func TestOutsideSVGOfEveryKind(t *testing.T) {
	outside.Wanted(t, "python3-svgelements")
	var files []string
	for seed := range 24 {
		files = append(files, (&random{Rand: rand.New(rand.NewPCG(uint64(seed), 17))}).file())
	}
	lines, curves := 0, 0
	for i, want := range sample(t, files...) {
		d, err := outline.ReadSVG(strings.NewReader(files[i]))
		if err != nil {
			t.Fatalf("%v\n%s", err, files[i])
		}
		next := 0
		for _, w := range want {
			line := w.inMM()
			if len(line) < 2 {
				continue
			}
			if next == len(d.Lines) {
				t.Fatalf("file %d: %s is missing\n%s", i, w.ID, files[i])
			}
			got := d.Lines[next]
			next++
			lines++
			if len(line) > 50 {
				curves++
			}
			if got.ID != w.ID || w.Closed && !got.Closed {
				t.Errorf("file %d: %q, closed %v, where %q, closed %v, is\n%s", i, got.ID, got.Closed, w.ID, w.Closed, files[i])
			}
			slack := coarse(line) + 1e-4
			if a, b := strays(line, got.Points), strays(got.Points, line); max(a, b) > outline.ChordError+slack {
				t.Fatalf("file %d, %s, %s: %g and %g off, allowed %g more\n%s", i, w.ID, got.Place, a, b, slack, files[i])
			}
			a, b := planar.Area(orb.Ring(line)), planar.Area(orb.Ring(got.Points))
			if got.Closed && math.Abs(a-b) > 1e-4*math.Abs(a)+.005*planar.Length(got.Points) {
				t.Errorf("file %d, %s: area %g, want %g", i, w.ID, b, a)
			}
		}
		if next != len(d.Lines) {
			t.Errorf("file %d: %d lines, the other reader has %d", i, len(d.Lines), next)
		}
	}
	if lines < 300 || curves < 200 {
		t.Errorf("%d lines, of them %d curves", lines, curves)
	}
}

// piece is an outline as pieces have: smooth between some corners, 30 to 80 cm large.
func (r *random) piece() string {
	n := 5 + r.IntN(8)
	at := make([]orb.Point, n)
	for i := range at {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + .3*r.Float64()) / float64(n))
		size := 150 + 250*r.Float64()
		at[i] = orb.Point{400 + size*cos, 400 + size*sin}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "M%.3f %.3f", at[0][0], at[0][1])
	for i, p := range at {
		q, before, after := at[(i+1)%n], at[(i+n-1)%n], at[(i+2)%n]
		if r.IntN(4) == 0 {
			fmt.Fprintf(&b, "L%.3f %.3f", q[0], q[1])
			continue
		}
		fmt.Fprintf(&b, "C%.3f %.3f %.3f %.3f %.3f %.3f", p[0]+(q[0]-before[0])/6, p[1]+(q[1]-before[1])/6,
			q[0]-(after[0]-p[0])/6, q[1]-(after[1]-p[1])/6, q[0], q[1])
	}
	return b.String() + "Z"
}

// The areas of pieces agree within 1e-4, and their outlines within the chord error.
func TestOutsideSVGOfPieces(t *testing.T) {
	outside.Wanted(t, "python3-svgelements")
	r := &random{Rand: rand.New(rand.NewPCG(3, 17))}
	r.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="800mm" viewBox="0 0 800 800">`)
	for range 60 {
		fmt.Fprintf(r, `<path d="%s"/>`+"\n", r.piece())
	}
	r.WriteString("</svg>")
	d, err := outline.ReadSVG(strings.NewReader(r.String()))
	if err != nil {
		t.Fatal(err)
	}
	worst, points := 0., 0
	for i, w := range sample(t, r.String())[0] {
		line, got := w.inMM(), d.Lines[i].Points
		a, b := planar.Area(orb.Ring(line)), planar.Area(orb.Ring(got))
		worst = max(worst, math.Abs(b/a-1))
		points += len(got)
		if slack := coarse(line) + 1e-4; max(strays(line, got), strays(got, line)) > outline.ChordError+slack {
			t.Errorf("piece %d strays", i)
		}
	}
	t.Logf("areas within %.2g, %d points a piece", worst, points/60)
	if worst > 1e-4 {
		t.Errorf("an area is %.2g off", worst)
	}
}
