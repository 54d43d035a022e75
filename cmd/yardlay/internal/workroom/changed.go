package workroom

import (
	"cmp"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// How many jobs that were cut are looked into for somebody's last one, and how many bytes
// of them: a tenth of a second.
const mostLooked, mostRead = 100, 2 << 20

// different is by how much a measure has changed at least, mm: what two tapes differ by.
const different = 1

// Changed tells how the people whom a job is cut for have changed since their last job was
// cut, a sentence each, lengths in a unit. It is for the maker alone.
func Changed(j *job.Job, unit measure.Unit) []string {
	if j.Room == nil {
		return nil
	}
	var told []string
	for _, b := range j.Bodies {
		p, known := j.Room.Person(b.From)
		if b.From == "" || !known {
			continue
		}
		last, ok := lastCut(j, p.Name)
		if !ok {
			continue
		}
		then, now := p.Measures(last.Cut.On), p.Measures(job.Date{})
		var changes []string
		for _, name := range job.MeasureNames() {
			was, had := then[name]
			is, has := now[name]
			own := math.Abs(b.Measures[name]-is) > different // the job says otherwise itself
			if had && has && !own && math.Abs(was-is) > different {
				show := func(mm float64) string { return measure.Format(mm, measure.SizeUnit(unit)) }
				changes = append(changes, fmt.Sprintf("%s %s, was %s", strings.ReplaceAll(name, "_", " "), show(is), show(was)))
			}
		}
		if len(changes) > 0 {
			told = append(told, fmt.Sprintf("%s: %s when %s was cut %s.", p.Name, strings.Join(changes, "; "), last.Job,
				last.Cut.On))
		}
	}
	return told
}

// lastCut finds the last other job of the book that was cut for somebody.
func lastCut(j *job.Job, person string) (job.Gown, bool) {
	gowns := slices.DeleteFunc(slices.Clone(j.Room.Gowns), func(g job.Gown) bool {
		return g.Cut == nil || g.Job == filepath.Base(j.File)
	})
	slices.SortStableFunc(gowns, func(a, b job.Gown) int { return cmp.Compare(b.Cut.On.DaysSince(a.Cut.On), 0) })
	left := int64(mostRead)
	for _, g := range gowns[:min(len(gowns), mostLooked)] {
		if isFor(filepath.Join(filepath.Dir(j.File), g.Job), person, &left) {
			return g, true
		}
	}
	return job.Gown{}, false
}

// isFor says whether the job in a file is cut for somebody; what cannot be read is for nobody,
// and what is longer than is left to read.
func isFor(name, person string, left *int64) bool {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() > min(*left, job.MaxFile) {
		return false
	}
	*left -= info.Size()
	src, err := os.ReadFile(name)
	if err != nil {
		return false
	}
	root, bad := job.Tree(src)
	if bad != nil || root.Fields["body"] == nil {
		return false
	}
	body := root.Fields["body"].Value
	return slices.ContainsFunc(append([]*strict.Value{body}, body.Items...), func(b *strict.Value) bool {
		return b.TextOf("from") == person
	})
}
