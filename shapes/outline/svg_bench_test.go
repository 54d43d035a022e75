package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
)

// sixtyPieces is a file of 60 pieces of 2,000 vertices each, with what programs write
// around them.
func sixtyPieces() string {
	var b strings.Builder
	for k := range 60 {
		fmt.Fprintf(&b, "<g id=\"piece%d\" transform=\"translate(%d %d) rotate(%d)\">\n", k, 9*(k%10), 9*(k/10), 7*k)
		fmt.Fprintf(&b, `<path style="fill:none;stroke:#000000;stroke-width:0.25;stroke-linecap:butt" d="`)
		x, y := 0., 0.
		for i := range 2000 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 1000)
			nx, ny := 4*cos+.3*math.Cos(11*float64(i)), 4*sin
			fmt.Fprintf(&b, "%c%.6f,%.6f ", "ml"[min(i, 1)], nx-x, ny-y)
			x, y = nx, ny
		}
		b.WriteString("z\"/>\n<text x=\"1\" y=\"1\">piece</text>\n</g>\n")
	}
	return page(b.String())
}

// 60 pieces of 2,000 vertices are read within 0.3 s of processor time; here 0.05 s.
func TestSixtyPiecesAreReadAtOnce(t *testing.T) {
	text := sixtyPieces()
	t.Logf("%d KB", len(text)>>10)
	var d Drawing
	staysWithin(t, 300*time.Millisecond, 500<<20, func() { d = svgDrawing(t, text) })
	if len(d.Lines) != 60 || len(d.Lines[59].Points) != 2001 {
		t.Fatalf("%d lines", len(d.Lines))
	}
}

func BenchmarkReadSVG(b *testing.B) {
	text := sixtyPieces()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ReadSVG(strings.NewReader(text)); err != nil {
			b.Fatal(err)
		}
	}
}
