package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/diff"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// JOBFILE.md is the reference of the job file as the code has it, and each draft has
// the picture there that the program draws of its example.
func TestJobFileReference(t *testing.T) {
	held(t, "JOBFILE.md", []byte(jobFilePage()))
	for _, s := range job.Reference() {
		if s.Draft {
			t.Run(s.Title, func(t *testing.T) { held(t, draftPicture(s.Title), drawnExample(t, s)) })
		}
	}
}

// WORKROOM.md is the reference of the book of a workroom as the code has it.
func TestJobFileOfWorkroom(t *testing.T) {
	var body strings.Builder
	body.WriteString(workroomFileHead)
	for _, s := range job.WorkroomReference() {
		title, example := pageTitle(s)
		level := "##"
		if example != "" {
			level = "###"
		}
		fmt.Fprintf(&body, "\n%s %s\n\n%s.\n", level, title, upperFirst(strings.TrimSuffix(s.Describe(), ".")))
		if example != "" {
			fmt.Fprintf(&body, "\n```toml\n%s\n```\n", example)
		}
		body.WriteString(keyTable(s.Keys))
	}
	held(t, "WORKROOM.md", []byte(body.String()))
}

const workroomFileHead = `# The book of a workroom

<!-- Written by: go test ./cmd/yardlay -run JobFile -update -->

A folder is a workroom when ` + "`workroom.toml`" + ` stands in it, beside the jobs. This page lists what it may hold
besides the tables [[supplier]], [[notion]], [labour] and [quote], which are those of [the job file](JOBFILE.md). In a
terminal, ` + "`yardlay help workroom KEY`" + ` prints the matching part. [The manual](README.md) says when to use which.

- A *date* stands without quotes: ` + "`2026-11-29`." + `
- Lengths, ratios and percentages are written as in a job; bare numbers count in the ` + "`unit`" + ` of the book.

Anything else is refused with its place in the file and a hint.
`

// Every picture in the folder is that of a draft.
func TestNoPictureOfAnotherDraft(t *testing.T) {
	wanted := map[string]bool{}
	for _, s := range job.Reference() {
		wanted[draftPicture(s.Title)] = s.Draft
	}
	found, err := filepath.Glob(draftPicture("*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range found {
		if !wanted[filepath.ToSlash(name)] {
			t.Errorf("%s is of no draft", name)
		}
	}
}

func draftPicture(name string) string { return "pictures/" + name + ".svg" }

// held holds a file to what it should be, or writes it with -update.
func held(t *testing.T, name string, want []byte) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("run with -update, and look at it: %s is not what the code has:\n%s", name,
			diff.Diff(name, got, "code", want))
	}
}

// drawnExample draws the pieces of a draft's example, those of all its cloths on one
// sheet.
func drawnExample(t *testing.T, s job.Section) []byte {
	t.Helper()
	f, err := job.Example(s.Title)
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := plan.Draw(f.Job())
	if err != nil {
		t.Fatal(err)
	}
	page := sheet.Pieces{Title: s.Title, Unit: measure.Inch}
	for _, cloth := range spreads {
		for i := range cloth.Cuts {
			page.Pieces = append(page.Pieces, depict.Pattern(cloth, i, measure.Inch))
		}
	}
	svg, err := page.Drawing().SVG()
	if err != nil {
		t.Fatal(err)
	}
	return svg
}

// jobFilePage is the reference as a page with its contents at the top.
func jobFilePage() string {
	var contents, drafts, body strings.Builder
	seen := map[string]int{}
	for _, s := range job.Reference() {
		title, example := pageTitle(s)
		link := anchor(title, seen)
		item := fmt.Sprintf("- [%s](#%s): %s\n", title, link, firstWords(s.About))
		switch {
		case s.Draft:
			drafts.WriteString(item)
		case example != "":
			contents.WriteString("  " + item)
		default:
			contents.WriteString(item)
		}
		if s.Draft && !strings.Contains(body.String(), "\n## Drafts\n") {
			body.WriteString(draftsHeading)
			anchor("Drafts", seen)
		}
		level := "##"
		if s.Draft || example != "" {
			level = "###"
		}
		fmt.Fprintf(&body, "\n%s %s\n\n%s.\n", level, title, upperFirst(strings.TrimSuffix(s.Describe(), ".")))
		if s.Draft {
			example = s.Example
			fmt.Fprintf(&body, "\n![the pieces of %s](%s)\n", s.Title, draftPicture(s.Title))
		}
		if example != "" {
			fmt.Fprintf(&body, "\n```toml\n%s\n```\n", example)
		}
		body.WriteString(keyTable(s.Keys))
	}
	return jobFileHead + "\n## Contents\n\n" + contents.String() + "\nDrafts, the ways to draw a part:\n\n" +
		drafts.String() + body.String()
}

const jobFileHead = `# The job file

<!-- Written by: go test ./cmd/yardlay -run JobFile -update -->

One TOML file says what a gown is made of: the measures, the cloths, the parts. This page lists every key it may have.
In a terminal, ` + "`yardlay help job KEY` and `yardlay help job DRAFT`" + ` print the matching part.
[The manual](README.md) says when to use which.

- A *length* is a number in the job's ` + "`unit`, or text: `\"27 1/2\"`, `\"90 cm\"`, `\"2 3/8 yd\"`." + `
- A *ratio* is a number or text: ` + "`2.5`, `\"2 1/2\"`." + `
- A *percentage* is text with its mark: ` + "`\"5 %\"`, `\"-2 1/2 %\"`." + `

Anything else is refused with its place in the file and a hint: an unknown key, a wrong type, a missing measure, a cloth
that is not there.
`

const draftsHeading = `
## Drafts

Each draft has keys of its own besides those of every [part](#part). The pictures show what the examples draw, as
` + "`yardlay draft JOB --out DIR`" + ` draws them, for a body of waist 28, hip 38 and bust 36 in.
`

// pageTitle parts the title of a section into its heading and, of a table within
// another, how it is written.
func pageTitle(s job.Section) (heading, example string) {
	switch {
	case s.Within != "":
		return "`" + s.Name + "`", s.Title
	case s.Name == "job":
		return upperFirst(s.Title), ""
	}
	return "`" + s.Title + "`", ""
}

// anchor is what links to a heading: its letters, digits, hyphens and underscores in
// lower case, a hyphen for each space, a number when the same came before.
func anchor(heading string, seen map[string]int) string {
	link := strings.Map(func(r rune) rune {
		switch {
		case r == ' ':
			return '-'
		case r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z':
			return r
		}
		return -1
	}, strings.ToLower(heading))
	seen[link]++
	if n := seen[link]; n > 1 {
		return fmt.Sprintf("%s-%d", link, n-1)
	}
	return link
}

// firstWords is a description up to its first stop.
func firstWords(about string) string {
	end := len(about)
	for _, stop := range []string{". ", "; ", ": "} {
		if i := strings.Index(about, stop); i > 0 {
			end = min(end, i)
		}
	}
	return strings.TrimSuffix(about[:end], ".")
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// keyTable is a table of keys; nothing where there are none.
func keyTable(keys []job.Key) string {
	if len(keys) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("\n| key | takes | default | meaning |\n| --- | --- | --- | --- |\n")
	for _, k := range keys {
		given := k.Default
		if given == "" {
			given = "**required**"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", k.Name, k.Kind, given, k.Meaning)
	}
	return b.String()
}
