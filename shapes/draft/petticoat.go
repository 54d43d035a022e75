package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Petticoat is an underskirt of gathered tiers on a plain yoke:
//
//	casing   = = = = = = =        drawn up to the waist
//	yoke     |           |        goes over the hip
//	tier 1   |~~~~~~~~~~~~~|      gathered onto the yoke
//	tier 2  |~~~~~~~~~~~~~~~~~|   gathered onto tier 1, and so on
//
// With a casing it is pulled on: the yoke is straight, as wide as the hip, its
// strips cut across the cloth like those of the tiers, and its upper edge is
// turned down for a drawstring or elastic. Without one the yoke is fitted: a ring
// sector from the waist to the hip, open at the centre back; where it ends above the
// hip the opening runs on into the first tier, down to the hip.
type Petticoat struct {
	Waist     float64 // finished, drawn up or fitted, mm
	Hip       float64 // girth to go over, ease included, mm
	HipDepth  float64 // from waist to hip, mm; needed by a fitted yoke
	HighHip   HighHip // to go over besides
	Length    float64 // from waist to hem, mm
	YokeDepth float64 // from the waist to the first tier, mm
	Casing    float64 // width of the casing, mm; 0 for a fitted yoke with an opening

	Tiers    int       // 0 means one, or as many as there are Depths
	Depths   []float64 // of the tiers from the top, mm; none: equal shares of what the yoke leaves
	Fullness float64   // flat length over the length gathered onto, from tier to tier, 1 or more

	ClothWidth float64 // usable, mm
	Join       float64 // allowance at each end of each strip, mm
	HemRaise   float64 // how much shorter this layer is than the outer, mm
	Chord      float64 // chord error of a fitted yoke, mm; 0 means DefaultChord
	Allowance  shapes.Allowance
}

// yokeName is what the yoke and its strips are called by.
const yokeName = "petticoat yoke"

// fitted says whether the yoke is.
func (p Petticoat) fitted() bool { return p.Casing == 0 }

// fraction of a circle of a fitted yoke.
func (p Petticoat) fraction() float64 { return leastFraction(p.Waist, p.Hip, p.HipDepth, p.HighHip) }

// YokeEdge returns the length that the first tier is gathered onto, mm.
func (p Petticoat) YokeEdge() float64 {
	if p.fitted() {
		return p.Waist + 2*math.Pi*p.fraction()*p.YokeDepth
	}
	return p.Hip
}

// Draft returns the yoke and the tiers from the top. The casing adds its width to
// the allowance of the yoke's upper edge, and the line it is stitched on is marked.
func (p Petticoat) Draft() (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, say.Errorf("petticoat: %w", err)
	}
	yoke, edge, err := p.yoke()
	if err != nil {
		return Result{}, say.Errorf("petticoat: %w", err)
	}
	s := p.tiers()
	tiers, err := s.Draft()
	if err != nil {
		return Result{}, err
	}
	plan, err := s.plan()
	if err != nil {
		return Result{}, err
	}
	if on := p.openingInTier(); on > 0 {
		ends := plan[0].piecing.endToEnd(s.tierName(0, len(plan)), "")
		for i := range ends {
			ends[i].Notches = []float64{on}
		}
		if err := shapes.MatchNotches(tiers.Pieces, ends); err != nil {
			return Result{}, err
		}
	}
	onYoke := shapes.Join{
		Name: "yoke to tier 1", Notches: quartersOf(plan[0].Edge), A: shapes.JoinSide{Edges: edge},
		B: shapes.JoinSide{Edges: plan[0].piecing.run(s.tierName(0, len(plan)), s.gathered().name),
			Treatment: gathered(plan[0].Fullness)},
	}
	d := yoke
	d.Pieces, d.Joins = append(d.Pieces, tiers.Pieces...), slices.Concat(d.Joins, []shapes.Join{onYoke}, tiers.Joins)
	d.Rings, d.Notes = p.rings(), append(tiers.Notes, p.notes()...)
	d.Tables, d.Gathered = tiers.Tables, true
	return d, d.notch()
}

// tiers is the chain of tiers below the yoke.
func (p Petticoat) tiers() Strip {
	return Strip{
		Name: "petticoat", Edge: p.YokeEdge(), Fullness: p.Fullness, Depths: p.depths(),
		ClothWidth: p.ClothWidth, Join: p.Join, Allowance: p.Allowance, Closed: true, yoked: true,
	}
}

// depths returns those of the tiers, the last one less the hem raise, mm.
func (p Petticoat) depths() []float64 {
	depths := append([]float64(nil), p.Depths...)
	if len(depths) == 0 {
		n := max(p.Tiers, 1)
		for range n {
			depths = append(depths, (p.Length-p.YokeDepth)/float64(n))
		}
	}
	depths[len(depths)-1] -= p.HemRaise
	return depths
}

// yoke drafts it, with the seams between its sections and, where it is fitted, its
// waist from the centre back on; and its lower edge as it runs round.
func (p Petticoat) yoke() (Result, []shapes.SewnEdge, error) {
	lower := side{"lower edge", shapes.Seam, p.Allowance.Seam}
	if !p.fitted() {
		strips, err := pieceLength(p.Hip, p.ClothWidth, p.Join, ring)
		if err != nil {
			return Result{}, nil, say.Errorf("yoke: %w", err)
		}
		pieces, err := strips.pieces(yokeName, p.YokeDepth, side{"casing", shapes.Top, p.Casing + p.Allowance.Waist},
			lower)
		for i := range pieces {
			top, _ := pieces[i].Edge("casing")
			a, b := top.Line[0], top.Line[1]
			pieces[i].Inside = append(pieces[i].Inside,
				orb.LineString{{a[0] + p.Casing, a[1]}, {b[0] + p.Casing, b[1]}})
		}
		return Result{Pieces: pieces, Joins: strips.endToEnd(yokeName, "yoke, ")}, strips.run(yokeName, lower.name), err
	}
	w, err := p.fittedYoke()
	if err != nil {
		return Result{}, nil, err
	}
	d, err := w.draft()
	return d, w.around(lower.name), err
}

func (p Petticoat) fittedYoke() (wrap, error) {
	radius := p.Waist / (2 * math.Pi * p.fraction())
	n, err := shutting{fraction: p.fraction(), where: "centre front"}.sections()
	if err != nil {
		return wrap{}, err
	}
	lower := side{"lower edge", shapes.Seam, p.Allowance.Seam}
	return wrap{
		what: yokeName, openBack: true, inner: evenly(radius), outer: evenly(radius + p.YokeDepth),
		angle: 2 * math.Pi * p.fraction(), sections: n,
		top: side{"waist", shapes.Waist, p.Allowance.Waist}, hem: lower, seam: p.Allowance.Seam,
		chord: chordError(p.Chord),
	}, nil
}

// depthSlack is by how much the depths given may differ from the whole length, mm.
const depthSlack = 0.5

func (p Petticoat) check() error {
	err := positive(measured{"waist", p.Waist}, measured{"hip", p.Hip}, measured{"length", p.Length},
		measured{"yoke depth", p.YokeDepth})
	if err != nil {
		return err
	}
	if err := notNegative(measured{"casing", p.Casing}); err != nil {
		return err
	}
	if p.YokeDepth >= p.Length {
		return say.Errorf("yoke depth of %.6g leaves nothing for tiers of a length of %.6g", say.MM(p.YokeDepth),
			say.MM(p.Length))
	}
	if p.Tiers < 0 || p.Tiers > MaxCount {
		return fmt.Errorf("tiers: %d, must be from 1 to %d", p.Tiers, MaxCount)
	}
	sum := p.YokeDepth
	for i, d := range p.Depths {
		if err := positive(measured{fmt.Sprintf("depth of tier %d", i+1), d}); err != nil {
			return err
		}
		sum += d
	}
	if n := len(p.Depths); n > 0 && (p.Tiers != 0 && p.Tiers != n) {
		return fmt.Errorf("%d depths for %d tiers", n, p.Tiers)
	} else if n > 0 && math.Abs(sum-p.Length) > depthSlack {
		return say.Errorf("yoke and tiers are %.1f deep, the petticoat %.1f long", say.MM(sum), say.MM(p.Length))
	}
	last := p.depths()
	return cmp.Or(
		checkHem(p.HemRaise, last[len(last)-1]+p.HemRaise, p.Chord, p.Allowance),
		p.checkYoke(),
	)
}

// checkYoke refuses a yoke that cannot be put on or worn.
func (p Petticoat) checkYoke() error {
	if !p.fitted() {
		if p.Casing >= p.YokeDepth {
			return say.Errorf("casing of %.6g takes the whole yoke of %.6g", say.MM(p.Casing), say.MM(p.YokeDepth))
		}
		if p.Waist > p.Hip {
			return say.Errorf("waist of %.1f is larger than the hip of %.1f: a yoke that goes over the hip is too "+
				"narrow to pull on", say.MM(p.Waist), say.MM(p.Hip)).
				Hint("take the waist for the hip too")
		}
		if h := p.HighHip; h.Girth > p.Hip {
			return say.Errorf("a yoke as wide as the hip of %.1f does not clear %s", say.MM(p.Hip), h.text()).
				Hint("take the high hip for the hip")
		}
		return nil
	}
	if err := cmp.Or(
		positive(measured{"hip depth", p.HipDepth}),
		p.HighHip.check(p.HipDepth),
	); err != nil {
		return err
	}
	if p.Hip-p.Waist < leastFlare {
		return say.Errorf("hip of %.1f is not wider than the waist of %.1f by %g or more: no fitted yoke",
			say.MM(p.Hip), say.MM(p.Waist), say.MM(leastFlare)).
			Hint("a casing")
	}
	if err := checkFraction(p.fraction()); err != nil {
		return err
	}
	radius := p.Waist / (2 * math.Pi * p.fraction())
	if radius+p.YokeDepth > shapes.MaxExtent/2 {
		return say.Errorf("so little flare gives the yoke a radius of %.0f, the most is %v",
			say.MM(radius+p.YokeDepth), say.MM(shapes.MaxExtent/2)).
			Hint("a casing")
	}
	if err := checkInnerRadius("waist", radius, p.Allowance.Waist); err != nil {
		return err
	}
	if on, tier := p.openingInTier(), p.depths()[0]; on > tier-leastBelow {
		return say.Errorf("yoke of %.1f ends above the hip at %.1f: its lower edge, %.1f round, does not pass the "+
			"hip of %.1f, and the opening does not fit into the first tier of %.1f", say.MM(p.YokeDepth),
			say.MM(p.HipDepth), say.MM(p.YokeEdge()), say.MM(p.Hip), say.MM(tier)).
			Hint("%v, or a first tier of %.1f or more", p.deeperYoke(), say.MM(ceilTo(on+leastBelow, 0.1)))
	}
	return cmp.Or(shapes.CheckFullness(p.Fullness), checkRings(p.rings()...))
}

// leastBelow is how much of a seam is left to sew below an opening in a tier, mm
// (common practice).
const leastBelow = 25

// openingInTier returns how far the opening of a fitted yoke runs on into the first
// tier, mm: down to the hip where the yoke does not go round it; else 0.
func (p Petticoat) openingInTier() float64 {
	if !p.fitted() || p.YokeEdge() >= p.Hip-girthSlack {
		return 0
	}
	return p.HipDepth - p.YokeDepth
}

// deeperYoke says how deep a yoke goes round the hip.
func (p Petticoat) deeperYoke() say.Text {
	return say.Textf("a yoke of %.1f", say.MM(ceilTo((p.Hip-p.Waist)/(2*math.Pi*p.fraction()), 0.1)))
}

// ceilTo rounds up to a multiple of a step.
func ceilTo(x, step float64) float64 { return math.Ceil(x/step-1e-9) * step }

// notes says how far the opening runs on below the yoke.
func (p Petticoat) notes() []say.Text {
	on := p.openingInTier()
	if on == 0 {
		return nil
	}
	return []say.Text{say.Textf("The yoke ends above the hip, %.1f round, so the opening runs on %.1f into the first "+
		"tier, down to the hip: leave the seam of that tier at the centre back open to its notches.",
		say.MM(p.YokeEdge()), say.MM(on))}
}

// rings returns what is closed below the opening: of a yoke with a casing its waist,
// drawn out; of a fitted one its lower edge, or where the opening runs on into the
// first tier the girth of that.
func (p Petticoat) rings() []Ring {
	if !p.fitted() {
		return []Ring{{Name: "casing, drawn out", Girth: p.YokeEdge(), Over: OverHips, Needs: p.Hip,
			Hint: say.Textf("a wider hip")}}
	}
	on := p.openingInTier()
	if on == 0 {
		return []Ring{{Name: "lower edge of the yoke", Girth: p.YokeEdge(), Over: OverHips, Needs: p.Hip,
			Hint: p.deeperYoke()}}
	}
	return []Ring{{
		Name: "first tier below the opening", Girth: p.YokeEdge() * p.Fullness, Over: OverHips, Needs: p.Hip,
		Hint: say.Textf("a fullness of %.2f or more, or %v", ceilTo(p.Hip/p.YokeEdge(), 0.01), p.deeperYoke()),
	}}
}
