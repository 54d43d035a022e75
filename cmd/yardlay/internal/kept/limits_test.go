package kept

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
)

// faults reads a text that is wrong and returns what is said of it.
func faults(t *testing.T, src string) strict.Errors {
	t.Helper()
	f, err := Read("l.json", []byte(src))
	var bad strict.Errors
	if !errors.As(err, &bad) || f != nil {
		t.Fatalf("%.80q reads as %+v, %v", src, f, err)
	}
	return bad
}

// What is just within a limit is read, what is just beyond it is refused.
func TestLimitsAreTheLastAllowed(t *testing.T) {
	reach := fmt.Sprint(nest.Reach)
	for _, c := range []struct{ was, last, beyond string }{
		{`"width": 900`, `"width": ` + reach, `"width": ` + reach + ".5"},
		{`"width": 900`, `"width": 0`, `"width": -0.25`},
		{`"gap": 0`, `"gap": 0.25`, `"gap": -0.25`},
		{`"length": 10`, `"length": 0.25`, `"length": -0.25`},
		{`"at": [0, 0]`, `"at": [` + reach + `,-` + reach + `]`, `"at": [0, -` + reach + `.5]`},
		{`"at": [0, 0]`, `"at": [0.0009765625,0]`, `"at": [0.0009765626, 0]`},
		{`"turn": 0`, `"turn": 3600`, `"turn": 3600.5`},
		{`"turn": 0`, `"turn": -3600`, `"turn": -3600.5`},
		{`"copy": 1`, fmt.Sprint(`"copy": `, nest.MostPieces), fmt.Sprint(`"copy": `, nest.MostPieces+1)},
		{`"repeat": [0, 0]`, `"repeat": [0.5,0.25]`, `"repeat": ["0.5", 0.25]`},
	} {
		f, err := Read("l.json", []byte(strings.Replace(one, c.was, c.last, 1)))
		if err != nil {
			t.Errorf("%s: %v", c.last, err)
			continue
		}
		if again := string(f.Encode()); !strings.Contains(again, c.last) {
			t.Errorf("%s is written as\n%s", c.last, again)
		}
		if bad := faults(t, strings.Replace(one, c.was, c.beyond, 1)); len(bad) != 1 {
			t.Errorf("%s: %v", c.beyond, bad)
		}
	}
	cloths := make([]string, 0, mostCloths)
	for i := range mostCloths {
		cloths = append(cloths, fmt.Sprintf(`{"cloth": "c%d", "width": 900, "gap": 0, "repeat": [0, 0], "flaws": "", `+
			`"stretches": [{"lay": "open", "length": 10, "pieces": []}]}`, i))
	}
	most := `{"layout": 1, "cloths": [` + strings.Join(cloths, ",\n") + `]}`
	if f, err := Read("l.json", []byte(most)); err != nil || len(f.Cloths) != mostCloths {
		t.Error(err)
	}
	if _, err := Read("l.json", []byte(most+strings.Repeat(" ", MaxFile-len(most)))); err != nil {
		t.Error(err)
	}
	if bad := faults(t, most+strings.Repeat(" ", MaxFile+1-len(most))); bad[0].At.Line != 1 || bad[0].At.Column != 1 {
		t.Error(bad)
	}
}

// A text that is no JSON, or more of it than a layout can be, is refused at the place from which on it is wrong, by
// letters and not by bytes.
func TestWhereAFileStopsBeingJSON(t *testing.T) {
	for src, want := range map[string]string{
		`{"layout": 1,, "cloths": []}`:          "1:14: not JSON from here on",
		"{\n \"é\": tru}":                       "2:7: not JSON from here on",
		"{\n \"é\": 1":                          "2:8: ends in the middle",
		`{"layout": 1e999}`:                     "1:12: 1e999 is too large a number",
		`{"layout": -1e400}`:                    "1:12: -1e400 is too large a number",
		"{\"\ufffdé\n\": \"\xff\"}":             "2:5: not UTF-8 text",
		"{\"\xc3\": 1}":                         "1:3: not UTF-8 text",
		`{"layout": 1} {`:                       "1:15: more behind the end of the layout",
		strings.Repeat("[", 9) + "0" + "]":      "1:10: more than 8 lists and objects within each other",
		strings.Repeat(`{"a":`, 9) + "0":        "1:46: more than 8 lists and objects within each other",
		strings.Repeat(`[{"a":`, 4) + "[0]":     "1:26: more than 8 lists and objects within each other",
		strings.Repeat("[[],", 9) + "0":         "1:34: more than 8 lists and objects within each other",
		"{\"layout\": 1,\n\"é\": 0, \"é\": 0}":  `2:9: "é" is there twice`,
		strings.Repeat(`{"a":`, 9):              "1:46: ends in the middle",
		strings.Repeat("[", 7) + "0, [1, {], 2": "1:16: not JSON from here on",
		`{"layout" 1}`:                          "1:11: not JSON from here on",
		`{"layout": 1 "cloths": []}`:            "1:14: not JSON from here on",
		`{layout: 1}`:                           "1:2: not JSON from here on",
		"{\"layout\": 1,\n\"cl\noths\": []}":    "2:1: not JSON from here on",
	} {
		bad := faults(t, src)
		if got := bad.Error(); len(bad) != 1 || !strings.Contains(got, "l.json:"+want) || bad[0].Hint == "" {
			t.Errorf("%q: %s; want %s", src, got, want)
		}
	}
	// values count those within lists and objects, the list itself too
	list := func(n int) string { return "[" + strings.Repeat("0,", n-2) + "0]" }
	if !often.ByHand() { // as many take as long as one more, which is tried in any case
		if bad := faults(t, list(maxValues)); !strings.Contains(bad.Error(), "is a list") {
			t.Error(bad)
		}
	}
	if bad := faults(t, list(maxValues+1)); !strings.Contains(bad.Error(), "more than 400000 values") {
		t.Error(bad)
	}
}

// Each fault is told once, all of them in the order of their places, whatever is read first; what follows from one
// that is told is not.
func TestFaultsAreToldOnceInOrder(t *testing.T) {
	const piece = `{"piece": "a", "copy": 1, "mark": "m", "at": [0, 0], "turn": 0, "mirrored": false}`
	stretch := func(pieces ...string) string {
		return `{"lay": "open", "length": 10, "pieces": [` + strings.Join(pieces, ", ") + `]}`
	}
	cloth := func(id string, stretches ...string) string {
		return `{"stretches": [` + strings.Join(stretches, ", ") + `], "flaws": "", "repeat": [0, 0], "gap": 0, ` +
			`"width": 900` + id + `}`
	}
	file := func(cloths ...string) string { return `{"layout": 1, "cloths": [` + strings.Join(cloths, ",\n") + `]}` }
	const wool, silk = `, "cloth": "wool"`, `, "cloth": "silk"`
	for name, c := range map[string]struct {
		src  string
		want []string
	}{
		"two cloths without a name": {file(cloth("", stretch()), cloth("", stretch())),
			[]string{`a cloth lacks "cloth"`, `a cloth lacks "cloth"`}},
		"two stretches without a lay": {file(cloth(wool, `{"length": 1, "pieces": []}`, `{"length": 1, "pieces": []}`)),
			[]string{`a stretch lacks "lay"`, `a stretch lacks "lay"`}},
		"two pieces without a name": {file(cloth(wool, stretch(strings.Replace(piece, `"piece": "a", `, "", 1),
			strings.Replace(piece, `"piece": "a", `, "", 1)))), []string{`a piece lacks "piece"`, `a piece lacks "piece"`}},
		"read first, told last": {strings.Replace(file(cloth(wool, stretch(strings.Replace(piece, "false", "0", 1)))),
			"900", "-9", 1), []string{`"mirrored" is a number`, `"width" cannot be -9`}},
		"names of three kinds": {file(cloth(wool, `{"lay": 1, "length": "2", "pieces": 3}`), cloth(silk)),
			[]string{`"lay" is a number`, `"length" is a text`, `"pieces" is a number`, "0 stretches"}},
		"stretches that are no list": {file(`{"cloth": 1, "width": 900, "gap": 0, "repeat": [0, 0], "flaws": "", ` +
			`"stretches": 5}`), []string{`"cloth" is a number`, `"stretches" is a number`}},
		"a version that is no number": {`{"layout": true, "cloths": []}`, []string{`"layout" is true or false`}},
		"a piece twice and again": {file(cloth(wool, stretch(piece, strings.Replace(piece, "1", "2", 1), piece, piece))),
			[]string{`copy 1 of "a" is there twice`, `copy 1 of "a" is there twice`}},
	} {
		bad := faults(t, c.src)
		var got []string
		for i, e := range bad {
			got = append(got, e.What)
			if i > 0 && bad[i-1].At.Line*1000+bad[i-1].At.Column > e.At.Line*1000+e.At.Column {
				t.Errorf("%s: %v is told behind %v", name, e.At, bad[i-1].At)
			}
			if e.Hint == "" {
				t.Errorf("%s: %v has no hint", name, e)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	off := faults(t, strings.Replace(one, `"at": [0, 0]`, `"at": [1.0001, 7.3]`, 1))
	if want := "the nearest place is [1, 7.2998046875]"; off[0].Hint != want {
		t.Errorf("%q, want %q", off[0].Hint, want)
	}
	many := strings.Repeat("{}, ", strict.MostErrors)
	if bad := faults(t, `{"layout": 1, "cloths": [`+many+`{}]}`); len(bad) != strict.MostErrors {
		t.Errorf("%d errors", len(bad))
	}
}
