package job

import (
	"fmt"
	"strings"
	"testing"

	"yardlay/shapes/draft"
)

// layersOf reads the layers of a part on plain cloth, lining and net.
func layersOf(t *testing.T, part string) []Layer {
	t.Helper()
	src := `unit = "in"
[body]
waist_girth = 28
neck_base_girth = 14
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "plain"
width = 60
[[cloth]]
id = "inner"
width = 60
[[cloth]]
id = "tulle"
width = 108
net = true
[[part]]
name = "p"
` + part
	j, err := parse("job.toml", []byte(src))
	if err != nil {
		t.Fatalf("%v\n%s", err, part)
	}
	return j.Parts[0].Layers
}

// A draft keeps the grain along the warp but where its pieces hang alike either way;
// what a part says stands, and a layer may say otherwise.
func TestGrainOfLayers(t *testing.T) {
	const strip = "draft = \"strip\"\nlength = 90\ndepth = 6\ncloth = "
	const skirt = "draft = \"circle-skirt\"\ncircle = \"half\"\nlength = 20\ncloth = \"plain\"\n"
	for _, c := range []struct {
		part string
		want []Grain
	}{
		{"draft = \"rectangle\"\nlength = 9\nwidth = 4\ncloth = [\"plain\", \"tulle\"]",
			[]Grain{LengthwiseGrain, LengthwiseGrain}},
		{strip + "[\"plain\", \"tulle\"]", []Grain{LengthwiseGrain, FreeGrain}},
		{strip + "\"tulle\"\ngrain = \"lengthwise\"", []Grain{LengthwiseGrain}},
		{"draft = \"ties\"\nlength = 9\nwidth = 1\ncloth = \"plain\"", []Grain{FreeGrain}},
		{"draft = \"ties\"\nlength = 9\nwidth = 1\ncloth = \"plain\"\ngrain = \"bias\"", []Grain{BiasGrain}},
		{"draft = \"binding\"\nlength = 20\nwidth = \"1/2\"\ncloth = \"plain\"", []Grain{FreeGrain}},
		// as drawn
		{"draft = \"binding\"\nlength = 20\nwidth = \"1/2\"\ncloth = \"plain\"\ngrain = \"bias\"",
			[]Grain{LengthwiseGrain}},
		// turned onto it
		{"draft = \"binding\"\ncut = \"straight\"\nlength = 20\nwidth = \"1/2\"\ncloth = \"plain\"\n" +
			"grain = \"bias\"", []Grain{BiasGrain}},
		{skirt + "lining = { cloth = \"inner\", grain = \"bias\" }", []Grain{LengthwiseGrain, BiasGrain}},
		{skirt + "grain = \"cross\"\nlining = { cloth = \"inner\" }\ninterlining = { cloth = \"tulle\", grain = " +
			"\"lengthwise\" }", []Grain{CrossGrain, LengthwiseGrain, CrossGrain}},
	} {
		layers := layersOf(t, c.part)
		var got []Grain
		for _, l := range layers {
			got = append(got, l.Grain)
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%v, want %v, of\n%s", got, c.want, c.part)
		}
	}
}

// Each layer may be cut in one at its centre, or not, whatever the others are.
func TestFoldOfLayers(t *testing.T) {
	folds := func(part string) string {
		var got []string
		for _, l := range layersOf(t, part) {
			made, err := l.Drafted()
			if err != nil {
				t.Fatal(err)
			}
			fold := "open"
			for _, p := range made.Pieces {
				if p.OnFold {
					fold = "fold"
				}
			}
			got = append(got, fold)
		}
		return strings.Join(got, " ")
	}
	const skirt = "draft = \"circle-skirt\"\ncircle = \"half\"\ngores = 4\nlength = 20\ncloth = \"plain\"\n"
	const cape = "draft = \"cape\"\ncircle = \"half\"\nlength = 20\ncloth = \"plain\"\n"
	for part, want := range map[string]string{
		skirt + "lining = { cloth = \"inner\" }":                                                "open open",
		skirt + "lining = { cloth = \"inner\", front_on_fold = true }":                          "open fold",
		skirt + "front_on_fold = true\nlining = { cloth = \"inner\" }":                          "fold fold",
		skirt + "front_on_fold = true\nlining = { cloth = \"inner\", front_on_fold = false }":   "fold open",
		cape + "back_on_fold = true\ninterlining = { cloth = \"inner\", back_on_fold = false }": "fold open",
	} {
		if got := folds(part); got != want {
			t.Errorf("%s, want %s, of\n%s", got, want, part)
		}
	}
	if _, ok := layersOf(t, skirt+"front_on_fold = true")[0].Draft.(draft.CircleSkirt); !ok {
		t.Error("a skirt is drafted as something else")
	}
}
