package sheet

import (
	"fmt"
	"math"
	"slices"
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
	ID   string // of the copies that it cuts, for a page that ties them to a list; may be empty
	// GrainNote says how a piece is cut that does not follow the warp: "bias". The grain
	// arrow of any piece is its line along the warp, but for what it leans.
	GrainNote string
	// Fold is the edge that lies against a fold of the lay, two points or more in
	// the coordinates of the stretch; empty: not on a fold. Outline is then the half.
	Fold    orb.LineString
	Matches []Match    // points that lie on the repeat
	Facts   [][]string // at full size: what else it carries, in groups, the weightiest first
	Outline
}

// Grains of a placed piece that does not follow the warp.
const (
	Bias       = "bias"
	CrossGrain = "cross grain"
)

// Paper measures of a marker, mm.
const (
	paperLong    = 330.0 // length of cloth that a drawing takes at most, but for very long ones
	paperWide    = 170.0 // width of cloth that a drawing takes at most
	paperNarrow  = 60.0  // and at least: a very long cloth makes a longer drawing
	paperHigh    = 360.0 // width that all stretches of a drawing take together
	paperLeast   = 200.0 // width of the page at least, for its texts
	marginLeft   = 12.0
	marginRight  = 22.0
	margin       = 8.0
	textHeading  = 4.4
	textNote     = 3.0
	textDim      = 2.7
	textSelvedge = 2.2
)

// stretches gives what is drawn; a plain marker is one open stretch.
func (m Marker) stretches() []Stretch {
	if len(m.Stretches) == 0 {
		return []Stretch{{Width: m.Width, Selvedge: m.Selvedge, Used: m.Used, Length: m.Bought, Pieces: m.Pieces}}
	}
	all := slices.Clone(m.Stretches)
	for i := range all {
		if all[i].Width == 0 {
			all[i].Width, all[i].Selvedge = m.Width, m.Selvedge
		}
	}
	return all
}

// scale chooses whole millimetres of cloth for one of paper.
func scale(stretches []Stretch) float64 {
	longest, widest, all := 0.0, 0.0, 0.0
	for _, s := range stretches {
		longest, widest, all = math.Max(longest, s.length()), math.Max(widest, s.folded()), all+s.folded()
	}
	k := math.Max(longest/paperLong, math.Max(widest/paperWide, all/paperHigh))
	return math.Max(1, math.Ceil(math.Min(k, math.Max(widest/paperNarrow, longest/1200))))
}

// toBuy shows the bought length in the counter's unit of the job's system.
func (m Marker) toBuy() string {
	return measure.BothUp(m.Bought, measure.CounterUnit(m.Unit))
}

// bought counts the stretches that come off the bolt.
func bought(stretches []Stretch) int {
	n := 0
	for _, s := range stretches {
		if !s.Shelf {
			n++
		}
	}
	return n
}

// lengths says in words what the marker takes. The used length is shown in the
// job's unit, finer than the counter's, so that what is saved below a step is seen.
func (m Marker) lengths(stretches []Stretch) []string {
	var facts []string
	used := ""
	if len(stretches) == 1 && !stretches[0].Lay.double() {
		used = measure.BothUp(stretches[0].Used, m.Unit)
		facts = append(facts, "used "+used)
	}
	if needed := measure.BothUp(m.Needed, m.Unit); m.Needed > 0 && needed != used {
		facts = append(facts, "needed "+needed)
	}
	if bought(stretches) == 0 {
		return append(facts, "nothing to buy")
	}
	if m.Bought > 0 || len(m.Stretches) == 0 {
		facts = append(facts, "to buy "+m.toBuy())
	}
	return facts
}

// described is the first of the lengths, for the description.
func (m Marker) described(stretches []Stretch) string {
	said := m.lengths(stretches)
	if len(said) == 0 || bought(stretches) == 0 {
		return ""
	}
	what, length, _ := strings.Cut(said[0], " ")
	return ", " + what + " length " + length
}

// Drawing draws the marker.
func (m Marker) Drawing() Drawing {
	stretches := m.stretches()
	k := scale(stretches)
	p := newPage(m, k)
	lead, reach, count := 0.0, 0.0, 0
	for _, s := range stretches {
		lead, count = math.Max(lead, s.Skew), count+s.cuts()
	}
	for _, s := range stretches {
		reach = math.Max(reach, (lead-s.Skew+s.length())/k+s.farRoom())
	}
	p.width = math.Max(reach+marginLeft+marginRight, paperLeast) * k
	head := p.head(stretches, count)
	groups := []Group{{Items: head.items}}
	y := head.y
	for i, s := range stretches {
		if i > 0 {
			y += 8 * k
		}
		l := p.lay(s, orb.Point{marginLeft*k + lead + s.Ends, y}, stretches)
		groups = append(groups, l.groups(&p)...)
		y = l.end()
	}
	groups = append(groups, Group{Items: p.scaleBar(y + 8.5*k)})
	foot := p.foot(y+15*k, stretches)
	groups = append(groups, Group{Items: foot.items})
	return Drawing{
		Title:       "Marker: " + m.Title + ", " + m.Cloth,
		Description: fmt.Sprintf("%s on %s%s.", inPieces(count), m.Cloth, m.described(stretches)),
		Width:       p.width, Height: foot.y + margin*k, Scale: k, Groups: groups,
	}
}

// page is a marker on its way to paper.
type page struct {
	marker  Marker
	k       float64 // mm of cloth for one of paper
	width   float64 // of the page
	tints   map[string]int
	keys    []string         // explain the numbers of small pieces
	numbers map[string]int   // by what the piece is
	copies  map[int][]string // by number
	letters Letters          // of match points
	full    float64          // at full size: how much larger its words are than on paper; 0: it is not
	left    []string         // at full size: what has no room in its piece
}

func newPage(m Marker, k float64) page {
	return page{marker: m, k: k, tints: map[string]int{}, numbers: map[string]int{}, copies: map[int][]string{}}
}

func (p *page) column(top float64) *column {
	return &column{x: margin * p.k, y: top, width: p.width - 2*margin*p.k}
}

func (p *page) head(stretches []Stretch, count int) *column {
	m, k := p.marker, p.k
	c := p.column(margin * k)
	c.add(RoleHeading, textHeading*k, strings.TrimPrefix(m.Title+": "+m.Cloth, ": "))
	c.y += 0.8 * k
	for _, fact := range m.facts(stretches, count) {
		c.add(RoleNote, textNote*k, fact)
	}
	return c
}

// piece draws a piece of a lay with its label. One too small for that gets a
// number; keys explain the numbers, one for each name and size.
func (p *page) piece(pl Placed, l lay) Group {
	k := p.k
	tint, ok := p.tints[pl.Name]
	if !ok {
		tint = len(p.tints)
		p.tints[pl.Name] = tint
	}
	o := pl.onto(l.origin)
	items := o.items(tint, k)
	if p.full > 0 {
		for _, fold := range o.dartFolds() {
			items, o.clear = append(items, Line{RoleFold, fold}), append(o.clear, fold)
		}
	}
	rules := l.Repeat.ruling(o.Cut, l.origin, k)
	items = append(items, rules...)
	bracket, clear := pl.bracket(l, o)
	items = append(items, bracket...)
	var points []Match
	for _, m := range pl.Matches {
		points = append(points, Match{p.letters.Of(m.Name), l.onto(m.At)})
	}
	marks, taken := matchItems(points, o, tint, k)
	items = append(items, marks...)
	o.clear = append(clear, taken...)
	label, ok := p.words(pl, o)
	if !ok {
		label, ok = numbered(o, p.number(pl), pl.GrainNote, k)
	}
	if ok {
		label.plate = label.plate || len(rules) > 0
		items = append(items, grainItems(label.grain, k, !p.marker.OneWay)...)
		items = append(items, label.items(RoleNote, tint)...)
	}
	return Group{Title: strings.Join(pl.texts(), ", "), ID: pl.ID, Items: items}
}

// words finds the place of the words in a piece.
func (p *page) words(pl Placed, o Outline) (label, bool) {
	if p.full > 0 {
		return p.carries(pl, o)
	}
	return labelled(o, blocks(pl.texts()...), p.k)
}

// number gives the number of a piece too small for words.
func (p *page) number(pl Placed) int {
	what := pl
	what.Copy = ""
	said := what.texts()
	if p.full > 0 {
		said = append(said, slices.Concat(pl.Facts...)...)
	}
	id := strings.Join(said, ", ")
	if p.numbers[id] == 0 {
		p.keys = append(p.keys, strings.TrimSuffix(fmt.Sprintf("%d = %s", len(p.keys)+1, id), ", "))
		p.numbers[id] = len(p.keys)
	}
	n := p.numbers[id]
	if pl.Copy != "" {
		p.copies[n] = append(p.copies[n], pl.Copy)
	}
	return n
}

// texts are the lines of a piece's label.
func (pl Placed) texts() []string {
	return slices.DeleteFunc([]string{pl.Name, pl.Copy, pl.GrainNote, pl.onFold(), pl.Size},
		func(s string) bool { return s == "" })
}

func (pl Placed) onFold() string {
	if len(pl.Fold) > 1 {
		return "on the fold"
	}
	return ""
}

// Direction says how the piece lies where that is not plainly along the warp.
func (pl Placed) Direction() string {
	return strings.Trim(pl.GrainNote+", "+pl.onFold(), ", ")
}

// signs explains what stands in a piece.
const signs = "In pieces: arrow, grain line, along the warp, with one head where the nap runs one way; dashes, seam " +
	"line; dash and dot, marked line; size as cut, length x width."

// What explains the signs of notches and of darts at full size.
const (
	NotchSigns = "short strokes, notches: one in front, two behind, three on every second seam, by which panels alike " +
		"are told apart"
	DartSigns = "line down the middle of a dart, where it is folded"
)

// signs explains what else stands in this marker.
func (p *page) signs(stretches []Stretch) string {
	var more []string
	add := func(is bool, s string) {
		if is && !slices.Contains(more, s) {
			more = append(more, s)
		}
	}
	any := func(has func(Placed) bool) bool {
		return slices.ContainsFunc(stretches, func(s Stretch) bool { return slices.ContainsFunc(s.Pieces, has) })
	}
	if p.full > 0 {
		add(any(func(pl Placed) bool { return len(pl.Notches) > 0 }), NotchSigns)
		add(any(func(pl Placed) bool { return len(pl.Darts) > 0 }), DartSigns)
	}
	for _, s := range stretches {
		add(slices.ContainsFunc(s.Pieces, func(pl Placed) bool { return len(pl.Fold) > 1 }),
			"bracket with two arrows, edge on the fold")
	}
	for _, s := range stretches {
		add(slices.ContainsFunc(s.Pieces, func(pl Placed) bool { return pl.GrainNote == Bias }),
			"bias, cut at 45 degrees to the warp")
		add(slices.ContainsFunc(s.Pieces, func(pl Placed) bool { return pl.GrainNote == CrossGrain }),
			"cross grain, cut with its length along the weft")
		add(s.Lay.double(), "thick line, fold")
		add(s.Ends > 0, "slanting lines at the ends, allowance that is not laid on")
		add(s.Skew > 0, "wedge at the cut end, off square and lost")
		away := func(f Flaw) bool { return f.Away }
		add(slices.ContainsFunc(s.Flaws, away), "crossed lines, no cloth or a flaw")
		add(len(s.Flaws) > 0 && !slices.ContainsFunc(s.Flaws, away), "crossed lines, flaw")
		add(s.Repeat != Repeat{}, s.Repeat.sign(p.k))
		add(slices.ContainsFunc(s.Pieces, func(pl Placed) bool { return len(pl.Matches) > 0 }),
			"ring with a cross, match point")
	}
	if len(more) == 0 {
		return signs
	}
	said := strings.Join(more, "; ")
	return signs + " " + strings.ToUpper(said[:1]) + said[1:] + "."
}

// foot holds the key below the scale bar.
func (p *page) foot(top float64, stretches []Stretch) *column {
	c := p.column(top)
	c.set(p.key(stretches)...)
	return c
}

// key explains signs, numbers and match points; the cautions stand under it.
func (p *page) key(stretches []Stretch) []Paragraph {
	k := p.k
	key := []Paragraph{{Role: RoleNote, Size: textDim * k, Body: p.signs(stretches), After: 2 * k}}
	note := func(s string) { key = append(key, Paragraph{Role: RoleNote, Size: textDim * k, Body: s}) }
	heading := func(s string) { key = append(key, Paragraph{Role: RoleHeading, Size: textNote * k, Body: s}) }
	end := func() { key[len(key)-1].After = 2 * k }
	if len(p.keys) > 0 {
		heading("Numbered pieces")
		for i, number := range p.keys {
			if copies := p.copies[i+1]; len(copies) > 0 {
				number += ": " + strings.Join(copies, ", ")
			}
			note(number)
		}
		end()
	}
	if len(p.left) > 0 {
		heading("What has no room in its piece")
		for _, said := range p.left {
			note(said)
		}
		end()
	}
	if len(p.letters.names) > 0 {
		heading("Match points: where seams of one letter meet, the pattern meets")
		for _, name := range p.letters.names {
			note(p.letters.of[name] + " = " + name)
		}
		end()
	}
	for _, s := range p.marker.Cautions {
		key = append(key, Paragraph{Role: RoleCaution, Size: textDim * k, Body: s})
	}
	return key
}
