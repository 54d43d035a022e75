package job

import (
	"slices"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// alikeDrafted says whether two jobs come to the same pieces.
func alikeDrafted(t *testing.T, a, b *Job) bool {
	t.Helper()
	for i, l := range a.Parts[0].Layers {
		x, err := l.Drafted()
		y, bad := b.Parts[0].Layers[i].Drafted()
		if bad != nil {
			continue // refused, with a word on what it would need
		}
		if err != nil {
			t.Fatal(err)
		}
		same := slices.EqualFunc(x.Pieces, y.Pieces, func(p, q shapes.Piece) bool {
			return p.Count == q.Count && alikeRings(p.Cut, q.Cut)
		})
		if !same {
			return false
		}
	}
	return true
}

// What the reference says a key of a draft is where it is left out, it is.
func TestDefaultsAreWhatTheReferenceSays(t *testing.T) {
	tried := 0
	for _, d := range drafts {
		root, bad := fileFormat.Parse([]byte(exampleJob(d)))
		if bad != nil {
			t.Fatal(bad)
		}
		for _, k := range d.keys {
			left := changed(root, k.Name, nil)
			var v *strict.Value
			switch f, ok := strict.Fraction(k.Default); {
			case left == nil:
				continue
			case k.Kind.Form == OneOf && slices.Contains(k.Kind.Choices, k.Default):
				v = word(k.Default)
			case k.Kind.Form == Length && k.Default != "":
				if _, err := measure.Parse(k.Default, measure.Inch); err != nil {
					continue
				}
				v = word(k.Default)
			case ok && k.Kind.Form != Text:
				v = num(f)
			default:
				continue
			}
			given := changed(root, k.Name, v)
			if given == nil {
				continue // what a pleated cap says, say, means nothing in the example
			}
			tried++
			if !left.Same(given) && !alikeDrafted(t, left, given) {
				t.Errorf("%s: `%s` is not %s where it is left out", d.name, k.Name, k.Default)
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d defaults were tried", tried)
	}
}

// Larger allowances cut larger pieces, of every draft.
func TestLargerAllowancesCutLargerPieces(t *testing.T) {
	cut := func(made draft.Result) (area float64) {
		for _, p := range made.Pieces {
			area += p.Unfold().Area() * float64(p.Count)
		}
		return area
	}
	for _, key := range []string{"seam", "hem"} {
		asChanged(t, func(root *strict.Value, _ measure.Unit) {
			allow := root.Fields["allowance"].Value
			allow.Set(key, allow.At, word("40 mm"))
		}, func(name string, a, b draft.Result) {
			with := map[string]float64{"seam": measure.Inches / 2, "hem": measure.Inches}[key] // as the examples have it
			takes := slices.ContainsFunc(a.Pieces, func(p shapes.Piece) bool {
				return slices.ContainsFunc(p.Edges, func(e shapes.Edge) bool {
					return e.Allowance == with && (e.Finish() == shapes.Turned) == (key == "hem")
				})
			})
			if x, y := cut(a), cut(b); y < x-1e-6 || takes != (y > x+1) {
				t.Errorf("%s: pieces of %.0f mm2, with a larger %s of %.0f", name, x, key, y)
			}
		})
	}
}
