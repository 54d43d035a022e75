package strict

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// As deep, as wide and as many as the format says is read, and one more of each refused: of
// dotted names, headers, lists and tables within each other; of keys in a table with a
// header, in one in braces, and in one within those.
func TestFormatsEndWhereTheySay(t *testing.T) {
	const deep, keys, tables = 5, 4, 3
	f := Format{Deep: deep, Keys: keys, Tables: tables}
	nested := func(open, shut string) func(n int) string {
		return func(n int) string { return "a = " + strings.Repeat(open, n-1) + strings.Repeat(shut, n-1) }
	}
	many := func(n int, one, between string) string {
		all := make([]string, n)
		for i := range all {
			all[i] = fmt.Sprintf(one, i)
		}
		return strings.Join(all, between)
	}
	for _, c := range []struct {
		what string
		most int
		text func(n int) string
	}{
		{"names", deep, func(n int) string { return many(n, "k%d", ".") + " = 1" }},
		{"names of a header", deep, func(n int) string { return "[" + many(n, "k%d", ".") + "]" }},
		{"lists", deep, nested("[", "]")},
		{"lists behind others", deep, func(n int) string { return "a = [1, " + nested("[", "]")(n - 1)[4:] + ", 2]" }},
		{"names before lists", deep, func(n int) string { return "a." + nested("[", "]")(n-1) }},
		{"tables in braces", deep, func(n int) string {
			return "a = " + strings.Repeat("[{ b = ", (n-1)/3) + []string{"1", "[]", "[[]]"}[(n-1)%3] +
				strings.Repeat(" }]", (n-1)/3)
		}},
		{"keys", keys, func(n int) string { return many(n, "k%d = 1", "\n") }},
		{"keys behind a header", keys, func(n int) string { return "a = 1\n[t]\n" + many(n, "k%d = 1", "\n") }},
		{"keys in braces", keys, func(n int) string { return "a = { " + many(n, "k%d = 1", ", ") + " }" }},
		{"keys in braces in a list", keys,
			func(n int) string { return "a = [ {}, { " + many(n, "k%d = 1", ", ") + " } ]" }},
		{"tables", tables, func(n int) string { return many(n, "[t%d]\na = 1\nb = 2", "\n") }},
		{"tables of a list", tables, func(n int) string { return many(n, "[[t]]\na = %d", "\n") }},
	} {
		if _, err := f.Parse([]byte(c.text(c.most))); err != nil {
			t.Errorf("%d %s: %v\n%s", c.most, c.what, err, c.text(c.most))
		}
		if _, err := f.Parse([]byte(c.text(c.most + 1))); err == nil || !strings.HasPrefix(err.What, "more than ") {
			t.Errorf("%d %s: %v\n%s", c.most+1, c.what, err, c.text(c.most+1))
		}
	}
}

// slowDistance is the edit distance by its own definition.
func slowDistance(a, b string) int {
	switch {
	case a == "" || b == "":
		return len(a) + len(b)
	case a[0] == b[0]:
		return slowDistance(a[1:], b[1:])
	}
	return 1 + min(slowDistance(a[1:], b), slowDistance(a, b[1:]), slowDistance(a[1:], b[1:]))
}

// A word is taken for the first name that it begins, three letters at least, or else for the
// nearest: two letters may differ, of longer words a third.
func TestNearestAgainstSlowTwin(t *testing.T) {
	word := rapid.StringMatching(`[ab]{1,7}`)
	rapid.Check(t, func(t *rapid.T) {
		given, known := word.Draw(t, "word"), rapid.SliceOfN(word, 0, 4).Draw(t, "known")
		want, least := "", max(2, len(given)/3)+1
		for _, name := range known {
			if d := slowDistance(given, name); d < least {
				want, least = name, d
			}
		}
		for i := len(known) - 1; i >= 0 && len(given) >= 3; i-- {
			if strings.HasPrefix(known[i], given) {
				want = known[i]
			}
		}
		if got := Nearest(given, known); got != want {
			t.Fatalf("%q of %q is taken for %q, want %q", given, known, got, want)
		}
	})
	names := []string{"aaaaaaaaaaa", "aaaa"}
	for given, want := range map[string]string{"xxxxaaaaaaa": "", "xxxaaaaaaaa": names[0], "xxxa": "",
		"xxaa": names[1]} {
		if got := Nearest(given, names); got != want {
			t.Errorf("%q is taken for %q, want %q", given, got, want)
		}
	}
}
