package strict

import (
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Format is how much a kind of file may hold, and what would mend one that is not so.
// The decoder looks for each key among all others of its table.
type Format struct {
	Deep   int // names of a dotted key, lists and tables within each other
	Keys   int // of one table
	Tables int // with a header

	DeepHint, KeysHint, TablesHint string // for more than that
	SyntaxHint                     string // for what is no TOML
	TwiceHint                      string // for a key or table that is there already
}

// tooMuch refuses what would take long to read for nothing. What is no TOML is left
// to the decoder.
func (w *walker) tooMuch() *Error {
	w.parser.Reset(w.src)
	keys, tables := 0, 0
	for w.parser.NextExpression() {
		e := w.parser.Expression()
		names := e.Key()
		if !names.Next() { // a comment
			continue
		}
		refuse := func(what, hint string, args ...any) *Error {
			return &Error{At: w.at(names.Node()), What: fmt.Sprintf(what, args...), Hint: hint}
		}
		deep, wide := sizeOf(e, w.Deep)
		if e.Kind == unstable.KeyValue {
			keys++
			wide = max(wide, keys)
		} else {
			keys = 0
			tables++
		}
		switch {
		case deep > w.Deep:
			return refuse("more than %d names, lists and tables within each other", w.DeepHint, w.Deep)
		case wide > w.Keys:
			return refuse("more than %d keys in one table", w.KeysHint, w.Keys)
		case tables > w.Tables:
			return refuse("more than %d tables", w.TablesHint, w.Tables)
		}
	}
	return nil
}

// sizeOf counts how deep names, lists and tables stand in each other in a key and
// its value, as far as that matters, and the most keys of a table in it.
func sizeOf(v *unstable.Node, most int) (deep, wide int) {
	if v.Kind == unstable.KeyValue || v.Kind == unstable.Table || v.Kind == unstable.ArrayTable {
		for names := v.Key(); names.Next() && deep <= most; {
			deep++
		}
		if v.Kind != unstable.KeyValue || deep > most {
			return deep, 0
		}
		within, wide := sizeOf(v.Value(), most-deep)
		return deep + within, wide
	}
	if v.Kind != unstable.Array && v.Kind != unstable.InlineTable {
		return 0, 0
	}
	deep = 1
	for items := v.Children(); items.Next() && deep <= most; {
		if v.Kind == unstable.InlineTable {
			wide++
		}
		within, widest := sizeOf(items.Node(), most-1)
		deep, wide = max(deep, 1+within), max(wide, widest)
	}
	return deep, wide
}
