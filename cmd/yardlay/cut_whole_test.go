package main

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/plane"
)

// fewRooms is how many random rooms are cut from without YARDLAY_WHOLE_WAYS.
var fewRooms = often.Full(2, 3)

// roomWay is a random workroom of one cloth, cut from by one job after the other.
type roomWay struct {
	t        *testing.T
	rng      *rand.Rand
	bin, dir string
	width    float64            // mm
	along    float64            // of a length once it is washed first; else 1
	across   float64            // of a width
	larger   float64            // of the area of pieces that are drawn larger
	laidOn   map[string]float64 // mm2, of each leftover when it went on the shelf
	usedFor  map[string]string
}

// Random jobs are cut one after the other in one room, by the real program: what is bought or taken off the
// shelf is pieces, shelf and waste to 1 mm2, no leftover is used twice, and undone in turn the book is at each
// step what it was, byte for byte.
func TestRandomJobsAreCutFromOneRoom(t *testing.T) {
	rooms := fewRooms
	if text := os.Getenv(wholeWays); text != "" {
		var err error
		if rooms, err = strconv.Atoi(text); err != nil {
			t.Fatalf("%s: %v", wholeWays, err)
		}
	}
	bin, cuts, fromShelf := asProgram(t), 0, 0
	for seed := range rooms {
		w := newRoomWay(t, bin, uint64(seed))
		c, s := w.run()
		cuts, fromShelf = cuts+c, fromShelf+s
	}
	if cuts < 2*rooms || fromShelf == 0 {
		t.Errorf("%d jobs were cut, %d of them from the shelf: too few to tell", cuts, fromShelf)
	}
}

func newRoomWay(t *testing.T, bin string, seed uint64) *roomWay {
	rng := rand.New(rand.NewPCG(seed, 7))
	w := &roomWay{t: t, rng: rng, bin: bin, dir: t.TempDir(), width: float64(700 + 50*rng.IntN(16)), along: 1, across: 1,
		larger: 1, laidOn: map[string]float64{}, usedFor: map[string]string{}}
	book := fmt.Sprintf("unit = \"mm\"\n\n[[cloth]]\nid = \"net\" # the only one\nwidth = %v\n"+
		"price = \"9.00/m\"\n", w.width)
	some := func(share float64, text string) {
		if rng.Float64() < share {
			book += text + "\n"
		}
	}
	some(0.7, `nap = "two-way"`)
	some(0.4, fmt.Sprintf("lay = %q", []string{"lengthwise-fold", "crosswise-fold", "double-fold"}[rng.IntN(3)]))
	some(0.3, "selvedge = 10")
	some(0.3, "ends = 20\nskew = 10")
	some(0.2, "repeat = { along = 90 }")
	some(0.2, "flaws = [ { from = 200, to = 240, low = 100, high = 160 } ]")
	switch rng.IntN(4) {
	case 0:
		book += "shrinkage = { warp = \"-4 %\", weft = \"-2 %\", by = \"prewash\" }\n"
		w.along, w.across = 0.96, 0.98
	case 1:
		book += "shrinkage = { warp = \"-4 %\", weft = \"-2 %\", by = \"pieces\" }\n"
		w.larger = 1 / (0.96 * 0.98)
	}
	w.write(job.WorkroomFile, book)
	return w
}

func (w *roomWay) write(name, text string) {
	if err := os.WriteFile(filepath.Join(w.dir, name), []byte(text), 0o644); err != nil {
		w.t.Fatal(err)
	}
}

func (w *roomWay) book() (string, *job.Workroom) {
	src, err := os.ReadFile(filepath.Join(w.dir, job.WorkroomFile))
	if err != nil {
		w.t.Fatal(err)
	}
	book, err := job.ReadWorkroom(job.WorkroomFile, src)
	if err != nil {
		w.t.Fatalf("%v\n%s", err, src)
	}
	return string(src), book
}

// do runs the program in the room.
func (w *roomWay) do(args ...string) ([]byte, error) {
	c := exec.Command(w.bin, args...)
	c.Dir = w.dir
	return c.Output()
}

// run cuts jobs, and takes the cuts back; it counts them and those that used the shelf.
func (w *roomWay) run() (cuts, fromShelf int) {
	var before, names []string
	for i := range 4 {
		name := fmt.Sprintf("gown-%d.toml", i)
		area := w.job(name)
		was, _ := w.book()
		out, err := w.do("cut", name, "--effort", "quick", "--json", "--on", "2026-11-29")
		if err != nil {
			continue // this cloth cannot be cut so, or the job is too large for it
		}
		before, names = append(before, was), append(names, name)
		var told cutReport
		if err := json.Unmarshal(out, &told); err != nil {
			w.t.Fatal(err)
		}
		cuts++
		if len(told.Cloths[0].Used) > 0 {
			fromShelf++
		}
		w.check(name, told.Cloths[0], area)
	}
	for i := len(names) - 1; i >= 0; i-- {
		if _, err := w.do("cut", names[i], "--undo"); err != nil {
			w.t.Fatalf("%s is not undone: %v", names[i], err)
		}
		if now, _ := w.book(); now != before[i] {
			w.t.Fatalf("undone, the book is\n%s\nnot\n%s", now, before[i])
		}
	}
	return cuts, fromShelf
}

// job writes a job of a few rectangles and returns what they cover, mm2.
func (w *roomWay) job(name string) (area float64) {
	var b strings.Builder
	b.WriteString("unit = \"mm\"\n[allowance]\nseam = 0\nhem = 0\n[[cloth]]\nid = \"tulle\"\nfrom = \"net\"\n")
	for i := range 1 + w.rng.IntN(3) {
		x, y, n := 60+w.rng.IntN(500), 60+w.rng.IntN(300), 1+w.rng.IntN(3)
		fmt.Fprintf(&b, "[[part]]\nname = \"part %d\"\ndraft = \"rectangle\"\ncloth = \"tulle\"\nlength = %d\nwidth = %d\n"+
			"count = %d\n", i, x, y, n)
		area += float64(x * y * n)
	}
	w.write(name, b.String())
	return area * w.larger
}

// check holds what a cut says to the book and to the areas that are known without it.
func (w *roomWay) check(name string, told clothReport, pieces float64) {
	_, book := w.book()
	cloth := told.Bought * w.along * w.width * w.across
	for _, used := range told.Used {
		if by, twice := w.usedFor[used]; twice {
			w.t.Fatalf("%s is used for %s and for %s", used, by, name)
		}
		w.usedFor[used] = name
		cloth += w.laidOn[used]
	}
	kept := 0.0
	for _, l := range book.Leftovers {
		if l.From == name {
			w.laidOn[l.Name] = plane.Area(l.Outline)
			kept += w.laidOn[l.Name]
		}
		if by := w.usedFor[l.Name]; l.Used != by {
			w.t.Fatalf("%s is used for %q by the book, and for %q", l.Name, l.Used, by)
		}
	}
	b := told.Balance
	for _, one := range []struct {
		what      string
		got, want float64
	}{{"cloth", b.Cloth, cloth}, {"pieces", b.Pieces, pieces}, {"kept", b.Kept, kept},
		{"waste", b.Waste, cloth - pieces - kept}} {
		if math.Abs(one.got-one.want) > 1 {
			w.t.Errorf("%s: %s is %.1f mm2, want %.1f", name, one.what, one.got, one.want)
		}
	}
	if b.Waste < -1 {
		w.t.Errorf("%s: waste of %v mm2", name, b.Waste)
	}
}
