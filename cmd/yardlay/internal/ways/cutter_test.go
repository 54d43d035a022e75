package ways

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/cutter"
	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testdxf"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// printingOf prints from a job with so little work that pieces lie nearly as they first came.
func printingOf(t *testing.T, f *job.File) *Printing {
	t.Helper()
	p := &Printing{file: f, unit: measure.Inch,
		lay:  plan.Options{Effort: nest.Trial, Seed: 1, Gowns: 1, Unit: measure.Inch},
		date: time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC)}
	if _, _, err := p.drafted(context.Background()); err != nil {
		t.Fatal(err)
	}
	return p
}

// quickly lays the job of a printing.
func quickly(t *testing.T, p *Printing) *report.Report {
	t.Helper()
	r, err := p.laid(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// laidOnce are the jobs of testdata as laidJobs has laid them.
var laidOnce map[string]*Printing

// laidJobs prints from every job of testdata, laid once for all tests, which only look at them.
func laidJobs(t *testing.T) map[string]*Printing {
	t.Helper()
	if laidOnce == nil {
		all := map[string]*Printing{}
		for name, f := range allJobs(t) {
			all[name] = printingOf(t, f)
			quickly(t, all[name])
		}
		laidOnce = all
	}
	return laidOnce
}

// jobFiles are the files of the jobs of testdata, in a run by hand of four: with a fold, a repeat, leftovers and
// several cloths.
func jobFiles(t *testing.T) []string {
	t.Helper()
	names, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil || len(names) < 8 {
		t.Fatalf("%d jobs, %v", len(names), err)
	}
	byHand := []string{"lantern-gown.toml", "plaid-cape.toml", "stage-cape.toml", "velvet-train.toml"}
	return slices.DeleteFunc(names, func(name string) bool {
		return often.ByHand() && !slices.Contains(byHand, filepath.Base(name))
	})
}

// allJobs are those jobs.
func allJobs(t *testing.T) map[string]*job.File {
	t.Helper()
	all := map[string]*job.File{}
	for _, name := range jobFiles(t) {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(name)] = testjobs.File(t, name, string(src))
	}
	return all
}

// fold is the layer of an edge on a fold, cut that of the cut line.
const foldLayer, cutLayer, sewLayer, notchLayer = "6", "1", "14", "4"

// whole closes the cut line of a piece by its fold.
func whole(t *testing.T, cut, fold []orb.LineString) orb.Ring {
	t.Helper()
	if len(cut) != 1 || len(fold) > 1 {
		t.Fatalf("%d cut lines, %d folds", len(cut), len(fold))
	}
	ring := slices.Clone(cut[0])
	if len(fold) == 1 {
		ring = append(ring, ring[0])
	}
	if ring[0] != ring[len(ring)-1] {
		t.Fatal("the cut line is open")
	}
	return orb.Ring(ring)
}

// apart is how far the points of one outline lie from those of another of as many, at most,
// wherever they begin.
func apart(t *testing.T, a, b orb.Ring) float64 {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("%d points, not %d", len(a), len(b))
	}
	a, b = a[1:], b[1:]
	least := math.Inf(1)
	for from := range b {
		most := 0.0
		for i := 0; i < len(a) && most < least; i++ {
			most = max(most, planar.Distance(a[i], b[(i+from)%len(b)]))
		}
		least = min(least, most)
	}
	return least
}

// Every piece of every job is in the DXF as it is drafted, opened out or as its half,
// exactly in millimetres and within 0.001 mm in inches; and as often as the job says.
func TestCutterPiecesAreThoseDrafted(t *testing.T) {
	for name, f := range allJobs(t) {
		p := printingOf(t, f)
		for _, halves := range []bool{false, true} {
			p.o.halves = halves
			for _, s := range p.spreads {
				checkPieces(t, name, p, s, halves)
			}
		}
	}
}

func checkPieces(t *testing.T, name string, p *Printing, s plan.Spread, halves bool) {
	t.Helper()
	for i, c := range s.Cuts {
		want := c.Piece
		if !halves {
			want = want.Unfold()
		}
		pieces := p.forCutter(s, i)
		work := cutter.Pieces(p.cutterHead(s, "pieces", nil), pieces)
		for unit, size := range map[sheet.DXFUnit]float64{sheet.DXFMillimetres: 1, sheet.DXFInches: 25.4} {
			data, err := work.DXF(unit)
			if err != nil {
				t.Fatal(err)
			}
			d := testdxf.Read(t, data)
			cuts, folds := d.Placed(cutLayer), d.Placed(foldLayer)
			for k := range pieces {
				ring := whole(t, cuts[k], folds[k])
				at := work.Places[k].At
				for v := range ring {
					ring[v] = orb.Point{ring[v][0]*size - at[0], ring[v][1]*size - at[1]}
				}
				allowed := map[bool]float64{true: 0, false: 0.001}[size == 1]
				if off := apart(t, ring, want.Cut); off > allowed {
					t.Errorf("%s: %s is %g off", name, c.Piece.Name, off)
				}
				if halves != (len(folds[k]) == 1) && c.Piece.OnFold {
					t.Errorf("%s: %s has %d folds", name, c.Piece.Name, len(folds[k]))
				}
			}
		}
		cut := 0
		for _, of := range bearingAlike(c.Piece) {
			cut += len(of)
		}
		if cut != c.Piece.Count || len(pieces) == 0 {
			t.Errorf("%s: %s is cut %d times, not %d", name, c.Piece.Name, cut, c.Piece.Count)
		}
	}
}

// Every outline of every marker lies in the DXF where the judge has passed it, and its seam
// lines and notches where the drawing of the marker has them, which is made another way.
func TestCutterMarkersAreThoseJudged(t *testing.T) {
	for name, p := range laidJobs(t) {
		checkMarkers(t, name, p, p.report)
	}
}

// The same on cloths of all lays and rules: mirrored, turned, leaning, on folds.
func TestCutterMarkersOfRandomCloths(t *testing.T) {
	for seed := range 16 {
		src := testjobs.Gown(testjobs.RandomCloth.Example(seed))
		if seed%4 == 3 { // leaning, on the bias, on the cross grain
			src = strings.Replace(src, "pair = true", "pair = true\ngrain = \""+[]string{"bias", "cross"}[seed/4%2]+
				"\"", 1)
		}
		f := testjobs.File(t, "job.toml", src)
		p := printingOf(t, f)
		if _, err := p.laid(context.Background()); err != nil {
			continue // what cannot be laid is not printed
		}
		checkMarkers(t, src, p, p.report)
	}
}

func checkMarkers(t *testing.T, name string, p *Printing, r *report.Report) {
	t.Helper()
	copies := 0
	for _, c := range r.Cloths {
		for i, s := range c.Markers {
			work := p.markerForCutter(r, c, i).Work()
			data, err := work.DXF(sheet.DXFMillimetres)
			if err != nil {
				t.Fatal(err)
			}
			d := testdxf.Read(t, data)
			cuts, folds, sewn, notches := d.Placed(cutLayer), d.Placed(foldLayer), d.Placed(sewLayer),
				d.Placed(notchLayer)
			if len(cuts) != len(s.Layout.Placed) {
				t.Fatalf("%s: %d outlines of %d", name, len(cuts), len(s.Layout.Placed))
			}
			drawn := depict.Marker(r, c).Stretches[i].Pieces
			for k, pl := range s.Layout.Placed {
				ring := whole(t, cuts[k], folds[k])
				if off := apart(t, ring, s.Problem.Outline(pl)); off > 0.001 {
					t.Errorf("%s: %s is %g off", name, drawn[k].Name, off)
				}
				if (len(drawn[k].Fold) > 1) != (len(folds[k]) == 1) {
					t.Errorf("%s: %s has %d folds", name, drawn[k].Name, len(folds[k]))
				}
				checkSewn(t, name, drawn[k], sewn[k])
				checkNotches(t, name, drawn[k], notches[k])
				copies += len(s.Cuts[k])
			}
		}
	}
	want := 0
	for _, c := range r.Cloths {
		want += c.Spread.Copies()
	}
	if copies != want {
		t.Errorf("%s: %d copies are cut, not %d", name, copies, want)
	}
}

// checkSewn holds the seam line to that of the drawing.
func checkSewn(t *testing.T, name string, drawn sheet.Placed, sewn []orb.LineString) {
	t.Helper()
	for _, l := range sewn {
		for _, v := range l {
			if off := planar.DistanceFrom(orb.LineString(drawn.Seam), v); off > 0.001 {
				t.Fatalf("%s: the seam line of %s is %g off", name, drawn.Name, off)
			}
		}
		if long := plane.Length(l) + plane.Length(drawn.Fold); math.Abs(long-plane.Length(drawn.Seam)) > 0.5 {
			t.Errorf("%s: the seam line of %s is %g long, not %g", name, drawn.Name, long, plane.Length(drawn.Seam))
		}
	}
}

// checkNotches holds each notch to the line through that of the drawing.
func checkNotches(t *testing.T, name string, drawn sheet.Placed, notches []orb.LineString) {
	t.Helper()
	if len(notches) != len(drawn.Notches) {
		t.Fatalf("%s: %s has %d notches of %d", name, drawn.Name, len(notches), len(drawn.Notches))
	}
	for i, n := range drawn.Notches {
		for _, end := range notches[i] {
			dx, dy := end[0]-n.At[0], end[1]-n.At[1]
			if off := math.Abs(dx*n.Outward[1] - dy*n.Outward[0]); off > 0.01 {
				t.Errorf("%s: a notch of %s is %g off its line", name, drawn.Name, off)
			}
		}
		if off := planar.DistanceFrom(orb.LineString(drawn.Cut), notches[i][0]); off > 0.005 {
			t.Errorf("%s: a notch of %s begins %g off the cut line", name, drawn.Name, off)
		}
	}
}

// A drawing serves all copies that differ by a turn and a place; a mirrored copy has its own.
func TestOneBlockAPiece(t *testing.T) {
	p := laidJobs(t)["lantern-gown.toml"]
	r := p.report
	for _, c := range r.Cloths {
		for i := range c.Markers {
			m := p.markerForCutter(r, c, i)
			names := map[string]int{}
			for _, piece := range m.Pieces {
				names[piece.Name]++
			}
			for _, cut := range c.Spread.Cuts {
				mirrored := cut.Piece.Name + " mirrored"
				if names[mirrored] > 1 || names[mirrored] == 1 && names[cut.Piece.Name] == 0 {
					t.Errorf("%s: %v", cut.Piece.Name, names)
				}
			}
			if len(m.Pieces) > 2*len(c.Spread.Cuts)+4 { // a few bear other notches
				t.Errorf("%s: %d blocks of %d pieces", c.ID, len(m.Pieces), len(c.Spread.Cuts))
			}
		}
	}
}

// Halves on a fold too, of which some lie end for end against the other edge of a double fold.
func TestCutterMarkersOfHalves(t *testing.T) {
	turned := 0
	for _, lay := range []string{"double-fold", "lengthwise-fold"} {
		src := "unit = \"in\"\n[body]\nwaist_girth = 28\n[allowance]\nseam = \"1/2\"\nhem = 1\n[[cloth]]\nid = " +
			"\"satin\"\n" +
			"width = 100\nnap = \"two-way\"\nlay = \"" + lay + "\"\n"
		for _, length := range []string{"22", "24", "26"} {
			src += "[[part]]\nname = \"skirt " + length + "\"\ndraft = \"circle-skirt\"\ncloth = \"satin\"\n" +
				"circle = \"half\"\ngores = 6\nlength = " + length + "\nfront_on_fold = true\n"
		}
		p := printingOf(t, testjobs.File(t, "job.toml", src))
		p.lay.Effort = nest.Trial // so much work, not so much time: some half is turned
		r, err := p.laid(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		checkMarkers(t, lay, p, r)
		for _, s := range r.Cloths[0].Markers {
			for _, pl := range s.Layout.Placed {
				if pl.Mirrored && s.Problem.Pieces[pl.Piece].OnFold {
					turned++
				}
			}
		}
	}
	if turned == 0 {
		t.Error("no half lies end for end")
	}
}
