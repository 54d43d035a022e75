package job

import (
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"
)

// What is read of a file at most. The decoder looks for each key among all others
// of its table.
const (
	mostDeep   = 16   // names of a dotted key, lists and tables within each other; a job needs four
	mostKeys   = 1000 // of one table; a draft has thirty
	mostTables = 4000 // with a header: more than the tables of all kinds that a job takes
)

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
		deep, wide := sizeOf(e, mostDeep)
		if e.Kind == unstable.KeyValue {
			keys++
			wide = max(wide, keys)
		} else {
			keys = 0
			tables++
		}
		switch {
		case deep > mostDeep:
			return refuse("more than %d names, lists and tables within each other", "the deepest keys of a job are like `cloth.bolt.price`", mostDeep)
		case wide > mostKeys:
			return refuse("more than %d keys in one table", "`yardlay help job` lists the keys", mostKeys)
		case tables > mostTables:
			return refuse("more than %d tables", "share the parts out over several jobs", mostTables)
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
