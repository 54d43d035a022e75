package draft

import (
	"fmt"
	"slices"
)

// place is where a gore hangs. Gores are reckoned from the centre back, where a
// seam always is, round one side to the centre front:
//
//	        front                       gores  places, back to front
//	   3 _____|_____ 3                  1      skirt
//	   /      |      \                  2      skirt half (left, right)
//	2 |       |       | 2               3      back, centre front
//	  |       |       |                 4      back, front
//	1 |       |       | 1               5      back, side, centre front
//	   \______|______/                  6      centre back, side, centre front
//	        0 | 0                       7      centre back, side back, side front, centre front
//	        back                        8      the same, with a centre front seam
//
// From nine gores on there is a side between side back and side front; where a
// side has more gores still they are numbered, the lowest number nearest the
// centre back or centre front: side back 1, side back 2, side, side front 2 ...
// An odd number of gores has one centre front gore, an even one a pair.
type place struct {
	name string
	pair bool // one on the left, one on the right
	back int  // number of gores between the centre back and the gore's back seam
	wide int  // gores it takes the place of: 2 on a double-width centre front

	cut string // what hangs there, "" for a gore
}

// places names the gores of a skirt, back to front. With a double-width centre
// front the number of gores must be even.
func places(gores int, doubleFront bool) []place {
	pairs := gores / 2
	centre := gores % 2
	if doubleFront {
		pairs, centre = pairs-1, 2
	}
	if pairs == 0 {
		return []place{{name: "skirt", wide: gores}}
	}
	names := pairNames(pairs, centre > 0)
	list := make([]place, pairs, pairs+1)
	for i := range list {
		list[i] = place{name: names[i], pair: true, back: i, wide: 1}
	}
	if centre > 0 {
		list = append(list, place{name: "centre front", back: pairs, wide: centre})
	}
	return list
}

// pairNames names the pairs from the back forward; with a gore of its own at the
// centre front no pair is called front.
func pairNames(pairs int, centreFront bool) []string {
	if pairs == 1 {
		if centreFront {
			return []string{"back"}
		}
		return []string{"skirt half"}
	}
	if pairs == 2 {
		if centreFront {
			return []string{"back", "side"}
		}
		return []string{"back", "front"}
	}
	between := pairs - 1
	if !centreFront {
		between--
	}
	names := append([]string{"centre back"}, sideNames(between)...)
	if !centreFront {
		names = append(names, "centre front")
	}
	return names
}

// sideNames names the gores between the centre back and the centre front.
func sideNames(n int) []string {
	number := func(name string, i int) string {
		if n < 4 {
			return name
		}
		return fmt.Sprintf("%s %d", name, i+1)
	}
	var back, front []string
	for i := range n / 2 {
		back = append(back, number("side back", i))
		front = append(front, number("side front", i))
	}
	if n%2 == 1 {
		back = append(back, "side")
	}
	slices.Reverse(front)
	return append(back, front...)
}
