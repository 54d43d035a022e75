package compare

import (
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/draft"
)

// Fullness is that of layers of net in a row where it is not that of the job as
// written: flat edges over the girths that they are gathered onto, all layers together.
type Fullness struct {
	Part     string  `json:"part"`
	Fullness float64 `json:"fullness"`
	Written  float64 `json:"written"`
	// Widths of cloth that make it at least as full again, where the same number of
	// narrower ones makes it less full: another gown than the job's. 0 elsewhere.
	Widths int `json:"widths_as_full,omitempty"`
}

// gathers are the layers of net that a part of the job has in one of its cloths, for
// all who wear it.
type gathers struct {
	part        string
	layer       int // of the part, 0 for its outer cloth
	drafts      []draft.Gathered
	flat, girth float64 // of all, mm
}

// gathered lists what is gathered in a job, in its order.
func gathered(j *job.Job) []gathers {
	var all []gathers
	for _, p := range j.Parts {
		for n, l := range p.Layers {
			d, ok := l.Draft.(draft.Gathered)
			if !ok {
				continue
			}
			k := slices.IndexFunc(all, func(g gathers) bool { return g.part == p.Called && g.layer == n })
			if k < 0 {
				k = len(all)
				all = append(all, gathers{part: p.Called, layer: n})
			}
			made, _ := l.Drafted() // one that cannot be drafted adds no length
			all[k].add(d, made)
		}
	}
	return all
}

// add counts in what a draft comes to.
func (g *gathers) add(d draft.Gathered, made draft.Result) {
	g.drafts = append(g.drafts, d)
	for _, l := range made.Tables.Layers {
		g.flat, g.girth = g.flat+l.Flat, g.girth+l.Girth
	}
}

// fullness is the flat length over the girth.
func (g gathers) fullness() float64 { return g.flat / g.girth }

// shownAlike is the most that two fullnesses differ by and are shown alike.
const shownAlike = 0.05

// fuller notes which rows that are laid come out more or less full than the job as
// written.
func (r *Result) fuller() {
	written := gathered(r.Rows[0].Job)
	for i := range r.Rows {
		if r.Rows[i].Report != nil {
			r.Rows[i].fuller(written)
		}
	}
}

// fuller notes where a row comes out more or less full than the job as written.
func (w *Row) fuller(written []gathers) {
	for _, g := range gathered(w.Job) {
		k := slices.IndexFunc(written, func(o gathers) bool { return g.part == o.part && g.layer == o.layer })
		if k < 0 || g.girth == 0 || written[k].girth == 0 {
			continue
		}
		f := Fullness{Part: g.part, Fullness: g.fullness(), Written: written[k].fullness()}
		if math.Abs(f.Fullness-f.Written) < shownAlike {
			continue
		}
		if f.Fullness < f.Written && g.narrowed(written[k]) {
			f.Widths = g.widthsFor(f.Written)
			w.thin = true
		}
		w.Fullness = append(w.Fullness, f)
		w.Notes = append(w.Notes, f.String())
	}
}

// narrowed says whether it is the cloth alone that makes it less full: nobody asked for
// another number of widths, another fullness, or another girth.
func (g gathers) narrowed(written gathers) bool {
	alike := func(a, b draft.Gathered) bool { return a.Asked() == b.Asked() }
	return math.Abs(g.girth-written.girth) < 1 && slices.EqualFunc(g.drafts, written.drafts, alike)
}

// widthsFor is the least number of whole widths of its cloth that comes out at least so
// full, 0 when no number does.
func (g gathers) widthsFor(fullness float64) int {
	first := int(g.drafts[0].Asked().Widths * fullness / g.fullness())
	for widths := max(first, 1); widths <= first+3 && widths <= draft.MaxCount; widths++ {
		more := gathers{}
		for _, d := range g.drafts {
			made, _ := d.OfWidths(widths).Draft()
			more.add(d, made)
		}
		if more.girth > 0 && more.fullness() >= fullness {
			return widths
		}
	}
	return 0
}

// String says it in words.
func (f Fullness) String() string {
	how := "fuller"
	if f.Fullness < f.Written {
		how = "less full"
	}
	text := fmt.Sprintf("%s is %s: %.1f in place of %.1f.", f.Part, how, f.Fullness, f.Written)
	if f.Widths > 0 {
		text += fmt.Sprintf(" With widths = %d it is at least as full.", f.Widths)
	}
	return text
}

// Title is a row's name, with what makes it another gown than the job as written.
func (w Row) Title() string {
	if change := w.change(); change != "" {
		return w.Name + " (" + change + ")"
	}
	return w.Name
}

// change says in two words how full a row is beside the job as written, "" for as full.
func (w Row) change() string {
	less := func(f Fullness) bool { return f.Fullness < f.Written }
	switch {
	case slices.ContainsFunc(w.Fullness, less):
		return "less full"
	case len(w.Fullness) > 0:
		return "fuller"
	}
	return ""
}
