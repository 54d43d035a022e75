package plan

import (
	"os"
	"strings"
	"testing"

	"yardlay/nest"
)

// Every example of a lay in the README plans as it stands there.
func TestReadmeLaysPlan(t *testing.T) {
	text, err := os.ReadFile("../../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, ok := strings.Cut(string(text), "\n## How the cloth lies\n")
	section, _, ends := strings.Cut(section, "\n## ")
	if !ok || !ends {
		t.Fatal("the README has no section on lays")
	}
	lays := map[nest.Lay]bool{}
	examples := strings.Split(section, "```toml\n")[1:]
	for _, example := range examples {
		keys, _, _ := strings.Cut(example, "```")
		if !strings.Contains(keys, "width ") || strings.Contains(keys, "[[part]]") || strings.Contains(keys, "have ") {
			keys = "width = 60\n" + keys
		}
		tasks, err := Tasks(read(t, `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[part]]
name = "cape"
draft = "cape"
cloth = "satin"
neck = 16
circle = "quarter"
length = 14
sections = 4
[[cloth]]
id = "satin"
`+keys), 1)
		if err != nil {
			t.Errorf("%v in\n%s", err, keys)
			continue
		}
		lays[tasks[0].Stretches[0].Lay] = true
	}
	if len(examples) < 7 || len(lays) != 4 {
		t.Errorf("%d examples show %d ways to fold", len(examples), len(lays)-1)
	}
}
