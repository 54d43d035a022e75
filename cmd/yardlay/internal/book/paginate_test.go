package book

import (
	"testing"

	"pgregory.net/rapid"
)

// strips draws strips at random, at most as high as a page with a head.
func someStrips(t *rapid.T, height float64) []strip {
	head := &strip{height: height / 8}
	var list []strip
	for range rapid.IntRange(0, 60).Draw(t, "strips") {
		s := strip{height: rapid.Float64Range(0.1, height/2).Draw(t, "height")}
		switch rapid.IntRange(0, 5).Draw(t, "kind") {
		case 0:
			s.air = true
		case 1, 2:
			s.keep = true
		case 3:
			s.head = head
		case 4:
			s.head, s.keep = head, true
		}
		list = append(list, s)
	}
	for i := range list {
		list[i].begins = i + 1 // tells them apart
	}
	return list
}

// Every strip but air is set once, in order and within its page. Strips are kept together
// where a page holds them, heads come again, and no page is turned without need.
func TestPagesHoldAllStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const height = 100.0
		strips := someStrips(t, height)
		pages := paginate(strips, height)
		next := 0
		for n, page := range pages {
			y := 0.0
			for i, s := range page {
				if s.y < y-rounding || s.y+s.height > height+rounding {
					t.Fatalf("page %d: a strip at %.3f, %.3f high, after %.3f", n+1, s.y, s.height, y)
				}
				y = s.y + s.height
				if s.begins == 0 { // a head
					if i != 0 || page[1].head == nil || page[1].head.height != s.height {
						t.Fatalf("page %d: a head that is not that of its first strip", n+1)
					}
					continue
				}
				for next < s.begins-1 && strips[next].air {
					next++
				}
				if next != s.begins-1 {
					t.Fatalf("page %d shows strip %d, not %d", n+1, s.begins-1, next)
				}
				if i == 0 && (s.air || s.head != nil) {
					t.Fatalf("page %d begins with air, or without its head", n+1)
				}
				next++
			}
			if n+1 == len(pages) {
				break
			}
			last := page[len(page)-1]
			if last.keep && tallness(around(strips, last.begins-1)) <= height*7/8 {
				t.Fatalf("page %d ends with a strip that is kept with the next", n+1)
			}
			if rest := strips[last.begins:]; !last.keep && !rest[0].air && y+tallness(together(rest)) <= height-rounding {
				t.Fatalf("page %d has room for %.3f more", n+1, tallness(together(rest)))
			}
		}
		for ; next < len(strips); next++ {
			if !strips[next].air {
				t.Fatalf("strip %d is lost", next)
			}
		}
	})
}

// around is the group of strips kept together that strip i is of.
func around(strips []strip, i int) []strip {
	for i > 0 && strips[i-1].keep {
		i--
	}
	return together(strips[i:])
}
