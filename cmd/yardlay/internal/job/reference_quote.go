package job

// quoteSections are the tables that a quote is made of besides the cloths.
func quoteSections() []Section {
	return []Section{
		{Name: "supplier", Title: "[[supplier]]", About: "one for each place that cloth or notions are ordered from",
			Keys: supplierKeys},
		{Name: "notion", Title: "[[notion]]",
			About: "one for each thing to buy besides cloth. What a gown needs is a count, a length, or follows from " +
				"the drafts", Keys: notionKeys},
		{Name: "labour", Title: "[labour]",
			About: "the maker's time for one gown: the hours, or her own rates, by which they follow from the drafts " +
				"and are rounded up to the quarter hour. No standard is pretended", Keys: labourKeys},
		{Name: "quote", Title: "[quote]", About: "how a price is made of the cost, and what the printed page says",
			Keys: quoteKeys},
	}
}

var breakKeys = []Key{
	{"from", length, "", "the shortest cut at this price"},
	{"price", priceByTape.like(`"12.00/yd"`), "", "by the same length as the price of shorter cuts, and lower"},
}

var offerKeys = []Key{
	{"supplier", nameOf("supplier").like(`"mill"`), "", "who asks it"},
	{"price", priceByTape.like(`"13.50/yd"`), "this or `bolt`", "as of the cloth"},
	{"priced", day.like(dateExample), "none", "as of the cloth"},
	{"sold_by", stepByTape, "1/8 yd or 0.1 m", "as of the cloth"},
	{"min_cut", lengthOr0, "0", "as of the cloth"},
	{"breaks", tableKind(breakKeys...).lists(), "none", "as of the cloth"},
	{"bolt", tableKind(boltKeys...).listed(), "none", "as of the cloth"},
}

var supplierKeys = []Key{
	{"name", text.atMost(longestName).like(`"mill"`), "", "what offers and the shopping list call it"},
	{"shipping", amount.like(`"8.50"`), "0", "of one order, whatever is in it, tax included"},
	{"free_from", amount.like(`"150.00"`), "never", "sum of goods, before tax, from which shipping is free"},
	{"tax", percentage.like(`"8.25 %"`), "0 %", "added to the price of all goods, worked out and rounded line by line"},
}

var notionKeys = []Key{
	{"name", text.atMost(longestName).like(`"zip"`), "", "what the quote and the shopping list call it"},
	{"count", count(1, mostCount), "one of these three", "so many to a gown"},
	{"length", length, "one of these three", "so much to a gown"},
	{"by", oneOf("opening", "edge", "channel", "seam", "piece", "eyelet", "button", "hook",
		"busk", "casing", "tape", "hoop", "comb", "edging"), "one of these three",
		"one for each opening or boning channel, as long as it is (of a part with `closings` each zip), or for each " +
			"busk or hoop; the length of some edges; the length of the seams; one for each piece that is cut; one for each " +
			"eyelet, button, hook and eye of `closings`, for each comb of a veil; the length of the lace of `edgings`, or of " +
			"tape that cases " +
			"all bones, or goes round the waist and over hoops"},
	{"edges", text.listed().like(`["hem"]`), "with `edge`, required",
		"kinds of edge (seam, waist, hem, opening, top) or names of edges. With `seam` it says which edges are sewn, " +
			"in place of all seams"},
	{"parts", nameOf("part").listed().like(`["skirt"]`), "all", "parts of the job that it follows from"},
	{"cloths", nameOf("cloth").listed().like(`["satin"]`), "all",
		"cloths that it follows from; of openings and channels the first cloth of each part, of edges none of " +
			"interfacing"},
	{"closed", length, "the whole opening",
		"with `opening`: how far an opening is closed, where it is longer; its edges are notched where that stops"},
	{"per_metre", number.like("12"), "with `seam`, required",
		"metres of thread to a metre of seam, by your own stitch and machine"},
	{"price", Kind{Form: Amount, Of: "/each, /pack, /yd or /m"}.like(`"0.35/each"`), "one of these three",
		"such as \"0.35/each\""},
	{"pack", count(1, mostCount), "with /pack, required", "how many are in a pack"},
	{"sold_by", stepByTape, "1/8 yd or 0.1 m", "step of the counter, for lengths that it cuts"},
	{"min_cut", lengthOr0, "0", "least length the counter cuts"},
	{"reel", tableKind(boltKeys[:2]...), "one of these three",
		"wound up and sold whole: `{ length = \"1000 m\", price = \"4.20\" }`"},
	{"sizes", tableKind(boltKeys[:2]...).lists(), "one of these three",
		"`[ { length = \"9\", price = \"2.10\" } ]`: for openings, each takes the shortest that is long enough, and " +
			"for channels, each takes the longest that goes in"},
	{"spare", count(0, mostCount).or(percentage).like(`"10 %"`), "0",
		"on top: a share of a length, or so many more, of each size where there are sizes. First the spare is added " +
			"to all that is needed, then `have` is taken off"},
	{"have", count(0, mostCount).or(lengthOr0), "0",
		"on the shelf already, in all; not bought, and counted as `owned` of [quote] says"},
	{"supplier", nameOf("supplier").like(`"mill"`), "none", "who asks this price"},
}

var labourKeys = []Key{
	{"rate", Kind{Form: Amount, Of: "/h"}.like(`"24.00/h"`), "with hours, required",
		"what an hour costs, such as \"24.00/h\""},
	{"hours", number.like("22.5"), "0", "of making; instead of rates"},
	{"seam", minutesByTape, "0",
		"such as \"6 min/m\"; seams are half of all edges of the kinds seam, waist and opening, and edges sewn onto " +
			"something else"},
	{"hem", minutesByTape, "0", "of hem"},
	{"gathered", minutesByTape, "0", "of edge that is gathered, measured flat"},
	{"piece", Kind{Form: Minutes}.like(`"4 min"`), "0", "for each piece that is cut, such as \"4 min\""},
	{"fittings", count(0, mostFittings), "0", "how many"},
	{"fitting_hours", number.like("0.75"), "1", "of each"},
}

var quoteKeys = []Key{
	{"overhead", percentage.like(`"15 %"`), "0 %", "of materials and labour"},
	{"markup", percentage.like(`"20 %"`), "at most one of these three", "price = cost x (1 + markup)"},
	{"margin", percentage.like(`"20 %"`), "at most one of these three",
		"price = cost / (1 - margin): a share of the price, so less than 100 %"},
	{"doubled", truth, "at most one of these three", "the cost is the wholesale price, doubled for retail"},
	{"tax", percentage.like(`"8.25 %"`), "0 %", "on the price"},
	{"deposit", percentage.like(`"50 %"`), "0 %", "of the total, due first"},
	{"round_to", amount.like(`"5.00"`), "none",
		"step that the final figure of each gown is rounded to, such as \"5.00\""},
	{"round", oneOf("nearest", "up"), "nearest", "a half goes up"},
	{"rounded", oneOf("price", "total"), "price", "whether it is the price before tax or the total that is rounded"},
	{"owned", oneOf("replacement", "zero"), "replacement",
		"what cloth and notions from the shelf are counted at: what buying them again would cost, or nothing"},
	{"maker", text.atMost(longestNote).like(`"Moth Lane Sewing Room"`), "none", "who quotes; on the printed page"},
	{"client", text.atMost(longestNote).like(`"the Lantern Court players"`), "none", "whom it is for"},
	{"date", text.atMost(longestNote).like(`"3 May"`), "none", "when it was made"},
	{"valid", text.atMost(longestNote).like(`"for 30 days"`), "none", "how long it holds, such as \"for 30 days\""},
	{"note", text.atMost(longestNote).like(`"two fittings included"`), "none", "what else the page says"},
}
