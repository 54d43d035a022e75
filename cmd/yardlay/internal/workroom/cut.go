package workroom

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Cutting is that a job is cut: from what, and what remains.
type Cutting struct {
	On     job.Date
	Cloths []ClothCutting
}

// ClothCutting is that of one cloth of a job.
type ClothCutting struct {
	Cloth  string       // id in the room, or of the job where the room does not have it
	Length float64      // bought for it, mm; 0: none
	Unit   measure.Unit // that it is written in
	Lot    string       // of what is bought; may be empty
	Used   []job.Have   // leftovers of the room that it is cut from, as they were when it was laid
	Left   []Remnant    // put on the shelf; none of a cloth that the room does not have
}

// Remnant is an outline that goes on the shelf.
type Remnant struct {
	Outline orb.Ring // whole mm, as of job.Have
	Lot     string
	Washed  bool
	Name    string // what Into called it
}

// Into writes into the text of a book that a job is cut: lengths and lots with the gown, what was used
// marked so, and what is left put on the shelf, with names that nothing there has. It refuses a gown that
// is cut already, and a leftover that is not on the shelf as it was laid on.
func (c Cutting) Into(src []byte, w *job.Workroom, file string) ([]byte, error) {
	before, file := markOf(src), filepath.Base(file)
	if g, ok := w.Gown(file); ok && g.Cut != nil {
		return nil, say.Errorf("%s was cut on %s", file, g.Cut.On).Hint("`yardlay cut %s --undo` takes that back", file)
	}
	src, err := c.markUsed(src, w, file)
	if err != nil {
		return nil, err
	}
	var cloths []string
	taken := namesOf(w)
	for i := range c.Cloths {
		one := &c.Cloths[i]
		for n := range one.Left {
			one.Left[n].Name = freeName(one.Cloth, taken)
			if src, err = edit.Append(src, edit.Of("leftover"), one.Left[n].item(*one, file, c.On)); err != nil {
				return nil, err
			}
		}
		cloths = append(cloths, one.text())
	}
	src, at, err := gown(src, w, file)
	if err != nil {
		return nil, err
	}
	text := fmt.Sprintf("{ on = %s, before = \"%s\", cloths = [%s] }", c.On, before, strings.Join(cloths, ", "))
	return edit.Set(src, at.Key("cut"), edit.TOML(text))
}

// markUsed marks leftovers as used.
func (c Cutting) markUsed(src []byte, w *job.Workroom, file string) ([]byte, error) {
	seen := map[string]bool{}
	for _, one := range c.Cloths {
		for _, h := range one.Used {
			i := slices.IndexFunc(w.Leftovers, func(l job.Leftover) bool { return l.Name == h.Name })
			switch {
			case i < 0 || !sameCloth(w.Leftovers[i].Have, h):
				return nil, say.Errorf("leftover `%s` is not on the shelf as it was when %s was laid", h.Name, file).
					Hint("lay it again: run the command once more")
			case w.Leftovers[i].Used != "" || seen[h.Name]:
				by := w.Leftovers[i].Used
				if by == "" {
					by = file
				}
				return nil, say.Errorf("leftover `%s` was used for %s", h.Name, by).Hint("lay %s again without it", file)
			case w.Leftovers[i].Promised != "" && w.Leftovers[i].Promised != file:
				return nil, say.Errorf("leftover `%s` is promised to %s", h.Name, w.Leftovers[i].Promised).
					Hint("`yardlay shelf --release %s` makes it free", w.Leftovers[i].Promised)
			}
			seen[h.Name] = true
			var err error
			if src, err = edit.Set(src, edit.Of("leftover").Item(i).Key("used"), edit.Text(file)); err != nil {
				return nil, err
			}
		}
	}
	return src, nil
}

// sameCloth says whether two leftovers of one name are the same piece of cloth.
func sameCloth(a, b job.Have) bool {
	return a.Length == b.Length && a.Width == b.Width && a.Washed == b.Washed && slices.Equal(a.Outline, b.Outline) &&
		slices.EqualFunc(a.Flaws, b.Flaws, func(f, g job.Flaw) bool { return slices.Equal(f.Outline, g.Outline) })
}

func namesOf(w *job.Workroom) map[string]bool {
	names := map[string]bool{}
	for _, l := range w.Leftovers {
		names[l.Name] = true
	}
	return names
}

// freeName is the id of a cloth with the number after the highest that there is.
func freeName(cloth string, taken map[string]bool) string {
	next := 1
	for name := range taken {
		if text, ok := strings.CutPrefix(name, cloth+" "); ok {
			if n, err := strconv.Atoi(text); err == nil && n < 1_000_000 {
				next = max(next, n+1)
			}
		}
	}
	name := cloth + " " + strconv.Itoa(next)
	taken[name] = true
	return name
}

// item is a remnant as a table of the book.
func (r Remnant) item(c ClothCutting, file string, on job.Date) edit.Item {
	var corners []string
	for _, v := range r.Outline[:len(r.Outline)-1] {
		corners = append(corners, fmt.Sprintf("[%.0f, %.0f]", v[0], v[1]))
	}
	fields := []edit.Field{{Key: "name", Value: edit.Text(r.Name)}, {Key: "cloth", Value: edit.Text(c.Cloth)}}
	if r.Lot != "" {
		fields = append(fields, edit.Field{Key: "lot", Value: edit.Text(r.Lot)})
	}
	fields = append(fields, edit.Field{Key: "outline", Value: edit.TOML("[" + strings.Join(corners, ", ") + "]")})
	if r.Washed {
		fields = append(fields, edit.Field{Key: "washed", Value: edit.TOML("true")})
	}
	return edit.Item{Table: true, Fields: append(fields,
		edit.Field{Key: "from", Value: edit.Text(file)}, edit.Field{Key: "on", Value: onDay(on)})}
}

// text is what a cloth was cut from, as it is written.
func (c ClothCutting) text() string {
	parts := []string{"cloth = " + edit.Quoted(c.Cloth)}
	if c.Length > 0 {
		parts = append(parts, "length = "+edit.Quoted(Exactly(c.Length, c.Unit)))
	}
	if c.Lot != "" {
		parts = append(parts, "lot = "+edit.Quoted(c.Lot))
	}
	var used, left []string
	for _, h := range c.Used {
		used = append(used, edit.Quoted(h.Name))
	}
	for _, r := range c.Left {
		left = append(left, edit.Quoted(r.Name))
	}
	for _, list := range []struct {
		key   string
		names []string
	}{{"used", used}, {"left", left}} {
		if len(list.names) > 0 {
			parts = append(parts, list.key+" = ["+strings.Join(list.names, ", ")+"]")
		}
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// Exactly writes a length in a unit or, where that would round it, in millimetres.
func Exactly(mm float64, unit measure.Unit) string {
	text := measure.Format(mm, unit)
	if back, err := measure.Parse(text, unit); err == nil && max(back-mm, mm-back) <= measure.Guard {
		return text
	}
	return strconv.FormatFloat(mm, 'f', -1, 64) + " mm"
}

// markOf is equal for equal texts.
func markOf(src []byte) string {
	sum := sha256.Sum256(src)
	return hex.EncodeToString(sum[:8])
}
