package draft

import (
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// everyDraft is a worked example of each family, and of what there is to the larger ones.
func everyDraft(t failer) map[string]Draft {
	a := shapes.Allowance{Seam: 12, Waist: 10, Hem: 25}
	block := func(change func(*BodiceBlock)) BodiceBlock { b := lanternBlock(); change(&b); return b }
	gored := fiveGores()
	gored.Chord = 0
	even := gored
	even.Gores, even.FrontHem = 8, 0
	circle := CircleSkirt{Fraction: .5, Gores: 6, Waist: 720, Length: 900, Opening: true, Allowance: a}
	folded := circle
	folded.FrontOnFold = true
	seamed := workedCape(.75)
	seamed.BackSeam = true
	inTwo := workedOverskirt()
	inTwo.Sections, inTwo.BackSeam = 4, false
	cuffed := slitted(t)
	all := map[string]Draft{"block": lanternBlock(), "child's block": childBlock(),
		"off the shoulder":         offShoulder(60),
		"block, back on the fold":  block(func(b *BodiceBlock) { b.FrontOnFold, b.BackOnFold = false, true }),
		"block, both centres sewn": block(func(b *BodiceBlock) { b.FrontOnFold = false }),
		"block in panels":          block(func(b *BodiceBlock) { b.PanelsFrom = DartAtShoulder }),
		"corset":                   lanternCorset(), "strapless": lanternStrapless(), "gored": gored,
		"eight gores": even, "circle": circle,
		"circle on the fold": folded, "gathered": workedGathered(), "pleated": workedPleated(),
		"petticoat":  workedPetticoat(),
		"short yoke": shortYoke(), "hoops": workedHoops(), "handkerchief": workedHandkerchief(4),
		"overskirt":         workedOverskirt(),
		"overskirt in four": inTwo, "peplum": workedPeplum(), "petals": workedPetals(), "cape": workedCape(.75),
		"cape with a seam": seamed, "fitted cape": fittedCape(), "hood": workedHood(), "flounce": workedFlounce(),
		"net": workedNet(), "band": workedBand(), "binding": workedBinding(true, 90),
		"straight binding": workedBinding(false, 90),
		"veil":             workedVeil(), "sash": workedSash(), "bow": workedBow(), "ties": Ties{Length: 400, Width: 20,
			Slant: 15, Count: 4, Allowance: a},
		"rectangle":     Rectangle{Name: "belt", Length: 700, Width: 90, Hemmed: true, Allowance: a},
		"cuffed sleeve": cuffed,
		"loops":         Loops{Count: 12, Length: 50, Width: 5, ClothWidth: 1400, Allowance: a}}
	for _, style := range []CollarStyle{StandCollar, FlatCollar, RuffCollar} {
		all["collar "+string(style)] = workedCollar(style)
	}
	for _, style := range []SleeveStyle{StraightSleeve, BellSleeve, PuffSleeve, BishopSleeve,
		LegOfMuttonSleeve, TwoPieceSleeve, FlutterSleeve} {
		all["sleeve "+string(rune(48+style))] = lanternSleeve(t, style)
	}
	for name, skirt := range trainSkirts() {
		all["train on "+name] = Train{Skirt: skirt, Behind: 400}
	}
	return all
}

// families are the worked examples in order, each with what it comes to.
func families(t failer) (names []string, drafts map[string]Draft, made map[string]Result) {
	t.Helper()
	drafted.Do(func() { drafted.all, drafted.made = everyDraft(t), map[string]Result{} })
	for name, d := range drafted.all {
		if _, ok := drafted.made[name]; ok {
			continue
		}
		var err error
		if drafted.made[name], err = d.Draft(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	return slices.Sorted(maps.Keys(drafted.all)), drafted.all, drafted.made
}

var drafted struct {
	sync.Once
	all  map[string]Draft
	made map[string]Result
}

// sewnToOthers are the edges of kind Seam that other parts, or the two ends of the piece itself, are sewn to.
var sewnToOthers = []string{"armhole", "front cap", "back cap", "inner edge", "near end", "far end", "start",
	"underlap end",
	"near edge", "far edge", "lower join", "upper join", "lower side", "upper side"}

// A seam takes up each edge on every copy of its piece once, or not at all; a fold is sewn to nothing, nor a hem;
// and what a draft leaves unsewn is what another part is sewn to. Drafted again all is the same.
func TestEverySeamIsSewnOnce(t *testing.T) {
	names, drafts, made := families(t)
	for _, name := range names {
		if again, err := drafts[name].Draft(); err != nil || !reflect.DeepEqual(made[name], again) {
			t.Errorf("%s: another draft the second time, %v", name, err)
		}
		sewn := map[string]int{}
		for _, j := range made[name].Joins {
			for _, e := range slices.Concat(j.A.Edges, j.B.Edges) {
				sewn[e.Piece+", "+e.Edge] += max(j.Times, 1) * max(e.Copies, 1)
			}
		}
		for _, p := range made[name].Pieces {
			soundGrain(t, p)
			for _, e := range p.Edges {
				key, copies := p.Name+", "+e.Name, p.Count*layers(p)
				n, ok := sewn[key]
				delete(sewn, key)
				switch {
				case ok && (e.Kind == shapes.Fold || e.Kind == shapes.Hem):
					t.Errorf("%s: %s, a %v, is sewn", name, key, e.Kind)
				case ok && n != copies:
					t.Errorf("%s: %s is sewn %d times on %d copies", name, key, n, copies)
				case !ok && e.Kind == shapes.Seam && !slices.Contains(sewnToOthers, e.Name):
					t.Errorf("%s: %s is sewn to nothing", name, key)
				}
			}
		}
		if len(sewn) > 0 {
			t.Errorf("%s: there are no edges %v", name, slices.Sorted(maps.Keys(sewn)))
		}
		steps, err := shapes.SewingOrder(made[name].Pieces, made[name].Joins)
		for _, step := range steps {
			near(t, name+", "+step.Join.Name+", its sides", step.Difference, 0, seamSlack)
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// finishedArea is what all copies of some pieces cover, finished.
func finishedArea(pieces []shapes.Piece) (mm2 float64) {
	for _, p := range pieces {
		mm2 += float64(p.Count*layers(p)) * plane.Area(p.Seam)
	}
	return mm2
}

// Cut in another number of pieces a garment is as large, and with two pieces in one on a fold too, with a seam
// less. Half of an even number of pieces is another way to cut the same.
func TestDividedDraftsAreAsLarge(t *testing.T) {
	names, drafts, made := families(t)
	divided, centred := 0, 0
	for _, name := range names {
		area := finishedArea(made[name].Pieces)
		if d, ok := drafts[name].(Divided); ok && d.Division().Called != "" {
			for _, n := range []int{4, 6, 8} {
				other := d.Divide(n).(Divided)
				if got := other.Division(); got.Pieces != n || got.Called != d.Division().Called {
					t.Errorf("%s: divided by %d it says %+v", name, n, got)
				}
				again, err := other.Draft()
				if err != nil {
					continue // on a fold, or with a dart where no seam is
				}
				divided++
				share := .02
				if strings.HasPrefix(name, "train") { // it ends at another seam
					share = .1
				}
				if is := finishedArea(again.Pieces); math.Abs(is-area) > share*area {
					t.Errorf("%s: %.0f mm2 in %d pieces, were %.0f", name, is, n, area)
				}
			}
		}
		if d, ok := drafts[name].(Centred); ok {
			joined, called, _, can := d.InOne()
			again, err := joined.Draft()
			if !can || err != nil {
				continue
			}
			centred++
			if is := finishedArea(again.Pieces); math.Abs(is-area) > 1e-3*area {
				t.Errorf("%s: %.0f mm2 in one, were %.0f", name, is, area)
			}
			before, after := 0, 0
			for _, j := range made[name].Joins {
				before += j.Times
			}
			for _, j := range again.Joins {
				after += j.Times
			}
			folds := 0
			for _, p := range again.Pieces {
				folds += layers(p) - 1
			}
			if after != before-1 && before > 0 || folds != 1 || !strings.HasSuffix(called, "_on_fold") {
				t.Errorf("%s: %d seams and %d folds by %s, were %d seams", name, after, folds, called, before)
			}
			if _, _, _, can := joined.(Centred).InOne(); can {
				t.Errorf("%s: cut in one it can be cut in one again", name)
			}
		}
	}
	if divided < 10 || centred < 2 {
		t.Errorf("%d were divided, %d cut in one", divided, centred)
	}
}

// Hems that run straight on, or that take the allowance of a lining, leave what is finished as it is; the side that
// is sewn to the lining is as long as all hems are; and what is cut grows or shrinks by strips along the hems.
func TestHemsThatAreFinished(t *testing.T) {
	names, _, made := families(t)
	for _, name := range names {
		d := made[name]
		hems, strips := 0., 0.
		for _, p := range d.Pieces {
			for _, e := range p.Edges {
				if e.Kind == shapes.Hem {
					hems += float64(p.Count*layers(p)) * e.Length()
					strips += float64(p.Count*layers(p)) * e.Length() * (e.Allowance - 6)
				}
			}
		}
		straight, err := Finish{StraightHem: true}.Of(d)
		bagged, err2 := Finish{BaggedHem: true, Seam: 6}.Of(d)
		if hems == 0 {
			if err == nil || err2 == nil {
				t.Errorf("%s has no hem, which is finished", name)
			}
			continue
		}
		if err != nil || err2 != nil {
			t.Errorf("%s: %v, %v", name, err, err2)
			continue
		}
		for i, p := range d.Pieces {
			for _, other := range []shapes.Piece{straight.Pieces[i], bagged.Pieces[i]} {
				near(t, name+" finished", plane.Area(other.Seam), plane.Area(p.Seam), 1e-3*plane.Area(p.Seam))
			}
			for _, e := range bagged.Pieces[i].Edges {
				if e.Kind == shapes.Hem {
					t.Errorf("%s: %s is a hem still", name, e.Name)
				}
			}
		}
		_, long, err := bagged.Bag.Measure(bagged.Pieces)
		if taken := hems - long; err != nil || taken < -1e-3 || taken > .1*hems {
			t.Errorf("%s: its hems are %.1f long, and sewn to a lining along %.1f, %v", name, hems, long, err)
		}
		was, is := 0., 0.
		for i, p := range d.Pieces {
			was, is = was+float64(p.Count*layers(p))*p.Area(), is+float64(p.Count*layers(p))*bagged.Pieces[i].Area()
		}
		if less := was - is; math.Abs(less-strips) > .1*math.Abs(strips)+3000 {
			t.Errorf("%s: bagged it is cut %.0f mm2 less, its hems lose %.0f", name, less, strips)
		}
	}
}

// faceable are families with edges at every place, enough of each.
var faceable = []string{"block", "child's block", "block in panels", "off the shoulder", "circle on the fold",
	"gored", "band",
	"cuffed sleeve", "strapless"}

// Facings of every place that a draft has edges at are sewn to those; interfacing of one is as large, and is
// fused: it has no seams, no notches and one allowance all round.
func TestFacingsAndTheirInterfacing(t *testing.T) {
	names, drafts, made := families(t)
	faced := map[Place]int{}
	for _, name := range names {
		if !slices.Contains(faceable, name) {
			continue
		}
		for _, at := range []Place{AtNeck, AtArmhole, AtWaist, AtTop, AtHem} {
			has := len(edgesAt(made[name].Pieces, at).Edges) > 0
			if !has && name != "block" {
				continue
			}
			f := Facing{Of: drafts[name], At: at, Width: 35, Seam: 12, Free: 5, Bare: 3}
			d, err := f.Draft()
			if !has && (err == nil || !strings.Contains(err.Error(), "there is no edge at the "+string(at))) {
				t.Errorf("%s has no edge at its %s: %v", name, at, err)
			}
			if err != nil {
				continue // what bends or turns is refused
			}
			faced[at]++
			f.Fused = true
			fused, err := f.Draft()
			if err != nil || len(fused.Pieces) != len(d.Pieces) {
				t.Errorf("%s: interfacing at the %s: %v", name, at, err)
				continue
			}
			if len(fused.Joins)+len(fused.Faced.A.Edges) > 0 || !fused.Fused || d.Fused || !d.Apart {
				t.Errorf("%s: interfacing at the %s is sewn", name, at)
			}
			for i, p := range fused.Pieces {
				whole := d.Pieces[i]
				near(t, name, plane.Area(p.Seam), plane.Area(whole.Seam), 1e-6*plane.Area(whole.Seam))
				if p.Name != whole.Name+", interfacing" || len(p.Notches) > 0 || p.Count != whole.Count ||
					p.Pair != whole.Pair {
					t.Errorf("%s: %q of %d is the interfacing of %q of %d", name, p.Name, p.Count, whole.Name,
						whole.Count)
				}
				for _, e := range p.Edges {
					if want := map[bool]float64{true: 0, false: 3}[e.Kind == shapes.Fold]; e.Allowance != want {
						t.Errorf("%s: %s has an allowance of %g", p.Name, e.Name, e.Allowance)
					}
				}
			}
		}
	}
	for _, at := range []Place{AtNeck, AtArmhole, AtWaist, AtHem} {
		if faced[at] < 2 {
			t.Errorf("%d are faced at the %s", faced[at], at)
		}
	}
}

// Facings of neck and armhole that overlap on the shoulder, 125 mm long, are refused; those that just meet are not.
func TestFacingsThatOverlap(t *testing.T) {
	block := lanternBlock()
	made, err := block.Draft()
	if err != nil {
		t.Fatal(err)
	}
	shoulder := made.Pieces[0]
	e, _ := shoulder.Edge("shoulder")
	for spare, ok := range map[float64]bool{1: true, -1: false} {
		neck := Facing{Of: block, At: AtNeck, Width: 50}
		armhole := Facing{Of: block, At: AtArmhole, Width: e.Length() - 50 - spare}
		for _, both := range [][]Facing{{neck, armhole}, {armhole, neck}} {
			err := CheckFacings(made, both)
			if ok != (err == nil) || err != nil && !strings.Contains(err.Error(), "overlap on its shoulder") {
				t.Errorf("with %g to spare: %v", spare, err)
			}
		}
		if err := CheckFacings(made, []Facing{neck}); err != nil {
			t.Error(err)
		}
	}
}

// Where a draft opens: by its edges, or where its free ends meet.
func TestWhereDraftsOpen(t *testing.T) {
	_, _, made := families(t)
	for name, want := range map[string][]string{"block": {"centre back"}, "block, back on the fold": {"centre front"},
		"block, both centres sewn": {"centre front", "centre back"}, "circle": {"centre back"},
		"gathered": {"centre back"},
		"pleated":  {"centre back"}, "strapless": {"centre back"}, "corset": {"centre back"}, "band": nil, "sash": nil,
		"gored": {"centre back"}, "hoops": {"centre back"}, "peplum": {"centre back"}} {
		if got := made[name].OpensAt(); !slices.Equal(got, want) {
			t.Errorf("%s opens at %q, want %q", name, got, want)
		}
	}
}

// A gore on the fold of the cloth loses its corner away from the fold, half of what is too wide on each layer, and
// is sewn again to what it was.
func TestPiecedOnTheFold(t *testing.T) {
	pieced := 0
	rapid.Check(t, func(t *rapid.T) {
		skirt := CircleSkirt{Fraction: rapid.Float64Range(.3, 1).Draw(t, "fraction"), Waist: 700, Gores: 4,
			Opening: true,
			Length:  rapid.Float64Range(500, 1000).Draw(t, "length"), FrontOnFold: true,
			Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 20}}
		whole, err := skirt.Draft()
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(whole.Pieces, func(p shapes.Piece) bool { return p.OnFold })
		whole.Pieces = whole.Pieces[i : i+1]
		whole.Joins = nil
		_, across := whole.Pieces[0].Unfold().CutSize()
		c := Corners{Within: across * rapid.Float64Range(.6, .95).Draw(t, "within"), Most: 1, FromWaist: 100,
			Allowance: 8}
		made, err := c.Of(whole)
		if err != nil || len(made.Pieces) < 2 {
			return
		}
		pieced++
		main, corner := made.Pieces[0], made.Pieces[1]
		if _, is := main.Unfold().CutSize(); !main.OnFold || is > c.Within+2*plane.Lattice {
			t.Errorf("%s is %v wide, on the fold %v, allowed are %v", main.Name, is, main.OnFold, c.Within)
		}
		if corner.OnFold || corner.Count != 2 || !corner.Pair {
			t.Errorf("%d of %s are cut, a pair %v, on the fold %v", corner.Count, corner.Name, corner.Pair,
				corner.OnFold)
		}
		near(t, "area", finishedArea(made.Pieces), finishedArea(whole.Pieces), 1e-6*finishedArea(whole.Pieces))
		cutAreas(t, c, whole, made)
		if w := WidestSeam(made.Pieces...); w != 12 {
			t.Errorf("the widest seam has %v", w)
		}
	})
	if pieced < often.Enough(5) {
		t.Errorf("only %d were pieced", pieced)
	}
}
