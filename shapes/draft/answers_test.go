package draft

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// What a draft may be asked besides its pieces.
func TestWhatDraftsAnswer(t *testing.T) {
	bodice := lanternBlock()
	sleeve := lanternSleeve(t, StraightSleeve)
	set, err := sleeve.SetInto(bodice).Draft()
	own, err2 := sleeve.Draft()
	if err != nil || err2 != nil || math.Abs(set.Pieces[0].Area()-own.Pieces[0].Area()) > 1 {
		t.Errorf("set into its own bodice it covers %g, %g by its armholes: %v", set.Pieces[0].Area(),
			own.Pieces[0].Area(), err)
	}
	if _, err = sleeve.SetInto(workedGathered()).Draft(); err == nil ||
		err.Error() != "sleeve: armholes of a draft without armholes" {
		t.Errorf("set into a skirt: %v", err)
	}
	collar := workedCollar(StandCollar)
	if collar.AsksNeck() {
		t.Error("a collar with a neck asks for one")
	}
	if collar.Neck = 0; !collar.AsksNeck() {
		t.Error("a collar without a neck asks for none")
	}
	fitted, err := collar.ToNeck(bodice).Draft()
	neck, err2 := NeckOf(must(t, bodice))
	_, round, err3 := neck.Measure(must(t, bodice).Pieces)
	if err = errors.Join(err, err2, err3); err != nil {
		t.Fatal(err)
	}
	edge, _ := fitted.Pieces[0].Edge("neck")
	near(t, "neck of the collar", 2*edge.Length(), round, .2)

	net := workedNet()
	if asked := net.Asked(); asked != (Fullness{Widths: 4}) || net.Lines() != 10 {
		t.Errorf("%+v, %d lines", asked, net.Lines())
	}
	if more := net.OfWidths(6).(NetLayers); more.Widths != 6 || more.Fullness != 0 {
		t.Errorf("%+v", more)
	}
	net.SkirtFraction = 0
	_, err = net.OnSkirt(workedGathered(), 0, 10)
	if !errors.Is(err, ErrNotOnSkirt) {
		t.Errorf("net on a gathered skirt: %v", err)
	}
	bad := &BadSkirt{Err: say.Errorf("too wide").Hint("narrower")}
	if what, hint := bad.Parts(nil); what != "too wide" || hint != "narrower" || bad.Unwrap() != bad.Err {
		t.Errorf("%q, %q", what, hint)
	}
	for p, want := range map[Passage]string{OverHips: "hip", OverBust: "bust", OverHead: "head", OverHand: "hand",
		9: "Passage(9)"} {
		if p.String() != want {
			t.Errorf("%d is %q", int(p), p)
		}
	}
	if at := (Result{EndsAt: "centre front"}).OpensAt(); !slices.Equal(at, []string{"centre front"}) {
		t.Errorf("ends that meet in front: %v", at)
	}
}

func must(t *testing.T, d Draft) Result {
	t.Helper()
	made, err := d.Draft()
	if err != nil {
		t.Fatal(err)
	}
	return made
}

// By what their numbers are called, and in which steps they are worth varying; sectors of a ring lie flat side by
// side.
func TestDivisionsOfFamilies(t *testing.T) {
	_, drafts, _ := families(t)
	for name, want := range map[string]Division{
		"circle": {"gores", 6, 1, true}, "circle on the fold": {"gores", 6, 2, false}, "eight gores": {"gores", 8, 1,
			false},
		"cape": {"sections", 0, 0, true}, "peplum": {"sections", 0, 0, true}, "overskirt in four": {"sections", 4, 0,
			true},
		"train on circle": {"gores", 5, 1, false}} {
		d, ok := drafts[name].(Divided)
		if !ok {
			t.Fatalf("%s is not divided", name)
		}
		got := d.Division()
		if name == "train on circle" {
			want.Pieces = got.Pieces
		}
		if got != want {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
}

// Bias strips are cut on the bias, and nothing else of the worked examples is.
func TestWhatIsCutOnTheBias(t *testing.T) {
	names, _, made := families(t)
	for _, name := range names {
		for _, p := range made[name].Pieces {
			if want := name == "binding" || name == "loops"; p.Bias != want {
				t.Errorf("%s: %s is on the bias: %v", name, p.Name, p.Bias)
			}
		}
	}
}

// A wedge has two straight sides, each sewn to one side of a slit as long, on both sides of the body, with a notch
// half way.
func TestSeamsOfGussets(t *testing.T) {
	c := lanternCorset()
	c.Panels, c.Channel, c.MidBones, c.Facing, c.HipGusset = 8, 0, false, 0, 70
	d := must(t, c)
	i := slices.IndexFunc(d.Pieces, func(p shapes.Piece) bool { return strings.HasSuffix(p.Name, "hip gusset") })
	wedge := d.Pieces[i]
	var names []string
	for _, j := range d.Joins {
		if j.A.Edges[0].Piece != wedge.Name {
			continue
		}
		names = append(names, j.Name)
		side, _ := wedge.Edge(j.A.Edges[0].Edge)
		if math.Abs(side.Length()-j.B.Length) > .3 || !alike(j.Notches, []float64{j.B.Length / 2}) || j.Times != 2 ||
			j.B.Onto != "one side of the slit" {
			t.Errorf("%+v; the wedge is %g long", j, side.Length())
		}
	}
	if want := []string{wedge.Name + ", lower side", wedge.Name + ", upper side"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	if wedge.Count != 2 || !d.Gusseted {
		t.Errorf("%d cut, gusseted %v", wedge.Count, d.Gusseted)
	}
}

// Finishing reckons lace first and says so; what is gathered is not faced, nor what is not there.
func TestFinishesThatSay(t *testing.T) {
	sash := must(t, Rectangle{Name: "belt", Length: 700, Width: 90, Hemmed: true,
		Allowance: shapes.Allowance{Seam: 10, Hem: 10}})
	d, err := Finish{Edgings: []Edging{{At: AtHem, Width: 20, Lap: 10, Beyond: true}}}.Of(sash)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Edged) != 1 || len(sash.Edged) != 0 || !strings.HasPrefix(d.Notes[len(d.Notes)-1].String(),
		"Lace 20.0 mm wide along the hem, sewn on by its plain edge: ") {
		t.Errorf("%+v, %v", d.Edged, d.Notes)
	}
	for name, c := range map[string]struct {
		of   Draft
		how  Finish
		want string
	}{
		"a gathered top": {workedGathered(), Finish{Faced: []Place{AtHem, AtTop}, Seam: 10},
			"its top is gathered and sewn on, and cannot be faced\n  hint: leave out its facing"},
		"no armhole": {workedCape(.75), Finish{Faced: []Place{AtArmhole}, Seam: 10},
			"there is no edge at the armhole to face\n  hint: it has edges at the neck, top and hem"},
		"no edges": {workedBow(), Finish{Faced: []Place{AtHem}, Seam: 10},
			"there is no edge at the hem to face\n  hint: leave out its facing"},
		"no hem": {workedBand(), Finish{StraightHem: true},
			"there is no hem to finish\n  hint: leave out `hem_corners`, `bag_hem` and `jump_hem`, or let its lower " +
				"edge be a hem where it has a `lower_edge`"},
		"no edge for lace": {workedBow(), Finish{Edgings: []Edging{{At: AtHem, Width: 20}}},
			"there is no edge at the hem for lace\n  hint: leave out its facing"},
		"lace of no width": {workedCape(.75), Finish{Edgings: []Edging{{At: AtHem}}},
			"width of the lace is 0 mm, must be more than 0"},
		"a lap below none": {workedCape(.75), Finish{Edgings: []Edging{{At: AtHem, Width: 9, Lap: -1}}},
			"lap of the lace is -1 mm, must be 0 or more"},
	} {
		_, err := c.how.Of(must(t, c.of))
		if got := fmt.Sprint(err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
}
