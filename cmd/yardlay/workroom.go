package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// roomOptions are the flags of workroom.
type roomOptions struct {
	fresh    bool
	add, set []string
}

var workroomCommand = command{
	name: "workroom", args: "[FOLDER]", brief: "the book of a folder of jobs",
	about: `A folder is a workroom when workroom.toml stands in it, beside the jobs. It is the
book of the room: cloths and prices once for all jobs, the people who are sewn for
with their measures, what lies on the shelf, and the gowns with what became of
them. A job takes a cloth by ` + "`from`" + ` of its [[cloth]], measures by ` + "`from`" + ` of its
[body]; labour, suppliers, notions and the terms of quotes it takes by itself, where
it names no ` + "`rates`" + `. Jobs in folders without it are whole by themselves.

Without flags it lists what is in the book of the folder, here where none is named.

--new writes a book to start from. --add puts in somebody or something new, by name:
person=mara, cloth=moon-satin, gown=lantern.toml. --set changes a value, as --vary of
compare names it. A price that is set counts as asked today, a measure as taken today:

  yardlay workroom --set cloth.moon-satin.price=14.00/yd
  yardlay workroom --add person=nora --set person.nora.waist_girth=27

All changes of a command are written at once or not at all, and all else in the file
stays as it is typed, comments too. It can be edited by hand as well. Measures stay in
the book: drawings, quotes and all that leaves the room do not show them.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.room.fresh, "new", false, "write a workroom.toml to start from")
		flags.StringArrayVar(&o.room.add, "add", nil, "put in a new `KIND=NAME`: cloth, person, supplier, notion, "+
			"leftover or gown")
		flags.StringArrayVar(&o.room.set, "set", nil, "change a value: `KEY=VALUE`")
		o.onFlag(flags)
		o.quietFlag(flags)
	},
	run: keepRoom,
}

func keepRoom(ctx context.Context, s streams, args []string, o *options) error {
	dir := "."
	if len(args) > 1 {
		return &usageError{fmt.Sprintf("workroom takes one folder, not %d arguments", len(args)),
			"`yardlay help workroom` shows how"}
	} else if len(args) == 1 {
		dir = args[0]
	}
	if filepath.Base(dir) == job.WorkroomFile {
		dir = filepath.Dir(dir)
	}
	path := filepath.Join(dir, job.WorkroomFile)
	on, err := o.day()
	if err != nil {
		return err
	}
	added, changes, err := o.room.changes()
	if err != nil {
		return err
	}
	change := func(src []byte) ([]byte, error) {
		for _, a := range added {
			if src, err = workroom.Add(src, a); err != nil {
				return nil, err
			}
		}
		return workroom.Set(src, changes, on)
	}
	switch {
	case o.room.fresh:
		src, err := change(job.WorkroomStarter())
		if err == nil {
			err = workroom.Create(ctx, path, src)
		}
		if err != nil {
			return err
		}
	case len(added)+len(changes) > 0:
		err := workroom.Change(ctx, path, func(src []byte, _ *job.Workroom) ([]byte, error) { return change(src) })
		if err != nil {
			return err
		}
	default:
		_, w, err := workroom.Read(path)
		if err == nil {
			roomPrinter{w, s.out, columns(s.out), on}.print()
		}
		return err
	}
	if !o.quiet {
		fmt.Fprintf(s.out, "wrote %s\n", path)
	}
	return nil
}

// changes reads --add and --set.
func (r roomOptions) changes() (added []workroom.Added, changes []job.Change, err error) {
	for _, one := range r.add {
		kind, name, ok := strings.Cut(one, "=")
		if kind, name = strings.TrimSpace(kind), strings.TrimSpace(name); !ok || name == "" {
			return nil, nil, &usageError{fmt.Sprintf("--add cannot be %q", one), "a kind and a name: person=mara"}
		}
		added = append(added, workroom.Added{Kind: kind, Name: name})
	}
	for _, one := range r.set {
		key, value, ok := strings.Cut(one, "=")
		if !ok {
			return nil, nil, &usageError{fmt.Sprintf("--set cannot be %q", one),
				"a key and its value: cloth.moon-satin.price=14.00/yd"}
		}
		changes = append(changes, job.Change{Key: strings.TrimSpace(key), Value: strings.TrimSpace(value)})
	}
	return added, changes, nil
}

// roomPrinter lists what is in a book, in lines of at most so many letters.
type roomPrinter struct {
	*job.Workroom
	out   io.Writer
	width int
	on    job.Date
}

func (p roomPrinter) print() {
	p.line("", fmt.Sprintf("%s: %s, %s, %s, %s", p.File, say.Count(len(p.Cloths), "cloth"),
		people(len(p.People)), say.Count(len(p.Shelf()), "leftover"), say.Count(len(p.Gowns), "gown")))
	for i, c := range p.Cloths {
		p.head(i, "cloths")
		p.line("  ", p.cloth(c))
	}
	for i, one := range p.People {
		p.head(i, "people")
		p.line("  ", person(one))
	}
	for i, g := range p.Gowns {
		p.head(i, "gowns")
		p.line("  ", p.gown(g))
	}
}

// line prints a text, further lines of it further in.
func (p roomPrinter) line(indent, text string) {
	first, rest, _ := strings.Cut(strings.TrimSuffix(wrapAt(text, indent, p.width-2), "\n"), "\n")
	fmt.Fprintln(p.out, first)
	for line := range strings.Lines(rest) {
		fmt.Fprintf(p.out, "  %s\n", strings.TrimSuffix(line, "\n"))
	}
}

func (p roomPrinter) head(i int, what string) {
	if i == 0 {
		fmt.Fprintf(p.out, "\n%s\n", what)
	}
}

// cloth says how wide a cloth is, what it costs since when, and how much of it lies on the
// shelf.
func (p roomPrinter) cloth(c job.Cloth) string {
	facts := []string{measure.Format(c.Width, p.Unit) + " wide"}
	for _, o := range c.Offers {
		facts = append(facts, workroom.Asked(o, p.on))
	}
	left, promised := 0, 0
	for _, l := range p.Shelf() {
		if l.Cloth == c.ID {
			left++
			if l.Promised != "" {
				promised++
			}
		}
	}
	if left > 0 {
		facts = append(facts, say.Count(left, "leftover"))
	}
	if promised > 0 {
		facts = append(facts, fmt.Sprintf("%d of them promised", promised))
	}
	name := c.ID
	if c.Title != c.ID {
		name += ", " + c.Title
	}
	return name + ": " + strings.Join(facts, "; ")
}

// person says when somebody was measured. What came of it stays in the file.
func person(p job.Person) string {
	if len(p.Measured) == 0 {
		return p.Name + ": not measured yet"
	}
	return fmt.Sprintf("%s: measured %s, %s known", p.Name, p.Measured[len(p.Measured)-1].On,
		say.Count(len(p.Measures(job.Date{})), "measure"))
}

// gown says how far a job is.
func (p roomPrinter) gown(g job.Gown) string {
	var facts []string
	add := func(what string, on job.Date) {
		if !on.IsZero() {
			facts = append(facts, what+" "+on.String())
		}
	}
	add("ordered", g.Ordered)
	for _, f := range g.Fittings {
		if !f.Before(p.on) {
			add("fitting", f)
		}
	}
	if add("due", g.Deliver); g.Took == nil && !g.Deliver.IsZero() && g.Deliver.Before(p.on) {
		facts[len(facts)-1] += " (" + say.Count(p.on.DaysSince(g.Deliver), "day") + " ago)"
	}
	if g.Cut != nil {
		add("cut", g.Cut.On)
	}
	if g.Took != nil {
		add("done", g.Took.On)
	}
	if st, err := standing(g, "", p.Currency, p.on); err == nil && st.Balance != nil && st.Balance.Minor > 0 {
		facts = append(facts, st.Balance.Amount()+" "+p.Currency+" to be paid")
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(p.File), g.Job)); err != nil {
		facts = append(facts, "the file is not there")
	}
	if len(facts) == 0 {
		return g.Job
	}
	return g.Job + ": " + strings.Join(facts, "; ")
}

func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}
