package take

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"math/rand"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the sample that is made here anew")

// traced is a yoke as a tracing program makes it of a scan: many short lines, in px, whose ends
// do not quite meet; two of them are 0.8 mm apart.
func traced() string {
	const size = 96 / 25.4 // px of one mm
	var line [][2]float64
	add := func(n int, f func(t float64) (x, y float64)) {
		for i := range n {
			x, y := f(float64(i) / float64(n))
			line = append(line, [2]float64{x, y})
		}
	}
	straight := func(x0, y0, x1, y1 float64) func(t float64) (float64, float64) {
		return func(t float64) (float64, float64) { return x0 + t*(x1-x0), y0 + t*(y1-y0) }
	}
	add(24, straight(30, 190, 400, 190))     // lower edge
	add(14, straight(400, 190, 385, 80))     // armhole
	add(20, straight(385, 80, 270, 40))      // shoulder
	add(40, func(t float64) (x, y float64) { // neck
		sin, cos := math.Sincos(math.Pi * t)
		return 215 + 55*cos, 40 + 45*sin
	})
	add(20, straight(160, 40, 45, 80))
	add(14, straight(45, 80, 30, 190))
	shake := rand.New(rand.NewSource(7))
	var b strings.Builder
	b.WriteString("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1625px\" height=\"870px\">\n" +
		"<g fill=\"none\" stroke=\"#000000\">\n")
	const each = 6 // points of a line
	for from := 0; from < len(line); from += each {
		b.WriteString("<path d=\"M")
		for i := from; i <= min(from+each, len(line)); i++ {
			p := line[i%len(line)]
			x, y := p[0]*size+shake.Float64()-0.5, p[1]*size+shake.Float64()-0.5
			if i == from && from == 6*each {
				y -= 0.8 * size
			}
			fmt.Fprintf(&b, " %.1f,%.1f", x, y)
		}
		b.WriteString("\"/>\n")
	}
	b.WriteString("</g>\n<path stroke=\"#000000\" d=\"M 700.0,400.0 700.9,400.4\"/>\n</svg>\n") // a speck
	return b.String()
}

// The traced sample is what is written here, and its two halves tell what they are for: ends are
// joined where they nearly meet, the gap is told with its place, and --join closes it.
func TestTracedScan(t *testing.T) {
	const name = "../../../../testdata/outlines/traced-yoke.svg"
	want := traced()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := os.ReadFile(name); err != nil || string(got) != want {
		t.Errorf("%s is not what is made here: -update writes it (%v)", name, err)
	}
	for join, pieces := range map[float64]int{0: 0, 1.5: 1} {
		var o Options
		o.Tolerance = join
		f, err := Read(name, bytes.NewReader([]byte(want)), o)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Pieces) != pieces || f.Stops() != (pieces == 0) {
			t.Errorf("join %g: %d pieces, faults %+v", join, len(f.Pieces), f.Faults)
		}
	}
}
