package shelf

import (
	"slices"

	"yardlay/nest"
)

// bundle is copies that are cut from one length of cloth: a single one, a pair or
// a garment. Bundles of the same copies of the same kinds are one entry.
type bundle struct {
	of   []int     // copies of each kind in one of them
	each [][][]int // the copies of each kind, of the piece, of each of them
	area float64   // of one of them, mm2
}

// bundlesOf puts those copies together that one name is given to, "" standing for a
// copy by itself; without names every copy is one. They stand in the order of their
// kinds.
func bundlesOf(kinds []kind, name func(nest.Placed) string) []bundle {
	var lots [][][]int // by lot and kind
	named := map[string]int{}
	for k, kind := range kinds {
		for _, c := range kind.copies {
			called := ""
			if name != nil {
				called = name(nest.Placed{Piece: kind.piece, Copy: c, Mirrored: kind.odd})
			}
			i, ok := named[called]
			if !ok || called == "" {
				i = len(lots)
				lots, named[called] = append(lots, make([][]int, len(kinds))), i
			}
			lots[i][k] = append(lots[i][k], c)
		}
	}
	var bundles []bundle
	for _, lot := range lots {
		of := make([]int, len(kinds))
		for k := range lot {
			of[k] = len(lot[k])
		}
		i := slices.IndexFunc(bundles, func(b bundle) bool { return slices.Equal(b.of, of) })
		if i < 0 {
			i = len(bundles)
			b := bundle{of: of}
			for k, n := range of {
				b.area += float64(n) * kinds[k].area
			}
			bundles = append(bundles, b)
		}
		bundles[i].each = append(bundles[i].each, lot)
	}
	return bundles
}

// single is the kind of bundles of one copy each.
func (b bundle) single() (kind int, ok bool) {
	for k, n := range b.of {
		if n > 0 {
			if ok || n > 1 {
				return 0, false
			}
			kind, ok = k, true
		}
	}
	return kind, ok
}

// complete counts the bundles, no more than c, that what lies on a strip makes up,
// and keeps the places of those.
func (f *Filler) complete(places []placedKind, c counts) (counts, []placedKind) {
	have, need, got := make([]int, len(f.kinds)), make([]int, len(f.kinds)), make(counts, len(f.bundles))
	for _, l := range places {
		have[l.kind]++
	}
	for b, bundle := range f.bundles {
		for got[b] < c[b] && !slices.ContainsFunc(f.held(bundle),
			func(k int) bool { return need[k]+bundle.of[k] > have[k] }) {
			for k, n := range bundle.of {
				need[k] += n
			}
			got[b]++
		}
	}
	return got, slices.DeleteFunc(places, func(l placedKind) bool {
		need[l.kind]--
		return need[l.kind] < 0
	})
}

// held lists the kinds that a bundle has copies of.
func (f *Filler) held(b bundle) []int {
	var kinds []int
	for k, n := range b.of {
		if n > 0 {
			kinds = append(kinds, k)
		}
	}
	return kinds
}
