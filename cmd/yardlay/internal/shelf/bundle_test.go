package shelf

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/nest"
)

// anyKept draws pieces, pairs among them, and names for some of their copies.
func anyKept(t *rapid.T) (nest.Problem, Keeping) {
	p := nest.Problem{Strip: nest.Strip{Width: 100}}
	for i := range rapid.IntRange(1, 3).Draw(t, "pieces") {
		piece := oblong(fmt.Sprint(i), float64(rapid.IntRange(1, 9).Draw(t, "along")), 2,
			2*rapid.IntRange(1, 3).Draw(t, "pairs"))
		piece.Mirror = rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired}).Draw(t, "mirror")
		p.Pieces = append(p.Pieces, piece)
	}
	names := map[[2]int]string{}
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			names[[2]int{i, c}] = rapid.SampledFrom([]string{"", "gown", "lining", "slip"}).Draw(t, "name")
		}
	}
	return p, func(pl nest.Placed) string { return names[[2]int{pl.Piece, pl.Copy}] }
}

// Every copy is in one bundle, with all that share its name and nothing else; bundles of
// one entry hold as many copies of each kind, and cover its area.
func TestBundlesPartTheCopies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, keep := anyKept(t)
		kinds := kindsOf(p)
		seen := map[[2]int]bool{}
		for _, b := range bundlesOf(kinds, keep) {
			for _, each := range b.each {
				var names []string
				area := 0.0
				for k, copies := range each {
					if len(copies) != b.of[k] {
						t.Fatalf("%v is no bundle of %v", each, b.of)
					}
					for _, c := range copies {
						id := [2]int{kinds[k].piece, c}
						if seen[id] {
							t.Fatalf("copy %v is in two bundles", id)
						}
						seen[id] = true
						names = append(names, keep(nest.Placed{Piece: id[0], Copy: c}))
						area += p.Pieces[id[0]].Outline[2][0] * 2
					}
				}
				if len(slices.Compact(slices.Sorted(slices.Values(names)))) != 1 || names[0] == "" && len(names) > 1 {
					t.Fatalf("a bundle of %q", names)
				}
				alike := slices.DeleteFunc(keep.Names(p), func(s string) bool { return s != names[0] })
				if names[0] != "" && len(alike) != len(names) {
					t.Fatalf("%d of the %d copies of %q are in one bundle", len(names), len(alike), names[0])
				}
				if kind, single := b.single(); single != (len(names) == 1) || single && len(each[kind]) != 1 {
					t.Fatalf("%v is single: %v", each, single)
				}
				if math.Abs(area-b.area) > 1e-3 {
					t.Fatalf("a bundle of %v mm2 is counted as %v", area, b.area)
				}
			}
		}
		if want := len(keep.Names(p)); len(seen) != want {
			t.Fatalf("%d copies are in bundles, of %d", len(seen), want)
		}
	})
}

// Of what lies on a strip only whole bundles are kept, no more than were asked for, and
// none that would have been whole is dropped where bundles share nothing.
func TestCompleteKeepsWholeBundles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, keep := anyKept(t)
		f, err := NewFiller(p, nil, Options{Keep: keep})
		if err != nil {
			t.Fatal(err)
		}
		var places []placedKind
		have := make([]int, len(f.kinds))
		for k, kind := range f.kinds {
			for range rapid.IntRange(0, len(kind.copies)).Draw(t, "laid") {
				places, have[k] = append(places, placedKind{kind: k}), have[k]+1
			}
		}
		asked := make(counts, len(f.bundles))
		for b := range asked {
			asked[b] = rapid.IntRange(0, f.all[b]).Draw(t, "asked")
		}
		got, kept := f.complete(places, asked)
		used := make([]int, len(f.kinds))
		for _, l := range kept {
			used[l.kind]++
		}
		for k := range f.kinds {
			need := 0
			for b := range f.bundles {
				need += got[b] * f.bundles[b].of[k]
			}
			if used[k] != need {
				t.Fatalf("%d copies of kind %d lie for bundles of %d", used[k], k, need)
			}
		}
		for b, bundle := range f.bundles {
			more := got[b] < asked[b]
			for k, n := range bundle.of {
				more = more && (n == 0 || used[k]+n <= have[k])
			}
			if more || got[b] > asked[b] {
				t.Fatalf("of %v %v are kept, with %v there of %v", asked, got, have, f.bundles)
			}
		}
	})
}

// What is kept together and still comes from two lengths is found, what nobody named is not.
func TestCheckKeptFindsWhatIsSplit(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 100}, Pieces: []nest.Piece{oblong("panel", 10, 5, 3)}}
	name := func(names ...string) Keeping { return func(pl nest.Placed) string { return names[pl.Copy] } }
	d := newDealer(p, kindsOf(p), bundlesOf(kindsOf(p), nil))
	shares := []Share{d.share(p.Strip, counts{2}, nil), d.share(p.Strip, counts{1}, nil)}
	for _, c := range []struct {
		keep Keeping
		ok   bool
	}{
		{nil, true}, {name("", "", ""), true}, {name("gown", "gown", "slip"), true}, {name("slip", "gown", "gown"), false},
		{name("gown", "slip", "gown"), false}, {name("", "gown", ""), true},
	} {
		err := checkKept(c.keep, shares)
		if (err == nil) != c.ok || err != nil && !strings.Contains(err.Error(), `"gown" is cut from two lengths`) {
			t.Errorf("got %v", err)
		}
	}
}

// Few rectangles, some of them kept together, on two strips: what is bought is what the
// best of all assignments buys that split no two of one name.
func TestKeptRectanglesAgainstAllAssignments(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 10))
	verdicts, split := map[Verdict]int{}, 0
	for range 60 {
		p := nest.Problem{Strip: nest.Strip{Width: 6}}
		var names []string
		for i := range 3 + rng.IntN(3) {
			p.Pieces = append(p.Pieces, oblong(string(rune('a'+i)), float64(1+rng.IntN(4)), float64(1+rng.IntN(4)), 1))
			names = append(names, []string{"", "gown", "slip"}[rng.IntN(3)])
		}
		keep := func(pl nest.Placed) string { return names[pl.Piece] }
		strips := []Length{
			leftover("first", float64(2+rng.IntN(4)), float64(2+rng.IntN(4))),
			leftover("second", float64(2+rng.IntN(4)), float64(2+rng.IntN(4))),
		}
		u := useShelf(t, p, strips, Options{Bought: by(1), solve: exactly, Keep: keep})
		verdicts[u.Verdict]++
		got := u.Bought
		if u.Verdict == Idle && u.Whole == 0 {
			got = float64(shortest(p.Pieces, 6)) // nothing fits on the shelf, nothing was laid
		}
		want := leastOf(p, strips, names)
		if got != want {
			t.Errorf("%v: %v mm are bought, the best assignment buys %v: %v named %q on %v", u.Verdict, got, want,
				p.Pieces, names, strips)
		}
		if want > leastOfAll(p, strips) {
			split++
		}
	}
	if len(verdicts) < 3 || split < 5 {
		t.Errorf("only some verdicts were met: %v; keeping costs cloth in %d jobs", verdicts, split)
	}
}
