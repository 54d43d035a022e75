package job

import "slices"

// Section is a table of the job file, or a draft of a part, for the reference.
type Section struct {
	Name    string // "cloth", or that of a draft
	Title   string // as it stands in the file: "[[cloth]]", "bolt = { ... }"; of a draft its name
	Within  string // what it stands in: "[[cloth]]"; "" for the file
	Draft   bool
	About   string
	Example string // of a draft: the keys of a part on one line
	Keys    []Key
}

// Describe says what it is about, and within what it stands.
func (s Section) Describe() string {
	if s.Within == "" {
		return s.About
	}
	return "within " + s.Within + ": " + s.About
}

// Reference lists every key that a job file may have.
func Reference() []Section {
	all := []Section{
		{Name: "job", Title: "the job", About: "before the first [table]", Keys: jobKeys},
		{Name: "body", Title: "[body]",
			About: "measures of the wearer, named as in ISO 8559-1 where nothing else is said", Keys: bodyKeys},
		{Name: "body", Title: "[[body]]",
			About: "instead of [body] where several wear it: one for each, with its measures as above; every part is " +
				"drafted for each, and its pieces bear its name", Keys: severalKeys},
		{Name: "allowance", Title: "[allowance]", About: "what is cut outside the finished lines", Keys: allowanceKeys},
		{Name: "cloth", Title: "[[cloth]]", About: "one for each cloth", Keys: clothKeys},
		{Name: "bolt", Title: "bolt = { ... }", Within: "[[cloth]]",
			About: "whole bolts are sold too, and bought when that is cheaper; a list `[ { ... }, { ... } ]` of " +
				"several sizes, half bolts and remnants among them. Lengths are not joined: each has a marker of its " +
				"own, which ends within it. Two remnants are two entries with `in_stock = 1`, and so is a roll with " +
				"a hole in it: the length before the hole and the one behind. What is narrower than the cloth and " +
				"yours already goes into `have`, with its `width`", Keys: boltKeys},
		{Name: "breaks", Title: "breaks = [ { ... } ]", Within: "[[cloth]]",
			About: "lower prices of longer cuts, each for the whole of a cut that is at least so long",
			Keys:  breakKeys},
		{Name: "offers", Title: "offers = [ { ... } ]", Within: "[[cloth]]",
			About: "what further suppliers ask; `quote` and `shop` take the cheapest in all, shipping and tax " +
				"included, and buy a cloth from one supplier so that it is of one dye lot. `lay` counts by the first " +
				"offer; `compare` shows cloth at that and weighs rows by the price of `quote`", Keys: offerKeys},
		{Name: "shrinkage", Title: "shrinkage = { ... }", Within: "[[cloth]]",
			About: "(after - before)/before in the first wash, as ISO 5077 has it: -3 % shrinks, +1 % grows",
			Keys:  shrinkageKeys},
		{Name: "repeat", Title: "repeat = { ... }", Within: "[[cloth]]",
			About: "after which length the pattern comes again", Keys: repeatKeys},
		{Name: "flaws", Title: "flaws = [ { ... } ]", Within: "[[cloth]] or one of `have`",
			About: "places that no piece may cover, from the cut end and from the lower edge, selvedge included",
			Keys:  flawKeys},
		{Name: "have", Title: "have = [ { ... } ]", Within: "[[cloth]]",
			About: "lengths of this cloth that lie on the shelf", Keys: haveKeys},
		{Name: "part", Title: "[[part]]", About: "one for each part of the gown, with the keys of its draft",
			Keys: partKeys},
		{Name: "pieced", Title: "pieced = { ... }", Within: "[[part]]",
			About: "corners that are pieced, as cutters of wide skirts do where the cloth is too narrow or a corner " +
				"costs a length of it", Keys: piecedKeys},
		{Name: "lining", Title: "lining = { ... }", Within: "[[part]], and `interlining`, `underlining` and `overlay` " +
			"likewise",
			About: "a layer of its own", Keys: innerKeys},
		{Name: "closings", Title: "closings = [ { ... } ]", Within: "[[part]]",
			About: "what closes its openings: where eyelets, loops and hooks go is marked on the pieces, and how many " +
				"there are stands with the cut list and in the sewing order", Keys: closingKeys},
		{Name: "facings", Title: "facings = [ { ... } ]", Within: "[[part]]",
			About: "edges that are faced: a facing has the shape of the pieces there and is sewn to the edge and turned " +
				"inside. Its seams lie on theirs, and its grain is that of the part", Keys: facingKeys},
	}
	all = append(all,
		Section{Name: "match", Title: "[[match]]",
			About: "one for each seam at which the pattern of a cloth has to meet", Keys: matchKeys},
		Section{Name: "points", Title: "points = [ { ... }, { ... } ]", Within: "[[match]]",
			About: "places that agree but for whole repeats, on the seam lines", Keys: pointKeys})
	all = append(all, quoteSections()...)
	for _, d := range drafts {
		about := d.about
		if grain := d.aboutGrain(); grain != "" {
			about += ". " + grain
		}
		all = append(all, Section{Name: d.name, Title: d.name, Draft: true, About: about, Example: d.example,
			Keys: d.keys})
	}
	return all
}

// fileKeys are those of the whole file, its tables among them.
var fileKeys = slices.Concat(jobKeys, []Key{
	{"body", tableKind(bodyKeys...), "none", "measures"},
	{"allowance", tableKind(allowanceKeys...), "", "cut outside the finished lines"},
	{"labour", tableKind(labourKeys...), "none", "the maker's time"},
	{"quote", tableKind(quoteKeys...), "none", "how a price is made"},
	{"cloth", tableKind(clothKeys...).lists(), "", "what it is cut in"},
	{"part", tableKind(partKeys...).lists(), "", "what is cut"},
	{"match", tableKind(matchKeys...).lists(), "none", "where the pattern meets"},
	{"supplier", tableKind(supplierKeys...).lists(), "none", "where things are bought"},
	{"notion", tableKind(notionKeys...).lists(), "none", "what else is bought"},
})

// bodyKeys are the measures that a body may give.
var bodyKeys = func() (keys []Key) {
	for _, m := range bodyMeasures {
		keys = append(keys, Key{m.name, length.taken(m.taken).like(`"` + m.example + `"`), "none", m.meaning()})
	}
	return append(keys,
		Key{fromKey, nameOf(OfRoomPerson).like(`"mara"`), "none",
			"somebody in `workroom.toml` beside the job: her measures as they were taken last. Measures that the body " +
				"gives win"},
		Key{standardKey, oneOf(standardSizes()...), "none",
			"a size to begin with: EN 13402-3 for women, by the bust in centimetres, or what pattern makers of the " +
				"United States agreed on (both from memory). Measures that the body gives win. What is cut from " +
				"measures that nobody took says so"},
		Key{estimateKey, truth, "false",
			"what is missing is reckoned from bust and back length, as size tables have it on the average; what is " +
				"cut by it says so. Measure before you cut"},
		Key{unusualKey, truth, "false",
			"measures that people do not have, as of a doll or a giant, are meant so; else they are taken for a " +
				"slip, such as inches in a job in centimetres"})
}()

// eachBodyKeys are those of one of several bodies.
var eachBodyKeys = slices.Concat(bodyKeys, severalKeys)

var jobKeys = []Key{
	{"title", text.like(`"Lantern Court gown"`), "none", "heads the output"},
	{"unit", oneOf("in", "ft", "yd", "mm", "cm", "m"), "", "what a bare number means"},
	{"currency", Kind{Form: Currency}.like(`"EUR"`), "USD", "of all prices, as in ISO 4217"},
	{"gap", lengthOr0, "0", "clear distance kept between pieces"},
	{"rates", text.like(`"rates.toml"`), "none",
		"a file beside the job with [labour], [quote], [[supplier]] and [[notion]] that jobs share, such as " +
			"\"rates.toml\", instead of those of the `workroom.toml` beside it; what the job says itself wins, and of a " +
			"notion it gives what the job's of that name " +
			"lacks. It may have a `unit` and a `currency` of its own"},
}

var allowanceKeys = []Key{
	{"seam", lengthOr0, "", "at seams and openings"},
	{"waist", lengthOr0, "as `seam`", "at the waist"},
	{"hem", lengthOr0, "", "at the hem"},
}

var clothKeys = []Key{
	{"id", text.like(`"satin"`), "", "what parts and files call it: small letters, digits, - and _"},
	{fromKey, nameOf(OfRoomCloth).like(`"moon-satin"`), "none",
		"a cloth in `workroom.toml` beside the job: all that stands there counts, and keys beside this win; what is " +
			"left of it on the shelf is cut first"},
	{"title", text.like(`"bridal satin"`), "the id", "what it is"},
	{"width", length.listed(), "",
		"from edge to edge, selvedges included; of several measured along the bolt the smallest counts"},
	{"selvedge", lengthOr0, "0", "on each side, not laid on"},
	{"nap", oneOf("one-way", "two-way", "all-way"), "one-way",
		"which ways along the grain pieces may point: one, or both; with all-way, parts whose grain is free may lie " +
			"across too"},
	{"lay", oneOf("open", "lengthwise-fold", "crosswise-fold", "double-fold"), "open",
		"how it is spread: single, selvedge to selvedge, end to end, or both selvedges to the middle"},
	{"upper_turned", truth, "false",
		"with crosswise-fold: cut along the fold and turn the upper layer, so that a nap runs one way"},
	{"both_faces", truth, "false", "alike on both faces: any copy may be cut mirrored"},
	{"gap", lengthOr0, "the job's", "clear distance kept between pieces"},
	{"ends", lengthOr0, "0", "allowed at each end of each lay"},
	{"skew", lengthOr0, "0", "how far the cut end runs off square over the width; lost once"},
	{"shrinkage", tableKind(shrinkageKeys...), "none", "`{ warp = \"-3 %\", weft = \"-2 %\", by = \"prewash\" }`"},
	{"spare", percent(0, 1).like(`"5 %"`), "0 %",
		"a share of the whole need, such as \"5 %\", bought on top; for pieces cut from the shelf (`have`) it is " +
			"bought too"},
	{"repeat", tableKind(repeatKeys...), "none", "`{ along = \"12.6\", across = \"4\" }`"},
	{"flaws", tableKind(flawKeys...).lists(), "none",
		"`[ { from = \"12\", to = \"14\", low = \"3\", high = \"5\" } ]`"},
	{"have", tableKind(haveKeys...).lists(), "none", "`[ { name = \"remnant\", length = \"40\", width = \"30\" } ]`"},
	{"lots", oneOf("bought", "all", "none"), "bought",
		"which lengths are of one dye lot: those bought at once, leftovers too, or no two. A garment is not cut from " +
			"two lots, see `keep` of a part"},
	{"net", truth, "by its name", "net, tulle or organza: the fire caution is shown"},
	{"price", priceByTape.like(`"13.50/yd"`), "none", "what the counter asks, such as \"13.50/yd\""},
	{"priced", day.like(dateExample), "none", "the day on which that was asked; a price that is old is told"},
	{"sold_by", stepByTape, "1/8 yd or 0.1 m",
		"step the counter cuts by; a bare number counts in the unit of the price"},
	{"min_cut", lengthOr0, "0", "least length the counter cuts"},
	{"bolt", tableKind(boltKeys...).listed(), "none", "`{ length = \"25 yd\", price = \"140.00\" }`"},
	{"whole_bolts", truth, "false", "nothing is cut, of no offer: whole bolts only"},
	{"breaks", tableKind(breakKeys...).lists(), "none", "`[ { from = \"10 yd\", price = \"12.00/yd\" } ]`"},
	{"supplier", nameOf("supplier").like(`"mill"`), "none",
		"who asks this price; without one nothing is shipped and the price is final"},
	{"offers", tableKind(offerKeys...).lists(), "none", "`[ { supplier = \"mill\", price = \"11.80/yd\" } ]`"},
}

var boltKeys = []Key{
	{"length", length, "", "of one bolt"},
	{"price", amount.like(`"140.00"`), "", "of one bolt"},
	{"in_stock", count(1, mostInStock), "as many as wanted", "how many there are: 1 for a remnant sold cheaply"},
}

var shrinkageKeys = []Key{
	{"warp", percent(leastChange, mostChange).like(`"-3 %"`), "0 %",
		"along the cloth, in quotes and with its sign: \"-3 %\""},
	{"weft", percent(leastChange, mostChange).like(`"-2 %"`), "0 %", "across it; one of the two has to be given"},
	{"by", oneOf("pieces", "prewash"), "",
		"`prewash`: the cloth is washed before cutting; `pieces`: the pieces are drawn larger. Never both"},
}

var repeatKeys = []Key{
	{"along", lengthOr0, "0", "along the cloth; 0: none"},
	{"across", lengthOr0, "0", "across it; one of the two has to be given"},
}

var flawKeys = []Key{
	{"from", lengthOr0, "this or `outline`", "where it begins along the cloth"},
	{"to", lengthOr0, "this or `outline`", "where it ends along the cloth"},
	{"low", lengthOr0, "0", "its lower side across the cloth"},
	{"high", lengthOr0, "the width", "its upper side across the cloth"},
	{"outline", Kind{Form: Points, Listed: List}, "none",
		"instead of the four: `[[\"12\",\"3\"],[\"14\",\"3\"],[\"13\",\"5\"]]`, along and across"},
}

var haveKeys = []Key{
	{"name", text.like(`"remnant"`), "leftover and its number", "what the plan calls it"},
	{"length", length, "", "along the warp; a hard limit"},
	{"width", length, "the cloth's", "from edge to edge; as much as the cloth's selvedge is left free on each side"},
	{"flaws", tableKind(flawKeys...).lists(), "none", "as of the cloth"},
}

var matchKeys = []Key{
	{"name", text.like(`"side seams"`), "", "what messages call it"},
	{"cloth", nameOf("cloth"), "", "a cloth with a repeat"},
	{"points", tableKind(pointKeys...).lists(), "", "two or more places"},
}

var pointKeys = []Key{
	{"piece", Kind{Form: Text, Of: "piece"}.like(`"skirt side gore"`), "",
		"part and piece as in the cut list, such as `skirt side gore`"},
	{"edge", text.like(`"left seam"`), "", "of that piece, such as `left seam`"},
	{"at", lengthOr0, "", "how far along the edge, on the seam line"},
	{"from", oneOf("start", "end"), "start", "end of the edge that `at` is measured from; edges run counter-clockwise"},
}

var severalKeys = []Key{
	{"name", text.atMost(longestBody).like(`"alto"`), "", "what its pieces are labelled with"},
	{"count", count(1, mostTimes), "1", "how many wear these measures"},
}

var innerKeys = []Key{
	{"cloth", nameOf("cloth"), "", "what it is cut in"},
	{"allowance", tableKind(allowanceKeys...), "the part's", "those that differ in this layer"},
	{"shorter", lengthOr0, "lining as `lining_shorter`, the others 0",
		"how much shorter at the hem; of drafts that have one"},
	{"grain", oneOf("lengthwise", "cross", "either", "bias"), "the part's", "which way of the cloth its grain follows"},
	{"front_on_fold", truth, "the part's", "centre front cut in one; of circle-skirt"},
	{"back_on_fold", truth, "the part's", "centre back on a fold; of cape and overskirt"},
	{"on_fold", truth, "the part's", "the other centre on a fold; of peplum"},
	{"ease_pleat", lengthOr0, "0", "depth of a pleat at centre back, so that the lining gives; of bodices and corsets"},
}

var piecedKeys = []Key{
	{"within", length.orWord(ChosenLength), "chosen, where no figure of `length` is given; else the usable width",
		"no part is cut wider across the grain, allowances included. Chosen it is the usable width of the cloth, or " +
			"narrower where less is bought then"},
	{"length", length.orWord(ChosenLength), "as it is",
		"no part is cut longer along the grain: what is longer is cut across it, as far below the waist as may be. " +
			"Chosen it is as it is, or as long as a bolt, or shorter where less is bought then"},
	{"most", count(1, 2), "2", "corners of a piece at the most, and cuts across its grain"},
	{"from_waist", lengthOr0, "12 in", "how far from a waist or upper edge piecing seams stay"},
	{"centre_front", truth, "false", "they may cut off a centre front, or what lies on a fold, too"},
	{"seam", lengthOr0, "the part's", "allowance on either side of a piecing seam"},
}

var partKeys = []Key{
	{"name", text.atMost(longestName).like(`"skirt"`), "", "what the cut list calls it"},
	{"draft", nameOf("draft").like(`"circle-skirt"`), "", "how it is drawn"},
	{"cloth", nameOf("cloth").listed(), "", "what it is cut in: the outer cloth, then linings"},
	{"times", count(1, mostTimes), "1", "how many times all its pieces are cut for one gown"},
	{"grain", oneOf("lengthwise", "cross", "either", "bias"), "lengthwise; free where the draft says so",
		"which way of the cloth its grain follows, whatever the nap; bias is 45 degrees. Left and right of a pair " +
			"lie on the same grain; with `either`, where leftovers or bolts may part them, lengthwise if they fit"},
	{"keep", oneOf("garment", "gown", "pair", "piece"), "as `lots` says",
		"what is cut from one length of cloth: the part of one wearer, with all parts of her gown that say `gown`, " +
			"left and right, or just each piece. Without it a garment keeps together between lots that may differ"},
	{"tilt", ratio(0, mostTilt), "0", "degrees, to 10, that its pieces may lie off the grain either way"},
	{"pieced", tableKind(piecedKeys...), "none",
		"`{ within = \"54\" }`: pieces that are wider at the hem than this have their corners cut off along the grain " +
			"and sewn on again, `{ length = \"40\" }`: longer ones are cut across it; `{}` has it chosen, on the width " +
			"of the cloth or further in"},
	{"allowance", tableKind(allowanceKeys...), "the job's",
		"`{ seam = ..., waist = ..., hem = ... }`, those that differ in this part"},
	{"lining", tableKind(innerKeys...), "none",
		"`{ cloth = \"acetate\", shorter = \"1\", allowance = { seam = \"5/8\" } }`: a further layer with what " +
			"differs in it"},
	{"interlining", tableKind(innerKeys...), "none", "the same between outer cloth and lining"},
	{"underlining", tableKind(innerKeys...), "none",
		"the same under each piece of the outer cloth, as coutil under satin: basted to it, and sewn and turned up " +
			"as one with it"},
	{"overlay", tableKind(innerKeys...), "none",
		"the same over each piece of the outer cloth, as lace over satin: basted to it and sewn as one with it, but " +
			"for the hem, which hangs free; an edge that needs no hem has `allowance = { hem = 0 }`"},
	{"hem_corners", oneOf("mirrored", "straight"), "`mirrored`",
		"how the allowance of a hem is cut at the seams: as their mirror image, so that it lies edge on edge when it " +
			"is turned up, or straight on"},
	{"bag_hem", lengthOr0, "hems are turned up",
		"the hems of all layers are sewn together, right sides facing, and turned: all take the seam allowance, and " +
			"the lining is so much shorter, 1/8 in say, that the seam rolls to the inside"},
	{"jump_hem", truth, "false",
		"of all that has a hem: the lining is as long as the outer cloth and sewn to the raw edge of its hem, which is " +
			"turned up: what is over " +
			"hangs in a fold, half the hem's allowance above the hem, so that the lining gives"},
	{"facings", tableKind(facingKeys...).lists(), "none",
		"`[ { at = \"neck\", width = \"2\", interfacing = \"fusible\" } ]`"},
	{"closings", tableKind(closingKeys...).lists(), "none",
		"`[ { by = \"lacing\", spacing = \"1\", panel = \"4\" } ]`"},
	{"edgings", tableKind(edgingKeys...).lists(), "none",
		"`[ { at = \"hem\", width = \"2\" } ]`: lace along straight edges of the outer cloth"},
	{"sewn_to", nameOf("part").like(`"bodice"`), "none",
		"what it is sewn to at the waist, or at the neck, as a hood to a cape: `draft --seams` then lists that seam " +
			"with both lengths, and `lay` says where they do not agree. Layers of net are sewn to a `circle-skirt` " +
			"or a `gored-skirt` along lines that are marked on it by name, pinned at its seams where some are near, " +
			"and left open where they cross its opening"},
	{"bodies", nameOf("body").listed(), "all", "which of several bodies it is for"},
}
