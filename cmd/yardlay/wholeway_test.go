package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/peterstace/simplefeatures/geom"

	"yardlay/benchmarks/processor"
)

// wholeWays is the variable of the environment that says how many random jobs go the
// whole way, as .ci/run has it; without it a few do, with less time.
const wholeWays, fewWays = "YARDLAY_WHOLE_WAYS", 4

// Random jobs go the whole way through the program: read, drafted, laid, written.
// What it writes is judged by another program for areas and distances, which knows
// nothing of this one: nothing overlaps or comes nearer than the gap, all lies on
// the cloth, each copy is cut once. It keeps to its ceiling on
// time, and to a budget of memory; what it refuses it refuses at a place of the
// file.
func TestRandomJobsGoTheWholeWay(t *testing.T) {
	many, ceiling := fewWays, 200*time.Millisecond
	if text := os.Getenv(wholeWays); text != "" {
		var err error
		if many, err = strconv.Atoi(text); err != nil {
			t.Fatalf("%s: %v", wholeWays, err)
		}
		ceiling = 3 * time.Second
	}
	bin, laid := asProgram(t), 0
	for seed := range many {
		w := newWholeWay(uint64(seed))
		if w.run(t, bin, ceiling) {
			laid++
		}
	}
	if laid < many/3 {
		t.Errorf("%d of %d jobs were laid, too few to tell", laid, many)
	}
}

// asProgram returns a name by which this test runs as the program.
func asProgram(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	bin := filepath.Join(t.TempDir(), "yardlay")
	if err := os.Symlink(self, bin); err != nil { // TestMain runs it by that name
		t.Fatal(err)
	}
	return bin
}

// wholeWay is a random job and what is known of it.
type wholeWay struct {
	seed uint64
	src  string
	gap  float64 // mm
}

// newWholeWay writes a job of one to four parts on one or two cloths that may have
// any of the rules a cloth can have.
func newWholeWay(seed uint64) wholeWay {
	rng := rand.New(rand.NewPCG(seed, 1))
	pick := func(of ...string) string { return of[rng.IntN(len(of))] }
	some := func(share float64, text string) string {
		if rng.Float64() < share {
			return text
		}
		return ""
	}
	gap := rng.IntN(6) // mm
	var b strings.Builder
	fmt.Fprintf(&b, "unit = \"mm\"\ngap = %d\n[allowance]\nseam = %d\nhem = %d\n[body]\nwaist_girth = %d\nhip_girth "+
		"= 980\nwaist_to_hips = 200\n",
		gap, 8+rng.IntN(8), 10+rng.IntN(30), 620+rng.IntN(120))
	cloths := 1 + rng.IntN(2)
	for i := range cloths {
		width := 600 + 50*rng.IntN(20)
		fmt.Fprintf(&b, "[[cloth]]\nid = \"c%d\"\nwidth = %d\nnap = %q\n", i, width,
			pick("one-way", "two-way", "all-way"))
		b.WriteString(some(0.3, fmt.Sprintf("lay = %q\n", pick("lengthwise-fold", "crosswise-fold", "double-fold"))))
		b.WriteString(some(0.3, "selvedge = 10\n") + some(0.3, "both_faces = true\n") + some(0.2,
			"ends = 20\nskew = 10\n"))
		b.WriteString(some(0.2, fmt.Sprintf("repeat = { along = %d }\n", 40+10*rng.IntN(20))))
		b.WriteString(some(0.2, fmt.Sprintf("shrinkage = { warp = \"-3 %%\", weft = \"-2 %%\", by = %q }\n",
			pick("prewash", "pieces"))))
		b.WriteString(some(0.2, "flaws = [ { from = 200, to = 240, low = 100, high = 160 } ]\n"))
		b.WriteString(some(0.3, fmt.Sprintf("have = [ { name = \"remnant\", length = %d, width = %d } ]\n",
			400+rng.IntN(500), width-100)))
		b.WriteString(some(0.5, "price = \"12.00/m\"\n"))
	}
	for i := range 1 + rng.IntN(4) {
		fmt.Fprintf(&b, "[[part]]\nname = \"part %d\"\ncloth = \"c%d\"\n", i, rng.IntN(cloths))
		switch rng.IntN(6) {
		case 0, 1:
			fmt.Fprintf(&b, "draft = \"rectangle\"\nlength = %d\nwidth = %d\ncount = %d\n", 100+rng.IntN(500),
				50+rng.IntN(350), 1+rng.IntN(6))
		case 2:
			fmt.Fprintf(&b, "draft = \"godet\"\nlength = %d\nhem = %d\ncount = %d\n", 200+rng.IntN(300),
				100+rng.IntN(200), 1+rng.IntN(8))
		case 3:
			fmt.Fprintf(&b, "draft = \"gored-skirt\"\nlength = %d\ngores = %d\nhem_sweep = %d\n", 400+rng.IntN(500),
				4+rng.IntN(8), 1500+rng.IntN(1500))
		case 4:
			fmt.Fprintf(&b, "draft = \"cape\"\nneck = 400\nlength = %d\ncircle = \"half\"\nback_on_fold = %v\n",
				100+rng.IntN(300), rng.IntN(2) == 0)
		case 5:
			fmt.Fprintf(&b, "draft = \"waistband\"\nwidth = %d\n", 20+rng.IntN(40))
		}
		b.WriteString(some(0.2, "times = 2\n") + some(0.1, "tilt = 2\n"))
	}
	return wholeWay{seed, b.String(), float64(gap)}
}

// What a job of this size may take: of processor time far beyond its ceiling, and of memory.
const (
	wholeTime   = 30 * time.Second
	wholeMemory = 700 << 20 // bytes
)

// run takes the job through lay, with a ceiling on its time, and checks what comes of
// it; false when it was refused.
func (w wholeWay) run(t *testing.T, bin string, ceiling time.Duration) bool {
	dir := t.TempDir()
	name := filepath.Join(dir, "gown.toml")
	if err := os.WriteFile(name, []byte(w.src), 0o644); err != nil {
		t.Fatal(err)
	}
	fail := func(what string, args ...any) {
		t.Errorf("job %d: %s\n%s", w.seed, fmt.Sprintf(what, args...), w.src)
	}
	ctx, done := context.WithTimeout(t.Context(), hangs)
	defer done()
	out := filepath.Join(dir, "out")
	var said, errs bytes.Buffer
	c := exec.CommandContext(ctx, bin, "lay", name, "--effort", "quick", "--time", ceiling.String(), "--out", out)
	c.Stdout, c.Stderr = &said, &errs
	err := c.Run()
	if ctx.Err() != nil || processor.Exceeds(c.ProcessState.UserTime()+c.ProcessState.SystemTime(), wholeTime) {
		fail("it took over %v at a ceiling of %v", wholeTime, ceiling)
		return false
	}
	if m := peakMemory(c.ProcessState); m > wholeMemory {
		fail("it took %d MB", m>>20)
	}
	if err != nil {
		at, placed := strings.CutPrefix(errs.String(), name+":")
		if c.ProcessState.ExitCode() != exitFailed || !placed || !strings.Contains(errs.String(), "hint: ") ||
			len(at) == 0 || at[0] < '0' || at[0] > '9' {
			fail("%v: %s", err, &errs)
		}
		if _, err := os.Stat(out); err == nil {
			fail("it left a folder and failed")
		}
		t.Logf("job %d is refused: %s", w.seed, &errs)
		return false
	}
	cut, err := exec.CommandContext(ctx, bin, "draft", name, "--json").Output()
	if err != nil {
		fail("draft: %v", err)
		return false
	}
	if err := w.judge(out, cut); err != nil {
		fail("%v\n%s", err, &said)
	}
	return true
}

// marker is a written file of outlines.
type writtenMarker struct {
	Cloth         string
	Width, Length float64
	Features      []struct {
		Properties struct {
			Piece        string
			Copy, Second int
		}
		Geometry json.RawMessage
	}
}

// cutList is what draft says is cut.
type writtenList struct {
	Pieces []struct {
		Cloth, Piece string
		Count        int
	}
}

// judge reads what was written and looks for what must not be.
func (w wholeWay) judge(dir string, cut []byte) error {
	names, err := filepath.Glob(filepath.Join(dir, "*.geojson"))
	if err != nil || len(names) == 0 {
		return fmt.Errorf("no outlines: %v", err)
	}
	cuts := map[string]int{} // by cloth, piece and copy
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		var m writtenMarker
		if err := json.Unmarshal(text, &m); err != nil {
			return err
		}
		if err := w.lies(m); err != nil {
			return fmt.Errorf("%s: %w", filepath.Base(name), err)
		}
		for _, f := range m.Features {
			for _, n := range []int{f.Properties.Copy, f.Properties.Second} {
				if n > 0 {
					cuts[fmt.Sprint(m.Cloth, "/", f.Properties.Piece, "/", n)]++
				}
			}
		}
	}
	var list writtenList
	if err := json.Unmarshal(cut, &list); err != nil {
		return err
	}
	for _, p := range list.Pieces {
		for n := range p.Count {
			key := fmt.Sprint(p.Cloth, "/", p.Piece, "/", n+1)
			if cuts[key] != 1 {
				return fmt.Errorf("%s is cut %d times", key, cuts[key])
			}
			delete(cuts, key)
		}
	}
	if len(cuts) > 0 {
		return fmt.Errorf("nobody asked for %v", cuts)
	}
	return nil
}

// lies checks the outlines of one marker against each other and against its cloth.
// Coordinates are multiples of 2^-10 mm; the noise of float64 is far below one.
func (w wholeWay) lies(m writtenMarker) error {
	const lattice, noise = 1. / 1024, 1e-7
	var outlines []geom.Geometry
	longest := 0.0
	for i, f := range m.Features {
		g, err := geom.UnmarshalGeoJSON(f.Geometry)
		if err != nil {
			return fmt.Errorf("outline %d: %w", i, err)
		}
		low, high, _ := g.Envelope().MinMaxXYs()
		if low.X < 0 || low.Y < 0 || high.X > m.Length || high.Y > m.Width {
			return fmt.Errorf("%s, copy %d, reaches beyond the cloth", f.Properties.Piece, f.Properties.Copy)
		}
		longest = max(longest, high.X)
		for k, other := range outlines {
			apart, ok := geom.Distance(g, other)
			if !ok || apart < w.gap-lattice-noise {
				return fmt.Errorf("outlines %d and %d are %v mm apart, the gap is %v", k, i, apart, w.gap)
			}
			both, err := geom.Intersection(g, other)
			if err != nil || both.Area() > noise {
				return fmt.Errorf("outlines %d and %d share %v mm2: %v", k, i, both.Area(), err)
			}
		}
		outlines = append(outlines, g)
	}
	if longest != m.Length {
		return fmt.Errorf("%v mm are used, it says %v", longest, m.Length)
	}
	return nil
}
