package plan

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// a small job that the examples of the manual are added to: more of its cloth, more
// of its part, more tables.
const exampleHead = `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "acetate"
width = 60
[[cloth]]
id = "organza"
width = 60
[[cloth]]
id = "lace"
width = 60
[[cloth]]
id = "coutil"
width = 60
[[part]]
name = "cape"
draft = "cape"
neck = 16
circle = "quarter"
length = 14
sections = 4
`

// exampleBody is the wearer of examples that have none.
const exampleBody = `[body]
standard = "US misses 14"
estimate = true
over_bust_girth = 34
underbust_girth = 30
high_hip_girth = 35
waist_to_over_bust = 9
waist_to_bust = "6 1/2"
waist_to_underbust = 4
waist_to_high_hip = 4
`

// exampleRoom is the book beside the job, with what examples take from it.
const exampleRoom = `unit = "in"
[[cloth]]
id = "moon-satin"
width = 58
[[person]]
name = "mara"
[[person.measured]]
on = 2026-05-01
waist_girth = 27
`

var manualExample = regexp.MustCompile("(?s)```toml\n(.*?)```")

// Every example of a job in the manual plans as it stands there: a job as a whole, or
// keys of a cloth, of a part, or further tables. Every way to fold is shown.
func TestManualExamplesPlan(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	keysOf := func(table, key string) bool {
		for _, s := range job.Reference() {
			for _, k := range s.Keys {
				if s.Title == table && k.Name == key {
					return true
				}
			}
		}
		return false
	}
	beside := t.TempDir() // the drawing that an example names
	sleeve, err := os.ReadFile("../../../../testdata/outlines/sleeve-darts.svg")
	if err == nil {
		err = os.WriteFile(filepath.Join(beside, "sleeve.svg"), sleeve, 0o600)
	}
	if err == nil {
		err = os.WriteFile(filepath.Join(beside, job.WorkroomFile), []byte(exampleRoom), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	lays := map[nest.Lay]bool{}
	examples := manualExample.FindAllStringSubmatch(string(text), -1)
	for _, e := range examples {
		example, whole := e[1], e[1]
		first := strings.Trim(strings.Fields(example)[0], "[]")
		const cloth = "[[cloth]]\nid = \"satin\"\n"
		switch {
		case first == "person": // of the book
			if _, err := job.ReadWorkroom(job.WorkroomFile, []byte("unit = \"in\"\n"+example)); err != nil {
				t.Errorf("%v in\n%s", err, example)
			}
			continue
		case strings.HasPrefix(example, "title "):
		case first == "cloth":
			whole = exampleHead + "cloth = \"satin\"\n" + example
		case keysOf("[[cloth]]", first):
			if keys, _, _ := strings.Cut(example, "[["); !strings.HasPrefix(keys, "width ") {
				example = "width = 60\n" + example
			}
			whole = exampleHead + "cloth = \"satin\"\n" + cloth + example
		case keysOf("[[part]]", first):
			whole = exampleHead + "cloth = \"satin\"\n" + example + cloth + "width = 60\n"
		default:
			whole = exampleHead + "cloth = \"satin\"\n" + cloth + "width = 60\n" + example
		}
		if !strings.Contains(whole, "body]") {
			whole = strings.Replace(whole, "[allowance]", exampleBody+"[allowance]", 1)
		}
		tasks, err := Tasks(testjobs.File(t, filepath.Join(beside, "job.toml"), whole).Job(), 1)
		if err != nil {
			t.Errorf("%v in\n%s", err, whole)
			continue
		}
		for _, task := range tasks {
			lays[task.Stretches[0].Lay] = true
		}
	}
	if len(examples) < 10 || len(lays) != 4 {
		t.Errorf("%d examples show %d ways to fold", len(examples), len(lays)-1)
	}
}
