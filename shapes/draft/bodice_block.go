package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// BodiceBlock is a fitted front and back to the waist with a neck and armholes,
// the block that gowns with sleeves start from. The front has a dart at the side
// for the bust and one at the waist, the back one at the waist:
//
//	  neck                         neck
//	 .--.  shoulder      shoulder .-.
//	(    "--.               .--""   )
//	|        \             /       |
//	|         ) armhole   (        |      bust line, ArmholeDepth
//	|          "-.     .-"         |      below the nape
//	|       ___---|   |            |
//	|      <___   |   |     ^      |
//	|    ^     ---|   |    / \     |
//	|   / \      /     \   | |     |
//	|__/___\____/       \__|_|_____|      waist, BackLength below the nape
//	front                      back
//
// The draft is our own. Its proportions, the constants beside this type, are from
// memory of textbooks of flat pattern drafting and marked so; what a maker has
// measured goes in their place. Held exactly: the neck sums to Neck, the bust line
// to Bust + Ease, the waist with its darts sewn to Waist + WaistEase, the shoulders
// to Shoulder, and the two side seams to one length once the bust dart is sewn.
// Waist and side seam are smooth with their darts folded.
type BodiceBlock struct {
	Bust         float64 // girth at its fullest, mm
	Waist        float64 // girth, mm
	BackLength   float64 // from the nape to the waist, mm
	Shoulder     float64 // from the neck to the shoulder's tip, mm
	Neck         float64 // girth at its base, mm
	ArmholeDepth float64 // from the nape down to the bust line, ease included, mm

	// Measures that may be 0: then they are taken from the bust (from memory).
	BackWidth  float64 // across the back between the armholes, mm
	ChestWidth float64 // across the chest between the armholes, mm
	BustDepth  float64 // from the neck point of the shoulder down to the bust point, mm
	BustSpan   float64 // from bust point to bust point, mm
	BustDart   float64 // width of the bust dart at the side, mm; under a bust that needs none, none
	NoBustDart bool    // none whatever the bust, as for men: the front is as long as the back

	BodiceStyle

	Ease      float64 // added to the bust, mm; textbooks give 80 to 100 for a fitted block (from memory)
	WaistEase float64 // added to the waist, mm

	FrontOnFold, BackOnFold bool    // else centre front, centre back are openings
	frontSeam               bool    // centre front is a seam
	Hemmed                  bool    // the lower edge is a hem, and not sewn to a skirt
	HemRaise                float64 // of such a one: how much shorter this layer is than the outer one, mm
	EasePleat               float64 // of a pleat at centre back, its depth, mm: twice that is taken up of the whole
	Allowance               shapes.Allowance
	Chord                   float64 // chord error, mm; 0 means DefaultChord
}

// Proportions of the block, mm. From memory of textbooks unless said otherwise.
const (
	backNeckRise  = 20 // the neck point of the back shoulder lies so far above the nape
	frontNeckRise = 10 // and that of the front
	shoulderEase  = 8  // the back shoulder is longer and eased in over the shoulder blade
	backSlope     = 18 * math.Pi / 180
	frontSlope    = 22 * math.Pi / 180
	sideSeamBack  = 5  // the side seam lies behind the quarter of the girth
	dartClear     = 25 // darts end so far short of the bust point
	mostDart      = 60 // a single dart wider than this stands out as a cone (common practice)
	leastDart     = 10 // a narrower one is left to the side seam
	flatDart      = 5  // a bust dart that would be narrower is none: the chest of a child is flat
)

// Shares of what the half waist is smaller than the half bust: of the front and
// the back dart; the rest is halved between the two side seams (from memory: about
// a third each).
const frontDartShare, backDartShare = 0.34, 0.32

// measuresFromBust fills the measures that are not given. Standard steps of size
// charts, from memory: across the back 344 mm at a bust of 880, 0.25 mm for each
// mm of bust; across the chest 324 and 0.3; the bust point a tenth of the bust
// below 175 mm, the span a fifth of the bust; the bust dart 27 mm and 0.15, never
// below 10 or above what one dart can take. Where that is below 5 mm, under a bust of 733,
// there is none.
func (b BodiceBlock) measuresFromBust() BodiceBlock {
	fill := func(to *float64, mm float64) {
		if *to == 0 {
			*to = mm
		}
	}
	more := b.Bust - 880
	fill(&b.BackWidth, 344+0.25*more)
	fill(&b.ChestWidth, 324+0.3*more)
	fill(&b.BustDepth, 175+b.Bust/10)
	fill(&b.BustSpan, b.Bust/5)
	if dart := 27 + 0.15*more; b.NoBustDart || b.BustDart == 0 && dart < flatDart {
		b.BustDart, b.NoBustDart = 0, true
	} else {
		fill(&b.BustDart, min(max(dart, leastDart), mostDart))
	}
	b.Chord = chordError(b.Chord)
	return b
}

// Draft returns the front and the back.
func (b BodiceBlock) Draft() (Result, error) { return named("bodice block")(b.draft()) }

// Armhole returns the finished length of the armhole in front and behind, from
// the underarm to the shoulder, mm: what a sleeve is set into. Errors are those of
// Draft.
func (b BodiceBlock) Armhole() (front, back float64, err error) {
	d, err := b.Draft()
	if err != nil {
		return 0, 0, err
	}
	return d.armhole()
}

// blockHalf is the half of a front or a back as drafted, x down from the level of
// the nape, y from the centre outward, mm.
type blockHalf struct {
	centreNeck, neckPoint, tip, underarm, side, centreWaist orb.Point
	slope                                                   float64 // of the shoulder, rad
	line                                                    Neckline
	off                                                     float64 // below the tip, mm; 0: on the shoulder
	width                                                   float64 // from the centre to the armhole, mm
	waistDart                                               dartPlan
	sideDart                                                dartPlan

	waist, seam trued // as drawn with a dart: from the centre, the front's side seam from the waist
}

// dartPlan is a dart before it is drawn; with no width there is none.
type dartPlan struct {
	from, width float64 // on the edge, in the sense that it is drawn, mm
	apex        orb.Point
}

// halves drafts front and back.
func (b BodiceBlock) halves() (front, back blockHalf, err error) {
	half := (b.Bust + b.Ease) / 2
	over := half - (b.Waist+b.WaistEase)/2
	frontDart, backDart := frontDartShare*over, backDartShare*over
	if min(frontDart, backDart) < leastDart {
		frontDart, backDart = 0, 0
	}
	in := (over - frontDart - backDart) / 2 // at each side seam
	neck := b.Neck/6 + 8                    // half the neck's width (from memory)

	back = blockHalf{neckPoint: orb.Point{-backNeckRise, neck}, slope: backSlope, width: b.BackWidth / 2}
	back.underarm = orb.Point{b.ArmholeDepth, half/2 - sideSeamBack}
	back.side = orb.Point{b.BackLength, back.underarm[1] - in}
	back.centreWaist = orb.Point{b.BackLength, 0}
	back.tip = back.shoulderTip(b.Shoulder + shoulderEase)
	back.waistDart = dartPlan{
		from: back.side[1] - back.width/2 - backDart/2, width: backDart,
		apex: orb.Point{b.ArmholeDepth + dartClear, back.width / 2},
	}

	front = blockHalf{neckPoint: orb.Point{-frontNeckRise, neck}, slope: frontSlope, width: b.ChestWidth / 2}
	front.underarm = orb.Point{b.ArmholeDepth, half/2 + sideSeamBack}
	// The side seam is as long as the back's with the bust dart in it; so much
	// lower is the front's waist.
	seam := math.Hypot(b.BackLength-b.ArmholeDepth, in) + b.BustDart
	level := b.ArmholeDepth + math.Sqrt(seam*seam-in*in)
	front.side, front.centreWaist = orb.Point{level, front.underarm[1] - in}, orb.Point{level, 0}
	front.tip = front.shoulderTip(b.Shoulder)
	bustPoint := b.bustPoint()
	front.waistDart = dartPlan{from: bustPoint[1] - frontDart/2, width: frontDart,
		apex: orb.Point{bustPoint[0] + dartClear, bustPoint[1]}}
	if !b.NoBustDart {
		front.sideDart = dartPlan{from: level - bustPoint[0] - b.BustDart/2, width: b.BustDart}
		front.sideDart.apex = front.sideApex(bustPoint, seam)
	}
	drop, err := b.frontNeck(back)
	front.centreNeck = orb.Point{drop, 0}
	return front, back, err
}

// shoulderTip lies along the slope from the neck point.
func (h blockHalf) shoulderTip(length float64) orb.Point {
	sin, cos := math.Sincos(h.slope)
	return orb.Point{h.neckPoint[0] + length*sin, h.neckPoint[1] + length*cos}
}

// sideApex puts the point of the side dart square in from its mouth, so that its
// legs are equal, short of the bust point.
func (h blockHalf) sideApex(bustPoint orb.Point, seam float64) orb.Point {
	e := shapes.Edge{Line: orb.LineString{h.side, h.underarm}}
	middle, out := e.At(min(max(h.sideDart.from+h.sideDart.width/2, 0), seam))
	length := (middle[1]-bustPoint[1])/out[1] - dartClear
	return orb.Point{middle[0] - length*out[0], middle[1] - length*out[1]}
}

// neck is the curve from the neck point to the centre, upright at the point and
// level at the centre; deep ones run as a quarter of an ellipse does.
func (h blockHalf) neck() cubic {
	a, c := h.neckPoint, h.centreNeck
	return cubic{a, {a[0] + quarterHandle*(c[0]-a[0]), a[1]}, {c[0], quarterHandle * a[1]}, c}
}

// armhole is the curve from the underarm, level there, up along the width of chest
// or back to the shoulder's tip, square to the shoulder there.
func (h blockHalf) armhole() (lower, upper cubic) {
	u, t := h.underarm, h.tip
	middle := orb.Point{t[0] + 0.55*(u[0]-t[0]), min(h.width, u[1]-10)}
	sin, cos := math.Sincos(h.slope)
	rise := 0.4 * (middle[0] - t[0])
	lower = cubic{u, {u[0], u[1] - 0.5*(u[1]-middle[1])}, {middle[0] + 0.5*(u[0]-middle[0]), middle[1]}, middle}
	upper = cubic{middle, {middle[0] - rise, middle[1]}, {t[0] + rise*cos, t[1] - rise*sin}, t}
	return lower, upper
}

// frontNeck returns how far below the nape the front neck reaches, so that half of
// the neck is as long as measured.
func (b BodiceBlock) frontNeck(back blockHalf) (float64, error) {
	want := b.Neck/2 - plane.Length(chain(b.Chord, back.neck()))
	excess := func(drop float64) float64 {
		h := blockHalf{neckPoint: orb.Point{-frontNeckRise, back.neckPoint[1]}, centreNeck: orb.Point{drop, 0}}
		return plane.Length(chain(b.Chord, h.neck())) - want
	}
	drop, ok := firstRoot(excess, 0, b.ArmholeDepth)
	if !ok {
		return 0, say.Errorf("a neck of %.1f does not go round an armhole depth of %.1f", say.MM(b.Neck),
			say.MM(b.ArmholeDepth))
	}
	return drop, nil
}
