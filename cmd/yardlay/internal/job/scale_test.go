package job

import (
	"math"
	"strconv"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// larger writes every length of a file k times as long.
func larger(k float64) otherwise {
	return func(v *strict.Value, kind Kind, unit measure.Unit) {
		inOther(v, kind, unit)
		if kind.Form != Length || v.Kind != strict.KindText {
			return
		}
		if mm, err := measure.Parse(v.Text, unit); err == nil {
			texted(v, strconv.FormatFloat(k*mm, 'f', 9, 64)+" mm")
		}
	}
}

// areaOf is the area within the seam lines of all copies of a draft.
func areaOf(made draft.Result) float64 {
	sum := 0.0
	for _, p := range made.Pieces {
		sum += plane.Area(p.Seam) * float64(p.Count)
	}
	return sum
}

// ofTables are drafts that take lengths from tables or common practice which do not grow
// with the body, and how far from similar that lets them be.
var ofTables = map[string]float64{"bodice-block": 0.02, "sleeve": 0.005, "hoop-petticoat": 0.006}

// asChanged drafts the example of each draft as it is and as changed, and compares what they
// make of each layer.
func asChanged(t *testing.T, change func(root *strict.Value, unit measure.Unit),
	compare func(name string, a, b draft.Result)) {
	for _, d := range drafts {
		if d.name == outlineFile.name {
			continue // its lengths are those of a file, and its outline may be the cut line
		}
		root, bad := fileFormat.Parse([]byte(exampleJob(d)))
		if bad != nil {
			t.Fatalf("%s: %v", d.name, bad)
		}
		f := File{name: d.name, root: root, disk: new(disk)}
		j, wrong := f.read(root)
		if wrong != nil {
			t.Fatalf("%s: %v", d.name, wrong)
		}
		changed := root.Clone()
		change(changed, j.Unit)
		other, wrong := f.read(changed)
		if wrong != nil {
			t.Errorf("%s: %v", d.name, wrong)
			continue
		}
		for i, p := range j.Parts {
			for n := range p.Layers {
				a, err := p.Layers[n].Drafted()
				b, bad := other.Parts[i].Layers[n].Drafted()
				if err != nil || bad != nil {
					t.Errorf("%s: %v, changed %v", d.name, err, bad)
					continue
				}
				compare(d.name, a, b)
			}
		}
	}
}

// Measures k times as long give similar pieces: k times as long, k^2 times the area. What
// is not so takes a length from nowhere, or one of another unit.
func TestDraftsGrowWithTheirMeasures(t *testing.T) {
	const k = 1.05
	asChanged(t, func(root *strict.Value, unit measure.Unit) {
		larger(k).write(root, withoutStep(fileKeys), unit)
	}, func(name string, a, b draft.Result) {
		if len(a.Pieces) != len(b.Pieces) {
			t.Errorf("%s: %d pieces, larger %d", name, len(a.Pieces), len(b.Pieces))
		}
		if ratio := areaOf(b) / areaOf(a) / k / k; math.Abs(ratio-1) > max(3e-4, ofTables[name]) {
			t.Errorf("%s: the area grows by %.5f more than it should", name, ratio-1)
		}
	})
}

// withAllowances are drafts whose finished pieces hold allowances: layers of net are whole
// widths of cloth, less what the seams take, as flounces over hoops are, and loops are cut
// from strips of several.
var withAllowances = map[string]bool{"net-layers": true, "loops": true, "hoop-petticoat": true}

// Allowances are cut outside the finished lines: other ones leave those where they are, of
// strips all together.
func TestAllowancesLeaveTheFinishedLines(t *testing.T) {
	asChanged(t, func(root *strict.Value, _ measure.Unit) {
		for key, mm := range map[string]string{"seam": "9 mm", "hem": "17 mm"} {
			allow := root.Fields["allowance"].Value
			allow.Set(key, allow.At, &strict.Value{Kind: strict.KindText, Text: mm})
		}
	}, func(name string, a, b draft.Result) {
		if x, y := areaOf(a), areaOf(b); math.Abs(x-y) > 1e-3*x && !withAllowances[name] {
			t.Errorf("%s has a finished area of %v, with other allowances %v", name, x, y)
		}
	})
}
