package draft

import (
	"testing"
)

// How far the measures and styles of bodices go, and what is said beyond.
func TestLimitsOfBodices(t *testing.T) {
	block := func(change func(*BodiceBlock, float64)) func(float64) Draft { return of(lanternBlock(), change) }
	flat := func(change func(*BodiceBlock, float64)) func(float64) Draft { return of(childBlock(), change) }
	off := func(change func(*BodiceBlock, float64)) func(float64) Draft { return of(offShoulder(60), change) }
	styled := func(change func(*BodiceBlock)) func(float64) Draft {
		return block(func(b *BodiceBlock, bad float64) {
			if bad > 0 {
				change(b)
			}
		})
	}
	holds(t, []limit{
		{"chord", block(func(b *BodiceBlock, mm float64) { b.Chord = mm }), .01, .0009,
			"bodice block: chord error is 0.0009 mm, must be at least 0.001 mm"},
		{"bust drawn in", block(func(b *BodiceBlock, mm float64) { b.Ease = mm }), 60, -920,
			"bodice block: bust with ease is 0 mm, must be more than 0"},
		{"armhole depth", block(func(b *BodiceBlock, mm float64) { b.ArmholeDepth, b.BackLength = 213, mm }), 400, 312,
			"bodice block: armhole depth of 213.0 mm leaves 99.0 mm of side seam above the waist at 312.0 mm, needs " +
				"100 mm"},
		{"armhole depth of a child", flat(func(b *BodiceBlock, mm float64) { b.BackLength = mm }), 225, 194.9,
			"bodice block: armhole depth of 135.0 mm leaves 59.9 mm of side seam above the waist at 194.9 mm, needs " +
				"60 mm"},
		{"a raised waist", block(func(b *BodiceBlock, mm float64) { b.WaistDrop = mm }), -60, -98,
			"bodice block: armhole depth of 213.0 mm leaves 99.0 mm of side seam above the waist at 312.0 mm, needs " +
				"100 mm\n  hint: a waist seam that is raised by less"},
		{"a dropped waist", block(func(b *BodiceBlock, mm float64) { b.WaistDrop, b.WaistDropGirth = 60, mm }), 800, 0,
			"bodice block: a waist seam 60.0 mm below the waist needs the girth of the body there\n  hint: give " +
				"`waist_drop_girth`, or `hip_girth` and `waist_to_hips` of the body"},
		{"ease pleat", block(func(b *BodiceBlock, mm float64) { b.FrontOnFold, b.EasePleat = true, mm }), 60, 60.1,
			"bodice block: ease pleat is 60.1 mm deep, must be at most 60 mm"},
		{"a waist dart of the front", block(func(b *BodiceBlock, mm float64) { b.WaistEase = mm }), 20, -160,
			"bodice block: the waist dart of the front would take up 74.8 mm, the most for one dart is 60 mm\n  " +
				"hint: a bodice of panels, or more waist ease"},
		{"across the front", block(func(b *BodiceBlock, mm float64) { b.ChestWidth = mm }), 400, 490.1,
			"bodice block: half the width across the front, 245.1 mm, leaves no armhole before the side seam at " +
				"255.0 mm\n  hint: measure the width across the front and the bust again; more ease widens the side"},
		{"across the back", block(func(b *BodiceBlock, mm float64) { b.BackWidth = mm }), 420, 470.1,
			"bodice block: half the width across the back, 235.1 mm, leaves no armhole before the side seam at 245.0 " +
				"mm\n  hint: measure the width across the back and the bust again; more ease widens the side"},
		{"a narrow back", block(func(b *BodiceBlock, mm float64) { b.BackWidth = mm }), 330, 159,
			"bodice block: half the width across the back, 79.5 mm, is not 10 mm more than half the width of the " +
				"neck, 69.7 mm\n  hint: measure the width across the back and the neck again"},
		{"shoulder", block(func(b *BodiceBlock, mm float64) { b.Shoulder = mm }), 125, 180,
			"bodice block: a shoulder of 180.0 mm puts its tip 248.5 mm from the centre of the back, which is 177.0 " +
				"mm wide to the armhole and 213.0 mm deep\n  hint: measure across the back as well; where it is not " +
				"given its width follows from the bust"},
		{"a short shoulder", block(func(b *BodiceBlock, mm float64) { b.Shoulder = mm }), 110, 60,
			"bodice block: a shoulder of 60.0 mm puts its tip 125.3 mm from the centre of the front, which is 168.0 " +
				"mm wide to the armhole and 213.0 mm deep\n  hint: measure across the front as well; where it is not " +
				"given its width follows from the bust"},
		{"bust depth", block(func(b *BodiceBlock, mm float64) { b.BustDepth = mm }), 280, 230,
			"bodice block: the bust dart, 33.0 mm wide, lies 206.7 mm above the waist on a side seam of 231.1 mm: " +
				"the bust point is not between underarm and waist\n  hint: check bust depth (230.0 mm) and armhole depth"},
		{"bust span", block(func(b *BodiceBlock, mm float64) { b.BustSpan = mm }), 300, 420,
			"bodice block: the waist dart of the front, 40.8 mm wide, does not fit into a waist of 234.6 mm\n  hint: " +
				"more waist ease; or measure back length and bust depth again"},
		{"neck", block(func(b *BodiceBlock, mm float64) { b.Neck = mm }), 400, 900,
			"bodice block: a shoulder of 125.0 mm puts its tip 273.9 mm from the centre of the front, which is 168.0 " +
				"mm wide to the armhole and 213.0 mm deep\n  hint: measure across the front as well; where it is not " +
				"given its width follows from the bust"},
		{"a neckline of no form", styled(func(b *BodiceBlock) { b.Neckline = "heart" }), 0, 1,
			"bodice block: neckline \"heart\" is no line of a neck"},
		{"a neckline of no form behind", styled(func(b *BodiceBlock) { b.NecklineBack = "heart" }), 0, 1,
			"bodice block: neckline \"heart\" is no line of a neck"},
		{"neck depth", block(func(b *BodiceBlock, mm float64) { b.NeckDepth = mm }), 5, -1,
			"bodice block: neck depth is -1 mm, must be 0 or more"},
		{"a deep neck", block(func(b *BodiceBlock, mm float64) { b.Neckline, b.NeckDepth = VNeck, mm }), 320, 345,
			"bodice block: the neck of the front leaves 38.9 mm of its centre above the waist seam, needs 40 mm\n  " +
				"hint: a smaller `neck_depth`"},
		{"a neck that rises to the centre", block(func(b *BodiceBlock, mm float64) {
			b.NecklineBack, b.NeckWidth, b.NeckBackDepth = BoatNeck, 60, mm
		}), 9.8, 9.6,
			"bodice block: a neck 60.0 mm wider begins 0.3 mm above the nape at the shoulder, and is 9.6 mm below it " +
				"at the centre of the back\n  hint: a larger `neck_back_depth`, or a smaller `neck_width`"},
		{"what is left of a shoulder", block(func(b *BodiceBlock, mm float64) {
			b.Neckline, b.NeckWidth, b.ShoulderIn = RoundNeck, 60, mm
		}),
			50, 50.1,
			"bodice block: a neck 60.0 mm wider and a shoulder 50.1 mm narrower leave 14.9 mm of a shoulder of 125.0 " +
				"mm, needs 15 mm\n  hint: a smaller `neck_width` or `shoulder_in`"},
		{"an armhole raised", block(func(b *BodiceBlock, mm float64) { b.ArmholeDrop = mm }), -25, -25.1,
			"bodice block: an armhole raised by 25.1 mm would bind, the most is 25 mm"},
		{"an armhole lowered", block(func(b *BodiceBlock, mm float64) {
			b.NoBustDart, b.ArmholeDrop = true, mm
		}), 138, 138.2,
			"bodice block: an armhole lowered by 138.2 mm leaves 59.9 mm of side seam, needs 60 mm\n  hint: a " +
				"smaller `armhole_drop`"},
		{"a place of no dart", styled(func(b *BodiceBlock) { b.BustDartAt = "elbow" }), 0, 1,
			"bodice block: \"elbow\" is no place of a dart"},
		{"a place of no panels", styled(func(b *BodiceBlock) { b.PanelsFrom = DartAtNeck }), 0, 1,
			"bodice block: \"neck\" is no place of a seam of panels"},
		{"panels with a dart", styled(func(b *BodiceBlock) { b.PanelsFrom, b.OneDart = DartAtArmhole, true }), 0, 1,
			"bodice block: panels have no darts to move or to join\n  hint: leave out `bust_dart_at` and `one_dart`"},
		{"panels with a dart moved", styled(func(b *BodiceBlock) {
			b.PanelsFrom, b.BustDartAt = DartAtArmhole, DartAtNeck
		}), 0, 1,
			"bodice block: panels have no darts to move or to join\n  hint: leave out `bust_dart_at` and `one_dart`"},
		{"a dart that is none", styled(func(b *BodiceBlock) { b.NoBustDart, b.BustDartAt = true, DartAtNeck }), 0, 1,
			"bodice block: there is no bust dart to move or to join\n  hint: leave out `bust_dart_at` and " +
				"`one_dart`, or give `bust_dart` a width"},
		{"a dart that is none, joined", styled(func(b *BodiceBlock) { b.NoBustDart, b.OneDart = true, true }), 0, 1,
			"bodice block: there is no bust dart to move or to join\n  hint: leave out `bust_dart_at` and " +
				"`one_dart`, or give `bust_dart` a width"},
		{"a dart in an opening", styled(func(b *BodiceBlock) {
			b.FrontOnFold, b.BustDartAt = false, DartAtCentre
		}), 0, 1,
			"bodice block: the bust dart cannot open on a centre front that opens\n  hint: opening = \"back\"; the " +
				"centre front has a seam then"},
		{"off the shoulder in front alone", off(func(b *BodiceBlock, bad float64) {
			if bad > 0 {
				b.NecklineBack = RoundNeck
			}
		}), 0, 1,
			"bodice block: a neckline off the shoulder runs round over both arms, and only that of the front is\n  " +
				"hint: both `neckline` and `neckline_back` off the shoulder, or neither"},
		{"off the shoulder behind alone", off(func(b *BodiceBlock, bad float64) {
			if bad > 0 {
				b.Neckline = RoundNeck
			}
		}), 0, 1,
			"bodice block: a neckline off the shoulder runs round over both arms, and only that of the back is\n  " +
				"hint: both `neckline` and `neckline_back` off the shoulder, or neither"},
		{"so far off a shoulder that is kept", block(func(b *BodiceBlock, mm float64) { b.OffShoulder = mm }), 0, 60,
			"bodice block: the neckline lies 60.0 mm below the shoulder, and is not one off the shoulder\n  hint: " +
				"neckline = \"off-shoulder\""},
		{"a shoulder that is gone", off(func(b *BodiceBlock, mm float64) { b.ShoulderIn = mm }), 0, 5,
			"bodice block: a neckline off the shoulder leaves no shoulder to be made narrower\n  hint: leave out " +
				"`neck_width` and `shoulder_in`"},
		{"a neck on a shoulder that is gone", off(func(b *BodiceBlock, mm float64) { b.NeckWidth = mm }), 0, 5,
			"bodice block: a neckline off the shoulder leaves no shoulder to be made narrower\n  hint: leave out " +
				"`neck_width` and `shoulder_in`"},
		{"panels from a shoulder that is gone", off(func(b *BodiceBlock, bad float64) {
			if bad > 0 {
				b.PanelsFrom = DartAtShoulder
			}
		}), 0, 1,
			"bodice block: a neckline off the shoulder leaves no shoulder for the seam of the panels\n  hint: panels " +
				"= \"armhole\""},
		{"a dart on a shoulder that is gone", off(func(b *BodiceBlock, bad float64) {
			if bad > 0 {
				b.BustDartAt = DartAtShoulder
			}
		}), 0, 1,
			"bodice block: a neckline off the shoulder leaves no shoulder for the bust dart\n  hint: move it " +
				"elsewhere by `bust_dart_at`"},
		{"off the shoulder", off(func(b *BodiceBlock, mm float64) { b.OffShoulder = mm }), 25, 24.9,
			"bodice block: a neckline 24.9 mm below the tip of the shoulder slips up over it, needs 25 mm\n  hint: a " +
				"larger `off_shoulder`"},
		{"off the shoulder, deep", off(func(b *BodiceBlock, mm float64) { b.NeckDepth = mm }), 60, 150,
			"bodice block: the neckline off the shoulder comes down to 12.5 mm above the bust points, needs 30 mm\n  " +
				"hint: a smaller `off_shoulder` or `neck_depth`"},
		{"what is left of an armhole", off(func(b *BodiceBlock, mm float64) { b.OffShoulder = mm }), 90, 190,
			"bodice block: a neckline 190.0 mm below the tip of the shoulder leaves 38.1 mm of the armhole of the " +
				"front, needs 60 mm\n  hint: a smaller `off_shoulder`"},
		{"a layer shorter at a seam", block(func(b *BodiceBlock, mm float64) { b.HemRaise = mm }), 0, 10,
			"bodice block: this layer is 10.0 mm shorter at a waist that is sewn to a skirt\n  hint: let its lower " +
				"edge be a hem, or all layers be as long"},
		{"a layer shorter", block(func(b *BodiceBlock, mm float64) {
			b.Hemmed, b.NoBustDart, b.HemRaise = true, true, mm
		}), 40, 137.1,
			"bodice block: a layer 137.1 mm shorter has 59.9 mm of side seam left, needs 60 mm\n  hint: less of a " +
				"difference"},
	})
}
