package paper

import (
	"context"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// spot is where a copy of a pattern lies on the joined sheets: turned by quarter turns, in
// mm to the right and up from the corner of the first cell.
type spot struct {
	pattern int
	pose    plane.Pose
}

// spread is patterns laid on a grid of sheets.
type spread struct {
	grid    grid
	spots   []spot
	printed [][]bool // row by row
	sheets  int      // of these
}

// OnSheets lays patterns on sheets, and tells how many sheets their bounding boxes would
// take, laid as well as we know. It never takes more sheets than these.
func (s Sheets) onSheets(ctx context.Context, all []Pattern) (best spread, boxes int, err error) {
	if err := s.Check(); err != nil {
		return spread{}, 0, err
	}
	if err := s.bearable(all); err != nil {
		return spread{}, 0, err
	}
	boxed := make([]Pattern, len(all))
	for i, p := range all {
		boxed[i] = Pattern{Name: p.Name, Outline: plane.Bounds(p.Outline).ToRing(), Copies: p.Copies}
	}
	best = s.apart(all)
	boxes = best.sheets
	var first way // the best of ours
	try := func(w way, form []Pattern, work int64) (sheets int, err error) {
		if ctx.Err() != nil {
			return boxes, nil
		}
		made, err := w.lay(ctx, form, work)
		if cannot := (*unlaid)(nil); errors.As(err, &cannot) {
			return boxes, nil // longer than the search reaches
		}
		if err != nil {
			return 0, err
		}
		sheets, made = made.sheets, s.cropped(made.spots, all)
		if made.sheets < best.sheets {
			best, first = made, w
		}
		return sheets, nil
	}
	distinct := distinct(all)
	ways := s.ways(all, boxes)
	for _, w := range ways {
		if w.wide >= w.least+waysFor(distinct, boxEffort, mostBoxWays) {
			continue
		}
		n, err := try(w, boxed, firstWork)
		if err != nil {
			return spread{}, 0, err
		}
		boxes = min(boxes, n)
	}
	if distinct > mostDistinct {
		return best, boxes, nil
	}
	for _, w := range ways {
		if w.wide >= w.least+waysFor(distinct, effort, mostWays) {
			continue
		}
		if _, err := try(w, all, firstWork); err != nil {
			return spread{}, 0, err
		}
	}
	if first.wide > 0 {
		_, err = try(first, all, lastWork)
	}
	return best, boxes, err
}

// Work of layouts, in places tried: to see which width is best, and to lay that one well.
// Boxes are laid in more widths, since they cost little.
const (
	firstWork   = 1 << 14
	lastWork    = 1 << 18
	mostWays    = 4 // widths from the least on, each along and down the sheets
	mostBoxWays = 8
	// What a width takes grows with the square of the outlines that differ, measured: 3 ms
	// for each pair, 0.1 ms for boxes. From these numbers on fewer widths are tried, and
	// beyond mostDistinct boxes alone.
	effort, boxEffort = 1300, 20_000
	mostDistinct      = 40
)

// waysFor is how many widths are tried for so many outlines that differ.
func waysFor(distinct, effort, most int) int {
	return max(1, min(effort/max(1, distinct*distinct), most))
}

// distinct counts the outlines that differ.
func distinct(all []Pattern) int {
	seen := map[string]bool{}
	for _, p := range all {
		seen[fmt.Sprint(p.Outline)] = true
	}
	return len(seen)
}

// bearable refuses what takes more sheets than anybody tapes, by its area alone.
func (s Sheets) bearable(all []Pattern) error {
	area, copies := 0.0, 0
	for _, p := range all {
		area += plane.Area(p.Outline) * float64(p.Copies)
		copies += p.Copies
	}
	w, h := s.room()
	if area > maxSheets*w*h || copies > maxCopies {
		return s.tooMany()
	}
	return nil
}

// maxCopies is the most patterns of one print.
const maxCopies = 2000

func (s Sheets) tooMany() error {
	return say.Errorf("the pieces would take over %d sheets, the most there are", maxSheets).
		Hint("print on larger sheets or on a roll (--roll), or leave out --every-copy")
}

// apart lays each bounding box on sheets of its own. One that reaches into what its last sheet shares with the next has
// a row behind it that is not printed, or the next one would begin there too.
func (s Sheets) apart(all []Pattern) spread {
	sx, sy := s.step()
	o := s.Overlap/2 - lineRoom
	cells := func(length, step float64) float64 {
		return math.Max(1, math.Ceil((length-2*o-plane.Lattice)/step))
	}
	var spots []spot
	row := 0.0
	for i, p := range all {
		along, across := p.extents()
		turn := 0.0
		if cells(across, sx)*cells(along, sy) < cells(along, sx)*cells(across, sy) {
			turn, along, across = 90, across, along
		}
		rows := cells(across, sy)
		if rows*sy < across+patternGap {
			rows++
		}
		b := plane.Bounds(plane.Pose{Turn: turn}.Apply(p.Outline))
		for range p.Copies {
			at := orb.Point{plane.Snap(-o) - b.Min[0], plane.Snap(o-row*sy) - b.Max[1]}
			spots = append(spots, spot{i, plane.Pose{Turn: turn, At: at}})
			row += rows
		}
	}
	return s.cropped(spots, all)
}

// way is a strip of paper to lay patterns on: as wide as so many sheets.
type way struct {
	sheets      Sheets
	wide, least int  // least: the fewest that every pattern fits on
	upright     bool // the strip runs down the sheets' columns, not along their rows
}

// ways lists the strips to try: from the narrowest that holds every pattern, to as wide as
// a square of all the sheets.
func (s Sheets) ways(all []Pattern, sheets int) []way {
	least := 0.0
	for _, p := range all {
		along, across := p.extents()
		least = math.Max(least, math.Min(along, across)+onLattice+2*lineRoom)
	}
	sx, sy := s.step()
	var list []way
	for _, upright := range []bool{false, true} {
		step, other := sy, sx
		if upright {
			step, other = sx, sy
		}
		from := int(math.Max(1, math.Ceil((least-s.Overlap)/step)))
		to := max(from, int(math.Ceil(math.Sqrt(float64(sheets)*other/step)*1.2)))
		for n := from; n <= to && n < from+mostBoxWays; n++ {
			list = append(list, way{s, n, from, upright})
		}
	}
	return list
}

// lay lays patterns on the strip.
func (w way) lay(ctx context.Context, all []Pattern, work int64) (spread, error) {
	sx, sy := w.sheets.step()
	step := sy
	if w.upright {
		step = sx
	}
	width := float64(w.wide)*step + w.sheets.Overlap
	copies := make([]int, len(all))
	for i, p := range all {
		copies[i] = p.Copies
	}
	l, err := lay(ctx, all, copies, width, work)
	if err != nil {
		return spread{}, err
	}
	in := plane.Snap(lineRoom - w.sheets.Overlap/2)
	top := l.problem.Strip.Width + in
	var spots []spot
	for _, pl := range l.layout.Placed {
		pose := plane.Pose{Turn: pl.Turn, At: orb.Point{pl.At[0] + in, pl.At[1] - top}}
		if w.upright {
			pose = plane.Pose{Turn: math.Mod(pl.Turn+270, 360), At: orb.Point{pl.At[1] + in, -pl.At[0] - in}}
		}
		spots = append(spots, spot{l.pattern(pl), pose})
	}
	return w.sheets.cropped(spots, all), nil
}

// maxGrid is the largest grid that is looked at, in sheets: patterns that need one are
// many times as long as the sheets of a print that is taped.
const maxGrid = 20 * maxSheets

// cropped finds the sheets that patterns in their places take.
func (s Sheets) cropped(spots []spot, all []Pattern) spread {
	made := spread{spots: spots}
	rings := made.rings(all)
	far := orb.Point{}
	for _, r := range rings {
		b := plane.Bounds(r)
		far = orb.Point{math.Max(far[0], b.Max[0]), math.Max(far[1], b.Max[1])}
	}
	sx, sy := s.step()
	cells := func(far, step float64) int {
		return max(1, int(math.Ceil((far+inkRoom-s.Overlap/2)/step)))
	}
	made.grid = grid{s, cells(far[0], sx), cells(far[1], sy)}
	if made.sheets = made.grid.cols * made.grid.rows; made.sheets > maxGrid {
		return made
	}
	made.printed = made.grid.printed(rings)
	made.sheets = count(made.printed)
	return made
}

// rings are the outlines in their places, y down.
func (s spread) rings(all []Pattern) []orb.Ring {
	rings := make([]orb.Ring, len(s.spots))
	for i, at := range s.spots {
		ring := plane.SnapRing(at.pose.Apply(all[at.pattern].Outline))
		for k := range ring {
			ring[k][1] = -ring[k][1]
		}
		rings[i] = ring
	}
	return rings
}
