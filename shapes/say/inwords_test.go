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
