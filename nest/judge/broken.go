package judge

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Rule is a rule of cutting.
type Rule string

// The rules, in the order in which they are judged.
const (
	WrongTurn    Rule = "turn not allowed"
	WrongMirror  Rule = "mirror not allowed"
	OffLattice   Rule = "off the lattice"
	OutsideStrip Rule = "outside the strip"
	OffFold      Rule = "off the fold"
	NearFold     Rule = "too close to the fold"
	OverMiddle   Rule = "over the middle"
	WrongCount   Rule = "count"
	OffPin       Rule = "off its pin"
	MixedGrain   Rule = "grain of a pair"
	OffRepeat    Rule = "off the repeat"
	WrongLength  Rule = "length misstated"
	InForbidden  Rule = "forbidden zone"
	Overlap      Rule = "overlap"
	TooClose     Rule = "too close"
)

// Broken is the error of Judge.Verify: the rule broken, by which piece, and where.
type Broken struct {
	Rule      Rule
	Piece     string    // name of the piece
	Copy      int       // its copy, from 0; printed from 1
	Other     string    // name of the other piece of an overlap or too close; else empty
	OtherCopy int       // its copy, from 0
	Pair      [2]int    // for an overlap or too close: the two as indices into Layout.Placed
	At        orb.Point // a place where it shows, mm
	Detail    say.Text  // what was found and what is allowed; may be empty
}

// sentences say each rule with the first piece as subject; "%s" is the other piece.
var sentences = map[Rule]string{
	WrongTurn:    "is turned as it may not be",
	WrongMirror:  "is mirrored as it may not be",
	OffLattice:   "is off the lattice",
	OutsideStrip: "lies outside the strip",
	OffFold:      "lies off the fold",
	NearFold:     "is too close to the fold",
	OverMiddle:   "lies over the middle, where the selvedges meet",
	OffRepeat:    "lies off the repeat",
	OffPin:       "is not where it is pinned",
	WrongCount:   "does not match the count",
	MixedGrain:   "lies on another grain than the other of its pair",
	WrongLength:  "ends elsewhere than the stated length",
	InForbidden:  "covers a forbidden zone",
	Overlap:      "overlaps %s",
	TooClose:     "is too close to %s",
}

// Error reads `"centre back" copy 1 overlaps "side back" copy 2 near (x mm, y mm)`.
func (b *Broken) Error() string { return say.Join(b.Parts(nil)) }

// Parts says so with lengths as shown; it gives no hint.
func (b *Broken) Parts(show say.Show) (what, hint string) {
	said := sentences[b.Rule]
	if b.Rule == Overlap || b.Rule == TooClose {
		said = fmt.Sprintf(said, copyName(b.Other, b.OtherCopy))
	}
	said = copyName(b.Piece, b.Copy) + " " + said
	if b.Rule != WrongCount {
		said += " near " + plane.Point(b.At).In(show)
	}
	if detail := b.Detail.In(show); detail != "" {
		said += ": " + detail
	}
	return said, ""
}

func copyName(piece string, copy int) string { return fmt.Sprintf("%q copy %d", piece, copy+1) }
