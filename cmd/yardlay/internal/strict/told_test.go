package strict

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// As many errors as the reader tells stand alone; one more is told as that, at the last place, and so are keys and
// lacks beyond. What is told already is not counted again.
func TestTheHundredAndFirstError(t *testing.T) {
	for _, c := range []struct{ errors, told int }{
		{MostErrors - 1, MostErrors - 1}, {MostErrors, MostErrors}, {MostErrors + 1, MostErrors + 1},
		{MostErrors + 9, MostErrors + 1},
	} {
		r := &Reader{File: "k.toml"}
		for i := range c.errors {
			r.Fail(Position{Line: 1 + i%MostErrors, Column: 1 + i/MostErrors}, "", "wrong")
		}
		for i := range MostErrors / 2 {
			r.Fail(Position{Line: 1 + i, Column: 1}, "", "wrong")
		}
		all := r.Told()
		if len(all) != c.told {
			t.Errorf("of %d errors %d are told", c.errors, len(all))
		}
		if last := all[len(all)-1]; c.told > MostErrors && (last.At.Line != MostErrors || last.File != "k.toml" ||
			last.What != "and more is wrong than these 100" || last.Hint != "mend these first") {
			t.Errorf("the last one is %+v", last)
		}
	}
	full := kettle(t, "a = 1\nb = 1")
	for i := range MostErrors {
		full.Fail(Position{Line: 9, Column: 1 + i}, "", "wrong")
	}
	full.Need("c", "")
	if full.Finish(); len(full.Told()) != MostErrors+1 {
		t.Errorf("%d are told", len(full.Errors))
	}
	full = kettle(t, "a = 1\nb = 1")
	for i := range MostErrors {
		full.Fail(Position{Line: 9, Column: 1 + i}, "", "wrong")
	}
	if full.Finish(); len(full.Told()) != MostErrors+1 { // keys alone
		t.Errorf("%d are told", len(full.Errors))
	}
	lacks := kettle(t, "")
	lacks.Fail(Position{Line: 1, Column: 1}, "", "odd")
	lacks.Need("a", "")
	lacks.Need("a", "")
	if e := lacks.Errors; len(e) != 2 || e[0].Lacks != "" || e[1].Lacks != "a" {
		t.Errorf("%+v", e)
	}
}

// What is no UTF-8 is refused at the letter, counted as those before it are; the sign that stands for an unreadable
// letter is text like any other.
func TestLettersThatAreNoneAreRefusedWhereTheyStand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.StringMatching(`# [a-zé\x{fffd}\x{20ac}]{0,6}`), 1, 5).Draw(t, "lines")
		src := strings.Join(lines, "\n")
		if _, bad := roomy.Parse([]byte(src)); bad != nil {
			t.Fatalf("%q: %v", src, bad)
		}
		i := rapid.IntRange(0, utf8.RuneCountInString(src)).Draw(t, "letter")
		before := string([]rune(src)[:i])
		broken := before + rapid.SampledFrom([]string{"\xff", "\xc3", "\xe2\x82"}).Draw(t, "byte") + "(" + src[len(before):]
		want := Position{Line: 1 + strings.Count(before, "\n"),
			Column: 1 + utf8.RuneCountInString(before[strings.LastIndex(before, "\n")+1:])}
		_, bad := roomy.Parse([]byte(broken))
		if bad == nil || bad.At != want || bad.What != "the file is not UTF-8 text" || bad.Hint != "save it as plain UTF-8" {
			t.Fatalf("%q: %+v, want %v", broken, bad, want)
		}
	})
}

// Comments are no tables and end none; a list may be longer than a table has keys.
func TestCommentsAndListsAreNotCounted(t *testing.T) {
	f := Format{Deep: 3, Keys: 3, Tables: 2, KeysHint: "fewer keys", TablesHint: "fewer tables"}
	const sixteen = "# so\n# so\n# so\n# so\n"
	for src, want := range map[string]string{
		sixteen + "a = 1\n" + sixteen + "[t]\n" + sixteen + "[s]\n": "",
		"a = [1, 2, 3, 4, 5, [1, 2, 3, 4]]":                         "",
		"a = 1\nb = 2\n# so\nc = 3\n# so\nd = 4":                    "more than 3 keys in one table, fewer keys, 6:1",
		"a = { b = 1, c = 2, d = 3, e = 4 }":                        "more than 3 keys in one table, fewer keys, 1:1",
		"[a]\n[b]\n# so\n[c]":                                       "more than 2 tables, fewer tables, 4:2",
		"a = 1\nb = 1\n[t]\nc = 1\nd = 1\n[s]\ne = 1\nf = 1\n":      "",
	} {
		got := ""
		if _, bad := f.Parse([]byte(src)); bad != nil {
			got = fmt.Sprintf("%s, %s, %d:%d", bad.What, bad.Hint, bad.At.Line, bad.At.Column)
		}
		if got != want {
			t.Errorf("%q: %q, want %q", src, got, want)
		}
	}
}

// A list stands where its key does, whatever it holds, and so do the values in it that have no place of their own.
func TestListsStandAtTheirKeys(t *testing.T) {
	k := kettle(t, "\n\n  a.k = [ [ ], [ 2 ] ]\n")
	list := k.Field("a").Value.Fields["k"].Value
	at := Position{Line: 3, Column: 5}
	for _, v := range append(slices.Clone(list.Items), list) {
		if v.At != at {
			t.Errorf("a list at %v, want %v", v.At, at)
		}
	}
	if got := list.Items[1].Items[0].At; got != (Position{Line: 3, Column: 18}) {
		t.Errorf("2 at %v", got)
	}
}
