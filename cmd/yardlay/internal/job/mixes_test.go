package job_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
)

// styled are further keys of families, of which one, two or more are given at random.
var styled = map[string][]func(b someone) string{
	"bodice-block": {
		func(b someone) string {
			return fmt.Sprintf("bust_dart_at = %q\n", b.pick("shoulder", "neck", "armhole", "waist", "centre"))
		},
		func(b someone) string { return "one_dart = true\n" },
		func(b someone) string { return fmt.Sprintf("panels = %q\n", b.pick("shoulder", "armhole")) },
		func(b someone) string {
			return fmt.Sprintf("neckline = %q\n", b.pick("round", "square", "V", "boat", "off-shoulder")) +
				b.maybe(3, "neckline_back = %q\n", b.pick("round", "square", "V"))
		},
		func(b someone) string { return "neckline = \"off-shoulder\"\n" + b.maybe(2, "neck_depth = 10\n") },
		func(b someone) string { return fmt.Sprintf("shoulder_in = %.0f\n", b.within(5, 30)) },
		func(b someone) string { return fmt.Sprintf("armhole_drop = %.0f\n", b.within(-15, 25)) },
		func(b someone) string { return fmt.Sprintf("waist_drop = %.0f\n", b.within(-40, 60)) },
		func(b someone) string { return "bust_dart = 0\n" },
		func(b someone) string { return "lower_edge = \"hem\"\n" },
	},
	"corset": {
		func(b someone) string {
			return fmt.Sprintf("top = %q\nfront_dip = 20\n", b.pick("straight", "sweetheart", "curved"))
		},
		func(b someone) string {
			return fmt.Sprintf("lower = \"pointed\"\nfront_point = %.0f\n", b.within(10, 40))
		},
		func(b someone) string {
			return fmt.Sprintf("bust_gusset = %.0f\n", b.measures["waist_to_over_bust"]-b.within(0.7, 0.9)*
				b.measures["waist_to_bust"])
		},
		func(b someone) string { return fmt.Sprintf("hip_gusset = %.0f\n", b.within(0.5, 0.8)*b.depth/2) },
		func(b someone) string { return "gusset_share = 0.6\n" },
		func(b someone) string { return "waist_tape = 20\n" },
		func(b someone) string { return "mid_bones = true\n" },
		func(b someone) string { return "facing = 40\n" },
		func(b someone) string { return "side_rise = 10\nback_rise = 15\n" },
	},
	"strapless-bodice": {
		func(b someone) string {
			return fmt.Sprintf("closing = \"lacing\"\nlacing_gap = %.0f\n", b.within(0, 60))
		},
		func(b someone) string { return "channel = 8\nmid_bones = true\n" },
		func(b someone) string { return "top = \"sweetheart\"\n" },
		func(b someone) string { return "side_dip = 15\nback_dip = 30\n" },
		func(b someone) string { return "lower_edge = \"hem\"\n" },
	},
	"sleeve": {
		func(b someone) string {
			return fmt.Sprintf("style = \"bishop\"\nfullness = 1.6\nhem = %.0f\nband = 40\ncuff_slit = %.0f\n",
				0.7*b.measures["upper_arm_girth"], b.within(40, 80)) + b.maybe(2, "cuff_buttons = 2\n")
		},
		func(b someone) string { return fmt.Sprintf("pleats = %d\n", 1+b.IntN(5)) },
		func(b someone) string { return "cap_ease = 10\n" },
	},
	"gored-skirt":    {func(b someone) string { return "train = 250\n" }},
	"gathered-skirt": {func(b someone) string { return "front_seam = true\n" }},
	"pleated-skirt":  {func(b someone) string { return fmt.Sprintf("hem_sweep = %.0f\n", b.hip*b.within(1.05, 1.4)) }},
	"hoop-petticoat": {func(b someone) string { return "gores = 8\n" },
		func(b someone) string { return "channel = 25\n" }},
	"veil": {func(b someone) string { return "hem = 10\n" },
		func(b someone) string { return "gathered = 300\n" }},
	"circle-skirt": nil, "collar": nil, "peplum": nil, "cape": nil,
	"overskirt": nil, "petticoat": nil, "hood": nil, "waistband": nil,
}

// finished are keys that any part may have.
var finished = []func(b someone) string{
	func(b someone) string {
		return "lining = { cloth = \"lining\"" + b.maybe(3, ", shorter = %.0f", b.within(0, 40)) +
			b.maybe(3, ", ease_pleat = %.0f", b.within(5, 25)) + b.maybe(4, ", grain = \"cross\"") + " }\n"
	},
	func(b someone) string {
		return fmt.Sprintf("%s = { cloth = \"lining\"%s }\n", b.pick("overlay", "underlining", "interlining"),
			b.maybe(3, ", allowance = { hem = 0 }"))
	},
	func(b someone) string {
		return fmt.Sprintf("facings = [ { at = %q, width = %.0f%s } ]\n", b.pick("neck", "armhole", "neck-and-armhole",
			"waist", "top", "hem"),
			b.within(15, 80), b.maybe(2, ", interfacing = \"fusible\"")+b.maybe(3, ", edge = 6"))
	},
	func(b someone) string {
		return "facings = [ { at = \"neck\" }, { at = \"armhole\", width = 40 } ]\n"
	},
	func(b someone) string {
		at := b.pick("back", "front", "left", "right")
		return fmt.Sprintf("closings = [ { by = %q, at = %q%s } ]\n",
			b.pick("zip", "placket", "lacing", "buttons", "hooks", "busk"), at,
			b.maybe(2, ", length = %.0f", b.within(80, 250))+b.maybe(2, ", panel = %.0f", b.within(20, 80))+
				b.maybe(3, ", spacing = %.0f", b.within(12, 40)))
	},
	func(b someone) string {
		return fmt.Sprintf("closings = [ { by = \"buttons\", at = %q, stand = %.0f%s } ]\n", b.pick("back", "front"),
			b.within(10, 25), b.maybe(2, ", stand_facing = \"sewn-on\"")+b.maybe(3, ", interfacing = \"fusible\""))
	},
	func(b someone) string {
		return "pieced = { " + b.pick("", fmt.Sprintf("within = %.0f", b.within(250, 900)),
			fmt.Sprintf("length = %.0f", b.within(300, 700)), "centre_front = true, within = 300, from_waist = 100") + " }\n"
	},
	func(b someone) string { return fmt.Sprintf("bag_hem = %.0f\n", b.within(0, 5)) },
	func(b someone) string { return "jump_hem = true\n" },
	func(b someone) string { return "hem_corners = \"straight\"\n" },
	func(b someone) string { return fmt.Sprintf("allowance = { hem = %.0f }\n", b.within(0, 80)) },
	func(b someone) string { return "tilt = 2\n" },
}

// mixed is a job of a part with whatever its family and makers have to offer.
func (b someone) mixed(family string) string {
	keys := fmt.Sprintf("draft = %q\n", family) + usual[family](b)
	for _, some := range [][]func(someone) string{styled[family], finished} {
		order := b.Perm(len(some))
		for _, i := range order[:min(len(some), b.IntN(4))] {
			keys += some[i](b)
		}
	}
	return b.job(onceEach(keys))
}

// onceEach leaves out keys that stand above already.
func onceEach(keys string) string {
	var kept strings.Builder
	seen := map[string]bool{}
	for line := range strings.Lines(keys) {
		if key, _, _ := strings.Cut(line, " "); !seen[key] {
			seen[key] = true
			kept.WriteString(line)
		}
	}
	return kept.String()
}

// numbers are left out where refusals are counted.
var numbers = regexp.MustCompile(`[0-9.]+`)

// Whatever is asked of a draft at once, it is whole pieces whose seams agree, or a refusal with
// its place and a hint; no family refuses most of what is asked.
func TestMixesAreWhole(t *testing.T) {
	each := often.Jobs(6, 300)
	for _, family := range sorted(styled) {
		t.Run(family, func(t *testing.T) {
			random, served := rand.New(rand.NewPCG(7, 1500)), 0
			why := map[string]int{}
			for range each {
				if w := drafted(t, newSomeone(random).mixed(family)); w == "" {
					served++
				} else {
					why[numbers.ReplaceAllString(w, "#")]++
				}
			}
			if served < each/10 {
				t.Errorf("%d of %d are served; refused are %v", served, each, why)
			}
		})
	}
}
