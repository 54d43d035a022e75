package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/outside"
)

// What is printed on a roll and shown in light is read by Poppler: as many pages as the
// command says, none longer than a page may be, the gown, its pieces and the mark on them.
func TestOutsidePrintsOnARollAreRead(t *testing.T) {
	outside.Wanted(t, "pdftotext")
	dir := t.TempDir()
	job := filepath.Join(jobs, "plaid-cape.toml")
	type paged struct {
		File  string
		Pages int
	}
	var facts map[string][]paged
	for _, args := range [][]string{{"--roll", "36in"}, {"--roll", "24in", "--markers", "--projector", "48x27in",
		"--table", "60in"}} {
		var out, said bytes.Buffer
		all := append([]string{"print", job, "--effort", "quick", "--json", "--out", dir}, args...)
		if code := run(all, strings.NewReader(""), &out, &said); code != exitDone {
			t.Fatalf("%q: %s", args, &said)
		}
		var some map[string][]paged
		if err := json.Unmarshal(out.Bytes(), &some); err != nil {
			t.Fatal(err)
		}
		if facts == nil {
			facts = some
		}
		for set, files := range some {
			facts[set] = files
		}
	}
	if len(facts) != 3 {
		t.Fatalf("%d sets of files: %v", len(facts), facts)
	}
	size := regexp.MustCompile(`(?m)^Page +\d+ size: +([0-9.]+) x ([0-9.]+) pts`)
	for _, files := range facts {
		for _, f := range files {
			pdf, err := os.ReadFile(filepath.Join(dir, f.File))
			if err != nil {
				t.Fatal(err)
			}
			info := string(outside.Run(t, "pdfinfo", "-f", "1", "-l", "1000", outside.File(t, "file.pdf", pdf)))
			pages := size.FindAllStringSubmatch(info, -1)
			if len(pages) != f.Pages {
				t.Errorf("%s: %d pages, %d are said", f.File, len(pages), f.Pages)
			}
			for _, p := range pages {
				for _, side := range p[1:] {
					if pt, err := strconv.ParseFloat(side, 64); err != nil || pt > 14400 {
						t.Errorf("%s: a page of %v points", f.File, p[1:])
					}
				}
			}
			text := strings.ToLower(strings.Join(strings.Fields(string(outside.Run(t, "pdftotext",
				outside.File(t, "file.pdf", pdf), "-"))), " "))
			for _, want := range []string{"mark ", "cape front", "cape back", "short strokes, notches", "guard the rotary",
				"allowances drawn"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s does not say %q", f.File, want)
				}
			}
			if !strings.Contains(info, "Title:           Ferry Lane check cape") {
				t.Errorf("%s has another title:\n%s", f.File, info)
			}
		}
	}
}
