package report

import (
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// placeWords says where the corners of a part are cut off that its job leaves open, and what that saves; "" where
// nothing was chosen, and of further wearers of the part.
func placeWords(j *job.Job, part job.Part, unit measure.Unit) string {
	first := slices.IndexFunc(j.Parts, func(p job.Part) bool { return p.Called == part.Called })
	at := part.Place
	switch {
	case at.Tried <= 0 || j.Parts[first].Name != part.Name:
		return ""
	case at.Within == 0:
		return fmt.Sprintf("%s: corners are cut off where the cloth is too narrow, no further in: of %s there none saves.",
			part.Called, say.Count(at.Tried, "place"))
	}
	var saved []string
	cheaper := len(at.Less) == 0
	for _, l := range at.Less {
		more := "less"
		if l.Bought < 0 {
			more, cheaper = "more", true // of which a whole bolt may cost less
		}
		saved = append(saved, fmt.Sprintf("%s %s of %s", measure.Format(math.Abs(l.Bought), measure.CounterUnit(unit)), more,
			l.Cloth))
	}
	if cheaper {
		saved = append(saved, "less money")
	}
	if at.Seam != 0 {
		saved = append(saved, moreSeam(at.Seam, unit))
	}
	return fmt.Sprintf("%s: pieced within %s. That takes %s than pieced to the width of the cloth, by a quick search of "+
		"both. `pieced = { within = \"%s\" }` keeps it there.", part.Called,
		measure.Format(at.Within, measure.SizeUnit(unit)), say.InWords(saved, "and"),
		measure.FormatDown(at.Within, measure.SizeUnit(j.Unit)))
}

// moreSeam says how much more of seam is to be sewn.
func moreSeam(mm float64, unit measure.Unit) string {
	more := "more"
	if mm < 0 {
		more = "less"
	}
	return fmt.Sprintf("%s %s of seam", measure.Format(math.Abs(mm), measure.CounterUnit(unit)), more)
}
