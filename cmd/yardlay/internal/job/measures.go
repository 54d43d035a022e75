package job

// bodyMeasure is a measure that a body may give.
type bodyMeasure struct {
	name    string
	meaning string
}

// bodyMeasures are the measures a body may give. The first are named as in ISO
// 8559-1:2017, those from underbust_girth on after it from memory; the standard
// measures heights from the ground, so the way from the waist to a level, and what
// it has no name for, are our own.
var bodyMeasures = []bodyMeasure{
	{"waist_girth", "stands in for `waist` of every draft that has one"},
	{"hip_girth", "stands in for `hip`"},
	{"bust_girth", "stands in for `bust`"},
	{"neck_base_girth", "stands in for `neck`"},
	{"waist_to_hips", "stands in for `hip_depth`"},
	{"waist_height", "kept with the job"},
	{"underbust_girth", "stands in for `underbust`"},
	{"upper_arm_girth", "stands in for `upper_arm` of sleeve"},
	{"wrist_girth", "kept with the job"},
	{"shoulder_length", "stands in for `shoulder` of bodice-block"},
	{"back_neck_point_to_waist", "stands in for `back_length` of bodice-block"},
	{"over_bust_girth", ours + "over the bust, under the arms; stands in for `over_bust`"},
	{"high_hip_girth", ours + "over the hip bones; stands in for `high_hip`"},
	{"waist_to_over_bust", ours + "upwards; stands in for `over_bust_up`"},
	{"waist_to_bust", ours + "upwards; stands in for `bust_up`"},
	{"waist_to_underbust", ours + "upwards; stands in for `underbust_up`"},
	{"waist_to_high_hip", ours + "downwards; stands in for `high_hip_down`"},
	{"armhole_depth", ours + "from the nape down to the bust line; of bodice-block"},
	{"back_width", ours + "between the armholes; of bodice-block"},
	{"chest_width", ours + "between the armholes; of bodice-block"},
	{"shoulder_neck_to_bust", ours + "from the neck point of the shoulder; stands in for `bust_depth` of bodice-block"},
	{"bust_span", ours + "from bust point to bust point; of bodice-block"},
}

// ours marks a measure that the standard does not name so.
const ours = "(a name of our own) "
