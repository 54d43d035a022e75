package record

import (
	"cmp"
	"fmt"
	"math"

	"yardlay/cmd/yardlay/internal/chart"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// mostBars is how many bars are drawn, of the latest gowns: more are read in the table.
const mostBars = 100

// Pictures draw plan against fact: the hours of every gown, and the lengths of its cloths. What nobody told is left
// out, and a picture of nothing too.
func (y Year) Pictures() []sheet.Drawing {
	per := measure.CounterUnit(y.Unit)
	hours := y.bars("hours of work", "hours")
	cloth := y.bars("lengths of cloth", per.String())
	for _, g := range y.Gowns {
		name := cmp.Or(g.Title, g.Job)
		if g.Told() {
			taken, _ := g.Hours.Rat().Float64()
			planned, _ := g.Planned.Rat().Float64()
			hours.Rows = append(hours.Rows, bar(name, taken, planned, g.Hours.String()+" h of "+g.Planned.String()+" h"))
		}
		for _, c := range g.Cloths {
			if c.Planned > 0 && c.Length > 0 {
				cloth.Rows = append(cloth.Rows, bar(name+": "+c.Name, c.Length/per.Millimetres(),
					c.Planned/per.Millimetres(), measure.FormatUp(c.Length, per)+" of "+measure.FormatUp(c.Planned, per)))
			}
		}
	}
	var all []sheet.Drawing
	for _, b := range []chart.Bars{hours, cloth} {
		if n := len(b.Rows); n > mostBars {
			b.Rows = b.Rows[n-mostBars:]
			b.Notes = []string{fmt.Sprintf("The last %d of %d.", mostBars, n)}
		}
		if len(b.Rows) > 0 {
			all = append(all, b.Drawing())
		}
	}
	return all
}

func (y Year) bars(what, unit string) chart.Bars {
	return chart.Bars{
		Title:       y.Title + ": " + what,
		Description: "For each gown a bar of what it took as planned, beyond the plan, or less than it.",
		Axis:        unit, Parts: []string{"as planned", "beyond the plan", "planned and not taken"},
	}
}

// bar is what was taken of a plan.
func bar(name string, taken, planned float64, total string) chart.Bar {
	b := chart.Bar{Name: name, Total: total, Least: math.NaN(),
		Parts: []chart.Part{{Of: 0, Value: min(taken, planned)}}}
	switch {
	case taken > planned:
		b.Parts = append(b.Parts, chart.Part{Of: 1, Value: taken - planned})
	case taken < planned:
		b.Parts = append(b.Parts, chart.Part{Of: 2, Value: planned - taken})
	}
	return b
}
