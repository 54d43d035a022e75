package job

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the reference of the job file into README.md")

const (
	readme     = "../../../../README.md"
	startOfRef = "<!-- reference: go test ./cmd/yardlay/internal/job -update -->\n"
	endOfRef   = "<!-- end of reference -->\n"
)

// README.md holds the reference of the job file as the code has it, between
// two marks.
func TestReadmeHasTheReference(t *testing.T) {
	src, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, begun := strings.Cut(string(src), startOfRef)
	was, after, ended := strings.Cut(rest, endOfRef)
	if !begun || !ended {
		t.Fatalf("README.md has no place for the reference between %q and %q", startOfRef, endOfRef)
	}
	if *update {
		if err := os.WriteFile(readme, []byte(before+startOfRef+markdown()+endOfRef+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(was, markdown()); diff != "" {
		t.Errorf("run with -update to bring README.md up to date (-README +code):\n%s", diff)
	}
}

// markdown is the reference as tables.
func markdown() string {
	var b strings.Builder
	b.WriteString("\nA *length* is a number in the job's `unit`, or text: `\"27 1/2\"`, `\"90 cm\"`, `\"2 3/8 yd\"`. " +
		"A *ratio* is a number or text: `2.5`, `\"2 1/2\"`. A *percentage* is text with its mark: `\"5 %\"`, `\"-2 1/2 %\"`.\n")
	for _, s := range Reference() {
		title := "`" + s.Title + "`"
		switch {
		case s.Draft:
			title = "draft " + title
		case s.Title == Reference()[0].Title:
			title = "the job"
		}
		fmt.Fprintf(&b, "\n**%s**: %s\n\n", title, s.About)
		if s.Draft {
			fmt.Fprintf(&b, "`%s`\n\n", s.Example)
		}
		b.WriteString("| key | takes | default | meaning |\n| --- | --- | --- | --- |\n")
		for _, k := range s.Keys {
			given := k.Default
			if given == "" {
				given = "**required**"
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", k.Name, k.Takes, given, k.Meaning)
		}
	}
	return b.String() + "\n"
}

// Every default that is named stands; every key has its meaning.
func TestReferenceIsWhole(t *testing.T) {
	for _, s := range Reference() {
		for _, k := range s.Keys {
			if k.Name == "" || k.Takes == "" || k.Meaning == "" {
				t.Errorf("%s: key %+v", s.Title, k)
			}
		}
	}
}
