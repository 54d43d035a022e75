package draft

import (
	"fmt"

	"yardlay/shapes"
)

// joins returns the seams of the strips of each tier end to end, and those between
// the tiers: each further tier is gathered onto the lower edge of the one above.
// The two ends of a tier are left open unless it is closed to a ring.
func (s Strip) joins(tiers []tier) []shapes.Join {
	var out []shapes.Join
	for i, t := range tiers {
		prefix := ""
		if len(tiers) > 1 {
			prefix = fmt.Sprintf("tier %d, ", i+1)
		}
		out = append(out, t.piecing.endToEnd(s.tierName(i, len(tiers)), prefix)...)
	}
	if first := tiers[0]; first.Edge > 0 && !s.yoked {
		out = append(out, shapes.Join{
			Name: "gathered edge to its edge", A: s.upper(tiers), Notches: quartersOf(first.Edge),
			B: shapes.JoinSide{Onto: "the edge it is gathered onto", Length: first.Edge},
		})
	}
	for i := 1; i < len(tiers); i++ {
		above, below := tiers[i-1], tiers[i]
		out = append(out, shapes.Join{
			Name:    fmt.Sprintf("tier %d to tier %d", i, i+1),
			Notches: quartersOf(below.Edge),
			A:       shapes.JoinSide{Edges: above.piecing.run(s.tierName(i-1, len(tiers)), above.lower.name)},
			B: shapes.JoinSide{
				Edges:     s.gatheredRun(below, s.tierName(i, len(tiers))),
				Treatment: gathered(below.Fullness),
			},
		})
	}
	return out
}

// gathered gathers an edge of a fullness onto a line; what is as long as the line but
// for the lattice is not gathered.
func gathered(fullness float64) shapes.Treatment { return shapes.Treatment{Gather: max(1, fullness)} }

// upper returns the gathered edge of the first tier: what it is gathered onto, or flat.
func (s Strip) upper(tiers []tier) shapes.JoinSide {
	first := tiers[0]
	return shapes.JoinSide{
		Edges:     s.gatheredRun(first, s.tierName(0, len(tiers))),
		Treatment: gathered(first.Fullness),
	}
}

// gatheredRun is the gathered edge of a tier from its first strip to its last; along each
// strip it runs the other way.
func (s Strip) gatheredRun(t tier, name string) []shapes.SewnEdge {
	edges := t.piecing.run(name, s.gathered().name)
	for i := range edges {
		edges[i].Reversed = !s.Closed // round a ring either way will do
	}
	return edges
}

// run returns one long edge of the strips of a name sewn end to end.
func (p piecing) run(name, edge string) []shapes.SewnEdge {
	var out []shapes.SewnEdge
	for _, k := range p.kinds() {
		out = append(out, shapes.SewnEdge{Piece: name + " " + k.name, Edge: edge, Copies: k.count})
	}
	return out
}

// endToEnd returns the seams of the strips of a name, sewn one behind the other,
// each called by what it joins after a prefix such as "tier 2, ".
func (p piecing) endToEnd(name, prefix string) []shapes.Join {
	var out []shapes.Join
	add := func(first, second string, times int) {
		if times > 0 {
			out = append(out, seamOf(prefix+first+" to "+second, times,
				against(name+" "+first, "upper join"), along(name+" "+second, "lower join")))
		}
	}
	kinds, closing := p.kinds(), 1
	if p.ends.free {
		closing = 0
	}
	for i, k := range kinds {
		switch {
		case len(kinds) == 1:
			add(k.name, k.name, k.count-1+closing)
		case i < len(kinds)-1:
			add(k.name, k.name, k.count-1)
			add(k.name, kinds[i+1].name, 1)
		default:
			add(k.name, k.name, k.count-1)
			add(k.name, kinds[0].name, closing)
		}
	}
	return out
}
