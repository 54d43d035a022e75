package page

import (
	"fmt"
	"html/template"
	"math"
	"strings"
	"sync"

	"yardlay/cmd/yardlay/internal/job"
)

// A figure from the front, and one from behind beside it, in units of about 3 mm of a body.
const (
	figureWidth, figureHeight = 380, 560
	frontAt, backAt           = 95, 285 // the middles
)

// spot is a place of the figure, x from its middle.
type spot struct{ x, y float64 }

// side is the left half of the outline from the neck down to the inside of the leg and
// up again: a plain standing body, arms a little off.
var side = []spot{
	{11, 64}, {12, 86}, {20, 96}, {40, 101}, {52, 109}, {59, 130}, {63, 168}, {69, 210}, {76, 258}, {79, 274},
	{84, 296}, {80, 318}, {74, 314}, {69, 290}, {68, 276}, {58, 222}, {49, 178}, {43, 148},
	{43, 166}, {37, 192}, {33, 222}, {40, 250}, {47, 282}, {46, 330}, {36, 400}, {33, 440}, {20, 518}, {27, 540},
	{6, 540}, {9, 516}, {12, 440}, {9, 400}, {4, 318}, {0, 306},
}

// levels are the landmarks that a tape goes round: its middle, and how far it reaches to
// each side.
var levels = map[job.Landmark]struct {
	spot
	reach float64
}{
	job.Head: {spot{0, 34}, 24}, job.NeckBase: {spot{0, 93}, 16}, job.OverBust: {spot{0, 146}, 43},
	job.Bust: {spot{0, 166}, 43}, job.Underbust: {spot{0, 192}, 37}, job.Waist: {spot{0, 222}, 33},
	job.HighHip: {spot{0, 250}, 40}, job.Hips: {spot{0, 282}, 47}, job.UpperArm: {spot{54, 160}, 10},
	job.Wrist: {spot{73.5, 276}, 6}, job.Hand: {spot{77, 300}, 9},
}

// spots are the other landmarks.
var spots = map[job.Landmark]spot{
	job.Floor: {0, 542}, job.BustLine: {0, 166}, job.Nape: {0, 87}, job.NeckPoint: {17, 94}, job.ShoulderTip: {51, 107},
	job.BustPoint: {20, 166}, job.OtherBustPoint: {-20, 166}, job.LeftArmhole: {41, 138}, job.RightArmhole: {-41, 138},
}

// figure is a body with a line for each measure where it is taken. It is drawn of nobody
// and scaled to none: it shows places, not sizes.
var figure = sync.OnceValue(drawFigure)

func drawFigure() template.HTML {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="figure" viewBox="0 0 %d %d" role="img" aria-labelledby="figure-title">`,
		figureWidth, figureHeight)
	b.WriteString(`<title id="figure-title">A body from the front and from behind, with a line where each measure is ` +
		`taken</title>`)
	for _, x := range []float64{frontAt, backAt} {
		fmt.Fprintf(&b, `<g transform="translate(%g 0)"><path class="body" d="%s"/>`+
			`<ellipse class="body" cx="0" cy="42" rx="23" ry="32"/></g>`, x, outline())
	}
	fmt.Fprintf(&b, `<text x="%d" y="556" text-anchor="middle">front</text>`, frontAt)
	fmt.Fprintf(&b, `<text x="%d" y="556" text-anchor="middle">back</text>`, backAt)
	lane := 0.0
	for _, k := range bodyKeys() {
		where := k.Kind.Taken
		b.WriteString(`<g class="taken" id="taken-` + template.HTMLEscapeString(k.Name) + `"><title>` +
			template.HTMLEscapeString(where.String()) + `</title>`)
		if where.Round != "" {
			drawRound(&b, where.Round)
		} else {
			from, to := spotOf(where.From), spotOf(where.To)
			if from.x == 0 && to.x == 0 && !where.Behind { // several go up and down the front
				from.x, to.x = lane-15, lane-15
				lane += 6
			}
			drawBetween(&b, from, to, where.Behind)
		}
		b.WriteString("</g>")
	}
	b.WriteString("</svg>")
	return template.HTML(b.String())
}

// bodyKeys are the measures of a body.
func bodyKeys() (all []job.Key) {
	for _, k := range job.Keys() {
		if k.Name != "body" {
			continue
		}
		for _, m := range k.Kind.Keys {
			if m.Kind.Taken != (job.Taken{}) {
				all = append(all, m)
			}
		}
	}
	return all
}

func spotOf(l job.Landmark) spot {
	if s, ok := spots[l]; ok {
		return s
	}
	return levels[l].spot
}

// drawRound draws a tape round a level, the far side broken, on both figures.
func drawRound(b *strings.Builder, l job.Landmark) {
	at := levels[l]
	dip := math.Max(2.5, at.reach/6)
	for _, x := range []float64{frontAt, backAt} {
		left, right := x+at.x-at.reach, x+at.x+at.reach
		if x == backAt && at.x != 0 { // the same arm
			left, right = x-at.x-at.reach, x-at.x+at.reach
		}
		fmt.Fprintf(b, `<path d="M%.1f %.1f A%.1f %.1f 0 0 0 %.1f %.1f"/>`, left, at.y, at.reach, dip, right, at.y)
		fmt.Fprintf(b, `<path class="far" d="M%.1f %.1f A%.1f %.1f 0 0 1 %.1f %.1f"/>`, left, at.y, at.reach, dip,
			right, at.y)
	}
}

// drawBetween draws a line with its two ends.
func drawBetween(b *strings.Builder, from, to spot, behind bool) {
	x := float64(frontAt)
	if behind {
		x = backAt
	}
	fmt.Fprintf(b, `<path d="M%.1f %.1f L%.1f %.1f"/>`, x+from.x, from.y, x+to.x, to.y)
	for _, end := range []spot{from, to} {
		fmt.Fprintf(b, `<circle cx="%.1f" cy="%.1f" r="2.5"/>`, x+end.x, end.y)
	}
}

// outline is the path of the body below the head: a smooth curve through its half and
// back through the other one (Catmull and Rom, 1974, as cubic curves).
func outline() string {
	all := append([]spot(nil), side...)
	for i := len(side) - 2; i >= 0; i-- {
		all = append(all, spot{-side[i].x, side[i].y})
	}
	var b strings.Builder
	fmt.Fprintf(&b, "M%.1f %.1f", all[0].x, all[0].y)
	at := func(i int) spot { return all[max(0, min(i, len(all)-1))] }
	for i := range len(all) - 1 {
		before, from, to, after := at(i-1), at(i), at(i+1), at(i+2)
		fmt.Fprintf(&b, " C%.1f %.1f %.1f %.1f %.1f %.1f", from.x+(to.x-before.x)/6, from.y+(to.y-before.y)/6,
			to.x-(after.x-from.x)/6, to.y-(after.y-from.y)/6, to.x, to.y)
	}
	return b.String()
}
