package say

import "testing"

func TestWordsReadAsASentence(t *testing.T) {
	for _, c := range []struct {
		words []string
		want  string
	}{
		{nil, ""}, {[]string{"one"}, "`one`"}, {[]string{"one", "two"}, "`one` or `two`"},
		{[]string{"one", "two", "three", "four"}, "`one`, `two`, `three` or `four`"},
	} {
		if got := InWords(Quoted(c.words, "`"), "or"); got != c.want {
			t.Errorf("%v: %q, want %q", c.words, got, c.want)
		}
	}
}

func TestCount(t *testing.T) {
	for n, want := range map[int]string{0: "0 pages", 1: "1 page", 12: "12 pages"} {
		if got := Count(n, "page"); got != want {
			t.Errorf("%d: %q", n, got)
		}
	}
}
