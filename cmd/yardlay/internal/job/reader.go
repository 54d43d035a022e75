package job

import (
	"sync/atomic"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// reader reads a job file, or the rates file that jobs share.
type reader struct {
	*strict.Reader
	*noted
}

// noted is what has been found out of a file while it is read.
type noted struct {
	money  string   // currency of all amounts
	unsaid []string // ids of cloths that were refused: what names them is no further mistake
	noRate bool     // the rates file cannot be read: what it might say is not missed

	room          *Workroom // that the job stands in; nil for none
	shelved       []string  // ids of cloths in the room whose leftovers a cloth of the job has already
	disk          *disk     // the files it refers to
	outlinedBytes int64     // of files of outlines, so far
	drawnBytes    int64     // of other drawings
	drawings      []string
	corners       atomic.Int64 // of the outlines that are drafted
}

func newReader(file string, unit measure.Unit, money string) *reader {
	return &reader{&strict.Reader{File: file, Unit: unit, Called: "job"}, &noted{money: money, disk: new(disk)}}
}

// table is a table of the file.
type table struct {
	*strict.Table
	*noted
	keys []Key // as the reference has them
}

func (r *reader) table(n *strict.Value, name string, keys []Key) *table {
	return &table{r.Table(n, name), r.noted, keys}
}

// within reads one of the tables that a key lists.
func (t *table) within(key string, n *strict.Value, name string) *table {
	return &table{t.Table.Table(n, name), t.noted, t.kind(key).Keys}
}

// sub reads a table within this one; nil when it is missing or no table.
func (t *table) sub(key, name, example string) *table {
	if s := t.Sub(key, name, example); s != nil {
		return &table{s, t.noted, t.kind(key).Keys}
	}
	return nil
}

// fileFormat is more than any job or rates file takes: four names deep, thirty keys of
// a draft, the tables of all kinds together.
var fileFormat = strict.Format{
	Deep: 16, Keys: 1000, Tables: 4000,
	DeepHint:   "the deepest keys of a job are like `cloth.bolt.price`",
	KeysHint:   "`yardlay help job` lists the keys",
	TablesHint: "share the parts out over several jobs",
	SyntaxHint: "text stands in quotes, a key and its value on one line: length = \"41 1/2\"",
	TwiceHint:  "give each key once; a further cloth or part starts with its own [[cloth]] or [[part]] line",
}
