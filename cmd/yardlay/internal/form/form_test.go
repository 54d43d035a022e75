package form

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

// wrong is what reading a text finds wrong.
func wrong(src []byte) (all strict.Errors) {
	if _, err := job.Read("gown.toml", src); err != nil {
		errors.As(err, &all)
	}
	return all
}

func made(t rapid.TB, src []byte) Form {
	t.Helper()
	f, err := Of(src, wrong(src), nil)
	if err != nil {
		t.Fatalf("%v in:\n%s", err, src)
	}
	return f
}

// fields lists all fields of a form that take one value, and all tables.
func (f Form) all() (fields []Field, tables []Table) {
	var table func(t Table)
	var field func(one Field)
	field = func(one Field) {
		if one.Control == Line || one.Control == Choice || one.Control == Unknown {
			fields = append(fields, one)
		}
		for _, item := range one.Items {
			field(item)
		}
		if one.Table != nil {
			table(*one.Table)
		}
		for _, t := range one.Tables {
			table(t)
		}
	}
	table = func(t Table) {
		tables = append(tables, t)
		for _, one := range t.Fields {
			field(one)
		}
	}
	for _, g := range f.Groups {
		for _, t := range g.Tables {
			table(t)
		}
	}
	return fields, tables
}

// lists are the paths of all that may have another table.
func (f Form) lists() (all []edit.Path) {
	for _, g := range f.Groups {
		if g.List || g.Name == "body" {
			all = append(all, g.Path)
		}
	}
	_, tables := f.all()
	for _, t := range tables {
		for _, one := range t.Fields {
			if one.Control == Tables {
				all = append(all, one.Path)
			}
		}
	}
	return all
}

// whole is a job that has a table of every kind, and parts of some drafts, made by the
// form alone.
func whole(t rapid.TB, drafts ...string) []byte {
	src := job.Starter()
	do := func(out []byte, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		src = out
	}
	for range 2 {
		for _, list := range made(t, src).lists() {
			if list.String() != "part" && list.String() != "body" {
				do(Add(src, list))
			}
		}
	}
	for _, draft := range drafts {
		do(AddPart(src, draft))
	}
	return src
}

// example is what a field is given to try it.
func example(f Field) string {
	k := f.Key.Kind
	switch {
	case k.Example != "":
		return strings.Trim(k.Example, `"[]`)
	case len(f.Choices) > 0:
		return f.Choices[len(f.Choices)-1]
	}
	switch k.Form {
	case job.Count:
		return fmt.Sprintf("%.0f", k.Most)
	case job.Ratio:
		return "1 1/2"
	case job.Percent:
		return "-3 %"
	case job.Points:
		return `[["12", "3"], ["14", "3"], ["13", "5"]]`
	case job.Name:
		return "somebody"
	}
	return "12 3/8"
}

// tryFields types something into each field of a job of whose kind none was tried before.
func tryFields(t *testing.T, src []byte, fields []Field, tried map[string]bool) {
	t.Helper()
	for _, f := range fields {
		name := f.Path[0].Key + f.Key.Name
		if len(f.Path) > 3 {
			name = f.Path[0].Key + "." + f.Path[2].Key + f.Key.Name
		}
		if tried[name] {
			continue
		}
		if tried[name] = true; f.Given || f.Control == Unknown {
			continue
		}
		text := example(f)
		out, err := Set(src, f.Path, text)
		if err != nil {
			t.Errorf("%s = %q: %v", f.Path, text, err)
			continue
		}
		form, err := Of(out, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := form.all()
		i := slices.IndexFunc(again, func(o Field) bool { return o.Path.String() == f.Path.String() && o.Given })
		if i < 0 || again[i].Text != text {
			t.Errorf("%s = %q is not read back from:\n%s", f.Path, text, out)
			continue
		}
		back, err := Set(out, f.Path, "")
		if err != nil || string(back) != string(src) && !f.Path[len(f.Path)-1].OfList &&
			f.Path[0].Key != "labour" && f.Path[0].Key != "quote" { // a list stays one, and a header where it is
			t.Errorf("%s taken away: %v (-before +after):\n%s", f.Path, err, cmp.Diff(string(src), string(back)))
		}
	}
}

// Every key of the reference has a field; what is typed there is read back, stands in the
// text alone, and is gone without a trace when it is taken away.
func TestEveryKeyHasAField(t *testing.T) {
	tried := map[string]bool{}
	for _, draft := range draftNames() { // one at a time: forms of small jobs are made sooner
		src := whole(t, draft)
		fields, _ := made(t, src).all()
		tryFields(t, src, fields, tried)
	}
	for _, s := range job.Reference() {
		table := s.Name
		if s.Draft {
			table = "part"
		}
		for _, k := range s.Keys {
			if k.Kind.Form == job.Table || s.Within != "" || s.Name == "body" && k.Default == "" || k.Name == "count" {
				continue // a table has no field of its own; those within are told by their outermost one
			}
			if table == "job" {
				table = k.Name
			}
			if !tried[table+k.Name] {
				t.Errorf("no field for %s of %s", k.Name, s.Name)
			}
			if s.Name == "job" {
				table = s.Name
			}
		}
	}
	if len(tried) < 150 {
		t.Errorf("only %d keys were tried", len(tried))
	}
}

// Whatever is typed, added, moved and removed, one after the other: the text stays TOML,
// every error of reading it is shown in one place of the form, and comments stay.
func TestRandomEdits(t *testing.T) {
	begun := whole(t, "sleeve", "cape")
	rapid.Check(t, func(t *rapid.T) {
		src := slices.Clone(rapid.SampledFrom([][]byte{job.Starter(), begun}).Draw(t, "job"))
		for range rapid.IntRange(1, 5).Draw(t, "edits") {
			f := made(t, src)
			fields, tables := f.all()
			var out []byte
			var err error
			switch what := rapid.SampledFrom([]string{"type", "type", "type", "clear", "add", "part", "remove", "move"}).
				Draw(t, "what"); what {
			case "type", "clear":
				one := rapid.SampledFrom(fields).Draw(t, "field")
				text := ""
				if what == "type" {
					text = rapid.SampledFrom([]string{example(one), "27 1/2", "90 cm", "7", "-1", "nobody", "it's \"so\"",
						"satin", "[1, 2]", "{ a = 1 }", "true", "#", "é \\ '"}).Draw(t, "text")
				}
				if one.Control == Unknown {
					continue
				}
				if out, err = Set(src, one.Path, text); err == nil && text != "" {
					root, _ := job.Tree(out)
					if find(root, one.Path) == nil && one.Path[len(one.Path)-1].Index == 0 {
						t.Fatalf("%s = %q is not in:\n%s", one.Path, text, out)
					}
				}
			case "add":
				out, err = Add(src, rapid.SampledFrom(f.lists()).Draw(t, "list"))
			case "part":
				out, err = AddPart(src, rapid.SampledFrom(draftNames()).Draw(t, "draft"))
			default:
				tables = slices.DeleteFunc(tables, func(t Table) bool { return !t.Item })
				if len(tables) == 0 {
					continue
				}
				one := rapid.SampledFrom(tables).Draw(t, "table")
				if what == "remove" {
					out, err = Remove(src, one.Path)
				} else {
					out, err = Move(src, one.Path[:len(one.Path)-1], one.Index, 0)
				}
			}
			if err != nil {
				t.Fatalf("%v in:\n%s", err, src)
			}
			src = out
			all := wrong(src)
			if f, err = Of(src, all, nil); err != nil {
				t.Fatal(err)
			}
			told(t, f, all)
			if !strings.Contains(string(src), "# What it costs") {
				t.Fatalf("a comment is lost:\n%s", src)
			}
		}
	})
}

// told fails unless each error is shown once.
func told(t *rapid.T, f Form, all strict.Errors) {
	shown := map[*strict.Error]int{}
	count := func(list []*strict.Error) {
		for _, e := range list {
			shown[e]++
		}
	}
	count(f.Loose)
	var field func(one Field)
	table := func(t Table) {
		count(t.Errors)
		for _, one := range t.Fields {
			field(one)
		}
	}
	field = func(one Field) {
		count(one.Errors)
		for _, item := range one.Items {
			field(item)
		}
		if one.Table != nil {
			table(*one.Table)
		}
		for _, t := range one.Tables {
			table(t)
		}
	}
	for _, g := range f.Groups {
		for _, t := range g.Tables {
			table(t)
		}
	}
	for _, e := range all {
		if shown[e] != 1 {
			t.Fatalf("%v is shown %d times", e, shown[e])
		}
	}
}

// The measures of the body that parts are drawn by are shown at first sight.
func TestMeasuresThatPartsTakeAreShown(t *testing.T) {
	shown := func(src []byte) map[string]bool {
		all := map[string]bool{}
		fields, _ := made(t, src).all()
		for _, f := range fields {
			all[f.Path.String()] = f.Main()
		}
		return all
	}
	src := job.Starter()
	with, err := AddPart(src, "cape")
	if err != nil {
		t.Fatal(err)
	}
	const neck, hip = "body.neck_base_girth", "body.hip_girth"
	if before, after := shown(src), shown(with); before[neck] || !before[hip] || !after[neck] {
		t.Errorf("neck %v, hip %v; with a cape neck %v", before[neck], before[hip], after[neck])
	}
}

// Nothing but fields of the reference is written.
func TestOtherPathsAreRefused(t *testing.T) {
	for _, path := range []string{"", "nothing", "part[0].nothing", "body.waist_girth.x", "cloth[0].id[0].x", "cloth.x"} {
		at, err := edit.ParsePath(path)
		if err != nil {
			t.Fatal(err)
		}
		if out, err := Set(job.Starter(), at, "x"); err == nil {
			t.Errorf("%s was set:\n%s", path, out)
		}
	}
	if _, err := Set(job.Starter(), edit.Of("title"), "two\nlines"); err == nil {
		t.Error("two lines were set")
	}
	if _, err := AddPart(job.Starter(), "toga"); err == nil {
		t.Error("a draft that is not there was added")
	}
}

// What a gallery adds holds at once for a wearer who is measured, in any unit.
func TestGalleryAddsPartsThatHold(t *testing.T) {
	for _, unit := range []string{"in", "cm", "mm"} {
		src := strings.Replace(string(job.Starter()), `unit     = "in"`, `unit = "`+unit+`"`, 1)
		for _, s := range job.Reference() {
			if s.Name == "body" {
				for _, k := range s.Keys {
					if k.Kind.Taken.String() == "" {
						continue
					}
					out, err := Set([]byte(src), edit.Of("body", k.Name), strings.Trim(k.Kind.Example, `"`)+" in")
					if err != nil {
						t.Fatal(err)
					}
					src = string(out)
				}
				break
			}
		}
		src = strings.NewReplacer(`"58"`, `"58 in"`, `"45"`, `"45 in"`, `"40"`, `"40 in"`, `"1/2"`, `"1/2 in"`,
			`"1/8"`, `"1/8 in"`, `"1 1/4"`, `"1 1/4 in"`, `"1"`, `"1 in"`).Replace(src)
		if w := wrong([]byte(src)); len(w) > 0 {
			t.Fatalf("%v in:\n%s", w, src)
		}
		for _, draft := range draftNames() {
			out, err := AddPart([]byte(src), draft)
			if err != nil {
				t.Fatal(err)
			}
			if w := wrong(out); len(w) > 0 {
				t.Errorf("%s in %s: %v", draft, unit, w)
			}
		}
	}
}

// What the workroom gives is shown where the file is silent, and need not be given; who and what is there can be
// chosen.
func TestFormInAWorkroom(t *testing.T) {
	room, err := job.ReadWorkroom(job.WorkroomFile, []byte(`unit = "cm"
[[cloth]]
id = "moon-satin"
width = 150
shrinkage = { warp = "-3 %", by = "pieces" }
price = "13.50/yd"
[[person]]
name = "mara"
[[person.measured]]
on = 2026-05-01
waist_girth = 70
`))
	if err != nil {
		t.Fatal(err)
	}
	f, err := Of([]byte("unit = \"in\"\n[body]\nfrom = \"mara\"\n[[cloth]]\nid = \"satin\"\nfrom = \"moon-satin\"\n"+
		"[[cloth]]\nid = \"net\"\nbreaks = [ { from = \"10 yd\" } ]\n"), nil, room)
	if err != nil {
		t.Fatal(err)
	}
	fields := map[string]Field{}
	for _, g := range f.Groups {
		for _, table := range g.Tables {
			for _, one := range table.Fields {
				fields[one.Path.String()] = one
			}
		}
	}
	if w := fields["cloth[0].width"]; w.Inherited != "150 cm" || w.Must() || w.Given {
		t.Errorf("%+v", w)
	}
	if w := fields["cloth[1].width"]; w.Inherited != "" || !w.Must() {
		t.Errorf("%+v", w)
	}
	if s := fields["cloth[0].shrinkage"]; s.Inherited == "" {
		t.Errorf("%+v", s)
	}
	if w := fields["body.waist_girth"]; w.Inherited != "70 cm" {
		t.Errorf("%+v", w)
	}
	if c := fields["cloth[1].from"]; !slices.Equal(c.Choices, []string{"moon-satin"}) || c.Control != Choice {
		t.Errorf("%+v", c)
	}
	if c := fields["body.from"]; !slices.Equal(c.Choices, []string{"mara"}) {
		t.Errorf("%+v", c)
	}
}
