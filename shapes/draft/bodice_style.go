package draft

import (
	"cmp"
	"fmt"
	"slices"

	"yardlay/shapes/say"
)

// BodiceStyle is what makes a style of a block: its lines drawn elsewhere, its take-up
// turned elsewhere. The zero value is the block as it is. What is measured stays held:
// the bust line, the waist, and both sides of every seam.
//
// Lines are drawn with the bust dart at the side, where neck, shoulder and armhole are
// flat; darts move last.
type BodiceStyle struct {
	Neckline, NecklineBack Neckline // no line: at the base of the neck
	NeckWidth              float64  // how far out from the neck along the shoulder they begin, mm
	NeckDepth              float64  // how far below the base of the neck the front one lies at the centre, mm
	NeckBackDepth          float64  // how far below the nape the back one does, mm
	// OffShoulder is how far below the shoulder's tip, along the armhole, a neckline off the shoulder
	// lies, mm; its depths count from there.
	OffShoulder float64

	ShoulderIn  float64 // how much narrower the shoulder is at its tip, mm
	ArmholeDrop float64 // how far the underarm is moved down the side seam, mm; up where it is negative

	WaistDrop  float64   // how far below the waist the waist seam lies, mm; above it where it is negative
	BustDartAt DartPlace // no place: the side
	OneDart    bool      // the waist dart of the front is joined to it
	PanelsFrom DartPlace // panels with a seam from there to the waist, in place of darts; no place: none

	// WaistDropGirth is the girth of the body there, mm. It may be 0 for a raised waist, which then
	// lies on a straight line from waist to bust line.
	WaistDropGirth float64
}

// Neckline is the form of a neck edge.
type Neckline string

// Forms of a neck edge: round and boat meet the shoulder seam squarely or flatly and run
// level to the centre, square ones turn a corner, V ones come to a point there.
const (
	RoundNeck  Neckline = "round"
	SquareNeck Neckline = "square"
	VNeck      Neckline = "V"
	BoatNeck   Neckline = "boat"

	OffShoulderNeck Neckline = "off-shoulder" // in front and behind, over both arms
)

// DartPlace is where on the outline a dart opens, or a seam of panels begins.
type DartPlace string

// Places of darts: from all of them they run to the bust point, and end short of it.
const (
	DartAtSide     DartPlace = "side"
	DartAtShoulder DartPlace = "shoulder" // in its middle
	DartAtNeck     DartPlace = "neck"
	DartAtArmhole  DartPlace = "armhole"
	DartAtWaist    DartPlace = "waist" // one with the waist dart
	DartAtCentre   DartPlace = "centre"
)

// leastShoulder is the narrowest shoulder that is left between neck and armhole, mm: a
// strap with seams that turn (our own figure).
const leastShoulder = 15

// leastCentre is the least that a neckline leaves of a centre above the waist, mm (our own).
const leastCentre = 40

// chestIn is how far the armhole moves in at the width of chest or back for each mm that the
// shoulder is narrower (our own: half, so that the armhole stays one sweep).
const chestIn = 0.5

// mostRaised is the most that an underarm is raised, mm: a sleeveless armhole lies closer
// to the arm than one with a sleeve, by 10 to 15 mm (common practice, from memory).
const mostRaised = 25

// checkStyle refuses what no style has.
func (b BodiceBlock) checkStyle() error {
	lines := []Neckline{"", RoundNeck, SquareNeck, VNeck, BoatNeck, OffShoulderNeck}
	for _, n := range []Neckline{b.Neckline, b.NecklineBack} {
		if !slices.Contains(lines, n) {
			return fmt.Errorf("neckline %q is no line of a neck", string(n))
		}
	}
	return cmp.Or(
		b.checkDartPlaces(),
		notNegative(measured{"neck width", b.NeckWidth}, measured{"neck depth", b.NeckDepth},
			measured{"depth of the neck behind", b.NeckBackDepth}, measured{"shoulder in", b.ShoulderIn},
			measured{"girth at the waist seam", b.WaistDropGirth}, measured{"off the shoulder", b.OffShoulder}),
		b.checkOff(), b.checkLines())
}

// checkDartPlaces refuses places that darts or panels do not have, and what says both.
func (b BodiceBlock) checkDartPlaces() error {
	moved := b.BustDartAt != "" && b.BustDartAt != DartAtSide
	flat := b.measuresFromBust().NoBustDart
	places := []DartPlace{"", DartAtSide, DartAtShoulder, DartAtNeck, DartAtArmhole, DartAtWaist, DartAtCentre}
	switch {
	case !slices.Contains(places, b.BustDartAt):
		return fmt.Errorf("%q is no place of a dart", string(b.BustDartAt))
	case b.PanelsFrom != "" && b.PanelsFrom != DartAtShoulder && b.PanelsFrom != DartAtArmhole:
		return fmt.Errorf("%q is no place of a seam of panels", string(b.PanelsFrom))
	case b.PanelsFrom != "" && (moved || b.OneDart):
		return say.Errorf("panels have no darts to move or to join").Hint("leave out `bust_dart_at` and `one_dart`")
	case flat && (moved || b.OneDart):
		return say.Errorf("there is no bust dart to move or to join").
			Hint("leave out `bust_dart_at` and `one_dart`, or give `bust_dart` a width")
	case b.BustDartAt == DartAtCentre && !b.FrontOnFold:
		return say.Errorf("the bust dart cannot open on a centre front that opens").
			Hint(`opening = "back"; the centre front has a seam then`)
	}
	return nil
}

func (b BodiceBlock) checkLines() error {
	if left := b.Shoulder - b.NeckWidth - b.ShoulderIn; left < leastShoulder {
		return say.Errorf("a neck %.1f wider and a shoulder %.1f narrower leave %.1f of a shoulder of %.1f, needs %v",
			say.MM(b.NeckWidth), say.MM(b.ShoulderIn), say.MM(left), say.MM(b.Shoulder), say.MM(leastShoulder)).
			Hint("a smaller `neck_width` or `shoulder_in`")
	}
	if b.ArmholeDrop < -mostRaised {
		return say.Errorf("an armhole raised by %.1f would bind, the most is %v", say.MM(-b.ArmholeDrop),
			say.MM(mostRaised))
	}
	if b.WaistDrop > 0 && b.WaistDropGirth == 0 {
		return say.Errorf("a waist seam %.1f below the waist needs the girth of the body there", say.MM(b.WaistDrop)).
			Hint("give `waist_drop_girth`, or `hip_girth` and `waist_to_hips` of the body")
	}
	return nil
}

// atSeam returns the block whose waist is where the waist seam lies. What is above the
// waist lies on a straight line from the waist to the bust line unless it is measured; a
// dropped waist passes the natural one with what that leaves.
func (b BodiceBlock) atSeam() BodiceBlock {
	if b.WaistDrop == 0 {
		return b
	}
	if b.WaistDropGirth > 0 {
		b.Waist = b.WaistDropGirth
	} else {
		bust, waist := b.Bust+b.Ease, b.Waist+b.WaistEase
		b.Waist = waist + (bust-waist)*-b.WaistDrop/(b.BackLength-b.ArmholeDepth) - b.WaistEase
	}
	b.BackLength += b.WaistDrop
	return b
}

// styleNotes says what a style comes to that the measures do not; of a block at its seam.
func (b BodiceBlock) styleNotes() []say.Text {
	var notes []say.Text
	if b.off() {
		notes = append(notes, b.offNote())
	}
	if b.WaistDrop == 0 {
		return notes
	}
	where := "below"
	if b.WaistDrop < 0 {
		where = "above"
	}
	return append(notes, say.Textf("The waist seam lies %.1f %s the waist and is %.1f round, ease included.",
		say.MM(max(b.WaistDrop, -b.WaistDrop)), where, say.MM(b.Waist+b.WaistEase)))
}
