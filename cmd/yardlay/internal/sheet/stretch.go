package sheet

import (
	"math"

	"github.com/paulmach/orb"
)

// Lay is how a cloth is spread for cutting; the order is that of nest.Lay.
type Lay uint8

// The lays of a stretch.
const (
	Open            Lay = iota // one layer
	LengthwiseFold             // fold along the lower edge, selvedges together along the upper
	CrosswiseFold              // fold at the far end, cut ends together
	CrosswiseTurned            // the same, but cut along the fold and the upper layer turned end for end
	DoubleFold                 // both edges are folds, the selvedges meet along the middle
)

// Stretch is one lay of a marker: a length off the bolt, or a piece from the
// shelf. Lengths are mm as spread; x runs along the cloth from where pieces may
// begin (behind the end allowance), y across it from the lower edge of what is
// laid on: the inner side of the lower selvedge or, where that edge is a fold, the
// fold. That is how nest.Strip measures.
type Stretch struct {
	Name     string // "remnant"; may be empty
	Shelf    bool   // it is there already and not bought
	Lay      Lay
	Width    float64 // of the cloth opened out, selvedges included; 0: Width and Selvedge are the marker's
	Selvedge float64 // of each edge
	Used     float64 // by the pieces, without ends, of one layer
	Ends     float64 // allowance at each end of the lay
	Skew     float64 // how far the cut end runs off square over the width, lost in front of the lay
	// Length is the cloth as spread, skew and ends included, at least Skew + Ends +
	// Used + Ends; 0 stands for that. What goes beyond is drawn as left. Folded
	// crosswise it is Skew and half of what is left of the cloth without it.
	Length float64
	Repeat Repeat
	Flaws  []Flaw
	Notes  []string // how it is spread, as lines over the lay; empty: as its lay always is
	Pieces []Placed
}

// Repeat is the distance after which the pattern of the cloth comes again, mm, 0
// where it has none, counted from the lay's (0, 0).
type Repeat struct{ Along, Across float64 }

// Flaw is a place where nothing is cut, in the coordinates of its stretch.
type Flaw struct {
	Name    string // as labelled where there is room; empty: "flaw"
	Outline orb.Ring
	Away    bool // there is no cloth
}

// Match is a point of a placed piece that lies on the repeat, in the coordinates
// of the stretch. Points of one name belong together: they get one letter, which
// the foot of the drawing explains.
type Match struct {
	Name string // "side seams, hip"; empty: a mark without a letter
	At   orb.Point
}

// layNames are what the trade calls the lays.
var layNames = [...]string{
	Open: "open lay", LengthwiseFold: "lengthwise fold", CrosswiseFold: "crosswise fold",
	CrosswiseTurned: "crosswise fold, upper layer turned", DoubleFold: "double fold",
}

// layHints say how the cloth is spread where the caller does not; right sides together is common practice.
var layHints = [...]string{
	LengthwiseFold: "Two layers, right sides together, selvedge on selvedge: each outline cuts a pair, left and " +
		"right. Pieces on the fold open out to their whole; do not cut along the fold.",
	CrosswiseFold: "Two layers, right sides together, cut end on cut end: each outline cuts a pair, left and right. " +
		"The nap of the upper layer runs the other way.",
	CrosswiseTurned: "Fold right sides together, cut end on cut end. Cut along the fold and turn the upper layer end " +
		"for end, wrong side still up, so that the nap of both layers runs the same way: " +
		"each outline then cuts a pair, left and right.",
	DoubleFold: "Two layers, right sides together: both selvedges lie along the middle and each edge is a fold. " +
		"Nothing is cut across the band where the selvedges meet. " +
		"Each outline cuts a pair, left and right; pieces on a fold open out to their whole; do not cut along the " +
		"folds.",
}

// double tells whether the lay has two layers, so that outlines cut twice.
func (l Lay) double() bool { return l != Open }

// crosswise tells whether both layers lie along the cloth, each taking the lay's length.
func (l Lay) crosswise() bool { return l == CrosswiseFold || l == CrosswiseTurned }

// folded is the width of the lay.
func (s Stretch) folded() float64 {
	if s.Lay == LengthwiseFold || s.Lay == DoubleFold {
		return s.Width / 2
	}
	return s.Width
}

// below and above are the strips along the lower and the upper edge of the lay
// that are not laid on.
func (s Stretch) below() float64 {
	if s.Lay == LengthwiseFold || s.Lay == DoubleFold {
		return 0
	}
	return s.Selvedge
}

func (s Stretch) above() float64 {
	if s.Lay == DoubleFold {
		return 0
	}
	return s.Selvedge
}

// length is the cloth as spread.
func (s Stretch) length() float64 { return math.Max(s.Length, s.Skew+s.Ends+s.Used+s.Ends) }

// cuts counts the pieces that cutting the stretch gives.
func (s Stretch) cuts() int {
	n := len(s.Pieces)
	if !s.Lay.double() {
		return n
	}
	for _, p := range s.Pieces {
		if len(p.Fold) == 0 {
			n++
		}
	}
	return n
}

// Ground returns the cloth of the stretch as spread, in its coordinates, from the squared
// cut end on, and the lines along it that bound what is laid on.
func (s Stretch) Ground() (cloth orb.Bound, bounds []orb.LineString) {
	low := -s.below()
	cloth = orb.Bound{Min: orb.Point{-s.Ends, low}, Max: orb.Point{s.length() - s.Skew - s.Ends, low + s.folded()}}
	levels := []float64{}
	if s.below() > 0 {
		levels = append(levels, 0)
	}
	if s.above() > 0 {
		levels = append(levels, cloth.Max[1]-s.above())
	}
	if s.Lay == DoubleFold {
		middle := (cloth.Min[1] + cloth.Max[1]) / 2
		levels = append(levels, middle-s.Selvedge, middle+s.Selvedge)
	}
	for _, y := range levels {
		bounds = append(bounds, orb.LineString{{cloth.Min[0], y}, {cloth.Max[0], y}})
	}
	return cloth, bounds
}
