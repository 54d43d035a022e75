package compare

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
)

func TestAskReadsKeysAndValues(t *testing.T) {
	for _, c := range []struct {
		text string
		want Asked
	}{
		{"satin.nap=one-way,two-way", Asked{[]string{"satin.nap"}, [][]string{{"one-way"}, {"two-way"}}}},
		{"skirt.gores=6, 8 ,6", Asked{[]string{"skirt.gores"}, [][]string{{"6"}, {"8"}}}},
		{"satin.width+satin.price=45in+9.80/yd,60in+14/yd",
			Asked{[]string{"satin.width", "satin.price"}, [][]string{{"45in", "9.80/yd"}, {"60in", "14/yd"}}}},
		{`satin.width=["58","57 1/2"],60`, Asked{[]string{"satin.width"}, [][]string{{`["58","57 1/2"]`}, {"60"}}}},
		{`net.bolt={ length = "25 yd", price = "84" },{ length = "50 yd", price = "150" }`,
			Asked{[]string{"net.bolt"}, [][]string{{`{ length = "25 yd", price = "84" }`},
				{`{ length = "50 yd", price = "150" }`}}}},
		{`title="a, b + c = d"`, Asked{[]string{"title"}, [][]string{{`"a, b + c = d"`}}}},
		{`satin.width=45",60 "`, Asked{[]string{"satin.width"}, [][]string{{`45"`}, {`60 "`}}}},
		{`skirt.length=3' 2",3'4 1/2",40½"`, Asked{[]string{"skirt.length"},
			[][]string{{`3' 2"`}, {`3'4 1/2"`}, {`40½"`}}}},
		{`satin.width+satin.price=45"+9/yd,60"+12/yd`, Asked{[]string{"satin.width", "satin.price"},
			[][]string{{`45"`, "9/yd"}, {`60"`, "12/yd"}}}},
		{`p.cloth=[ 'a,b' , "c" ],{ d = 'e,"f' }`, Asked{[]string{"p.cloth"},
			[][]string{{`[ 'a,b' , "c" ]`}, {`{ d = 'e,"f' }`}}}},
		{"satin.shrinkage.warp=+1 %,-3 %", Asked{[]string{"satin.shrinkage.warp"}, [][]string{{"+1 %"}, {"-3 %"}}}},
	} {
		got, err := Ask(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
		} else if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.text, diff)
		}
	}
}

func TestAskRefuses(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"satin.width", "it has no ="},
		{"=45in", "no key before the ="},
		{"satin.width+=1+2", "no key before the ="},
		{"satin.width=", "a value is empty"},
		{"satin.width=45,,60", "a value is empty"},
		{"satin.width+satin.width=1+2", "named twice"},
		{"satin.width+satin.price=45in,60in+14/yd", `2 keys change together and "45in" has 1 of their values`},
	} {
		if got, err := Ask(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s gives %v, %v; want %q", c.text, got, err, c.want)
		}
	}
}

// Combinations are as many as the choices multiplied, each different.
func TestCombinationsMultiply(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var asked []Asked
		want := 1
		for i := range rapid.IntRange(0, 4).Draw(t, "keys") {
			a := Asked{Keys: []string{strings.Repeat("k", i+1)}}
			for v := range rapid.IntRange(1, 6).Draw(t, "values") {
				a.Values = append(a.Values, []string{strings.Repeat("v", v+1)})
			}
			asked = append(asked, a)
			want *= len(a.Values)
		}
		rows, err := Combine(asked)
		if want > MostRows {
			if err == nil {
				t.Fatalf("%d rows are taken", want)
			}
			return
		}
		seen := map[string]bool{}
		for _, row := range rows {
			text := ""
			for _, c := range row {
				text += c.String() + ";"
			}
			seen[text] = true
		}
		if err != nil || len(rows) != want || len(seen) != want {
			t.Fatalf("%d rows, %d different, %v; want %d", len(rows), len(seen), err, want)
		}
	})
}

func TestCombineKeepsLinkedValuesTogether(t *testing.T) {
	a, _ := Ask("satin.width+satin.price=45in+9.80/yd,60in+14/yd")
	b, _ := Ask("satin.nap=two-way")
	rows, err := Combine([]Asked{a, b})
	want := [][]job.Change{
		{{Key: "satin.width", Value: "45in"}, {Key: "satin.price", Value: "9.80/yd"},
			{Key: "satin.nap", Value: "two-way"}},
		{{Key: "satin.width", Value: "60in"}, {Key: "satin.price", Value: "14/yd"},
			{Key: "satin.nap", Value: "two-way"}},
	}
	if diff := cmp.Diff(want, rows); err != nil || diff != "" {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
	if _, err := Combine([]Asked{a, a}); err == nil || !strings.Contains(err.Error(), "`satin.width` is varied twice") {
		t.Errorf("varied twice: %v", err)
	}
}

// asks are values of all kinds, as they are typed.
var asks = rapid.OneOf(
	rapid.StringMatching(`[a-z][a-z -]{0,8}[a-z]`),
	rapid.StringMatching(`[1-9][0-9]?( [1-7]/8)?( ?in| ?cm|"| ")?`),
	rapid.StringMatching(`[1-9]'( ?[1-9]")?`),
	rapid.StringMatching(`"[a-z,+=' ]{0,6}"`),
	rapid.StringMatching(`'[a-z,+=" ]{0,6}'`),
	rapid.StringMatching(`\[("[a-z,]{1,3}", ?){0,3}[1-9]\]`),
	rapid.StringMatching(`\{ a = [1-9], b = \[1, 2\], c = "[+,=]" \}`),
)

// Whatever the values, typed one after the other they are read one by one.
func TestAskReadsWhatIsTyped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := Asked{}
		for i := range rapid.IntRange(1, 3).Draw(t, "keys") {
			want.Keys = append(want.Keys, strings.Repeat("k", i+1))
		}
		var choices []string
		seen := map[string]bool{}
		for range rapid.IntRange(1, 4).Draw(t, "choices") {
			values := rapid.SliceOfN(asks, len(want.Keys), len(want.Keys)).Draw(t, "values")
			choice := strings.Join(values, rapid.SampledFrom([]string{"+", " + "}).Draw(t, "plus"))
			choices = append(choices, choice)
			if key := strings.Join(values, "\n"); !seen[key] {
				seen[key] = true
				want.Values = append(want.Values, values)
			}
		}
		text := strings.Join(want.Keys, "+") + "=" + strings.Join(choices,
			rapid.SampledFrom([]string{",", ", ", " , "}).Draw(t, "comma"))
		got, err := Ask(text)
		if diff := cmp.Diff(want, got); err != nil || diff != "" {
			t.Fatalf("%s: %v (-want +got):\n%s", text, err, diff)
		}
	})
}

// Any text is read or refused with what would mend it; what is read has a value for each
// key, none of them empty or twice.
func FuzzAsk(f *testing.F) {
	for _, text := range []string{"a=1,2", "a+b=1+2", `a=45",60"`, `a=[1,{b="c"}]`, "a='", "=", "a=]],["} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := Ask(text)
		if err != nil {
			return
		}
		if len(a.Keys) == 0 || len(a.Values) == 0 {
			t.Fatalf("%q is read as %+v", text, a)
		}
		seen := map[string]bool{}
		for _, values := range a.Values {
			if len(values) != len(a.Keys) || seen[strings.Join(values, "\x00")] {
				t.Fatalf("%q is read as %+v", text, a)
			}
			seen[strings.Join(values, "\x00")] = true
			for _, v := range values {
				if v == "" || strings.TrimSpace(v) != v {
					t.Fatalf("%q has the value %q", text, v)
				}
			}
		}
	})
}
