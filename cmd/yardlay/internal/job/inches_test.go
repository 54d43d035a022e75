package job

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/shapes/draft"
)

// metric finds millimetres in a message; bareLimit a limit behind a length whose own unit
// is left out, as in "is 2 in wide, must be 5 or more".
var (
	metric    = regexp.MustCompile(`\bmm2?\b|millimet`)
	bareLimit = regexp.MustCompile(` in\b[^,:(]*, (?:must be|needs|the most is|the most for one dart is)` +
		`(?: at most| at least)? [1-9][0-9.]*( in\b| yd\b| [0-9]|/)?`)
	otherUnits = regexp.MustCompile("degrees|times round")
)

// Of all drafts, with each of their keys too small, too large or out of proportion and
// with allowances that leave no room, no refusal and no remark of a job in inches speaks
// millimetres, or gives a number of them without saying so.
func TestRefusedInchJobsSpeakInchesAlone(t *testing.T) {
	values := strings.Fields(`"-1" 0 "1/64" "1" 5 "12" 30 "45" "100" 400 "2400" 0.01 "9000ft"`)
	told, turn := map[string]bool{}, 0
	apart := often.Jobs(often.Full(12, 3), 1) // each key takes one value of so many, the next key the next ones
	for _, d := range drafts {
		if d.name == outlineFile.name {
			continue // reads a file, whose coordinates are millimetres
		}
		for _, k := range d.keys {
			turn++
			for i := turn % apart; i < len(values); i += apart {
				v, changed := values[i], d
				changed.example = withKey(d.example, k.Name, v)
				src := exampleJob(changed)
				roomy := strings.Replace(src, "[allowance]\nseam = \"1/2\"", "[allowance]\nseam = \"3\"", 1)
				for _, text := range append(toldOf(src), toldOf(roomy)...) {
					told[text] = true
				}
			}
		}
	}
	for text := range told {
		if metric.MatchString(text) {
			t.Errorf("speaks millimetres: %s", text)
		}
		if m := bareLimit.FindStringSubmatch(text); m != nil && m[1] == "" && !otherUnits.MatchString(text) {
			t.Errorf("a limit of what? %s", text)
		}
	}
	if len(told) < 500/apart {
		t.Errorf("only %d messages", len(told))
	}
}

// withKey returns an example with a key set, in its place if it is there.
func withKey(example, key, value string) string {
	lines := strings.Split(example, ", ")
	for i, l := range lines {
		if strings.HasPrefix(l, key+" ") {
			lines[i] = key + " = " + value
			return strings.Join(lines, ", ")
		}
	}
	return fmt.Sprintf("%s, %s = %s", example, key, value)
}

// toldOf returns what a job is refused for, or what is remarked on its drafts.
func toldOf(src string) []string {
	j, err := parse("t.toml", []byte(src))
	if err != nil {
		return []string{err.Error()}
	}
	var texts []string
	for _, p := range j.Parts {
		for _, l := range p.Layers {
			made, err := l.Drafted()
			if err == nil {
				err = draft.CheckEntry(made, p.Girths)
			}
			if err != nil {
				texts = append(texts, j.ErrorAt(p.At, err).Error())
			}
			for _, n := range made.Notes {
				texts = append(texts, n.In(j.Show()))
			}
		}
	}
	return texts
}
