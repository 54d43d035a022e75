// Package report turns laid cloths into what is read: figures, tables, sentences and
// JSON; the cut list and the order of sewing; cautions, and the markers as GeoJSON.
package report

import (
	"time"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Report is what a run found. Its JSON is lay.json; it holds nothing that
// differs from run to run. Lengths are in mm, money in decimals of Currency.
type Report struct {
	Title    string   `json:"title"`
	Currency string   `json:"currency"`
	Effort   string   `json:"effort"`
	Seed     uint64   `json:"seed"`
	Gowns    int      `json:"gowns"` // laid together
	Cloths   []Cloth  `json:"cloths"`
	Total    string   `json:"total"`             // of the cloths that have a price; "" when none has
	Begun    []string `json:"begun,omitempty"`   // from a layout that was kept, how it stands to the job now
	Remarks  []string `json:"remarks,omitempty"` // what is drawn otherwise than asked for, and does not fit or turn up
	Cautions []string `json:"cautions"`
	Wearers  []Wearer `json:"wearers,omitempty"` // where several bodies have the gown

	Unit    measure.Unit  `json:"-"` // to show lengths in
	Elapsed time.Duration `json:"-"`
	Bill    cost.Bill     `json:"-"`
}

// Laid returns the laid cloths.
func (r *Report) Laid() []plan.Laid {
	laid := make([]plan.Laid, len(r.Cloths))
	for i, c := range r.Cloths {
		laid[i] = c.Laid
	}
	return laid
}

// Cloth is what a run found for one cloth.
type Cloth struct {
	ID       string  `json:"id"`
	Title    string  `json:"title"`
	Nap      string  `json:"nap"`
	Lay      string  `json:"lay"`
	Width    float64 `json:"width"`    // usable, when laid
	Pieces   int     `json:"pieces"`   // copies laid
	Used     float64 `json:"used"`     // length the markers take up, all layers together
	Needed   float64 `json:"needed"`   // used, with all that is added
	Bought   float64 `json:"bought"`   // length to buy
	Bolts    int     `json:"bolts"`    // whole bolts, when that is the way to buy it
	Leftover float64 `json:"leftover"` // of what is bought, beyond what is needed
	// no markers take less, with the pieces shared out over stretches and shelf as they are
	Bound    float64 `json:"bound"`
	Argument string  `json:"argument"` // the kind of proof of that
	Reason   string  `json:"reason"`   // and in words
	Gap      float64 `json:"gap"`      // used length over bound, less 1
	// of the counter, that could be saved at most, however the pieces are shared out
	Steps  int  `json:"steps"`
	Proved bool `json:"proved"` // no less can be bought, however the pieces are shared out
	// the same two with the pieces shared out over stretches and shelf as they are
	StepsAsShared  int     `json:"steps_as_shared"`
	ProvedAsShared bool    `json:"proved_as_shared"`
	Utilisation    float64 `json:"utilisation"` // piece area over width times used length, 0 to 1
	// pieces that lie where they were pinned: bound, steps and proof as shared hold with them there
	Pinned int    `json:"pinned,omitempty"`
	Cost   string `json:"cost"` // "" when the job gives no price
	// of a cloth that comes in whole bolts too: no lengths that hold the pieces cost less
	LeastCost string   `json:"least_cost,omitempty"`
	Status    string   `json:"status"` // "proved" where Proved, else "finished", or why the search ended before
	Marker    []Placed `json:"marker"` // every piece on the single cloth, folds opened out

	// the cut is made along the fold, and the upper layer turned
	UpperTurned bool       `json:"upper_turned,omitempty"`
	Added       *Added     `json:"added,omitempty"`     // what makes needed of used
	Shrinkage   *Shrinkage `json:"shrinkage,omitempty"` // of a cloth that changes in the wash
	Stretches   []Stretch  `json:"stretches,omitempty"` // of a lay that is not open
	// bought, where that is more than one: the marker above is that of the last, if it is cut
	Lengths      []Length `json:"lengths,omitempty"`
	Shelf        *Shelf   `json:"shelf,omitempty"`        // of a cloth with leftovers
	Repeat       *Repeat  `json:"repeat,omitempty"`       // of a cloth that has one
	PerGown      *PerGown `json:"per_gown,omitempty"`     // when several are laid together
	Instructions []string `json:"instructions,omitempty"` // for spreading and cutting, in words

	Spread  plan.Spread   `json:"-"`
	Problem nest.Problem  `json:"-"`
	Layout  nest.Layout   `json:"-"`
	Laid    plan.Laid     `json:"-"`
	Markers []Stretch     `json:"-"` // of what is cut at the counter, of whole bolts besides, of the leftovers used
	Elapsed time.Duration `json:"-"`
	Ended   nest.Status   `json:"-"`
	Buy     cost.Purchase `json:"-"`
	Because string        `json:"-"` // Reason in a few words
}

// Placed is one piece on its cloth.
type Placed struct {
	Piece    string     `json:"piece"`
	Copy     int        `json:"copy"`             // from 1
	Second   int        `json:"second,omitempty"` // the copy cut with it, through the other layer of a folded lay
	Grain    string     `json:"grain"`            // lengthwise, cross or bias
	Turn     float64    `json:"turn"`             // degrees counter-clockwise
	Mirrored bool       `json:"mirrored"`
	At       [2]float64 `json:"at"` // where the piece's origin lies
}

// Added is the cloth taken beyond the markers, mm. With them it makes the needed
// length.
type Added struct {
	Ends      float64 `json:"ends"`      // at both ends of every layer
	Skew      float64 `json:"skew"`      // once, to square the cut end
	Shrinkage float64 `json:"shrinkage"` // lost, or gained when negative, by washing first
	Spare     float64 `json:"spare"`
}

// Shrinkage is the dimensional change of a cloth, as ratios (ISO 5077).
type Shrinkage struct {
	Warp float64 `json:"warp"`
	Weft float64 `json:"weft"`
	By   string  `json:"by"` // "pieces": they are drawn larger; "prewash": the cloth is washed before it is laid
}

// Stretch is one marker of a cloth.
type Stretch struct {
	Lay    string `json:"lay"`
	Layers int    `json:"layers"` // along the cloth, each of the marker's length
	// where its cloth begins, from the cut end, as spread; its end allowance comes first
	From        float64  `json:"from"`
	Width       float64  `json:"width"`       // laid on, as spread
	Used        float64  `json:"used"`        // by one layer
	Bound       float64  `json:"bound"`       // no marker of these pieces is shorter
	Argument    string   `json:"argument"`    // the kind of proof of that
	Reason      string   `json:"reason"`      // and in words
	Utilisation float64  `json:"utilisation"` // piece area over width times used length, 0 to 1
	Status      string   `json:"status"`
	Marker      []Placed `json:"marker"` // what is cut through all layers

	Problem nest.Problem    `json:"-"`
	Layout  nest.Layout     `json:"-"`
	Cuts    [][]nest.Placed `json:"-"` // the copies of the spread that each placed outline cuts
	Name    string          `json:"-"` // of a leftover from the shelf, or of one of several bolts
	Shelf   bool            `json:"-"` // a leftover
	Bolt    int             `json:"-"` // which of several bolts, from 1
	Fold    nest.Lay        `json:"-"`
	Flaws   []string        `json:"-"` // names of the forbidden zones, where there are several flaws
	Bare    bool            `json:"-"` // a leftover with an outline: no selvedge, end or skew is left off it
	Strip   float64         `json:"-"` // width of the cloth opened out, as laid, selvedges included
	Length  float64         `json:"-"` // of one layer, as spread, skew and ends included
	Skew    float64         `json:"-"` // before it
}

// Length is one of several lengths bought, in mm, with its marker.
type Length struct {
	Name     string   `json:"name"`
	Bolt     bool     `json:"bolt"` // sold whole
	Bought   float64  `json:"bought"`
	Needed   float64  `json:"needed"`
	Used     float64  `json:"used"`
	Leftover float64  `json:"leftover"`
	Marker   []Placed `json:"marker"`
}

// Shelf is what the leftovers of a cloth are good for.
type Shelf struct {
	Verdict   string     `json:"verdict"`
	Without   float64    `json:"without"`   // mm, bought if the shelf were left alone; 0 when that was not laid
	Steps     int        `json:"steps"`     // of the counter, that the bound would save as the shelf is used
	Leftovers []Leftover `json:"leftovers"` // that are used
}

// Leftover is a marker on a length from the shelf, laid open.
type Leftover struct {
	Name   string   `json:"name"`
	Width  float64  `json:"width"`  // laid on
	Length float64  `json:"length"` // laid on, at the most
	Used   float64  `json:"used"`
	Marker []Placed `json:"marker"`
}

// Repeat is the repeat of a cloth, and what keeping to it takes. Lengths in mm.
type Repeat struct {
	Along       float64 `json:"along"`
	Across      float64 `json:"across"`
	PlainUsed   float64 `json:"plain_used"`   // the same pieces on plain cloth
	PlainBought float64 `json:"plain_bought"` // and what is bought for them
	Extra       float64 `json:"extra"`        // used beyond plain cloth
	ExtraBought float64 `json:"extra_bought"`
	PlainLoose  float64 `json:"plain_loose"` // by which the bound of plain cloth lies under the marker on it
	// Loose is by how much the bound lies under the marker on the repeat: so much it is too
	// low at the most. Counted says whether it counts the repeat; else it is one of plain
	// cloth, which holds for any phase.
	Loose   float64 `json:"loose"`
	Counted bool    `json:"counted"`
}

// PerGown sets the cloth of one of several gowns beside that of one alone.
type PerGown struct {
	Used        float64 `json:"used"` // mm
	Bought      float64 `json:"bought"`
	AloneUsed   float64 `json:"alone_used"`
	AloneBought float64 `json:"alone_bought"`
	AloneCost   string  `json:"alone_cost"` // "" when the job gives no price
}
