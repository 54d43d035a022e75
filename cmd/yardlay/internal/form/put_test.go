package form

import (
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
)

// small is a job whose cloth is named by a part, by its lining and by a point that is matched, with comments to keep.
const small = `unit = "cm" # ours
[body]
waist_girth = 70
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin" # the blue one
width = 150
[[cloth]]
id = "net"
width = 120
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = ["satin", "net"]
circle = "half"
length = 60
`

// Changes by key go where the job has the table, with the quotes and the comments that stand there; one that cannot be
// written leaves nothing written.
func TestPutWritesChangesWhereTheyGo(t *testing.T) {
	f, err := job.Read("gown.toml", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	spots, err := f.Spots([]job.Change{{Key: "satin.width", Value: "140"}, {Key: "skirt.length", Value: "24 in"},
		{Key: "allowance.hem", Value: "3"}})
	if err != nil {
		t.Fatal(err)
	}
	out, err := Put([]byte(small), spots)
	want := strings.NewReplacer("width = 150", "width = 140", "length = 60", `length = "24 in"`, "hem = 2", "hem = 3").
		Replace(small)
	if err != nil || string(out) != want {
		t.Errorf("%v\n%s", err, out)
	}
	bad := append(slices.Clone(spots), job.Spot{List: "cloth", Item: 7, Keys: []string{"width"}, Text: "1", TOML: true})
	if out, err := Put([]byte(small), bad); err == nil || out != nil || !strings.Contains(err.Error(),
		"cannot be written") {
		t.Errorf("%v\n%s", err, out)
	}
}

// set types texts into fields, one after the other.
func typed(t *testing.T, src string, all ...[2]string) string {
	t.Helper()
	out := []byte(src)
	for _, one := range all {
		at, err := edit.ParsePath(one[0])
		if err == nil {
			out, err = Set(out, at, one[1])
		}
		if err != nil {
			t.Fatalf("%s: %v", one, err)
		}
	}
	return string(out)
}

// Who is renamed is followed by all that name her, but where two have one name: nobody knows then which is meant.
func TestNamesFollow(t *testing.T) {
	if got, want := typed(t, small, [2]string{"cloth[0].id", "velvet"}),
		strings.ReplaceAll(small, `"satin"`, `"velvet"`); got != want {
		t.Errorf("%s", got)
	}
	for _, tt := range []struct{ name, src, to string }{
		{"the new name is taken", small, "net"},
		{"two had the old one", strings.Replace(small, `id = "net"`, `id = "satin"`, 1), "velvet"},
	} {
		if got := typed(t, tt.src, [2]string{"cloth[0].id", tt.to}); got != strings.Replace(tt.src, `id = "satin"`,
			`id = "`+tt.to+`"`, 1) {
			t.Errorf("%s:\n%s", tt.name, got)
		}
	}
}

// What is typed stays what the key takes: numbers without quotes, days, true or false; texts in them. A second value
// beside one alone makes a list of both, and an empty text takes the key away with the braces that it stood in alone.
func TestWhatIsTypedIsSpelledAsTheKeyTakesIt(t *testing.T) {
	for _, tt := range []struct{ name, path, text, want string }{
		{"a count", "part[0].times", "2", "times = 2\n"}, {"no count", "part[0].times", "two", "times = \"two\"\n"},
		{"not 007", "part[0].times", "007", "times = \"007\"\n"}, {"a truth", "part[0].opening", "true", "opening = true\n"},
		{"no truth", "part[0].opening", "yes", "opening = \"yes\"\n"},
		{"a length", "part[0].length", "60 1/2", "length = \"60 1/2\"\n"}, {"a bare one", "part[0].length", "61",
			"length = 61\n"},
		{"points", "cloth[0].flaws", "[ { from = 1, to = 2 } ]", "flaws = [ { from = 1, to = 2 } ]\n"},
		{"a further cloth", "part[0].cloth[2]", "satin", "cloth = [\"satin\", \"net\", \"satin\"]\n"},
		{"in place of one", "part[0].cloth[1]", "satin", "cloth = [\"satin\", \"satin\"]\n"},
		{"a comment stays", "unit", "in", "unit = \"in\" # ours\n"},
	} {
		if got := typed(t, small, [2]string{tt.path, tt.text}); !strings.Contains(got, tt.want) {
			t.Errorf("%s: no %q in\n%s", tt.name, tt.want, got)
		}
	}
	in := strings.Replace(small, "width = 120", "width = 120\nrepeat = { along = 4 }", 1)
	if got := typed(t, in, [2]string{"cloth[1].repeat.along", ""}); got != small {
		t.Errorf("%s", got)
	}
	if got := typed(t, small, [2]string{"cloth[1].gap", ""}); got != small {
		t.Errorf("what is not there is taken away:\n%s", got)
	}
	if _, err := Set([]byte(small), edit.Of("unit"), "a\nb"); err == nil {
		t.Error("a value of two lines")
	}
	alone := strings.Replace(small, `["satin", "net"]`, `"satin"`, 1)
	if got := typed(t, alone, [2]string{"part[0].cloth[1]", "net"}); got != small {
		t.Errorf("a second beside one alone:\n%s", got)
	}
	for _, was := range []string{`fullness = "2 1/2"`, `fullness = 2.5`} { // quotes stay where they are
		in := strings.NewReplacer("circle-skirt", "gathered-skirt", "circle = \"half\"", was).Replace(small)
		want := strings.NewReplacer("2 1/2", "3", "2.5", "3").Replace(was)
		if got := typed(t, in, [2]string{"part[0].fullness", "3"}); !strings.Contains(got, want+"\n") {
			t.Errorf("%s becomes no %s:\n%s", was, want, got)
		}
	}
}

// A field that nothing is known of stands in the form with its text and its error, to be taken away; errors of no field
// are told above. Only the tables that are asked for show all their fields.
func TestUnknownKeysAndOpenTables(t *testing.T) {
	src := []byte(strings.Replace(small, "width = 150", "width = 150\nwdith = 'odd' # slip", 1))
	f := made(t, src)
	fields, _ := f.all()
	i := slices.IndexFunc(fields, func(one Field) bool { return one.Control == Unknown })
	if i < 0 || fields[i].Text != "'odd'" || len(fields[i].Errors) == 0 || !fields[i].Main() || !fields[i].Wrong() {
		t.Fatalf("%+v", fields)
	}
	if out, err := Remove(src, fields[i].Path); err != nil || strings.Contains(string(out), "wdith") ||
		!strings.Contains(string(out), "# slip") {
		t.Errorf("%v\n%s", err, out)
	}
	f.Open([]string{"cloth[0]", "cloth[1].repeat", "part[0].lining"})
	var open []string
	_, tables := f.all()
	for _, one := range tables {
		if one.Open {
			open = append(open, one.Path.String())
		}
	}
	if !slices.Equal(open, []string{"cloth[0]", "cloth[1].repeat", "part[0].lining"}) {
		t.Errorf("%q are open", open)
	}
}
