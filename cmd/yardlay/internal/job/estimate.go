package job

import (
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// estimateKey is the key by which a body has what is missing reckoned.
const estimateKey = "estimate"

// proportion reckons a measure, mm, from two that are easy to take.
type proportion struct {
	name             string
	bust, back, flat float64 // shares of the bust and of the back length, and mm
}

func (p proportion) of(bust, back float64) float64 { return p.bust*bust + p.back*back + p.flat }

// proportions are straight lines from a child of four (bust 56, back 24 cm) through a
// woman (88, 41 cm) to a large one (120, 43 cm), whose measures are from memory of the
// size tables of drafting books: common practice, without one source. Upper arm and
// wrist are held to 260 women measured by Heinz, Peterson, Johnson and Kerk, "Exploring
// Relationships in Body Dimensions", Journal of Statistics Education 11 (2003), in a
// test. The waist to hips is half the back length, an old rule of tailors. Of a corset the heights
// are shares of the back length; the under-bust is not among them, for at one bust it differs
// by the fullness of that.
var proportions = []proportion{
	{"armhole_depth", 0.082, 0.287, 20},
	{"back_width", 0.236, 0.227, 43},
	{"chest_width", 0.235, 0.15, 50},
	{"bust_span", 0.19, 0, 15},
	{"shoulder_neck_to_bust", 1.0 / 6, 1.0 / 3, -23},
	{"shoulder_length", 0.02, 0.2, 20},
	{"neck_base_girth", 0.2, 0.25, 90},
	{"upper_arm_girth", 0.34, 0, -20},
	{"wrist_girth", 1.0 / 12, 0, 77},
	{"waist_to_hips", 0, 0.5, 0},
	{"over_bust_girth", 0.9, 0, 50},
	{"waist_to_over_bust", 0, 0.55, 0},
	{"waist_to_bust", 0, 0.4, 0},
	{"waist_to_underbust", 0, 0.24, 0},
}

// What the proportions hold for, mm: from a child of two to the largest of made sizes.
const (
	leastEstimatedBust, mostEstimatedBust = 500, 1600
	leastEstimatedBack, mostEstimatedBack = 200, 520
)

// estimated reckons what the body does not give and proportions do, where it asks so. What
// cannot be reckoned is told once; it is not missing as well.
func (t *table) estimated(b *Body) {
	if !t.Truth(estimateKey, false) {
		return
	}
	sound := t.canEstimate(b)
	bust, back := b.orNone(bust), b.orNone(back)
	for _, p := range proportions {
		if _, has := b.Measures[p.name]; has {
			continue
		}
		if b.Measures[p.name] = 0; sound {
			b.set(p.name, p.of(bust, back), "estimated from bust and back length")
		}
	}
	b.estimateHighHip(sound)
}

// fromHips says where a high hip comes from that nobody measured.
const fromHips = "estimated from waist and hip"

// estimateHighHip reckons the hip bones, as skirts do, see draft.EstimatedHighHip: their girth where
// waist and hip are known, and how far below the waist they lie.
func (b *Body) estimateHighHip(sound bool) {
	waist, hip := b.Measures["waist_girth"], b.Measures["hip_girth"]
	high := draft.EstimatedHighHip(waist, hip, b.Measures["waist_to_hips"])
	if _, has := b.Measures["high_hip_girth"]; !has && sound && waist > 0 && hip > waist {
		b.set("high_hip_girth", high.Girth, fromHips)
	}
	if _, has := b.Measures["waist_to_high_hip"]; !has && sound {
		b.set("waist_to_high_hip", high.Depth, fromHips)
	}
}

// orNone returns a measure; one that is missing is 0 from now on.
func (b *Body) orNone(name string) float64 {
	b.Measures[name] += 0
	return b.Measures[name]
}

// The measures that proportions reckon from.
const bust, back = "bust_girth", "back_neck_point_to_waist"

// canEstimate refuses a body that proportions do not hold for.
func (t *table) canEstimate(b *Body) bool {
	at := t.Field(estimateKey).Value.At
	const instead = "give the measures themselves"
	if b.unusual {
		t.Fail(at, instead, "`%s` reckons by the proportions of people, and the body is `%s`", estimateKey, unusualKey)
		return false
	}
	show := func(mm float64) string { return measure.Format(mm, t.Unit) }
	for _, k := range []struct {
		name        string
		least, most float64
	}{{bust, leastEstimatedBust, mostEstimatedBust}, {back, leastEstimatedBack, mostEstimatedBack}} {
		mm, has := b.Measures[k.name]
		if !has {
			t.Fail(at, "give `"+k.name+"` under "+b.called(), "`%s` reckons from `%s`, which is missing",
				estimateKey, k.name)
			return false
		}
		if mm > 0 && (mm < k.least || mm > k.most) {
			t.Fail(at, instead, "`%s` reckons for a `%s` of %s to %s, and it is %s", estimateKey, k.name,
				show(k.least), show(k.most), show(mm))
		}
		if mm < k.least || mm > k.most {
			return false
		}
	}
	return true
}
