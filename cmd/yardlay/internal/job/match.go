package job

import (
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// Repeat is the distance after which the pattern of a cloth comes again, mm; 0
// where it has none.
type Repeat struct{ Along, Across float64 }

// repeat reads the repeat of a cloth.
func (t *table) repeat() Repeat {
	const example = `{ along = "12.6", across = "4" }`
	s := t.sub("repeat", "`repeat` of "+t.Name, example)
	if s == nil {
		return Repeat{}
	}
	var r Repeat
	s.fill(&r)
	if !s.Has("along") && !s.Has("across") {
		s.Need("along", "from one motif to the next, along the cloth, across it, or both: repeat = "+example)
	}
	s.Finish()
	return r
}

// Match is a set of points on seam lines that agree modulo the cloth's repeat.
type Match struct {
	Name   string
	Cloth  string       // id of a cloth with a repeat
	Points []MatchPoint // at least two
	At     strict.Position
}

// MatchPoint is a place on a seam line. Whether there are such a piece and edge
// is known once the parts are drafted.
type MatchPoint struct {
	Piece    string  // its full name, as in the cut list
	Edge     string  // the piece's edge
	Distance float64 // along the edge, mm
	FromEnd  bool    // measured from the end of the edge, not from its start
	At       strict.Position
}

// Most tables [[match]] of a job, and points in one of them: every seam of a
// gown of maxParts parts.
const maxMatches, maxPoints = 256, 64

const pointExample = `{ piece = "skirt side gore", edge = "left seam", at = "7" }`

// match reads one [[match]].
func (r *reader) match(n *strict.Value, index int, cloths []Cloth) Match {
	t := r.table(n, label("match", "", index), matchKeys)
	m := Match{At: n.At}
	m.Name = t.named("match", index, &m.At)
	m.Cloth = t.matchedCloth(cloths)
	if !t.Has("points") {
		t.Need("points", "two places on seam lines or more: points = [ "+pointExample+", ... ]")
	}
	wrong := len(r.Errors)
	for _, p := range t.InlineTables("points", pointExample, maxPoints) {
		m.Points = append(m.Points, r.matchPoint(p, t.Name))
	}
	if len(r.Errors) == wrong && t.Has("points") {
		t.distinctPoints(m.Points)
	}
	t.Finish()
	return m
}

// matchedCloth reads which cloth a match is on, and asks it for a repeat.
func (t *table) matchedCloth(cloths []Cloth) string {
	if !t.Has("cloth") {
		t.Need("cloth", `the id of the cloth whose pattern is matched, for example cloth = "plaid"`)
		return ""
	}
	id := t.Field("cloth").Value
	c, ok := t.clothNamed("cloth", id, cloths)
	if ok && c.Repeat == (Repeat{}) {
		t.Fail(id.At, "say in [[cloth]] after which length the pattern comes again: repeat = { along = \"12.6\" }",
			"%s: cloth `%s` has no `repeat` to match", t.Name, c.ID)
	}
	return c.ID
}

// matchPoint reads one of the points.
func (r *reader) matchPoint(n *strict.Value, match string) MatchPoint {
	t := r.table(n, "a point of "+match, pointKeys)
	p := MatchPoint{At: n.At}
	p.Piece = t.mustText("piece", "a piece by its name in the cut list")
	p.Edge = t.mustText("edge", "the edge of that piece")
	if !t.Has("at") {
		t.Need("at", `how far along the edge, for example at = "7"`)
	}
	p.Distance, _ = t.Length("at")
	p.FromEnd = t.Choice("from") == "end"
	t.Finish()
	return p
}

// mustText reads a text that has to be given.
func (t *table) mustText(key, meaning string) string {
	if !t.Has(key) {
		t.Need(key, meaning+", for example "+key+" = "+t.kind(key).Example)
	}
	text, _, _ := t.Text(key)
	return text
}

// distinctPoints refuses a match of fewer than two places.
func (t *table) distinctPoints(points []MatchPoint) {
	same := func(a, b MatchPoint) bool { a.At = b.At; return a == b }
	for i, p := range points {
		if slices.ContainsFunc(points[:i], func(q MatchPoint) bool { return same(p, q) }) {
			t.Fail(p.At, "all copies of a piece agree as they are; name a place on another piece or edge",
				"%s: the same point of `%s` twice", t.Name, p.Piece)
		}
	}
	if len(points) < 2 {
		t.Fail(t.Field("points").At, "name the places on both sides of the seam: points = [ "+pointExample+", ... ]",
			"%s: %s, a match needs two", t.Name, say.Count(len(points), "point"))
	}
}
