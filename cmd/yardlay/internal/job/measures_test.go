package job

import (
	"strings"
	"testing"
)

// A waist of 28 in in a job in centimetres is 11 in: it is asked about, on a body and
// in a part, and taken where the maker says that it is so. Real figures pass: the
// smallest and largest waists of size tables run from 51 to 152 cm (common practice).
func TestMeasuresThatPeopleDoNotHaveAreAskedAbout(t *testing.T) {
	src := func(body, part string) string {
		return `unit = "cm"
[body]
` + body + `
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
width = 150
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "full"
length = 40
` + part + "\n"
	}
	for _, c := range []struct{ body, part, want string }{
		{`waist_girth = "28"`, "",
			"job.toml:3:15: `waist_girth` is 28.0 cm (11 in): people measure 40.0 cm to 165.0 cm there"},
		{`waist_girth = 710`, "", "`waist_girth` is 710.0 cm"},
		{`hip_girth = 97`, "waist = 28", "`waist` is 28.0 cm (11 in)"},
		{`waist_girth = "28 in"`, "", ""},
		{"waist_girth = 28\nunusual = true", "", ""},
		{"unusual = true", "waist = 28", ""},
		{"waist_girth = 51", "", ""},
		{"waist_girth = 152", "", ""},
	} {
		_, err := parse("job.toml", []byte(src(c.body, c.part)))
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%q: %v", c.body, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want) ||
			!strings.Contains(err.Error(), "unusual = true")):
			t.Errorf("%q: %v, want %q", c.body, err, c.want)
		}
	}
}

func TestBoundsOfMeasuresAreInOrder(t *testing.T) {
	for _, m := range bodyMeasures {
		if !(m.least > 0 && m.least < m.most) {
			t.Errorf("%s: from %g to %g mm", m.name, m.least, m.most)
		}
	}
}
