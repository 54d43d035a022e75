// Package outside lets tests read files with programs that are no part of the project:
// Debian's poppler-utils, librsvg2-bin, python3-ezdxf and python3-svgelements.
package outside

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// Wanted leaves the test out unless YARDLAY_OUTSIDE is set. A test begins with it whose
// work is for a program from outside alone.
func Wanted(t testing.TB, name string) {
	t.Helper()
	if os.Getenv("YARDLAY_OUTSIDE") == "" {
		t.Skipf("YARDLAY_OUTSIDE=1 runs this test; it needs %s", name)
	}
}

// Run runs a program and returns what it printed. The test is left out unless
// YARDLAY_OUTSIDE is set; where it is, a program that is missing fails the test.
func Run(t testing.TB, name string, args ...string) []byte {
	t.Helper()
	Wanted(t, name)
	var out, said bytes.Buffer
	c := exec.Command(name, args...)
	c.Stdout, c.Stderr = &out, &said
	if err := c.Run(); err != nil {
		t.Fatalf("%s %q: %v\n%s", name, args, err, &said)
	}
	return out.Bytes()
}

// File writes a file for a program to read, and returns its path.
func File(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// Texts returns the texts of a PDF, each page ended by a form feed.
func Texts(t testing.TB, pdf []byte) string {
	t.Helper()
	return string(Run(t, "pdftotext", "-layout", File(t, "file.pdf", pdf), "-"))
}

// Raster draws a page of a PDF, the first being 1, in grey at some dots an inch.
func Raster(t testing.TB, pdf []byte, page, dpi int) *image.Gray {
	t.Helper()
	at := strconv.Itoa(page)
	src := Run(t, "pdftoppm", "-gray", "-r", strconv.Itoa(dpi), "-f", at, "-l", at, File(t, "file.pdf", pdf))
	var w, h, most int
	if n, err := fmt.Sscanf(string(src[:min(len(src), 40)]), "P5\n%d %d\n%d\n", &w, &h, &most); n != 3 || most != 255 ||
		len(src) < w*h {
		t.Fatalf("pdftoppm gave no grey picture: %v", err)
	}
	return &image.Gray{Pix: src[len(src)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// Dark is the box around what is darker than middle grey within some part of a picture.
func Dark(m *image.Gray, within image.Rectangle) image.Rectangle {
	var box image.Rectangle
	within = within.Intersect(m.Rect)
	for y := within.Min.Y; y < within.Max.Y; y++ {
		for x := within.Min.X; x < within.Max.X; x++ {
			if m.GrayAt(x, y).Y < 128 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}
