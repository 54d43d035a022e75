package report

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// Left and right of a pair that may lie on either grain lie on the same one; where
// leftovers might take one of them each, on one grain for good, the first that fits.
func TestPairsOfEitherGrainLieAlike(t *testing.T) {
	const have = "have = [ { name = \"rest\", length = 60, width = 70 } ]"
	for _, c := range []struct {
		cloth string
		alike bool
		turns []float64
	}{
		{"nap = \"two-way\"", true, []float64{0, 180, 90, 270}},
		{"nap = \"one-way\"\nboth_faces = true", true, []float64{0, 90}},
		{"nap = \"two-way\"\n" + have, false, []float64{0, 180}},
		{"nap = \"two-way\"\nbolt = { length = \"1 m\", price = \"6\" }", false, []float64{0, 180}},
	} {
		src := strings.ReplaceAll(testjobs.Gown(c.cloth), "file =", "grain = \"either\"\nfile =")
		task, err := plan.Tasks(testjobs.Read(t, src), 1)
		if err != nil {
			t.Fatal(err)
		}
		sleeve := task[0].Problem.Pieces[0]
		if sleeve.Alike != c.alike || !cmp.Equal(sleeve.Turns, c.turns) {
			t.Errorf("%s: alike %v, turns %v", c.cloth, sleeve.Alike, sleeve.Turns)
		}
		l, err := plan.Do(context.Background(), task[0], plan.Options{Effort: nest.Trial, Workers: 1}, nil)
		if err != nil {
			t.Fatal(err)
		}
		words := map[string]bool{}
		for _, m := range (laying{l}).report(0).Markers {
			for _, pl := range m.Marker {
				if pl.Piece == "sleeve hook" {
					words[pl.Grain] = true
				}
			}
		}
		if len(words) != 1 {
			t.Errorf("%s: sleeves lie %v", c.cloth, words)
		}
	}
}

// Whatever the nap and the lay, no placed piece is turned off the grain of its part:
// how far it is turned is measured on the outlines of the GeoJSON, without its words.
func TestGrainIsKeptWhateverTheNap(t *testing.T) {
	grains := map[string]float64{"": 0, "tilt = 2": 0, `grain = "cross"`: 90, `grain = "bias"`: 45,
		"grain = \"cross\"\ntilt = 1": 90}
	laid := 0
	for seed := range often.Jobs(12, 20) {
		cloth := testjobs.RandomCloth.Example(seed)
		for said, grain := range grains {
			// the pair of sleeves and the sash
			src := strings.ReplaceAll(testjobs.Gown(cloth), "file =", said+"\nfile =")
			task, err := plan.Tasks(testjobs.Read(t, src), 1)
			var bad strict.Errors
			if errors.As(err, &bad) {
				continue
			} else if err != nil {
				t.Fatal(err)
			}
			l, err := plan.Do(context.Background(), task[0], plan.Options{Effort: nest.Trial, Workers: 1}, nil)
			var none *plan.NoLayoutError
			if errors.As(err, &none) {
				continue
			} else if err != nil {
				t.Fatal(err)
			}
			laid++
			c := laying{l}.report(0)
			for _, m := range c.Markers {
				checkGrain(t, c, m, grain, fmt.Sprintf("seed %d\n%s", seed, src))
			}
		}
	}
	if laid < 30 {
		t.Errorf("only %d laid", laid)
	}
}

// checkGrain measures how far each outline of a marker is turned, from its vertices
// and those of the piece as drafted: at most 2 degrees off the grain, up to half turns.
func checkGrain(t *testing.T, c Cloth, m Stretch, grain float64, where string) {
	t.Helper()
	text, err := c.GeoJSON(m)
	if err != nil {
		t.Fatal(err)
	}
	var read collection
	if err := json.Unmarshal(text, &read); err != nil {
		t.Fatal(err)
	}
	for i, f := range read.Features {
		want := grain
		if strings.HasPrefix(f.Properties.Piece, "collar") {
			want = 0 // drawn by the job, not from the file
		}
		drafted := m.Problem.Pieces[m.Layout.Placed[i].Piece].Outline
		drawn, lies := direction(drafted), direction(f.Geometry.Coordinates[0])
		asDrawn, mirrored := math.Remainder(lies-drawn-want, 180), math.Remainder(lies+drawn+want, 180)
		if min(math.Abs(asDrawn), math.Abs(mirrored)) > 2.01 {
			t.Errorf("%s lies at %v degrees, drawn at %v and cut %v off the warp\n%s", f.Properties.Piece, lies,
				drawn, want, where)
		}
		if word := map[float64]string{0: "lengthwise", 45: "bias", 90: "cross"}[want]; f.Properties.Grain != word {
			t.Errorf("%s says %q, want %q", f.Properties.Piece, f.Properties.Grain, word)
		}
	}
}

// direction is that of the longest side of a ring, degrees, up to half turns.
func direction(r orb.Ring) float64 {
	var longest, angle float64
	for i := 1; i < len(r); i++ {
		x, y := r[i][0]-r[i-1][0], r[i][1]-r[i-1][1]
		if length := math.Hypot(x, y); length > longest+0.01 {
			longest, angle = length, math.Atan2(y, x)*180/math.Pi
		}
	}
	return angle
}
