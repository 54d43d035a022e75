package kept

import (
	"bytes"
	"encoding/json"
	"fmt"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
)

// Of returns what a file keeps of laid cloths. Cloths that are cut from leftovers or from
// several lengths are not kept: their ids are left.
func Of(laid []plan.Laid) (f *File, left []string) {
	f = &File{}
	for _, l := range laid {
		id := l.Task.Spread.Cloth.ID
		if l.Several() || l.Shelf != nil && l.Shelf.Verdict != shelf.Idle || len(l.Results) == 0 {
			left = append(left, id)
			continue
		}
		f.Cloths = append(f.Cloths, clothOf(l))
	}
	return f, left
}

// clothOf keeps one cloth.
func clothOf(l plan.Laid) Cloth {
	c := groundOf(l.Task)
	for i, s := range l.Task.Stretches {
		out := Stretch{Lay: s.Lay, Length: l.Results[i].Layout.Length}
		pinned := map[[2]int]bool{}
		for _, pin := range s.Problem.Pins {
			pinned[[2]int{pin.Piece, pin.Copy}] = true
		}
		marks := make([]string, len(s.Problem.Pieces))
		for k, piece := range s.Problem.Pieces {
			marks[k] = markOf(piece)
		}
		for _, pl := range l.Results[i].Layout.Placed {
			out.Pieces = append(out.Pieces, Piece{
				Name: s.Problem.Pieces[pl.Piece].Name, Copy: pl.Copy, Mark: marks[pl.Piece], At: pl.At, Turn: pl.Turn,
				Mirrored: pl.Mirrored, Pinned: pinned[[2]int{pl.Piece, pl.Copy}],
			})
		}
		c.Stretches = append(c.Stretches, out)
	}
	return c
}

// groundOf is what the pieces of a task lie on.
func groundOf(t plan.Task) Cloth {
	strip := t.Problem.Strip
	return Cloth{
		ID: t.Spread.Cloth.ID, Width: strip.Width, Gap: t.Problem.Gap,
		Repeat: [2]float64{strip.Repeat.Along, strip.Repeat.Across}, Flaws: markOfRings(strip.Forbidden),
	}
}

// Encode returns the text of a file, a line for each piece, so that two versions of it can
// be compared line by line.
func (f *File) Encode() []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\"layout\": %d, \"cloths\": [", version)
	for i, c := range f.Cloths {
		fmt.Fprintf(&out, "%s\n{\"cloth\": %s, \"width\": %s, \"gap\": %s, \"repeat\": %s, \"flaws\": %s, \"stretches\": [",
			comma(i), asJSON(c.ID), asJSON(c.Width), asJSON(c.Gap), asJSON(c.Repeat), asJSON(c.Flaws))
		for k, s := range c.Stretches {
			fmt.Fprintf(&out, "%s\n {\"lay\": %s, \"length\": %s, \"pieces\": [", comma(k), asJSON(lays[s.Lay]),
				asJSON(s.Length))
			for n, p := range s.Pieces {
				fmt.Fprintf(&out, "%s\n  {\"piece\": %s, \"copy\": %d, \"mark\": %s, \"at\": %s, \"turn\": %s, "+
					"\"mirrored\": %t, \"pinned\": %t}", comma(n), asJSON(p.Name), p.Copy+1, asJSON(p.Mark), asJSON(p.At),
					asJSON(p.Turn), p.Mirrored, p.Pinned)
			}
			out.WriteString("]}")
		}
		out.WriteString("]}")
	}
	out.WriteString("]}\n")
	return out.Bytes()
}

func comma(i int) string {
	if i == 0 {
		return ""
	}
	return ","
}

// asJSON encodes text and finite numbers.
func asJSON(v any) []byte {
	text, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("a layout of finite numbers does not encode: %v", err)) // the judge passed it
	}
	return text
}
