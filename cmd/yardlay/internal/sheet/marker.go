package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Marker is the arrangement of pieces on one cloth. Lengths are mm; x runs along
// the cloth from the cut end, y across it from the inner side of the lower
// selvedge. Used and Pieces are those of a single open lay; a marker of other
// lays, or of several, has Stretches instead, and one whose only stretch is open
// and has nothing else to it is drawn as if it had none.
type Marker struct {
	Title    string // of the job
	Cloth    string // what it is called
	Nap      string // "one-way"
	Width    float64
	OneWay   bool    // grain arrows have one head, towards the hem: the nap runs that way
	Selvedge float64 // of each edge; the usable width is Width less two of them
	Used     float64
	Needed   float64 // with all layers, ends, skew, shrinkage and spare; 0: not said
	Bought   float64 // at least Used and Needed; 0 with Stretches: nothing is bought
	Unit     measure.Unit
	Notes    []string // stand under the title, after the lengths
	Cautions []string // lines at the foot
	Pieces   []Placed
	// Stretches are drawn one below the other in this order, all at one scale.
	Stretches []Stretch
}

// Placed is one copy of a piece in its place on the cloth.
type Placed struct {
	Name string // "side back gore"
	Copy string // "left", "2 of 4"; may be empty
	Size string // cut size, as it is to be read
	// Fold is the edge that lies against a fold of the lay, two points or more in
	// the coordinates of the stretch; empty: not on a fold. Outline is then the half.
	Fold    orb.LineString
	Matches []Match // points that lie on the repeat
	Outline
}

// Paper measures of a marker, mm.
const (
	paperLong    = 330.0 // length of cloth that a drawing takes at most, but for very long ones
	paperWide    = 170.0 // width of cloth that a drawing takes at most
	paperNarrow  = 60.0  // and at least: a very long cloth makes a longer drawing
	paperLeast   = 200.0 // width of the page at least, for its texts
	marginLeft   = 12.0
	marginRight  = 22.0
	margin       = 8.0
	textHeading  = 4.4
	textNote     = 3.0
	textDim      = 2.7
	textSelvedge = 2.2
)

// length is the cloth's length as drawn.
func (m Marker) length() float64 { return math.Max(m.Used, m.Bought) }

// scale chooses whole millimetres of cloth for one of paper.
func (m Marker) scale() float64 {
	k := math.Max(m.length()/paperLong, m.Width/paperWide)
	return math.Max(1, math.Ceil(math.Min(k, math.Max(m.Width/paperNarrow, m.length()/1200))))
}

// used shows the used length in the job's unit, finer than the counter's, so
// that what the marker saves below a step is seen.
func (m Marker) used() string { return measure.BothUp(m.Used, m.Unit) }

// toBuy shows the bought length in the counter's unit of the job's system.
func (m Marker) toBuy() string {
	if m.Unit.Metric() {
		return measure.BothUp(m.Bought, measure.Metre)
	}
	return measure.BothUp(m.Bought, measure.Yard)
}

// Drawing draws the marker.
func (m Marker) Drawing() Drawing {
	k := m.scale()
	p := page{marker: m, k: k}
	p.width = math.Max(m.length()/k+marginLeft+marginRight, paperLeast) * k
	head := p.head()
	p.origin = orb.Point{marginLeft * k, head.y + (3+textSelvedge)*k + m.Width - m.Selvedge}
	pieces, keys := p.pieces()
	foot := p.foot(keys)
	groups := []Group{
		{Items: head.items},
		{Title: "cloth: " + m.Cloth, Items: p.cloth()},
	}
	groups = append(groups, pieces...)
	groups = append(groups, Group{Items: p.marks()}, Group{Items: p.scaleBar()}, Group{Items: foot.items})
	return Drawing{
		Title:       "Marker: " + m.Title + ", " + m.Cloth,
		Description: fmt.Sprintf("%s on %s, used length %s.", inPieces(len(m.Pieces)), m.Cloth, m.used()),
		Width:       p.width, Height: foot.y + margin*k, Scale: k, Groups: groups,
	}
}

// page is a marker on its way to paper.
type page struct {
	marker Marker
	k      float64   // mm of cloth for one of paper
	width  float64   // of the page
	origin orb.Point // where the cloth's (0, 0) lies
}

func (p page) column(top float64) *column {
	return &column{x: margin * p.k, y: top, width: p.width - 2*margin*p.k}
}

func (p page) head() *column {
	m, k := p.marker, p.k
	c := p.column(margin * k)
	c.add(RoleHeading, textHeading*k, strings.TrimPrefix(m.Title+": "+m.Cloth, ": "))
	c.y += 0.8 * k
	facts := []string{"width " + measure.Both(m.Width, m.Unit)}
	if m.Selvedge > 0 {
		facts = append(facts, "usable "+measure.Both(m.Width-2*m.Selvedge, m.Unit))
	}
	if m.Nap != "" {
		facts = append(facts, "nap "+m.Nap)
	}
	c.add(RoleNote, textNote*k, strings.Join(facts, " · "))
	laid := append([]string{"used " + m.used(), "to buy " + m.toBuy(), inPieces(len(m.Pieces))}, m.Notes...)
	c.add(RoleNote, textNote*k, strings.Join(laid, " · "))
	return c
}

// pieces draws each piece with its label. Pieces too small for one get a number;
// keys explain the numbers, one for each name and size.
func (p page) pieces() (groups []Group, keys []string) {
	tints := map[string]int{}
	numbers := map[[2]string]int{}
	copies := map[int][]string{}
	for _, pl := range p.marker.Pieces {
		if _, ok := tints[pl.Name]; !ok {
			tints[pl.Name] = len(tints)
		}
		tint := tints[pl.Name]
		o := pl.onto(p.origin)
		items := o.items(tint, p.k)
		l, ok := labelled(o, blocks(pl.Name, pl.Copy, pl.Size), p.k)
		if !ok {
			id := [2]string{pl.Name, pl.Size}
			if numbers[id] == 0 {
				keys = append(keys, strings.TrimSuffix(fmt.Sprintf("%d = %s, %s", len(keys)+1, pl.Name, pl.Size), ", "))
				numbers[id] = len(keys)
			}
			n := numbers[id]
			if pl.Copy != "" {
				copies[n] = append(copies[n], pl.Copy)
			}
			l, ok = numbered(o, n, p.k)
		}
		if ok {
			items = append(items, grainItems(l.grain, p.k, !p.marker.OneWay)...)
			items = append(items, l.items(RoleNote, tint)...)
		}
		groups = append(groups, Group{Title: title(pl), Items: items})
	}
	for i := range keys {
		if c := copies[i+1]; len(c) > 0 {
			keys[i] += ": " + strings.Join(c, ", ")
		}
	}
	return groups, keys
}

func title(pl Placed) string {
	var parts []string
	for _, s := range []string{pl.Name, pl.Copy, pl.Size} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, ", ")
}

// signs explains what stands in a piece.
const signs = "In pieces: arrow, grain, with one head where the nap runs one way; dashes, seam line; dash and dot, marked line; size as cut, along x across the grain."

// foot holds the key of signs, that of numbers and the cautions, below the scale bar.
func (p page) foot(keys []string) *column {
	c := p.column(p.bottom() + 27*p.k)
	c.add(RoleNote, textDim*p.k, signs)
	c.y += 2 * p.k
	if len(keys) > 0 {
		c.add(RoleHeading, textNote*p.k, "Numbered pieces")
		for _, key := range keys {
			c.add(RoleNote, textDim*p.k, key)
		}
		c.y += 2 * p.k
	}
	for _, s := range p.marker.Cautions {
		c.add(RoleCaution, textDim*p.k, s)
	}
	return c
}

// top and bottom are the outer edges of the cloth on the page.
func (p page) bottom() float64 { return p.origin[1] + p.marker.Selvedge }
func (p page) top() float64    { return p.bottom() - p.marker.Width }
