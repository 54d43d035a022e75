package kept

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// cloths are ways to lay the jobs of these tests.
var cloths = []string{"", "nap = \"all-way\"\n", "lay = \"lengthwise-fold\"\n", "lay = \"double-fold\"\n",
	"nap = \"two-way\"\nlay = \"crosswise-fold\"\n", "repeat = { along = 7 }\n",
	"flaws = [{ from = 20, to = 30, edge = \"lower\", depth = 5 }]\n"}

// laidJob lays a job with little work, each task as begin makes it.
func laidJob(t rapid.TB, src string, begin func(plan.Task) plan.Task) []plan.Laid {
	t.Helper()
	laid, err := plan.Lay(context.Background(), testjobs.Read(t, src), plan.Options{Effort: nest.Trial, Begin: begin})
	if err != nil {
		t.Fatal(err)
	}
	return laid
}

// TestReadsWhatItWrites: a file read back holds what was kept, and is written alike.
func TestReadsWhatItWrites(t *testing.T) {
	for _, cloth := range cloths[:6] {
		f, left := Of(laidJob(t, testjobs.Gown(cloth), nil))
		if len(left) > 0 {
			t.Fatal(left)
		}
		text := f.Encode()
		again, err := Read("layout.json", text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		f.Name = "layout.json"
		if diff := cmp.Diff(f, again); diff != "" {
			t.Error(diff)
		}
		if !bytes.Equal(again.Encode(), text) {
			t.Errorf("written otherwise:\n%s", again.Encode())
		}
	}
}

// TestPinnedStayAndAllPinnedGiveTheLayoutBack: whatever is pinned of a kept layout lies there in
// the next one; with all of it pinned that is the same file.
func TestPinnedStayAndAllPinnedGiveTheLayoutBack(t *testing.T) {
	for n, cloth := range cloths[:6] {
		job := testjobs.Gown(cloth)
		f, _ := Of(laidJob(t, job, nil))
		r := rand.New(rand.NewPCG(uint64(n), 5))
		for _, all := range []bool{true, false} {
			pinned := 0
			for _, s := range f.Cloths[0].Stretches {
				for i := range s.Pieces {
					if s.Pieces[i].Pinned = all || r.IntN(2) == 0; s.Pieces[i].Pinned {
						pinned++
					}
				}
			}
			var state State
			laid := laidJob(t, job, func(task plan.Task) plan.Task {
				task, state = f.Begin(task)
				return task
			})
			if state.Stale() || !state.Begun || state.Pinned != pinned || laid[0].Task.Pinned() != pinned {
				t.Fatalf("%q: %+v of %d", cloth, state, pinned)
			}
			again, _ := Of(laid)
			if all && !bytes.Equal(again.Encode(), f.Encode()) {
				t.Errorf("%q: all pinned\n%s\nbecame\n%s", cloth, f.Encode(), again.Encode())
			}
			for i, s := range f.Cloths[0].Stretches {
				for _, p := range s.Pieces {
					if p.Pinned && !slices.Contains(again.Cloths[0].Stretches[i].Pieces, p) {
						t.Errorf("%q: %+v does not stay", cloth, p)
					}
				}
			}
			if l := laid[0]; l.LeastBuy > l.LeastFor || l.LeastFor > l.Buy.Bought {
				t.Errorf("%q: bought %v, at the least %v, around the pins %v", cloth, l.Buy.Bought, l.LeastBuy,
					l.LeastFor)
			}
		}
	}
}

// TestStaleIsToldByPiece: of rectangles of which one changes, is new, is gone, or is cut more or
// less often just that one is told of; what is pinned and as it was stays, and every layout is
// one that plan judges.
func TestStaleIsToldByPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rectangles [][3]float64
		for range rapid.IntRange(2, 4).Draw(t, "pieces") {
			rectangles = append(rectangles, [3]float64{float64(rapid.IntRange(10, 60).Draw(t, "long")),
				float64(rapid.IntRange(10, 60).Draw(t, "wide")), float64(rapid.IntRange(1, 3).Draw(t, "count"))})
		}
		cloth := "width = 90\nprice = \"10.00/m\"\nnap = \"two-way\""
		f, _ := Of(laidJob(t, testjobs.Panelled(cloth, rectangles...), nil))
		for i := range f.Cloths[0].Stretches[0].Pieces {
			f.Cloths[0].Stretches[0].Pieces[i].Pinned = rapid.Bool().Draw(t, "pinned")
		}
		k := rapid.IntRange(0, len(rectangles)-1).Draw(t, "which")
		want := State{Cloth: "wool"}
		name := fmt.Sprintf("panel %d", k+1)
		switch rapid.SampledFrom([]string{"longer", "more", "fewer", "gone", "narrower"}).Draw(t, "change") {
		case "longer":
			rectangles[k][0]++
			want.Changed = []string{name}
		case "more":
			rectangles[k][2]++
			want.Fresh = []string{name}
		case "fewer":
			if rectangles[k][2]--; rectangles[k][2] == 0 {
				t.Skip("none is left")
			}
			want.Gone = []string{name}
		case "gone":
			k = len(rectangles) - 1
			rectangles, want.Gone = rectangles[:k], []string{fmt.Sprintf("panel %d", k+1)}
		case "narrower":
			cloth = strings.Replace(cloth, "90", "70", 1)
			want.Ground = []string{"width"}
		}
		var got State
		laid := laidJob(t, testjobs.Panelled(cloth, rectangles...), func(task plan.Task) plan.Task {
			task, got = f.Begin(task)
			return task
		})
		if !slices.Equal(got.Changed, want.Changed) || !slices.Equal(got.Fresh, want.Fresh) ||
			!slices.Equal(got.Gone, want.Gone) || !slices.Equal(got.Ground, want.Ground) {
			t.Fatalf("%+v, want %+v", got, want)
		}
		if want.Ground == nil && len(got.Unpinned) > 0 {
			t.Fatalf("%+v: what did not change stays where it was", got)
		}
		if len(got.Lines("layout.json", nil)) == 0 || laid[0].Task.Pinned() != got.Pinned {
			t.Fatalf("%+v", got)
		}
	})
}

// TestPinsThatCannotStay: of pins moved at random those stay that the judge lets lie, all the
// others are told of, and what is laid holds.
func TestPinsThatCannotStay(t *testing.T) {
	job := testjobs.Panelled("width = 90\nprice = \"10.00/m\"", [3]float64{40, 30, 3}, [3]float64{25, 20, 3})
	whole, _ := Of(laidJob(t, job, nil))
	text := whole.Encode()
	rapid.Check(t, func(t *rapid.T) {
		f, err := Read("layout.json", text)
		if err != nil {
			t.Fatal(err)
		}
		pieces := f.Cloths[0].Stretches[0].Pieces
		pinned := 0
		for i := range pieces {
			if pieces[i].Pinned = rapid.IntRange(0, 2).Draw(t, "pinned") > 0; pieces[i].Pinned {
				pinned++
			}
			if rapid.Bool().Draw(t, "moved") {
				pieces[i].At[0] = plane.Snap(rapid.Float64Range(-50, 1500).Draw(t, "x"))
				pieces[i].At[1] = plane.Snap(rapid.Float64Range(-50, 900).Draw(t, "y"))
			}
		}
		var state State
		laid := laidJob(t, job, func(task plan.Task) plan.Task {
			task, state = f.Begin(task)
			return task
		})
		if state.Pinned+len(state.Unpinned) != pinned || laid[0].Task.Pinned() != state.Pinned {
			t.Fatalf("%+v of %d", state, pinned)
		}
		if state.Begun && laid[0].Results[0].Layout.Length > laid[0].Task.Stretches[0].Problem.Used(placedOf(f)) {
			t.Fatalf("begun, and longer")
		}
	})
}

// placedOf are the pieces of the job above as a file has them.
func placedOf(f *File) (list []nest.Placed) {
	index := map[string]int{}
	for _, p := range f.Cloths[0].Stretches[0].Pieces {
		if _, ok := index[p.Name]; !ok {
			index[p.Name] = len(index)
		}
		list = append(list, nest.Placed{Piece: index[p.Name], Copy: p.Copy, Turn: p.Turn, Mirrored: p.Mirrored,
			At: p.At})
	}
	return list
}

// TestSeveralLengthsAreNotKept: a cloth that is cut from its leftover is named and left out.
func TestSeveralLengthsAreNotKept(t *testing.T) {
	job := testjobs.Panelled("width = 90\nprice = \"10.00/m\"\nhave = [{ name = \"rest\", length = 45 }]",
		[3]float64{40, 30, 3}, [3]float64{40, 60, 1})
	f, left := Of(laidJob(t, job, nil))
	if !slices.Equal(left, []string{"wool"}) || len(f.Cloths) != 0 {
		t.Errorf("%v, %+v", left, f)
	}
}

// one is a layout file of one piece, of which tests change a part.
const one = `{"layout": 1, "cloths": [{"cloth": "wool", "width": 900, "gap": 0, "repeat": [0, 0], "flaws": "",
"stretches": [{"lay": "open", "length": 10, "pieces": [
{"piece": "a", "copy": 1, "mark": "m", "at": [0, 0], "turn": 0, "mirrored": false}]}]}]}`

// twice is a layout file of one piece with its pieces, its stretches or its cloths listed so
// often.
func twice(pieces, stretches, cloths int) string {
	list := func(one string, n int) string { return strings.TrimSuffix(strings.Repeat(one+",\n", n), ",\n") }
	piece := `{"piece": "a", "copy": 1, "mark": "m", "at": [0, 0], "turn": 0, "mirrored": false}`
	stretch := `{"lay": "open", "length": 10, "pieces": [` + list(piece, pieces) + `]}`
	cloth := `{"cloth": "wool", "width": 900, "gap": 0, "repeat": [0, 0], "flaws": "", "stretches": [` +
		list(stretch, stretches) + `]}`
	return `{"layout": 1, "cloths": [` + list(cloth, cloths) + `]}`
}

// TestReadIsStrict: each thing that is wrong is told at its place.
func TestReadIsStrict(t *testing.T) {
	if _, err := Read("l.json", []byte(one)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ was, is, want string }{
		{one, "", "l.json:1:1: ends in the middle"},
		{one, "[]", "l.json:1:1: a layout file is a list, not an object"},
		{one, "null", "l.json:1:1: a layout file is null, not an object"},
		{one, `{"layout": 1, "layout": 1}`, `l.json:1:15: "layout" is there twice`},
		{one, strings.Repeat("[", 20), "l.json:1:10: more than 8 lists and objects within each other"},
		{one, "{\"layout\": 1, \"cloths\": [\"\xff\"]}", "l.json:1:27: not UTF-8 text"},
		{`"layout": 1`, `"layout": "1"`, `l.json:1:12: "layout" is a text`},
		{`"layout": 1`, `"layout": 3`, "l.json:1:12: a layout file of version 3"},
		{`"width": 900`, `"width": -9`, `l.json:1:53: "width" cannot be -9`},
		{`"width": 900`, `"width": 1e999`, "l.json:1:53: 1e999 is too large a number"},
		{`"width": 900`, `"width": 1e9`, `l.json:1:53: "width" cannot be 1e+09`},
		{`"repeat": [0, 0]`, `"repeat": [0]`, `l.json:1:78: "repeat" is not two numbers`},
		{`"gap": 0, `, "", `l.json:1:26: a cloth lacks "gap"`},
		{`"lay": "open"`, `"lay": "rolled"`, "l.json:2:23: `lay` cannot be \"rolled\""},
		{`"copy": 1`, `"copy": 0`, "l.json:3:24: `copy` cannot be 0"},
		{`"copy": 1`, `"copy": 1.5`, "l.json:3:24: `copy` cannot be 1.5"},
		{`"copy": 1`, `"copy": 20000`, "l.json:3:24: `copy` cannot be 20000"},
		{`"at": [0, 0]`, `"at": [0, 0.0001]`, "l.json:3:46: `at` is not on the lattice of 2^-10 mm"},
		{`"at": [0, 0]`, `"at": [0, 1e7]`, `l.json:3:50: "at" cannot be 1e+07`},
		{`"turn": 0`, `"turn": 4000`, "l.json:3:62: `turn` cannot be 4000"},
		{`"turn": 0`, `"turn": 0, "pinned": "yes"`, `l.json:3:75: "pinned" is a text`},
		{`"turn": 0`, `"turn": 0, "colour": 1`, `l.json:3:65: a piece has no key "colour"`},
		{one, twice(2, 1, 1), "l.json:2:1: copy 1 of \"a\" is there twice"},
		{one, twice(1, 2, 1), "l.json:2:1: two stretches that lie open"},
		{one, twice(1, 3, 1), "3 stretches"},
		{one, twice(1, 0, 1), "0 stretches"},
		{one, twice(1, 1, 2), "l.json:2:1: the cloth \"wool\" is there twice"},
		{one, twice(1, 1, mostCloths+1), "l.json:1:25: more than "},
		{one, twice(nest.MostPieces+1, 1, 1), "more than 10000 pieces on one stretch"},
		{`"repeat": [0, 0]`, `"repeat": [0, "0"]`, `l.json:1:78: "repeat" is not two numbers`},
		{`"repeat": [0, 0]`, `"repeat": 0`, `l.json:1:78: "repeat" is a number`},
		{`"mirrored": false`, `"mirrored": 0`, `l.json:3:77: "mirrored" is a number`},
		{`"lay": "open"`, `"lay": 1`, `l.json:2:23: "lay" is a number`},
		{`false}]}]}]}`, `false}]}]}]} x`, "l.json:3:90: more behind the end of the layout"},
	} {
		src := strings.Replace(one, c.was, c.is, 1)
		_, err := Read("l.json", []byte(src))
		var bad strict.Errors
		if !errors.As(err, &bad) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.60q: %v, want %s", c.is, err, c.want)
			continue
		}
		for _, e := range bad {
			if e.Hint == "" {
				t.Errorf("%v has no hint", e)
			}
		}
	}
	if _, err := Read("l.json", make([]byte, MaxFile+1)); err == nil ||
		!strings.Contains(err.Error(), "longer than 8 MB") {
		t.Error(err)
	}
	many := `{"layout": 1, "cloths": [` + strings.Repeat("0,", maxValues) + "0]}"
	if _, err := Read("l.json", []byte(many)); err == nil || !strings.Contains(err.Error(), "more than 400000 values") {
		t.Error(err)
	}
}

// TestUnusedIsSaid: of a file that has more than is cut the rest is named, ten of them at most.
func TestUnusedIsSaid(t *testing.T) {
	f := &File{Name: "layout.json"}
	for i := range 12 {
		f.Cloths = append(f.Cloths, Cloth{ID: fmt.Sprintf("c%d", i+1)})
	}
	all := make([]string, 0, 12)
	for _, c := range f.Cloths {
		all = append(all, c.ID)
	}
	for _, tt := range []struct {
		cut  []string
		want string
	}{
		{all, ""},
		{all[1:], "layout.json has a layout of `c1`, from which nothing is cut now."},
		{all[2:], "layout.json has a layout of `c1` and `c2`, from which nothing is cut now."},
		{nil, "layout.json has a layout of `c1`, `c2`, `c3`, `c4`, `c5`, `c6`, `c7`, `c8`, `c9`, `c10` and 2 more, " +
			"from which nothing is cut now."},
	} {
		if got := f.Unused(tt.cut); got != tt.want {
			t.Errorf("of %q it says %q, want %q", tt.cut, got, tt.want)
		}
	}
}

// FuzzRead: nothing that is read breaks the reader or what begins from it; a file that reads is
// written and read again alike.
func FuzzRead(f *testing.F) {
	f.Add([]byte(one))
	f.Add([]byte(`{"layout": 1, "cloths": []}`))
	f.Add([]byte("{\"layout\": 1.0, \"cloths\": [{}]} "))
	job := testjobs.Panelled("width = 90", [3]float64{40, 30, 2}, [3]float64{25, 20, 1})
	kept, _ := Of(laidJob(f, job, nil))
	f.Add(kept.Encode())
	tasks, err := plan.Tasks(testjobs.Read(f, job), 1)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		file, err := Read("l.json", src)
		if err != nil {
			return
		}
		again, err := Read("l.json", file.Encode())
		if err != nil {
			t.Fatalf("%v\n%s", err, file.Encode())
		}
		if diff := cmp.Diff(file, again); diff != "" {
			t.Fatal(diff)
		}
		task, state := file.Begin(tasks[0])
		state.Lines("l.json", nil)
		for _, s := range task.Stretches {
			if err := s.Problem.Check(); err != nil {
				t.Fatalf("pins that cannot be: %v", err)
			}
		}
	})
}
