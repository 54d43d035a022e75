// Package testdxf reads DXF R12 for tests: as much of it as the project writes, strictly.
package testdxf

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// Drawing is what a file holds.
type Drawing struct {
	Comments []string
	Header   map[string]string // by variable, the first value of each
	Layers   []string
	Names    []string // of the blocks, in order
	Blocks   map[string][]Entity
	Entities []Entity
}

// Entity is a LINE, POLYLINE, TEXT or INSERT.
type Entity struct {
	Kind, Layer string
	Body        string      // of a text; the block of an insertion
	Points      []orb.Point // of a line; where a text or an insertion stands
	Closed      bool
	Turn        float64
	Height      float64
	Anchor      int // of a text: its left end, middle or right end stands there
}

// group is a code with its value.
type group struct {
	code  int
	value string
}

// Read reads a file. What it does not know, or stands where it may not, ends the test.
func Read(t rapid.TB, data []byte) Drawing {
	t.Helper()
	r := &reader{t: t, groups: groups(t, data)}
	d := Drawing{Header: map[string]string{}, Blocks: map[string][]Entity{}}
	for r.next().code == 999 {
		d.Comments = append(d.Comments, r.take(999))
	}
	for _, name := range []string{"HEADER", "TABLES", "BLOCKS", "ENTITIES"} {
		r.expect(0, "SECTION")
		r.expect(2, name)
		for r.next() != (group{0, "ENDSEC"}) {
			r.section(name, &d)
		}
		r.expect(0, "ENDSEC")
	}
	r.expect(0, "EOF")
	if len(r.groups) > 0 {
		t.Fatalf("%d groups after the end", len(r.groups))
	}
	d.check(t)
	return d
}

// groups splits a file, which is ASCII with a code and a value on a line each.
func groups(t rapid.TB, data []byte) []group {
	t.Helper()
	for i, b := range data {
		if b >= 0x7f || b < ' ' && b != '\r' && b != '\n' {
			t.Fatalf("byte %d is %#x", i, b)
		}
	}
	lines := strings.Split(string(data), "\r\n")
	if last := len(lines) - 1; lines[last] != "" || last%2 != 0 || strings.Contains(string(data), "\n\n") {
		t.Fatalf("%d lines", last)
	}
	var all []group
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil || len(lines[i+1]) > 255 || strings.ContainsAny(lines[i]+lines[i+1], "\r\n") {
			t.Fatalf("line %d: %q, %q", i+1, lines[i], lines[i+1])
		}
		all = append(all, group{code, lines[i+1]})
	}
	return all
}

type reader struct {
	t      rapid.TB
	groups []group
}

func (r *reader) next() group {
	if len(r.groups) == 0 {
		r.t.Fatal("the file ends early")
	}
	return r.groups[0]
}

func (r *reader) take(code int) string {
	g := r.next()
	if g.code != code {
		r.t.Fatalf("group %v, want code %d", g, code)
	}
	r.groups = r.groups[1:]
	return g.value
}

func (r *reader) expect(code int, value string) {
	if got := r.take(code); got != value {
		r.t.Fatalf("%d is %q, want %q", code, got, value)
	}
}

// body takes the groups up to the next code 0.
func (r *reader) body() map[int]string {
	all := map[int]string{}
	for r.next().code != 0 {
		g := r.next()
		if _, twice := all[g.code]; twice {
			r.t.Fatalf("code %d stands twice", g.code)
		}
		all[g.code] = r.take(g.code)
	}
	return all
}

func (r *reader) section(name string, d *Drawing) {
	switch name {
	case "HEADER":
		variable := r.take(9)
		d.Header[variable] = r.next().value
		for r.next().code != 9 && r.next().code != 0 {
			r.take(r.next().code)
		}
	case "TABLES":
		r.table(d)
	case "BLOCKS":
		r.expect(0, "BLOCK")
		body := r.body()
		block := body[2]
		if body[3] != block || body[70] != "0" || r.point(body, 10) != (orb.Point{}) {
			r.t.Fatalf("block %s begins with %v", block, body)
		}
		if _, twice := d.Blocks[block]; twice {
			r.t.Fatalf("block %s stands twice", block)
		}
		d.Names, d.Blocks[block] = append(d.Names, block), []Entity{}
		for r.next().value != "ENDBLK" {
			d.Blocks[block] = append(d.Blocks[block], r.entity())
		}
		r.expect(0, "ENDBLK")
		r.body()
	case "ENTITIES":
		d.Entities = append(d.Entities, r.entity())
	}
}

// tableCodes are the groups that an entry of a table has, each of them (DXF of release 12, from memory).
var tableCodes = map[string][]int{
	"LTYPE": {2, 3, 40, 70, 72, 73}, "LAYER": {2, 6, 62, 70}, "STYLE": {2, 3, 4, 40, 41, 42, 50, 70, 71},
}

// table reads a table, which says how many entries it has, each of them whole.
func (r *reader) table(d *Drawing) {
	r.expect(0, "TABLE")
	name := r.take(2)
	said := r.take(70)
	n := 0
	for ; r.next().value != "ENDTAB"; n++ {
		r.expect(0, name)
		entry := r.body()
		if codes := slices.Sorted(maps.Keys(entry)); !slices.Equal(codes, tableCodes[name]) {
			r.t.Fatalf("an entry of table %s has groups %v, not %v", name, codes, tableCodes[name])
		}
		if name == "LAYER" {
			d.Layers = append(d.Layers, entry[2])
		}
	}
	r.expect(0, "ENDTAB")
	if said != strconv.Itoa(n) {
		r.t.Fatalf("table %s has %d entries, not %s", name, n, said)
	}
}

func (r *reader) entity() Entity {
	e := Entity{Kind: r.take(0)}
	body := r.body()
	e.Layer = body[8]
	switch e.Kind {
	case "LINE":
		e.Points = []orb.Point{r.point(body, 10), r.point(body, 11)}
	case "POLYLINE":
		e.Closed = body[70] == "1"
		if body[66] != "1" || r.point(body, 10) != (orb.Point{}) {
			r.t.Fatalf("a polyline says %v of its vertices", body)
		}
		for r.next().value == "VERTEX" {
			r.take(0)
			v := r.body()
			e.Points = append(e.Points, r.point(v, 10))
			if v[8] != e.Layer {
				r.t.Fatalf("a vertex on layer %s of a line on %s", v[8], e.Layer)
			}
		}
		r.expect(0, "SEQEND")
		r.body()
	case "TEXT":
		e.Body, e.Height, e.Points = body[1], r.number(body[40]), []orb.Point{r.point(body, 11)}
		if at := r.point(body, 10); at != e.Points[0] || body[73] != "2" {
			r.t.Fatalf("text %q stands at %v by its middle at %v, upright by %q", e.Body, at, e.Points[0], body[73])
		}
		e.Anchor = int(r.number(body[72]))
	case "INSERT":
		e.Body, e.Points = body[2], []orb.Point{r.point(body, 10)}
	default:
		r.t.Fatalf("entity %s", e.Kind)
	}
	if turn, ok := body[50]; ok {
		e.Turn = r.number(turn)
	}
	return e
}

func (r *reader) number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		r.t.Fatal(err)
	}
	return v
}

func (r *reader) point(body map[int]string, code int) orb.Point {
	if body[code+20] != "0.0" {
		r.t.Fatalf("a point in the plane has height %q", body[code+20])
	}
	return orb.Point{r.number(body[code]), r.number(body[code+10])}
}

// check holds that all layers and blocks that are used are there.
func (d Drawing) check(t rapid.TB) {
	t.Helper()
	known := map[string]bool{}
	for _, l := range d.Layers {
		if known[l] {
			t.Fatalf("layer %s stands twice", l)
		}
		known[l] = true
	}
	check := func(list []Entity) {
		for _, e := range list {
			if !known[e.Layer] {
				t.Fatalf("%s on layer %q, which is not listed", e.Kind, e.Layer)
			}
			if _, ok := d.Blocks[e.Body]; e.Kind == "INSERT" && !ok {
				t.Fatalf("no block %s", e.Body)
			}
		}
	}
	check(d.Entities)
	for _, b := range d.Blocks {
		check(b)
	}
}

// Placed returns the lines of a layer as inserted, those of each insertion together, as
// rings where they are closed.
func (d Drawing) Placed(layer string) [][]orb.LineString {
	var all [][]orb.LineString
	for _, in := range d.Entities {
		if in.Kind != "INSERT" {
			continue
		}
		pose := plane.Pose{Turn: in.Turn, At: in.Points[0]}
		lines := []orb.LineString{}
		for _, e := range d.Blocks[in.Body] {
			if e.Layer != layer || e.Kind == "TEXT" {
				continue
			}
			var line orb.LineString
			for _, p := range e.Points {
				line = append(line, pose.ApplyPoint(p))
			}
			if e.Closed {
				line = append(line, line[0])
			}
			lines = append(lines, line)
		}
		all = append(all, lines)
	}
	return all
}

// Plain undoes the escapes \U+XXXX of a text, halves of UTF-16 put together.
func Plain(t rapid.TB, s string) string {
	t.Helper()
	var units []uint16
	var out strings.Builder
	for len(s) > 0 {
		if strings.HasPrefix(s, `\U+`) && len(s) >= 7 {
			v, err := strconv.ParseUint(s[3:7], 16, 16)
			if err != nil {
				t.Fatal(err)
			}
			units, s = append(units, uint16(v)), s[7:]
			continue
		}
		out.WriteString(string(utf16.Decode(units)))
		units = nil
		out.WriteByte(s[0])
		s = s[1:]
	}
	return out.String() + string(utf16.Decode(units))
}
