package draft

import (
	"cmp"
	"math"
	"strings"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Flounce is a ring sector: its top edge is sewn on flat and its longer lower
// edge falls in folds. From the two lengths and the depth,
//
//	radius = top depth / (bottom - top),   angle = (bottom - top) / depth
//
// (L. Baldt, "Clothing for Women", 1916, for the radius; the angle, in radians,
// is top / radius).
type Flounce struct {
	Top, Bottom float64 // finished length of the upper and the lower edge, mm
	Depth       float64 // finished, mm
	Sections    int     // equal sections with seams between; 0: the fewest of at most 180 degrees
	HemRaise    float64 // how much shorter this layer is than the outer, mm
	Closed      bool    // it goes round: its ends are joined too
	EndHem      float64 // allowance of ends that are not, mm; 0 leaves them raw
	Chord       float64 // chord error of arcs, mm; 0 means DefaultChord
	Allowance   shapes.Allowance
}

// Radii returns the radius of the upper and of the lower edge and the angle of
// the whole sector in degrees, hem raise left aside.
func (f Flounce) Radii() (top, bottom, angle float64) {
	top = f.Top * f.Depth / (f.Bottom - f.Top)
	return top, top + f.Depth, f.angle() * 180 / math.Pi
}

func (f Flounce) angle() float64 { return (f.Bottom - f.Top) / f.Depth }

// Draft returns the flounce, or its equal sections: one piece with their count, and
// apart from it the first and the last where the flounce is not closed, for their free
// ends are hemmed. The upper edge and the other ends take the seam allowance. A lower
// edge that is not longer than the upper one is refused.
func (f Flounce) Draft() (Result, error) {
	n, err := f.check()
	if err != nil {
		return Result{}, say.Errorf("flounce: %w", err)
	}
	inner, outer, _ := f.Radii()
	half := f.angle() / float64(n) / 2
	chord := chordRound(f.Chord, f.angle())
	d := Result{Joins: f.joins(n), Ends: freeEnds(f.Closed, f.EndHem)}
	for _, k := range f.kinds(n) {
		p, err := shapes.NewPiece(k.name, sector{inner, outer - f.HemRaise, -half, half, chord}.edges(
			k.lower, side{"hem", shapes.Hem, f.Allowance.Hem}, k.upper, side{"top", shapes.Top, f.Allowance.Seam}))
		if err != nil {
			return Result{}, err
		}
		p.Count = k.count
		d.Pieces = append(d.Pieces, p)
	}
	if err := d.notch(f.top(n)); err != nil {
		return Result{}, err
	}
	d.Joins = append(d.Joins, shapes.Join{
		Name: "top to its edge", A: f.top(n), B: shapes.JoinSide{Onto: "the edge it is sewn to", Length: f.Top},
		Notches: quartersOf(f.Top),
	})
	return d, nil
}

// flounceKind is so many sections alike, one behind the other.
type flounceKind struct {
	name         string
	count        int
	lower, upper side // their ends
}

// kinds returns n sections from the first to the last.
func (f Flounce) kinds(n int) []flounceKind {
	lower, upper := side{"lower end", shapes.Seam, f.Allowance.Seam}, side{"upper end", shapes.Seam, f.Allowance.Seam}
	start, end := side{lower.name, shapes.Hem, f.EndHem}, side{upper.name, shapes.Hem, f.EndHem}
	switch {
	case n == 1 && f.Closed:
		return []flounceKind{{"flounce", 1, lower, upper}}
	case n == 1:
		return []flounceKind{{"flounce", 1, start, end}}
	case f.Closed:
		return []flounceKind{{"flounce section", n, lower, upper}}
	}
	all := []flounceKind{{"flounce first section", 1, start, upper}}
	if n > 2 {
		all = append(all, flounceKind{"flounce section", n - 2, lower, upper})
	}
	return append(all, flounceKind{"flounce last section", 1, lower, end})
}

// joins returns the seams between n sections, with the one that closes a ring.
func (f Flounce) joins(n int) []shapes.Join {
	kinds := f.kinds(n)
	var out []shapes.Join
	add := func(name, a, b string, times int) {
		if times > 0 {
			out = append(out, seamOf(name, times,
				against(a, "upper end"), along(b, "lower end"), f.Depth/2))
		}
	}
	if f.Closed && n == 1 {
		add("end to end", kinds[0].name, kinds[0].name, 1)
		return out
	}
	for i, k := range kinds {
		times := k.count - 1
		if f.Closed {
			times++ // the last to the first
		}
		add("section to section", k.name, k.name, times)
		if i < len(kinds)-1 {
			next := kinds[i+1].name
			add(sectionName(k.name)+" to "+sectionName(next), k.name, next, 1)
		}
	}
	return out
}

// sectionName is the name of a section without that of the flounce.
func sectionName(name string) string { return strings.TrimPrefix(name, "flounce ") }

// top is the upper edge of n sections end to end.
func (f Flounce) top(n int) shapes.JoinSide {
	var side shapes.JoinSide
	for _, k := range f.kinds(n) {
		side.Edges = append(side.Edges, shapes.SewnEdge{Piece: k.name, Edge: "top", Copies: k.count, Reversed: true})
	}
	return side
}

// check returns the number of sections.
func (f Flounce) check() (int, error) {
	if err := cmp.Or(
		positive(measured{"top", f.Top}, measured{"bottom", f.Bottom}, measured{"depth", f.Depth}),
		notNegative(measured{"allowance of the free ends", f.EndHem}),
		checkHem(f.HemRaise, f.Depth, f.Chord, f.Allowance),
	); err != nil {
		return 0, err
	}
	if f.Bottom-f.Top < leastFlare {
		return 0, say.Errorf("bottom (%.6g) is not longer than top (%.6g) by %.6g or more", say.MM(f.Bottom),
			say.MM(f.Top), say.MM(leastFlare)).
			Hint("draft a strip instead")
	}
	if turns := f.angle() / (2 * math.Pi); turns > maxFraction {
		return 0, say.Errorf("bottom %.6g on top %.6g goes %.1f times round at a depth of %.6g, the most is %g",
			say.MM(f.Bottom), say.MM(f.Top), turns, say.MM(f.Depth), maxFraction).
			Hint("a deeper flounce, a shorter bottom, or gather the top")
	}
	top, _, _ := f.Radii()
	if err := checkInnerRadius("top", top, f.Allowance.Seam); err != nil {
		return 0, err
	}
	return sections(f.angle(), f.Sections)
}

// leastFlare is the least difference of bottom and top, mm: less cannot be cut,
// and the radius grows beyond bounds as it vanishes.
const leastFlare = 1.0

func (f Flounce) Division() Division { return inSections(f.Sections) }

func (f Flounce) Divide(pieces int) Draft { f.Sections = pieces; return f }
