package remains

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/say"
)

// judge holds outlines to the cloth: apart from each other, from the pieces as they are cut and from
// flaws, within its edges. It is exact, and no code of the overlays.
func (c Cloth) judge(all []Left) error {
	if len(all) == 0 {
		return nil
	}
	p := nest.Problem{Strip: c.Strip}
	p.Strip.Repeat = nest.Repeat{}
	var l nest.Layout
	lay := func(name string, r orb.Ring) {
		p.Pieces = append(p.Pieces, nest.Piece{Name: name, Outline: r, Count: 1})
		l.Placed = append(l.Placed, nest.Placed{Piece: len(p.Pieces) - 1})
	}
	for i, one := range all {
		lay(fmt.Sprintf("outline %d", i+1), one.OnCloth())
	}
	for i, r := range c.Pieces {
		lay(fmt.Sprintf("piece %d", i+1), r)
	}
	l.Length = p.Used(l.Placed)
	if err := nest.Verify(p, l); err != nil {
		return say.Errorf("what remains of the cloth does not hold and is thrown away: %w", err)
	}
	return nil
}
