package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// rooms is where the packages of the command stand.
const rooms = "yardlay/cmd/yardlay/internal/"

// mayImport is the import rule: imports point one way, from the commands down
// to lengths and plane geometry. A room may also use what the rooms it lists
// use. Names ending in /... take in the packages below.
var mayImport = []importRule{
	{"yardlay/shapes/say", nil}, // messages in parts
	{"yardlay/shapes/plane", []string{"yardlay/shapes/say"}},
	{"yardlay/shapes/measure", nil},
	{"yardlay/shapes/outline", onPlane},
	{"yardlay/shapes", onPlane}, // no family, no unit
	{"yardlay/shapes/draft", append([]string{"yardlay/shapes", "yardlay/shapes/outline"}, onPlane...)},
	// Search, bounds and judge know nothing of each other: what one has wrong the others find.
	{"yardlay/nest/nofit", onPlane},
	{"yardlay/nest/search", append([]string{"yardlay/nest/nofit"}, onPlane...)},
	{"yardlay/nest/bound", onPlane},
	{"yardlay/nest/judge", onPlane},
	// pieces moved by hand
	{"yardlay/nest/hand", append([]string{"yardlay/nest", "yardlay/nest/..."}, onPlane...)},
	{"yardlay/nest", append([]string{"yardlay/nest/..."}, onPlane...)},         // no gown, no money
	{"yardlay/cost", []string{"yardlay/shapes/measure", "yardlay/shapes/say"}}, // no layout
	// Within the command: what reads, what lays, what is told of it, what is made of that.
	{rooms + "strict", []string{"yardlay/shapes/measure", "yardlay/shapes/say", "yardlay/cost"}}, // no gown
	// no job, no price
	{rooms + "shelf", append([]string{"yardlay/nest/..."}, onPlane...)},
	// no job, no layout
	{rooms + "sheet", append([]string{"yardlay/shapes/measure"}, onPlane...)},
	// no rows, no job
	{rooms + "chart", append([]string{rooms + "sheet", "yardlay/shapes/measure"}, onPlane...)},
	// full size onto paper: pieces and markers, no job
	{rooms + "paper", append([]string{rooms + "sheet", "yardlay/shapes/measure", "yardlay/nest", "yardlay/nest/..."},
		onPlane...)},
	// no job, no layout
	{rooms + "chalk", append([]string{rooms + "sheet", "yardlay/shapes/measure"}, onPlane...)},
	// for tests: other programs
	{rooms + "outside", nil},
	{rooms + "browser", []string{rooms + "outside"}},
	{rooms + "cutter", []string{rooms + "sheet", "yardlay/shapes/measure", "yardlay/shapes/plane",
		"yardlay/shapes/say"}},
	{rooms + "testdxf", onPlane},                     // for tests
	{rooms + "edit", []string{"yardlay/shapes/say"}}, // text alone
	// files alone
	{rooms + "folder", []string{"yardlay/shapes/say"}},
	{rooms + "job", []string{rooms + "strict", "yardlay/shapes/...", "yardlay/cost"}}, // no layout
	// no layout, no page
	{rooms + "form", []string{rooms + "job", rooms + "edit", rooms + "strict", "yardlay/shapes/...", "yardlay/cost"}},
	// the book beside jobs: no layout, no page
	{rooms + "workroom", []string{rooms + "job", rooms + "form", rooms + "edit", rooms + "folder", rooms + "strict",
		"yardlay/shapes/...", "yardlay/cost"}},
	// no job, no drawing of its own
	{rooms + "take", append([]string{rooms + "edit", "yardlay/shapes/outline"}, onPlane...)},
	// runs a program: never on a page
	{rooms + "pdfpage", []string{"yardlay/shapes/say"}},
	{rooms + "testjobs", []string{rooms + "job", rooms + "strict", "yardlay/shapes/...", "yardlay/cost"}}, // for tests
	{rooms + "plan", onPlan[1:]},
	{rooms + "report", onPlan},
	{rooms + "kept", onPlan},    // no report, no page
	{rooms + "remains", onPlan}, // no report, no book
	// no row, no price
	{rooms + "live", append([]string{rooms + "report", rooms + "kept"}, onPlan...)}, // no page
	{rooms + "depict", append([]string{rooms + "report", rooms + "sheet", rooms + "take", rooms + "edit"}, onPlan...)},
	{rooms + "compare", append([]string{rooms + "report", rooms + "chart", rooms + "sheet"}, onPlan...)},
	{rooms + "quote", append([]string{rooms + "compare", rooms + "report", rooms + "chart", rooms + "sheet"},
		onPlan...)},
	// no layout, no price
	{rooms + "record", []string{rooms + "job", rooms + "strict", rooms + "chart", rooms + "sheet", "yardlay/shapes/...",
		"yardlay/cost"}},
	// what is written of all that
	{rooms + "files", append([]string{rooms + "folder", rooms + "depict", rooms + "compare", rooms + "quote",
		rooms + "record", rooms + "report", rooms + "chart", rooms + "sheet", rooms + "take", rooms + "edit"},
		onPlan...)},
	// no drafting, no laying
	{rooms + "book", append([]string{rooms + "chalk", rooms + "quote", rooms + "compare", rooms + "report",
		rooms + "chart", rooms + "sheet"}, onPlan...)},
	{rooms + "ways", append([]string{rooms + "book", rooms + "chalk", rooms + "cutter", rooms + "paper",
		rooms + "files", rooms + "folder", rooms + "depict", rooms + "quote", rooms + "record", rooms + "compare",
		rooms + "report", rooms + "chart", rooms + "sheet", rooms + "take", rooms + "edit"}, onPlan...)},
	// no layout
	{rooms + "document", []string{rooms + "folder", rooms + "job", rooms + "strict", "yardlay/shapes/...",
		"yardlay/cost"}},
	// what is open on the page: anything but commands
	{rooms + "page", append([]string{rooms + "..."}, onPlan...)},
	{"yardlay/cmd/yardlay", []string{rooms + "...", "yardlay/shapes/...", "yardlay/nest/...", "yardlay/cost"}},
	{"yardlay/benchmarks/...", []string{"yardlay/benchmarks/...", "yardlay/shapes/...",
		"yardlay/nest/...", "yardlay/cost"}},
}

// onPlane is what geometry stands on.
var onPlane = []string{"yardlay/shapes/plane", "yardlay/shapes/say"}

// onPlan is what rooms that stand on plan may import.
var onPlan = []string{
	rooms + "plan", rooms + "shelf", rooms + "job", rooms +
		"strict", "yardlay/shapes/...", "yardlay/nest/...", "yardlay/cost",
}

type importRule struct {
	room    string
	allowed []string
}

// within says whether a package is what a rule names.
func within(pkg, rule string) bool {
	root, below := strings.CutSuffix(rule, "/...")
	return pkg == root || below && strings.HasPrefix(pkg, root+"/")
}

func TestImportsPointOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-e", "-f", `{{.ImportPath}}:{{join .Deps ","}}`, "yardlay/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(out)) {
		pkg, list, _ := strings.Cut(strings.TrimSpace(line), ":")
		deps := slices.DeleteFunc(strings.Split(list, ","), func(dep string) bool {
			return dep != "yardlay" && !strings.HasPrefix(dep, "yardlay/")
		})
		i := slices.IndexFunc(mayImport, func(r importRule) bool { return within(pkg, r.room) })
		if i < 0 {
			t.Errorf("%s is in no room of the import rule", pkg)
			continue
		}
		if pkg == rooms+"page" && slices.Contains(deps, rooms+"pdfpage") {
			t.Error("the page could run a program")
		}
		for _, dep := range deps {
			if !slices.ContainsFunc(mayImport[i].allowed, func(rule string) bool { return within(dep, rule) }) {
				t.Errorf("%s uses %s, the rule allows %v", pkg, dep, mayImport[i].allowed)
			}
		}
	}
}
