package ways

import (
	"bytes"
	"context"
	"encoding/json"
	"image/png"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/cutter"
	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/plane"
)

// dxfProgram reads files with ezdxf and prints what it makes of each: what its audit finds
// and mends, its units, and the cut lines and folds of each insertion as it places them. What
// it mends in a file that it wrote itself, with a polyline in a block, does not count: release
// 0.18 gives the ends of those no owner.
const dxfProgram = `
import json, os, re, sys, tempfile, ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode
own = ezdxf.new("R12")
own.blocks.new("A").add_polyline2d([(0, 0), (1, 0), (1, 1)])
with tempfile.TemporaryDirectory() as folder:
    own.saveas(os.path.join(folder, "own.dxf"))
    audit = ezdxf.readfile(os.path.join(folder, "own.dxf")).audit()
def plain(found):
    return re.sub("#[0-9A-F]+", "#", found.message)
habits = {plain(f) for f in audit.fixes}
for name in sys.argv[1:]:
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    placed = []
    for insert in doc.modelspace().query("INSERT"):
        lines = {"1": [], "6": []}
        for e in insert.virtual_entities():
            if e.dxf.layer in lines and e.dxftype() == "POLYLINE":
                points = [[p[0], p[1]] for p in e.points()]
                lines[e.dxf.layer].append(points + points[:1] if e.is_closed else points)
            elif e.dxf.layer in lines and e.dxftype() == "LINE":
                lines[e.dxf.layer].append([[p[0], p[1]] for p in (e.dxf.start, e.dxf.end)])
        placed.append(lines)
    texts = [decode_dxf_unicode(t.dxf.text) for block in doc.blocks for t in block.query("TEXT")]
    print(json.dumps({"version": doc.dxfversion, "units": doc.units, "metric": doc.header.get("$MEASUREMENT"),
        "errors": [e.message for e in audit.errors],
        "fixes": [f.message for f in audit.fixes if plain(f) not in habits], "placed": placed, "texts": texts}))
`

// asRead is what another reader makes of a DXF.
type asRead struct {
	Version string
	Units   int
	Metric  int
	Errors  []string
	Fixes   []string
	Placed  []map[string][]orb.LineString
	Texts   []string
}

// readOutside reads files with Debian's python3-ezdxf.
func readOutside(t *testing.T, files ...[]byte) []asRead {
	t.Helper()
	args := []string{"-c", dxfProgram}
	for _, data := range files {
		args = append(args, outside.File(t, "work.dxf", data))
	}
	var all []asRead
	decoder := json.NewDecoder(bytes.NewReader(outside.Run(t, "/usr/bin/python3", args...)))
	for range files {
		var read asRead
		if err := decoder.Decode(&read); err != nil {
			t.Fatal(err)
		}
		if len(read.Errors)+len(read.Fixes) > 0 || read.Version != "AC1009" {
			t.Errorf("%s: errors %q, mended %q", read.Version, read.Errors, read.Fixes)
		}
		all = append(all, read)
	}
	return all
}

// ezdxf finds nothing to mend in the pieces of any job, and their outlines are those drafted,
// within 0.001 mm.
func TestOutsideDXFOfPieces(t *testing.T) {
	outside.Wanted(t, "python3-ezdxf")
	var files [][]byte
	var want [][]orb.Ring
	for _, f := range allJobs(t) {
		p := printingOf(t, f)
		for _, s := range p.spreads {
			var pieces []cutter.Piece
			for i := range s.Cuts {
				pieces = append(pieces, p.forCutter(s, i)...)
			}
			work := cutter.Pieces(p.cutterHead(s, "pieces", nil), pieces)
			data, err := work.DXF(sheet.DXFInches)
			if err != nil {
				t.Fatal(err)
			}
			var rings []orb.Ring
			for i, piece := range pieces {
				rings = append(rings, plane.Pose{At: work.Places[i].At}.Apply(piece.Cut))
			}
			files, want = append(files, data), append(want, rings)
		}
	}
	for i, read := range readOutside(t, files...) {
		if read.Units != 1 || read.Metric != 0 {
			t.Errorf("units %d, metric %d, want inches", read.Units, read.Metric)
		}
		sameOutside(t, read, want[i], 25.4)
	}
}

// The same of the markers of all jobs, in millimetres, as the judge has passed them.
func TestOutsideDXFOfMarkers(t *testing.T) {
	outside.Wanted(t, "python3-ezdxf")
	var files [][]byte
	var want [][]orb.Ring
	for _, f := range allJobs(t) {
		p := printingOf(t, f)
		files, want = p.markersOutside(t, files, want)
	}
	for seed := range 8 {
		p := printingOf(t, testjobs.File(t, "job.toml",
			testjobs.Gown(testjobs.RandomCloth.Example(seed))))
		files, want = p.markersOutside(t, files, want)
	}
	for i, read := range readOutside(t, files...) {
		if read.Units != 4 || read.Metric != 1 {
			t.Errorf("units %d, metric %d, want millimetres", read.Units, read.Metric)
		}
		sameOutside(t, read, want[i], 1)
	}
}

// markersOutside adds the markers of a job, with their outlines, if it can be laid.
func (p *Printing) markersOutside(t *testing.T, files [][]byte, want [][]orb.Ring) ([][]byte, [][]orb.Ring) {
	t.Helper()
	r, err := p.laid(context.Background())
	if err != nil {
		return files, want
	}
	for _, c := range r.Cloths {
		for i, s := range c.Markers {
			data, err := p.markerForCutter(r, c, i).Work().DXF(sheet.DXFMillimetres)
			if err != nil {
				t.Fatal(err)
			}
			var rings []orb.Ring
			for _, pl := range s.Layout.Placed {
				rings = append(rings, s.Problem.Outline(pl))
			}
			files, want = append(files, data), append(want, rings)
		}
	}
	return files, want
}

// sameOutside holds outlines read in a unit of so many mm against those wanted.
func sameOutside(t *testing.T, read asRead, want []orb.Ring, size float64) {
	t.Helper()
	if len(read.Placed) != len(want) {
		t.Fatalf("%d outlines of %d", len(read.Placed), len(want))
	}
	for i, lines := range read.Placed {
		ring := whole(t, lines[cutLayer], lines[foldLayer])
		for k := range ring {
			ring[k] = orb.Point{ring[k][0] * size, ring[k][1] * size}
		}
		if off := apart(t, ring, want[i]); off > 0.001 {
			t.Errorf("outline %d is %g off", i, off)
		}
	}
}

// Names in other scripts are read back as they were; ezdxf leaves what lies beyond 16 bits
// as the two halves of UTF-16.
func TestOutsideDXFNames(t *testing.T) {
	names := []string{"юбка, задняя", "φούστα", "jupe à volants", `C:\U+0041`, "robe 👗", "plain"}
	var pieces []cutter.Piece
	for _, n := range names {
		pieces = append(pieces, cutter.Piece{Name: n, Words: []string{n},
			Outline: sheet.Outline{Cut: sheet.Box(0, 0, 400, 200)}})
	}
	data, err := cutter.Pieces(cutter.Head{Title: "имя"}, pieces).DXF(sheet.DXFMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	got := readOutside(t, data)[0].Texts
	for _, n := range names {
		var halves strings.Builder
		for _, u := range utf16.Encode([]rune(n)) {
			halves.WriteRune(rune(u))
		}
		if !slices.Contains(got, n) && !slices.Contains(got, halves.String()) {
			t.Errorf("%q is not among %q", n, got)
		}
	}
}

// rsvg-convert draws the SVG at its true size, and the outlines filled have the area of the
// pieces.
func TestOutsideSVGIsAtTrueSize(t *testing.T) {
	outside.Wanted(t, "rsvg-convert")
	p := printingOf(t, allJobs(t)["lantern-gown.toml"])
	for _, s := range p.spreads[:2] {
		var pieces []cutter.Piece
		area := 0.0
		for i := range s.Cuts {
			for _, piece := range p.forCutter(s, i) {
				pieces, area = append(pieces, piece), area+plane.Area(piece.Cut)
			}
		}
		work := cutter.Pieces(p.cutterHead(s, "pieces", nil), pieces)
		data, err := work.Without(sheet.LayerWords).SVG()
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Index(string(data), `<g id="cut" fill="none"`)
		filled := strings.Replace(string(data), `<g id="cut" fill="none"`, `<g id="cut" fill="#000"`, 1)
		if lines < 0 {
			t.Fatal("no cut lines")
		}
		// At 25.4 dots an inch a dot is a millimetre.
		drawn := outside.Run(t, "rsvg-convert", "--dpi-x", "25.4", "--dpi-y", "25.4", "-b", "white",
			outside.File(t, "work.svg", []byte(filled)))
		m, err := png.Decode(bytes.NewReader(drawn))
		if err != nil {
			t.Fatal(err)
		}
		page := work.Page
		if b := m.Bounds(); math.Abs(float64(b.Dx())-(page.Max[0]-page.Min[0])) > 1 ||
			math.Abs(float64(b.Dy())-(page.Max[1]-page.Min[1])) > 1 {
			t.Errorf("drawn %d x %d mm, the page is %v", b.Dx(), b.Dy(), page)
		}
		dark := 0.0
		for y := range m.Bounds().Dy() {
			for x := range m.Bounds().Dx() {
				r, _, _, _ := m.At(x, y).RGBA()
				dark += 1 - float64(r)/0xffff
			}
		}
		if math.Abs(dark/area-1) > 0.001 {
			t.Errorf("filled they take %.0f mm2, the pieces have %.0f", dark, area)
		}
	}
}
