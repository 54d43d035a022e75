package judge

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestPartsAgainstCells: of layouts with copies left out the judge refuses exactly those
// that break a rule besides, by cells; what one piece does wrong is found from that piece,
// and nothing else is laid to it.
func TestPartsAgainstCells(t *testing.T) {
	found := map[Rule]int{}
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 32))
		p := cellProblem(r)
		l, ok := cellLayout(r, p)
		if !ok {
			continue
		}
		l.Placed = slices.Clone(l.Placed)
		for range 1 + r.IntN(2) {
			spoil(r, &p, &l)
		}
		p.Pins = nil // of copies that may be missing
		r.Shuffle(len(l.Placed), func(i, k int) { l.Placed[i], l.Placed[k] = l.Placed[k], l.Placed[i] })
		l.Placed = l.Placed[:1+r.IntN(len(l.Placed))]
		want := rulesOfPart(p, l)
		err := New(p).VerifyPart(l.Placed, never)
		var broken *Broken
		if is := errors.As(err, &broken); is != (len(want) > 0) || is && !slices.Contains(want, broken.Rule) {
			t.Fatalf("job %d: the judge says %v, by cells %q is broken\n%+v\n%+v", seed, err, want, p, l)
		}
		if len(want) > 0 && slices.Contains(want, WrongCount) {
			continue
		}
		of := r.IntN(len(l.Placed))
		others := slices.Delete(slices.Clone(l.Placed), of, of+1)
		faults := New(p).Faults(l.Placed, of)
		for _, b := range faults {
			found[b.Rule]++
			if !slices.Contains(want, b.Rule) {
				t.Fatalf("job %d: %v, by cells %q\n%+v\n%+v", seed, b, want, p, l)
			}
			if b.Other != "" && (b.Pair[0] != of || b.Piece != p.Pieces[l.Placed[of].Piece].Name) {
				t.Fatalf("job %d: %+v is not told of %d", seed, b, of)
			}
		}
		if len(faults) > 0 != (len(want) > 0) && len(rulesOfPart(p, Layout{Placed: others})) == 0 {
			t.Fatalf("job %d: faults %v, by cells %q\n%+v\n%+v", seed, faults, want, p, l)
		}
	}
	for _, r := range []Rule{OutsideStrip, InForbidden, Overlap, TooClose, WrongTurn, WrongMirror, OffRepeat, MixedGrain} {
		if found[r] == 0 {
			t.Errorf("%q is never found", r)
		}
	}
}

// rulesOfPart lists the rules that what is laid breaks, by cells, were there no more to lay.
func rulesOfPart(p Problem, l Layout) []Rule {
	whole := p
	whole.Pieces = slices.Clone(p.Pieces)
	rules := brokenRules(whole, l)
	missing := false
	seen := map[copyID]bool{}
	for _, pl := range l.Placed {
		id := copyID{pl.Piece, pl.Copy}
		missing = missing || seen[id] || pl.Copy < 0 || pl.Copy >= p.Pieces[pl.Piece].Count
		seen[id] = true
	}
	return slices.DeleteFunc(rules, func(r Rule) bool { return r == WrongLength || r == WrongCount && !missing })
}
