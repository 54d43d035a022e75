package workroom

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
)

const hers = `# the lantern gown
title = "Lantern"
unit = "cm"

# Nora's measures, after the summer
[body]
waist_girth = 71 # breathing out
hip_girth = "38 in"
unusual = false

[allowance]
seam = 1
hem = 2

[[cloth]]
id = "satin" # the white one
width = 150
have = [ { name = "scrap", length = 60 } ]

[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half" # as she likes it
length = 60

[[part]]
name = "band"
draft = "waistband"
cloth = "satin"
waist = 72
width = 3

[quote]
client = "Nora"
date = "3 May"
maker = "Moth Lane"
`

const book2 = "unit = \"in\"\n[[person]]\nname = \"mara\"\n[[person.measured]]\non = 2026-05-01\nwaist_girth = \"27\"\n"

// Style without person takes what was drawn and nothing that is of somebody; it says which measures it lacks, and holds
// once they are given.
func TestStyleWithoutPerson(t *testing.T) {
	c, err := Style([]byte(hers), false, "", "new.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(c.Text)
	for _, private := range []string{"Nora", "71", "72", "38 in", "breathing", "scrap", "3 May"} {
		if strings.Contains(text, private) {
			t.Errorf("%q is copied:\n%s", private, text)
		}
	}
	for _, kept := range []string{"# the lantern gown", `circle = "half" # as she likes it`, "# the white one",
		"Moth Lane"} {
		if !strings.Contains(text, kept) {
			t.Errorf("%q is not copied:\n%s", kept, text)
		}
	}
	if !slices.Equal(c.Lacks, []string{"waist_girth"}) || !strings.Contains(text, "# waist_girth = \"\"\n") {
		t.Errorf("%q\n%s", c.Lacks, text)
	}
	filled := bytes.Replace(c.Text, []byte(`# waist_girth = ""`), []byte("waist_girth = 80"), 1)
	if _, err := job.Read("new.toml", filled); err != nil {
		t.Error(err)
	}
}

// For somebody of the workroom the copy holds at once, by her measures.
func TestStyleForAnother(t *testing.T) {
	path := roomWith(t, book2)
	name := filepath.Join(filepath.Dir(path), "new.toml")
	c, err := Style([]byte(hers), true, "mara", name)
	if err != nil {
		t.Fatal(err)
	}
	f, err := job.Read(name, c.Text)
	if err != nil || f.Job().Bodies[0].Measures["waist_girth"] != 27*25.4 || strings.Contains(string(c.Text), "71") {
		t.Errorf("%v\n%s", err, c.Text)
	}
	if _, err := Style([]byte(hers), true, "maro", name); err == nil {
		t.Error("it is cut for somebody that there is not")
	}
}

// Person without style is the starting job by her measures, in whatever unit they were written.
func TestPersonWithoutStyle(t *testing.T) {
	c, err := Person([]byte(hers), "new.toml")
	if err != nil {
		t.Fatal(err)
	}
	f, err := job.Read("new.toml", c.Text)
	if err != nil {
		t.Fatalf("%v\n%s", err, c.Text)
	}
	m := f.Job().Bodies[0].Measures
	if m["waist_girth"] != 710 || m["hip_girth"] != 38*25.4 || len(f.Job().Parts) != 2 ||
		strings.Contains(string(c.Text), "Lantern") {
		t.Errorf("%v\n%s", m, c.Text)
	}
	if _, err := Person([]byte("unit = \"in\"\n"), "new.toml"); err == nil {
		t.Error("a body is copied from a job that has none")
	}
}

// The jobs that come with the project can all be copied, whole or without their person; several bodies keep their
// names.
func TestCopiesOfOurJobs(t *testing.T) {
	found, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil || len(found) < 5 {
		t.Fatal(found, err)
	}
	for _, name := range found {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := job.Read(name, src); err != nil {
			continue // rates, and what is no job
		}
		beside := filepath.Join(filepath.Dir(name), "copy.toml")
		if _, err := Style(src, true, "", beside); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		c, err := Style(src, false, "", beside)
		if err != nil {
			t.Errorf("%s without the person: %v", name, err)
		} else if strings.Contains(name, "chorus") && !strings.Contains(string(c.Text), "[[body]]\nname = ") {
			t.Errorf("%s", c.Text)
		}
	}
}
