package workroom

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Copy is a job made from another one.
type Copy struct {
	Text  []byte
	Lacks []string // measures that have to be given before it can be cut
	Left  []string // what of the other one was left out, a phrase each
}

// Style copies a job: its cloths, parts and terms. Without the person the measures and the
// client are left out; for somebody of the workroom the body is hers. Leftovers and dates
// of the job are its own and are never copied. name is the file that it is to be, beside
// which it has to hold.
func Style(src []byte, person bool, of, name string) (*Copy, error) {
	root, bad := job.Tree(src)
	if bad != nil {
		return nil, bad
	}
	c := &Copy{Text: src}
	c.own(root)
	if !person || of != "" {
		c.drop("the client", edit.Of("quote", "client"))
		c.dropMeasures(root)
		if err := c.body(root, of); err != nil {
			return nil, err
		}
	}
	return c, c.check(name, of == "" && !person)
}

// drop leaves a value out, if the copy has it.
func (c *Copy) drop(what string, at edit.Path) {
	without, err := edit.Remove(c.Text, at)
	if err != nil {
		return // it is not there
	}
	c.Text = without
	if what != "" && !slices.Contains(c.Left, what) {
		c.Left = append(c.Left, what)
	}
}

// own leaves out what is of one gown alone.
func (c *Copy) own(root *strict.Value) {
	for i, cloth := range items(root, "cloth") {
		if cloth.Fields["have"] != nil {
			c.drop("leftovers (`have`)", edit.Of("cloth").Item(i).Key("have"))
		}
	}
	c.drop("the date of the quote", edit.Of("quote", "date"))
}

// items are the tables of a list of the file.
func items(root *strict.Value, key string) []*strict.Value {
	if f := root.Fields[key]; f != nil {
		return f.Value.Items
	}
	return nil
}

// dropMeasures leaves out what parts give in place of measures of the body.
func (c *Copy) dropMeasures(root *strict.Value) {
	for i, part := range items(root, "part") {
		for _, k := range job.KeysOf(partKey(), part, true) {
			if k.Kind.Body != "" && part.Fields[k.Name] != nil {
				c.drop(fmt.Sprintf("`%s` of %s", k.Name, part.TextOf("name")), edit.Of("part").Item(i).Key(k.Name))
			}
		}
	}
}

func partKey() job.Key {
	keys := job.Keys()
	return keys[slices.IndexFunc(keys, func(k job.Key) bool { return k.Name == "part" })]
}

// body puts somebody of the workroom in the place of the body, or nobody: several bodies
// keep their names.
func (c *Copy) body(root *strict.Value, of string) error {
	bodies := items(root, "body")
	if len(bodies) > 0 && of != "" {
		return say.Errorf("the job is cut for %s", say.Count(len(bodies), "body")).
			Hint("copy it without the person, and give each [[body]] its `from`")
	}
	c.drop("the measures", edit.Of("body"))
	var err error
	for _, b := range bodies {
		fields := []edit.Field{{Key: "name", Value: edit.Text(b.TextOf("name"))}}
		if f := b.Fields["count"]; f != nil {
			fields = append(fields, edit.Field{Key: "count", Value: edit.TOML(f.Value.Typed())})
		}
		if c.Text, err = edit.Append(c.Text, edit.Of("body"), edit.Item{Table: true, Fields: fields}); err != nil {
			return err
		}
	}
	if of != "" {
		c.Text, err = edit.Set(c.Text, edit.Of("body", "from"), edit.Text(of))
	}
	return err
}

// check reads the copy. It has to hold, but for measures that it may lack: these are asked
// for in the text, where it has one body.
func (c *Copy) check(name string, mayLack bool) error {
	_, err := job.Read(name, c.Text)
	var wrong strict.Errors
	if err == nil || !errors.As(err, &wrong) || !mayLack {
		return err
	}
	standsIn := map[string]string{}
	for _, s := range job.Reference() {
		for _, k := range s.Keys {
			if k.Kind.Body != "" && s.Draft {
				standsIn[k.Name] = k.Kind.Body
			}
		}
	}
	for _, e := range wrong {
		measure := standsIn[e.Lacks]
		if measure == "" {
			return err
		}
		if !slices.Contains(c.Lacks, measure) {
			c.Lacks = append(c.Lacks, measure)
		}
	}
	root, bad := job.Tree(c.Text)
	if bad != nil || root.Fields["body"] != nil {
		return nil
	}
	c.Text = append(slices.Clone(c.Text), "\n[body]              # measures of the wearer\n"...)
	for _, m := range c.Lacks {
		c.Text = fmt.Appendf(c.Text, "# %s = \"\"\n", m)
	}
	return nil
}

// Person makes a job to start from with the body of another job and nothing else of it.
func Person(src []byte, name string) (*Copy, error) {
	root, bad := job.Tree(src)
	if bad != nil {
		return nil, bad
	}
	unit, err := measure.ParseUnit(root.TextOf("unit"))
	f := root.Fields["body"]
	if err != nil || f == nil {
		return nil, say.Errorf("that job gives no [body] to copy")
	}
	if len(f.Value.Items) > 0 {
		return nil, say.Errorf("the job is cut for %s", say.Count(len(f.Value.Items), "body")).
			Hint("copy the tables [[body]] by hand")
	}
	c := &Copy{Text: job.Starter()}
	c.drop("", edit.Of("body"))
	for _, key := range f.Value.Order {
		if c.Text, err = edit.Set(c.Text, edit.Of("body", key), inUnit(f.Value.Fields[key].Value, key, unit)); err != nil {
			return nil, err
		}
	}
	c.Left = []string{"cloths, parts and terms"}
	return c, c.check(name, false)
}

// inUnit is a value as it stands in a job that counts in another unit than it was written
// for: bare lengths are given theirs.
func inUnit(v *strict.Value, key string, unit measure.Unit) edit.Value {
	text := v.Typed()
	if job.IsMeasure(key) {
		if _, err := measure.Parse(text+" "+unit.String(), unit); err == nil { // it has no unit of its own
			text += " " + unit.String()
		}
		return edit.Text(text)
	}
	if v.Kind == strict.KindBool {
		return edit.TOML(strconv.FormatBool(v.Truth))
	}
	return edit.Text(text)
}

// Starter makes a job to start from for somebody of the workroom.
func Starter(of, name string) (*Copy, error) {
	c := &Copy{Text: job.Starter()}
	if of == "" {
		return c, nil
	}
	var err error
	c.drop("", edit.Of("body"))
	if c.Text, err = edit.Set(c.Text, edit.Of("body", "from"), edit.Text(of)); err != nil {
		return nil, err
	}
	return c, c.check(name, false)
}
