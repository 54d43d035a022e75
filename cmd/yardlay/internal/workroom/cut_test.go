package workroom

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// shelved is a book with a shelf, as hands write one.
const shelved = `# what we have
unit = "in" # inches

[[cloth]]
id    = "net"   # by the bolt
width = "60"

# the small bits
[[leftover]]
name  = "net 3"   # by the window
cloth = "net"
length = "40"
width = "30"
[[leftover]]
name = "net 12"
cloth = "net"
outline = [[0, 0], [900, 0], [0, 400]]
promised = "pier.toml"

[[gown]]
job = "lantern.toml"   # for the fair
ordered = 2026-10-01

[[gown]]
job = "tide.toml"
`

// books are other ways to write one.
var books = map[string]string{
	"a shelf":        shelved,
	"no shelf":       book,
	"no last line":   strings.TrimRight(book, "\n"),
	"many last ones": book + "\n\n",
	"other lines":    strings.ReplaceAll(shelved, "\n", "\r\n"),
	"shelf last":     book + "\n[[leftover]]\nname = \"net 3\"\ncloth = \"net\"\nlength = \"40\"",
	"a cut header":   shelved + "ordered = 2026-10-01\n\n# the end\n",
}

func roomOf(t rapid.TB, src []byte) *job.Workroom {
	t.Helper()
	w, err := job.ReadWorkroom(job.WorkroomFile, src)
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	return w
}

// remnant is an outline of so many mm.
func remnant(x, y float64) Remnant {
	return Remnant{Outline: orb.Ring{{0, 0}, {x, 0}, {x, y}, {0, 0}}, Lot: "B \"blue\""}
}

func cutting(used []job.Have, left ...Remnant) Cutting {
	return Cutting{On: job.Date{Year: 2026, Month: 11, Day: 29},
		Cloths: []ClothCutting{{Cloth: "net", Length: 4.5 * 914.4, Unit: measure.Yard, Lot: "B", Used: used, Left: left}}}
}

// What is cut is in the book, and undone it is as it was, byte for byte, however the book is written.
func TestACutIsTakenBackByteForByte(t *testing.T) {
	for name, src := range books {
		for _, file := range []string{"lantern.toml", "new.toml"} {
			for _, left := range [][]Remnant{nil, {remnant(900, 400)}, {remnant(500, 300), remnant(700, 200)}} {
				w := roomOf(t, []byte(src))
				var used []job.Have
				for _, l := range w.Leftovers {
					if l.Promised == "" {
						used = append(used, l.Have)
					}
				}
				after, err := cutting(used, left...).Into([]byte(src), w, file)
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				now := roomOf(t, after)
				g, ok := now.Gown(file)
				if !ok || g.Cut == nil || g.Cut.Cloths[0].Length != 4.5*914.4 || len(g.Cut.Cloths[0].Left) != len(left) ||
					len(now.Leftovers) != len(w.Leftovers)+len(left) {
					t.Fatalf("%s: %+v", name, g)
				}
				back, err := Uncut(after, now, file)
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				if string(back) != src {
					t.Errorf("%s, %s, %d left: undone it is\n%q\nnot\n%q", name, file, len(left), back, src)
				}
			}
		}
	}
}

// A name goes on from the highest number that there is.
func TestNamesOfWhatIsLeft(t *testing.T) {
	w := roomOf(t, []byte(shelved))
	c := cutting(nil, remnant(500, 300), remnant(700, 200))
	after, err := c.Into([]byte(shelved), w, "lantern.toml")
	if err != nil {
		t.Fatal(err)
	}
	if got := roomOf(t, after).Leftovers[3]; got.Name != "net 14" || got.Lot != "B \"blue\"" ||
		got.From != "lantern.toml" ||
		len(got.Outline) != 4 || c.Cloths[0].Left[0].Name != "net 13" {
		t.Errorf("%+v", got)
	}
}

// What cannot be is refused, by name.
func TestCutsThatAreRefused(t *testing.T) {
	w := roomOf(t, []byte(shelved))
	used, promised := w.Leftovers[0].Have, w.Leftovers[1].Have
	other := used
	other.Length++
	for _, c := range []struct {
		used []job.Have
		want string
	}{
		{[]job.Have{promised}, "`net 12` is promised to pier.toml"}, {[]job.Have{other}, "is not on the shelf as it was"},
		{[]job.Have{{Name: "gone"}}, "`gone` is not on the shelf"}, {[]job.Have{used, used}, "was used for lantern.toml"},
	} {
		if _, err := cutting(c.used).Into([]byte(shelved), w, "lantern.toml"); err == nil ||
			!strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	once, err := cutting([]job.Have{used}, remnant(500, 300)).Into([]byte(shelved), w, "lantern.toml")
	if err != nil {
		t.Fatal(err)
	}
	now := roomOf(t, once)
	if _, err := cutting(nil).Into(once, now, "lantern.toml"); err == nil ||
		!strings.Contains(err.Error(), "was cut on 2026-11-29") {
		t.Errorf("cut twice: %v", err)
	}
	if _, err := cutting([]job.Have{used}).Into(once, now, "tide.toml"); err == nil ||
		!strings.Contains(err.Error(), "was used for lantern.toml") {
		t.Errorf("used twice: %v", err)
	}
	twice, err := cutting([]job.Have{now.Leftovers[2].Have}).Into(once, now, "tide.toml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Uncut(twice, roomOf(t, twice), "lantern.toml"); err == nil ||
		!strings.Contains(err.Error(), "which lantern.toml left, was used for tide.toml") {
		t.Errorf("undone though used: %v", err)
	}
	if _, err := Uncut([]byte(shelved), w, "tide.toml"); err == nil || !strings.Contains(err.Error(), "is not cut") {
		t.Errorf("undone though not cut: %v", err)
	}
}

// A book that was edited since keeps the edit, and loses all of the cut.
func TestUndoneByValues(t *testing.T) {
	w := roomOf(t, []byte(shelved))
	after, err := cutting([]job.Have{w.Leftovers[0].Have}, remnant(500, 300)).Into([]byte(shelved), w, "lantern.toml")
	if err != nil {
		t.Fatal(err)
	}
	edited := strings.Replace(string(after), "# what we have", "# all that we have", 1)
	back, err := Uncut([]byte(edited), roomOf(t, []byte(edited)), "lantern.toml")
	if err != nil {
		t.Fatal(err)
	}
	if want := strings.Replace(shelved, "# what we have", "# all that we have", 1); string(back) != want {
		t.Errorf("undone it is\n%s", back)
	}
}

// Whatever is cut, promised, released and undone in whatever order: no leftover is used twice, nothing is
// lost, and once all is undone the shelf is what it was.
func TestShelvesOfRandomDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(shelved)
		jobs := []string{"lantern.toml", "tide.toml", "pier.toml", "new.toml"}
		for range rapid.IntRange(1, 12).Draw(t, "days") {
			file, w := rapid.SampledFrom(jobs).Draw(t, "job"), roomOf(t, src)
			var some []job.Have
			for _, l := range w.Leftovers {
				if rapid.Bool().Draw(t, "use") {
					some = append(some, l.Have)
				}
			}
			var out []byte
			var err error
			switch rapid.IntRange(0, 3).Draw(t, "what") {
			case 0:
				out, err = cutting(some, remnant(500, 300)).Into(src, w, file)
			case 1:
				out, err = Promise(src, w, file, some)
			case 2:
				out, _, err = Release(src, w, file)
			default:
				out, err = Uncut(src, w, file)
			}
			if err == nil {
				src = out
			}
			checkShelf(t, roomOf(t, src))
		}
		for again := true; again; {
			again = false
			for _, file := range jobs { // what was used may be promised still, once that is undone
				released, _, err := Release(src, roomOf(t, src), file)
				if err != nil {
					t.Fatal(err)
				}
				src = released
			}
			for _, file := range jobs {
				if out, err := Uncut(src, roomOf(t, src), file); err == nil {
					src, again = out, true
				}
			}
		}
		w := roomOf(t, src)
		if len(w.Leftovers) != 2 || w.Leftovers[0].Used+w.Leftovers[1].Used != "" {
			t.Fatalf("left on the shelf: %+v", w.Leftovers)
		}
	})
}

// checkShelf holds that every leftover is used by the one cut that says so.
func checkShelf(t *rapid.T, w *job.Workroom) {
	by := map[string][]string{}
	for _, g := range w.Gowns {
		if g.Cut == nil {
			continue
		}
		for _, c := range g.Cut.Cloths {
			for _, name := range c.Used {
				by[name] = append(by[name], g.Job)
			}
			for _, name := range c.Left {
				if !slices.ContainsFunc(w.Leftovers, func(l job.Leftover) bool { return l.Name == name }) {
					t.Fatalf("%s, which %s left, is lost", name, g.Job)
				}
			}
		}
	}
	for _, l := range w.Leftovers {
		if want := fmt.Sprint(by[l.Name]); l.Used == "" && want != "[]" || l.Used != "" && want != "["+l.Used+"]" {
			t.Fatalf("%s is used for %q, by the gowns for %s", l.Name, l.Used, want)
		}
	}
}

// A promise moves to what the job is laid on now; another job cannot have it, and a release frees it.
func TestPromises(t *testing.T) {
	w := roomOf(t, []byte(shelved))
	out, err := Promise([]byte(shelved), w, "pier.toml", []job.Have{w.Leftovers[0].Have})
	if err != nil {
		t.Fatal(err)
	}
	now := roomOf(t, out)
	if now.Leftovers[0].Promised != "pier.toml" || now.Leftovers[1].Promised != "" {
		t.Errorf("%+v", now.Leftovers)
	}
	if _, err := Promise(out, now, "tide.toml", []job.Have{w.Leftovers[0].Have}); err == nil ||
		!strings.Contains(err.Error(), "is promised to pier.toml") {
		t.Errorf("promised twice: %v", err)
	}
	free, names, err := Release(out, now, "pier.toml")
	if err != nil || !slices.Equal(names, []string{"net 3"}) || roomOf(t, free).Leftovers[0].Promised != "" {
		t.Errorf("%q, %v", names, err)
	}
}
