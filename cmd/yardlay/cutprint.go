package main

import (
	"fmt"
	"io"
	"strings"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/remains"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// cutReport is what a cut came to.
type cutReport struct {
	Job    string        `json:"job"`
	On     string        `json:"on"`
	Cloths []clothReport `json:"cloths"`
}

// clothReport is that of one cloth; areas are mm2.
type clothReport struct {
	Cloth   string          `json:"cloth"`
	Room    bool            `json:"in_room"` // the room has the cloth: what is left goes on the shelf
	Bought  float64         `json:"bought"`  // mm
	Lot     string          `json:"lot,omitempty"`
	Used    []string        `json:"used"`
	Own     []string        `json:"own"`            // leftovers that the job lists itself
	With    string          `json:"with,omitempty"` // the job that has what is left of it, with which it was laid
	Left    []leftReport    `json:"left"`
	Balance remains.Balance `json:"balance"`
}

// leftReport is an outline that went on the shelf.
type leftReport struct {
	Name   string  `json:"name"`
	Length float64 `json:"length"` // mm, that it reaches along the grain
	Width  float64 `json:"width"`
	Area   float64 `json:"area"` // mm2
}

// print says what was written.
func (r cutReport) print(s streams, o *options, f *job.File, c workroom.Cutting) error {
	unit, err := o.showIn(f.Job())
	if err != nil {
		return err
	}
	r.fill(f.Name(), c)
	s.line.clear()
	if o.json {
		asJSON, err := files.JSON(r)
		s.out.Write(asJSON)
		return err
	}
	r.words(s.out, unit, c)
	return nil
}

// fill takes up what was written for a job.
func (r *cutReport) fill(file string, c workroom.Cutting) {
	r.Job, r.On = file, c.On.String()
	for i, one := range c.Cloths {
		to := &r.Cloths[i]
		to.Bought, to.Lot, to.Used, to.Left = one.Length, one.Lot, []string{}, []leftReport{}
		if to.Own == nil {
			to.Own = []string{}
		}
		for _, h := range one.Used {
			to.Used = append(to.Used, h.Name)
		}
		for _, l := range one.Left {
			box := plane.Bounds(l.Outline)
			to.Left = append(to.Left,
				leftReport{l.Name, box.Max[0] - box.Min[0], box.Max[1] - box.Min[1], plane.Area(l.Outline)})
		}
	}
}

// words says it.
func (r cutReport) words(out io.Writer, unit measure.Unit, c workroom.Cutting) {
	fmt.Fprintf(out, "%s is cut, by the book on %s.\n", r.Job, r.On)
	for i, one := range r.Cloths {
		one.print(out, unit, c.Cloths[i].Unit)
	}
}

// print says what of a cloth was used and what is left; per is the unit that it is sold by.
func (r clothReport) print(out io.Writer, unit, per measure.Unit) {
	wide := columns(out)
	var from []string
	if r.Bought > 0 {
		bought := measure.FormatUp(r.Bought, per) + " bought"
		if r.Lot != "" {
			bought += ", lot " + r.Lot
		}
		from = append(from, bought)
	}
	for _, name := range r.Used {
		from = append(from, name+" off the shelf")
	}
	for _, name := range r.Own {
		from = append(from, name+", which the job lists: strike it out there")
	}
	fmt.Fprintf(out, "\n%s", wrapAt(r.Cloth+": "+strings.Join(from, "; ")+".", "", wide))
	switch {
	case r.With != "":
		fmt.Fprint(out, wrapAt("Its share of what is laid together with "+r.With+", where it says what is left.", "  ", wide))
	case !r.Room:
		fmt.Fprint(out, wrapAt("It is no cloth of the workroom: what is left of it is not on the shelf.", "  ", wide))
	case len(r.Left) == 0:
		fmt.Fprint(out, wrapAt("Nothing is left that is worth keeping.", "  ", wide))
	default:
		fmt.Fprint(out, wrapAt("On the shelf now, with the name to write on it:", "  ", wide))
	}
	for _, l := range r.Left {
		fmt.Fprintf(out, "  %-20s %s\n", l.Name, sizeWords(l.Length, l.Width, l.Area, unit))
	}
	b := r.Balance
	if b.Cloth <= 0 {
		return
	}
	share := func(part float64) string { return fmt.Sprintf("%.0f %%", 100*part/b.Cloth) }
	fmt.Fprint(out, wrapAt(fmt.Sprintf("Of %s: pieces %s, shelf %s, edges, ends and scraps %s.", areaWords(b.Cloth, unit),
		share(b.Pieces), share(b.Kept), share(b.Waste)), "  ", wide))
}

// sizeWords is how far an outline reaches and what it covers, mm and mm2, rounded down.
func sizeWords(length, width, area float64, unit measure.Unit) string {
	size := measure.SizeUnit(unit)
	return fmt.Sprintf("%s x %s, %s", measure.FormatDown(length, size), measure.FormatDown(width, size),
		areaWords(area, unit))
}

// areaWords is an area of mm2 in square metres or yards.
func areaWords(mm2 float64, unit measure.Unit) string {
	of := measure.Yard
	if unit.Metric() {
		of = measure.Metre
	}
	return fmt.Sprintf("%.2f sq %s", mm2/(of.Millimetres()*of.Millimetres()), of)
}
