package job

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/plane"
)

// exampleJob is a job of the one part that a draft shows as its example.
func exampleJob(d family) string {
	body := strings.Replace(measured, "[[part]]", "[[cloth]]\nid = \"fusible\"\nwidth = 36\n[[part]]", 1)
	return body + exampleLines(d.example)
}

// What every example drafts can be cut and sewn: opened out its pieces are simple
// outlines, counter-clockwise, with their seam lines inside; the sides of each
// seam are equally long within half a millimetre once ease and gathers are
// worked in.
func TestEveryDraftCanBeCutAndSewn(t *testing.T) {
	for _, d := range drafts {
		if d.name == outlineFile.name {
			continue // reads a file
		}
		t.Run(d.name, func(t *testing.T) {
			for _, l := range parsed(t, exampleJob(d)).Parts[0].Layers {
				made, err := l.Drafted()
				if err != nil {
					t.Fatal(err)
				}
				for _, p := range made.Pieces {
					checkPiece(t, p)
				}
				checkSeams(t, made)
			}
		})
	}
}

func checkPiece(t *testing.T, p shapes.Piece) {
	t.Helper()
	whole := p.Unfold()
	if err := plane.CheckSimple(whole.Cut); err != nil {
		t.Errorf("%s: cut line: %v", p.Name, err)
	}
	if err := plane.CheckSimple(whole.Seam); err != nil {
		t.Errorf("%s: seam line: %v", p.Name, err)
	}
	cut, seam := plane.Area(whole.Cut), plane.Area(whole.Seam)
	if !(seam > 0 && cut > seam-plane.Lattice*plane.Length(orb.LineString(whole.Seam))) { // rounded to the lattice
		t.Errorf("%s: %v mm2 cut, %v within the seam line", p.Name, cut, seam)
	}
	if p.Count < 1 || p.Pair && p.Count%2 != 0 || len(p.Grain) != 2 {
		t.Errorf("%s: count %d, pair %v, grain %v", p.Name, p.Count, p.Pair, p.Grain)
	}
}

func checkSeams(t *testing.T, made draft.Result) {
	t.Helper()
	steps, err := shapes.SewingOrder(made.Pieces, made.Joins)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range steps {
		if math.Abs(s.Difference) > 0.5 {
			t.Errorf("%s: sides of %.2f and %.2f mm", s.Join.Name, s.FinishedA, s.FinishedB)
		}
	}
}

// partAt is the line at which the keys of a part begin in measured jobs.
var partAt = strings.Count(measured, "\n") + 1

// Wrong input of each family is refused at its place, with a hint.
func TestDraftsRefuseWithPlaceAndHint(t *testing.T) {
	tests := []struct {
		name, keys string
		line, col  int // of the keys, from 1; 0 stands for the part's own line
		what, hint string
	}{
		{"corset without panels", `draft = "corset"`, 0, 3, "lacks `panels`", "6 to 12"},
		{"corset of 7", "draft = \"corset\"\npanels = 7", 2, 10, "`panels` cannot be 7", "8, 10"},
		{"corset of 14", "draft = \"corset\"\npanels = 14", 2, 10, "`panels` cannot be 14", "from 6 to 12"},
		{"corset's front", "draft = \"corset\"\npanels = 8\nfront = \"busk\"", 3, 9, "`front` cannot be \"busk\"",
			"opening"},
		{"shares as text", "draft = \"corset\"\npanels = 8\nshares = \"half\"", 3, 10,
			"`shares` must be a list of ratios", "0.3"},
		{"a share of nothing", "draft = \"corset\"\npanels = 8\nshares = [0, 1]", 3, 11, "`shares` cannot be 0",
			"from 0.01"},
		{"strapless closing", "draft = \"strapless-bodice\"\npanels = 8\nclosing = \"hooks\"", 3, 11,
			"`closing` cannot be \"hooks\"", "lacing"},
		{"block opening", "draft = \"bodice-block\"\nopening = \"side\"", 2, 11, "`opening` cannot be \"side\"",
			"back"},
		{"block's negative dart", "draft = \"bodice-block\"\nbust_dart = -1", 2, 13, "`bust_dart`",
			"a length reads like"},
		{"gathered skirt of neither", "draft = \"gathered-skirt\"\nlength = 26", 0, 3, "lacks `fullness`", "`widths`"},
		{"gathered skirt of both", "draft = \"gathered-skirt\"\nlength = 26\nfullness = 2\nwidths = 3", 4, 1,
			"both `fullness` and `widths`", "one of them"},
		{"pleated skirt without pleats", "draft = \"pleated-skirt\"\nlength = 26\nfullness = 3", 0, 3, "lacks `pleats`",
			"pleats = 20"},
		{"pleats of neither", "draft = \"pleated-skirt\"\nlength = 26\npleats = 20", 0, 3, "lacks `fullness`", "`depth`"},
		{"no such pleats", "draft = \"pleated-skirt\"\nstyle = \"kick\"", 2, 9, "`style` cannot be \"kick\"", "knife"},
		{"hoops without hoops", "draft = \"hoop-petticoat\"\nlength = 40\nsweep = 120", 0, 3, "lacks `hoops`", "hoops = 4"},
		{"a flat collar's pleats", "draft = \"collar\"\nstyle = \"flat\"\nneck = 15\nheight = 2\npleats = 20", 5, 1,
			"`pleats`, which is not for a flat", `style = "ruff"`},
		{"a ruff without pleats", "draft = \"collar\"\nstyle = \"ruff\"\nneck = 15\nheight = 2\ndepth = 1", 0, 3,
			"lacks `pleats`", "pleats = 60"},
		{"a half circle's width", "draft = \"veil\"\nshape = \"half-circle\"\nlength = 30\ncomb = 4\nwidth = 54", 5, 1,
			"twice as wide as it is long", "leave it out"},
		{"a veil without a width", "draft = \"veil\"\nlength = 30\ncomb = 4", 0, 3, "lacks `width`", "54"},
		{"sleeve without armholes", "draft = \"sleeve\"\nlength = 20\nhem = 9", 0, 3, "lacks `front_armhole`",
			"bodice = "},
		{"sleeve with one armhole", "draft = \"sleeve\"\nlength = 20\nhem = 9\nfront_armhole = 8", 0, 3,
			"lacks `back_armhole`", "bodice = "},
		{"sleeve with both", "draft = \"sleeve\"\nlength = 20\nhem = 9\nfront_armhole = 8\nback_armhole = 8\nbodice " +
			"= \"p\"", 6, 1, "both `bodice` and an armhole", "one of them"},
		{"sleeve into nothing", "draft = \"sleeve\"\nlength = 20\nhem = 9\nbodice = \"top\"", 4, 10,
			`no part "top" to sew it into`, ""},
		{"sleeve into itself", "draft = \"sleeve\"\nlength = 20\nhem = 9\nbodice = \"p\"", 4, 10, "is no bodice-block",
			""},
		{"a straight sleeve's sweep",
			"draft = \"sleeve\"\nlength = 20\nhem = 9\nfront_armhole = 8\nback_armhole = 8\nsweep = 30", 6, 1,
			"`sweep`, which is for a bell", `style = "bell"`},
		{"a bell without its sweep",
			"draft = \"sleeve\"\nstyle = \"bell\"\nlength = 20\nhem = 9\nfront_armhole = 8\nback_armhole = " +
				"8\nbell_from = 9", 0, 3, "lacks `sweep`", "for example"},
		{"a puff without fullness",
			"draft = \"sleeve\"\nstyle = \"puff\"\nlength = 20\nhem = 9\nfront_armhole = 8\nback_armhole = 8", 0, 3,
			"lacks `fullness`", "fullness = 2"},
		{"a sleeve of no length", "draft = \"sleeve\"\nhem = 9\nfront_armhole = 8\nback_armhole = 8", 0, 3,
			"lacks `length`", "underarm = "},
		{"a sleeve of two lengths",
			"draft = \"sleeve\"\nhem = 9\nfront_armhole = 8\nback_armhole = 8\nlength = 20\nunderarm = 1", 6, 1,
			"both `length` and `underarm`", "one of them"},
		{"a bishop's pleats",
			"draft = \"sleeve\"\nstyle = \"bishop\"\nfront_armhole = 8\nback_armhole = 8\nlength = 20\nhem = 9\n" +
				"fullness = 2\npleats = 4", 8, 1, "`pleats`, which is for a puff or a leg-of-mutton", `style = "puff"`},
		{"gores of no train", "draft = \"circle-skirt\"\ncircle = 1\nlength = 30\ntrain_gores = 2", 4, 1,
			"`train_gores` and no `train`", "train = "},
		{"a train of nothing", "draft = \"gored-skirt\"\ngores = 6\nhem_sweep = 90\nlength = 40\ntrain = 0", 5, 9,
			"`train`", "a length reads like"},
		{"godet without a hem", "draft = \"godet\"\nlength = 12", 0, 3, "lacks `hem`", "for example"},
		{"petal without a count", "draft = \"petal\"\ncircle = 1\nlength = 20", 0, 3, "lacks `petals`", "petals = 6"},
		{"kerchief of 3", "draft = \"handkerchief\"\nlength = 20\npanels = 3", 3, 10, "`panels` cannot be 3",
			"1, 2 or 4"},
		{"kerchief of 5", "draft = \"handkerchief\"\nlength = 20\npanels = 5", 3, 10, "`panels` cannot be 5",
			"from 1 to 4"},
		{"peplum opening", "draft = \"peplum\"\nlength = 7\nopening = \"side\"", 3, 11, "`opening` cannot be \"side\"",
			"front"},
		{"overskirt without a circle", "draft = \"overskirt\"\nlength = 40", 0, 3, "lacks `circle`", "three-quarter"},
		{"overskirt's negative gap", "draft = \"overskirt\"\nlength = 40\ncircle = 1\ngap = -1", 4, 7, "`gap`",
			"a length reads like"},
		{"petticoat without fullness", "draft = \"petticoat\"\nlength = 30\nyoke = 8", 0, 3, "lacks `fullness`",
			"1.5 to 2"},
		{"petticoat of tiers twice",
			"draft = \"petticoat\"\nlength = 30\nyoke = 8\nfullness = 2\ntiers = 2\ndepths = [10, 12]", 5, 1,
			"`tiers` beside a list of depths", "how many"},
		{"petticoat's depths as text", "draft = \"petticoat\"\nlength = 30\nyoke = 8\nfullness = 2\ndepths = 4", 5, 10,
			"`depths` must be a list of lengths", "[\"10\""},
		{"binding folded much", "draft = \"binding\"\nlength = 30\nwidth = 1\nfolds = 9", 4, 9,
			"`folds` cannot be 9", "from 1 to 8"},
		{"binding by its earlier name", "draft = \"straight-binding\"\nlength = 30", 1, 9,
			`there is no draft "straight-binding"`, `draft = "binding", with cut = "straight"`},
		{"binding across", "draft = \"binding\"\nlength = 30\nwidth = 1\ncut = \"cross\"", 4, 7,
			"`cut` cannot be \"cross\"", "straight"},
		{"binding without a width", "draft = \"binding\"\ncut = \"straight\"\nlength = 30", 0, 3, "lacks `width`",
			"for example"},
		{"sash without its point", "draft = \"sash\"\nlength = 80\nwidth = 5\nends = \"pointed\"", 0, 3, "lacks `end`",
			"depth"},
		{"sash with a point too many", "draft = \"sash\"\nlength = 80\nwidth = 5\nend = 3", 4, 1,
			"`end` and square ends", "pointed"},
		{"sash of three layers", "draft = \"sash\"\nlength = 80\nwidth = 5\nlayers = 3", 4, 10, "`layers` cannot be 3",
			"from 1 to 2"},
		{"bow without a knot", "draft = \"bow\"\nwidth = 8\nheight = 4", 0, 3, "lacks `knot_length`", "for example"},
		{"bow with tails of no width",
			"draft = \"bow\"\nwidth = 8\nheight = 4\nknot_length = 3\nknot_width = 2\ntail_length = 9", 0, 3,
			"lacks `tail_width`", "for example"},
		{"no ties", "draft = \"ties\"\nlength = 20\nwidth = 1\ncount = 0", 4, 9, "`count` cannot be 0", "from 1"},
		{"loops without a number", "draft = \"loops\"\nlength = 2\nwidth = \"1/4\"", 0, 3, "lacks `opening`",
			"`count`"},
		{"loops without a pitch", "draft = \"loops\"\nlength = 2\nwidth = \"1/4\"\nopening = 10", 0, 3, "lacks `pitch`",
			"pitch = "},
		{"loops twice told", "draft = \"loops\"\nlength = 2\nwidth = \"1/4\"\nopening = 10\npitch = 1\ncount = 4", 6, 1,
			"both `count` and an opening", "one of them"},
		{"hood without a height", "draft = \"hood\"\ndepth = 10\nround = 5", 0, 3, "lacks `height`", "for example"},
		{"cape's dart as truth", "draft = \"cape\"\ncircle = \"half\"\nlength = 20\ndart = true", 4, 8,
			"`dart` must be a length", "dart = "},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			line := partAt + tt.line - 1
			if tt.line == 0 {
				line = partAt - 3
			}
			wantError(t, measured+tt.keys, fmt.Sprintf("%d:%d", line, tt.col), tt.what, tt.hint)
		})
	}
}

// What cannot be worn is refused when it is drafted, by name and number.
func TestDraftsRefuseWhatCannotBeWorn(t *testing.T) {
	tests := []struct{ name, keys, what string }{
		{"a quarter circle that does not clear the hip",
			"draft = \"circle-skirt\"\ncircle = \"quarter\"\nlength = 30\nhip_ease = 4", "hip"},
		{"a skirt without opening over a wider hip", "draft = \"handkerchief\"\nlength = 20\nopening = false", "hip"},
		{"a reduction that would hurt", "draft = \"corset\"\npanels = 8\nreduction = 7", "a fifth of the waist"},
		{"a casing as deep as its yoke", "draft = \"petticoat\"\nlength = 30\nyoke = 8\ncasing = 9\nfullness = 2",
			"casing"},
		{"a godet past half a circle", "draft = \"godet\"\nlength = 4\nhem = 20", "the most is 180"},
		{"loops closer than they are wide",
			"draft = \"loops\"\nopening = 10\npitch = \"1/8\"\nlength = 2\nwidth = \"1/4\"", "on each other"},
		{"a lining shorter than nothing", "draft = \"peplum\"\nlength = 5\nlining = { cloth = \"satin\", shorter = 6 }",
			"less than the length"},
		{"a train on one gore", "draft = \"circle-skirt\"\ncircle = \"half\"\ngores = 1\nlength = 30\ntrain = 10",
			"train"},
		{"a cap eased beyond what cloth takes",
			"draft = \"sleeve\"\nfront_armhole = 8\nback_armhole = 8\ncap_ease = 9\nlength = 20\nhem = 9", "cap ease"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var said []string
			for _, l := range parsed(t, measured+tt.keys).Parts[0].Layers {
				if _, err := l.Draft.Draft(); err != nil {
					said = append(said, err.Error())
				}
			}
			if all := strings.Join(said, "\n"); !strings.Contains(all, tt.what) ||
				!strings.ContainsAny(all, "0123456789") {
				t.Errorf("refused with %q, want %q", all, tt.what)
			}
		})
	}
}
