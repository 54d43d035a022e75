package pdfpage

import (
	"context"
	"strings"
	"testing"
)

// Without the program a sentence says what to do.
func TestNoProgram(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	_, _, err := SVG(context.Background(), []byte("%PDF-1.4"), 1, 1<<20)
	if err == nil || !strings.Contains(err.Error(), "save the page as SVG") {
		t.Error(err)
	}
}

// What a program prints beyond the limit is lost, and it is told to end.
func TestLimitedBuffer(t *testing.T) {
	full := 0
	b := &limitedBuffer{left: 5, full: func() { full++ }}
	for _, s := range []string{"abc", "def", "ghi"} {
		if n, err := b.Write([]byte(s)); n != 3 || err != nil {
			t.Fatal(n, err)
		}
	}
	if b.kept.String() != "abcde" || !b.over || full != 1 {
		t.Errorf("%q, %v, %d", b.kept.String(), b.over, full)
	}
}
