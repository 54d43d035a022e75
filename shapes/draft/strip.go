package draft

import (
	"fmt"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Strip is a ruffle, or a chain of gathered tiers, pieced from strips cut across
// the cloth. A single strip is asked for by its flat length or by the edge it is
// gathered onto and the fullness. In a chain every further tier is gathered onto
// the lower edge of the one above, so that fullness multiplies: 750 mm at 2 to 1
// three times is 1500, 3000 and 6000 mm.
type Strip struct {
	Name     string  // what it is called; "ruffle" when empty
	Length   float64 // flat length of the first tier, mm; or else:
	Edge     float64 // length that the first tier is gathered onto, mm
	Fullness float64 // flat length over gathered length, 1 or more; needed with Edge, and from tier to tier

	Depth  float64   // finished depth of every tier, mm; or else:
	Depths []float64 // of each tier from the top, mm
	Tiers  int       // 0 means one, or as many as there are Depths

	ClothWidth float64 // usable, mm
	Join       float64 // allowance at each end of each strip, mm
	Closed     bool    // each tier goes round: its ends are joined too
	EndHem     float64 // allowance of ends that are not, mm; 0 leaves them raw
	Allowance  shapes.Allowance

	yoked bool // the first tier is sewn to a yoke of the same draft
}

// Tier is one line of the table of a Strip.
type Tier struct {
	Tier     int     // from the top, 1 first
	Edge     float64 // length gathered onto, mm; 0 when only a flat length is given
	Flat     float64 // flat length, mm
	Fullness float64 // Flat / Edge; 0 when only a flat length is given
	Strips   int     // across the cloth, the last one perhaps narrower
	Depth    float64 // finished, mm
	CutDepth float64 // with allowances, mm
	Cloth    float64 // length of cloth at one strip a row, mm
}

// tier is a tier as drafted.
type tier struct {
	Tier
	piecing piecing
	lower   side
}

// Draft returns for each tier its whole strips, one piece with a count, and the
// narrower strip that makes up the length, if any. Depth lies along the grain.
// The gathered edge takes the seam allowance, the lower edge the hem allowance
// on the last tier and the seam allowance on the others. Ends of the strips are in
// seams, but the first and the last of a tier that is not closed: those are hemmed.
func (s Strip) Draft() (Result, error) {
	tiers, err := s.plan()
	if err != nil {
		return Result{}, err
	}
	d := Result{Joins: s.joins(tiers), Ends: freeEnds(s.Closed, s.EndHem), Gathered: true}
	for i, t := range tiers {
		name := s.tierName(i, len(tiers))
		pieces, err := t.piecing.pieces(name, t.Depth, s.gathered(), t.lower)
		if err != nil {
			return Result{}, err
		}
		d.Pieces = append(d.Pieces, pieces...)
		d.Tables.Tiers = append(d.Tables.Tiers, t.Tier)
		if t.Edge > 0 {
			d.Notes = append(d.Notes, easedNote(name, s.Fullness, t.Fullness)...)
		}
	}
	return d, d.notch(s.upper(tiers))
}

func (s Strip) name() string {
	if s.Name == "" {
		return "ruffle"
	}
	return s.Name
}

// tierName is what the strips of tier i of so many are called by, 0 the first.
func (s Strip) tierName(i, tiers int) string {
	if tiers == 1 {
		return s.name()
	}
	return fmt.Sprintf("%s tier %d", s.name(), i+1)
}

func (s Strip) ends() ends {
	if s.Closed {
		return ring
	}
	return ends{free: true, hem: s.EndHem}
}

func (s Strip) gathered() side { return side{"gathered edge", shapes.Top, s.Allowance.Seam} }

func (s Strip) plan() ([]tier, error) {
	depths, err := s.check()
	if err != nil {
		return nil, say.Errorf("%s: %w", s.name(), err)
	}
	tiers := make([]tier, len(depths))
	edge, flat := s.Edge, s.Length
	for i, depth := range depths {
		if flat == 0 || i > 0 {
			flat = edge * s.Fullness
		}
		t := &tiers[i]
		if edge > 0 {
			t.piecing, err = pieceGathered(flat, edge, s.ClothWidth, s.Join, s.ends())
		} else {
			t.piecing, err = pieceLength(flat, s.ClothWidth, s.Join, s.ends())
		}
		if err != nil {
			return nil, say.Errorf("%s, tier %d: %w", s.name(), i+1, err)
		}
		if edge > 0 && t.piecing.part == 0 {
			flat = t.piecing.flat()
		}
		t.lower = side{"lower edge", shapes.Seam, s.Allowance.Seam}
		if i == len(depths)-1 {
			t.lower = side{"hem", shapes.Hem, s.Allowance.Hem}
		}
		t.Tier = Tier{Tier: i + 1, Edge: edge, Flat: flat, Strips: t.piecing.count(),
			Depth: depth, CutDepth: s.gathered().allowance + depth + t.lower.allowance}
		if edge > 0 {
			t.Fullness = flat / edge
		}
		t.Cloth = float64(t.Strips) * t.CutDepth
		edge = flat
	}
	return tiers, nil
}

// check returns the depth of each tier.
func (s Strip) check() ([]float64, error) {
	switch {
	case s.Length != 0 && s.Edge != 0:
		return nil, say.Errorf("both a flat length (%.6g) and an edge to gather onto (%.6g) are given",
			say.MM(s.Length), say.MM(s.Edge)).
			Hint("give one of them")
	case s.Length != 0:
		if err := positive(measured{"flat length", s.Length}); err != nil {
			return nil, err
		}
	default:
		if err := positive(measured{"edge to gather onto", s.Edge}); err != nil {
			return nil, say.Errorf("%w", err).Hint("or give the flat length")
		}
	}
	depths, err := s.depths()
	if err != nil {
		return nil, err
	}
	if s.Edge != 0 || len(depths) > 1 {
		if err := shapes.CheckFullness(s.Fullness); err != nil {
			return nil, err
		}
	}
	return depths, s.Allowance.Check()
}

func (s Strip) depths() ([]float64, error) {
	if s.Tiers < 0 || s.Tiers > MaxCount {
		return nil, fmt.Errorf("tiers: %d, must be from 1 to %d", s.Tiers, MaxCount)
	}
	depths := s.Depths
	if len(depths) == 0 {
		for range max(s.Tiers, 1) {
			depths = append(depths, s.Depth)
		}
	} else if s.Depth != 0 {
		return nil, say.Errorf("both one depth (%.6g) and a depth for each tier are given", say.MM(s.Depth)).
			Hint("give one of them")
	} else if s.Tiers != 0 && s.Tiers != len(depths) {
		return nil, fmt.Errorf("%d depths for %d tiers", len(depths), s.Tiers)
	}
	for i, d := range depths {
		name := "depth"
		if len(depths) > 1 {
			name = fmt.Sprintf("depth of tier %d", i+1)
		}
		if err := positive(measured{name, d}); err != nil {
			return nil, err
		}
	}
	return depths, nil
}
