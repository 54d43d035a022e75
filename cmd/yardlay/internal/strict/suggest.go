package strict

import "strings"

// Nearest returns the name in known that word is the beginning of, else the one
// closest by edit distance, or "" when none is close enough to be a likely slip
// of the fingers: at most a third of the letters, or two, have to change.
func Nearest(word string, known []string) string {
	word = strings.ToLower(strings.ReplaceAll(word, "-", "_"))
	for _, name := range known {
		if len(word) >= 3 && strings.HasPrefix(strings.ReplaceAll(name, "-", "_"), word) {
			return name
		}
	}
	best, least := "", max(2, len(word)/3)+1
	for _, name := range known {
		if d := editDistance(word, strings.ReplaceAll(name, "-", "_")); d < least {
			best, least = name, d
		}
	}
	return best
}

// editDistance counts the letters to insert, delete or change to turn a into
// b (Levenshtein 1966), two rows at a time.
func editDistance(a, b string) int {
	x, y := []rune(a), []rune(b)
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := range x {
		diagonal := row[0]
		row[0] = i + 1
		for j := range y {
			change := diagonal
			if x[i] != y[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(y)]
}

// OneOf hints at the names allowed where word was read: the nearest one if
// word looks like a slip, else all of them.
func OneOf(word string, known []string) string {
	if name := Nearest(word, known); name != "" {
		return "did you mean `" + name + "`?"
	}
	if len(known) == 0 {
		return ""
	}
	return "known here: " + strings.Join(known, ", ")
}
