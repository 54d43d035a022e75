package main

import (
	"bufio"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// widestLine is how many letters a line of code has at the most, a tab being one.
const widestLine = 120

// Lines of code are no longer than can be read beside each other. Tests may set tables and texts as wide as they are.
func TestLinesOfCodeAreShort(t *testing.T) {
	files := 0
	for _, dir := range []string{"cmd", "nest", "shapes", "cost", "benchmarks"} {
		err := filepath.WalkDir(filepath.Join("..", "..", dir), func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			files++
			return shortLines(t, path)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 500 {
		t.Errorf("%d files", files)
	}
}

func shortLines(t *testing.T, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for n := 1; lines.Scan(); n++ {
		if wide := utf8.RuneCount(lines.Bytes()); wide > widestLine {
			t.Errorf("%s:%d: %d letters", path, n, wide)
		}
	}
	return lines.Err()
}
