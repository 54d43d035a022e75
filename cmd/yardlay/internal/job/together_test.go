package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/draft"
	"yardlay/shapes/outline"
)

// Hours are given, or follow from rates; the job's own way wins over that of its workroom, and what it does not say it
// takes from there.
func TestWaysToGiveHours(t *testing.T) {
	const hours, rates = "hours = 4\n", "seam = \"6 min/m\"\n"
	for _, c := range []struct {
		room, job string
		byRates   bool
		hours     cost.Decimal
	}{
		{"", hours, false, cost.Whole(4)}, {"", rates, true, 0}, {hours, "", false, cost.Whole(4)}, {rates, "", true, 0},
		{rates, hours, false, cost.Whole(4)}, {hours, rates, true, 0}, {rates, "hem = \"2 min/m\"\n", true, 0},
		{rates, "fittings = 1\n", true, 0},
	} {
		room := "unit = \"cm\"\n[labour]\nrate = \"20.00/h\"\nfitting_hours = 1.5\n" + c.room
		f, err := inRoom(t, room, skirtJob("", "", "cloth = \"satin\"", "[labour]\nrate = \"30.00/h\"\n"+c.job))
		if err != nil {
			t.Fatalf("%s and %s: %v", c.room, c.job, err)
		}
		l := f.Job().Labour
		if l.ByRates != c.byRates || !c.byRates && l.Hours != c.hours || l.Rate.Minor != 3000 ||
			l.PerFitting.String() != "1.5" {
			t.Errorf("%s and %s: %+v", c.room, c.job, l)
		}
	}
	f, err := inRoom(t, "unit = \"cm\"\n", skirtJob("", "", `cloth = "satin"`,
		"[labour]\nrate = \"30.00/h\"\nhours = 1\n"))
	if err != nil || f.Job().Labour.PerFitting != usualFitting {
		t.Errorf("%v, a fitting of %v", err, f.Job().Labour.PerFitting)
	}
	for labour, want := range map[string]bool{"hours = 1\n": true, "fittings = 1\n": true, rates: true,
		"hours = 0\n": false, "fitting_hours = 2\n": false} {
		_, err := parse("job.toml", []byte(skirtJob("", "", "cloth = \"satin\"", "[labour]\n"+labour)))
		if got := err != nil && strings.Contains(err.Error(), "[labour] lacks `rate`"); got != want {
			t.Errorf("%s without a rate: %v", labour, err)
		}
	}
}

// A flaw, and a leftover's, may reach the edge of what it lies on and not beyond; both measures of each of its points
// have to be lengths.
func TestFlawsReachTheEdge(t *testing.T) {
	const rest = `have = [ { name = "rest", length = 80, width = 60, flaws = [ %s ] } ]`
	const whole = `have = [ { name = "rest", length = 80, flaws = [ %s ] } ]`
	for _, c := range []struct{ cloth, flaw, wrong string }{
		{"flaws = [ %s ]", "{ from = 10, to = 20, low = 100, high = 150 }", ""},
		{"flaws = [ %s ]", "{ from = 10, to = 20, low = 100, high = 150.1 }", "150.1 cm across, the cloth is 150.0 cm wide"},
		{"flaws = [ %s ]", "{ from = 10, to = 6000 }", ""},
		{"flaws = [ %s ]", "{ from = 10, to = 6001 }", "6001.0 cm along, no lay is longer than 6000.0 cm"},
		{rest, "{ from = 10, to = 80, high = 60 }", ""}, {rest, "{ from = 10, to = 81 }", "the leftover is 80.0 cm long"},
		{rest, "{ from = 10, to = 20, high = 61 }", "the leftover is 60.0 cm wide"},
		{whole, "{ from = 10, to = 20, high = 150 }", ""},
		{whole, "{ from = 10, to = 20, high = 151 }", "the leftover is 150.0 cm wide"},
		{"flaws = [ %s ]", "{ outline = [ [1, 1], [9, 1], [5, 9] ] }", ""},
		{"flaws = [ %s ]", "{ outline = [ [1, 1], [\"x\", 1], [5, 9] ] }", "`outline`: cannot read \"x\""},
		{"flaws = [ %s ]", "{ outline = [ [1, 1], [9, \"x\"], [5, 9] ] }", "`outline`: cannot read \"x\""},
		{"flaws = [ %s ]", "{ outline = [ [1, 1], [9, 1, 1], [5, 9] ] }", "each point is a list of two lengths"},
	} {
		_, err := parse("job.toml", []byte(skirtJob("", fmt.Sprintf(c.cloth, c.flaw), `cloth = "satin"`, "")))
		if got := fmt.Sprint(err); (err == nil) != (c.wrong == "") || err != nil && !strings.Contains(got, c.wrong) ||
			strings.Count(got, "hint:") != strings.Count(got, "job.toml") {
			t.Errorf("%s: %v, want %q", c.flaw, err, c.wrong)
		}
	}
}

// A zip of the centre back says how far a part is closed there; else a notion that follows from openings does, of that
// part and one of its cloths, as long as the part says nothing itself.
func TestHowFarABackIsClosed(t *testing.T) {
	zip := func(length float64, cloths, parts []string) Notion {
		return Notion{By: ByOpening, Length: length, Cloths: cloths, Parts: parts}
	}
	skirt := Part{Name: "alto skirt", Called: "skirt", Layers: []Layer{{Cloth: "satin"}, {Cloth: "lawn"}}}
	closed := func(all ...draft.Closing) Part {
		p := skirt
		for _, c := range all {
			p.Closings = append(p.Closings, Closing{Draft: c})
		}
		return p
	}
	back, side := draft.Closing{At: "centre back", Length: 200}, draft.Closing{At: "left", Length: 150}
	for _, c := range []struct {
		part    Part
		notions []Notion
		want    float64
	}{
		{skirt, nil, 0}, {skirt, []Notion{zip(220, nil, nil)}, 220}, {skirt, []Notion{zip(220, []string{"lawn"}, nil)}, 220},
		{skirt, []Notion{zip(220, []string{"net"}, nil)}, 0}, {skirt, []Notion{zip(220, nil, []string{"skirt"})}, 220},
		{skirt, []Notion{zip(220, nil, []string{"alto skirt"})}, 220},
		{skirt, []Notion{zip(220, nil, []string{"bodice"})}, 0},
		{skirt, []Notion{zip(0, nil, nil), {By: ByLength, Length: 900}, zip(180, nil, nil)}, 180},
		{closed(back), []Notion{zip(220, nil, nil)}, 200}, {closed(side), []Notion{zip(220, nil, nil)}, 0},
		{closed(side, back), nil, 200}, {closed(draft.Closing{At: "centre back"}), []Notion{zip(220, nil, nil)}, 0},
	} {
		if got := (&Job{Notions: c.notions}).Stop(c.part); got != c.want {
			t.Errorf("%+v with %+v is closed over %v mm, want %v", c.part.Closings, c.notions, got, c.want)
		}
	}
}

// Where a measure is taken is said from what to what, and measures that nobody has under the table that gives them.
func TestWhereMeasuresAreTaken(t *testing.T) {
	for taken, want := range map[Taken]string{{}: "", round(Waist): "round " + string(Waist),
		between(Waist, Hips): "from " + string(Waist) + " to " + string(Hips),
		behind(Nape, Waist):  "behind, from " + string(Nape) + " to " + string(Waist)} {
		if got := taken.String(); got != want {
			t.Errorf("%+v reads %q, want %q", taken, got, want)
		}
	}
	for _, name := range MeasureNames() {
		if !IsMeasure(name) {
			t.Errorf("%s is no measure", name)
		}
	}
	if IsMeasure("waist") || IsMeasure("") || len(MeasureNames()) < 20 {
		t.Error("what is no measure is one")
	}
	_, err := ReadWorkroom(WorkroomFile, []byte("unit = \"cm\"\n[[person]]\nname = \"mara\"\n[[person.measured]]\n"+
		"on = 2026-05-01\nwaist_girth = 28\n"))
	_, own := parse("job.toml", []byte("unit = \"cm\"\n[body]\nwaist_girth = 28\n"))
	for under, err := range map[string]error{"[[person]]": err, "[body]": own} {
		var all strict.Errors
		if !errors.As(err, &all) || !slices.ContainsFunc(all, func(e *strict.Error) bool {
			return e.Hint == unusualHint+under && e.What == "`waist_girth` is 28.0 cm (11 in): people measure 40.0 cm to "+
				"165.0 cm there"
		}) {
			t.Errorf("under %s: %v", under, err)
		}
	}
}

// Up to eight shapes of a drawing are named in a hint, of more the number of the others.
func TestShapesAreNamedUpToEight(t *testing.T) {
	var all []outline.Shape
	for n := range 10 {
		all = append(all, outline.Shape{Number: n + 1, Name: "s"})
	}
	for n, want := range map[int]string{0: "", 1: "1 s", 8: "1 s, 2 s, 3 s, 4 s, 5 s, 6 s, 7 s, 8 s",
		9: "1 s, 2 s, 3 s, 4 s, 5 s, 6 s, 7 s, 8 s, 1 more", 10: "1 s, 2 s, 3 s, 4 s, 5 s, 6 s, 7 s, 8 s, 2 more"} {
		if got := shapesNamed(all[:n]); got != want {
			t.Errorf("%d shapes are named %q, want %q", n, got, want)
		}
	}
}

// A leftover of the room lies on one cloth of the job, the first that takes the cloth from there.
func TestALeftoverIsLaidOnOnce(t *testing.T) {
	room := "unit = \"cm\"\n[[cloth]]\nid = \"moon-satin\"\nwidth = 150\n[[leftover]]\nname = \"rest\"\n" +
		"cloth = \"moon-satin\"\nlength = 90\nwidth = 80\n"
	f, err := inRoom(t, room, strings.Replace(strings.Replace(aJob, "[body]\nfrom = \"mara\"\n", "", 1), `[[part]]`,
		"[[cloth]]\nid = \"other\"\nfrom = \"moon-satin\"\n[[part]]", 1)+"waist = 70\n")
	if err != nil {
		t.Fatal(err)
	}
	cloths := f.Job().Cloths
	if len(cloths) != 2 || len(cloths[0].Have) != 1 || cloths[0].Have[0].Name != "rest" || len(cloths[1].Have) != 0 {
		t.Errorf("leftovers %+v and %+v", cloths[0].Have, cloths[1].Have)
	}
}

// A key of a part whose name begins with that of another goes to the longer one.
func TestTheLongerNameFitsBetter(t *testing.T) {
	src := skirtJob("", "", `cloth = "satin"`, "[[part]]\nname = \"skirt.over\"\ndraft = \"rectangle\"\n"+
		"cloth = \"satin\"\nlength = 20\nwidth = 20\n")
	f, err := Read("job.toml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{"skirt.over.length": "30", "skirt.length": "60"} {
		j, err := f.With([]Change{{Key: key, Value: "30"}})
		if err != nil {
			t.Fatal(err)
		}
		first, second := fmt.Sprintf("%+v", j.Parts[0].Layers[0].Draft), fmt.Sprintf("%+v", j.Parts[1].Layers[0].Draft)
		if over := strings.Contains(second, "300"); over != (want == "30") || strings.Contains(first, "300") == over {
			t.Errorf("%s changes %s and %s", key, first, second)
		}
	}
}
