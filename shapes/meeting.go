package shapes

import "errors"

// Meeting is a seam between two drafts: where each of them is sewn to the other.
type Meeting struct {
	Name  string // "waist" or "neck"
	Sides [2]JoinSide
}

// ErrNoMeeting says that two drafts have neither both a waist nor both a neck.
var ErrNoMeeting = errors.New("there is no waist and no neck that both have")

// MeetingOf returns how one draft is sewn to another: at the waist where both have
// one, else at the neck.
func MeetingOf(a, b Draft) (Meeting, error) {
	for _, m := range []struct {
		name string
		of   func(Draft) (JoinSide, error)
		none error
	}{{"waist", WaistOf, ErrNoWaist}, {"neck", NeckOf, ErrNoNeck}} {
		out := Meeting{Name: m.name}
		var err error
		for i, d := range []Draft{a, b} {
			if out.Sides[i], err = m.of(d); err != nil {
				break
			}
		}
		if !errors.Is(err, m.none) {
			return out, err
		}
	}
	return Meeting{}, ErrNoMeeting
}

// ErrNoNeck says that no edge of a draft is sewn at the neck.
var ErrNoNeck = errors.New("no edge is sewn at the neck")

// neckName is the edge of all drafts that lies at the neck.
const neckName = "neck"

// NeckOf returns the side of a draft in a seam at the neck: its edges of that name,
// piece by piece and all copies, and the darts in them. It gives ErrNoNeck where
// there are none.
func NeckOf(d Draft) (JoinSide, error) {
	pieces, err := d.Draft()
	if err != nil {
		return JoinSide{}, err
	}
	var s JoinSide
	whole := 0.0 // length of the edges so far, mm
	for _, p := range pieces {
		e, ok := p.Edge(neckName)
		if !ok || e.Kind != Top {
			continue
		}
		copies := p.Count
		if p.OnFold {
			copies *= 2
		}
		s.Edges = append(s.Edges, SewnEdge{Piece: p.Name, Edge: neckName, Copies: copies})
		for range copies {
			for _, m := range p.mouths(neckName) {
				s.Treatment.Darts = append(s.Treatment.Darts, Mouth{whole + m.From, m.Width})
			}
			whole += e.Length()
		}
	}
	if len(s.Edges) == 0 {
		return JoinSide{}, ErrNoNeck
	}
	if b, ok := d.(BodiceBlock); ok && b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s, nil
}

// mouths lists where darts open on an edge.
func (p Piece) mouths(edge string) []Mouth {
	var out []Mouth
	for _, d := range p.Darts {
		if d.Edge == edge {
			out = append(out, d.Mouth)
		}
	}
	return out
}
