package draft

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/interp"

	"yardlay/shapes/say"
)

// gusset is a wedge set into a slit of a panel from its top or its lower edge. What the half
// body is wider there than at the wedge's point, its spring, or a share of it, is the
// wedge's and not the seams':
//
//	bust, from the top          hip, from the lower edge
//	 .---.                           point
//	(     )   widest at the           /\         opening evenly:
//	 \   /    bust                   /  \        a sector whose arc
//	  \ /                           /    \       carries the edge on
//	  point                        '--__--'
//
// So panels and wedges together are as wide at every level as the figure is, and between
// levels they lie between: both parts rise or fall together. Each side of a wedge is as
// long as the slit, chord by chord.
//
// Corsets of the middle of the nineteenth century had both; where their points lie is the
// maker's (from memory).
type gusset struct {
	name   string // "bust gusset" or "hip gusset"
	panel  int
	point  float64                // below the over-bust, mm
	width  *interp.FritschButland // over mm below the over-bust
	bust   bool                   // from the top edge; else from the lower one
	across float64                // where the slit lies in the panel, mm
}

const (
	bustGusset = "bust gusset"
	hipGusset  = "hip gusset"

	leastGusset  = 8             // the least that one adds, mm: less is left to the seams
	mostOpening  = math.Pi / 2   // the widest point: a wider wedge does not lie on a body
	besideGusset = 10            // between a slit and the channels or seams beside it, mm
	leastSlit    = 2 * leastBone // mm
)

// gusseted says whether anything is set in.
func (p PanelledBody) gusseted() bool { return p.BustGusset > 0 || p.HipGusset > 0 }

// gussetShare is the share of the spring that gussets take.
func (p PanelledBody) gussetShare() float64 {
	if p.GussetShare == 0 {
		return 1
	}
	return p.GussetShare
}

func (p PanelledBody) checkGussets() error {
	if err := notNegative(measured{"bust gusset", p.BustGusset}, measured{"hip gusset", p.HipGusset}); err != nil {
		return err
	}
	if s := p.GussetShare; !(s >= 0 && s <= 1) {
		return fmt.Errorf("gussets take %g of the spring, must be above 0 and at most 1", s)
	}
	f := p.Figure
	if p.GussetShare > 0 && !p.gusseted() {
		return say.Errorf("gussets take %g of the spring, and there are none", p.GussetShare).
			Hint("give a bust gusset or a hip gusset, or leave the share out")
	}
	bust, under := f.OverBustUp-f.BustUp+leastLevel, f.OverBustUp-f.UnderBustUp
	switch {
	case p.BustGusset > 0 && (p.BustGusset < bust || p.BustGusset > under):
		return say.Errorf("bust gusset is %.1f: its point must lie from %.1f to %.1f below the over-bust, between bust and "+
			"under-bust", say.MM(p.BustGusset), say.MM(bust), say.MM(under)).
			Hint("a length between the two")
	case p.HipGusset > 0 && f.HighHipDown == 0:
		return say.Errorf("a hip gusset of %.1f on a body that ends at the waist", say.MM(p.HipGusset)).
			Hint("let it end at the high hip, or leave the gusset out")
	case p.HipGusset > 0 && p.HipGusset < leastSlit:
		return say.Errorf("hip gusset is %.1f, must be at least %v", say.MM(p.HipGusset), say.MM(leastSlit)).
			Hint("a longer one; on a small body leave it to the seams")
	case p.HipGusset > 0 && p.HipGusset > f.HighHipDown-p.SideRise:
		return say.Errorf("hip gusset is %.1f: its point would lie above the waist, %.1f from the lower edge at the side",
			say.MM(p.HipGusset), say.MM(f.HighHipDown-p.SideRise)).
			Hint("a shorter one")
	}
	return nil
}

// setGussets says where the wedges lie and how wide they are at every level, from the
// springs of the half body that has none.
func (b *panelled) setGussets(half *interp.FritschButland) error {
	if b.BustGusset > 0 {
		at := b.levels[:atUnderBust]
		panels := []int{0, 1} // on both sides of the seam over the bust
		if len(b.shares) == 6 {
			panels = []int{1}
		}
		if err := b.setIn(half, gusset{name: bustGusset, point: b.BustGusset, bust: true}, at, panels); err != nil {
			return err
		}
	}
	if b.HipGusset > 0 {
		end := b.levels[len(b.levels)-1]
		point := b.bottom.at(sidePosition) + b.HemRaise - b.HipGusset
		g := gusset{name: hipGusset, point: point}
		return b.setIn(half, g, []figureLevel{end}, []int{b.panelAt(sidePosition)})
	}
	return nil
}

// withoutGussets sets the gussets and returns the spring of the half that is left to the
// seams, through the levels xs, ys and the points of the wedges.
func (b *panelled) withoutGussets(half *interp.FritschButland, xs, ys []float64) (*interp.FritschButland, error) {
	if err := b.setGussets(half); err != nil {
		return nil, err
	}
	for _, g := range b.gussets {
		i, there := slices.BinarySearch(xs, g.point)
		if near := min(i, len(xs)-1); math.Abs(xs[near]-g.point) < 1e-6 || i > 0 && g.point-xs[i-1] < 1e-6 {
			there = true // at the under-bust, or the waist
		}
		if !there {
			xs, ys = slices.Insert(xs, i, g.point), slices.Insert(ys, i, half.Predict(g.point))
		}
	}
	left := slices.Clone(ys)
	for i, x := range xs {
		left[i] -= b.taken(x)
	}
	out := &interp.FritschButland{}
	return out, out.Fit(xs, left)
}

// panelAt is the panel whose middle lies nearest to a position on the half body.
func (b *panelled) panelAt(position float64) int {
	nearest, best := 0, math.Inf(1)
	for i, s := range b.shares {
		if off := math.Abs(b.position(i) + s/2 - position); off < best {
			nearest, best = i, off
		}
	}
	return nearest
}

// setIn sets wedges alike into some panels; at are the levels that they reach.
func (b *panelled) setIn(half *interp.FritschButland, g gusset, at []figureLevel, panels []int) error {
	share := b.gussetShare() / float64(len(panels))
	atPoint := half.Predict(g.point)
	var xs, ys []float64
	for _, l := range at {
		w := share * (half.Predict(l.x) - atPoint)
		if w < leastGusset {
			return say.Errorf("a %s would be %.1f wide at the %s, must be %v or more", g.name, say.MM(max(w, 0)), l.name,
				say.MM(leastGusset)).
				Hint("leave it out: the body widens too little from its point")
		}
		xs, ys = append(xs, l.x), append(ys, w)
	}
	if g.bust {
		xs, ys = append(xs, g.point), append(ys, 0)
	} else {
		xs, ys = append([]float64{g.point}, xs...), append([]float64{0}, ys...)
	}
	g.width = &interp.FritschButland{}
	if err := g.width.Fit(xs, ys); err != nil {
		return err
	}
	for _, i := range panels {
		g.panel = i
		b.gussets = append(b.gussets, g)
	}
	return nil
}

// at returns how wide the wedge is at a place below the over-bust, mm. That at the hip
// opens on beyond the high hip.
func (g gusset) at(x float64) float64 {
	switch {
	case g.bust == (x >= g.point):
		return 0
	case g.bust:
		return g.width.Predict(x)
	}
	return g.opening() * (x - g.point)
}

// opening is the angle of a wedge at the hip, rad.
func (g gusset) opening() float64 { return g.width.Predict(g.point + 1) }

// taken is what all wedges of a half body are wide at a place, mm.
func (b *panelled) taken(x float64) float64 {
	sum := 0.0
	for _, g := range b.gussets {
		sum += g.at(x)
	}
	return sum
}

// slitIn says whether a panel has a slit in its middle.
func (b *panelled) slitIn(i int) bool {
	for _, g := range b.gussets {
		if g.panel == i {
			return true
		}
	}
	return false
}

// placeGussets lays the slits along the middle of their panels at their points, and refuses
// those that have no room.
func (b *panelled) placeGussets() error {
	names := panelNames(len(b.shares))
	for k := range b.gussets {
		g := &b.gussets[k]
		lower, upper := b.bounds(g.panel, g.point)
		g.across = (lower + upper) / 2
		line := b.slit(*g)
		needs := b.Channel + besideGusset
		for _, v := range line {
			lower, upper := b.bounds(g.panel, v[0])
			if room := min(upper-g.across, g.across-lower); room < needs {
				return say.Errorf("%s of the %s panel lies %.1f from its seam, needs %.1f", g.name, names[g.panel],
					say.MM(room), say.MM(needs)).
					Hint("fewer panels, narrower channels, or no gusset")
			}
		}
		if open := g.opens(); open > mostOpening {
			return say.Errorf("%s opens to %.0f degrees at its point, the most is %.0f", g.name, open*180/math.Pi,
				mostOpening*180/math.Pi).
				Hint("a longer gusset, or a smaller share of the spring")
		}
	}
	return nil
}

// slit is that of a gusset on its panel, from its point to the edge.
func (b *panelled) slit(g gusset) orb.LineString {
	line := b.within(g.panel, func(x float64) orb.Point { return orb.Point{x, g.across} })
	if g.bust {
		return orb.LineString{{g.point, g.across}, line[0]}
	}
	return orb.LineString{{g.point, g.across}, line[len(line)-1]}
}
