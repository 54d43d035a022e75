package report

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// cells lists a table line by line, its caption and heads first.
func cells(grids []Grid) (all []string) {
	for _, g := range grids {
		all = append(all, g.Caption, strings.Join(g.Heads, "|"))
		for _, row := range g.Rows {
			all = append(all, strings.Join(row, "|"))
		}
		all = append(all, g.Notes...)
	}
	return all
}

// Tables of tiers, of net and of a binding, cell by cell: sizes in the one unit, cloth in the other and rounded up.
// The first tier is gathered onto nothing.
func TestTablesCellByCell(t *testing.T) {
	in := func(n float64) float64 { return n * measure.Inches }
	tiers := Table{Part: "ruffle", Cloth: "net", Tiers: []Tier{{Tier: 1, Flat: in(80), Depth: in(9), CutDepth: in(10.5),
		Strips: 2, Cloth: in(21)}, {Tier: 2, Edge: in(80), Flat: in(160), Fullness: 2, Depth: in(12), CutDepth: in(13.5),
		Strips: 3, Cloth: in(40.6)}}}
	net := Table{Part: "puff", Cloth: "tulle", Layers: []NetLayer{{Layer: 1, Depth: in(23), Girth: in(60), Flat: in(216),
		Fullness: 3.6, Strips: 4, CutDepth: in(18.5), Cloth: in(74), Quarters: [4]float64{in(7.5), in(22.5), in(37.5),
			in(52.5)}, Open: true}}}
	binding := Table{Part: "edge", Cloth: "satin", Binding: &Binding{CutWidth: in(2), Strips: 3, Joins: 2, Length: in(90),
		Cloth: in(6.1)}}
	for _, c := range []struct {
		table     Table
		unit, buy measure.Unit
		want      []string
	}{
		{tiers, measure.Inch, measure.Yard, []string{"ruffle in net, in inches; cloth at one strip a row, in yards",
			"tier|depth|gathered to|flat edge|full|strips|cut depth|cloth",
			"1|9|-|80|-|2|10 1/2|5/8", "2|12|80|160|2.00|3|13 1/2|1 1/4"}}, // 40.6 in are 9.02 eighths of a yard
		{net, measure.Inch, measure.Yard, []string{"puff in tulle, in inches; cloth at one strip a row, in yards",
			"layer|from waist|gathered to|flat edge|full|strips|cut depth|cloth", "1|23|60|216|3.60|4|18 1/2|2 1/8",
			"Pin the notches of the flat edge this far round the skirt from centre back:", "layer|first|second|third|last",
			"1|7 1/2|22 1/2|37 1/2|52 1/2", "Layer 1 crosses the opening: leave its ends open at centre back."}},
		{binding, measure.Centimetre, measure.Metre, []string{"edge in satin, in centimetres: 3 strips 5.1 wide with " +
			"joins: 2, together 228.6 long; side by side they take 15.5 of cloth", ""}},
	} {
		if diff := cmp.Diff(c.want, cells(c.table.Grids(c.unit, c.buy))); diff != "" {
			t.Error(diff)
		}
	}
}

// What closes an opening is listed with what it has: places and their pitch where there are some, the inset of eyelets
// alone, the ends of a busk.
func TestClosingsHaveWhatTheyAreMadeOf(t *testing.T) {
	all := closedOf("bodice", "satin", draft.Result{Closed: []draft.Closed{
		{At: "centre back", From: draft.TheTop, By: draft.Zip, Length: 300, Pitch: 20, First: 10, Inset: 8, Times: 1},
		{At: "centre back", From: draft.TheTop, By: draft.Lacing, Length: 300, Places: 15, Pitch: 20, First: 10, Inset: 8,
			Times: 1},
		{At: "centre front", From: draft.TheTop, By: draft.Buttons, Length: 300, Places: 1, Pitch: 20, First: 10, Inset: 8,
			Stand: 15, Times: 2},
		{At: "left", Seam: "side seam", From: draft.TheWaist, By: draft.Busk, Length: 280, First: 12, Times: 1},
	}})
	want := []Closed{
		{Part: "bodice", Cloth: "satin", At: "centre back", From: "top", By: "zip", Length: 300},
		{Part: "bodice", Cloth: "satin", At: "centre back", From: "top", By: "lacing", Length: 300, Places: 15, Pitch: 20,
			First: 10, Inset: 8, Set: 30},
		{Part: "bodice", Cloth: "satin", At: "centre front", From: "top", By: "buttons", Length: 300, Places: 1, Pitch: 20,
			First: 10, Stand: 15, Set: 2},
		{Part: "bodice", Cloth: "satin", At: "left", Seam: "side seam", From: "waist", By: "busk", Length: 280, First: 12},
	}
	if diff := cmp.Diff(want, all); diff != "" {
		t.Error(diff)
	}
}

// What has one bone alone, or one tape, is listed, and what has neither is not.
func TestOneBoneOrTapeIsListed(t *testing.T) {
	bone, tape := []draft.Bone{{Count: 1, Length: 300, Ends: 6}}, []draft.Tape{{Name: "waist tape", Count: 1}}
	for _, c := range []struct {
		made draft.Result
		rows int
		says int
		want int
	}{
		{draft.Result{}, 0, 0, 0}, {draft.Result{Bones: bone}, 1, 0, 1}, {draft.Result{Tapes: tape}, 0, 1, 1},
		{draft.Result{Bones: bone, Tapes: tape}, 1, 1, 1},
	} {
		all := bonedOf("bodice", "satin", c.made)
		if len(all) != c.want {
			t.Errorf("%+v is listed as %+v", c.made, all)
			continue
		}
		for _, b := range all {
			if g := b.Grid(measure.Millimetre); len(g.Rows) != c.rows || len(b.Words(measure.Millimetre)) != c.says ||
				c.rows > 0 && g.Caption != "bodice in satin, in millimetres. A bone ends 6.0 mm from each finished edge. Its "+
					"casing is caught in the allowances of both." {
				t.Errorf("%+v, %q", g, b.Words(measure.Millimetre))
			}
		}
	}
}

// Who wears or cuts what catches fire or springs open is cautioned, cutting last; other cloths of the job need no such
// words.
func TestWhatIsCautionedOf(t *testing.T) {
	const head = "unit = \"in\"\n[body]\nwaist_girth = 28\nhip_girth = 38\nwaist_to_hips = 8\n[allowance]\n" +
		"seam = \"1/2\"\nhem = 1\n[[cloth]]\nid = \"cloth\"\nwidth = 58\n"
	hoops := job.ExampleIn("hoop-petticoat", measure.Inch)
	src := head + "[[part]]\nname = \"hoops\"\ncloth = \"cloth\"\n"
	for _, g := range hoops {
		src += g.Key + " = " + g.TOML + "\n"
	}
	for _, c := range []struct {
		src  string
		want []string
	}{
		{testjobs.Panels(1, "20", "30", ""), []string{cutCaution}}, {src, []string{hoopCaution, cutCaution}},
	} {
		spreads, err := plan.Draw(testjobs.Read(t, c.src))
		if err != nil {
			t.Fatal(err)
		}
		got := Cautions(spreads)
		slices.Sort(got)
		want := slices.Sorted(slices.Values(c.want))
		if diff := cmp.Diff(want, got); diff != "" {
			t.Error(diff)
		}
		spreads[0].Cloth.Net = true
		if got := Cautions(spreads); got[0] != netCaution || len(got) != len(c.want)+1 {
			t.Errorf("of net %q", got)
		}
	}
}

// By which measures a body is drafted that nobody took is said once for each source, with the parts it is of.
func TestWhatNobodyMeasured(t *testing.T) {
	part := func(name, body string, all ...job.Unmeasured) job.Part {
		return job.Part{Name: name, Body: body, Unmeasured: all}
	}
	neck := job.Unmeasured{Name: "neck_base_girth", MM: 14 * measure.Inches, From: "from a table"}
	wrist := job.Unmeasured{Name: "wrist_girth", MM: 6 * measure.Inches, From: "reckoned"}
	hand := job.Unmeasured{Name: "hand_girth", MM: 8 * measure.Inches, From: "from a table"}
	j := &job.Job{Bodies: []job.Body{{}, {Name: "alto"}, {Name: "bass"}}, Parts: []job.Part{
		part("collar", "", neck), part("sleeve", "", wrist, hand), part("sleeve", "", neck), part("sleeve", "alto", wrist)}}
	var all []string
	for _, r := range unmeasured(j, measure.Inch) {
		all = append(all, strings.Join(r.parts, "+")+": "+r.text)
	}
	if diff := cmp.Diff([]string{
		"collar+sleeve: Not measured, from a table: `neck_base_girth` 14 in, `hand_girth` 8 in. Measure before you cut.",
		"sleeve: Not measured, reckoned: `wrist_girth` 6 in. Measure before you cut.",
		"sleeve: alto: not measured, reckoned: `wrist_girth` 6 in. Measure before you cut."}, all); diff != "" {
		t.Error(diff)
	}
}

// What one wearer takes is said of each cloth, and of how many who wear the same.
func TestWhatAWearerTakesInWords(t *testing.T) {
	w := Wearer{Body: "alto", Count: 1, Cloths: []WearerCloth{{ID: "satin", Bought: measure.Yards},
		{ID: "net", Bought: 2 * measure.Yards}}}
	if got := w.Words(measure.Inch); got != "alto: satin 1 yd, net 2 yd" {
		t.Error(got)
	}
	if w.Count = 2; w.Words(measure.Inch) != "alto, each of 2: satin 1 yd, net 2 yd" {
		t.Error(w.Words(measure.Inch))
	}
}
