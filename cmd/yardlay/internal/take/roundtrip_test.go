package take

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// drawnUnit is a way to write a drawing: what its svg element says, how many of its units make a
// mm, and what has to be given to read it.
type drawnUnit struct {
	attributes string
	perMM      float64
	given      float64
}

var drawnUnits = []drawnUnit{
	{`width="3000mm" height="1000mm" viewBox="0 0 3000 1000"`, 1, 0},
	{`width="300cm" height="100cm" viewBox="0 0 300 100"`, .1, 0},
	{`width="3000px" height="1000px"`, 96 / 25.4, 0},
	{``, .1, 10}, {``, 1 / 25.4, 25.4}, {``, .001, 1000}, {``, 1, 1}, {``, 1 / 304.8, 304.8}, {``, 4, .25},
	{``, 72 / 25.4, 25.4 / 72},
	{`width="3000mm" height="1000mm" viewBox="0 0 3000 1000"`, .1, 10}, // it says so, and is wrong
}

// drawnPieces writes leaning and upright pieces, some of which have names, beside each other.
func drawnPieces(t *rapid.T, u drawnUnit) string {
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" %s>\n", u.attributes)
	n := func(mm float64) string { return fmt.Sprintf("%.9g", mm*u.perMM) }
	names := []string{"", "", "cuff", "yoke", "it&quot;s", "cuff", "Cuff", "über"}
	for k := range rapid.IntRange(1, 5).Draw(t, "pieces") {
		x, cm := float64(500*k), rapid.IntRange(4, 40)
		w, h := float64(10*min(cm.Draw(t, "w"), 30)), float64(10*cm.Draw(t, "h"))
		lean := float64(rapid.IntRange(0, 1).Draw(t, "lean") * 30)
		if name := rapid.SampledFrom(names).Draw(t, "name"); name != "" {
			fmt.Fprintf(&b, "<g id=\"g%d\"><path id=\"%s\" ", k, name)
		} else {
			fmt.Fprintf(&b, "<g id=\"g%d\"><path ", k)
		}
		fmt.Fprintf(&b, "stroke=\"black\" d=\"M%s %s H%s L%s %s H%s Z\"/></g>\n", n(x), n(0), n(x+w), n(x+w+lean),
			n(h), n(x+lean))
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// What a drawing is taken for stands in the tables of the job, and the job reads it again so: the
// same pieces, as large, as often and as mirrored as was shown.
func TestTheJobReadsWhatWasTaken(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "drawn.svg")
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(drawnUnits).Draw(t, "unit")
		text := drawnPieces(t, u)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		var o Options
		o.Millimetres = u.given
		if rapid.Bool().Draw(t, "seam lines") {
			o.Outline = outline.SeamLine
		}
		o.Tolerance = rapid.SampledFrom([]float64{0, .25, 1}).Draw(t, "join")
		f, err := Read(file, strings.NewReader(text), o)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		parts := f.Parts()
		for i := range parts {
			parts[i].Cloth = "wool"
		}
		tables, err := f.Tables(parts, "drawn.svg")
		if err != nil {
			t.Fatal(err)
		}
		src := "unit = \"cm\"\n[allowance]\nseam = 1\nhem = 1\n[[cloth]]\nid = \"wool\"\nwidth = 150\n" + tables
		read, err := job.Read(filepath.Join(folder, "job.toml"), []byte(src))
		if err != nil {
			t.Fatalf("%v\n%s%s", err, src, text)
		}
		if diff := cmp.Diff(shown(f, parts), cutBy(t, read.Job(), o.Outline == outline.SeamLine)); diff != "" {
			t.Fatalf("(-taken +cut) %s\n%s%s", diff, src, text)
		}
	})
}

// shown is what was said of the pieces: of each, so many mm round, how often, and whether in pairs.
func shown(f *Found, parts []Part) (all []string) {
	for _, part := range parts {
		for _, p := range part.Pieces {
			all = append(all, fmt.Sprintf("%.1f %d %v", plane.Length(p.Ring()), p.Copies.Count, p.Copies.Pair))
		}
	}
	slices.Sort(all)
	return all
}

// cutBy is the same of what a job cuts. The outline is the line that is sewn, or the one that is cut.
func cutBy(t *rapid.T, j *job.Job, sewn bool) (all []string) {
	for _, part := range j.Parts {
		for _, l := range part.Layers {
			made, err := l.Drafted()
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range made.Pieces {
				around := plane.Length(p.Cut)
				if sewn {
					around = plane.Length(p.Seam)
					if grown := plane.Length(p.Cut) - around; !widened(p, grown) {
						t.Fatalf("%s: cut %.1f longer round than it is sewn", p.Name, grown)
					}
				}
				all = append(all, fmt.Sprintf("%.1f %d %v", around, p.Count, p.Pair))
			}
		}
	}
	slices.Sort(all)
	return all
}

// widened says whether a piece of four corners is cut so much longer round as an allowance of
// 10 mm makes it: 2 x 10 mm x tan(turn / 2) at each corner, 80 mm where all are square.
func widened(p shapes.Piece, grown float64) bool {
	return grown > 79 && grown < 101 && len(p.Seam) == 5
}

// The words for units are read as lengths of just that many mm.
func TestUnitsAreWrittenAsLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.SampledFrom([]float64{1, 10, 25.4, 1000, 304.8, 25.4 / 72, 25.4 / 96, .1, 1e-3, 12.7,
			rapid.Float64Range(.001, 2000).Draw(t, "any")}).Draw(t, "mm")
		src := "unit = \"cm\"\n[allowance]\nseam = 1\nhem = 1\n[[cloth]]\nid = \"wool\"\nwidth = \"" +
			unitText(mm) + "\"\n[[part]]\nname = \"a\"\n" +
			"draft = \"rectangle\"\ncloth = \"wool\"\nwidth = 1\nlength = 1\n"
		read, err := job.Read("job.toml", []byte(src))
		if err != nil && mm >= 1 {
			t.Fatalf("%v: %v", mm, err)
		}
		if err == nil && math.Abs(read.Job().Cloths[0].Width-mm) > 1e-9*mm {
			t.Fatalf("%s is read as %v mm, not %v", unitText(mm), read.Job().Cloths[0].Width, mm)
		}
	})
}
