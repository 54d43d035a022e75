package job

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Notion is a thing besides cloth. What one gown needs of it is a count, a
// length, or follows from the drafts.
type Notion struct {
	Name     string
	Count    int          // with ByCount
	Length   float64      // mm, with ByLength; with ByOpening the longest stretch that is closed, 0: all of it
	By       NotionBy     // what it follows from
	Edges    []string     // with ByEdge and BySeam: kinds or names of edges
	Parts    []string     // that it follows from; none: all
	Cloths   []string     // likewise
	PerMetre cost.Decimal // with BySeam: metres of it to a metre of seam
	Sold     cost.Notion  // how it is sold, and the spare; nothing of what is needed
	Have     float64      // on the shelf: a number where it is counted, else mm
	Supplier string       // the name of a [[supplier]], or ""
	At       strict.Position
}

// NotionBy says what the amount of a notion follows from.
type NotionBy string

// What a notion may follow from.
const (
	ByCount   NotionBy = "count"
	ByLength  NotionBy = "length"
	ByOpening NotionBy = "opening" // one for each opening, as long as it is: zips
	ByEdge    NotionBy = "edge"    // the length of some edges: binding
	ByChannel NotionBy = "channel" // one for each boning channel, as long as it is
	BySeam    NotionBy = "seam"    // the length of the seams: thread
	ByPiece   NotionBy = "piece"   // one for each piece that is cut
	ByEyelet  NotionBy = "eyelet"  // one for each that lacing takes
	ByButton  NotionBy = "button"  // one for each that an opening takes
	ByHook    NotionBy = "hook"    // likewise, with its eye
	ByBusk    NotionBy = "busk"    // one for each, as long as goes in
	ByCasing  NotionBy = "casing"  // the length of tape over all boning channels, caught in both edges
	ByTape    NotionBy = "tape"    // the length of waist tapes, and of those that make channels of hoops
	ByHoop    NotionBy = "hoop"    // one for each hoop, as long as it is cut
	ByEdging  NotionBy = "edging"  // the length of lace along edges
	ByComb    NotionBy = "comb"    // one for each that net is gathered to
)

// Counted says whether what is needed of it is a number and not a length.
func (n Notion) Counted() bool { return n.Sold.Each != nil }

// Of says whether a notion follows from a part, whatever its cloths.
func (n Notion) Of(p Part) bool {
	return len(n.Parts) == 0 || slices.Contains(n.Parts, p.Name) || slices.Contains(n.Parts, p.Called)
}

// Stop returns how far the centre back of a part is closed by a zip or the like, from the
// top, mm; 0 where neither it nor a notion says so.
func (j *Job) Stop(p Part) float64 {
	for _, c := range p.Closings {
		if c.Draft.Length > 0 && c.Draft.At == "centre back" {
			return c.Draft.Length
		}
	}
	if len(p.Closings) > 0 {
		return 0
	}
	for _, n := range j.Notions {
		in := len(n.Cloths) == 0 ||
			slices.ContainsFunc(p.Layers, func(l Layer) bool { return slices.Contains(n.Cloths, l.Cloth) })
		if n.By == ByOpening && n.Length > 0 && in && n.Of(p) {
			return n.Length
		}
	}
	return 0
}

const mostNotions = 64

// notions reads every [[notion]]; what one lacks is taken from the rates file's
// of the same name.
func (r *reader) notions(t *table, j *Job, shared []Notion) []Notion {
	var all []Notion
	for i, n := range t.List("notion", mostNotions, "") {
		var base Notion
		k := slices.IndexFunc(shared, func(s Notion) bool { return s.Name == n.TextOf("name") })
		if k >= 0 {
			base = shared[k]
		}
		notion := r.notion(n, i, base, j)
		if !r.noRate {
			r.whole(notion, n, i)
		}
		all = append(all, notion)
	}
	strict.Distinct(r.Reader, all, "notion", "a name", func(n Notion) (string, strict.Position) { return n.Name, n.At })
	return all
}

// notion reads one [[notion]] over a base. j has the parts and cloths it may
// name; nil in a rates file, which knows of none.
func (r *reader) notion(n *strict.Value, index int, base Notion, j *Job) Notion {
	t := r.table(n, label("notion", "", index), notionKeys)
	base.At = n.At
	if name := t.named("notion", index, &base.At); name != "" {
		base.Name = name
	}
	base.Sold.Name = base.Name
	t.needs(&base, j)
	t.selling(&base)
	if name, at, ok := t.Text("supplier"); ok {
		base.Supplier, base.At = name, at
	}
	t.Finish()
	return base
}

// needs reads what a notion is needed for.
func (t *table) needs(n *Notion, j *Job) {
	switch t.Only("count", "length", "by") {
	case "count":
		n.By, n.Count = ByCount, t.Count("count", 0)
	case "length":
		n.By, n.Length = ByLength, t.MustLength("length", "3 yd")
	case "by":
		n.By = NotionBy(t.Choice("by"))
	}
	if mm, ok := t.Length("closed"); ok {
		n.Length = mm
	}
	t.fill(n, "count", "length")
	if j == nil {
		return
	}
	var parts, cloths []string
	for _, p := range j.Parts {
		parts = append(parts, p.Called)
		if p.Name != p.Called {
			parts = append(parts, p.Name)
		}
	}
	for _, c := range j.Cloths {
		cloths = append(cloths, c.ID)
	}
	t.among("parts", "part", n.Parts, parts)
	t.among("cloths", "cloth", n.Cloths, cloths)
}

// mostCount is the most pieces of a notion in one gown.
const mostCount = 100_000

// among refuses names that are not there.
func (t *table) among(key, kind string, names, known []string) {
	for _, name := range names {
		if t.Has(key) && !slices.Contains(known, name) {
			t.Fail(t.Field(key).Value.At, strict.OneOf(name, known), "%s: there is no %s %q", t.Name, kind, name)
		}
	}
}

// selling reads how a notion is sold, the spare and what is on the shelf. A way
// of selling takes the place of the base's.
func (t *table) selling(n *Notion) {
	switch t.Only("price", "reel", "sizes") {
	case "price":
		n.Sold = cost.Notion{Name: n.Name, Spare: n.Sold.Spare, SpareCount: n.Sold.SpareCount}
		t.notionPrice(&n.Sold)
	case "reel":
		n.Sold = cost.Notion{Name: n.Name, Spare: n.Sold.Spare}
		if r := t.sub("reel", "`reel` of "+t.Name, reelHint); r != nil {
			reel := r.soldWhole(r.reelLength(), "for example reel = "+reelHint)
			n.Sold.Reel = &reel
		}
	case "sizes":
		n.Sold = cost.Notion{Name: n.Name, SpareCount: n.Sold.SpareCount}
		for i, one := range t.InlineTables("sizes", sizeHint, mostSizes) {
			b := t.within("sizes", one, fmt.Sprintf("size %d of %s", i+1, t.Name)).bolt("one of this size")
			n.Sold.Sizes = append(n.Sold.Sizes, cost.Size{Length: b.Length, Price: b.Price})
		}
	}
	t.spareOf(n)
	t.haveOf(n)
}

const (
	reelHint  = `{ length = "1000 m", price = "4.20" }`
	sizeHint  = `{ length = "9", price = "2.10" }`
	mostSizes = 32
	eachHint  = `by the piece, pack, yard or metre: price = "0.35/each", "4.00/pack" with pack = 12, or "1.20/yd"`
)

// notionPrice reads a price by the piece, the pack or by length.
func (t *table) notionPrice(sold *cost.Notion) {
	text, at, ok := t.Text("price")
	if !ok {
		return
	}
	_, by, found := strings.Cut(text, "/")
	if !found {
		t.Fail(at, eachHint, "`price`: cannot read %q: it does not say what it is for", text)
		return
	}
	switch by = strings.TrimSpace(by); by {
	case "each", "pack":
		price, _, err := cost.ParsePriceBy(text, t.money, "each", "pack")
		if err != nil {
			t.Fail(at, eachHint, "`price`: %v", err)
			return
		}
		sold.Each = &cost.Each{Price: price, Pack: 1}
		if by == "pack" {
			if !t.Has("pack") {
				t.Need("pack", "how many are in a pack: pack = 12")
			}
			sold.Each.Pack = t.Count("pack", 1)
		}
	default:
		o := t.counter()
		o.MinCut = t.LengthOr("min_cut", 0)
		if o.Price.Currency != "" {
			sold.ByLength = &o
		}
	}
}

// longestReel is the greatest length of a reel, mm: 1000 km, as cost has it.
const longestReel = 1000 * measure.Longest

// reelLength reads the length of a reel, which may be longer than any cloth:
// "5000 m".
func (t *table) reelLength() float64 {
	f := t.Field("length")
	if f == nil {
		t.Need("length", "for example reel = "+reelHint)
		return 0
	}
	number, unit, found := strings.Cut(strings.TrimSpace(f.Value.Text), " ")
	u, err := measure.ParseUnit(unit)
	metres, ok := new(big.Rat).SetString(number)
	if f.Value.Kind != strict.KindText || !found || err != nil || !ok || len(number) > 9 ||
		strings.Trim(number, "0123456789.") != "" {
		return t.MustLength("length", "1000 m")
	}
	mm, _ := metres.Mul(metres, u.Exact()).Float64()
	if !(mm >= 1 && mm <= longestReel) {
		t.Fail(f.Value.At, "", "`length`: a reel of %s is not between %v and 1000 km long", f.Value.Text, say.MM(1))
		return 0
	}
	return mm
}

// spareOf reads the spare: a percentage, or a number of pieces.
func (t *table) spareOf(n *Notion) {
	f := t.Field("spare")
	switch {
	case f == nil:
	case f.Value.Kind == strict.KindNumber:
		n.Sold.SpareCount, n.Sold.Spare = t.Count("spare", 0), 0
	default:
		n.Sold.Spare, _ = t.Share("spare")
		n.Sold.SpareCount = 0
	}
}

// haveOf reads what is on the shelf of a notion: a number of pieces, or a length.
func (t *table) haveOf(n *Notion) {
	f := t.Field("have")
	switch {
	case f == nil:
	case n.Counted():
		n.Have = float64(t.Count("have", 0))
	default:
		n.Have = t.LengthOr("have", 0)
	}
}

// whole refuses a notion, once all of it is read, of which it is not known what
// is needed or how it is sold, or where these do not go together.
func (r *reader) whole(n Notion, at *strict.Value, index int) {
	t := r.table(at, label("notion", n.Name, index), notionKeys)
	sold := n.Sold
	switch {
	case n.By == "":
		t.Need("count", "what a gown needs: count = 12, length = \"3 yd\", or what it follows from: by = \"seam\"")
		return
	case sold.Each == nil && sold.Reel == nil && sold.ByLength == nil && sold.Sizes == nil:
		if !t.Has("price") && !t.Has("reel") && !t.Has("sizes") {
			t.Need("price", eachHint)
		}
		return
	}
	single := n.By == ByOpening || n.By == ByChannel || n.By == ByBusk || n.By == ByHoop
	counted := slices.Contains([]NotionBy{ByCount, ByPiece, ByEyelet, ByButton, ByHook, ByComb}, n.By)
	inLength := slices.Contains([]NotionBy{ByLength, ByEdge, BySeam, ByCasing, ByTape, ByEdging}, n.By)
	clash := func(key, hint, what string, args ...any) {
		place := at.At
		if f := t.Field(key); f != nil {
			place = f.Value.At
		}
		t.Fail(place, hint, t.Name+": "+what, args...)
	}
	switch {
	case sold.Each != nil && inLength:
		clash("price", "a price by the yard or metre, or a reel", "a notion by %s cannot be bought by the piece", n.By)
	case counted && sold.Each == nil:
		clash("price", `price = "0.35/each"`, "a notion by %s is bought by the piece or pack", n.By)
	case sold.Sizes != nil && !single:
		clash("sizes", "sizes are for openings, channels and hoops, each of which has its length",
			"a notion by %s cannot be bought by sizes", n.By)
	case n.By == ByEdge && len(n.Edges) == 0:
		clash("by", `which edges: edges = ["hem"]; kinds are seam, waist, hem, opening and top, and every edge has its name`,
			"it lacks `edges`")
	case n.By == BySeam && n.PerMetre == 0:
		clash("by", "how much of it a metre of seam takes: per_metre = 12", "it lacks `per_metre`")
	case sold.SpareCount > 0 && sold.Each == nil && sold.Sizes == nil:
		clash("spare", `spare = "10 %"`, "the spare of a length is a percentage")
	case sold.Spare > 0 && sold.Sizes != nil:
		clash("spare", "spare = 1", "the spare of a notion sold by size is a number")
	case n.Have > 0 && sold.Sizes != nil:
		clash("have", "leave out those you have", "a notion sold by size has no `have`")
	}
}
