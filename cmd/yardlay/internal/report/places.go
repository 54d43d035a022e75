package report

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// placeWords says where a part is pieced whose job leaves that open, what that saves, and why nothing of it is cut
// across where that was asked for; "" where there is nothing to say, and of further wearers of the part.
func placeWords(j *job.Job, part job.Part, unit measure.Unit) string {
	at := part.Place
	if further(j, part) {
		return ""
	}
	var words []string
	switch {
	case at.Within > 0 || at.Length > 0:
		words = append(words, betterPlace(j, at, unit))
	case at.Tried > 0 && at.Across:
		words = append(words, fmt.Sprintf("cut no further than the cloth asks for: of %s none saves.",
			say.Count(at.Tried, "place")))
	case at.Tried > 0:
		words = append(words, fmt.Sprintf("corners are cut off where the cloth is too narrow, no further in: of %s "+
			"there none saves.", say.Count(at.Tried, "place")))
	}
	if at.Bolts > 0 && at.Within == 0 && at.Length == 0 {
		words = append(words, asBolts(at, unit))
	}
	if at.Ended {
		words = append(words, endedWords)
	}
	if at.Whole != nil {
		what, hint := say.Parts(at.Whole, unit.Size)
		if hint != "" {
			hint = "; " + hint
		}
		words = append(words, "nothing is cut across: "+what+hint+".")
	}
	for i := range words {
		words[i] = part.Called + ": " + words[i]
	}
	return strings.Join(words, " ")
}

// Places says of each part whose job leaves open where it is pieced where that is and what it saves, in a sentence.
func Places(j *job.Job, unit measure.Unit) []string {
	all := []string{}
	for _, part := range j.Parts {
		if further(j, part) {
			continue
		}
		if part.Place.Ended {
			all = append(all, part.Called+": "+endedWords)
		}
		if words := placeBriefly(part.Place, unit); words != "" {
			all = append(all, part.Called+": "+words)
		}
	}
	return all
}

// PlaceOf says in a few words where a part is pieced whose place was chosen: "pieced within 35 in"; "" of others.
func PlaceOf(part job.Part, unit measure.Unit) string {
	at := part.Place
	switch {
	case !at.Open() || at.Tried < 0:
		return ""
	case at.Within > 0 || at.Length > 0:
		return chosenPlace(at, unit)
	}
	return asCloth(at)
}

// endedWords say that a run was over before a place was chosen.
const endedWords = "not all places for its cuts were weighed, for the run was over before; without a limit of time " +
	"another may cost less."

// further says whether a part is that of a further wearer, whose pieces are cut as those of the first.
func further(j *job.Job, part job.Part) bool {
	first := slices.IndexFunc(j.Parts, func(p job.Part) bool { return p.Called == part.Called })
	return j.Parts[first].Name != part.Name
}

// placeBriefly says where a part is pieced and what that saves; "" where its job says where.
func placeBriefly(at job.Place, unit measure.Unit) string {
	switch {
	case at.Within == 0 && at.Length == 0 && at.Bolts > 0:
		return asBolts(at, unit)
	case at.Within == 0 && at.Length == 0 && at.Tried > 0:
		return fmt.Sprintf("%s; of %s none saves.", asCloth(at), say.Count(at.Tried, "other place"))
	case at.Within == 0 && at.Length == 0:
		return ""
	case at.Refused != nil:
		return fmt.Sprintf("%s; it cannot be cut when it is %s.", chosenPlace(at, unit), asCloth(at))
	}
	return fmt.Sprintf("%s; that takes %s than %s.", chosenPlace(at, unit), say.InWords(savedBy(at, unit), "and"),
		asCloth(at))
}

// asBolts says how long the parts are of pieces that are longer than bolts.
func asBolts(at job.Place, unit measure.Unit) string {
	return fmt.Sprintf("cut across so that no part is longer than %s, which is what the longest bolt holds.",
		measure.FormatDown(at.Bolts, measure.SizeUnit(unit)))
}

// chosenPlace says where a part is cut at a place that was chosen.
func chosenPlace(at job.Place, unit measure.Unit) string {
	var where []string
	show := func(mm float64) string { return measure.Format(mm, measure.SizeUnit(unit)) }
	if at.Within > 0 {
		where = append(where, "pieced within "+show(at.Within))
	}
	if length := cmp.Or(at.Length, at.Bolts); length > 0 {
		where = append(where, "cut across at "+show(length))
	}
	return strings.Join(where, " and ")
}

// betterPlace says of a place that was chosen what it saves, and how to keep to it.
func betterPlace(j *job.Job, at job.Place, unit measure.Unit) string {
	var keep []string
	write := func(key string, mm float64) {
		if mm > 0 {
			keep = append(keep, fmt.Sprintf("%s = \"%s\"", key, measure.FormatDown(mm, measure.SizeUnit(j.Unit))))
		}
	}
	length := cmp.Or(at.Length, at.Bolts)
	write("within", at.Within)
	write("length", length)
	without := ""
	if at.Across && length == 0 {
		without = ", without `length`,"
	}
	if at.Refused != nil {
		what, _ := say.Parts(at.Refused, unit.Size)
		if first := (*strict.Error)(nil); errors.As(at.Refused, &first) {
			what = first.What // of all that is wrong there
		}
		return fmt.Sprintf("%s. It cannot be cut when it is %s: %s. `%s` in `pieced`%s keeps it there.",
			chosenPlace(at, unit), asCloth(at), what, strings.Join(keep, ", "), without)
	}
	return fmt.Sprintf("%s. That takes %s than %s, by a quick search of both. `%s` in `pieced`%s keeps it there.",
		chosenPlace(at, unit), say.InWords(savedBy(at, unit), "and"), asCloth(at), strings.Join(keep, ", "), without)
}

// asCloth says how a part would be pieced by what its cloth asks for alone.
func asCloth(at job.Place) string {
	var words []string
	if at.Along {
		words = append(words, "pieced to the width of the cloth")
	}
	switch {
	case at.Bolts > 0:
		words = append(words, "cut across to the length of the bolts")
	case at.Across:
		words = append(words, "not cut across")
	}
	return strings.Join(words, " and ")
}

// savedBy lists what a place takes less or more of each cloth and of seam.
func savedBy(at job.Place, unit measure.Unit) (saved []string) {
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
		saved = append(saved, MoreSeam(at.Seam, unit))
	}
	return saved
}

// MoreSeam says how much more of seam is to be sewn, or less: "3 1/8 yd more of seam", "2 in less of seam".
func MoreSeam(mm float64, unit measure.Unit) string {
	more := "more"
	if mm < 0 {
		more = "less"
	}
	return fmt.Sprintf("%s %s of seam", atCounter(math.Abs(mm), unit), more)
}

// atCounter is a length in the unit of the counter, or in that of sizes where it is too short to be told in that.
func atCounter(mm float64, unit measure.Unit) string {
	in := measure.CounterUnit(unit)
	if mm < in.Millimetres()/8 {
		in = measure.SizeUnit(unit)
	}
	return measure.Format(mm, in)
}
