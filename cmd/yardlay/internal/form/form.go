// Package form shows a job file as a form and writes what is typed into it back into the
// text. Which fields there are, what they take and mean, follows from the keys of
// package job. A value that makes no sense is written like any other: the text says what
// was typed, and the errors of reading it stand beside its field.
package form

import (
	"slices"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

// Form is a job file as a form.
type Form struct {
	Groups []Group
	Unit   string        // what bare lengths count in; "" where the file does not say
	Loose  strict.Errors // what is wrong with no field
}

// Group is a table of the file, or the tables of one list: all cloths.
type Group struct {
	Name   string // of its key; "job" of what stands before all tables
	About  string
	Path   edit.Path
	List   bool // it may have several tables
	Tables []Table
}

// Table is one table with its fields.
type Table struct {
	Path   edit.Path
	Kind   string // the name of its key
	Name   string // what the file calls it; may be empty
	Draft  string // of a part: how it is drawn
	Item   bool   // it is one of a list
	Index  int    // in it
	Last   bool   // of it
	Given  bool   // the file has it
	Open   bool   // all its fields are shown, see Form.Open
	Fields []Field
	Errors []*strict.Error // of all of it
}

// Control is how a field is filled in.
type Control int

// The controls.
const (
	Line    Control = iota // a text is typed
	Choice                 // one of a few is taken
	Lines                  // several values, each with a control of its own
	Inner                  // a table
	Tables                 // several tables
	Unknown                // a key that the table does not have
)

// Field is a key of a table.
type Field struct {
	Path    edit.Path
	Key     job.Key
	Control Control
	Given   bool   // the file has it
	Text    string // as it would be typed
	Unit    string // of a length: what a bare number counts in
	Choices []string
	Items   []Field // of Lines: those that are there, and an empty one to add another
	Table   *Table  // of Inner
	Tables  []Table // of Tables
	Errors  []*strict.Error
	Within  edit.Path // of one of Lines: the path of them all
	Names   bool      // other tables name this one by it
	Further bool      // the empty line behind others, where another value can be typed
	Used    bool      // a measure of the body that a part of the job is drawn by

	Inherited string // what the workroom gives where the file does not; "" for nothing
}

// Wrong says whether anything is wrong with a field or within it.
func (f Field) Wrong() bool {
	return len(f.Errors) > 0 || slices.ContainsFunc(f.Items, Field.Wrong) || f.Table != nil && f.Table.Wrong() ||
		slices.ContainsFunc(f.Tables, Table.Wrong)
}

// Wrong says whether anything is wrong within a table.
func (t Table) Wrong() bool { return len(t.Errors) > 0 || slices.ContainsFunc(t.Fields, Field.Wrong) }

// Must says whether the file has to give the field, and does not.
func (f Field) Must() bool { return f.Key.Default == "" && !f.Given && f.Inherited == "" }

// About says what the field means: of tables what stands in them.
func (f Field) About() string {
	if f.Control == Inner || f.Control == Tables {
		for _, s := range job.Reference() {
			if s.Name == f.Key.Name && s.Within != "" {
				return s.About
			}
		}
	}
	return f.Key.Meaning
}

// Note is the path of the field whose note says what this one means.
func (f Field) Note() edit.Path {
	if f.Within != nil {
		return f.Within
	}
	return f.Path
}

// Measure is the measure of the body that a field is, or that stands in for it; "" for
// none.
func (f Field) Measure() string {
	if f.Key.Kind.Taken.String() != "" {
		return f.Key.Name
	}
	return f.Key.Kind.Body
}

// Main says whether a field is shown at first sight: it has to be given, or it is, or a
// part could take it.
func (f Field) Main() bool {
	return f.Given || f.Used || f.Key.Default == "" || f.Wrong() || f.Control == Unknown
}

// Of makes the form of a text; wrong is what reading it finds wrong, room what its job
// stands in, nil for none. The error is that of a text which is no TOML.
func Of(src []byte, wrong strict.Errors, room *job.Workroom) (Form, error) {
	root, bad := job.Tree(src)
	if bad != nil {
		return Form{}, bad
	}
	m := maker{src: src, root: root, room: room, told: map[place][]*strict.Error{}}
	for _, e := range wrong {
		if e.At.File != "" { // it stands in another file
			continue
		}
		at := place{e.At.Line, e.At.Column}
		m.told[at] = append(m.told[at], e)
	}
	f := Form{Unit: root.TextOf("unit")}
	for _, name := range groups() {
		f.Groups = append(f.Groups, m.group(name))
	}
	f.mark()
	for _, e := range wrong {
		if !m.shown[e] {
			f.Loose = append(f.Loose, e)
		}
	}
	return f, nil
}

// Open shows all fields of some tables, by their paths.
func (f Form) Open(paths []string) {
	var open func(tables []Table)
	open = func(tables []Table) {
		for i := range tables {
			tables[i].Open = slices.Contains(paths, tables[i].Path.String())
			for _, one := range tables[i].Fields {
				if open(one.Tables); one.Table != nil {
					inner := []Table{*one.Table}
					open(inner)
					*one.Table = inner[0]
				}
			}
		}
	}
	for _, g := range f.Groups {
		open(g.Tables)
	}
}

// mark marks the measures that the parts of the job are drawn by.
func (f Form) mark() {
	used := map[string]bool{}
	for _, g := range f.Groups {
		for _, t := range g.Tables {
			for _, one := range t.Fields {
				used[one.Key.Kind.Body] = used[one.Key.Kind.Body] || g.Name == "part"
			}
		}
	}
	for _, g := range f.Groups {
		for _, t := range g.Tables {
			for i, one := range t.Fields {
				t.Fields[i].Used = g.Name == "body" && used[one.Key.Name]
			}
		}
	}
}

// groups lists the tables of the file in the order of the reference.
func groups() []job.Section {
	var all []job.Section
	for _, s := range job.Reference() {
		if s.Within == "" && !s.Draft && !slices.ContainsFunc(all, func(o job.Section) bool { return o.Name == s.Name }) {
			all = append(all, s)
		}
	}
	return all
}

// fileKey returns a key of the file.
func fileKey(name string) (job.Key, bool) { return keyIn(job.Keys(), name) }

func keyIn(keys []job.Key, name string) (job.Key, bool) {
	i := slices.IndexFunc(keys, func(k job.Key) bool { return k.Name == name })
	if i < 0 {
		return job.Key{}, false
	}
	return keys[i], true
}
