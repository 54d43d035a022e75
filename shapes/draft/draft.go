package draft

import (
	"slices"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Draft is a family of pieces with its measures filled in.
type Draft interface {
	// Draft returns the pieces and all that follows from them. Errors name the
	// draft and what cannot be cut, with a hint where there is one; lengths in mm.
	Draft() (Result, error)
}

// Result is what a draft comes to: what is cut, what is sewn to what, and all
// that lists, prices and remarks are made of. What a draft has nothing to say of
// is empty. Lengths are in mm.
type Result struct {
	Pieces []shapes.Piece

	// Joins are the seams within the draft, in the order of its pieces; what is
	// sewn to other parts, a waist, an armhole, a hem, is not among them.
	Joins []shapes.Join
	// Waist is the side of the draft in a waist seam, where that is more than its
	// waist edges piece by piece: in its order round the body, with what is taken
	// up or left over. See WaistOf.
	Waist shapes.JoinSide
	// Neck is the side in a seam at the neck as it runs round it, darts in their
	// places. See NeckOf.
	Neck shapes.JoinSide
	// Necks are those of a front and a back with shoulders, as they lie flat with all darts
	// closed: what a flat collar is drawn on.
	Necks *[2]NeckHalf
	// Armhole is what a sleeve is set into, from the front underarm over the shoulder to
	// the back underarm, an edge each; Cap is the edge of a sleeve that is set into one.
	Armhole, Cap shapes.JoinSide
	// OffShoulder is how much of each half of the armhole, from the shoulder down, lies above a
	// neckline off the shoulder, mm: so much is cut off the cap of a sleeve too.
	OffShoulder float64
	// Bag is the side of hems that are sewn to those of a lining; Faced what a facing is
	// sewn to, on the pieces of the draft that it faces, and its own side.
	Bag   shapes.JoinSide
	Faced shapes.Join
	// EasePleat is the depth of a pleat at centre back, mm, which takes up twice that of all that
	// runs round.
	EasePleat float64
	// Closed are its openings with what closes them.
	Closed []Closed
	// Parted are its pieces that were cut in two by a piecing seam, in the order of the cuts.
	Parted []shapes.Pieced
	// Ends are the free ends of a draft that does not go round; nil where it does,
	// and where that is no question.
	Ends *Ends
	// EndsAt is the centre where free ends meet once they are sewn on, as those of a collar; "" where
	// that is not known.
	EndsAt string

	Rings []Ring     // what is closed round the body even when all is open that opens
	Notes []say.Text // where it is drawn otherwise than asked for, how it is folded, what hoops are cut: a sentence each
	// EyeletsIn is how far from the edge that is laced the middle between the bones beside it
	// lies, mm; 0 where it is not laced between bones.
	EyeletsIn float64
	LacedAt   string    // the centre where those lie
	LacingGap float64   // left open by the lacing, mm
	Bones     []Bone    // its boning channels, from the centre front to the centre back
	Tapes     []Tape    // sewn on inside
	Edged     []Edged   // lace along its edges
	Hoops     []float64 // the length of every hoop, the lap of its ends included, mm
	Combs     []float64 // the width of every comb that it is gathered to, mm
	Tables    Tables    // the figures of what is gathered or bound
	Shut      bool      // its opening ends above the hem, as that of a skirt does
	Gathered  bool      // its edges of kind Top are gathered, and not sewn on flat
	Net       bool      // it is layers of net, which catch fire easily
	Fused     bool      // it is interfacing: fused to another piece, and sewn to nothing
	Rounds    int       // hems that are apart from each other, as those of two sleeves; 0: one
	Gusseted  bool      // wedges are set into its edges
	Apart     bool      // it is none of the body of its part: a facing, or what lies behind an opening
}

// Tables are the figures of a draft that is pieced from strips; at most one is set.
type Tables struct {
	Layers  []NetLayer // of net, the first (lowest) to the last
	Tiers   []Tier     // from the top
	Binding *BindingTable
}

// Ends are free ends.
type Ends struct {
	// Allowance is what each is hemmed or turned in by, mm, 0 where it is left raw.
	Allowance float64
}

// freeEnds are those of a draft, none where it is closed.
func freeEnds(closed bool, allowance float64) *Ends {
	if closed {
		return nil
	}
	return &Ends{allowance}
}

// ToMark returns the pieces to be marked further: notches and lines added to them
// leave d as it is.
func (d Result) ToMark() []shapes.Piece {
	pieces := slices.Clone(d.Pieces)
	for i, p := range pieces {
		p.Notches, p.Inside, p.Names = slices.Clip(p.Notches), slices.Clip(p.Inside), slices.Clip(p.Names)
		pieces[i] = p
	}
	return pieces
}

// notch sets the notches of the joins, and the quarters of sides that go round the
// body.
func (d Result) notch(round ...shapes.JoinSide) error {
	if err := shapes.MatchNotches(d.Pieces, d.Joins); err != nil {
		return err
	}
	for _, s := range round {
		if err := notchQuarters(d.Pieces, s); err != nil {
			return err
		}
	}
	return nil
}

// named puts the name of a draft before its errors.
func named(what string) func(Result, error) (Result, error) {
	return func(d Result, err error) (Result, error) {
		if err != nil {
			return Result{}, say.Errorf("%s: %w", what, err)
		}
		return d, nil
	}
}

// then drafts what was reckoned without an error.
func then[T interface{ draft() (Result, error) }](reckoned T, err error) (Result, error) {
	if err != nil {
		return Result{}, err
	}
	return reckoned.draft()
}
