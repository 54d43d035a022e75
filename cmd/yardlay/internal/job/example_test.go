package job

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// The example of every draft holds and drafts, in inches and in the rounded centimetres
// that a metric job begins with.
func TestExamplesHold(t *testing.T) {
	for _, d := range drafts {
		f, err := Example(d.name)
		if err != nil {
			t.Fatalf("%s: %v", d.name, err)
		}
		for _, l := range f.Job().Parts[0].Layers {
			if _, err := l.Drafted(); err != nil {
				t.Errorf("%s: %v", d.name, err)
			}
		}
		var b strings.Builder
		b.WriteString("unit = \"cm\"\n[body]\n")
		for _, m := range bodyMeasures {
			fmt.Fprintf(&b, "%s = \"%s in\"\n", m.name, m.example)
		}
		b.WriteString("[allowance]\nseam = 1\nhem = 2\n[[cloth]]\nid = \"satin\"\nwidth = 150\n[[cloth]]\n" +
			"id = \"fusible\"\nwidth = 90\n[[part]]\nname = \"p\"\ncloth = \"satin\"\n")
		for _, g := range ExampleIn(d.name, measure.Centimetre) {
			fmt.Fprintf(&b, "%s = %s\n", g.Key, g.TOML)
		}
		metric, err := Read("cm.toml", []byte(b.String()))
		if err != nil {
			t.Errorf("%s in cm: %v in:\n%s", d.name, err, b.String())
			continue
		}
		if d.name == outlineFile.name {
			continue // reads a file
		}
		for _, l := range metric.Job().Parts[0].Layers {
			if _, err := l.Drafted(); err != nil {
				t.Errorf("%s in cm: %v in:\n%s", d.name, err, b.String())
			}
		}
	}
}

// Every measure of the body says where it is taken, no two alike, and people have what it
// gives as an example.
func TestMeasuresAreTakenSomewhere(t *testing.T) {
	seen := map[Taken]string{}
	for _, m := range bodyMeasures {
		mm, err := measure.ParsePositive(m.example, measure.Inch)
		if err != nil || mm < m.least || mm > m.most {
			t.Errorf("%s: example %q: %v", m.name, m.example, err)
		}
		if m.taken.String() == "" || seen[m.taken] != "" {
			t.Errorf("%s is taken %q, like %q", m.name, m.taken, seen[m.taken])
		}
		seen[m.taken] = m.name
	}
}

// What a table lacks is told by its key, so that a form can say it beside the field.
func TestErrorsNameTheKeyThatIsMissing(t *testing.T) {
	_, err := Read("job.toml", []byte("unit = \"in\"\n[allowance]\nseam = 1\n[[cloth]]\nid = \"satin\"\n"+
		"[[part]]\nname = \"p\"\ndraft = \"circle-skirt\"\ncloth = \"satin\"\n"))
	var wrong strict.Errors
	errors.As(err, &wrong)
	lacks := map[string]bool{}
	for _, e := range wrong {
		lacks[e.Lacks] = true
	}
	for _, key := range []string{"hem", "width", "waist", "circle", "length"} {
		if !lacks[key] {
			t.Errorf("no error lacks %s: %v", key, err)
		}
	}
}
