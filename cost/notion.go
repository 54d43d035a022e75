package cost

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"slices"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Notion is a thing besides cloth, with what is needed of it (one of Count,
// Length and Lengths) and how it is sold (one of Each, Reel, ByLength and
// Sizes; Count goes with Each, Length with Reel or ByLength, Lengths with
// Sizes).
type Notion struct {
	Name string

	Count   int       // pieces: buttons, interfacing by the piece
	Length  float64   // mm in all: binding by edge, boning by channel, thread (see ThreadLength)
	Lengths []float64 // mm: the opening of each zip

	// Spare is the percentage bought on top of Count or Length, before rounding
	// up; SpareCount so many more of Count, or of each size of Lengths.
	Spare      Decimal
	SpareCount int

	// What is there already, of Count or Length: it is taken off what is needed with
	// the spare.
	OwnedCount  int
	OwnedLength float64 // mm

	Each     *Each
	Reel     *Bolt  // wound up and sold whole, of any length to 1000 km
	ByLength *Offer // with the counter's step
	Sizes    []Size
	Inside   bool // each size lies inside a length, as a bone does in its channel; else it is as long or longer
}

// Each sells by count.
type Each struct {
	Price Money // of one pack
	Pack  int   // pieces in a pack; 0 or 1: sold singly
}

// Size is one size a thing is sold in.
type Size struct {
	Length float64 // mm
	Price  Money
}

// Item is what to buy of a notion.
type Item struct {
	Name string
	// Needed and Bought are in pieces where the notion is counted, else in mm
	// in all; the spare is in Bought alone.
	NeededCount, BoughtCount   int
	NeededLength, BoughtLength float64
	Packs                      int       // packs or reels bought
	Sizes                      []Sized   // the sizes bought, the shortest first
	Purchase                   *Purchase // of a length cut, else nil
	Cost                       Money     // before tax and shipping
}

// Sized is how many of one size are bought.
type Sized struct {
	Size
	Count int
	Cost  Money
}

// mostCount is the most pieces of a notion bought, spare included.
const mostCount = 1_000_000

// Buy says what to buy: spare added, then rounded up to whole packs, reels,
// steps of the counter or sizes sold.
func (n Notion) Buy() (Item, error) {
	item, err := n.buy()
	if err != nil {
		return Item{}, say.Errorf("%s: %w", n.Name, err)
	}
	item.Name = n.Name
	return item, nil
}

func (n Notion) buy() (Item, error) {
	if err := n.check(); err != nil {
		return Item{}, err
	}
	switch {
	case n.Each != nil:
		return n.buyEach()
	case n.Reel != nil:
		return n.buyReels()
	case n.ByLength != nil:
		return n.buyLength()
	}
	return n.buySizes()
}

// check wants one need, one way it is sold, and that they go together.
func (n Notion) check() error {
	ways, fits := 0, false
	for _, w := range []struct{ sold, fits bool }{
		{n.Each != nil, n.Length == 0 && n.Lengths == nil},
		{n.Reel != nil, n.Count == 0 && n.Lengths == nil},
		{n.ByLength != nil, n.Count == 0 && n.Lengths == nil},
		{len(n.Sizes) > 0, n.Count == 0 && n.Length == 0},
	} {
		if w.sold {
			ways, fits = ways+1, w.fits
		}
	}
	switch {
	case ways == 0:
		return errors.New("it has no price: by the piece, pack, reel, length or size")
	case ways > 1:
		return errors.New("it is sold in more than one way")
	case !fits:
		return errors.New("the price does not fit what is needed: counts are priced by the piece or pack, a length " +
			"by length or reel, single lengths by size")
	case !(n.OwnedLength >= 0) || n.OwnedLength > longestSum || n.OwnedCount < 0 || n.OwnedCount > mostCount:
		return say.Errorf("%d pieces and %v are on the shelf, must be 0 or more", n.OwnedCount, say.MM(n.OwnedLength))
	case n.Count < 0 || n.Count > mostCount || n.SpareCount < 0 || n.SpareCount > mostCount:
		return fmt.Errorf("count is %d with %d spare, both must be from 0 to %d", n.Count, n.SpareCount, mostCount)
	case n.SpareCount > 0 && (n.Reel != nil || n.ByLength != nil):
		return fmt.Errorf("spare is %d, of a length it must be a percentage", n.SpareCount)
	case n.Spare != 0 && len(n.Sizes) > 0:
		return fmt.Errorf("spare is %v %%, of what is sold by size it must be a number", n.Spare)
	}
	return checkNotNegative("spare", n.Spare)
}

// withSpare gives 1 + the spare percentage.
func (n Notion) withSpare() *big.Rat { return new(big.Rat).Add(big.NewRat(1, 1), n.Spare.share()) }

func (n Notion) buyEach() (Item, error) {
	pack := max(1, n.Each.Pack)
	if n.Each.Pack < 0 || n.Each.Pack > mostCount {
		return Item{}, fmt.Errorf("pack of %d, must be from 1 to %d", n.Each.Pack, mostCount)
	}
	if err := checkPrice(n.Each.Price); err != nil {
		return Item{}, err
	}
	need := ceil(new(big.Rat).Mul(big.NewRat(int64(n.Count), 1), n.withSpare()))
	need.Add(need, big.NewInt(int64(n.SpareCount)-int64(n.OwnedCount)))
	if need.Sign() < 0 {
		need.SetInt64(0)
	}
	if need.Cmp(big.NewInt(mostCount)) > 0 {
		return Item{}, fmt.Errorf("%v are needed with the spare, the most is %d", need, mostCount)
	}
	packs := (int(need.Int64()) + pack - 1) / pack
	cost, err := n.Each.Price.Times(big.NewRat(int64(packs), 1))
	return Item{NeededCount: max(0, n.Count-n.OwnedCount), BoughtCount: packs * pack, Packs: packs, Cost: cost}, err
}

// length checks the length needed and adds the spare; exact, in mm.
func (n Notion) length(most float64) (*big.Rat, error) {
	if err := checkLength("a length", n.Length, most); err != nil {
		return nil, err
	}
	mm := exact(n.Length)
	if mm.Mul(mm, n.withSpare()); mm.Cmp(exact(most)) > 0 {
		return nil, say.Errorf("%.0f are needed with the spare, the most is %v km", say.MM(nearest(mm)),
			most/measure.Longest)
	}
	if mm.Sub(mm, exact(n.OwnedLength)); n.OwnedLength > 0 && mm.Cmp(exact(measure.Guard)) <= 0 {
		mm.SetInt64(0)
	}
	return mm, nil
}

// neededLength is what is needed beside what is there, mm, without the spare.
func (n Notion) neededLength() float64 { return max(0, n.Length-n.OwnedLength) }

// Wanted is what is needed of a Count or a Length, mm, with the spare.
func (n Notion) Wanted() float64 {
	if n.Length > 0 {
		mm := exact(n.Length)
		return nearest(mm.Mul(mm, n.withSpare()))
	}
	pieces := new(big.Rat).SetInt(ceil(new(big.Rat).Mul(big.NewRat(int64(n.Count), 1), n.withSpare())))
	return nearest(pieces.Add(pieces, big.NewRat(int64(n.SpareCount), 1)))
}

func (n Notion) buyReels() (Item, error) {
	if err := checkPrice(n.Reel.Price); err != nil {
		return Item{}, err
	}
	if !(n.Reel.Length >= 1) || n.Reel.Length > longestSum {
		return Item{}, say.Errorf("reel of %v, must be from %v to %v km long", say.MM(n.Reel.Length), say.MM(1),
			longestSum/measure.Longest)
	}
	need, err := n.length(longestSum)
	if err != nil {
		return Item{}, err
	}
	reels := new(big.Int)
	if need.Sign() > 0 {
		reels = stepsUp(needed(nearest(need)), exact(n.Reel.Length))
	}
	if reels.Cmp(big.NewInt(mostCount)) > 0 {
		return Item{}, fmt.Errorf("%v reels are needed, the most is %d", reels, mostCount)
	}
	count := int(reels.Int64())
	cost, err := n.Reel.Price.Times(new(big.Rat).SetInt(reels))
	return Item{NeededLength: n.neededLength(), BoughtLength: float64(count) * n.Reel.Length, Packs: count, Cost: cost},
		err
}

func (n Notion) buyLength() (Item, error) {
	need, err := n.length(measure.Longest)
	if err != nil {
		return Item{}, err
	}
	p, err := n.ByLength.Buy(nearest(need))
	return Item{NeededLength: n.neededLength(), BoughtLength: p.Bought, Purchase: &p, Cost: p.Cost}, err
}

// sizeFor returns which of the sizes, the shortest first, is taken for a length:
// the shortest that is long enough, or the longest that lies inside it; -1 for none.
func (n Notion) sizeFor(length float64, sizes []Size) int {
	if !n.Inside {
		return slices.IndexFunc(sizes, func(s Size) bool { return s.Length >= length-measure.Guard })
	}
	longer := slices.IndexFunc(sizes, func(s Size) bool { return s.Length > length+measure.Guard })
	if longer < 0 {
		longer = len(sizes)
	}
	return longer - 1
}

// buySizes takes one size for each length.
func (n Notion) buySizes() (Item, error) {
	sizes := slices.Clone(n.Sizes)
	slices.SortFunc(sizes, func(a, b Size) int { return cmp.Compare(a.Length, b.Length) })
	for i, s := range sizes {
		if !(s.Length >= 1) || s.Length > measure.Longest || i > 0 && s.Length == sizes[i-1].Length {
			return Item{}, say.Errorf("a size of %v is given twice or not between %v and 1 km", say.MM(s.Length),
				say.MM(1))
		}
		if err := checkPriceIn(s.Price, sizes[0].Price.Currency); err != nil {
			return Item{}, err
		}
	}
	counts := make([]int, len(sizes))
	item := Item{Cost: Money{0, sizes[0].Price.Currency}}
	for _, l := range n.Lengths {
		if err := checkLength("a length", l, measure.Longest); err != nil {
			return Item{}, err
		}
		i := n.sizeFor(l, sizes)
		if i < 0 && n.Inside {
			return Item{}, say.Errorf("%.6g is too short for any that is sold: the shortest is %.6g", say.MM(l),
				say.MM(sizes[0].Length))
		}
		if i < 0 {
			return Item{}, say.Errorf("%.6g is longer than any that is sold: the longest is %.6g", say.MM(l),
				say.MM(sizes[len(sizes)-1].Length))
		}
		counts[i]++
		item.NeededCount++
		item.NeededLength += l
	}
	for i, s := range sizes {
		if counts[i] == 0 {
			continue
		}
		count := counts[i] + n.SpareCount
		cost, err := s.Price.Times(big.NewRat(int64(count), 1))
		if err != nil {
			return Item{}, err
		}
		if item.Cost, err = item.Cost.Add(cost); err != nil {
			return Item{}, err
		}
		item.Sizes = append(item.Sizes, Sized{s, count, cost})
		item.BoughtCount += count
		item.BoughtLength += float64(count) * s.Length
	}
	return item, nil
}

// ThreadLength gives the thread, in mm, that a length of seam in mm takes at so
// many metres of thread to a metre of seam. The figure is the maker's own:
// stitch, cloth and machine decide it, and no standard is pretended.
func ThreadLength(seam float64, perMetre Decimal) (float64, error) {
	if err := checkLength("a seam", seam, longestSum); err != nil {
		return 0, err
	}
	if err := checkNotNegative("thread per metre of seam", perMetre); err != nil {
		return 0, err
	}
	mm := exact(seam)
	return nearest(mm.Mul(mm, perMetre.Rat())), nil
}
