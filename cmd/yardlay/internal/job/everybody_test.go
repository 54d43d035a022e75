package job_test

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// someone is a body from a child of four (bust 560 mm) to a bust of 1500 mm, with what is
// drafted for it at random.
type someone struct {
	*rand.Rand
	measures                            map[string]float64 // mm, by the names of the job file
	bust, waist, hip, back, depth, neck float64            // those that drafts go by most, mm
}

// within draws a number.
func (b someone) within(low, high float64) float64 { return low + (high-low)*b.Float64() }

// pick draws a word.
func (b someone) pick(words ...string) string { return words[b.IntN(len(words))] }

// maybe returns keys in one case of so many.
func (b someone) maybe(of int, format string, args ...any) string {
	if b.IntN(of) > 0 {
		return ""
	}
	return fmt.Sprintf(format, args...)
}

// newSomeone draws a body: straight lines from a child of four (bust 560, waist 530, back
// 240 mm) over a woman (880, 720, 410) to a bust of 1500, from memory of the size tables of
// drafting books, each measure spread by 3 % to either side. What a block needs besides follows bust
// and back length in the same way.
func newSomeone(random *rand.Rand) someone {
	b := someone{Rand: random, measures: map[string]float64{}}
	b.bust = b.within(560, 1500)
	line := func(child, woman, large float64) float64 {
		if b.bust < 880 {
			return child + (woman-child)*(b.bust-560)/320
		}
		return woman + (large-woman)*(b.bust-880)/620
	}
	set := func(name string, mm float64) float64 {
		b.measures[name] = mm * b.within(0.97, 1.03)
		return b.measures[name]
	}
	b.measures["bust_girth"] = b.bust
	b.back = set("back_neck_point_to_waist", line(240, 410, 445))
	b.waist = min(set("waist_girth", line(530, 720, 1340)), b.bust-10)
	b.measures["waist_girth"] = b.waist
	b.hip = max(set("hip_girth", line(600, 960, 1500)), b.waist+40)
	b.measures["hip_girth"] = b.hip
	b.depth = set("waist_to_hips", b.back/2)
	b.neck = set("neck_base_girth", 0.2*b.bust+0.25*b.back+90)
	set("shoulder_length", 0.02*b.bust+0.2*b.back+20)
	set("armhole_depth", 0.082*b.bust+0.287*b.back+20)
	set("back_width", 0.236*b.bust+0.227*b.back+43)
	set("chest_width", 0.235*b.bust+0.15*b.back+50)
	set("bust_span", 0.19*b.bust+15)
	set("shoulder_neck_to_bust", b.bust/6+b.back/3-23)
	set("upper_arm_girth", 0.34*b.bust-20)
	set("over_bust_girth", line(555, 840, 1400))
	set("underbust_girth", line(540, 750, 1340))
	b.measures["high_hip_girth"] = b.waist + (b.hip-b.waist)*b.within(0.6, 0.8)
	b.measures["waist_to_over_bust"] = b.back * b.within(0.53, 0.57)
	b.measures["waist_to_bust"] = b.back * b.within(0.38, 0.42)
	b.measures["waist_to_underbust"] = b.back * b.within(0.22, 0.26)
	b.measures["waist_to_high_hip"] = b.depth / 2
	return b
}

// cloths are those of a job.
const cloths = `unit = "mm"
[allowance]
seam = 12
hem = 25
[[cloth]]
id = "satin"
width = 1450
[[cloth]]
id = "lining"
width = 1400
[[cloth]]
id = "fusible"
width = 900
`

// job writes a job of one part.
func (b someone) job(part string) string {
	var s strings.Builder
	s.WriteString(cloths + "[body]\n")
	for _, name := range sorted(b.measures) {
		fmt.Fprintf(&s, "%s = %.0f\n", name, b.measures[name])
	}
	return s.String() + "[[part]]\nname = \"p\"\ncloth = \"satin\"\n" + part
}

func sorted[V any](of map[string]V) []string { return slices.Sorted(maps.Keys(of)) }

// usual is what makers ask of each family, for a body.
var usual = map[string]func(b someone) string{
	"circle-skirt": func(b someone) string {
		return fmt.Sprintf("circle = %.2f\nlength = %.0f\n", b.within(0.5, 4), b.within(350, 1100)) +
			"gores = 16\n" + b.maybe(3, "front_on_fold = true\n") + b.maybe(4, "train = 300\n")
	},
	"gored-skirt": func(b someone) string {
		return fmt.Sprintf("gores = %d\nhip_ease = 50\nlength = %.0f\nhem_sweep = %.0f\n", 4+2*b.IntN(4),
			b.within(2.4, 5)*b.depth, b.hip*b.within(1.5, 3)) + b.maybe(3, "flare_from = %.0f\n", 1.5*b.depth)
	},
	"gathered-skirt": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nfullness = %.2f\n", b.within(350, 1100), b.within(1.6, 4)) +
			b.maybe(3, "casing = 20\n")
	},
	"pleated-skirt": func(b someone) string {
		return fmt.Sprintf("style = %q\nhip_ease = 40\nlength = %.0f\npleats = %d\nfullness = %.2f\n",
			b.pick("knife", "box", "inverted"), b.within(350, 1100), 10+b.IntN(20), b.within(2, 3))
	},
	"petal": func(b someone) string {
		return fmt.Sprintf("petals = %d\noverlap = 40\ncircle = %.2f\nlength = %.0f\n", 4+b.IntN(5), b.within(0.4, 1),
			b.within(300, 700))
	},
	"handkerchief": func(b someone) string {
		return fmt.Sprintf("length = %.0f\npanels = %s\n", b.within(300, 700), b.pick("1", "2", "4"))
	},
	"overskirt": func(b someone) string {
		return fmt.Sprintf("circle = %.2f\nlength = %.0f\nfront_length = %.0f\ngap = 60\n", b.within(0.4, 1),
			b.within(600, 1000), b.within(400, 600))
	},
	"petticoat": func(b someone) string {
		return fmt.Sprintf("hip_ease = 80\nlength = %.0f\nyoke = %.0f\ntiers = %d\nfullness = %.2f\n",
			b.within(3, 5)*b.depth, b.depth*b.within(0.7, 1.3), 1+b.IntN(3), b.within(1.4, 2)) + b.maybe(2, "casing = 20\n")
	},
	"hoop-petticoat": func(b someone) string {
		length := b.within(3, 5) * b.depth
		return fmt.Sprintf("length = %.0f\nhoops = %d\nfirst_hoop = %.0f\nsweep = %.0f\n", length, 1+b.IntN(5),
			0.4*length, b.hip*b.within(2, 3)) + b.maybe(2, "flounce_fullness = 1.6\n") + b.maybe(3, "casing = 20\n")
	},
	"net-layers": func(b someone) string {
		return fmt.Sprintf("circle = \"full\"\nskirt_length = %.0f\nfirst_seam = %.0f\ngap = 40\nlayers = %d\nwidths = 4\n",
			b.within(600, 1000), b.within(350, 500), 2+b.IntN(6))
	},
	"strip": func(b someone) string {
		return fmt.Sprintf("edge = %.0f\nfullness = %.2f\ndepth = %.0f\n", b.waist*b.within(1, 4), b.within(1.5, 3),
			b.within(60, 400))
	},
	"godet": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nhem = %.0f\ncount = 6\n", b.within(200, 500), b.within(150, 400))
	},
	"flounce": func(b someone) string {
		top := b.waist * b.within(1, 3)
		return fmt.Sprintf("top = %.0f\nbottom = %.0f\ndepth = %.0f\n", top, top*b.within(1.2, 2.5), b.within(80, 400))
	},
	"corset": func(b someone) string {
		return fmt.Sprintf("panels = %s\nreduction = %.0f\nlacing_gap = 50\nfront = %q\nchannel = 10\n",
			b.pick("6", "8", "10", "12"), b.waist*b.within(0, 0.1), b.pick("opening", "seam", "fold"))
	},
	"strapless-bodice": func(b someone) string {
		return fmt.Sprintf("panels = %s\nease = -10\nfront = %q\nfront_dip = %.0f\nends_at = %q\n", b.pick("6", "8", "10"),
			b.pick("seam", "fold"), b.within(0, 30), b.pick("waist", "high-hip"))
	},
	"bodice-block": func(b someone) string {
		return fmt.Sprintf("opening = %q\n", b.pick("back", "front", "both")) +
			b.maybe(4, "neckline = \"off-shoulder\"\n")
	},
	"sleeve": func(b someone) string {
		half, arm := b.measures["armhole_depth"]*b.within(0.98, 1.06), b.measures["upper_arm_girth"]
		keys := fmt.Sprintf("front_armhole = %.0f\nback_armhole = %.0f\n", half, half*1.05)
		length := b.within(1.2, 1.5) * b.back
		keys += fmt.Sprintf("length = %.0f\n", length)
		full := fmt.Sprintf("fullness = %.2f\nhem = %.0f\n", b.within(1.3, 1.8), 0.7*arm)
		switch style := b.pick("straight", "two-piece", "bell", "puff", "bishop", "leg-of-mutton",
			"flutter"); style {
		case "straight", "two-piece":
			return keys + fmt.Sprintf("style = %q\nhem = %.0f\n", style, arm*b.within(0.8, 1))
		case "bell":
			return keys + fmt.Sprintf("style = \"bell\"\nhem = %.0f\nbell_from = %.0f\nsweep = %.0f\n", 0.9*arm,
				0.6*length, 2*arm)
		case "flutter":
			return keys + fmt.Sprintf("style = \"flutter\"\nhem = %.0f\n", arm*b.within(1.5, 2.5))
		case "puff":
			return keys + full + fmt.Sprintf("style = \"puff\"\npuff = %.0f\nband = 30\n", half*b.within(0, 0.2)) +
				b.maybe(3, "pleats = 3\n")
		default:
			return keys + full + fmt.Sprintf("style = %q\n", style)
		}
	},
	"peplum": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nhip_ease = 50\nopening = %q\n", b.within(0.5, 1.2)*b.depth,
			b.pick("front", "back"))
	},
	"waistband": func(b someone) string {
		return fmt.Sprintf("width = %.0f\nunderlap = 30\ninterfacing = \"fusible\"\n", b.within(20, 60))
	},
	"collar": func(b someone) string {
		switch style := b.pick("stand", "flat", "ruff"); style {
		case "flat":
			return fmt.Sprintf("style = %q\nheight = %.0f\nround = 10\ncircle = %.2f\ndrop = %.0f\n", style, b.within(25, 90),
				b.within(0.5, 0.9), b.within(0, 20))
		case "ruff":
			return fmt.Sprintf("style = %q\nheight = %.0f\npleats = %d\ndepth = %.0f\n", style, b.within(40, 100),
				20+b.IntN(40), b.within(8, 20))
		default:
			return fmt.Sprintf("style = %q\nheight = %.0f\nround = 10\nopening = %q\n", style, b.within(25, 80),
				b.pick("front", "back"))
		}
	},
	"cape": func(b someone) string {
		return fmt.Sprintf("circle = %.2f\nlength = %.0f\n", b.within(0.4, 1), b.within(300, 900)) +
			b.maybe(3, "neck_drop = 20\n")
	},
	"hood": func(b someone) string {
		return fmt.Sprintf("neck = %.0f\nheight = %.0f\ndepth = %.0f\nround = %.0f\ndrop = 20\n", b.neck*b.within(1, 1.2),
			b.within(0.9, 1)*b.neck, b.within(0.6, 0.7)*b.neck, b.within(0.2, 0.3)*b.neck)
	},
	"veil": func(b someone) string {
		keys := fmt.Sprintf("length = %.0f\ncomb = %.0f\n", b.within(500, 1200), b.within(70, 120))
		if b.IntN(3) == 0 {
			return "shape = \"half-circle\"\n" + keys
		}
		return keys + fmt.Sprintf("shape = %q\nwidth = %.0f\n", b.pick("rectangle", "oval"), b.within(900, 1400))
	},
	"binding": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nwidth = %.0f\n", b.within(1, 5)*b.waist, b.within(6, 20)) +
			b.maybe(2, "cut = \"straight\"\n")
	},
	"sash": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nwidth = %.0f\nends = \"pointed\"\nend = 60\n", b.waist+b.within(600, 1500),
			b.within(80, 200))
	},
	"bow": func(b someone) string {
		return fmt.Sprintf("width = %.0f\nheight = %.0f\nknot_length = 90\nknot_width = 40\n", b.within(100, 300),
			b.within(60, 150))
	},
	"ties": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nwidth = %.0f\ncount = 2\n", b.within(300, 900), b.within(10, 50))
	},
	"loops": func(b someone) string {
		return fmt.Sprintf("opening = %.0f\npitch = 20\nlength = %.0f\nwidth = 6\n", b.back, b.within(40, 70))
	},
	"rectangle": func(b someone) string {
		return fmt.Sprintf("length = %.0f\nwidth = %.0f\n", b.waist*b.within(1, 2), b.within(30, 400))
	},
}

// obeyed is what a maker changes who is refused and does as the hint says: nothing else may be
// refused to a plausible body. A cone of hoops that is sewn to the waist goes straight down from
// there and comes over the hips where its sweep is wide enough for its length.
var obeyed = map[string]func(src, hint string) string{
	"hoop-petticoat": func(src, hint string) string {
		return sweepKey.ReplaceAllString(src, "sweep = "+sweepHint.FindStringSubmatch(hint)[1])
	},
}

var sweepKey, sweepHint = regexp.MustCompile(`sweep = [0-9]+`), regexp.MustCompile(`a sweep of ([0-9.]+) mm or more`)

// Whoever the wearer is, every family is drafted to pieces that can be cut and sewn, or a
// refusal says where, what, and what would mend it; plausible bodies are served.
func TestEverybodyIsServed(t *testing.T) {
	each := often.Jobs(often.Full(6, 12), 500)
	for _, section := range job.Reference() {
		name := section.Name
		if !section.Draft || name == "outline" { // which is drawn elsewhere
			continue
		}
		t.Run(name, func(t *testing.T) {
			keys := usual[name]
			if keys == nil {
				t.Fatal("nobody says what makers ask of it")
			}
			random, refused, measured, last := rand.New(rand.NewPCG(4, 1500)), 0, 0, ""
			for range each {
				b := newSomeone(random)
				src := b.job(fmt.Sprintf("draft = %q\n", name) + keys(b))
				why := drafted(t, src)
				if obey := obeyed[name]; why != "" && obey != nil {
					src = obey(src, why)
					why = drafted(t, src)
				}
				if why != "" {
					refused, last = refused+1, why+"\n"+src
					continue
				}
				measured += fits(t, name, b, src)
			}
			if len(girths[name]) > 0 && measured == 0 {
				t.Error("no girth was measured")
			}
			if refused > 0 {
				t.Errorf("%d of %d bodies are refused, the last one for: %s", refused, each, last)
			}
		})
	}
}

// drafted takes a job as far as its pieces and checks them; it returns why the job is refused,
// "" where it is not.
func drafted(t *testing.T, src string) string {
	t.Helper()
	f, err := job.Read("job.toml", []byte(src))
	var j *job.Job
	if err == nil {
		j = f.Job()
		_, err = plan.Draw(j)
	}
	if err != nil {
		var all strict.Errors
		if !errors.As(err, &all) {
			t.Fatalf("no place: %v in:\n%s", err, src)
		}
		for _, e := range all {
			if e.Hint == "" || e.At.Line == 0 {
				t.Errorf("place or hint lacks: %v in:\n%s", e, src)
			}
		}
		return err.Error()
	}
	for _, part := range j.Parts {
		for _, l := range part.Layers {
			made, err := l.Drafted()
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range made.Pieces {
				if err := sound(p); err != nil {
					t.Fatalf("%s: %v in:\n%s", p.Name, err, src)
				}
			}
			steps, err := shapes.SewingOrder(made.Pieces, made.Joins)
			if err != nil {
				t.Fatalf("%v in:\n%s", err, src)
			}
			for _, s := range steps {
				if s.Difference > 0.5 || s.Difference < -0.5 {
					t.Fatalf("%s: sides of %.2f and %.2f mm in:\n%s", s.Join.Name, s.FinishedA, s.FinishedB, src)
				}
			}
		}
	}
	return ""
}

// sound says what is wrong with a piece, opened out.
func sound(p shapes.Piece) error {
	whole := p.Unfold()
	if err := plane.CheckSimple(whole.Cut); err != nil {
		return fmt.Errorf("cut line: %w", err)
	}
	if err := plane.CheckSimple(whole.Seam); err != nil {
		return fmt.Errorf("seam line: %w", err)
	}
	if cut, seam := plane.Area(whole.Cut), plane.Area(whole.Seam); cut < seam-1 || seam <= 0 {
		return fmt.Errorf("%.0f mm2 cut, %.0f within the seam line", cut, seam)
	}
	return nil
}
