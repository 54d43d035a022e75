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
	for want, c := range map[string]struct {
		n     int
		thing string
	}{"0 pages": {0, "page"}, "1 page": {1, "page"}, "12 pages": {12, "page"}, "2 days": {2, "day"},
		"1 body": {1, "body"}, "2 bodies": {2, "body"}, "2 keys": {2, "key"}} {
		if got := Count(c.n, c.thing); got != want {
			t.Errorf("%d: %q, want %q", c.n, got, want)
		}
	}
}
