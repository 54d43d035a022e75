package pdfpage_test

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/pdfpage"
	"yardlay/shapes/outline"
)

// A page of a PDF that another program made of a drawing has the pieces of the drawing, within
// what that program rounds; its other pages are counted.
func TestOutsidePageOfPDF(t *testing.T) {
	outside.Wanted(t, "pdftocairo")
	outside.Wanted(t, "rsvg-convert")
	const name = "../../../../testdata/outlines/sleeve-darts.svg"
	pdf := outside.Run(t, "rsvg-convert", "-f", "pdf", name)
	if !pdfpage.Is(pdf) {
		t.Fatal("no PDF")
	}
	svg, pages, err := pdfpage.SVG(context.Background(), pdf, 1, outline.MaxDrawingBytes)
	if err != nil || pages != 1 {
		t.Fatalf("%d pages, %v", pages, err)
	}
	drawn, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var cut [2]outline.Assembly
	for i, text := range [][]byte{drawn, svg} {
		d, err := outline.ReadSVG(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if cut[i], err = outline.Assemble(d, outline.Options{}); err != nil || len(cut[i].Shapes) != 1 {
			t.Fatalf("%d shapes, %v", len(cut[i].Shapes), err)
		}
	}
	a, b := cut[0].Shapes[0].Ring().Bound(), cut[1].Shapes[0].Ring().Bound()
	for k := range 2 {
		// 0.1 %: the page of the PDF is a whole number of dots
		if want, got := a.Max[k]-a.Min[k], b.Max[k]-b.Min[k]; got < .999*want || got > 1.001*want {
			t.Errorf("%g mm became %g", want, got)
		}
	}
}

// What cannot be turned says so with a hint, and nothing runs on.
func TestOutsideBadPDF(t *testing.T) {
	outside.Wanted(t, "pdftocairo")
	whole := outside.Run(t, "rsvg-convert", "-f", "pdf", "../../../../testdata/outlines/sleeve-darts.svg")
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	for _, c := range []struct {
		ctx        context.Context
		pdf        []byte
		page, most int
		want       string
	}{
		{context.Background(), []byte("%PDF-1.4\nnothing"), 1, 1 << 20, "cannot read page 1"},
		{context.Background(), whole, 2, 1 << 20, "there is no page 2"},
		{context.Background(), whole, 1, 100, "it makes over 0 MiB"},
		{cancelled, whole, 1, 1 << 20, "canceled"},
	} {
		_, _, err := pdfpage.SVG(c.ctx, c.pdf, c.page, c.most)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v", c.want, err)
		}
	}
}
