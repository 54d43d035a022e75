package job

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// chorusHead is a job of two bodies, up to its parts.
const chorusHead = `unit = "in"
[[body]]
name = "alto"
waist_girth = 30
[[body]]
name = "bass"
waist_girth = 36
count = 3
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
[[cloth]]
id = "acetate"
width = 45
[[part]]
name = "band"
cloth = "satin"
draft = "waistband"
width = 2
`

// Every part is drafted from the measures of each body, bears its name and is cut
// for all who wear it; a part for one of them is not drafted for the other.
func TestSeveralBodies(t *testing.T) {
	j := parsed(t, chorusHead+`[[part]]
name = "belt"
cloth = "satin"
draft = "rectangle"
length = 50
width = 3
times = 2
bodies = ["bass"]
`)
	var got []Part
	for _, p := range j.Parts {
		got = append(got, Part{Name: p.Name, Called: p.Called, Body: p.Body, Count: p.Count})
	}
	want := []Part{
		{Name: "alto band", Called: "band", Body: "alto", Count: 1},
		{Name: "bass band", Called: "band", Body: "bass", Count: 3},
		{Name: "bass belt", Called: "belt", Body: "bass", Count: 6},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for i, waist := range []float64{30, 36} {
		if d := j.Parts[i].Layers[0].Draft.(draft.Waistband); math.Abs(d.Waist-waist*measure.Inches) > 1e-9 {
			t.Errorf("%s has a waist of %v mm", j.Parts[i].Name, d.Waist)
		}
	}
}

// A job of one body is the same whether written with [body] or as a chorus of one,
// but for the names.
func TestOneBodyIsAsItWas(t *testing.T) {
	one := parsed(t, strings.Replace(head, "[[part]]", "[[part]]\ndraft = \"waistband\"\nwidth = 2", 1))
	if p := one.Parts[0]; p.Name != "p" || p.Called != "p" || p.Body != "" || p.Count != 1 {
		t.Errorf("the part of the only body is %+v", p)
	}
	if len(one.Bodies) != 1 || one.Bodies[0].Count != 1 {
		t.Errorf("bodies are %+v", one.Bodies)
	}
}

func TestBodiesAreRefusedWithPlace(t *testing.T) {
	tests := []struct {
		name, src, at, what, hint string
	}{
		{"no name", strings.Replace(chorusHead, "name = \"alto\"\n", "", 1), "2:3", "body 1 lacks `name`", "labelled"},
		{"the same name", strings.Replace(chorusHead, `"bass"`, `"alto"`, 1), "6:8", "body `alto` is already on line 3",
			"a name of its own"},
		{"a long name", strings.Replace(chorusHead, `"alto"`, `"`+strings.Repeat("a", 25)+`"`, 1), "3:8", "25 bytes",
			"labelled with"},
		{"an unknown measure", strings.Replace(chorusHead, "waist_girth = 30", "waist = 30", 1), "4:1",
			"body `alto` has no key `waist`", "waist_girth"},
		{"no wearers", strings.Replace(chorusHead, "count = 3", "count = 0", 1), "8:9", "`count` cannot be 0",
			"from 1"},
		{"a missing measure", strings.Replace(chorusHead, "waist_girth = 36\n", "", 1), "17:3", "lacks `waist`",
			"under [[body]] `bass`"},
		{"no such body", chorusHead + `bodies = ["alto", "baas"]`, "23:19", `there is no body "baas"`,
			"did you mean `bass`?"},
		{"no body named", chorusHead + "bodies = []", "23:1", "`bodies` names no body", "alto"},
		{"a body as number", chorusHead + "bodies = 3", "23:10", "the name of a body", "alto"},
		{"bodies of one", head + "draft = \"waistband\"\nwidth = 2\nbodies = \"alto\"", "15:10", "one body",
			"[[body]]"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { wantError(t, tt.src, tt.at, tt.what, tt.hint) })
	}
}

// What is wrong with a part is said once, however many wear it.
func TestErrorsOfSeveralBodiesAreSaidOnce(t *testing.T) {
	_, err := parse("job.toml", []byte(chorusHead+"widht = 3"))
	if all := err.(strict.Errors); len(all) != 1 {
		t.Errorf("%d errors:\n%v", len(all), err)
	}
}

// A change names a body as it names a cloth.
func TestBodiesCanBeVaried(t *testing.T) {
	j, err := readAs("job.toml", []byte(chorusHead), []Change{{"bass.waist_girth", "90 cm"}, {"bass.count", "2"}})
	if err != nil {
		t.Fatal(err)
	}
	if b := j.Bodies[1]; b.Measures["waist_girth"] != 900 || b.Count != 2 {
		t.Errorf("the body is %+v", b)
	}
	_, err = readAs("job.toml", []byte(chorusHead), []Change{{"body.waist_girth", "90 cm"}})
	if err == nil || !strings.Contains(err.Error(), "body") {
		t.Errorf("a change of no body in particular: %v", err)
	}
}

// Linings and interlinings have allowances and differences of their own.
func TestLayersDiffer(t *testing.T) {
	j := parsed(t, strings.Replace(measured, "[[part]]",
		"[[cloth]]\nid = \"acetate\"\nwidth = 45\n[[cloth]]\nid = \"organza\"\nwidth = 45\n[[part]]", 1)+
		`draft = "bodice-block"
interlining = { cloth = "organza", allowance = { seam = "1/4" } }
lining = { cloth = "acetate", ease_pleat = "1/2", allowance = { waist = "3/4" } }
[[part]]
name = "skirt"
cloth = "satin"
draft = "circle-skirt"
circle = 1
length = 30
interlining = { cloth = "organza" }
lining = { cloth = "acetate", shorter = 2, allowance = { hem = "1/2" } }
`)
	half := measure.Inches / 2
	plain := shapes.Allowance{Seam: half, Waist: half, Hem: measure.Inches}
	type seen struct {
		Cloth        string
		Raise, Pleat float64
		Allow        shapes.Allowance
	}
	var got []seen
	for _, p := range j.Parts {
		for _, l := range p.Layers {
			switch d := l.Draft.(type) {
			case draft.BodiceBlock:
				got = append(got, seen{l.Cloth, 0, d.EasePleat, d.Allowance})
			case draft.CircleSkirt:
				got = append(got, seen{l.Cloth, d.HemRaise, 0, d.Allowance})
			}
		}
	}
	thin, deep, short := plain, plain, plain
	thin.Seam, deep.Waist, short.Hem = half/2, 0.75*measure.Inches, half
	want := []seen{
		{"satin", 0, 0, plain}, {"organza", 0, 0, thin}, {"acetate", 0, half, deep},
		{"satin", 0, 0, plain}, {"organza", 0, 0, plain}, {"acetate", 2 * measure.Inches, 0, short},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestLayersAreRefusedWithPlace(t *testing.T) {
	tests := []struct {
		name, keys, at, what, hint string
	}{
		{"no table", `lining = "acetate"`, "23:10", "`lining` must be a table", "cloth"},
		{"no cloth", `lining = { shorter = 1 }`, "23:10", "lacks `cloth`", "acetate"},
		{"an unknown cloth", `interlining = { cloth = "silk" }`, "23:25", `there is no cloth "silk"`, "satin"},
		{"a hem where there is none", `lining = { cloth = "acetate", shorter = 1 }`, "23:31", "has no key `shorter`",
			""},
		{"a pleat where there is none", `lining = { cloth = "acetate", ease_pleat = 1 }`, "23:31",
			"has no key `ease_pleat`", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { wantError(t, chorusHead+tt.keys, tt.at, tt.what, tt.hint) })
	}
}

// A sleeve takes its armholes from the bodice of the same body.
func TestSleevesFindTheirBodice(t *testing.T) {
	name := "../../../../testdata/chorus-gown.toml"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	j := parsed(t, string(src))
	found := 0
	for _, p := range j.Parts {
		if p.SetInto == nil {
			continue
		}
		found++
		bodice := j.Parts[p.SetInto.Part]
		if bodice.Body != p.Body || bodice.Called != "bodice" {
			t.Errorf("%s is sewn into %s", p.Name, bodice.Name)
		}
		block, errB := bodice.Layers[0].Drafted()
		sleeve, errS := p.Layers[0].Drafted()
		join, err := draft.ArmholeJoin(block, sleeve)
		if err = errors.Join(errB, errS, err); err != nil {
			t.Fatal(err)
		}
		_, hole, errA := join.A.Measure(block.Pieces)
		_, crown, errC := join.B.Measure(sleeve.Pieces)
		if errA != nil || errC != nil || math.Abs(hole-crown) > 0.5 || hole == 0 {
			t.Errorf("%s is finished %.2f mm round, the armhole of the bodice %.2f (%v, %v)", p.Name, crown, hole, errC,
				errA)
		}
	}
	if found != 2 {
		t.Errorf("%d sleeves, want one a body", found)
	}
}

// A measure that cannot be read is told once, not as missing from the parts too.
func TestBadMeasureIsToldOnce(t *testing.T) {
	src := strings.Replace(chorusHead, `waist_girth = 30`, `waist_girth = -30`, 1)
	_, err := parse("t.toml", []byte(src))
	if err == nil || !strings.Contains(err.Error(), `"-30"`) || strings.Contains(err.Error(), "lacks") {
		t.Errorf("errors are: %v", err)
	}
}
