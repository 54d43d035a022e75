package page

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/nest"
)

// hand asks something of the cloth in hand.
func (s *site) hand(what string, fields url.Values) (handShown, int, string) {
	s.Helper()
	if fields == nil {
		fields = url.Values{}
	}
	if !fields.Has("cloth") {
		fields.Set("cloth", "0")
	}
	path := "/job/gown.toml/cloths/hand"
	var status int
	var text string
	if what == "" {
		status, text = s.get(path + "?" + fields.Encode())
	} else {
		status, text = s.post(path+"/"+what, fields)
	}
	var shown handShown
	if status == http.StatusOK {
		if err := json.Unmarshal([]byte(text), &shown); err != nil {
			s.Fatalf("%s: %v\n%s", what, err, text)
		}
	}
	return shown, status, text
}

// asks is hand where nothing is to go wrong.
func (s *site) asks(what string, fields url.Values) handShown {
	s.Helper()
	shown, status, text := s.hand(what, fields)
	if status != http.StatusOK {
		s.Fatalf("%s: %d\n%s", what, status, text)
	}
	return shown
}

// puts lays a piece of the first stretch of a cloth somewhere.
func (s *site) puts(now handShown, piece int, to pose) handShown {
	s.Helper()
	return s.asks("put", url.Values{"version": {fmt.Sprint(now.Version)}, "stretch": {"0"},
		"piece": {fmt.Sprint(piece)},
		"x":     {fmt.Sprint(to.At[0])}, "y": {fmt.Sprint(to.At[1])}, "turn": {fmt.Sprint(to.Turn)},
		"mirrored": {fmt.Sprint(to.Mirrored)}})
}

// takes waits until the job is laid and takes its first cloth in hand.
func (s *site) takes() handShown {
	s.Helper()
	s.get("/job/gown.toml/cloths")
	s.until("an end", laid)
	now := s.asks("take", nil)
	if !now.Held || len(now.Stretches) == 0 || len(now.Stretches[0]) == 0 {
		s.Fatalf("taken in hand it shows %+v", now)
	}
	return now
}

// onDisk reads the file that keeps what a hand laid; nil where there is none.
func (s *site) onDisk() *kept.File {
	s.Helper()
	text, err := os.ReadFile(filepath.Join(s.dir, "gown.layout.json"))
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		s.Fatal(err)
	}
	f, err := kept.Read("gown.layout.json", text)
	if err != nil {
		s.Fatal(err)
	}
	return f
}

func pinnedOf(f *kept.File) (n int) {
	for _, c := range f.Cloths {
		for _, st := range c.Stretches {
			for _, p := range st.Pieces {
				if p.Pinned {
					n++
				}
			}
		}
	}
	return n
}

// A piece that is let go over another is told of, and nothing is kept of it; beside the others it is
// pinned, kept, and the cloth is bought by it; let go, the others come closer again and it stays.
func TestAPieceIsMovedByHand(t *testing.T) {
	quickly(t)
	s := newSite(t)
	now := s.takes()
	first := now.Stretches[0]
	before := s.onDisk()
	over := s.puts(now, 0, pose{first[2].Now.At, first[0].Now.Turn, first[0].Now.Mirrored})
	if p := over.Stretches[0][0]; len(p.Wrong) == 0 || !slices.Contains(p.Under, first[2].Of) || !p.Pinned {
		t.Fatalf("over another piece it is told %+v", p)
	}
	if text := strings.Join(over.Stretches[0][0].Wrong, " "); !strings.Contains(text, "overlaps") ||
		strings.Contains(text, " mm") {
		t.Errorf("told %q: no overlap, or not in the unit of the job", text)
	}
	if after := s.onDisk(); string(after.Encode()) != string(before.Encode()) {
		t.Error("what may not lie so was kept")
	}
	if _, status, text := s.hand("go", nil); status != http.StatusUnprocessableEntity ||
		!strings.Contains(text, "lies where it may not") {
		t.Errorf("let go with a piece over another: %d\n%s", status, text)
	}

	length := s.desk().Snapshot().Cloths[0].Picture.Cloth().Used
	far := first[0].Now.At
	far[0] += length + 500
	beside := s.puts(over, 0, pose{far, first[0].Now.Turn, first[0].Now.Mirrored})
	if p := beside.Stretches[0][0]; len(p.Wrong) > 0 || p.Now.At[0] < length {
		t.Fatalf("behind the others it is told %+v", p)
	}
	if n := pinnedOf(s.onDisk()); n != 1 {
		t.Errorf("%d pieces are kept pinned, want the one that was moved", n)
	}
	longer := s.until("the longer marker", func(now live.Snapshot) bool {
		return now.Final && now.Cloths[0].Picture.Cloth().Used > length
	})
	if got := longer.Cloths[0].Picture.Cloth().Used; got < far[0] {
		t.Errorf("the marker is %.1f long with a piece at %.1f", got, far[0])
	}

	s.asks("go", nil)
	end := s.until("the others laid anew", func(now live.Snapshot) bool {
		return now.Final && now.Cloths[0].Picture.Laid().Task.Pinned() == 1
	})
	l := end.Cloths[0].Picture.Laid()
	if pin := l.Task.Stretches[0].Problem.Pins[0]; pin.At != beside.Stretches[0][0].Now.At {
		t.Errorf("pinned at %v, was put at %v", pin.At, beside.Stretches[0][0].Now.At)
	}
	if s.asks("anew", nil); s.onDisk() != nil {
		t.Error("forgotten, it is still kept")
	}
	s.until("the marker as at first", func(now live.Snapshot) bool {
		return now.Final && now.Cloths[0].Picture.Cloth().Used == length
	})
}

// What a hand laid is there when the job is opened again, and told as old once a measure has changed.
func TestWhatAHandLaidIsKept(t *testing.T) {
	quickly(t)
	s := newSite(t)
	now := s.takes()
	p := now.Stretches[0][0].Now
	p.At[0] += 7000 // behind all others
	put := s.puts(now, 0, p)
	s.server.mu.Lock()
	s.server.open["gown.toml"].close(&s.server.closing)
	delete(s.server.open, "gown.toml")
	s.server.mu.Unlock()
	s.server.closing.Wait()

	_, text := s.get("/job/gown.toml/cloths")
	end := s.until("an end", laid)
	if pins := end.Cloths[0].Picture.Laid().Task.Stretches[0].Problem.Pins; len(pins) != 1 ||
		pins[0].At != put.Stretches[0][0].Now.At {
		t.Errorf("opened again it pins %v, was put at %v\n%s", pins, put.Stretches[0][0].Now.At, text)
	}
	_, text = s.get("/job/gown.toml/cloths")
	if !strings.Contains(text, "1 piece stays where you pinned it. The search lays the others") {
		t.Errorf("it does not say what stays:\n%s", text)
	}
	s.set(waist("31"))
	s.until("the new waist", func(now live.Snapshot) bool { return now.Final && now.Version > end.Version })
	if _, text = s.get("/job/gown.toml/cloths"); !strings.Contains(text, "changed since gown.layout.json was kept") {
		t.Errorf("nothing is told of pieces that changed:\n%s", text)
	}
}

// A page that has not seen the last move moves nothing, and a file that somebody else wrote meanwhile stays.
func TestTwoHands(t *testing.T) {
	quickly(t)
	s := newSite(t)
	now := s.takes()
	p := now.Stretches[0][0].Now
	p.At[0] += 7000
	s.puts(now, 0, p)
	fields := url.Values{"version": {fmt.Sprint(now.Version)}, "stretch": {"0"}, "piece": {"1"}, "x": {"0"}, "y": {"0"},
		"turn": {"0"}}
	if _, status, text := s.hand("put", fields); status != http.StatusConflict ||
		!strings.Contains(text, "on another page") {
		t.Errorf("moved from an old page: %d\n%s", status, text)
	}
	name := filepath.Join(s.dir, "gown.layout.json")
	theirs := "{\"layout\": 1, \"cloths\": []}\n"
	if err := os.WriteFile(name, []byte(theirs), 0o644); err != nil {
		t.Fatal(err)
	}
	now = s.asks("", nil)
	q := now.Stretches[0][1].Now
	fields = url.Values{"version": {fmt.Sprint(now.Version)}, "stretch": {"0"}, "piece": {"1"},
		"x": {fmt.Sprint(q.At[0] + 9000)},
		"y": {fmt.Sprint(q.At[1])}, "turn": {fmt.Sprint(q.Turn)}, "mirrored": {fmt.Sprint(q.Mirrored)}}
	if _, status, text := s.hand("put", fields); status != http.StatusConflict ||
		!strings.Contains(text, "somebody else") {
		t.Errorf("put over what somebody else wrote: %d\n%s", status, text)
	}
	if text, err := os.ReadFile(name); err != nil || string(text) != theirs {
		t.Errorf("what somebody else wrote is now %q, %v", text, err)
	}
	if err := os.WriteFile(name, []byte("a shopping list"), 0o644); err != nil {
		t.Fatal(err)
	}
	s.until("an end", laid)
	if _, status, text := s.hand("take", nil); status != http.StatusUnprocessableEntity ||
		!strings.Contains(text, "is no layout") {
		t.Errorf("taken in hand beside a file that is no layout: %d\n%s", status, text)
	}
	if text, _ := os.ReadFile(name); string(text) != "a shopping list" {
		t.Errorf("what is no layout is now %q", text)
	}
}

// Whatever is sent, the answer is a sentence.
func TestHandsThatAskForNonsense(t *testing.T) {
	quickly(t)
	s := newSite(t)
	s.takes()
	for _, fields := range []url.Values{
		{"cloth": {"9"}}, {"cloth": {"-1"}}, {"cloth": {"x"}},
		{"version": {"0"}, "stretch": {"7"}, "piece": {"0"}}, {"version": {"0"}, "stretch": {"0"}, "piece": {"99"}},
		{"version": {"0"}, "stretch": {"0"}, "piece": {"0"}, "x": {"NaN"}, "y": {"0"}, "turn": {"0"}},
		{"version": {"0"}, "stretch": {"0"}, "piece": {"0"}, "x": {"1e300"}, "y": {"0"}, "turn": {"0"}},
		{"version": {"0"}, "stretch": {"0"}, "piece": {"0"}, "x": {"0"}, "y": {"0"}, "turn": {"0"}, "known": {"{"}},
	} {
		for _, what := range []string{"put", "slide"} {
			if what == "put" && fields.Has("known") {
				continue
			}
			if _, status, text := s.hand(what, fields); status < 400 || status >= 500 ||
				!strings.Contains(text, "<strong>") {
				t.Errorf("%s %v: %d\n%s", what, fields, status, text)
			}
		}
	}
	odd := url.Values{"version": {"0"}, "stretch": {"0"}, "piece": {"0"}, "x": {"0"}, "y": {"0"}, "turn": {"37"},
		"known": {"[]"}}
	s.asks("put", odd)
	if p := s.asks("", nil).Stretches[0][0]; len(p.Wrong) == 0 {
		t.Errorf("a piece turned by 37 degrees is told %+v", p)
	}
}

// Random moves, pins and steps back and forth: the pieces that are told as right pass the judge together, and
// all steps taken back the cloth lies as at first.
func TestRandomHands(t *testing.T) {
	quickly(t)
	s := newSite(t)
	first := s.takes()
	rapid.Check(t, func(t *rapid.T) {
		now := s.asks("", nil)
		for range rapid.IntRange(1, 6).Draw(t, "moves") {
			k := rapid.IntRange(0, len(now.Stretches[0])-1).Draw(t, "piece")
			p := now.Stretches[0][k]
			switch rapid.SampledFrom([]string{"put", "put", "pin", "back", "forth"}).Draw(t, "what") {
			case "put":
				way := rapid.SampledFrom(p.Ways).Draw(t, "way")
				way.At = [2]float64{rapid.Float64Range(-200, 4000).Draw(t, "x"),
					rapid.Float64Range(-200, 1600).Draw(t, "y")}
				now = s.puts(now, k, way)
			case "pin":
				now = s.asks("pin", url.Values{"version": {fmt.Sprint(now.Version)}, "stretch": {"0"},
					"piece": {fmt.Sprint(k)}})
			case "back":
				now = s.asks("back", nil)
			case "forth":
				now = s.asks("forth", nil)
			}
			s.judged(t, now)
		}
	})
	now := s.asks("", nil)
	for now.Back {
		now = s.asks("back", nil)
	}
	if w := s.server.open["gown.toml"].hand.work["satin"]; w != nil && len(w.past) == 0 && now.Version < mostSteps {
		for k, p := range now.Stretches[0] {
			if p.Now != first.Stretches[0][k].Now || p.Pinned != first.Stretches[0][k].Pinned {
				t.Errorf("%s lies at %v, at first at %v", p.Name, p.Now, first.Stretches[0][k].Now)
			}
		}
	}
}

// judged fails when the judge of the whole says other things than the page.
func (s *site) judged(t *rapid.T, now handShown) {
	l := s.desk().Snapshot().Cloths[0].Picture.Laid()
	p := l.Task.Stretches[0].Problem
	p.Pins = nil
	var all []nest.Placed
	wrong := false
	w := s.server.open["gown.toml"].hand.work
	for _, one := range w {
		for k, piece := range one.now[0] {
			at := now.Stretches[0][k].Now
			all = append(all, nest.Placed{Piece: piece.Piece, Copy: piece.Copy, At: at.At, Turn: at.Turn,
				Mirrored: at.Mirrored})
			wrong = wrong || len(now.Stretches[0][k].Wrong) > 0
		}
	}
	if err := nest.Verify(p, nest.Layout{Placed: all, Length: p.Used(all)}); (err != nil) != wrong {
		t.Fatalf("the judge says %v, the page that something is wrong: %v", err, wrong)
	}
	if f := s.onDisk(); f == nil {
		t.Fatal("nothing is kept")
	}
}
