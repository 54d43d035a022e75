package draft

import (
	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Draft returns the sleeve, a pair, and what is sewn below it: the bell or the band.
func (s Sleeve) Draft() (Result, error) { return named("sleeve")(s.draft()) }

func (s Sleeve) draft() (Result, error) {
	s, err := s.sized()
	if err != nil {
		return Result{}, err
	}
	if s.Style == TwoPieceSleeve {
		if err := s.check(); err != nil {
			return Result{}, err
		}
		return s.twoPiece()
	}
	edges, err := s.edges()
	if err != nil {
		return Result{}, err
	}
	sleeve, err := shapes.NewPiece("sleeve", edges)
	if err != nil {
		return Result{}, err
	}
	sleeve.Count, sleeve.Pair, sleeve.Labels = 2, true, []string{"left", "right"}
	if err := s.notchCap(&sleeve); err != nil {
		return Result{}, err
	}
	seam, _ := sleeve.Edge("front seam")
	pieces := []shapes.Piece{sleeve}
	joins := []shapes.Join{seamOf("underarm seam", 2, along("sleeve", "front seam"), against("sleeve", "back seam"),
		seam.Length()/2)}
	var below []shapes.Piece
	var sewn []shapes.Join
	switch {
	case s.Style == BellSleeve:
		below, sewn, err = s.bell()
	case s.Style.banded() && s.Band > 0:
		below, sewn, err = s.band(sleeve)
	}
	if err != nil {
		return Result{}, err
	}
	d := Result{Pieces: append(pieces, below...), Joins: append(joins, sewn...), Rings: s.rings(),
		Notes: s.offNotes(sleeve), Rounds: 2}
	if d.Cap, err = s.crown(); err != nil {
		return Result{}, err
	}
	if s.Slit > 0 {
		if err := s.opened(&d); err != nil {
			return Result{}, err
		}
	}
	if s.Pleats > 0 {
		s.markPleats(&d.Pieces[0], d.Cap.Treatment)
		d.Notes = append(d.Notes, capPleatNotes(s.Pleats, d.Cap.Treatment)...)
	}
	return d, d.notch()
}

// edges returns the finished outline, the front on the lower side.
func (s Sleeve) edges() ([]shapes.Edge, error) {
	front, back, err := s.capLines()
	if err != nil {
		return nil, err
	}
	front = plane.MirrorLine(front, 0)
	front.Reverse()
	var off orb.LineString
	if s.OffShoulder > 0 {
		off = s.capOff(front, back)
	}
	frontArm, backArm := front[len(front)-1], back[len(back)-1]
	back.Reverse()
	lower, err := s.lowerEdge(frontArm, backArm)
	if err != nil {
		return nil, err
	}
	a := s.Allowance
	bottom := shapes.Edge{Name: "hem", Kind: shapes.Hem, Line: lower, Allowance: a.For(shapes.Hem)}
	if s.Style == BellSleeve || s.Style.banded() && s.Band > 0 {
		bottom = shapes.Edge{Name: "lower edge", Kind: shapes.Seam, Line: lower, Allowance: a.For(shapes.Seam)}
	}
	backSeam := s.seamLine(backArm, lower[len(lower)-1])
	backSeam.Reverse()
	edges := []shapes.Edge{
		{Name: "front seam", Line: s.seamLine(frontArm, lower[0]), Allowance: a.For(shapes.Seam)},
		bottom,
		{Name: "back seam", Line: backSeam, Allowance: a.For(shapes.Seam)},
		{Name: "back cap", Line: back, Allowance: a.For(shapes.Seam)},
	}
	if s.OffShoulder > 0 {
		edges = append(edges, shapes.Edge{Name: upperEdge, Kind: shapes.Top, Line: off, Allowance: a.For(shapes.Seam)})
	}
	return append(edges, shapes.Edge{Name: "front cap", Line: front, Allowance: a.For(shapes.Seam)}), nil
}

// lowerEdge returns the lower edge from the front to the back seam; both seams
// lean in alike.
func (s Sleeve) lowerEdge(front, back orb.Point) (orb.LineString, error) {
	_, puff := s.spread()
	end := s.Length + puff
	if s.Style == BellSleeve {
		end = s.BellFrom
	}
	raise, cap := s.HemRaise, front[0]
	if s.Style == BellSleeve {
		raise = 0
	}
	if s.Style.fanned() {
		c, err := s.cap()
		if err != nil {
			return nil, err
		}
		f := s.fan(c)
		if f.length-c.height-raise >= leastSeam {
			return f.hem(c, raise, chordError(s.Chord)), nil
		}
		end, cap = f.length, c.height
	}
	below := end - cap // of the outer layer
	if below-raise < leastSeam {
		return nil, say.Errorf("a cap of %.1f leaves %.1f of underarm seam, needs %v", say.MM(cap-puff),
			say.MM(below-raise), say.MM(leastSeam)).
			Hint("a longer sleeve, or a wider bicep for a lower cap")
	}
	wide := back[1] - front[1]
	if s.Style == LegOfMuttonSleeve {
		return s.wrist(front, back, below)
	}
	hem := s.Hem
	if s.Style == PuffSleeve {
		hem = wide
	}
	in := (wide - hem) / 2 * (below - raise) / below
	a, b := orb.Point{end - raise, front[1] + in}, orb.Point{end - raise, back[1] - in}
	if puff == 0 {
		return orb.LineString{a, b}, nil
	}
	// A cubic whose handles stand out by 4/3 reaches out by 1 in its middle.
	out, third := 4./3*puff, (b[1]-a[1])/3
	return chain(chordError(s.Chord), cubic{a, {a[0] + out, a[1] + third}, {b[0] + out, b[1] - third}, b}), nil
}

// leastSeam is the shortest underarm seam, mm.
const leastSeam = 20

// notchCap marks front and back where the armhole has its notches, the back twice.
func (s Sleeve) notchCap(p *shapes.Piece) error {
	front, back := s.kept()
	for _, n := range []struct {
		edge    string
		armhole float64
		marks   []float64 // from the underarm along the armhole, mm
	}{
		{"front cap", front, []float64{armholeNotch * front}},
		{"back cap", back, []float64{armholeNotch * back, armholeNotch*back + notchPair}},
	} {
		e, _ := p.Edge(n.edge)
		for _, m := range n.marks {
			at := m
			if s.Pleats == 0 { // pleats lie above the notches
				at = m / n.armhole * e.Length()
			}
			if n.edge == "front cap" { // it runs from the crown
				at = e.Length() - at
			}
			if err := p.AddNotch(n.edge, at); err != nil {
				return err
			}
		}
	}
	return nil
}

// bell drafts the sector below a bell's seam, for both sleeves.
func (s Sleeve) bell() ([]shapes.Piece, []shapes.Join, error) {
	// Its small arcs, sampled no finer than the cap, would come out shorter than
	// the straight edge they are sewn to.
	chord := max(chordError(s.Chord)/5, leastChord)
	f := Flounce{Top: s.Hem, Bottom: s.Sweep, Depth: s.Length - s.BellFrom, HemRaise: s.HemRaise, Closed: true,
		Chord: chord, Allowance: s.Allowance}
	d, err := f.Draft()
	if err != nil {
		return nil, nil, say.Errorf("bell: %w", err)
	}
	p := &d.Pieces[0]
	n := p.Count
	p.Name, p.Count = "sleeve bell", 2*n
	ends := seamOf("bell's ends", 2*n, along(p.Name, "lower end"), against(p.Name, "upper end"), f.Depth/2)
	return d.Pieces, []shapes.Join{ends, {
		Name: "bell to sleeve", Times: 2, Notches: quartersOf(s.Hem),
		A: sideOf(along("sleeve", "lower edge")),
		B: sideOf(shapes.SewnEdge{Piece: p.Name, Edge: "top", Reversed: true, Copies: n}),
	}}, nil
}

// rings returns the hem, or what is gathered or sewn to below.
func (s Sleeve) rings() []Ring {
	if s.Slit > 0 {
		return nil // it opens
	}
	name := "hem of the sleeve"
	switch s.Style {
	case BellSleeve:
		name = "seam above the bell"
	case PuffSleeve:
		name = "band of the sleeve"
	case BishopSleeve:
		name = "cuff of the sleeve"
	}
	return []Ring{{Name: name, Girth: s.Hem, Over: OverHand, Hint: say.Textf("a wider `hem`, at least so much")}}
}
