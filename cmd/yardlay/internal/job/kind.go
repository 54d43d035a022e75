package job

import (
	"fmt"
	"strconv"
	"strings"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Kind is what values a key takes. How it is read, what the reference calls it and
// what a change makes of a bare word follow from it. The zero value takes nothing.
type Kind struct {
	Form Form
	Sign Sign // of a length
	// limits, both in, of a count, a ratio, a percentage (0.1 is 10 %) or the bytes of a text; none where both are 0
	Least, Most float64
	Numbers     []int    // of a count: these alone
	Choices     []string // of OneOf; of a ratio or a length: words that stand for some
	Of          string   // of a name or an amount, what it is of; "piece" of a text that begins with the name of a part
	Or          Form     // that a value may have instead
	Listed      Listed
	Body        string // of a length: the measure of the body that stands in for it; "" for none
	Taken       Taken  // of a measure of the body: where; zero of other lengths
	Keys        []Key  // of a table
	Example     string // as the file has it: a text in its quotes; may be empty
}

// Form is how a value is written and what it means.
type Form int

// The forms of values.
const (
	Text     Form = 1 + iota
	Truth         // true or false
	Length        // in the unit of the job, or with one
	Count         // a whole number
	Ratio         // a number or a fraction
	Number        // a decimal, not negative
	Percent       // with its mark
	OneOf         // one of a few words
	Currency      // three capitals, as in ISO 4217
	Name          // what another table of the job is called
	Amount        // of money, by what it is for
	Minutes       // of work
	Table         // keys and values in braces
	Points        // places on a cloth
	Day           // a date: 2026-11-29
)

// Sign is which lengths are taken.
type Sign int

// The signs of lengths.
const (
	Positive Sign = iota
	NotNegative
	AnySign
)

// Listed is whether a key takes several values.
type Listed int

// How values are listed: never, where there are several, always.
const (
	Single Listed = iota
	SeveralToo
	List
)

// Kinds without a limit of their own.
var (
	text        = Kind{Form: Text}
	truth       = Kind{Form: Truth}
	length      = Kind{Form: Length}
	lengthOr0   = Kind{Form: Length, Sign: NotNegative}
	signed      = Kind{Form: Length, Sign: AnySign}
	number      = Kind{Form: Number}
	percentage  = Kind{Form: Percent}
	amount      = Kind{Form: Amount}
	priceByTape = Kind{Form: Amount, Of: "/yd or amount/m"}
	stepByTape  = Kind{Form: Length, Of: "price"} // in whose unit a bare number counts

	day = Kind{Form: Day}

	minutesByTape = Kind{Form: Minutes, Of: "/m or /yd", Example: `"6 min/m"`}
)

func oneOf[T ~string](words ...T) Kind {
	k := Kind{Form: OneOf}
	for _, w := range words {
		k.Choices = append(k.Choices, string(w))
	}
	return k
}

func count(least, most int) Kind {
	return Kind{Form: Count, Least: float64(least), Most: float64(most)}
}

// countOf takes these numbers alone, which rise.
func countOf(numbers ...int) Kind {
	k := count(numbers[0], numbers[len(numbers)-1])
	k.Numbers = numbers
	return k
}

func ratio(least, most float64) Kind   { return Kind{Form: Ratio, Least: least, Most: most} }
func percent(least, most float64) Kind { return Kind{Form: Percent, Least: least, Most: most} }
func nameOf(what string) Kind          { return Kind{Form: Name, Of: what} }
func tableKind(keys ...Key) Kind       { return Kind{Form: Table, Keys: keys} }

// or lets values be of another kind too, which has no limits.
func (k Kind) or(other Kind) Kind {
	k.Or, k.Sign = other.Form, other.Sign
	return k
}

// orWord lets a word stand for a length.
func (k Kind) orWord(word string) Kind {
	k.Choices = []string{word}
	return k
}

// of lets a measure of the body stand in for a length.
func (k Kind) of(body string) Kind {
	k.Body = body
	return k
}

// taken says where a length is taken on a body.
func (k Kind) taken(where Taken) Kind {
	k.Taken = where
	return k
}

// like gives an example, as the file has it.
func (k Kind) like(example string) Kind {
	k.Example = example
	return k
}

// atMost limits a text to so many bytes.
func (k Kind) atMost(bytes int) Kind {
	k.Most = float64(bytes)
	return k
}

// listed lets a key take several values too.
func (k Kind) listed() Kind {
	k.Listed = SeveralToo
	return k
}

// lists lets a key take nothing but lists.
func (k Kind) lists() Kind {
	k.Listed = List
	return k
}

// nouns are what the reference calls values of a form, one and several.
var nouns = map[Form][2]string{
	Text: {"text", "texts"}, Truth: {"true or false"}, Length: {"length", "lengths"}, Count: {"whole number"},
	Ratio: {"ratio", "ratios"}, Number: {"number"}, Percent: {"percentage"}, Currency: {"three capitals"},
	Amount: {"amount"}, Minutes: {"minutes"}, Table: {"table", "tables"}, Points: {"", "points"},
	Day: {"date", "dates"},
}

// String says in the reference what a key takes: "whole number from 1 to 60".
func (k Kind) String() string {
	one, several := nouns[k.Form][0], nouns[k.Form][1]
	switch {
	case k.Form == OneOf:
		return say.InWords(say.Quoted(k.Choices, "`"), "or")
	case k.Form == Name && k.Of == "cloth":
		one, several = "id of a cloth", "ids"
	case k.Form == Name:
		one, several = "name of a "+k.Of, "names"
	case len(k.Numbers) > 0:
		words := make([]string, len(k.Numbers))
		for i, n := range k.Numbers {
			words[i] = strconv.Itoa(n)
		}
		return say.InWords(words, "or")
	case k.Form == Amount || k.Form == Minutes:
		one += k.Of
	case k.Form == Ratio && k.Choices != nil:
		one = "word or ratio"
	case k.Form == Length && k.Choices != nil:
		one += " or " + say.InWords(say.Quoted(k.Choices, "`"), "or")
	}
	switch k.Listed {
	case List:
		return "list of " + several
	case SeveralToo:
		first, _, _ := strings.Cut(one, " ")
		return first + " or list of " + several
	}
	switch {
	case k.Form == Text && k.Most != 0:
		one += " of at most " + k.limit(k.Most) + " bytes"
	case k.Least != 0 || k.Most != 0:
		one += " from " + k.limit(k.Least) + " to " + k.limit(k.Most)
	}
	if k.Or != 0 {
		one += " or " + nouns[k.Or][0]
	}
	return one
}

// limit writes a limit as the file would have it.
func (k Kind) limit(v float64) string {
	if k.Form == Percent {
		return fmt.Sprintf("%g %%", 100*v)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Counted says whether a bare number is a number and neither a length nor text.
func (k Kind) Counted() bool {
	return k.Form == Count || k.Form == Number
}

// parse is how lengths of the kind are read.
func (k Kind) parse(text string, bare measure.Unit) (float64, error) {
	switch k.Sign {
	case Positive:
		return measure.ParsePositive(text, bare)
	case NotNegative:
		return measure.ParseNonNegative(text, bare)
	}
	return measure.Parse(text, bare)
}
