package outline

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// PieceWords is what the texts in the block of a piece say of it, as "Piece Name: collar",
// "Size: 38", "Quantity: 2,0" (common practice; no source seen).
type PieceWords struct {
	Block      string
	Name, Size string
	Material   string
	Category   string
	Annotation string
	Quantity   string  // as it is said; see Copies
	Others     []Keyed // other texts of that form, in order
}

// Keyed is a text of the form "Key: value".
type Keyed struct{ Key, Value string }

// PiecesSaid collects what the texts in blocks say, a block after the other.
func PiecesSaid(texts []Text) []PieceWords {
	var all []PieceWords
	at := map[string]int{}
	for _, t := range texts {
		if t.Block == "" {
			continue
		}
		i, ok := at[t.Block]
		if !ok {
			i = len(all)
			at[t.Block] = i
			all = append(all, PieceWords{Block: t.Block})
		}
		lines := strings.Split(t.Text, "\n")
		if t.Label != "" && len(lines) == 1 { // an attribute: its tag is the key
			lines[0] = t.Label + ": " + t.Text
		}
		for _, line := range lines {
			all[i].hear(line)
		}
	}
	return all
}

// hear takes in a line of a text. What is said first counts.
func (w *PieceWords) hear(line string) {
	key, value, ok := strings.Cut(line, ":")
	k := Keyed{strings.TrimSpace(key), strings.TrimSpace(value)}
	if !ok || k.Key == "" || len(k.Key) > maxNameLength {
		return
	}
	word := strings.NewReplacer(" ", "", "_", "", "-", "").Replace(strings.ToLower(k.Key))
	into := map[string]*string{"piecename": &w.Name, "size": &w.Size, "material": &w.Material, "category": &w.Category,
		"annotation": &w.Annotation, "quantity": &w.Quantity}[word]
	switch {
	case into == nil:
		if !slices.Contains(w.Others, k) {
			w.Others = append(w.Others, k)
		}
	case *into == "":
		*into = k.Value
	}
}

// copiesSaid finds the numbers of a quantity.
var copiesSaid = regexp.MustCompile(`^(\d{1,4})(?:\s*[,;/]\s*(\d{1,4}))?`)

// Copies are the copies that the quantity says: as they are drawn, and mirrored ("2,0"; the
// second number is second-hand). 0 and 0: it says none.
func (w PieceWords) Copies() (drawn, mirrored int) {
	if m := copiesSaid.FindStringSubmatch(strings.TrimSpace(w.Quantity)); m != nil {
		drawn, _ = strconv.Atoi(m[1])
		mirrored, _ = strconv.Atoi(m[2])
	}
	return drawn, mirrored
}

// nameBlocks gives what is in a block the name and size that its texts say; where no text
// says a size, that of the name of the block.
func nameBlocks(d *Drawing) {
	said := map[string]PieceWords{}
	for _, w := range PiecesSaid(d.Texts) {
		said[w.Block] = w
	}
	var blocks []string
	sized := false
	for _, l := range d.Lines {
		sized = sized || said[l.Block].Size != ""
		if l.Block != "" && (len(blocks) == 0 || blocks[len(blocks)-1] != l.Block) {
			blocks = append(blocks, l.Block)
		}
	}
	if !sized {
		slices.Sort(blocks)
		for block, size := range sizesOfNames(d, slices.Compact(blocks)) {
			w := said[block]
			w.Size = size
			said[block] = w
		}
	}
	for i := range d.Lines {
		m := &d.Lines[i].Marks
		m.Label, m.Size = said[m.Block].Name, said[m.Block].Size
	}
	for i := range d.Points {
		m := &d.Points[i].Marks
		m.Label, m.Size = said[m.Block].Name, said[m.Block].Size
	}
	for i := range d.Texts {
		d.Texts[i].Size = said[d.Texts[i].Block].Size
	}
}

// sizeAtEnd finds a size at the end of the name of a block: COLLAR-38, collar_XL.
var sizeAtEnd = regexp.MustCompile(`(?i)^(.*[^-_. ])[-_. ]+(\d{1,3}|\d?X{0,2}[SL]|M)$`)

// sizesOfNames takes sizes from names of blocks where all names that end in one share the same
// two sizes or more. Numbers that follow each other are copies, not sizes.
func sizesOfNames(d *Drawing, blocks []string) map[string]string {
	sizes := map[string]string{}
	of := map[string][]string{}
	for _, b := range blocks {
		if m := sizeAtEnd.FindStringSubmatch(b); m != nil {
			sizes[b] = m[2]
			of[m[1]] = append(of[m[1]], m[2])
		}
	}
	var all []string
	for _, list := range of {
		slices.SortFunc(list, bySize)
		if all == nil {
			all = list
		}
		if len(list) < 2 || !slices.Equal(all, list) {
			return nil
		}
	}
	for i := 1; i < len(all); i++ {
		a, errA := strconv.Atoi(all[i-1])
		b, errB := strconv.Atoi(all[i])
		if errA == nil && errB == nil && b == a+1 {
			return nil
		}
	}
	if all != nil {
		d.Notes = append(d.Notes, fmt.Sprintf("sizes %s are taken from the names of blocks", strings.Join(all, ", ")))
	}
	return sizes
}

// bySize orders numbers by their value, before words.
func bySize(a, b string) int {
	x, errX := strconv.Atoi(a)
	y, errY := strconv.Atoi(b)
	if errX == nil && errY == nil {
		return x - y
	}
	return strings.Compare(a, b)
}
