package job

// Section is a table of the job file, or a draft of a part, for the reference.
type Section struct {
	Title   string // "[[cloth]]", or the name of a draft
	Draft   bool
	About   string
	Example string // of a draft: the keys of a part on one line
	Keys    []Key
}

// Reference lists every key that a job file may have.
func Reference() []Section {
	var lengths []Key
	for _, name := range bodyMeasures {
		lengths = append(lengths, Key{name, "length", "none", bodyMeanings[name]})
	}
	all := []Section{
		{Title: "the job", About: "before the first [table]", Keys: jobKeys},
		{Title: "[body]", About: "measures of the wearer, named as in ISO 8559-1", Keys: lengths},
		{Title: "[allowance]", About: "what is cut outside the finished lines", Keys: allowanceKeys},
		{Title: "[[cloth]]", About: "one for each cloth", Keys: clothKeys},
		{Title: "bolt = { ... }", About: "within [[cloth]]: whole bolts are sold too, and bought when that is cheaper", Keys: boltKeys},
		{Title: "[[part]]", About: "one for each part of the gown, with the keys of its draft", Keys: partKeys},
	}
	for _, d := range drafts {
		all = append(all, Section{d.name, true, d.about, d.example, d.keys})
	}
	return all
}

var bodyMeanings = map[string]string{
	"waist_girth":     "stands in for `waist` of circle-skirt, gored-skirt, waistband and net-layers",
	"hip_girth":       "stands in for `hip` of gored-skirt",
	"bust_girth":      "kept with the job",
	"neck_base_girth": "stands in for `neck` of cape",
	"waist_to_hips":   "stands in for `hip_depth` of gored-skirt",
	"waist_height":    "kept with the job",
}

var jobKeys = []Key{
	{"title", "text", "none", "heads the output"},
	{"unit", "in, ft, yd, mm, cm, m", "", "what a bare number means"},
	{"currency", "three capitals", "USD", "of all prices, as in ISO 4217"},
	{"gap", "length", "0", "clear distance kept between pieces"},
}

var allowanceKeys = []Key{
	{"seam", "length", "", "at seams and openings"},
	{"waist", "length", "as `seam`", "at the waist"},
	{"hem", "length", "", "at the hem"},
}

var clothKeys = []Key{
	{"id", "text", "", "what parts and files call it: small letters, digits, - and _"},
	{"title", "text", "the id", "what it is"},
	{"width", "length", "", "from edge to edge, selvedges included"},
	{"selvedge", "length", "0", "on each side, not laid on"},
	{"nap", "one-way, two-way, all-way", "one-way", "turns a piece may take: none; 180; 90, 180 and 270 degrees"},
	{"both_faces", "true or false", "false", "alike on both faces: any copy may be cut mirrored"},
	{"gap", "length", "the job's", "clear distance kept between pieces"},
	{"net", "true or false", "by its name", "net, tulle or organza: the fire caution is shown"},
	{"price", "amount/yd or amount/m", "none", "what the counter asks, such as \"13.50/yd\""},
	{"sold_by", "length", "1/8 yd or 0.1 m", "step the counter cuts by"},
	{"min_cut", "length", "0", "least length the counter cuts"},
	{"bolt", "table", "none", "`{ length = \"25 yd\", price = \"140.00\" }`"},
}

var boltKeys = []Key{
	{"length", "length", "", "of one bolt"},
	{"price", "amount", "", "of one bolt"},
}

var partKeys = []Key{
	{"name", "text", "", "what the cut list calls it"},
	{"draft", "name of a draft", "", "how it is drawn"},
	{"cloth", "id or list of ids", "", "what it is cut in: the outer cloth, then linings"},
	{"allowance", "table", "the job's", "`{ seam = ..., waist = ..., hem = ... }`, those that differ in this part"},
}
