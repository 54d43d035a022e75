package plan

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Match says which pieces of a spread must lie alike on a repeat of the cloth as it
// is laid, and by which of their points: so that the points of the job's matches
// agree at the seam line. Pieces that no match names agree within their part: along
// at the least x of their seam line, across at its middle. Points are in the
// coordinates of the opened cut outline, as Problem lays it. Without a repeat there
// is nothing to match, and nil is returned.
//
// What hangs together by matches is one group for each set that is cut of it, and
// has one point for each piece, the same distance from every match point that is
// shared: so the points agree among copies as drawn, and among those turned or
// mirrored alike. Where the garment has a piece across its middle, its own mirror
// image, that middle is the point, and so the drawn and the mirrored half of the
// garment agree too. Groups need not agree with each other: where each lies on the
// repeat is for the search to find.
//
// meets are the points of the job's matches, of each piece, for drawings.
//
// The error is a strict.Errors: pieces and edges that there are none of, points off
// the end of an edge, and matches that contradict each other.
func (s Spread) Match(j *job.Job, repeat nest.Repeat) (matches []*nest.Match, meets [][]Meet, err error) {
	if repeat == (nest.Repeat{}) {
		return nil, nil, nil
	}
	m := &matcher{job: j, spread: s, repeat: repeat, matches: make([]*nest.Match, len(s.Cuts)), cause: map[int]int{}}
	for _, c := range s.Cuts {
		m.whole = append(m.whole, c.Piece.Unfold())
	}
	m.gather()
	meets = m.meets()
	m.byPart()
	if len(m.bad) > 0 {
		m.bad.Sort()
		return nil, nil, m.bad
	}
	m.from, m.at = make([]int, len(s.Cuts)), make([]orb.Point, len(s.Cuts))
	for i := range m.from {
		m.from[i] = unreached
	}
	for i := range s.Cuts {
		if m.from[i] == unreached {
			m.tie(m.connect(i))
		}
	}
	if len(m.bad) > 0 {
		m.bad.Sort()
		return nil, nil, m.bad
	}
	return m.matches, meets, nil
}

// Meet is a point of a piece that meets others on the repeat.
type Meet struct {
	Name string    // of the match
	At   orb.Point // in the coordinates of the opened piece, mm
}

// meets lists the points of each piece.
func (m *matcher) meets() [][]Meet {
	all := make([][]Meet, len(m.whole))
	for _, a := range m.agree {
		for _, p := range a.points {
			all[p.piece] = append(all[p.piece], Meet{a.name, p.place})
		}
	}
	return all
}

// Meets lists the match points of each piece as the cloth is bought and laid; nil where it
// has no repeat. The error is that of Match.
func (s Spread) Meets(j *job.Job) ([][]Meet, error) {
	_, meets, err := s.Match(j, s.strip(s.Cloth.Width, nil).Repeat)
	return meets, err
}

// matcher is a graph of pieces and agreements.
type matcher struct {
	job     *job.Job
	spread  Spread
	repeat  nest.Repeat
	whole   []shapes.Piece // opened out
	agree   []agreement
	matches []*nest.Match
	groups  int // so far
	bad     strict.Errors

	at    []orb.Point // where each piece's origin lies against the first of its component, mm
	from  []int       // the agreement by which each piece was reached, root for the first of a component
	cause map[int]int // the piece by which each agreement was reached
}

// Marks of pieces that no agreement leads to.
const (
	unreached = -2
	root      = -1
)

// agreement is a set of points that come to lie on the same place of the repeat.
type agreement struct {
	name   string
	points []matchPoint
}

type matchPoint struct {
	piece int
	place orb.Point // in the coordinates of the opened piece, mm
	says  string    // piece and edge
	at    strict.Position
}

// gather reads the job's matches on this cloth.
func (m *matcher) gather() {
	for _, match := range m.job.Matches {
		if match.Cloth != m.spread.Cloth.ID {
			continue
		}
		a := agreement{name: match.Name}
		for _, p := range match.Points {
			place, err := m.find(p)
			if err != nil {
				m.bad = append(m.bad, m.job.ErrorAt(p.At, say.Errorf("match `%s`: %w", match.Name, err)))
				continue
			}
			a.points = append(a.points, place)
		}
		m.agree = append(m.agree, a)
	}
}

// byPart lets the pieces that no match names agree within their part.
func (m *matcher) byPart() {
	named := map[int]bool{}
	for _, a := range m.agree {
		for _, p := range a.points {
			named[p.piece] = true
		}
	}
	parts := map[string]int{} // agreements, by part
	for i, cut := range m.spread.Cuts {
		p := cut.Piece
		if named[i] {
			continue
		}
		b := plane.Bounds(m.whole[i].Seam)
		point := matchPoint{piece: i, place: orb.Point{b.Min[0], (b.Min[1] + b.Max[1]) / 2}, says: p.Name,
			at: m.spread.Cuts[i].Part.At}
		part := m.spread.Cuts[i].Part.Name
		k, ok := parts[part]
		if !ok {
			k = len(m.agree)
			parts[part] = k
			m.agree = append(m.agree, agreement{name: part})
		}
		m.agree[k].points = append(m.agree[k].points, point)
	}
}

// find looks a point up: on the edge as drafted, or as the opened piece has it.
func (m *matcher) find(p job.MatchPoint) (matchPoint, error) {
	var names []string
	for _, c := range m.spread.Cuts {
		names = append(names, c.Piece.Name)
	}
	i := slices.Index(names, p.Piece)
	if i < 0 {
		return matchPoint{}, say.Errorf("no piece %q is cut from `%s`", p.Piece, m.spread.Cloth.ID).
			Hint("%s", strict.OneOf(p.Piece, names))
	}
	edge, shift, err := m.edge(i, p.Edge)
	if err != nil {
		return matchPoint{}, err
	}
	place, err := m.along(i, edge, p)
	if err != nil {
		return matchPoint{}, err
	}
	return matchPoint{
		piece: i, place: orb.Point{place[0] + shift[0], place[1] + shift[1]},
		says: fmt.Sprintf("%s of `%s`", p.Edge, p.Piece), at: p.At,
	}, nil
}

// edge finds an edge of piece i, and how far its coordinates are from those of
// the opened piece.
func (m *matcher) edge(i int, name string) (shapes.Edge, orb.Point, error) {
	half, whole := m.spread.Cuts[i].Piece, m.whole[i]
	if e, ok := half.Edge(name); ok && e.Kind != shapes.Fold {
		return e, openedBy(half, whole), nil
	}
	if e, ok := whole.Edge(name); ok {
		return e, orb.Point{}, nil
	}
	var names []string
	for _, e := range whole.Edges {
		names = append(names, e.Name)
	}
	return shapes.Edge{}, orb.Point{}, say.Errorf("piece `%s` has no edge %q to sew", half.Name, name).
		Hint("%s", strict.OneOf(name, names))
}

// openedBy returns how far a half moves when its piece is opened out: the fold,
// on the lattice, comes to lie along the middle.
func openedBy(half, whole shapes.Piece) orb.Point {
	for _, e := range half.Edges {
		if e.Kind == shapes.Fold {
			h, w := plane.Bounds(half.Cut), plane.Bounds(whole.Cut)
			return orb.Point{w.Min[0] - h.Min[0], (w.Min[1]+w.Max[1])/2 - plane.Snap(e.Line[0][1])}
		}
	}
	return orb.Point{}
}

// along returns the place at a distance along an edge. Distances are those of the
// finished piece, also where it is drawn larger for a cloth that shrinks.
func (m *matcher) along(i int, edge shapes.Edge, p job.MatchPoint) (orb.Point, error) {
	grownAlong, grownAcross := m.whole[i].Finished()
	finished := m.spread.Cuts[i].Finished
	sx, sy := finished.Along/grownAlong, finished.Across/grownAcross
	sewn := shapes.Edge{}
	for _, v := range edge.Line {
		sewn.Line = append(sewn.Line, orb.Point{v[0] * sx, v[1] * sy})
	}
	length, distance := sewn.Length(), p.Distance
	if distance > length+measure.Guard {
		unit := measure.SizeUnit(m.job.Unit)
		return orb.Point{}, fmt.Errorf("the point lies %s along the %s of `%s`, which is %s long",
			measure.Format(distance, unit), p.Edge, p.Piece, measure.FormatDown(length, unit))
	}
	if p.FromEnd {
		distance = length - distance
	}
	at, _ := sewn.At(min(max(distance, 0), length))
	return orb.Point{at[0] / sx, at[1] / sy}, nil
}

// connect goes from a piece through agreements to all pieces that hang together
// with it, placing each against the first, and returns them.
func (m *matcher) connect(first int) []int {
	m.from[first] = root
	reached := []int{first}
	for n := 0; n < len(reached); n++ {
		i := reached[n]
		for g, a := range m.agree {
			k := slices.IndexFunc(a.points, func(p matchPoint) bool { return p.piece == i })
			if _, done := m.cause[g]; k < 0 || done {
				continue
			}
			m.cause[g] = i
			meet := add(m.at[i], a.points[k].place)
			for q, p := range a.points {
				if m.from[p.piece] == unreached {
					m.from[p.piece], m.at[p.piece] = g, sub(meet, p.place)
					reached = append(reached, p.piece)
				} else if q != k {
					m.judge(g, a.points[k], p, sub(add(m.at[p.piece], p.place), meet))
				}
			}
		}
	}
	return reached
}

// matchTolerance is how far points may miss each other, mm: the lines they lie on
// are arcs drawn to shapes.DefaultChord each.
const matchTolerance = 2 * draft.DefaultChord

// judge refuses an agreement that closes a ring of them when its points come to
// lie apart by off, in any turn that the pieces may take.
func (m *matcher) judge(g int, a, b matchPoint, off orb.Point) {
	for _, i := range []int{a.piece, b.piece} {
		for _, turn := range turns(m.spread.Cloth.Nap, m.spread.Cuts[i].Part) {
			turned := plane.Pose{Turn: turn}.Apply(orb.Ring{off})[0]
			for axis, repeat := range []float64{m.repeat.Along, m.repeat.Across} {
				miss := turned[axis]
				if repeat > 0 {
					miss = math.Abs(miss - math.Round(miss/repeat)*repeat)
				}
				if repeat == 0 || miss <= matchTolerance {
					continue
				}
				m.bad = append(m.bad, m.contradiction(g, a, b, miss, axis, repeat))
				return
			}
		}
	}
}

// contradiction names the points and the matches that they hang together by.
func (m *matcher) contradiction(g int, a, b matchPoint, miss float64, axis int, repeat float64) *strict.Error {
	unit := measure.SizeUnit(m.job.Unit)
	where := [...]string{"along", "across"}[axis]
	others := m.between(g, a.piece, b.piece)
	because := "both lie on one piece"
	switch {
	case len(others) > 0:
		because = "they are tied by " + say.InWords(say.Quoted(others, "`"), "and")
	case a.piece != b.piece:
		because = "they are tied twice"
	}
	brief := fmt.Sprintf("match %s misses by %s %s the cloth", m.agree[g].name, measure.Format(miss, unit), where)
	return briefly(brief, m.job.ErrorAt(b.at, say.Errorf("match `%s`: %s and %s miss each other by %s %s the "+
		"cloth, where the repeat is %s: %s", m.agree[g].name, a.says, b.says, measure.Format(miss, unit), where,
		measure.Format(repeat, unit), because).
		Hint("leave unmatched the seam where it shows least, or change a width or length by as much")))
}

// between names the agreements on the way from one piece to another, other than g.
func (m *matcher) between(g, a, b int) []string {
	way := func(i int) []int { // to the first of the component
		var list []int
		for m.from[i] != root {
			list = append(list, m.from[i])
			i = m.cause[m.from[i]]
		}
		return list
	}
	up, down := way(a), way(b)
	var names []string
	for _, list := range [][]int{up, down} {
		for _, k := range list {
			if k != g && !(slices.Contains(up, k) && slices.Contains(down, k)) {
				names = append(names, m.agree[k].name)
			}
		}
	}
	return names
}
