package job

import (
	"math"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// otherwise is a way to write the values of a file that says the same: it changes a value
// of a kind in place, in a file that counts in a unit.
type otherwise func(v *strict.Value, k Kind, unit measure.Unit)

// write changes every value of a table, and of those within it, and turns the order of
// its keys about.
func (o otherwise) write(n *strict.Value, keys []Key, unit measure.Unit) {
	slices.Reverse(n.Order)
	for _, name := range n.Order {
		i := slices.IndexFunc(keys, func(k Key) bool { return k.Name == name })
		if i < 0 {
			continue
		}
		k := keys[i]
		v := n.Fields[name].Value
		if k.Kind.Form != Table {
			o.values(v, k.Kind, unit)
			continue
		}
		within := k.Kind.Keys
		for _, item := range append(v.Items, v) {
			switch {
			case name == "body" && item != v:
				within = eachBodyKeys
			case name == "part" && item != v:
				within = slices.Concat(k.Kind.Keys, draftKeys(item.TextOf("draft")))
			}
			if item.Kind == strict.KindTable {
				o.write(item, within, unit)
			}
		}
	}
}

func (o otherwise) values(v *strict.Value, k Kind, unit measure.Unit) {
	if v.Kind == strict.KindList && k.Form != Points {
		for _, item := range v.Items {
			o.values(item, k, unit)
		}
		return
	}
	o(v, k, unit)
}

// texted makes a value text.
func texted(v *strict.Value, s string) { v.Kind, v.Text = strict.KindText, s }

// asText writes numbers in quotes, where they may stand there.
func asText(v *strict.Value, k Kind, _ measure.Unit) {
	if v.Kind == strict.KindNumber && (k.Form == Length || k.Form == Ratio || k.Form == Number) {
		texted(v, strconv.FormatFloat(v.Number, 'f', -1, 64))
	}
}

// asFractions writes numbers of eighths as a maker does: 2 3/8.
func asFractions(v *strict.Value, k Kind, _ measure.Unit) {
	whole, part := math.Modf(v.Number)
	if v.Kind != strict.KindNumber || k.Form != Length && k.Form != Ratio || v.Number < 0 || part*8 != math.Trunc(part*8) {
		return
	}
	switch eighths := strconv.Itoa(int(part*8)) + "/8"; {
	case part == 0:
		texted(v, strconv.Itoa(int(whole)))
	case whole == 0:
		texted(v, eighths)
	default:
		texted(v, strconv.Itoa(int(whole))+" "+eighths)
	}
}

// withUnits gives each bare length its unit.
func withUnits(v *strict.Value, k Kind, unit measure.Unit) {
	if k.Form != Length || v.Kind == strict.KindBool || v.Kind == strict.KindTable ||
		v.Kind == strict.KindText && strings.Trim(v.Text, "-0123456789./ ") != "" {
		return
	}
	asText(v, k, unit)
	texted(v, " "+v.Text+"  "+strings.ToUpper(unit.String())+" ")
}

// inOther writes lengths in another unit, to a number that is as near as there is.
func inOther(v *strict.Value, k Kind, unit measure.Unit) {
	withUnits(v, k, unit)
	if k.Form != Length || v.Kind != strict.KindText {
		return
	}
	if exact, err := measure.ParseExact(v.Text, unit); err == nil {
		other := measure.Millimetre
		if mm := exact.FloatString(9); strings.TrimRight(mm, "0.") != "" {
			texted(v, mm+" "+other.String())
		}
	}
}

// said are jobs of every draft and table, and those that come with the program.
func said(t *testing.T) map[string]string {
	all := map[string]string{"every table": everyTable}
	for _, d := range drafts {
		if d.name != outlineFile.name {
			all[d.name] = exampleJob(d)
		}
	}
	for name, src := range jobs(t) {
		all[filepath.Join("../../../../testdata", name)] = string(src)
	}
	return all
}

// A job says the same with its numbers in quotes, as fractions, with units, or in
// millimetres, and with the keys of each table the other way round.
func TestJobsSaidOtherwiseAreTheSame(t *testing.T) {
	ways := map[string]otherwise{"as text": asText, "as fractions": asFractions, "with units": withUnits,
		"in mm": inOther}
	for name, src := range said(t) {
		root, bad := fileFormat.Parse([]byte(src))
		if bad != nil {
			t.Fatalf("%s: %v", name, bad)
		}
		f := File{name: name, root: root, disk: new(disk)}
		want, wrong := f.read(root)
		if wrong != nil {
			t.Fatalf("%s: %v", name, wrong)
		}
		for way, o := range ways {
			changed := root.Clone()
			o.write(changed, withoutStep(fileKeys), want.Unit)
			got, wrong := f.read(changed)
			if wrong != nil {
				t.Errorf("%s, %s: %v", name, way, wrong)
				continue
			}
			if diff := differ(want, got); diff != "" {
				t.Errorf("%s, %s: %s", name, way, diff)
			}
		}
	}
}

// withoutStep leaves alone what counts in the unit of a price, of which the job's is none.
func withoutStep(keys []Key) []Key {
	keys = slices.Clone(keys)
	for i, k := range keys {
		if k.Name == "sold_by" {
			keys[i].Kind = text
		}
		keys[i].Kind.Keys = withoutStep(keys[i].Kind.Keys)
	}
	return keys
}

// differ says how two jobs differ, but for rounding at the far end of a length.
func differ(want, got *Job) string {
	near := cmp.Comparer(func(a, b float64) bool { return a == b || math.Abs(a-b) < 1e-6 })
	deep := cmp.Exporter(func(reflect.Type) bool { return true })
	a, b := want.undrafted(), got.undrafted()
	return cmp.Diff(a, b, near, deep)
}

// The unit that bare numbers count in changes no piece where every length brings its own:
// what stands in for a key that is missing is a length, not a number.
func TestUnitOfTheFileChangesNoPiece(t *testing.T) {
	pieces := 0
	for name, src := range said(t) {
		root, _ := fileFormat.Parse([]byte(src))
		f := File{name: name, root: root, disk: new(disk)}
		inches, wrong := f.read(root)
		if wrong != nil {
			t.Fatalf("%s: %v", name, wrong)
		}
		changed := root.Clone()
		otherwise(inOther).write(changed, withoutStep(fileKeys), inches.Unit)
		other := "cm"
		if inches.Unit.Metric() {
			other = "in"
		}
		changed.Set("unit", changed.At, &strict.Value{Kind: strict.KindText, Text: other})
		metric, wrong := f.read(changed)
		if wrong != nil {
			t.Errorf("%s in %s: %v", name, other, wrong)
			continue
		}
		for i, p := range inches.Parts {
			for k := range p.Layers {
				a, err := p.Layers[k].Drafted()
				b, bad := metric.Parts[i].Layers[k].Drafted()
				if err != nil || bad != nil || len(a.Pieces) != len(b.Pieces) {
					t.Fatalf("%s, %s: %v, in %s %v", name, p.Name, err, other, bad)
				}
				for n := range a.Pieces {
					pieces++
					if x, y := a.Pieces[n].Cut, b.Pieces[n].Cut; !alikeRings(x, y) {
						t.Errorf("%s, %s: %s is another one in %s: %v and %v", name, p.Name, a.Pieces[n].Name, other,
							x.Bound(), y.Bound())
					}
				}
			}
		}
	}
	if pieces < 150 {
		t.Errorf("only %d pieces", pieces)
	}
}

// alikeRings says whether two outlines are the same but for rounding to the lattice.
func alikeRings(a, b orb.Ring) bool {
	return slices.EqualFunc(a, b, func(p, q orb.Point) bool {
		return math.Abs(p[0]-q[0]) < 2*plane.Lattice && math.Abs(p[1]-q[1]) < 2*plane.Lattice
	})
}
