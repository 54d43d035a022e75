package main

import (
	"bytes"
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// widestLine is how many letters a line of code has at the most, a tab being one.
const widestLine = 120

// Lines of code are no longer than can be read beside each other, those of tests as well. Texts that run over several
// lines are set as whoever reads them wants it.
func TestLinesOfCodeAreShort(t *testing.T) {
	files := 0
	for _, dir := range []string{"cmd", "nest", "shapes", "cost", "benchmarks"} {
		err := filepath.WalkDir(filepath.Join("..", "..", dir), func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") {
				return err
			}
			files++
			return shortLines(t, path)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 1000 {
		t.Errorf("%d files", files)
	}
}

func shortLines(t *testing.T, path string) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	var inText map[int]bool // looked for where a line is wide
	n := 0
	for line := range bytes.Lines(text) {
		n++
		wide := utf8.RuneCount(bytes.TrimSuffix(line, []byte("\n")))
		if wide <= widestLine {
			continue
		}
		if inText == nil {
			inText = textLines(text)
		}
		if !inText[n] {
			t.Errorf("%s:%d: %d letters", path, n, wide)
		}
	}
	return nil
}

// textLines are the lines of a file, counted from 1, that hold part of a text which runs over several lines.
func textLines(source []byte) map[int]bool {
	file := token.NewFileSet().AddFile("", -1, len(source))
	var s scanner.Scanner
	s.Init(file, source, nil, 0)
	held := map[int]bool{}
	for {
		at, kind, text := s.Scan()
		if kind == token.EOF {
			return held
		}
		if more := strings.Count(text, "\n"); kind == token.STRING && more > 0 {
			for k := range more + 1 {
				held[file.Line(at)+k] = true
			}
		}
	}
}

// A wide line is code, a comment, or a text of one line; lines of a text that goes on are not looked at.
func TestTextsMayBeWide(t *testing.T) {
	wide := strings.Repeat("x", widestLine)
	text := "package a\nvar b = `" + wide + "\n" + wide + "x\n" + wide + "`\nvar c = `" + wide + "`\n// " + wide + "\n"
	want := map[int]bool{2: true, 3: true, 4: true}
	if got := textLines([]byte(text)); len(got) != len(want) || !got[2] || !got[3] || !got[4] {
		t.Errorf("lines of texts %v, not %v", got, want)
	}
}
