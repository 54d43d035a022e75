package outline

import (
	"fmt"
	"strings"
)

// dxfUnits are lengths of the units that $INSUNITS numbers (DXF Reference, HEADER section),
// mm. Survey feet are 1200/3937 m. Those missing, light years and the like, are none that
// cloth is cut in.
var dxfUnits = map[int]struct {
	millimetres float64
	name        string
}{
	1: {25.4, "inches"}, 2: {304.8, "feet"}, 3: {1609344, "miles"}, 4: {1, "millimetres"}, 5: {10, "centimetres"},
	6: {1000, "metres"}, 7: {1e6, "kilometres"}, 8: {25.4e-6, "microinches"}, 9: {25.4e-3, "mils"},
	10: {914.4, "yards"}, 13: {1e-3, "micrometres"}, 14: {100, "decimetres"}, 15: {1e4, "decametres"},
	16: {1e5, "hectometres"}, 21: {1200e3 / 3937, "US survey feet"}, 22: {100e3 / 3937, "US survey inches"},
	23: {3600e3 / 3937, "US survey yards"},
}

// dxfUnitWords is what a text or a comment says of the unit: "UNITS: METRIC" for mm,
// "UNITS: ENGLISH" for inches (a custom of pattern data; common practice, no source seen).
type dxfUnitWords struct {
	millimetres float64 // 0: nothing said
	said        string
	line        int
}

// read looks for the words in a text; the first that are found count.
func (u *dxfUnitWords) read(text string, line int) {
	if u.millimetres > 0 || len(text) > 200 {
		return
	}
	key, value, ok := strings.Cut(strings.ToUpper(strings.TrimSpace(text)), ":")
	if key = strings.TrimSpace(key); !ok || key != "UNITS" && key != "UNIT" {
		return
	}
	word, _, _ := strings.Cut(strings.TrimSpace(value), ",")
	switch strings.TrimSpace(word) {
	case "METRIC", "MM", "MILLIMETERS", "MILLIMETRES":
		*u = dxfUnitWords{1, "METRIC", line}
	case "ENGLISH", "IMPERIAL", "INCH", "INCHES", "IN":
		*u = dxfUnitWords{25.4, "ENGLISH", line}
	}
}

// unit is the unit of the file. $INSUNITS goes before words, as it is meant for programs;
// $MEASUREMENT tells metric from English and no length.
func (f *dxfFile) unit() Unit {
	words := f.words
	if u, ok := dxfUnits[f.insunits]; ok {
		if words.millimetres > 0 && words.millimetres != u.millimetres {
			f.note("$INSUNITS says %s, the text at line %d UNITS: %s; %s are taken", u.name, words.line, words.said, u.name)
		}
		return Unit{u.millimetres, fmt.Sprintf("$INSUNITS %d (%s)", f.insunits, u.name)}
	}
	if words.millimetres > 0 {
		return Unit{words.millimetres, fmt.Sprintf("text \"UNITS: %s\" at line %d", words.said, words.line)}
	}
	because := "the file names no unit ($INSUNITS)"
	if f.insunits > 0 {
		because = fmt.Sprintf("$INSUNITS %d is no unit that cloth is cut in", f.insunits)
	}
	switch f.measurement {
	case 0:
		because += "; $MEASUREMENT 0 says English, not which unit"
	case 1:
		because += "; $MEASUREMENT 1 says metric, not which unit"
	}
	return Unit{Because: because}
}
