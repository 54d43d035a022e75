package form

import (
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

// What reads wrong in another file is told above the form, though that has a field on the same line.
func TestErrorsOfAnotherFileAreToldAbove(t *testing.T) {
	at := strict.Position{Line: 3, Column: 15}
	here, there := &strict.Error{At: at, What: "odd"}, &strict.Error{At: at, What: "odd"}
	there.At.File = "workroom.toml"
	f, err := Of([]byte(small), strict.Errors{there, here}, nil)
	if err != nil || !slices.Equal(f.Loose, strict.Errors{there}) {
		t.Fatalf("%v, loose %v", err, f.Loose)
	}
	fields, _ := f.all()
	for _, one := range fields {
		if got, want := len(one.Errors), one.Path.String() == "body.waist_girth"; got > 0 != want || one.Wrong() != want {
			t.Errorf("%s has %v", one.Path, one.Errors)
		}
	}
	for _, g := range f.Groups {
		for _, table := range g.Tables {
			if table.Wrong() != (table.Kind == "body") {
				t.Errorf("%s is wrong: %v", table.Path, table.Wrong())
			}
		}
	}
}

// Fields say what they mean and which measure they are or stand in for; tables within others say what stands in them.
func TestFieldsSayWhatTheyMean(t *testing.T) {
	f := made(t, []byte(strings.Replace(filled, `draft = "outline"`, `draft = "cape"`, 1)))
	all := map[string]Field{}
	var note func(list []Field)
	note = func(list []Field) {
		for _, one := range list {
			all[one.Path.String()] = one
			note(one.Items)
		}
	}
	for _, g := range f.Groups {
		for _, table := range g.Tables {
			note(table.Fields)
		}
	}
	for at, want := range map[string]string{"body.hip_girth": "hip_girth", "cloth[0].id": "",
		"part[1].neck": "neck_base_girth"} {
		if got := all[at].Measure(); got != want {
			t.Errorf("%s is the measure %q, want %q", at, got, want)
		}
	}
	for at, want := range map[string]string{"cloth[1].width[1]": "cloth[1].width", "cloth[1].lay": "cloth[1].lay"} {
		if got := all[at].Note().String(); got != want {
			t.Errorf("what %s means is noted at %s", at, got)
		}
	}
	about := func(name, within string) string {
		for _, s := range job.Reference() {
			if s.Name == name && strings.Contains(s.Within, within) {
				return s.About
			}
		}
		return ""
	}
	for at, want := range map[string]string{"cloth[0].repeat": about("repeat", "cloth"),
		"cloth[0].flaws": about("flaws", ""),
		"cloth[0].id":    all["cloth[0].id"].Key.Meaning, "cloth[0].have": all["cloth[0].have"].Key.Meaning} {
		if got := all[at].About(); got != want || want == "" {
			t.Errorf("%s is about %q, want %q", at, got, want)
		}
	}
	must := map[string]bool{"part[1].length": true, "part[0].length": false, "cloth[0].gap": false, "allowance.hem": false}
	for at, want := range must {
		if got := all[at].Must(); got != want {
			t.Errorf("%s must be given: %v", at, got)
		}
	}
	for at, want := range map[string]bool{"part[1].length": true, "cloth[0].gap": false, "cloth[1].spare": true,
		"cloth[1].lay": true, "body.waist_girth": true, "body.neck_base_girth": true, "body.wrist_girth": false} {
		if got := all[at].Main(); got != want {
			t.Errorf("%s is shown at first sight: %v", at, got)
		}
	}
	unread, err := Of([]byte(small), nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range unread.Groups[slices.IndexFunc(unread.Groups, func(g Group) bool { return g.Name == "labour" })].
		Tables[0].Fields {
		if one.Main() != (one.Key.Default == "") || one.Must() != one.Main() {
			t.Errorf("%s is shown at first sight: %v, must be given: %v", one.Path, one.Main(), one.Must())
		}
	}
	if flaws := all["cloth[0].flaws"]; !flaws.Tables[0].Wrong() || !flaws.Wrong() || len(flaws.Errors) > 0 {
		t.Errorf("a table in place of a list: %+v", flaws.Errors)
	}
}
