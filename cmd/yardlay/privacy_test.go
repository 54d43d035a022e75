package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/shapes/measure"
)

// secret is what somebody measures, mm, by numbers that nothing else is likely to come to.
var secret = map[string]float64{
	"waist_girth": 713.7, "hip_girth": 971.3, "bust_girth": 887.9, "neck_base_girth": 373.7, "waist_to_hips": 211.7,
	"underbust_girth": 771.9, "upper_arm_girth": 287.3, "wrist_girth": 164.9, "hand_girth": 207.1, "head_girth": 563.3,
	"shoulder_length": 122.3, "back_neck_point_to_waist": 407.3, "armhole_depth": 213.1, "back_width": 347.9,
	"chest_width": 331.3, "shoulder_neck_to_bust": 267.7, "bust_span": 183.1, "waist_height": 1047.1,
}

// Jobs cut for her: none of their pieces is as long as she measures, all have ease.
var secretJobs = map[string]string{
	"skirt.toml": `
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
waist_ease = "17 mm"
length = 60
[[part]]
name = "band"
draft = "waistband"
cloth = "satin"
ease = "17 mm"
width = 3
underlap = 3
`,
	"bodice.toml": `
[[part]]
name = "bodice"
draft = "bodice-block"
cloth = "satin"
opening = "front"
ease = "83 mm"
waist_ease = "37 mm"
neckline = "round"
shoulder_in = 1
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
waist_ease = "37 mm"
length = 60
sewn_to = "bodice"
`,
}

const secretHead = `title = "The gown"
unit = "cm"
[body]
from = "quendolyn"
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
width = 150
price = "10.00/m"
[quote]
client = "the players"
[labour]
rate = "20.00/h"
hours = 10
`

// What is written for a job of the workroom says nothing of who it is cut for: neither her name nor what she measures,
// in millimetres, centimetres or inches. What is drawn of her measures is as large as it has to be.
func TestNoMeasureLeavesTheRoom(t *testing.T) { noMeasureLeaves(t, nil) }

// Nor do pages in PDF, as a program from outside reads them.
func TestOutsideNoMeasureLeavesTheRoom(t *testing.T) {
	outside.Wanted(t, "pdftotext")
	noMeasureLeaves(t, func(pdf []byte) string { return outside.Texts(t, pdf) })
}

// noMeasureLeaves writes all that there is to write, and looks into it; into PDF where it can be read.
func noMeasureLeaves(t *testing.T, readPDF func([]byte) string) {
	room := "unit = \"mm\"\n[[person]]\nname = \"quendolyn\"\n[[person.measured]]\non = 2026-05-01\n"
	for name, mm := range secret {
		room += fmt.Sprintf("%s = %g\n", name, mm)
	}
	t.Chdir(t.TempDir())
	write := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(job.WorkroomFile, room)
	for name, parts := range secretJobs {
		write(name, secretHead+parts)
		for i, unit := range []string{"mm", "cm", "in"} {
			if unit != "in" && often.ByHand() {
				continue
			}
			ways := [][]string{{"draft"}, {"draft", "--seams", "--edges", "--json"}, {"lay", "--json"},
				{"quote"}, {"quote", "--client"}, {"shop"}, {"lay", "--keep", name + ".kept.json"},
				{"print", "--book", "--html", "--chalk", "--dxf", "--svg", "--sheets", "a4"}}
			if i < 2 {
				ways = ways[:3+2*i]
			}
			for _, args := range ways {
				writeSecret(t, name, unit, args)
			}
		}
	}
	files := 0
	err := filepath.WalkDir("out", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(name)
		files++
		switch {
		case filepath.Ext(name) != ".pdf":
			tellsNothing(t, name, string(text))
		case readPDF != nil:
			tellsNothing(t, name, readPDF(text))
		}
		return err
	})
	if err != nil || files < often.Full(20, 40) {
		t.Errorf("%d files, %v", files, err)
	}
	for name := range secretJobs {
		text, err := os.ReadFile(name + ".kept.json")
		if err != nil {
			t.Fatal(err)
		}
		tellsNothing(t, name+".kept.json", string(text))
	}
}

// writeSecret runs a command that writes files, and looks into what it prints for others.
func writeSecret(t *testing.T, name, unit string, args []string) {
	t.Helper()
	args = append(slices.Clone(args), name, "--unit", unit, "--out", filepath.Join("out", name, unit, args[0]))
	if args[0] != "draft" {
		args = append(args, "--time", "1ns")
	}
	var out, told strings.Builder
	if code := run(args, strings.NewReader(""), &out, &told); code != exitDone {
		t.Fatalf("%q: %s", args, told.String())
	}
	if slices.Contains(args, "--json") || slices.Contains(args, "--client") {
		tellsNothing(t, strings.Join(args, " "), out.String())
	}
}

// tellsNothing looks for the name and the measures in a text.
func tellsNothing(t *testing.T, name, text string) {
	t.Helper()
	if strings.Contains(text, "quendolyn") {
		t.Errorf("%s names her", name)
	}
	for what, mm := range secret {
		for _, said := range []string{fmt.Sprintf("%g", mm), fmt.Sprintf("%.0f mm", mm),
			measure.Format(mm, measure.Centimetre), measure.Format(mm, measure.Inch)} {
			if !strings.Contains(text, said) {
				continue
			}
			if at := regexp.MustCompile(`(^|[^\d./])` + regexp.QuoteMeta(said) + `($|[^\d/])`).FindStringIndex(text); at != nil {
				t.Errorf("%s: %s of %s: %q", name, what, said, text[max(0, at[0]-60):min(len(text), at[1]+40)])
			}
		}
	}
}
