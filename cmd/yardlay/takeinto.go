package main

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// takeInto is a job that parts are added to.
type takeInto struct {
	name    string
	src     []byte
	file    *job.File
	changed []byte
	added   []string // names of parts
}

// jobToTakeInto reads the job of --into; nil without it. It has to read as it is.
func (o *options) jobToTakeInto(ctx context.Context, s streams) (*takeInto, error) {
	name := o.take.into
	if name == "" {
		return nil, nil
	}
	if name == "-" {
		return nil, &usageError{"--into needs a file that can be changed", "for example --into gown.toml"}
	}
	s.line.stage("reading the job")
	return plan.Unless(ctx, func() (*takeInto, error) {
		_, src, err := readSource(name, nil)
		if err != nil {
			return nil, err
		}
		file, err := job.Read(name, src)
		return &takeInto{name: name, src: src, file: file}, err
	})
}

// addTo adds the parts to the text of a job, or writes them as tables to paste.
func (t *taken) addTo(into *takeInto) error {
	var err error
	if into == nil {
		for i := range t.parts {
			t.parts[i].Cloth = slug(t.parts[i].Material)
		}
		t.tables, err = t.Tables(t.parts, filepath.Base(t.file))
		return err
	}
	folder, err := filepath.Abs(filepath.Dir(into.name))
	if err != nil {
		return err
	}
	at, err := filepath.Abs(t.file)
	if err != nil {
		return err
	}
	below, err := filepath.Rel(folder, at)
	if err != nil || !filepath.IsLocal(below) {
		return say.Errorf("%s does not lie in the folder of %s or below it", t.file, into.name).
			Hint("put a copy beside the job, and take that")
	}
	into.fit(t.parts)
	if t.tables, err = t.Tables(t.parts, below); err != nil {
		return err
	}
	if len(t.parts) == 0 {
		return say.Errorf("%s holds nothing to cut, so %s stays as it is", t.File, into.name)
	}
	into.changed, err = t.AddTo(into.src, t.parts, below)
	if err != nil {
		return say.Errorf("%s stays as it is: %w", into.name, err)
	}
	for _, p := range t.parts {
		into.added = append(into.added, p.Name)
	}
	return nil
}

// fit gives parts names that are free in the job, and its cloths: the one that is called as
// their material, else the first.
func (into *takeInto) fit(parts []take.Part) {
	j := into.file.Job()
	taken := map[string]bool{}
	for _, p := range j.Parts {
		taken[p.Name] = true
	}
	for i := range parts {
		p := &parts[i]
		p.Name = take.Free(p.Name, taken)
		taken[p.Name] = true
		p.Cloth = j.Cloths[0].ID
		for _, c := range j.Cloths {
			if strings.EqualFold(c.ID, p.Material) || strings.EqualFold(c.Title, p.Material) {
				p.Cloth = c.ID
			}
		}
	}
}

// write checks that the job reads as it would be, and puts it in the place of the file, unless
// that has been changed meanwhile.
func (into *takeInto) write() error {
	if into == nil {
		return nil
	}
	refused := func(err error) error {
		return say.Errorf("%s stays as it is, since it would not hold with what %s adds: %w", into.name,
			say.InWords(say.Quoted(into.added[:min(len(into.added), 3)], `"`), "and"), err)
	}
	after, err := job.Read(into.name, into.changed)
	if err != nil {
		return refused(err)
	}
	if _, err := plan.Draw(into.file.Job()); err == nil { // else something else is wrong already
		if _, err := plan.Draw(after.Job()); err != nil {
			return refused(err)
		}
	}
	_, now, err := readSource(into.name, nil)
	if err != nil {
		return err
	}
	if !bytes.Equal(now, into.src) {
		return say.Errorf("%s has been changed meanwhile and stays as it is", into.name).Hint("take again")
	}
	if err := folder.Replace(into.name, into.changed); err != nil {
		return say.Errorf("cannot write the job: %w", err)
	}
	return nil
}

// slug makes an id of a cloth of what a file calls a material.
func slug(material string) string {
	id := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			return r
		case r == ' ' || r == '_' || r == '-':
			return '-'
		}
		return -1
	}, strings.ToLower(material))
	if id = strings.Trim(id, "-"); id == "" {
		return "cloth"
	}
	return id
}

// files encodes what --out writes.
func (t *taken) files(page []byte, wanted bool) (made, error) {
	if !wanted {
		return nil, nil
	}
	list, err := files.Take(t.Found, t.tables, t.facts(), t.unit, t.show())
	if err != nil {
		return nil, err
	}
	all := made{files.SetTake: list}
	if page != nil {
		all[t.pageSet().Name] = []folder.File{{Name: filepath.Base(t.file), Data: page}}
	}
	return all, nil
}

// show writes lengths in messages.
func (t *taken) show() say.Show { return strict.Show(measure.SizeUnit(t.unit)) }

// facts are what --json prints, lengths in mm.
func (t *taken) facts() any { return takenFacts(t) }
