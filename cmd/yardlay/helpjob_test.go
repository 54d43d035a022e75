package main

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
)

// said is what a text says, however its lines are broken.
func said(text string) string { return strings.Join(strings.Fields(text), " ") }

// Every table, draft and key of the job file can be asked for by its name, and its
// meaning is printed, in lines of a narrow terminal too.
func TestHelpKnowsEveryKey(t *testing.T) {
	for _, columns := range []string{"40", "80"} {
		t.Setenv("COLUMNS", columns)
		for _, s := range job.Reference() {
			asked := map[string]string{s.Name: s.About}
			for _, k := range s.Keys {
				asked[k.Name] = k.Meaning
				asked[s.Name+"."+k.Name] = k.Meaning
			}
			for name, meaning := range asked {
				var out strings.Builder
				if err := help(&out, []string{"job", name}); err != nil {
					t.Errorf("help job %s: %v", name, err)
				} else if !strings.Contains(said(out.String()), said(meaning)) {
					t.Errorf("help job %s in %s columns does not say %q:\n%s", name, columns, meaning, &out)
				}
			}
		}
	}
}

// All of the reference is in what help prints of the job file, each part once.
func TestHelpListsTheWholeJobFile(t *testing.T) {
	t.Setenv("COLUMNS", "80")
	var out strings.Builder
	if err := help(&out, []string{"job"}); err != nil {
		t.Fatal(err)
	}
	for _, s := range job.Reference() {
		part := topic{[]job.Section{s}, s.Keys, true}
		var want strings.Builder
		part.print(&want, usualColumns)
		if strings.Count(out.String(), want.String()) != 1 {
			t.Errorf("help job does not say once what %s is", s.Title)
		}
	}
}
