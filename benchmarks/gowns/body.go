package main

import "yardlay/shapes/draft"

const inch = 25.4 // mm

// body is a set of measures, inches. The first is that of the corset in the tests of
// package nest; the others are made up, between slight and full.
type body struct {
	overBust, bust, underBust, waist, highHip, hip float64 // girths
	overBustUp, bustUp, underBustUp                float64 // above the waist
	highHipDown, hipDown                           float64 // below it
	neck, shoulder, backLength, armhole, bicep     float64
}

var bodies = []body{
	{34, 36, 31, 28, 34, 38.5, 9, 6.75, 3.5, 3.5, 8, 14.5, 4.75, 16, 8.25, 13},
	{31.5, 33.5, 28.5, 25, 31.5, 35.5, 8.75, 6.5, 3.25, 3.5, 7.75, 13.75, 4.5, 15.5, 8, 12.25},
	{37, 40, 34.5, 32, 39, 43, 9.25, 6.5, 3.25, 3.75, 8.25, 15.25, 5, 16.5, 8.75, 14.5},
	{40.5, 44.5, 38.5, 36.5, 43, 47, 9.5, 6.75, 3.25, 4, 8.5, 16, 5.25, 17, 9.25, 16},
	{33, 34.5, 30, 26.5, 33.25, 37.25, 9.5, 7.25, 3.75, 3.75, 8.5, 14.25, 4.75, 16.75, 8.25, 12.75},
}

func (b body) figure() draft.Figure {
	return draft.Figure{
		OverBust: b.overBust * inch, Bust: b.bust * inch, UnderBust: b.underBust * inch, Waist: b.waist * inch,
		HighHip: b.highHip * inch, OverBustUp: b.overBustUp * inch, BustUp: b.bustUp * inch,
		UnderBustUp: b.underBustUp * inch, HighHipDown: b.highHipDown * inch,
	}
}

// over returns the high hip to clear, ease included.
func (b body) over(ease float64) draft.HighHip {
	return draft.HighHip{Girth: (b.highHip + ease) * inch, Depth: b.highHipDown * inch}
}
