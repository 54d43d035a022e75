package report

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// chorusList is the cut list of the demo of two bodies, some text replaced.
func chorusList(t *testing.T, replace ...string) CutList {
	t.Helper()
	_, list := demoList(t, "chorus-gown", replace...)
	return list
}

// demoList is the cut list of a job of testdata with the job, some text replaced.
func demoList(t *testing.T, of string, replace ...string) (*job.Job, CutList) {
	t.Helper()
	name := "../../../../testdata/" + of + ".toml"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	j := testjobs.File(t, name, strings.NewReplacer(replace...).Replace(string(src))).Job()
	spreads, err := plan.Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	list, err := List(j, spreads, j.Unit)
	if err != nil {
		t.Fatal(err)
	}
	return j, list
}

// Seams name pieces and edges of the cut list; their sides are equally long
// within half a millimetre, the most that a needle can hide.
func TestSeamsAreOfTheCutList(t *testing.T) {
	list := chorusList(t)
	edges := map[string][]string{} // half of a piece on the fold is named as the whole
	for _, c := range list.Pieces {
		for _, e := range c.Edges {
			edges[c.Piece] = append(edges[c.Piece], e.Name)
		}
	}
	for _, s := range list.Seams {
		if math.Abs(s.Difference) > 0.5 || s.A.Finished <= 0 || s.Times < 1 {
			t.Errorf("%s, %s: %.2f and %.2f mm, %d times", s.Part, s.Name, s.A.Finished, s.B.Finished, s.Times)
		}
		for _, e := range slices.Concat(s.A.Edges, s.B.Edges) {
			if !slices.Contains(edges[e.Piece], e.Edge) {
				t.Errorf("%s, %s: no edge %q of %q in the cut list", s.Part, s.Name, e.Edge, e.Piece)
			}
			if s.Body == "" || !strings.HasPrefix(e.Piece, s.Body+" ") {
				t.Errorf("%s: %q is not of body %q", s.Part, e.Piece, s.Body)
			}
		}
	}
}

// Skirt and peplum meet the bodice of their own body at the waist, in each cloth
// that both are cut in; without ease of their own they are an inch too short.
func TestWaistsAreCompared(t *testing.T) {
	waists := func(replace ...string) []Seam {
		return slices.DeleteFunc(chorusList(t, replace...).Seams, func(s Seam) bool { return s.Name != "waist" })
	}
	all := waists()
	if len(all) != 2*(2+1) { // of two bodies, the skirt lined as the bodice is
		t.Fatalf("%d waists", len(all))
	}
	want := map[string]float64{"alto": 31 * 25.4, "soprano": 27.5 * 25.4}
	for _, s := range all {
		if math.Abs(s.A.Finished-want[s.Body]) > 0.3 || math.Abs(s.Difference) > 0.3 || len(s.B.Darts) != 4 {
			t.Errorf("%s in %s: %.1f to %.1f mm, darts %v", s.Part, s.Cloth, s.A.Finished, s.B.Finished, s.B.Darts)
		}
	}
	for _, s := range waists(`waist_ease = "1"`, "") {
		if math.Abs(s.Difference+25.4) > 0.3 {
			t.Errorf("%s: %.1f mm left over, want -25.4", s.Part, s.Difference)
		}
	}
}

// Sleeves are set into the bodice of their own body last, eased by an inch.
func TestSleevesAreSetInLast(t *testing.T) {
	seams := chorusList(t).Seams
	seams = slices.DeleteFunc(seams, func(s Seam) bool { return s.Name == "waist" })
	armholes := seams[len(seams)-2:]
	for i, body := range []string{"alto", "soprano"} {
		s := armholes[i]
		if s.Name != "armhole" || s.Body != body || s.Times != 2 || math.Abs(s.B.Ease-25.4) > 1e-9 {
			t.Errorf("the last seams are %+v", s)
		}
		if s.A.Edges[0].Piece != body+" bodice front" || s.B.Edges[0].Piece != body+" sleeve" {
			t.Errorf("the armhole joins %v to %v", s.A.Edges, s.B.Edges)
		}
		if got := s.B.Cut - s.A.Cut; math.Abs(got-25.4) > 0.5 {
			t.Errorf("the cap is %.1f mm longer than the armhole, want the ease of 25.4", got)
		}
	}
}

// A bodice that is cut in no cloth of the sleeves has no armhole in them.
func TestArmholesNeedACommonCloth(t *testing.T) {
	for _, s := range chorusList(t, `draft  = "bodice-block"`+"\ncloth  = \"satin\"",
		`draft  = "bodice-block"`+"\ncloth  = \"lawn\"").Seams {
		if s.Name == "armhole" {
			t.Errorf("an armhole of %v and %v", s.A.Edges, s.B.Edges)
		}
	}
}

// Every body's pieces bear its name, and those that more than one wears are cut as
// often.
func TestBodiesLabelTheirPieces(t *testing.T) {
	count := func(list CutList, piece, cloth string) int {
		for _, c := range list.Pieces {
			if c.Piece == piece && c.Cloth == cloth {
				return c.Count
			}
		}
		return 0
	}
	one := chorusList(t)
	three := chorusList(t, `name                     = "alto"`, "name = \"alto\"\ncount = 3")
	if a, b := count(one, "alto sleeve", "satin"), count(three, "alto sleeve", "satin"); a != 2 || b != 6 {
		t.Errorf("%d sleeves of one alto, %d of three", a, b)
	}
	if n := count(three, "soprano sleeve", "satin"); n != 2 {
		t.Errorf("%d sleeves of the soprano", n)
	}
	if count(one, "alto cape half", "satin") != 2 || count(one, "soprano cape half", "satin") != 0 {
		t.Error("the cape is for the alto alone")
	}
	for _, c := range one.Pieces {
		if !strings.HasPrefix(c.Piece, c.Body+" ") || c.Body == "" {
			t.Errorf("%q is of %q", c.Piece, c.Body)
		}
	}
}

// A larger body has larger pieces: grading is by drafting again.
func TestBodiesAreDraftedAgain(t *testing.T) {
	across := map[string]float64{}
	for _, c := range chorusList(t).Pieces {
		if c.Cloth == "satin" {
			across[c.Piece] = c.Finished.Across
		}
	}
	for _, piece := range []string{"bodice front", "bodice back", "sleeve", "peplum"} {
		if a, s := across["alto "+piece], across["soprano "+piece]; !(a > s && s > 0) {
			t.Errorf("%s: alto %.1f mm, soprano %.1f mm across", piece, a, s)
		}
	}
}

// Net sewn to a skirt is drawn on its outer cloth alone, a line a layer on each gore,
// and is sewn on once the skirt is together; a layer above the stop of the zip, 12 in
// down, is open. The stop is notched on the centre backs of both cloths.
func TestNetIsSewnOntoItsSkirt(t *testing.T) {
	const name = "../../../../testdata/lantern-gown.toml"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	// The net comes first in the file.
	head, rest, _ := strings.Cut(string(src), "[[part]]\nname   = \"skirt\"")
	skirt, rest, _ := strings.Cut(rest, "[[part]]")
	net, rest, _ := strings.Cut(rest, "[[part]]")
	j := testjobs.File(t, name, head+"[[part]]"+net+"[[part]]\nname   = \"skirt\""+skirt+"[[part]]"+rest).Job()
	spreads, err := plan.Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range spreads {
		for i, cut := range s.Cuts {
			p := cut.Piece
			if s.Cuts[i].Part.Called != "skirt" {
				continue
			}
			if want := map[string]int{"satin": 4}[s.Cloth.ID]; len(p.Inside) != want {
				t.Errorf("%s in %s has %d lines inside, want %d", p.Name, s.Cloth.ID, len(p.Inside), want)
			}
			var names []string
			for _, n := range p.Names {
				names = append(names, n.Name)
			}
			if want := map[string]string{"satin": "net 1,net 2,net 3,net 4"}[s.Cloth.ID]; strings.Join(names,
				",") != want {
				t.Errorf("lines of %s in %s are called %v", p.Name, s.Cloth.ID, names)
			}
			stops := 0
			for _, n := range p.Notches {
				e, _ := p.Edge(n.Edge)
				if at := e.Line[len(e.Line)-1]; e.Name == "centre back" &&
					math.Abs(math.Hypot(n.At[0]-at[0], n.At[1]-at[1])-12*25.4) < 0.01 {
					stops++
				}
			}
			if back := strings.Contains(p.Name, "centre back"); stops > 1 || back != (stops == 1) {
				t.Errorf("%s in %s has %d stops", p.Name, s.Cloth.ID, stops)
			}
		}
	}
	list, err := List(j, spreads, j.Unit)
	if err != nil {
		t.Fatal(err)
	}
	lastOfSkirt, firstOfNet, open := 0, len(list.Seams), ""
	for i, s := range list.Seams {
		if s.Part == "skirt" {
			lastOfSkirt = i
		} else if s.Part == "overskirt" {
			firstOfNet = min(firstOfNet, i)
		}
		if strings.HasSuffix(s.Name, "back open") {
			open += s.Name + ";"
		}
	}
	if last := list.Seams[len(list.Seams)-1]; last.B.Onto != "line net 4 on the skirt" {
		t.Errorf("the last layer is sewn onto %q", last.B.Onto)
	}
	if firstOfNet < lastOfSkirt || open != "layer 4 onto the skirt, back open;" {
		t.Errorf("net is sewn at %d, the skirt up to %d; open: %s", firstOfNet, lastOfSkirt, open)
	}
}
