package plan

import (
	"time"

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
	Cloths   []Cloth  `json:"cloths"`
	Total    string   `json:"total"` // of the cloths that have a price; "" when none has
	Cautions []string `json:"cautions"`

	Unit    measure.Unit  `json:"-"` // to show lengths in
	Elapsed time.Duration `json:"-"`
	Bill    cost.Bill     `json:"-"`
}

// Cloth is what a run found for one cloth.
type Cloth struct {
	ID          string   `json:"id"`
	Title       string   `json:"title"`
	Nap         string   `json:"nap"`
	Width       float64  `json:"width"`       // usable
	Pieces      int      `json:"pieces"`      // copies laid
	Used        float64  `json:"used"`        // length the marker takes up
	Bought      float64  `json:"bought"`      // length to buy
	Bolts       int      `json:"bolts"`       // whole bolts, when that is the way to buy it
	Split       bool     `json:"split"`       // the marker is longer than one bolt
	Bound       float64  `json:"bound"`       // no marker of these pieces is shorter
	Argument    string   `json:"argument"`    // the kind of proof of that
	Reason      string   `json:"reason"`      // and in words
	Gap         float64  `json:"gap"`         // used length over bound, less 1
	Steps       int      `json:"steps"`       // of the counter, that the bound would save
	Proved      bool     `json:"proved"`      // no less can be bought
	Utilisation float64  `json:"utilisation"` // piece area over width times used length, 0 to 1
	Cost        string   `json:"cost"`        // "" when the job gives no price
	Status      string   `json:"status"`      // "finished", or why the search ended before
	Marker      []Placed `json:"marker"`

	Spread  Spread        `json:"-"`
	Problem nest.Problem  `json:"-"`
	Layout  nest.Layout   `json:"-"`
	Stats   nest.Stats    `json:"-"`
	Ended   nest.Status   `json:"-"`
	Buy     cost.Purchase `json:"-"`
}

// Placed is one piece on its cloth.
type Placed struct {
	Piece    string     `json:"piece"`
	Copy     int        `json:"copy"` // from 1
	Turn     float64    `json:"turn"` // degrees counter-clockwise
	Mirrored bool       `json:"mirrored"`
	At       [2]float64 `json:"at"` // where the piece's origin lies
}

// marker lists a layout's pieces.
func marker(p nest.Problem, l nest.Layout) []Placed {
	placed := make([]Placed, len(l.Placed))
	for i, pl := range l.Placed {
		placed[i] = Placed{
			Piece: p.Pieces[pl.Piece].Name, Copy: pl.Copy + 1,
			Turn: pl.Turn, Mirrored: pl.Mirrored, At: pl.At,
		}
	}
	return placed
}

// Cautions. Cutting is common practice; the one on net follows 16 CFR 1610, EN
// 71-2 and NFPA 701 only in saying that no plan of cloth stands in for them.
const (
	netCaution = "Layered net and tulle catch fire easily. This plans cloth, it is no fire test: keep the gown " +
		"from flame and hot lamps; check the cloth's certificate, the venue's rules and local fire codes; " +
		"leave treatment and testing to qualified people."
	cutCaution = "Cutting: guard the rotary blade, cut away from yourself, no pins under the blade; " +
		"a hot knife only on synthetics, with fresh air, and never left alone."
)

// Cautions returns what to mind with these cloths.
func Cautions(spreads []Spread) []string {
	for _, s := range spreads {
		if s.Cloth.Net || s.hasNetLayers() {
			return []string{netCaution, cutCaution}
		}
	}
	return []string{cutCaution}
}

// hasNetLayers finds gathered layers, whatever their cloth is called.
func (s Spread) hasNetLayers() bool {
	for _, p := range s.Parts {
		if p.Draft == "net-layers" {
			return true
		}
	}
	return false
}

// SizeUnit is the unit to show sizes of pieces in when lengths are asked for in
// unit: feet and yards are divided too coarsely for them, and so are metres.
func SizeUnit(unit measure.Unit) measure.Unit {
	switch unit {
	case measure.Foot, measure.Yard:
		return measure.Inch
	case measure.Metre:
		return measure.Centimetre
	}
	return unit
}
