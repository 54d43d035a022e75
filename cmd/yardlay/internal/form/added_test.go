package form

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/edit"
)

func path(t *testing.T, text string) edit.Path {
	t.Helper()
	at, err := edit.ParsePath(text)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// A table that is added has the name that it must have, one that no other has, whatever the others are called by; a
// body alone becomes the first of two. All else stays as it was.
func TestAddedTablesHaveNamesOfTheirOwn(t *testing.T) {
	for _, c := range []struct{ list, src, want string }{
		{"cloth", "unit = \"cm\"\n", "unit = \"cm\"\n\n[[cloth]]\nid = \"cloth\"\n"},
		{"cloth", "[[cloth]]\nid = \"cloth\"\n", "[[cloth]]\nid = \"cloth\"\n\n[[cloth]]\nid = \"cloth-2\"\n"},
		{"cloth", "[[cloth]]\nid = \"cloth\"\n[[cloth]]\nname = \"cloth-2\"\n[[cloth]]\nid = \"cloth-4\"\n",
			"[[cloth]]\nid = \"cloth\"\n[[cloth]]\nname = \"cloth-2\"\n[[cloth]]\nid = \"cloth-4\"\n[[cloth]]\n" +
				"id = \"cloth-3\"\n"},
		{"supplier", "[[supplier]]\nname = \"supplier\"\n",
			"[[supplier]]\nname = \"supplier\"\n\n[[supplier]]\nname = \"supplier-2\"\n"},
		{"body", "[body]\nwaist_girth = 28\n",
			"[[body]]\nwaist_girth = 28\nname = \"first\"\n\n[[body]]\nname = \"body\"\n"},
		{"body", "[[body]]\nname = \"body\"\n", "[[body]]\nname = \"body\"\n\n[[body]]\nname = \"body-2\"\n"},
		{"body", "unit = \"in\"\n", "unit = \"in\"\n\n[[body]]\nname = \"body\"\n"},
		{"notion", "unit = \"in\"\n", "unit = \"in\"\n\n[[notion]]\nname = \"notion\"\n"},
		{"match", "unit = \"in\"\n", "unit = \"in\"\n\n[[match]]\nname = \"match\"\n"},
		{"cloth[0].offers", "[[cloth]]\nid = \"a\"\n", "[[cloth]]\nid = \"a\"\noffers = [{}]\n"},
	} {
		out, err := Add([]byte(c.src), path(t, c.list))
		if err != nil || string(out) != c.want {
			t.Errorf("%s is added, %v:\n%s\nwant:\n%s", c.list, err, out, c.want)
		}
	}
	for _, list := range []string{"unit", "cloth[0].repeat.along", "toga", "cloth[0].width"} {
		if out, err := Add([]byte(small), path(t, list)); err == nil || out != nil {
			t.Errorf("a table is added to %s: %v\n%s", list, err, out)
		}
	}
	for _, src := range []string{"unit = ", "a = 1\na = 2"} {
		if out, err := Add([]byte(src), path(t, "cloth")); err == nil || out != nil {
			t.Errorf("a table is added to what is no TOML: %v\n%s", err, out)
		}
		if out, err := AddPart([]byte(src), "cape"); err == nil || out != nil {
			t.Errorf("a part is added to what is no TOML: %v\n%s", err, out)
		}
		if out, err := Set([]byte(src), path(t, "unit"), "cm"); err == nil || out != nil {
			t.Errorf("what is no TOML is changed: %v\n%s", err, out)
		}
		if out, err := Remove([]byte(src), path(t, "unit")); err == nil || out != nil {
			t.Errorf("what is no TOML is changed: %v\n%s", err, out)
		}
		if f, err := Of([]byte(src), nil, nil); err == nil || f.Groups != nil {
			t.Errorf("a form of what is no TOML: %v", err)
		}
	}
}

// An added part is drawn as the example of its draft in the unit of the job, in its first cloth; where there is no
// cloth, or no unit, it is added all the same.
func TestAddedPartsAreTheExamples(t *testing.T) {
	for _, c := range []struct{ src, want string }{
		{small, "[[part]]\nname = \"cape\"\ndraft = \"cape\"\ncloth = \"satin\"\n"},
		{"", "[[part]]\nname = \"cape\"\ndraft = \"cape\"\n"},
		{"unit = \"furlong\"\n[[cloth]]\nid = \"a\"\n[[part]]\nname = \"cape\"\n",
			"[[part]]\nname = \"cape-2\"\ndraft = \"cape\"\ncloth = \"a\"\n"},
	} {
		out, err := AddPart([]byte(c.src), "cape")
		added, ok := strings.CutPrefix(string(out), strings.TrimSuffix(c.src, "\n"))
		if err != nil || !ok || !strings.HasPrefix(strings.TrimLeft(added, "\n"), c.want) {
			t.Errorf("%v:\n%s", err, out)
		}
		if got := strings.Contains(added, `length = "30"`); got != (c.src != small) { // in
			t.Errorf("not the length of the example:\n%s", added)
		}
	}
	if _, err := AddPart([]byte(small), "toga"); err == nil || !strings.Contains(err.Error(), `there is no draft "toga"`) {
		t.Errorf("%v", err)
	}
}

// What is cleared takes along what it leaves empty in braces or brackets, but no table of a list and no header.
func TestWhatIsClearedLeavesNothingEmpty(t *testing.T) {
	const head = "[[cloth]]\nid = \"a\"\n"
	for _, c := range []struct{ at, src, want string }{
		{"cloth[0].repeat.along", head + "repeat = { along = 4 }\n", head},
		{"cloth[0].repeat.along", head + "repeat = { along = 4, across = 2 }\n", head + "repeat = { across = 2 }\n"},
		{"cloth[0].repeat.along", head + "[cloth.repeat]\nalong = 4\n", head + "[cloth.repeat]\n"},
		{"cloth[0].width[0]", head + "width = [120]\n", head},
		{"cloth[0].width[1]", head + "width = [120, 140]\n", head + "width = [120]\n"},
		{"cloth[0].flaws[0].from", head + "flaws = [ { from = 1 } ]\n", head + "flaws = [ {} ]\n"},
		{"cloth[0].id", "[[cloth]]\nid = \"a\"\n", "[[cloth]]\n"},
		{"cloth[0].flaws[0]", head + "flaws = [ { from = 1 } ]\n", head},
		{"cloth[0].gap", head, head},
	} {
		if out, err := Remove([]byte(c.src), path(t, c.at)); err != nil || string(out) != c.want {
			t.Errorf("%s is removed, %v:\n%s\nwant:\n%s", c.at, err, out, c.want)
		}
	}
}

// A body that is renamed is followed by the parts that are made for it and by the pieces that begin with its name, a
// part by its pieces of every body; a name that was none or stays the same changes nothing else.
func TestRenamedBodiesAndParts(t *testing.T) {
	const src = `[[body]]
name = "alto"
[[body]]
name = "alto two"
[[part]]
name = "skirt"
bodies = ["alto", "alto two"]
[[part]]
name = "two skirt"
[[match]]
points = [ { piece = "alto skirt gore" }, { piece = "alto two skirt gore" }, { piece = "skirt gore" } ]
[[notion]]
name = "alto"
title = "alto skirt gore"
`
	for _, c := range []struct {
		at, now string
		changed []string
	}{
		{"body[0].name", "bass", []string{`name = "alto"`, `name = "bass"`, `"alto", `, `"bass", `,
			`"alto skirt gore" }`, `"bass skirt gore" }`, `"alto two skirt gore" }`, `"bass two skirt gore" }`}},
		{"part[0].name", "train", []string{`name = "skirt"`, `name = "train"`, `"alto skirt gore" }`,
			`"alto train gore" }`, `"alto two skirt gore" }`, `"alto two train gore" }`, `"skirt gore" }`, `"train gore" }`}},
		{"body[0].name", "alto", nil},
		{"notion[0].name", "tenor", []string{"[[notion]]\nname = \"alto\"", "[[notion]]\nname = \"tenor\""}},
	} {
		want := src
		for i := 0; i+1 < len(c.changed); i += 2 {
			want = strings.Replace(want, c.changed[i], c.changed[i+1], 1)
		}
		if got := typed(t, src, [2]string{c.at, c.now}); got != want {
			t.Errorf("%s = %s:\n%s", c.at, c.now, got)
		}
	}
	const nameless = "[[cloth]]\nwidth = 1\n[[part]]\nname = \"a\"\ncloth = \"\"\n"
	if got := typed(t, nameless, [2]string{"cloth[0].id", "b"}); !strings.Contains(got, "cloth = \"\"\n") {
		t.Errorf("what had no name is followed:\n%s", got)
	}
}
