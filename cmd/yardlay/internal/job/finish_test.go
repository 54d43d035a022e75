package job

import (
	"math"
	"strings"
	"testing"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

const lined = `unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 60
[[cloth]]
id = "lawn"
width = 60
[[cloth]]
id = "fusible"
width = 36
[[part]]
name = "skirt"
draft = "circle-skirt"
circle = "half"
gores = 4
length = 30
`

// hemOf returns the hem of the first piece of a layer, and how many of its pieces turn
// theirs up.
func hemOf(t *testing.T, l Layer) (hem shapes.Edge, turned int) {
	t.Helper()
	d, err := l.Drafted()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Pieces {
		for _, e := range p.Edges {
			if e.Finish() == shapes.Turned {
				turned++
			}
		}
	}
	hem, ok := d.Pieces[0].Edge("hem")
	if !ok {
		t.Fatalf("%s has no hem", d.Pieces[0].Name)
	}
	return hem, turned
}

// A bagged hem takes the seam allowance in every layer and is turned up in none; the
// lining, and no interlining, is shorter by what is said: on half a circle its hem by pi
// times that.
func TestBaggedHems(t *testing.T) {
	p := parsed(t, lined+`cloth = "satin"
lining = { cloth = "lawn", allowance = { seam = "5/8" } }
interlining = { cloth = "fusible" }
bag_hem = "1/8"
`).Parts[0]
	var lengths []float64
	for i, l := range p.Layers {
		hem, turned := hemOf(t, l)
		if turned != 0 || hem.Kind != shapes.Seam {
			t.Errorf("%s: %d hems turned up, of kind %v", l.Cloth, turned, hem.Kind)
		}
		if want := []float64{12.7, 12.7, 15.875}[i]; hem.Allowance != want {
			t.Errorf("%s: allowance %g, want %g", l.Cloth, hem.Allowance, want)
		}
		d, _ := l.Drafted()
		_, length, err := d.Bag.Measure(d.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		lengths = append(lengths, length)
	}
	if lengths[0] != lengths[1] {
		t.Errorf("interlining %g, outer %g", lengths[1], lengths[0])
	}
	if got, want := lengths[0]-lengths[2], math.Pi*25.4/8; math.Abs(got-want) > 0.05 {
		t.Errorf("the lining's hem is %g shorter, want %g", got, want)
	}
}

// With a jump hem the outer hem is turned up, and the lining is as long as the outer cloth
// with the seam allowance at its hem.
func TestJumpHems(t *testing.T) {
	p := parsed(t, lined+"cloth = [\"satin\", \"lawn\"]\njump_hem = true\n").Parts[0]
	outer, turned := hemOf(t, p.Layers[0])
	if turned == 0 || outer.Allowance != 25.4 {
		t.Errorf("outer: %d turned up, by %g", turned, outer.Allowance)
	}
	lining, turned := hemOf(t, p.Layers[1])
	if turned != 0 || lining.Allowance != 12.7 || lining.Length() != outer.Length() {
		t.Errorf("lining: %d turned up, allowance %g, %g long to %g", turned, lining.Allowance, lining.Length(),
			outer.Length())
	}
}

// A faced hem takes the seam allowance in the outer layer alone, and its facing is cut in
// the cloth that it names, its interfacing in another, of the same shape without allowances.
func TestFacedHems(t *testing.T) {
	p := parsed(t, lined+`cloth = ["satin", "lawn"]
facings = [ { at = "hem", width = 3, cloth = "lawn", interfacing = "fusible" } ]
`).Parts[0]
	if len(p.Layers) != 4 {
		t.Fatalf("%d layers", len(p.Layers))
	}
	if hem, turned := hemOf(t, p.Layers[0]); turned != 0 || hem.Allowance != 12.7 {
		t.Errorf("outer: %d turned, allowance %g", turned, hem.Allowance)
	}
	if hem, turned := hemOf(t, p.Layers[1]); turned == 0 || hem.Allowance != 25.4 {
		t.Errorf("lining: %d turned, allowance %g", turned, hem.Allowance)
	}
	facing, err := p.Layers[2].Drafted()
	if err != nil || p.Layers[2].Cloth != "lawn" {
		t.Fatal(p.Layers[2].Cloth, err)
	}
	stiff, err := p.Layers[3].Drafted()
	if err != nil || p.Layers[3].Cloth != "fusible" || !stiff.Fused {
		t.Fatal(p.Layers[3].Cloth, stiff.Fused, err)
	}
	r := 28*25.4/math.Pi + 30*25.4
	area := 0.0
	for i, p := range facing.Pieces {
		area += float64(p.Count) * plane.Area(p.Seam)
		if s := stiff.Pieces[i]; math.Abs(plane.Area(s.Cut)-plane.Area(p.Seam)) > 1 {
			t.Errorf("%s: interfacing of %g, facing of %g", p.Name, plane.Area(s.Cut), plane.Area(p.Seam))
		}
	}
	if want := math.Pi / 2 * (r*r - (r-76.2)*(r-76.2)); math.Abs(area/want-1) > 1e-3 {
		t.Errorf("facing of %g mm2, want %g", area, want)
	}
}

// The gores of a train lean to its hem: its corners are cut straight on where that is
// asked for.
func TestHemCorners(t *testing.T) {
	area := map[string]float64{}
	for _, corners := range []string{"mirrored", "straight"} {
		p := parsed(t, strings.Replace(lined, "gores = 4", "gores = 8", 1)+
			"cloth = \"satin\"\nhem_corners = \""+corners+"\"\ntrain = 30\n").Parts[0]
		d, err := p.Layers[0].Drafted()
		if err != nil {
			t.Fatal(err)
		}
		for _, piece := range d.Pieces {
			area[corners] += piece.Area()
		}
	}
	if area["mirrored"] == area["straight"] {
		t.Error("the corners of a train's hem are cut alike")
	}
}

// What cannot be finished so is refused with its place and what would mend it.
func TestFinishesThatCannotBe(t *testing.T) {
	for keys, want := range map[string]string{
		"cloth = \"satin\"\nbag_hem = 0.125": "sews a hem to that " +
			"of a lining, and there is none",
		"cloth = [\"satin\", \"lawn\"]\nlining_shorter = 1\nbag_hem = 0.125": "and by " +
			"`lining_shorter` or `shorter` too",
		"cloth = \"satin\"\nlining = { cloth = \"lawn\", shorter = 1 }\nbag_hem = 0.125": "or `shorter` too",
		"cloth = [\"satin\", \"lawn\"]\nbag_hem = 0.125\nfacings = [ { at = \"hem\" } ]": "both " +
			"`bag_hem` and a facing at the hem",
		"cloth = \"satin\"\nfacings = [ { at = \"hem\" }, { at = \"hem\", width = 3 } ]": "`facings` has " +
			"two at the hem",
		"cloth = \"satin\"\nfacings = [ { at = \"hem\", width = 20 }, { at = \"waist\", width = 11 } ]": "overlap on its",
		"cloth = \"satin\"\njump_hem = true":                                 "there is none",
		"cloth = [\"satin\", \"lawn\"]\nlining_shorter = 1\njump_hem = true": "or `shorter` too",
		"cloth = [\"satin\", \"lawn\"]\nbag_hem = 0.125\njump_hem = true": "both " +
			"`bag_hem` and `jump_hem`",
		"cloth = [\"satin\", \"lawn\"]\nallowance = { hem = 0 }\njump_hem = true": "it has no allowance",
		"cloth = \"satin\"\nfacings = [ { width = 3 } ]":                          "lacks `at`",
		"cloth = \"satin\"\nfacings = [ { at = \"hem\", cloth = \"velvet\" } ]": "there is " +
			"no cloth \"velvet\"",
	} {
		_, err := parse("job.toml", []byte(lined+keys+"\n"))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\n%v\nwant %s", keys, err, want)
		}
	}
	p := parsed(t, lined+"cloth = \"satin\"\nfacings = [ { at = \"armhole\" } ]\n").Parts[0]
	if _, err := p.Layers[0].Drafted(); err == nil || !strings.Contains(err.Error(), "no edge at the armhole") {
		t.Errorf("an armhole of a skirt: %v", err)
	}
}

// Of every draft each edge can be faced, a little, or is refused with a reason; what can be
// meets its pieces and can be cut and sewn. Hems can be bagged likewise.
func TestEveryDraftCanBeFaced(t *testing.T) {
	faced := 0
	for _, d := range drafts {
		if d.name == outlineFile.name {
			continue // reads a file
		}
		for _, at := range []string{"neck", "armhole", "waist", "top", "hem"} {
			j, err := parse("job.toml", []byte(exampleJob(d)+"\nfacings = [ { at = \""+at+"\", width = 1, interfacing = "+
				"\"fusible\" } ]\n"))
			if err != nil {
				t.Fatal(err)
			}
			layers := j.Parts[0].Layers
			outer, err := layers[0].Drafted()
			if err != nil {
				refusedRightly(t, err)
				continue
			}
			for _, l := range layers[len(layers)-2:] {
				made, err := l.Drafted()
				if err != nil {
					refusedRightly(t, err)
					break
				}
				for _, p := range made.Pieces {
					checkPiece(t, p)
				}
				checkSeams(t, made)
				if made.Fused {
					continue
				}
				faced++
				_, a, errA := made.Faced.A.Measure(outer.Pieces)
				_, b, errB := made.Faced.B.Measure(made.Pieces)
				if errA != nil || errB != nil || math.Abs(a-b) > 0.05 {
					t.Errorf("%s at the %s: %g to %g, %v, %v", d.name, at, a, b, errA, errB)
				}
			}
		}
	}
	if faced < 30 {
		t.Errorf("only %d were faced", faced)
	}
}

// refusedRightly holds a refusal to say what would do.
func refusedRightly(t *testing.T, err error) {
	t.Helper()
	if _, hint := say.Parts(err, nil); hint == "" {
		t.Errorf("no hint: %v", err)
	}
}

// What closes an opening is refused at its place, or by name when it is drawn.
func TestClosingsThatCannotBe(t *testing.T) {
	for keys, want := range map[string]string{
		"{ by = \"zip\", spacing = 1 }":                                          "a zip has no `spacing`",
		"{ by = \"hooks\", length = 7, inset = 1 }":                              "hooks have no `inset`",
		"{ by = \"busk\", spacing = 7 }":                                         "a busk has no `spacing`",
		"{ by = \"busk\", length = 7 }":                                          "a busk is as long as goes in",
		"{ by = \"zip\", length = 7 }, { by = \"hooks\", length = 7 }":           "two at the centre back",
		"{ length = 7 }":                                                         "lacks `by`",
		"{ by = \"zip\", length = 7, panel = 1, cloth = \"velvet\" }":            "there is no cloth",
		"{ by = \"zip\", length = 7 }" + strings.Repeat(", { by = \"zip\" }", 4): "`closings` lists 5",
	} {
		_, err := parse("job.toml", []byte(lined+"cloth = \"satin\"\nclosings = [ "+keys+" ]\n"))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\n%v\nwant %s", keys, err, want)
		}
	}
	p := parsed(t, lined+"cloth = \"satin\"\nclosings = [ { by = \"zip\" } ]\n").Parts[0]
	if _, err := p.Layers[0].Drafted(); err == nil || !strings.Contains(err.Error(), "runs on to the hem") {
		t.Errorf("a zip down to the hem: %v", err)
	}
}

// A zip's length is where the opening stops, and what lies behind it is cut as long.
func TestAZipStopsTheOpening(t *testing.T) {
	j := parsed(t, lined+"cloth = \"satin\"\nclosings = [ { by = \"zip\", length = 9, panel = 1, cloth = \"lawn\" } ]\n")
	if got := j.Stop(j.Parts[0]); got != 9*25.4 {
		t.Errorf("it stops at %g", got)
	}
	layers := j.Parts[0].Layers
	shield, err := layers[len(layers)-1].Drafted()
	if err != nil || layers[len(layers)-1].Cloth != "lawn" || !shield.Apart {
		t.Fatal(layers[len(layers)-1].Cloth, err)
	}
	if along, across := shield.Pieces[0].Finished(); math.Abs(along-9*25.4) > 1e-6 || math.Abs(across-2*25.4) > 1e-6 {
		t.Errorf("%g x %g", along, across)
	}
}
