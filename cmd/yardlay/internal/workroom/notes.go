package workroom

import (
	"fmt"
	"path/filepath"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// Shelf tells of leftovers of the room that a job does not try, a sentence for each cloth.
func Shelf(j *job.Job) (told []string) {
	for _, c := range j.Cloths {
		if c.Untried > 0 {
			told = append(told, fmt.Sprintf("The shelf has %s of %s besides, smaller than the %d that are tried.",
				say.Count(c.Untried, "leftover"), c.From, len(c.Have)))
		}
	}
	return told
}

// Rates tells that the rates of a job are those of its room, or why they are not.
func Rates(j *job.Job) []string {
	if j.Room == nil {
		return nil
	}
	switch {
	case j.RatesFrom == j.Room.File:
		return []string{fmt.Sprintf("Labour, terms, suppliers and notions that the job does not give are those of %s.",
			filepath.Base(j.RatesFrom))}
	case j.RatesFrom == "" && j.Room.Currency != j.Currency:
		return []string{fmt.Sprintf("%s counts in %s and the job in %s, so its labour, terms and notions are left alone.",
			filepath.Base(j.Room.File), j.Room.Currency, j.Currency)}
	}
	return nil
}
