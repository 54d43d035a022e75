package shapes

import "fmt"

// Joins returns the seams between the sections of a flounce; its two ends are
// left open, for it may go round or not.
func (f Flounce) Joins() ([]Join, error) {
	n, err := f.check()
	if err != nil {
		return nil, fmt.Errorf("flounce: %w", err)
	}
	top := f.top(n)
	return append(f.joins(n), Join{
		Name: "top to its edge", A: top, B: JoinSide{Onto: "the edge it is sewn to", Length: f.Top}, Notches: quartersOf(f.Top),
	}), nil
}

// joins returns the seams between n sections.
func (f Flounce) joins(n int) []Join {
	if n == 1 {
		return nil
	}
	upper := SewnEdge{Piece: "flounce section", Edge: "upper end", Reversed: true}
	lower := SewnEdge{Piece: "flounce section", Edge: "lower end"}
	return []Join{seamOf("section to section", n-1, upper, lower, f.Depth/2)}
}

// top is the upper edge of n sections end to end.
func (f Flounce) top(n int) JoinSide {
	name := "flounce"
	if n > 1 {
		name = "flounce section"
	}
	return JoinSide{Edges: []SewnEdge{{Piece: name, Edge: "top", Copies: n, Reversed: true}}}
}

// Joins returns the seams of the strips of each tier end to end, and those between
// the tiers: each further tier is gathered onto the lower edge of the one above.
// The two ends of a tier are left open.
func (s Strip) Joins() ([]Join, error) {
	tiers, err := s.plan()
	if err != nil {
		return nil, err
	}
	var out []Join
	for i, t := range tiers {
		prefix := ""
		if len(tiers) > 1 {
			prefix = fmt.Sprintf("tier %d, ", i+1)
		}
		out = append(out, t.piecing.endToEnd(s.tierName(i, len(tiers)), prefix, s.closed)...)
	}
	if first := tiers[0]; first.Edge > 0 && !s.closed {
		out = append(out, Join{
			Name: "gathered edge to its edge", A: s.upper(tiers), Notches: quartersOf(first.Edge),
			B: JoinSide{Onto: "the edge it is gathered onto", Length: first.Edge},
		})
	}
	for i := 1; i < len(tiers); i++ {
		above, below := tiers[i-1], tiers[i]
		out = append(out, Join{
			Name:    fmt.Sprintf("tier %d to tier %d", i, i+1),
			Notches: quartersOf(below.Edge),
			A:       JoinSide{Edges: above.piecing.run(s.tierName(i-1, len(tiers)), above.lower.name)},
			B: JoinSide{
				Edges:     below.piecing.run(s.tierName(i, len(tiers)), s.gathered().name),
				Treatment: Treatment{Gather: below.Fullness},
			},
		})
	}
	return out, nil
}

// upper returns the gathered edge of the first tier: what it is gathered onto, or flat.
func (s Strip) upper(tiers []tier) JoinSide {
	first := tiers[0]
	return JoinSide{
		Edges:     first.piecing.run(s.tierName(0, len(tiers)), s.gathered().name),
		Treatment: Treatment{Gather: first.Fullness},
	}
}

// run returns one long edge of the strips of a name sewn end to end.
func (p piecing) run(name, edge string) []SewnEdge {
	var out []SewnEdge
	if p.full > 0 {
		out = append(out, SewnEdge{Piece: name + " strip", Edge: edge, Copies: p.full})
	}
	if p.part > 0 {
		out = append(out, SewnEdge{Piece: name + " part strip", Edge: edge, Copies: 1})
	}
	return out
}
