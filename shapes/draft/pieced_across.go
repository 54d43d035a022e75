package draft

import (
	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// lengths cuts what is longer along the grain than allowed across it, each as far from the waist
// as its part may reach:
//
//	.-----------------------+ - - - - - -.
//	|        gore           | lower part |
//	'-----------------------+ - - - - - -'
//	         Length
//
// It returns the cuts made before with those after them.
func (c Corners) lengths(p shapes.Piece, parts []shapes.Pieced, upper uppers) ([]shapes.Pieced, error) {
	if c.Length == 0 {
		return parts, nil
	}
	high := hangsHigh(p, upper)
	for _, q := range left(p, parts) {
		called := partNames{q.Name, map[string]bool{}}
		for n := 1; ; n++ {
			along, _ := q.CutSize()
			if along <= c.Length {
				break
			}
			if n > c.Most {
				return nil, say.Errorf("%s: it takes more than %d cuts across to be no longer than %.1f", p.Name, c.Most,
					say.MM(c.Length)).Hint("a greater `length` in `pieced`")
			}
			part, far, err := c.across(q, called, high, upper)
			if err != nil {
				return nil, err
			}
			called.used[part.Corner.Name] = true
			parts, q = append(parts, part), far
		}
	}
	return parts, nil
}

// hangsHigh says whether the end of a piece that is farther from its waist lies at the greater x; so
// it is taken to where there is no waist.
func hangsHigh(p shapes.Piece, upper uppers) bool {
	box := plane.Bounds(p.Seam)
	for _, line := range upper.of(p) {
		on := line.Bound()
		return on.Min[0]+on.Max[0] <= box.Min[0]+box.Max[0]
	}
	return true
}

// across cuts a piece across its grain once and returns its end that is farther from
// the waist, too.
func (c Corners) across(p shapes.Piece, called partNames, high bool, upper uppers) (
	part shapes.Pieced, far shapes.Piece, err error,
) {
	box, sewn := plane.Bounds(p.Cut), plane.Bounds(p.Seam)
	at, back := min(box.Min[0]+c.Length-c.Allowance, sewn.Max[0]-leastCorner), -1.0
	if !high {
		at, back = max(box.Max[0]-c.Length+c.Allowance, sewn.Min[0]+leastCorner), 1
	}
	for range 8 { // as across the grain: an edge that leans may be cut longer at the new seam
		if at <= sewn.Min[0] || at >= sewn.Max[0] {
			break
		}
		var near shapes.Piece
		if part, near, far, err = c.cutAcross(p, called, at, high); err != nil {
			return part, far, err
		}
		along, _ := near.CutSize()
		if along <= c.Length {
			return part, far, c.checkPart(p, part, upper)
		}
		at += back * (along - c.Length + plane.Lattice)
	}
	return part, far, say.Errorf("%s: no line across the grain makes it %.1f long", p.Name, say.MM(c.Length)).
		Hint("leave `length` out of `pieced`")
}

// partNames are what the parts of a piece are called: by what was whole and where they lie.
type partNames struct {
	whole string
	used  map[string]bool
}

func (n partNames) of(where string) string {
	name := n.whole + " " + where
	if n.used[name] {
		return name + " 2" // there is no third: Most is 2
	}
	return name
}

// cutAcross cuts a piece at x, and says which part is near the waist and which is far from it. The
// smaller one is called by where it lies.
func (c Corners) cutAcross(p shapes.Piece, called partNames, at float64, high bool) (part shapes.Pieced,
	near, far shapes.Piece, err error) {
	for _, lower := range []bool{true, false} {
		name := called.of(map[bool]string{true: "lower part", false: "upper part"}[lower])
		part, err = p.Piece(shapes.Piecing{Across: true, At: plane.Snap(at), Allowance: c.Allowance}, name)
		if err != nil {
			return part, near, far, err
		}
		near, far = part.Main, part.Corner
		if part.Low == high {
			near, far = far, near
		}
		if far.Name != p.Name == lower {
			break
		}
	}
	return part, near, far, nil
}

// checkPart holds a cut across the grain to where it may lie, and both parts to be no wider than
// allowed: a hem so short that its corners cannot be mirrored is cut wider.
func (c Corners) checkPart(p shapes.Piece, part shapes.Pieced, upper uppers) error {
	for _, q := range []shapes.Piece{part.Main, part.Corner} {
		if _, across := q.Unfold().CutSize(); across > c.Within {
			return say.Errorf("%s: cut across, %s would be %.1f wide, and %.1f is allowed", p.Name, q.Name,
				say.MM(across), say.MM(c.Within)).Hint("another `length` in `pieced`, or a narrower `within`")
		}
	}
	return c.checkLine(p, part, upper)
}
