package job

import (
	"slices"

	"yardlay/shapes/measure"
)

// bodyMeasure is a measure that a body may give.
type bodyMeasure struct {
	name        string
	use         string
	least, most float64 // mm, among people from two years up
	taken       Taken
	own         bool   // its name is ours, not the standard's
	example     string // in inches
}

// bodyMeasures are the measures a body may give. The first are named as in ISO
// 8559-1:2017, those from underbust_girth on after it from memory; the standard
// measures heights from the ground, so the way from the waist to a level, and what
// it has no name for, are our own.
//
// The bounds are wide: from two years old (waists of 45 cm and more) to beyond the
// largest of made sizes (about 160 cm), our own from memory of the percentiles in
// "Anthropometric Reference Data for Children and Adults: United States" (NCHS,
// Vital and Health Statistics, series 3). They only catch a unit left out, as 28 in
// a job in centimetres; who is smaller or larger says `unusual`.
var bodyMeasures = []bodyMeasure{
	{"waist_girth", "stands in for `waist` of every draft that has one", 400, 1650, round(Waist), false, "28"},
	{"hip_girth", "stands in for `hip`", 420, 1900, round(Hips), false, "38"},
	{"bust_girth", "stands in for `bust`", 430, 1750, round(Bust), false, "36"},
	{"neck_base_girth", "stands in for `neck`", 200, 650, round(NeckBase), false, "15"},
	{"waist_to_hips", "stands in for `hip_depth`", 60, 350, between(Waist, Hips), false, "8"},
	{"waist_height", "kept with the job", 400, 1450, between(Waist, Floor), false, "41"},
	{"underbust_girth", "stands in for `underbust`", 420, 1650, round(Underbust), false, "30"},
	{"upper_arm_girth", "stands in for `upper_arm` of sleeve", 120, 650, round(UpperArm), false, "11"},
	{"wrist_girth", "kept with the job", 90, 280, round(Wrist), false, "6 1/4"},
	{"hand_girth", "has to pass the hem of a sleeve; not checked without it", 100, 320, round(Hand), false, "8"},
	{"head_girth", "has to pass a neck that does not open; not checked without it", 400, 700, round(Head), false, "22"},
	{"shoulder_length", "stands in for `shoulder` of bodice-block", 50, 200, between(NeckPoint, ShoulderTip), false,
		"5"},
	{"back_neck_point_to_waist", "stands in for `back_length` of bodice-block", 180, 600, behind(Nape, Waist), false,
		"16"},
	{"over_bust_girth", "stands in for `over_bust`", 420, 1700, round(OverBust), true, "34"},
	{"high_hip_girth", "stands in for `high_hip`", 420, 1850, round(HighHip), true, "35"},
	{"waist_to_over_bust", "stands in for `over_bust_up`", 70, 400, between(Waist, OverBust), true, "9"},
	{"waist_to_bust", "stands in for `bust_up`", 40, 350, between(Waist, Bust), true, "6 1/2"},
	{"waist_to_underbust", "stands in for `underbust_up`", 20, 250, between(Waist, Underbust), true, "4"},
	{"waist_to_high_hip", "stands in for `high_hip_down`", 25, 220, between(Waist, HighHip), true, "4"},
	{"armhole_depth", "for bodice-block", 90, 400, behind(Nape, BustLine), true, "8"},
	{"back_width", "for bodice-block", 170, 650, behind(LeftArmhole, RightArmhole), true, "13 1/2"},
	{"chest_width", "for bodice-block", 160, 650, between(LeftArmhole, RightArmhole), true, "12 1/2"},
	{"shoulder_neck_to_bust", "stands in for `bust_depth` of bodice-block", 110, 500, between(NeckPoint, BustPoint),
		true, "10"},
	{"bust_span", "for bodice-block", 80, 400, between(BustPoint, OtherBustPoint), true, "7"},
}

// meaning says where the measure is taken and what for.
func (m bodyMeasure) meaning() string {
	meaning := m.taken.String() + "; " + m.use
	if m.own {
		return meaning + "; a name of our own"
	}
	return meaning
}

// unusualKey is the key by which a body says that measures are really so.
const unusualKey = "unusual"

// unusualHint tells what to do about a measure that people do not have.
const unusualHint = `give the unit, as in "28 in"; if it is really so, as a doll's is, say unusual = true under `

// ask refuses a measure, read under a key, that people do not have, unless the body
// says that it is really so.
func (t *table) ask(b Body, key, measured string, mm float64) {
	if b.unusual || mm == 0 {
		return
	}
	for _, m := range bodyMeasures {
		if m.name == measured && (mm < m.least || mm > m.most) {
			show := func(mm float64) string { return measure.Format(mm, t.Unit) }
			under := "[body]"
			if t.Called == calledRoom {
				under = "[[person]]"
			}
			t.Fail(t.Field(key).Value.At, unusualHint+under, "`%s` is %s: people measure %s to %s there",
				key, measure.Both(mm, t.Unit), show(m.least), show(m.most))
		}
	}
}

// IsMeasure says whether a body may give a measure of that name.
func IsMeasure(name string) bool {
	return slices.ContainsFunc(bodyMeasures, func(m bodyMeasure) bool { return m.name == name })
}

// MeasureNames are all that a body may give, in the order of the reference.
func MeasureNames() (names []string) {
	for _, m := range bodyMeasures {
		names = append(names, m.name)
	}
	return names
}
