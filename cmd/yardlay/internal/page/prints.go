package page

import "slices"

// printWay is a way to print, with its choices.
type printWay struct {
	ID, Title, About string
	Sets             []string // options that ask for it
	Choices          []choice
	Pieces           bool // it can be of some cloths alone
	Laid             bool // it shows the markers, which take as long as they are searched for
}

// choice is an option of a way that somebody can choose.
type choice struct {
	Option, Label string
	Values        []value // to choose from; none: it is typed, or ticked
	Tick          bool
	Usual         string // what stands in it
	Note          string
}

type value struct{ Value, Label string }

// slot is the id of the place where what is wrong with an option is said; that of the whole
// way where it has no such choice.
func (w printWay) slot(option string) string {
	if option == "date" { // of all ways
		return "wrong-date"
	}
	if slices.ContainsFunc(w.Choices, func(c choice) bool { return c.Option == option }) {
		return "wrong-" + w.ID + "-" + option
	}
	return "wrong-" + w.ID
}

// slots are those of all choices.
func (w printWay) slots() []string {
	all := []string{w.slot(""), w.slot("date")}
	for _, c := range w.Choices {
		all = append(all, w.slot(c.Option))
	}
	return all
}

// Slot is slot for the template.
func (w printWay) Slot(option string) string { return w.slot(option) }

// printWays lists the ways to print, for a job in metric units or in inches.
func printWays(metric bool) []printWay {
	usual := func(in, mm string) string {
		if metric {
			return mm
		}
		return in
	}
	every := choice{Option: "every-copy", Label: "Every copy, not each piece once", Tick: true}
	markers := choice{Option: "markers", Label: "The markers as laid, not the pieces", Tick: true}
	halves := choice{Option: "halves", Label: "Leave pieces on a fold as halves", Tick: true}
	noWords := choice{Option: "no-words", Label: "Leave out names and signs", Tick: true}
	return []printWay{
		{ID: "sheets", Title: "Sheets to tape together", Pieces: true,
			About: "The pieces at full size for an office printer. Print at 100 % and measure the test square.",
			Choices: []choice{
				{Option: "sheets", Label: "Paper", Usual: usual("letter", "a4"), Values: []value{{"a4", "A4"}, {"a3", "A3"},
					{"letter", "Letter"}, {"tabloid", "Tabloid"}, {"ledger", "Ledger"}}},
				{Option: "landscape", Label: "On its long side", Tick: true},
				{Option: "margin", Label: "Edge that the printer does not reach", Usual: "10 mm"},
				{Option: "overlap", Label: "Overlap of neighbours", Usual: "10 mm", Note: "0: trim and butt"},
				every}},
		{ID: "roll", Title: "A roll of paper", Pieces: true, Laid: true,
			About: "One long page for a copy shop or a roll printer.",
			Choices: []choice{{Option: "roll", Label: "Width of the roll", Usual: usual("36 in", "914 mm"),
				Note: "24, 36 or 42 in; 610, 841 or 914 mm"}, every, markers}},
		{ID: "projector", Title: "A projector over the table", Pieces: true, Laid: true,
			About: "The markers in light on the cloth, with a page to calibrate by.",
			Choices: []choice{{Option: "projector", Label: "What the light covers, along by across the cloth",
				Usual: usual("48x27in", "120x68cm")},
				{Option: "table", Label: "Length of the table, for steps", Note: "may stay empty"}}},
		{ID: "chalk", Title: "Tape, string and chalk", Sets: []string{"chalk"}, Pieces: true, Laid: true,
			About: "How to draw every piece straight on the cloth, without paper."},
		{ID: "book", Title: "Workbook", Sets: []string{"book"}, Laid: true,
			About:   "All to keep with the gown: what to buy, markers, cut list, sewing order, cautions.",
			Choices: []choice{{Option: "html", Label: "For a tablet at the table too, to tick off", Tick: true}}},
		{ID: "dxf", Title: "DXF for machines", Sets: []string{"dxf"}, Pieces: true, Laid: true,
			About:   "Lines for pattern programs and cutting machines, in DXF R12.",
			Choices: []choice{markers, halves, noWords}},
		{ID: "svg", Title: "SVG for machines", Sets: []string{"svg"}, Pieces: true, Laid: true,
			About:   "Lines for laser and knife machines at true size.",
			Choices: []choice{markers, halves, noWords}},
	}
}
