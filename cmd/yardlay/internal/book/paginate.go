package book

import (
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// strip is what a page holds from its left to its right edge: a line of text, a line of
// a table, a band of a figure. Pages are broken between strips alone.
type strip struct {
	height float64
	keep   bool   // the next strip stands on the same page
	air    bool   // room alone, left out where a page begins or ends
	head   *strip // set again at the top of a page that this strip begins
	begins int    // which section begins here, from 1; 0: none
	draw   func(at orb.Point) ([]sheet.Item, []sheet.View)
}

// placed is a strip in its place, down from the top of the body of a page.
type placed struct {
	strip
	y float64
}

// pager fills pages.
type pager struct {
	height float64
	pages  [][]placed
	y      float64 // free from here on
}

// paginate sets strips on pages of a height, as many on each as there is room for. Strips
// that are kept together begin another page where they would not fit; those that no page
// holds are parted, as late as can be. A strip is at most as high as a page with its head.
func paginate(strips []strip, height float64) [][]placed {
	p := pager{height: height}
	for len(strips) > 0 {
		group := together(strips)
		tall, head := tallness(group), 0.0
		if group[0].head != nil {
			head = group[0].head.height
		}
		fits := len(p.pages) > 0 && p.y+tall <= height
		switch {
		case group[0].air && (!fits || p.y == 0): // not needed
		case fits:
			p.set(group)
		case tall+head <= height:
			p.turn(group[0].head)
			p.set(group)
		default:
			group = group[:held(group, height-head)]
			if len(p.pages) == 0 || p.y+tallness(group) > height {
				p.turn(group[0].head)
			}
			p.set(group)
		}
		strips = strips[len(group):]
	}
	return p.pages
}

// together is the least number of strips from the first on that stand on one page.
func together(strips []strip) []strip {
	for i, s := range strips {
		if !s.keep {
			return strips[:i+1]
		}
	}
	return strips
}

// held counts the strips from the first on that a height holds, one at the least.
func held(strips []strip, height float64) int {
	n := 1
	for n < len(strips) && tallness(strips[:n+1]) <= height {
		n++
	}
	return n
}

func tallness(strips []strip) (sum float64) {
	for _, s := range strips {
		sum += s.height
	}
	return sum
}

// turn begins a page, with a head.
func (p *pager) turn(head *strip) {
	p.pages, p.y = append(p.pages, nil), 0
	if head != nil {
		p.set([]strip{*head})
	}
}

func (p *pager) set(strips []strip) {
	last := len(p.pages) - 1
	for _, s := range strips {
		p.pages[last] = append(p.pages[last], placed{s, p.y})
		p.y += s.height
	}
}
