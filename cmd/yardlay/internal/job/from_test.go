package job

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
)

// linesOf are the keys of a table but some, a line each.
func linesOf(v *strict.Value, but ...string) string {
	var b strings.Builder
next:
	for _, key := range v.Order {
		for _, other := range but {
			if key == other {
				continue next
			}
		}
		fmt.Fprintf(&b, "%s = %s\n", key, asTOML(v.Fields[key].Value, Kind{}))
	}
	return b.String()
}

// movedIntoRoom parts a job into the book of a workroom, with its cloths and its bodies, and what takes them from
// there.
func movedIntoRoom(root *strict.Value) (room, src string) {
	unit := "unit = \"" + root.TextOf("unit") + "\"\n"
	room, src = unit, linesOf(root, "cloth", "body")
	if c := root.TextOf("currency"); c != "" {
		room += "currency = \"" + c + "\"\n"
	}
	if f := root.Fields["supplier"]; f != nil {
		room += "supplier = " + asTOML(f.Value, Kind{}) + "\n"
	}
	for i, c := range root.Fields["cloth"].Value.Items {
		room += fmt.Sprintf("[[cloth]]\nid = \"room-%d\"\n%s", i, linesOf(c, "id", "have"))
		src += fmt.Sprintf("[[cloth]]\nid = %q\nfrom = \"room-%d\"\n", c.TextOf("id"), i)
		if c.TextOf("title") == "" {
			src += "title = " + strconv.Quote(c.TextOf("id")) + "\n"
		}
		if f := c.Fields["have"]; f != nil {
			src += "have = " + asTOML(f.Value, Kind{}) + "\n"
		}
	}
	body := root.Fields["body"]
	if body == nil {
		return room, src
	}
	bodies, header := []*strict.Value{body.Value}, "[body]\n"
	if len(body.Value.Items) > 0 {
		bodies, header = body.Value.Items, "[[body]]\n"
	}
	for i, b := range bodies {
		own := []string{"name", "count", standardKey, estimateKey, unusualKey}
		room += fmt.Sprintf("[[person]]\nname = \"p%d\"\nunusual = true\n[[person.measured]]\non = 2026-01-01\n%s", i,
			linesOf(b, own...))
		src += header + fmt.Sprintf("from = \"p%d\"\n", i)
		for _, key := range own {
			if f := b.Fields[key]; f != nil {
				src += key + " = " + asTOML(f.Value, Kind{}) + "\n"
			}
		}
	}
	return room, src
}

// A job whose cloths and bodies stand in the workroom is the same as one that has them written in it: held with the
// jobs that come with the project.
func TestWhatIsTakenFromTheRoomIsAsIfWritten(t *testing.T) {
	found, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, name := range found {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		was, err := Read(filepath.Base(name), src)
		if err != nil || was.Job().RatesFrom != "" {
			continue // it refers to files beside it
		}
		tried++
		room, moved := movedIntoRoom(was.root)
		now, err := inRoom(t, room, moved)
		if err != nil {
			t.Errorf("%s: %v\n%s\n%s", name, err, room, moved)
			continue
		}
		if diff := cmp.Diff(taken(was.Job()), taken(now.Job())); diff != "" {
			t.Errorf("%s (-written +from the room):\n%s", name, diff)
		}
	}
	if tried < 5 {
		t.Errorf("%d jobs, too few to tell", tried)
	}
}

// A change that reaches into a table of the room is written with all of that table, lengths with the unit of the
// room.
func TestSpotsInTablesOfTheRoom(t *testing.T) {
	const next = "[[cloth]]\nid = \"net\""
	room := strings.Replace(aRoom, next, "repeat = { along = 12, across = \"4\" }\n"+next, 1)
	f, err := inRoom(t, room, aJob)
	if err != nil {
		t.Fatal(err)
	}
	got, err := f.Spots([]Change{{"satin.shrinkage.warp", "-5 %"}, {"satin.repeat.along", "10"},
		{"satin.repeat.across", "8"}, {"satin.width", "140"}})
	want := []Spot{
		{"cloth", 0, []string{"shrinkage"}, `{ warp = "-3 %", by = "prewash" }`, true},
		{"cloth", 0, []string{"repeat"}, `{ along = "12 in", across = "4 in" }`, true},
		{"cloth", 0, []string{"shrinkage", "warp"}, "-5 %", false},
		{"cloth", 0, []string{"repeat", "along"}, "10", false},
		{"cloth", 0, []string{"repeat", "across"}, "8", false},
		{"cloth", 0, []string{"width"}, "140", false},
	}
	if diff := cmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
}

// taken is what a job takes from a room, without where it is written.
func taken(j *Job) (all []any) {
	for _, c := range j.Cloths {
		c.At, c.From = strict.Position{}, ""
		c.Offers = append([]Sourced{}, c.Offers...)
		for i := range c.Offers {
			o := &c.Offers[i]
			if o.At = (strict.Position{}); o.Offer.Bolt != nil {
				all = append(all, *o.Offer.Bolt)
			}
			o.Offer.Bolt = nil
		}
		c.Offer.Bolt = nil // that of the first offer
		c.Flaws = append([]Flaw{}, c.Flaws...)
		for i := range c.Flaws {
			c.Flaws[i].At = strict.Position{}
		}
		c.Have = append([]Have{}, c.Have...)
		for i := range c.Have {
			c.Have[i].At, c.Have[i].Flaws = strict.Position{}, nil
		}
		all = append(all, fmt.Sprintf("%+v", c))
	}
	for _, b := range j.Bodies {
		all = append(all, b.Name, b.Count, b.Measures)
	}
	for _, p := range j.Parts {
		var pieces []any
		for _, l := range p.Layers {
			made, err := l.Drafted()
			if err != nil {
				return append(all, err.Error())
			}
			for _, one := range made.Pieces {
				pieces = append(pieces, one.Name, len(one.Edges))
			}
		}
		all = append(all, p.Name, pieces)
	}
	return all
}
