package page

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/live"
)

// Two pieces that lie over each other are told of once, whichever of them was moved last, and both are marked.
func TestAnOverlapIsToldOnce(t *testing.T) {
	quickly(t)
	s := newSite(t)
	now := s.takes()
	now = s.puts(now, 0, pose{now.Stretches[0][2].Now.At, now.Stretches[0][0].Now.Turn, now.Stretches[0][0].Now.Mirrored})
	p := now.Stretches[0][2].Now
	p.At[0] += 5
	now = s.puts(now, 2, p)
	list := now.Stretches[0]
	pairs := map[string]bool{}
	for _, one := range list {
		for _, under := range one.Under {
			pairs[min(one.Of, under)+" "+max(one.Of, under)] = true
		}
	}
	if len(list[0].Wrong) == 0 || len(list[2].Wrong) == 0 || !pairs[list[0].Of+" "+list[2].Of] {
		t.Fatalf("over each other they are told %+v and %+v", list[0], list[2])
	}
	overlaps := 0
	for _, told := range now.Told {
		if strings.Contains(told, "overlaps") {
			overlaps++
		}
	}
	if overlaps != len(pairs) {
		t.Errorf("%d pairs lie over each other, told are %q", len(pairs), now.Told)
	}
}

// What is not laid by hand says so before anybody tries, beside the button, which stays where the keyboard finds it.
func TestWhatIsNotLaidByHand(t *testing.T) {
	quickly(t)
	s := newSite(t)
	s.get("/job/gown.toml/cloths")
	end := s.until("an end", laid)
	const words = "This cloth is cut from leftovers, and those are not laid by hand."
	if _, text := s.get("/job/gown.toml/cloths"); strings.Contains(text, words) {
		t.Error("without leftovers it speaks of some")
	}
	s.set(func(text string) string {
		return strings.Replace(text, `width    = "58"`, `width    = "58"`+"\n"+
			`have = [{ name = "rest", length = "9 yd", width = 58 }]`, 1)
	})
	s.until("the leftover", func(now live.Snapshot) bool {
		return now.Final && now.Version > end.Version && now.Cloths[0].Picture.Laid().Shelf != nil
	})
	_, text := s.get("/job/gown.toml/cloths")
	first, others, _ := strings.Cut(text, `id="cloth-1"`)
	if strings.Count(first, words) != 1 || strings.Contains(first, "data-hand") ||
		!strings.Contains(first, `aria-disabled="true" aria-describedby="cloth-0-no-hand"`) {
		t.Errorf("of leftovers it shows\n%s", first)
	}
	if strings.Contains(others, words) || !strings.Contains(others, "data-hand") {
		t.Error("another cloth cannot be laid by hand now")
	}
	if _, status, text := s.hand("take", nil); status != 422 || !strings.Contains(text, words) {
		t.Errorf("taken in hand: %d\n%s", status, text)
	}
}

// Keys push pieces by what a rule in the unit of the job shows, as the line below the marker says.
func TestKeysPushByTheUnit(t *testing.T) {
	for unit, want := range map[string][]string{
		"in": {`data-little="3.175" data-further="12.7"`, "push a piece 1/8 in, with Shift 1/2 in"},
		"cm": {`data-little="1" data-further="10"`, "push a piece 1 mm, with Shift 10 mm"},
	} {
		s := newSite(t)
		o := s.put("plain.toml", []byte("unit = \""+unit+`"
[allowance]
seam = "1 cm"
hem = "2 cm"
[[cloth]]
id = "linen"
width = "150 cm"
[[part]]
name = "panel"
draft = "rectangle"
cloth = "linen"
length = "40 cm"
width = "30 cm"
`))
		s.settled(o)
		_, text := s.get("/job/plain.toml/cloths")
		s.says(unit, text, want...)
	}
}
