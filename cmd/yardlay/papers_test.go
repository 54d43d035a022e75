package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// papers are what there is to read, from the top of the project.
var papers = []string{
	"README.md", "DEVELOPERS.md", "cmd/yardlay/README.md", "cmd/yardlay/JOBFILE.md", "benchmarks/README.md",
	"testdata/README.md",
}

var (
	pageLink    = regexp.MustCompile(`\]\(([^)\s]+)\)`)
	pageHeading = regexp.MustCompile(`(?m)^#+ (.*)$`)
	fencedBlock = regexp.MustCompile("(?ms)^```.*?^```")
)

// Every link of a page leads to a file of the project, and to a heading that it has.
func TestPagesLinkToWhatIsThere(t *testing.T) {
	headings := make(map[string]map[string]bool)
	texts := make(map[string]string)
	for _, name := range papers {
		src, err := os.ReadFile(filepath.Join("..", "..", filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = fencedBlock.ReplaceAllString(string(src), "")
		headings[name] = make(map[string]bool)
		seen := make(map[string]int)
		for _, h := range pageHeading.FindAllStringSubmatch(texts[name], -1) {
			headings[name][anchor(h[1], seen)] = true
		}
	}
	for _, name := range papers {
		for _, l := range pageLink.FindAllStringSubmatch(texts[name], -1) {
			file, heading, _ := strings.Cut(l[1], "#")
			if strings.Contains(file, "://") {
				continue
			}
			to := name
			if file != "" {
				to = filepath.ToSlash(filepath.Join(filepath.Dir(name), file))
			}
			if _, err := os.Stat(filepath.Join("..", "..", filepath.FromSlash(to))); err != nil {
				t.Errorf("%s: there is nothing at %s", name, l[1])
			}
			if heading != "" && !headings[to][heading] {
				t.Errorf("%s: %s has no heading %q", name, to, heading)
			}
		}
	}
}

// The beginning of a job that README.md shows is that of the job it lays.
func TestReadmeShowsTheJob(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "lantern-gown.toml"))
	if err != nil {
		t.Fatal(err)
	}
	_, shown, _ := strings.Cut(string(readme), "```toml\n")
	shown, _, found := strings.Cut(shown, "```")
	if !found || !strings.Contains(string(job), shown) {
		t.Errorf("testdata/lantern-gown.toml does not hold\n%s", shown)
	}
}
