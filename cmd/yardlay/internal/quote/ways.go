package quote

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// way is one way to make a gown otherwise.
type way struct {
	name, note string
	changes    []job.Change
}

// candidates are the choices that usually move a price: those of a comparison
// that keep the cloth open, a narrower hem, a shorter gown, whole bolts.
func candidates(f *job.File) []way {
	j := f.Job()
	var ways []way
	for _, changes := range compare.Defaults(j) {
		if w, ok := named(j, changes); ok {
			ways = append(ways, w)
		}
	}
	ways = append(ways, narrowerHem(f)...)
	ways = append(ways, shorter(f)...)
	for _, c := range j.Cloths {
		if slices.ContainsFunc(c.Offers,
			func(o job.Sourced) bool { return o.Offer.Bolt != nil && o.Offer.Price.Currency != "" }) {
			ways = append(ways, way{"whole bolts of " + c.ID, "leftovers are paid for",
				[]job.Change{{Key: "cloth." + c.ID + ".whole_bolts", Value: "true"}}})
		}
	}
	return ways
}

// named names a way of a comparison; ok when it is a choice for a quote.
func named(j *job.Job, changes []job.Change) (w way, ok bool) {
	table, key := cutKey(changes[0].Key)
	value := changes[0].Value
	w.changes = changes
	switch {
	case len(changes) != 1 && !strings.HasSuffix(key, "_on_fold"):
		return w, false
	case key == "width":
		w.name, w.note = fmt.Sprintf("%s %s wide", table, value), "at the same price by length"
		return w, true
	case key == "gores":
		w.name = fmt.Sprintf("%s in %s gores", table, value)
		if value == "1" {
			w.name = table + " in one piece"
		}
		return w, true
	case key == "nap":
		i := slices.IndexFunc(j.Cloths, func(c job.Cloth) bool { return c.ID == table })
		w.name, w.note = fmt.Sprintf("%s laid %s", table, value), "only where neither sheen, pile nor print shows it"
		return w, i >= 0 && freer(j.Cloths[i], job.Nap(value))
	}
	switch key {
	case "length": // no way of a comparison has another one of a part
		w.name, w.note = compare.Name(changes), "cut across the grain and sewn on, with a seam that runs all round"
	case "within":
		w.name = compare.Name(changes)
		w.note = "corners are cut off and sewn on along the straight grain"
	case "tilt":
		w.name, w.note = compare.Name(changes), "only where the cloth bears it: pieces off the grain may twist"
	case "front_on_fold", "back_on_fold", "sections":
		w.name = compare.Name(changes)
	}
	return w, w.name != ""
}

// cutKey parts a key into the name of its table and the key in it.
func cutKey(key string) (table, rest string) {
	i := max(0, strings.LastIndex(key, "."))
	table = strings.TrimSuffix(strings.TrimPrefix(strings.TrimPrefix(key[:i], "cloth."), "part."), ".pieced")
	return table, strings.TrimPrefix(key[i:], ".")
}

// piles are words for cloth whose pile runs one way, whatever is hoped for.
var piles = []string{"velvet", "velveteen", "corduroy", "plush", "fur", "panne", "chenille"}

// freer says whether a cloth may be laid by a nap that lets pieces point more
// ways: not against a pile, and not across a repeat.
func freer(c job.Cloth, nap job.Nap) bool {
	words := strings.FieldsFunc(strings.ToLower(c.ID+" "+c.Title), func(r rune) bool { return r < 'a' || r > 'z' })
	pile := slices.ContainsFunc(words, func(w string) bool { return slices.Contains(piles, w) })
	return !pile && c.Repeat == (job.Repeat{}) && nap.Freer(c.Nap) && nap == job.TwoWay
}

// hemStep is how much narrower a hem is tried, and lengthStep how much shorter a
// gown, by the unit of the job.
func hemStep(unit measure.Unit) float64 {
	if unit.Metric() {
		return measure.Centimetres
	}
	return measure.Inches / 2
}

func lengthStep(unit measure.Unit) (mm float64, called string) {
	if unit.Metric() {
		return 2 * measure.Centimetres, "2 cm"
	}
	return measure.Inches, "1 in"
}

// narrowerHem takes a step off the hem allowance of the job.
func narrowerHem(f *job.File) []way {
	const key = "allowance.hem"
	hem, ok := lengthOf(f, key)
	if step := hemStep(f.Job().Unit); ok && hem > step {
		less := shown(hem-step, f.Job().Unit)
		return []way{{"hem allowance of " + less, "", []job.Change{{Key: key, Value: less}}}}
	}
	return nil
}

// long are the keys of parts that say how long a skirt or a cape is worn.
var long = []string{"length", "skirt_length"}

// shorter takes a step off the length of every part that hangs.
func shorter(f *job.File) []way {
	j := f.Job()
	step, called := lengthStep(j.Unit)
	w := way{name: called + " shorter"}
	done := map[string]bool{}
	for _, p := range j.Parts {
		if !p.Hangs() || done[p.Called] {
			continue
		}
		done[p.Called] = true
		for _, k := range long {
			key := "part." + p.Called + "." + k
			if mm, ok := lengthOf(f, key); ok && mm > 2*step {
				w.changes = append(w.changes, job.Change{Key: key, Value: shown(mm-step, j.Unit)})
			}
		}
	}
	if w.changes == nil {
		return nil
	}
	return []way{w}
}

// lengthOf reads a length as the job has it, mm.
func lengthOf(f *job.File, key string) (mm float64, ok bool) {
	value, takes := f.Written(key)
	if value == "" || takes.Form != job.Length {
		return 0, false
	}
	mm, err := measure.Parse(value, f.Job().Unit)
	return mm, err == nil
}

// shown writes a length of a gown so that it is read back as it is: in the divisions of
// the unit that it is measured in where it is one of them.
func shown(mm float64, unit measure.Unit) string {
	unit = measure.SizeUnit(unit)
	text := measure.Format(mm, unit)
	if back, err := measure.Parse(text, unit); err == nil && math.Abs(back-mm) < measure.Guard {
		return text
	}
	if unit.Metric() {
		return fmt.Sprintf("%.3f mm", mm)
	}
	return fmt.Sprintf("%.4f in", mm/measure.Inches)
}
