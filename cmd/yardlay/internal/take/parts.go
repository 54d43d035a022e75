package take

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// Part is a part of a job that is cut by a drawing.
type Part struct {
	Name     string
	Material string // of its shapes, as the file says; "": it does not
	Cloth    string // id; "" as long as nobody knows it
	Pieces   []Piece
	Copies   *Copies // of each; nil: as the file says
	whole    bool    // all shapes of the file
}

// Parts shares the pieces out over parts of a job: those of one material whose number the file
// says are one part, any other is a part by itself, so that its number can be changed.
func (f *Found) Parts() []Part {
	var parts []Part
	said := map[string]int{}
	alone := f.alone()
	for _, p := range f.Pieces {
		if !p.Copies.Said && alone {
			copies := p.Copies
			parts = append(parts, Part{Name: f.called(p), Material: p.Material, Pieces: []Piece{p}, Copies: &copies})
			continue
		}
		key := p.Material
		if !p.Copies.Said {
			key = p.Copies.String() + "\n" + p.Material
		}
		k, there := said[key]
		if !there {
			k = len(parts)
			said[key] = k
			parts = append(parts, Part{Name: f.base(), Material: p.Material})
			if !p.Copies.Said {
				copies := p.Copies
				parts[k].Copies = &copies
			}
		}
		parts[k].Pieces = append(parts[k].Pieces, p)
	}
	taken := map[string]bool{}
	for i := range parts {
		p := &parts[i]
		if len(p.Pieces) == 1 {
			p.Name = f.called(p.Pieces[0])
		}
		p.whole = len(parts) == 1 && !f.Stops()
		p.Name = Free(p.Name, taken)
		taken[p.Name] = true
	}
	return parts
}

// mostAlone is how many parts of one piece are made of a file; more are gathered by how often
// they are cut.
const mostAlone = 100

func (f *Found) alone() bool {
	n := 0
	for _, p := range f.Pieces {
		if !p.Copies.Said {
			n++
		}
	}
	return n <= mostAlone
}

// called is the name of a part of one piece.
func (f *Found) called(p Piece) string {
	if len(f.Pieces) == 1 && p.nameless() {
		return f.base()
	}
	return p.Name
}

// base is the name of the file without its ending.
func (f *Found) base() string { return strings.TrimSuffix(f.File, filepath.Ext(f.File)) }

// nameless says whether a piece is called by its place alone.
func (p Piece) nameless() bool { return p.Name == fmt.Sprintf("outline %d", p.Number) }

// Free is a name that is not taken: as it is, or with a number.
func Free(name string, taken map[string]bool) string {
	free := name
	for n := 2; taken[free]; n++ {
		free = fmt.Sprintf("%s-%d", name, n)
	}
	return free
}

// fields are the keys of a part that is read from a file.
func (f *Found) fields(p Part, file string) []edit.Field {
	fields := []edit.Field{{Key: "name", Value: edit.Text(p.Name)}, {Key: "draft", Value: edit.Text("outline")},
		{Key: "cloth", Value: edit.Text(p.Cloth)}, {Key: "file", Value: edit.Text(filepath.ToSlash(file))}}
	toml := func(key, text string) { fields = append(fields, edit.Field{Key: key, Value: edit.TOML(text)}) }
	if !p.whole {
		var list []string
		for _, s := range p.Pieces {
			list = append(list, f.chosenBy(s))
		}
		toml("shapes", "["+strings.Join(list, ", ")+"]")
	}
	if f.Size != "" && slices.ContainsFunc(p.Pieces, func(p Piece) bool { return p.Size != "" }) {
		fields = append(fields, edit.Field{Key: "size", Value: edit.Text(f.Size)})
	}
	if o := f.options; o.Millimetres != 0 {
		fields = append(fields, edit.Field{Key: "one_unit", Value: edit.Text(unitText(o.Millimetres))})
	}
	if f.options.Outline == outline.SeamLine {
		fields = append(fields, edit.Field{Key: "drawn", Value: edit.Text("seam")})
	}
	if t := f.options.Tolerance; t != 0 {
		fields = append(fields, edit.Field{Key: "join", Value: edit.Text(fmt.Sprintf("%g mm", t))})
	}
	if p.Copies != nil {
		toml("count", fmt.Sprint(p.Copies.Count))
		if p.Copies.Pair {
			toml("pair", "true")
		}
	}
	return fields
}

// chosenBy is what chooses a piece: its name where it has one that no other has, else its
// number.
func (f *Found) chosenBy(p Piece) string {
	same := 0
	for _, s := range f.Pieces {
		if strings.EqualFold(s.Name, p.Name) {
			same++
		}
	}
	if same > 1 || p.nameless() {
		return fmt.Sprintf("{ number = %d }", p.Number)
	}
	return "{ name = " + edit.Quoted(p.Name) + " }"
}

// unitText is how long a unit is, as a job has it.
func unitText(mm float64) string {
	for _, u := range []struct {
		mm   float64
		text string
	}{{1, "1 mm"}, {10, "1 cm"}, {25.4, "1 in"}, {1000, "1 m"}, {304.8, "1 ft"}, {25.4 / 72, "1/72 in"},
		{25.4 / 96, "1/96 in"}} {
		if math.Abs(mm-u.mm) <= 1e-12*mm {
			return u.text
		}
	}
	return strconv.FormatFloat(mm, 'f', -1, 64) + " mm"
}

// Tables writes parts as tables of a job file.
func (f *Found) Tables(parts []Part, file string) (string, error) {
	text, err := f.AddTo(nil, parts, file)
	if err != nil {
		return "", say.Errorf("cannot write the parts: %w", err)
	}
	return strings.TrimLeft(string(text), "\n"), nil
}

// AddTo adds parts to the text of a job; all that stands there stays as it is.
func (f *Found) AddTo(src []byte, parts []Part, file string) ([]byte, error) {
	var err error
	for _, p := range parts {
		if src, err = edit.Append(src, edit.Of("part"), edit.Item{Table: true, Fields: f.fields(p, file)}); err != nil {
			return nil, err
		}
	}
	return src, nil
}
