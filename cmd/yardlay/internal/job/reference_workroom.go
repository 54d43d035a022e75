package job

import "slices"

// WorkroomReference lists every key of the book of a workroom, but those that stand in a
// job as well.
func WorkroomReference() []Section {
	return []Section{
		{Name: "workroom", Title: WorkroomFile, About: "before the first [table]", Keys: roomOwnKeys},
		{Name: "cloth", Title: "[[cloth]]",
			About: "one for each cloth that jobs are cut in, with the keys of a job's [[cloth]] but `have` and `from`: a " +
				"job takes it by `from`"},
		{Name: "person", Title: "[[person]]", About: "somebody who is sewn for; a job takes her by `from` of its body. " +
			"Measures stay in the room: what leaves it, drawings and quotes, does not show them", Keys: personKeys[:2]},
		{Name: "measured", Title: "[[person.measured]]", Within: "[[person]]",
			About: "what was taken on one day, named as in [body] of a job; of each measure the last one counts",
			Keys:  measuredKeys[:1]},
		{Name: "leftover", Title: "[[leftover]]", About: "one for each length or scrap that lies on the shelf",
			Keys: leftoverKeys},
		{Name: "gown", Title: "[[gown]]", About: "a job in the book", Keys: gownKeys},
		{Name: "paid", Title: "paid = [ { ... } ]", Within: "[[gown]]", About: "what was paid so far", Keys: paidKeys},
		{Name: "cut", Title: "[gown.cut]", Within: "[[gown]]", About: "that its cloth was cut", Keys: cutKeys},
		{Name: "cloths", Title: "cloths = [ { ... } ]", Within: "[gown.cut]", About: "from what", Keys: clothCutKeys},
		{Name: "took", Title: "[gown.took]", Within: "[[gown]]", About: "what it took, beside what was planned",
			Keys: tookKeys},
		{Name: "cloths", Title: "cloths = [ { ... } ]", Within: "[gown.took]", About: "of each cloth",
			Keys: clothTookKeys},
	}
}

// roomKeys are those of the whole book, its tables among them.
var roomKeys = slices.Concat(roomOwnKeys, []Key{
	{"labour", tableKind(labourKeys...), "none", "the maker's time"},
	{"quote", tableKind(quoteKeys...), "none", "how a price is made"},
	{"supplier", tableKind(supplierKeys...).lists(), "none", "where things are bought"},
	{"notion", tableKind(notionKeys...).lists(), "none", "what else is bought"},
	{"cloth", tableKind(roomClothKeys...).lists(), "none", "what is cut"},
	{"person", tableKind(personKeys...).lists(), "none", "who is sewn for"},
	{"leftover", tableKind(leftoverKeys...).lists(), "none", "what lies on the shelf"},
	{"gown", tableKind(gownKeys...).lists(), "none", "jobs and what became of them"},
})

var roomOwnKeys = []Key{
	{"unit", oneOf("in", "ft", "yd", "mm", "cm", "m"), "", "what a bare number means"},
	{"currency", Kind{Form: Currency}.like(`"EUR"`), "USD", "of all prices, as in ISO 4217; jobs beside it count in it"},
	{"prices_hold", count(1, 3650), "180", "days; an older price of a cloth is told"},
}

// roomClothKeys are those of a cloth in the book: no leftovers, which stand on the shelf.
var roomClothKeys = slices.DeleteFunc(slices.Clone(clothKeys), func(k Key) bool {
	return k.Name == "have" || k.Name == fromKey
})

var personKeys = []Key{
	{"name", text.atMost(longestBody).like(`"mara"`), "", "what jobs call her"},
	{unusualKey, truth, "false", "measures that people do not have are meant so"},
	{"measured", tableKind(measuredKeys...).lists(), "none", "what was taken on one day"},
}

// measuredKeys are the day and the measures of a body.
var measuredKeys = func() []Key {
	keys := []Key{{"on", day.like(dateExample), "", "the day"}}
	for _, m := range bodyMeasures {
		keys = append(keys, Key{m.name, length.taken(m.taken).like(`"` + m.example + `"`), "none", m.meaning()})
	}
	return keys
}()

var leftoverKeys = []Key{
	{"name", text.atMost(longestName).like(`"moon-satin 7"`), "", "what is written on it; no two are called alike"},
	{"cloth", nameOf("cloth").like(`"moon-satin"`), "", "which cloth it is"},
	{"lot", text.atMost(longestName).like(`"B"`), "none", "dye lot"},
	{"length", length, "this or `outline`", "along the warp; a hard limit"},
	{"width", length, "the cloth's", "from edge to edge; as much as the cloth's selvedge is left free on each side"},
	{"outline", Kind{Form: Points, Listed: List}, "none",
		"what is no rectangle: corners in millimetres, whatever the unit, along the grain in the direction of the nap " +
			"and across it from the lower selvedge side: `[[0,0],[900,0],[900,400]]`"},
	{"flaws", tableKind(flawKeys...).lists(), "none", "as of a leftover in a job"},
	{fromKey, text.like(`"lantern.toml"`), "none", "the job that it was left from"},
	{"on", day.like(dateExample), "none", "when"},
	{"promised", text.like(`"pier.toml"`), "none", "the job that is to be cut from it; others leave it alone"},
	{"used", text.like(`"pier.toml"`), "none", "the job that was cut from it: it is on the shelf no more"},
	{"washed", truth, "false", "it has been washed: its measures are those of washed cloth"},
}

var gownKeys = []Key{
	{"job", text.like(`"lantern.toml"`), "", "the name of its file, beside the book"},
	{"ordered", day.like(dateExample), "none", "when it was ordered"},
	{"deliver", day.like(dateExample), "none", "when it has to be ready"},
	{"fittings", Kind{Form: Day, Listed: List}.like("[" + dateExample + "]"), "none", "days of fittings"},
	{"price", amount.like(`"840.00"`), "none", "as agreed"},
	{"deposit", amount.like(`"400.00"`), "none", "due first, as agreed"},
	{"paid", tableKind(paidKeys...).lists(), "none", "`[ { on = " + dateExample + ", amount = \"400.00\" } ]`"},
	{"cut", tableKind(cutKeys...), "none", "that its cloth was cut"},
	{"took", tableKind(tookKeys...), "none", "what it took"},
}

var paidKeys = []Key{
	{"on", day.like(dateExample), "", "the day"},
	{"amount", amount.like(`"400.00"`), "", "what was paid"},
}

var cutKeys = []Key{
	{"on", day.like(dateExample), "", "the day"},
	{"before", text.like(`"2f0c6f3f0f1c9a77"`), "none", "a mark of the book before, for `yardlay cut --undo`"},
	{"cloths", tableKind(clothCutKeys...).lists(), "none", "what it was cut from"},
}

var clothCutKeys = []Key{
	{"cloth", text.like(`"moon-satin"`), "", "its id"},
	{"length", lengthOr0, "0", "bought for it"},
	{"lot", text.atMost(longestName).like(`"B"`), "none", "dye lot of that"},
	{"used", text.lists().like(`["moon-satin 3"]`), "none", "leftovers that it was cut from, by their names"},
	{"left", text.lists().like(`["moon-satin 7"]`), "none", "what it left on the shelf, by the names"},
}

var tookKeys = []Key{
	{"on", day.like(dateExample), "", "the day on which that was told"},
	{"hours", number.like("21"), "0", "of work"},
	{"planned_hours", number.like("18.5"), "0", "as the quote had them"},
	{"cloths", tableKind(clothTookKeys...).lists(), "none", "of each cloth"},
}

var clothTookKeys = []Key{
	{"cloth", text.like(`"moon-satin"`), "", "its id"},
	{"planned", lengthOr0, "0", "length to buy, as laid"},
	{"length", lengthOr0, "0", "as bought"},
	{"price", priceByTape.like(`"13.90/yd"`), "none", "as paid"},
}
