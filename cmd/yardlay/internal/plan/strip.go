package plan

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// strip returns the cloth to lay on, of a width from edge to edge in mm and with
// flaws, as it is when it is laid: after washing, when it is washed first.
func (s Spread) strip(width float64, flaws []job.Flaw) nest.Strip {
	strip := nest.Strip{
		Width:  s.WashedAcross(width - 2*s.Cloth.Selvedge),
		Repeat: nest.Repeat{Along: s.WashedAlong(s.Cloth.Repeat.Along), Across: s.WashedAcross(s.Cloth.Repeat.Across)},
	}
	if s.Cloth.Repeat == (job.Repeat{}) {
		strip.Repeat = s.Steps
	}
	for _, f := range flaws {
		if zone := s.zone(f.Outline); zone != nil {
			strip.Forbidden = append(strip.Forbidden, zone)
		}
	}
	return strip
}

// WashedAlong returns a length of the cloth as bought, mm, as it
// is when the pieces are laid.
func (s Spread) WashedAlong(mm float64) float64 {
	if s.Cloth.Shrinkage.Prewash {
		return mm * (1 + s.Cloth.Shrinkage.Warp)
	}
	return mm
}

// WashedAcross is the same across the cloth.
func (s Spread) WashedAcross(mm float64) float64 {
	if s.Cloth.Shrinkage.Prewash {
		return mm * (1 + s.Cloth.Shrinkage.Weft)
	}
	return mm
}

// zone returns a flaw as a forbidden zone of the strip, which begins behind the
// allowance at the cut end and beside the selvedge: never smaller than the flaw,
// on the lattice. A flaw wholly before it is nil, one beyond the reach of any
// marker too.
func (s Spread) zone(flaw orb.Ring) orb.Ring {
	zone := make(orb.Ring, len(flaw))
	for i, v := range flaw {
		zone[i] = orb.Point{s.WashedAlong(v[0]) - s.Cloth.Ends, s.WashedAcross(v[1] - s.Cloth.Selvedge)}
	}
	if b := plane.Bounds(zone); b.Max[0] <= 0 || b.Min[0] >= nest.Reach {
		return nil
	}
	return outward(zone)
}

// FlawNames names the zones of a strip, as they lie or reflected by a fold, by the
// numbers of their flaws in the job; nil for a single flaw.
func (s Spread) FlawNames(zones []orb.Ring, flaws []job.Flaw) []string {
	if len(flaws) < 2 {
		return nil
	}
	names := make([]string, len(zones))
	for i, zone := range zones {
		z := plane.Bounds(zone)
		n := slices.IndexFunc(flaws, func(f job.Flaw) bool {
			from := s.zone(f.Outline)
			if from == nil || math.Abs(plane.Area(from)) != math.Abs(plane.Area(zone)) {
				return false
			}
			b := plane.Bounds(from)
			return b.Min[0] == z.Min[0] && b.Max[0] == z.Max[0] && b.Max[1]-b.Min[1] == z.Max[1]-z.Min[1]
		})
		names[i] = fmt.Sprintf("flaw %d", n+1)
	}
	return names
}

// outward returns a ring on the lattice that holds all of r: an upright
// rectangle by its next larger one, others grown by two steps, of which snapping
// takes back less than one.
func outward(r orb.Ring) orb.Ring {
	if b := plane.Bounds(r); math.Abs(plane.Area(r)-(b.Max[0]-b.Min[0])*(b.Max[1]-b.Min[1])) <= 1e-9*math.Abs(
		plane.Area(r)) {
		x0, y0, x1, y1 := plane.Floor(b.Min[0]), plane.Floor(b.Min[1]), plane.Ceil(b.Max[0]), plane.Ceil(b.Max[1])
		return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
	}
	grown, err := plane.Offset([]plane.Side{{Line: orb.LineString(r), Allowance: 2 * plane.Lattice}}, plane.MitreLimit)
	if err != nil {
		grown = r // an outline thinner than a step
	}
	return plane.Tidy(plane.SnapRing(grown))
}
