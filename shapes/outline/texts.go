package outline

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"github.com/paulmach/orb"
)

// texts gives shapes what the texts in them say: names, sizes, copies, materials.
func (a *assembler) texts() {
	said := map[string]PieceWords{}
	for _, w := range PiecesSaid(a.drawing.Texts) {
		said[w.Block] = w
	}
	inside := make([]PieceWords, len(a.Shapes))
	loose := make([][]string, len(a.Shapes))
	for _, t := range a.drawing.Texts {
		if t.Block != "" && a.pattern != nil {
			continue
		}
		i := a.shapeOf(item{line: -1, path: orb.LineString{t.At, t.At}, Marks: t.Marks})
		if i < 0 || a.holders.held > mostHeld {
			continue
		}
		for _, line := range strings.Split(t.Text, "\n") {
			if before := inside[i]; strings.Contains(line, ":") {
				if inside[i].hear(line); inside[i].Name != before.Name || inside[i].Size != before.Size ||
					inside[i].Quantity != before.Quantity || inside[i].Material != before.Material {
					continue
				}
			}
			loose[i] = append(loose[i], strings.TrimSpace(line))
		}
	}
	groups := map[string]int{}
	for _, s := range a.Shapes {
		groups[lastOf(s.Group)]++
	}
	for i := range a.Shapes {
		s := &a.Shapes[i]
		w := inside[i]
		if s.Block != "" {
			w = said[s.Block]
		}
		s.told(w, loose[i])
		s.called(w, loose[i], groups)
	}
}

// told takes what is said of copies, sizes and materials.
func (s *Shape) told(w PieceWords, loose []string) {
	if w.Size != "" {
		s.Size = w.Size
	}
	s.Material = w.Material
	if drawn, mirrored := w.Copies(); drawn+mirrored > 0 {
		s.Quantity, s.Paired = drawn+mirrored, drawn == mirrored
		if m := pairsSaid.FindStringSubmatch(w.Quantity); m != nil && m[1] != "" {
			pairs, _ := strconv.Atoi(m[1])
			s.Paired = 2*pairs == s.Quantity
		}
		s.Said = append(s.Said, fmt.Sprintf("It is cut %s: its texts say quantity %s.", times(s.Quantity), w.Quantity))
		return
	}
	for _, line := range loose {
		if n, pair := copiesIn(line); n > 0 {
			s.Quantity, s.Paired = n, pair
			s.Said = append(s.Said, fmt.Sprintf("It is cut %s: a text in it says %q.", times(n), line))
			return
		}
	}
}

// pairsSaid finds pairs beside a quantity: "4 (2 pairs)".
var pairsSaid = regexp.MustCompile(`\((\d{1,3}) pairs?\)`)

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// Ways to say how often a piece is cut (common practice).
var (
	cutSo   = regexp.MustCompile(`(?i)\bcut\s+(\d{1,2})\b(.*)`)
	timesSo = regexp.MustCompile(`(?i)^(?:(\d{1,2})\s*[x×]|[x×]\s*(\d{1,2}))$`)
	// what makes a distance of the number: "cut 5 mm outside", "cut 1/2 in off"
	farSo    = regexp.MustCompile(`(?i)^\s*(?:[.,/]?\d|["″]|(?:mm|cm|inch(es)?|yards?)\b|in\s+(?:from|off|out|away|be))`)
	mirrorSo = regexp.MustCompile(`(?i)\bmirror(ed|s|ing)?\b`)
	pairSo   = regexp.MustCompile(`(?i)^\s*(?:on\s|from\s.*)?\s*(\d{0,2})\s*pairs?\b`)
)

// copiesIn is how often a piece is cut, as a text in it says: "cut 2", "cut 1 pair", "2 x". 0:
// it does not say.
func copiesIn(text string) (n int, pair bool) {
	text = strings.TrimSpace(text)
	if m := cutSo.FindStringSubmatch(text); m != nil && !farSo.MatchString(m[2]) {
		n, _ = strconv.Atoi(m[1])
		if pairSo.MatchString(m[2]) {
			return 2 * n, true
		}
		if half := pairsSaid.FindStringSubmatch(m[2]); half != nil {
			pairs, _ := strconv.Atoi(half[1])
			return n, 2*pairs == n
		}
		return n, n%2 == 0 && mirrorSo.MatchString(m[2])
	}
	if m := timesSo.FindStringSubmatch(text); m != nil {
		n, _ = strconv.Atoi(m[1] + m[2])
	}
	return n, false
}

// called names a shape: as a person did, as its texts say, as its block or group is called.
func (s *Shape) called(w PieceWords, loose []string, groups map[string]int) {
	own := func(name string) bool { return name != "" && roleCalled(name) == Unnamed }
	group := lastOf(s.Group)
	switch {
	case own(s.Label):
		s.Name = s.Label
	case w.Name != "":
		s.Name = w.Name
	case s.Block != "":
		s.Name = s.Block
	case nameIn(loose) != "":
		s.Name = nameIn(loose)
		s.Said = append(s.Said, fmt.Sprintf("Its name is the text %q in it.", s.Name))
	case own(s.ID) && !strings.ContainsFunc(s.ID, unicode.IsDigit):
		s.Name = s.ID
	case own(group) && groups[group] == 1 && !strings.ContainsFunc(group, unicode.IsDigit):
		s.Name = group
	}
	s.Name = short(s.Name)
}

// nameIn is the first text that may be a name.
func nameIn(texts []string) string {
	for _, t := range texts {
		if n, _ := copiesIn(t); n == 0 && len(t) > 1 && strings.ContainsFunc(t, unicode.IsLetter) &&
			roleCalled(t) == Unnamed && !strings.Contains(t, ":") {
			return t
		}
	}
	return ""
}

// short is a name of no more letters than a name may have.
func short(name string) string {
	if letters := []rune(name); len(letters) > maxNameLength {
		return strings.TrimSpace(string(letters[:maxNameLength]))
	}
	return name
}

func lastOf(group string) string { return group[strings.LastIndex(group, "/")+1:] }
