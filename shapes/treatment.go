package shapes

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"

	"github.com/paulmach/orb"
)

// Treatment is what takes up the surplus of an edge that is sewn to a shorter
// one. The zero value takes up nothing. From the finished length F, worn, the
// cut one follows:
//
//	cut = (F + Ease) Gather + 2 Pleats PleatDepth + sum of the dart mouths + Lap
//
//	|<------------------ cut ------------------->|
//	.----------.  .-----------.---.---.----------.
//	            \/             >   <              \
//	           dart        pleat, 2 depths         cloth
//
// Gathers, ease and pleats are spread evenly over the edge, but for pleats whose Folds say
// where they lie: those sum to what the pleats take up.
type Treatment struct {
	Gather     float64 // length before gathering over length after it, 1 or more; 0 means 1
	Ease       float64 // shrunk or worked in without a fold, mm; negative where the edge is stretched
	Pleats     int
	PleatDepth float64 // from fold to fold of one pleat, which takes up twice that, mm
	Folds      []Mouth // what the pleats take up, from the start of the side on, where they are not spread evenly
	Darts      []Mouth // from the start of the side on
	Lap        float64 // what lies under or over a neighbour at the end of the side, as an underlap does, mm
	Laps       []Mouth // and elsewhere, as petals over each other, from the start of the side on
}

// maxPleats is the most pleats laid in one edge; more is a slip of the pen.
const maxPleats = 1000

// Cut returns the length to cut for a finished length, mm. It refuses what
// cannot be sewn: gathers that stretch, pleats without depth, lengths of nothing.
func (t Treatment) Cut(finished float64) (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	cut := (finished+t.Ease)*t.gather() + t.folded()
	if err := Positive("finished length", finished); err != nil {
		return 0, err
	}
	return cut, Positive("cut length", cut)
}

// Finished returns the length left of a cut length once all is taken up, mm.
// More taken up than there is gives an error.
func (t Treatment) Finished(cut float64) (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	finished := (cut-t.folded())/t.gather() - t.Ease
	if !(finished > 0) {
		return 0, say.Errorf("an edge of %.1f, %v, leaves nothing", say.MM(cut), t.text())
	}
	return finished, nil
}

func (t Treatment) check() error {
	if t.Gather != 0 {
		if err := CheckFullness(t.Gather); err != nil {
			return err
		}
	}
	if math.IsNaN(t.Ease) || math.Abs(t.Ease) > MaxExtent {
		return say.Errorf("ease is %g, must be a length of at most %v", say.MM(t.Ease), say.MM(MaxExtent))
	}
	if t.Pleats < 0 || t.Pleats > maxPleats {
		return fmt.Errorf("pleats: %d, must be from 0 to %d", t.Pleats, maxPleats)
	}
	if t.Pleats > 0 {
		if err := Positive("pleat depth", t.PleatDepth); err != nil {
			return err
		}
	}
	if err := NotNegative("lap", t.Lap); err != nil {
		return err
	}
	for _, d := range slices.Concat(t.Darts, t.Laps, t.Folds) {
		if err := NotNegative("dart's place", d.From); err != nil {
			return err
		}
		if err := NotNegative("dart's width", d.Width); err != nil {
			return err
		}
	}
	return nil
}

func (t Treatment) gather() float64 {
	if t.Gather == 0 {
		return 1
	}
	return t.Gather
}

// folded is what pleats, darts and laps take up, mm.
func (t Treatment) folded() float64 {
	sum := 2*t.PleatDepth*float64(t.Pleats) + t.Lap
	for _, d := range slices.Concat(t.Darts, t.Laps) {
		sum += d.Width
	}
	return sum
}

// onMark is how far before a pleat or a dart, mm, a mark still lies on it: rounding.
const onMark = 1e-6

// OnCut returns where a distance along the finished side comes to lie along the
// cut one, both from the start, mm; whole is the finished length.
func (t Treatment) OnCut(distance, whole float64) float64 {
	at := distance * (1 + t.Ease/whole) * t.gather()
	if t.Pleats > 0 && t.Folds == nil {
		pitch := whole / float64(t.Pleats)
		at += 2 * t.PleatDepth * math.Floor((distance+onMark)/pitch+0.5)
	}
	taken := slices.Concat(t.Darts, t.Laps, t.Folds)
	slices.SortStableFunc(taken, func(a, b Mouth) int { return cmp.Compare(a.From, b.From) })
	for _, d := range taken {
		if at > d.From-onMark { // a mark on the sewn dart stands at its second leg
			at += d.Width
		}
	}
	return at
}

// Lapped is what lies under or over neighbours in all, mm.
func (t Treatment) Lapped() float64 {
	sum := t.Lap
	for _, l := range t.Laps {
		sum += l.Width
	}
	return sum
}

// String says it in words: "gathered 2 to 1, eased by 12 mm"; "" where nothing is done.
func (t Treatment) String() string { return t.text().String() }

func (t Treatment) text() say.Text {
	var words []say.Text
	if t.gather() != 1 {
		words = append(words, say.Textf("gathered %.3g to 1", t.Gather))
	}
	if t.Ease > 0 {
		words = append(words, say.Textf("eased by %.3g", say.MM(t.Ease)))
	} else if t.Ease < 0 {
		words = append(words, say.Textf("stretched by %.3g", say.MM(-t.Ease)))
	}
	if t.Pleats > 0 {
		words = append(words, say.Textf("pleats: %d, %.3g deep", t.Pleats, say.MM(t.PleatDepth)))
	}
	if lap := t.Lapped(); lap > 0 {
		words = append(words, say.Textf("lapped by %.3g", say.MM(lap)))
	}
	var widths []say.Text
	for _, d := range t.Darts {
		widths = append(widths, say.Textf("%.3g", say.MM(d.Width)))
	}
	if len(widths) > 0 {
		words = append(words, say.Textf("darts: %v", say.List(widths)))
	}
	return say.List(words)
}

// AddPleats marks the pleats of an edge of which they take up their part: two
// lines square to it for each, brought together when the pleat is laid, and the
// fold between them, all of the given length (mm) into the piece.
func (p *Piece) AddPleats(edge string, t Treatment, length float64) error {
	e, ok := p.Edge(edge)
	if !ok {
		return fmt.Errorf("%s: no edge %q for pleats", p.Name, edge)
	}
	finished, err := t.Finished(e.Length())
	if err != nil {
		return say.Errorf("%s: pleats of edge %q: %w", p.Name, edge, err)
	}
	for i := range t.Pleats {
		last := t.OnCut((float64(i)+0.5)*finished/float64(t.Pleats), finished)
		for _, d := range []float64{last - 2*t.PleatDepth, last - t.PleatDepth, last} {
			at, out := e.At(d)
			p.Inside = append(p.Inside, orb.LineString{at, {at[0] - length*out[0], at[1] - length*out[1]}})
		}
	}
	return nil
}

// Shift returns the shift from points as given to NewPiece to points of the
// piece that it made of them.
func (p Piece) Shift(given []Edge) orb.Point {
	a, b := given[0].Line[1], p.Edges[0].Line[1]
	return orb.Point{b[0] - a[0], b[1] - a[1]}
}

// Mark adds lines, drawn where the edges given to NewPiece were, to the piece.
func (p *Piece) Mark(given []Edge, lines ...orb.LineString) {
	by := p.Shift(given)
	for _, l := range lines {
		l = l.Clone()
		plane.MoveLine(l, by)
		p.Inside = append(p.Inside, l)
	}
}
