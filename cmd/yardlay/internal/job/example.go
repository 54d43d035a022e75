package job

import (
	"bytes"
	_ "embed"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
)

// Example is what a draft draws as its example says, for a body with the measures of the
// reference that drafts cannot do without.
func Example(draft string) (*File, error) {
	var b strings.Builder
	b.WriteString("unit = \"in\"\n[body]\n")
	for _, m := range bodyMeasures {
		if slices.ContainsFunc(drafts, func(d family) bool { return d.needs(m.name) }) {
			fmt.Fprintf(&b, "%s = %q\n", m.name, m.example)
		}
	}
	b.WriteString("[allowance]\nseam = \"1/2\"\nhem = 1\n[[cloth]]\nid = \"satin\"\nwidth = 58\n" +
		"[[cloth]]\nid = \"fusible\"\nwidth = 36\n")
	fmt.Fprintf(&b, "[[part]]\nname = %q\ncloth = \"satin\"\n", draft)
	for _, given := range ExampleOf(draft) {
		fmt.Fprintf(&b, "%s = %s\n", given.Key, given.TOML)
	}
	name := draft + ".toml"
	root, bad := fileFormat.Parse([]byte(b.String()))
	if bad != nil {
		return nil, bad
	}
	f := &File{name: name, root: root, disk: new(disk)}
	f.disk.drawings.known.Store(filepath.Join(filepath.Dir(name), exampleOutline), func() (outline.Drawing, error) {
		return outline.Read(exampleOutline, bytes.NewReader(drawnElsewhere))
	})
	j, wrong := f.read(root)
	if wrong != nil {
		return nil, wrong
	}
	f.job = j
	return f, nil
}

// exampleOutline is the file that the example of an outline names.
const exampleOutline = "sleeve.geojson"

//go:embed sleeve.geojson
var drawnElsewhere []byte

// needs says whether a draft has to be told a measure of the body.
func (f family) needs(body string) bool {
	return slices.ContainsFunc(f.keys, func(k Key) bool { return k.Kind.Body == body && k.Default == "`"+body+"`" })
}

// Given is a key with a value, as the file has it.
type Given struct{ Key, TOML string }

// ExampleOf returns the keys of a draft's example, with what they are given: its lengths
// are in inches.
func ExampleOf(draft string) (all []Given) {
	i := slices.IndexFunc(drafts, func(d family) bool { return d.name == draft })
	if i < 0 {
		return nil
	}
	for one := range strings.SplitSeq(drafts[i].example, ", ") {
		key, value, _ := strings.Cut(one, " = ")
		all = append(all, Given{key, value})
	}
	return all
}

// ExampleIn returns the same for a job that counts in a unit. In metric ones lengths
// are rounded to half a centimetre.
func ExampleIn(draft string, unit measure.Unit) []Given {
	all := ExampleOf(draft)
	for i, g := range all {
		k := slices.IndexFunc(draftKeys(draft), func(k Key) bool { return k.Name == g.Key })
		if k < 0 || draftKeys(draft)[k].Kind.Form != Length || unit == measure.Inch {
			continue
		}
		mm, err := measure.Parse(strings.Trim(g.TOML, `"`), measure.Inch)
		if err != nil {
			continue // a list of them
		}
		if half := math.Round(mm/5) * 5; unit.Metric() && half > 0 {
			mm = half
		}
		all[i].TOML = fmt.Sprintf("%q", measure.Format(mm, unit))
	}
	return all
}
