package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

const (
	keyColumn  = 25 // letters before what a key takes
	wideEnough = 60 // letters of a line that leave room beside them
)

// keyedFile is a kind of file whose keys are explained.
type keyedFile struct {
	topic, called string
	may           string // what of it can be named
	reference     func() []job.Section
}

var (
	jobFile      = keyedFile{"job", "a job file", "key, table or draft", job.Reference}
	workroomFile = keyedFile{"workroom", "a workroom.toml", "key or table", job.WorkroomReference}
)

// helpKeys lists the keys of a file, or prints what there is under one name.
func helpKeys(out io.Writer, of keyedFile, args []string) error {
	width := columns(out)
	if len(args) == 0 {
		fmt.Fprint(out, wrapAt("A job file is TOML. A length is a number in the job's `unit`, or text: \"27 1/2\", "+
			"\"90 cm\", \"2 3/8 yd\". "+
			"A ratio is a number or text: 2.5, \"2 1/2\". `yardlay help job NAME` explains one key, table or draft.",
			"", width))
		printReference(out, of.reference(), width)
		return nil
	}
	if len(args) > 1 {
		return &usageError{fmt.Sprintf("help %s takes one %s, not %d", of.topic, of.may, len(args)),
			"`yardlay help " + of.topic + "` lists them"}
	}
	topics := topics(of.reference(), args[0])
	if len(topics) == 0 {
		hint := "`yardlay help " + of.topic + "` lists them"
		if near := strict.Nearest(bareName(args[0]), topicNames(of.reference())); near != "" {
			hint = fmt.Sprintf("did you mean `yardlay help %s %s`?", of.topic, near)
		}
		return &usageError{fmt.Sprintf("%s has no %s %q", of.called, of.may, args[0]), hint}
	}
	for i, t := range topics {
		text := new(strings.Builder)
		t.print(text, width)
		printed := text.String()
		if i == 0 {
			printed = strings.TrimPrefix(printed, "\n")
		}
		fmt.Fprint(out, printed)
	}
	return nil
}

// printReference prints all sections.
func printReference(out io.Writer, sections []job.Section, width int) {
	for _, s := range sections {
		topic{[]job.Section{s}, s.Keys, true}.print(out, width)
	}
}

// topic is a part of the reference to print: all of a section, or a key that means
// the same in some of them.
type topic struct {
	in    []job.Section
	keys  []job.Key
	whole bool
}

// topics finds what a reference has under a name: a table or draft, or a key of
// any; "cloth.nap" is the key of one.
func topics(reference []job.Section, name string) []topic {
	name = bareName(name)
	table, key, dotted := strings.Cut(name, ".")
	if !dotted {
		key = name
	}
	var sections, keys []topic
	for _, s := range reference {
		if !dotted && s.Name == name {
			sections = append(sections, topic{[]job.Section{s}, s.Keys, true})
			continue
		}
		if dotted && s.Name != table {
			continue
		}
		for _, k := range s.Keys {
			if k.Name != key {
				continue
			}
			same := slices.IndexFunc(keys, func(t topic) bool { return t.keys[0].Same(k) })
			if same < 0 {
				keys, same = append(keys, topic{keys: []job.Key{k}}), len(keys)
			}
			keys[same].in = append(keys[same].in, s)
		}
	}
	return append(sections, keys...)
}

// bareName is a name as asked for without the brackets of its table.
func bareName(name string) string { return strings.Trim(strings.ToLower(name), "[]") }

// topicNames lists all that can be asked for.
func topicNames(reference []job.Section) []string {
	var names []string
	for _, s := range reference {
		names = append(names, s.Name)
		for _, k := range s.Keys {
			names = append(names, k.Name)
		}
	}
	return names
}

func (t topic) print(out io.Writer, width int) {
	heading := t.in[0].Title + ": " + t.in[0].Describe()
	if !t.whole {
		var titles []string
		for _, s := range t.in {
			titles = append(titles, s.Title)
		}
		heading = "in " + strings.Join(titles, ", ") + ":"
	}
	fmt.Fprintf(out, "\n%s", wrapAt(heading, "", width))
	if t.whole && t.in[0].Draft {
		fmt.Fprint(out, wrapAt("for example "+t.in[0].Example, "  ", width))
	}
	for _, k := range t.keys {
		printKey(out, k, width)
	}
}

// printKey prints what a key takes and means, beside its name where there is room.
func printKey(out io.Writer, k job.Key, width int) {
	otherwise := "default: " + k.Default
	if k.Default == "" {
		otherwise = "must be given"
	}
	margin := strings.Repeat(" ", keyColumn)
	if width < wideEnough {
		margin = "      "
	}
	facts := wrapAt(k.Kind.String()+"; "+otherwise, margin, width) + wrapAt(k.Meaning, margin, width)
	if width < wideEnough {
		fmt.Fprintf(out, "  %s\n%s", k.Name, facts)
		return
	}
	fmt.Fprintf(out, "  %-*s %s", keyColumn-3, k.Name, facts[keyColumn:])
}
