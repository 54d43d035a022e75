package sheet

import (
	"slices"
	"strings"
)

// carries sets the words of a piece of a marker at full size: all that it carries or, where
// it has no room for that, as many groups of its facts as it has room for. What is left
// out stands in the key.
func (p *page) carries(pl Placed, o Outline) (label, bool) {
	for n := len(pl.Facts); n > 0; n-- {
		texts := slices.Concat(append([][]string{pl.texts()}, pl.Facts[:n]...)...)
		if l, ok := fullLabel(o, arrangements(texts), p.full); ok {
			p.leave(pl, pl.Facts[n:])
			return l, true
		}
	}
	l, ok := labelled(o, blocks(pl.texts()...), p.k)
	if ok {
		p.leave(pl, pl.Facts)
	}
	return l, ok
}

// leave says in the key what a piece carries that has no room in it.
func (p *page) leave(pl Placed, facts [][]string) {
	said := strings.Join(slices.Concat(facts...), " · ")
	if line := pl.Name + ": " + said; said != "" && !slices.Contains(p.left, line) {
		p.left = append(p.left, line)
	}
}
