package outline

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"
)

// The worst files that are read, or refused, take no second and no 500 MB.
func TestWorstDXFIsQuick(t *testing.T) {
	files := heaviestDXF
	if os.Getenv("YARDLAY_LONG") == "" {
		files = files[:2]
	}
	for _, heavy := range files {
		name, want, text := heavy.name, heavy.want, heavy.text()
		if len(text) > MaxDrawingBytes {
			t.Errorf("%s: %d bytes", name, len(text))
		}
		var err error
		t.Log(name)
		staysWithin(t, time.Second, 500<<20, func() { _, err = ReadDXF(strings.NewReader(text)) })
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
	}
}

// markerDXF is a file of pieces with so many vertices each, as R12 or later has them.
func markerDXF(pieces, vertices int, old bool) string {
	var b strings.Builder
	b.WriteString(inMM + groups("0 SECTION | 2 BLOCKS"))
	for i := range pieces {
		fmt.Fprintf(&b, "  0\nBLOCK\n  8\n0\n  2\nPIECE-%d\n 70\n0\n 10\n0.0\n 20\n0.0\n", i)
		if old {
			b.WriteString("  0\nPOLYLINE\n  8\n1\n 66\n1\n 70\n1\n")
		} else {
			fmt.Fprintf(&b, "  0\nLWPOLYLINE\n  8\n1\n 90\n%d\n 70\n1\n", vertices)
		}
		for k := range vertices {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(vertices))
			if old {
				b.WriteString("  0\nVERTEX\n  8\n1\n")
			}
			fmt.Fprintf(&b, " 10\n%.6f\n 20\n%.6f\n", 500+300*cos, 500+200*sin)
			if old {
				b.WriteString(" 30\n0.0\n")
			}
		}
		if old {
			b.WriteString("  0\nSEQEND\n")
		}
		b.WriteString("  0\nENDBLK\n")
	}
	b.WriteString(groups("0 ENDSEC | 0 SECTION | 2 ENTITIES"))
	for i := range pieces {
		fmt.Fprintf(&b, "  0\nINSERT\n  2\nPIECE-%d\n 10\n%d.0\n 20\n0.0\n 50\n90\n", i, i*100)
	}
	return b.String() + groups("0 ENDSEC | 0 EOF")
}

// Sixty pieces of 2,000 vertices are read within 0.3 s of processor time, in either form.
func TestManyVerticesOfDXFAreQuick(t *testing.T) {
	for _, old := range []bool{true, false} {
		text := markerDXF(60, 2000, old)
		var d Drawing
		staysWithin(t, 300*time.Millisecond, 500<<20, func() { d = readAsDXF(t, text) })
		if len(d.Lines) != 60 || len(d.Lines[59].Points) != 2001 {
			t.Fatalf("%d lines", len(d.Lines))
		}
	}
}

func BenchmarkReadDXF(b *testing.B) {
	for _, old := range []bool{true, false} {
		text := markerDXF(60, 2000, old)
		b.Run(map[bool]string{true: "R12", false: "later"}[old], func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				if _, err := ReadDXF(strings.NewReader(text)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
