package draft

import (
	"cmp"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// pleating of a ruff is alike from its neck to its hem: all one way.
func (c Collar) pleating() pleating {
	return pleating{style: KnifePleats, count: c.Pleats, repeat: c.Neck/float64(c.Pleats) + 2*c.Depth,
		levels: []pleatLevel{{0, c.Neck}}}
}

// mostRuff is the most layers of a ruff's pleats: of fine linen or lace, far more than a
// skirt has (from memory of ruffs of six yards and more on a neck of fourteen inches).
const mostRuff = 25.0

func (c Collar) checkRuff() error {
	if err := cmp.Or(
		positive(measured{"pleat depth", c.Depth}, measured{"band", c.Band}, measured{"cloth width", c.ClothWidth}),
		notNegative(measured{"join allowance", c.Join}, measured{"allowance of the free ends", c.EndHem}),
	); err != nil {
		return err
	}
	if c.Round > 0 {
		return say.Errorf("corner radius of %.1f: the ends of a ruff are square", say.MM(c.Round))
	}
	if c.Band < leastBand {
		return say.Errorf("band of a finished width of %.1f cannot be turned, must be %v or more", say.MM(c.Band),
			say.MM(leastBand))
	}
	return c.pleating().check(mostRuff)
}

// ruff drafts the strips, their folds marked, and the band that they are sewn into.
func (c Collar) ruff() (Result, error) {
	most := max(c.Join, c.EndHem)
	run, err := c.pleating().over(c.ClothWidth, most)
	if err != nil {
		return Result{}, err
	}
	d := Result{Notes: run.notes(), Ends: freeEnds(false, c.EndHem), EndsAt: c.opensAt()}
	kinds := run.kinds("ruff strip", "ruff first strip", "ruff strip", "ruff last strip")
	var upper []shapes.SewnEdge
	for _, k := range kinds {
		p, err := c.strip(run, k)
		if err != nil {
			return Result{}, err
		}
		d.Pieces = append(d.Pieces, p)
		upper = append(upper, shapes.SewnEdge{Piece: k.name, Edge: "pleated edge", Copies: k.count, Reversed: true})
	}
	band, err := c.band()
	if err != nil {
		return Result{}, err
	}
	d.Pieces = append(d.Pieces, band)
	joins := pleatedJoins(kinds, c.Height/2)
	d.Joins = append(joins[:len(joins)-1], shapes.Join{
		Name: "ruff to its band", Notches: quartersOf(c.Neck),
		A: shapes.JoinSide{Edges: upper, Treatment: run.taken()}, B: sideOf(along("neck band", "ruff edge")),
	})
	d.Neck = shapes.JoinSide{Edges: []shapes.SewnEdge{against("neck band", neckName)}, FromFront: !c.OpenBack}
	return d, d.notch(d.Neck)
}

// strip is one width of the ruff: its ends are hemmed where it ends.
func (c Collar) strip(run pleated, k pleatedKind) (shapes.Piece, error) {
	end := func(name string) side {
		if name == backStart || name == backEnd {
			return side{name, shapes.Hem, c.EndHem}
		}
		return side{name, shapes.Seam, c.Join}
	}
	p, err := panel{
		along: c.Height, across: run.repeat * float64(k.repeats),
		lower: end(k.lower), far: side{"hem", shapes.Hem, c.Allowance.Hem}, upper: end(k.upper),
		near: side{"pleated edge", shapes.Top, c.Allowance.Seam},
	}.piece(k.name)
	if err != nil {
		return shapes.Piece{}, err
	}
	p.Count = k.count
	run.mark(&p, p.Edges[0].Line[0], k.repeats, c.Height)
	return p, nil
}

// band is folded along its middle, the ruff in one of its long edges.
func (c Collar) band() (shapes.Piece, error) {
	a := c.Allowance.Seam
	p, err := panel{
		along: c.Neck, across: 2 * c.Band,
		lower: side{"ruff edge", shapes.Top, a}, far: side{"far end", shapes.Seam, a},
		upper: side{neckName, shapes.Top, a}, near: side{"near end", shapes.Seam, a},
	}.piece("neck band")
	if err != nil {
		return shapes.Piece{}, err
	}
	p.Names = []shapes.LineName{{Line: 0, Name: "fold"}}
	p.Inside = []orb.LineString{{{a, a + c.Band}, {a + c.Neck, a + c.Band}}}
	for i := range p.Grain {
		p.Grain[i][1] = a + c.Band/2
	}
	return p, nil
}
