package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/diff"

	"yardlay/benchmarks/often"
)

// A block that shows a command and what it prints; one that begins with dots shows
// a part.
var shownRun = regexp.MustCompile("(?s)```\n\\$ go run \\./cmd/yardlay ([^\n]*)\n(?:\\.\\.\\.\n)?(.*?)```")

// refreshed puts what a run prints in place of what a page shows of it: as many
// paragraphs from the beginning, or where it begins with dots as many lines from the
// one that it shows first, else from the end.
func refreshed(page, block, shown, printed string) string {
	if strings.Contains(block, "\n...\n") {
		lines, count := strings.SplitAfter(printed, "\n"), strings.Count(shown, "\n")
		first, _, _ := strings.Cut(shown, "\n")
		from := slices.Index(lines, first+"\n")
		if from < 0 {
			from = max(0, len(lines)-count-1)
		}
		printed = strings.Join(lines[from:min(len(lines), from+count)], "")
	} else {
		paragraphs := strings.SplitAfter(printed, "\n\n")
		printed = strings.Join(paragraphs[:min(len(paragraphs), 1+strings.Count(shown, "\n\n"))], "")
		printed = strings.TrimRight(printed, "\n") + "\n"
	}
	return strings.Replace(page, block, strings.Replace(block, shown, printed, 1), 1)
}

// How long a cloth took differs from run to run.
var took = regexp.MustCompile(`(?m) +\d+\.\d s$`)

// What the README and the manual show is what the program prints, and the marker
// there is the one that it draws. What would make a gown cheaper takes a dozen
// searches and is left to the scripts; a run by hand leaves out what else takes seconds.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	picture := filepath.Join(root, "testdata", "pictures", "satin.svg")
	want, err := os.ReadFile(picture)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.CopyFS("testdata", os.DirFS(filepath.Join(root, "testdata"))); err != nil {
		t.Fatal(err)
	}
	for name, runs := range map[string]int{"README.md": 1, "cmd/yardlay/README.md": 4} {
		checkShownRuns(t, filepath.Join(root, filepath.FromSlash(name)), runs)
	}
	drawn, err := os.ReadFile(filepath.Join("out", "satin.svg"))
	if err != nil {
		t.Fatal(err)
	}
	if *update && !bytes.Equal(drawn, want) {
		if err := os.WriteFile(picture, drawn, 0o644); err != nil {
			t.Fatal(err)
		}
	} else if !bytes.Equal(drawn, want) {
		t.Error("testdata/pictures/satin.svg is not what is drawn; run with -update, and look at it")
	}
}

// checkShownRuns does what a page shows, at least so many runs, and holds the page to
// what is printed.
func checkShownRuns(t *testing.T, name string, atLeast int) {
	t.Helper()
	page, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	fresh := string(page)
	runs := shownRun.FindAllStringSubmatch(fresh, -1)
	if len(runs) < atLeast {
		t.Fatalf("%s shows %d runs", name, len(runs))
	}
	for _, r := range runs {
		slow := strings.HasPrefix(r[1], "compare ") || strings.HasPrefix(r[1], "shop ")
		if strings.Contains(r[1], "--what-if") || slow && often.ByHand() && !*update {
			continue
		}
		var out, problems bytes.Buffer
		if code := run(arguments(r[1]), strings.NewReader(""), &out, &problems); code != exitDone {
			t.Errorf("%s: exit code %d\n%s", r[1], code, &problems)
			continue
		}
		shown, printed := took.ReplaceAllString(r[2], ""), took.ReplaceAllString(out.String(), "")
		switch {
		case strings.Contains(printed, shown):
		case *update:
			fresh = refreshed(fresh, r[0], r[2], out.String())
		default:
			t.Errorf("%s:\n%s", r[1], diff.Diff(name, []byte(shown), "printed", []byte(printed)))
		}
	}
	if fresh != string(page) {
		if err := os.WriteFile(name, []byte(fresh), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// arguments splits a command line at spaces, but not within double quotes.
func arguments(line string) []string {
	var out []string
	for k, part := range strings.Split(line, `"`) {
		if k%2 == 1 {
			out = append(out, part)
		} else {
			out = append(out, strings.Fields(part)...)
		}
	}
	return out
}
