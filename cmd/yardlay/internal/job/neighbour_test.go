package job

import (
	"strings"
	"testing"

	"yardlay/shapes/draft"
)

// skirtSewnTo is a part for the bodies of chorusHead.
func skirtSewnTo(name string) string {
	return `[[part]]
name = "skirt"
cloth = "satin"
draft = "circle-skirt"
circle = "half"
length = 30
waist_ease = "1/2"
sewn_to = "` + name + `"
`
}

// A part is sewn to that of its own body; its waist has the ease given.
func TestNeighboursAreOfOneBody(t *testing.T) {
	j := parsed(t, chorusHead+skirtSewnTo("band"))
	sewn := 0
	for _, p := range j.Parts {
		if p.SewnTo == nil {
			continue
		}
		sewn++
		if to := j.Parts[p.SewnTo.Part]; to.Called != "band" || to.Body != p.Body {
			t.Errorf("%s is sewn to %s", p.Name, to.Name)
		}
	}
	if sewn != 2 {
		t.Errorf("%d parts are sewn to another", sewn)
	}
}

// A skirt of gores tells its girths itself; lines of further net are numbered on.
func TestNetIsSewnToAGoredSkirt(t *testing.T) {
	net := func(name string, seam string) string {
		return "[[part]]\nname = \"" + name + "\"\ncloth = \"satin\"\ndraft = \"net-layers\"\n" +
			"skirt_length = 30\nfirst_seam = " + seam + "\ngap = 2\nlayers = 2\nfullness = 3\nsewn_to = \"skirt\"\n"
	}
	gored := "[[part]]\nname = \"skirt\"\ncloth = \"satin\"\ndraft = \"gored-skirt\"\ngores = 6\nhem_sweep = " +
		"80\nlength = 30\nhip = 42\nhip_depth = 8\n"
	j := parsed(t, chorusHead+net("net", "18")+gored+net("more", "12"))
	var onto []string
	for _, p := range j.Parts {
		n, ok := p.Layers[0].Draft.(draft.NetLayers)
		if !ok || p.Body != "alto" {
			continue
		}
		made, err := n.Draft()
		if err != nil {
			t.Fatal(err)
		}
		for _, join := range made.Joins {
			if join.B.Onto != "" {
				onto = append(onto, join.B.Onto)
			}
		}
	}
	want := "line net 1 on the skirt; line net 2 on the skirt; line net 3 on the skirt; line net 4 on the skirt"
	if got := strings.Join(onto, "; "); got != want {
		t.Errorf("sewn onto %q, want %q", got, want)
	}
	gored = strings.Replace(gored, "gored-skirt", "circle-skirt", 1)
	gored = strings.Replace(gored, "hem_sweep = 80", `circle = "half"`, 1)
	j = parsed(t, chorusHead+gored+net("net", "18"))
	if n := j.Parts[len(j.Parts)-1].Layers[0].Draft.(draft.NetLayers); n.SkirtFraction != 0.5 {
		t.Errorf("on a half circle it is reckoned for %g", n.SkirtFraction)
	}
}

func TestNeighboursRefused(t *testing.T) {
	strip := "[[part]]\nname = \"ruffle\"\ncloth = \"satin\"\ndraft = \"strip\"\nlength = 90\ndepth = 3\n"
	net := func(to, circle string) string {
		return "[[part]]\nname = \"net\"\ncloth = \"satin\"\ndraft = \"net-layers\"\ncircle = \"" + circle +
			"\"\nwaist_ease = \"1/2\"\n" +
			"skirt_length = 30\nfirst_seam = 12\nfullness = 3\nsewn_to = \"" + to + "\"\n"
	}
	for name, c := range map[string]struct{ job, want string }{
		"no skirt": {net("band", "half"),
			"layers of net are sewn onto a circle or a gored skirt, and `alto band` is a waistband\n  hint: name a " +
				"part drawn by `circle-skirt`"},
		"another circle": {skirtSewnTo("band") + net("skirt", "full"),
			"reckoned for 1 of a circle, the skirt is 0.5\n  hint: the same `circle` for both"},
		"gores": {strings.NewReplacer("circle-skirt", "gored-skirt", `circle = "half"`,
			"gores = 6\nhem_sweep = 80\nhip = 42\nhip_depth = 8").Replace(skirtSewnTo("band")) + net("skirt", "half"),
			"the skirt is fitted to the hip\n  hint: leave out `circle`"},
		"another waist": {skirtSewnTo("band") + strings.Replace(net("skirt", "half"), "waist_ease", "hem", 1),
			" in, the skirt has "},
		"unknown":  {skirtSewnTo("bond"), "there is no part \"bond\" to sew it to\n  hint: did you mean `band`?"},
		"itself":   {skirtSewnTo("skirt"), "part `alto skirt` cannot be sewn to itself"},
		"no waist": {strip + skirtSewnTo("ruffle"), "part `alto ruffle`, a strip, has no edge at the waist to sew"},
		"neck": {"[[part]]\nname = \"hood\"\ncloth = \"satin\"\ndraft = \"hood\"\nneck = 17\nheight = 14\ndepth " +
			"= 10\nround = 5\n" + skirtSewnTo("hood"),
			"are not sewn to each other: one ends at the waist, one at the neck"},
		"number": {strings.Replace(skirtSewnTo("band"), `"band"`, "3", 1), "`sewn_to` must be text in quotes"},
	} {
		if _, err := parse("t.toml", []byte(chorusHead+c.job)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
