package page

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// A job in a workroom shows on its page what it takes from there, and tells of old prices, but not to the client.
func TestAJobOfAWorkroom(t *testing.T) {
	quickly(t)
	s := newSite(t)
	book := `unit = "cm"
[[cloth]]
id = "moon-satin"
width = 150
price = "9.00/m"
priced = 2020-01-01
[[person]]
name = "mara"
[[person.measured]]
on = 2026-05-01
waist_girth = 70
[labour]
hours = 5
rate = "20.00/h"
`
	s.rewrite(job.WorkroomFile, book)
	o := s.put("pier.toml", []byte(testjobs.InRoom(`from = "mara"`)))
	s.settled(o)
	_, page := s.get("/")
	if !strings.Contains(page, "pier.toml") || strings.Contains(page, job.WorkroomFile) {
		t.Error("the jobs of the folder are not those that are listed")
	}
	_, page = s.get("/job/pier.toml/measures")
	for _, want := range []string{"Left empty: 150 cm, as in the workroom.", "Left empty: 70 cm, as in the workroom.",
		`<option value="mara" selected>`, `<option value="moon-satin" selected>`} {
		if !strings.Contains(page, want) {
			t.Errorf("the form does not say %s", want)
		}
	}
	for address, told := range map[string]bool{"/cloths": true, "/quote": true, "/quote?client": false} {
		_, page := s.get("/job/pier.toml" + address)
		if strings.Contains(words(page), "The price of moon-satin is of 2020-01-01") != told {
			t.Errorf("%q tells of the old price: %v", address, !told)
		}
	}

	// What is wrong in the book is told as being there, not in a line of the job.
	s.rewrite(job.WorkroomFile, strings.Replace(book, "width = 150", "width = true", 1))
	o.Look()
	for _, address := range []string{"/text", "/measures"} {
		_, page := s.get("/job/pier.toml" + address)
		if !strings.Contains(words(page), "workroom.toml, line 4") || strings.Contains(page, `data-line="4"`) {
			t.Errorf("%s does not say that the book is wrong", address)
		}
	}
}

// rewrite writes a file of the folder.
func (s *site) rewrite(name, text string) {
	s.Helper()
	if err := os.WriteFile(filepath.Join(s.dir, name), []byte(text), 0o644); err != nil {
		s.Fatal(err)
	}
}
