package page

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/pelletier/go-toml/v2"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/form"
	"yardlay/cmd/yardlay/internal/job"
)

// somebody edits a job at random: what they type mostly holds, and sometimes does not.
type somebody struct {
	*site
	dice *rand.Rand
	step int
}

func pick[T any](s *somebody, from ...T) T { return from[s.dice.IntN(len(from))] }

// cleverly changes a text the way the form does; unchanged where that cannot be done.
func (s *somebody) cleverly(src []byte) []byte {
	part, cloth := edit.Of("part").Item(s.dice.IntN(3)), edit.Of("cloth").Item(s.dice.IntN(2))
	inches := fmt.Sprintf("%d %d/8", 20+s.dice.IntN(25), 1+s.dice.IntN(7))
	var out []byte
	var err error
	switch s.dice.IntN(9) {
	case 0, 1:
		out, err = form.Set(src, edit.Of("body", "waist_girth"), pick(s, inches, inches, "70 cm", "no length", ""))
	case 2:
		out, err = form.Set(src, edit.Of("part").Item(0).Key("length"), pick(s, inches, "90 cm", "-4"))
	case 3:
		out, err = form.Set(src, edit.Of("part").Item(0).Key("gores"), pick(s, "4", "5", "6", "8", "900"))
	case 4:
		out, err = form.Set(src, cloth.Key("width"), pick(s, "45", "54", "58", "150 cm", "1"))
	case 5:
		out, err = form.Set(src, cloth.Key("nap"), pick(s, "one-way", "two-way", "all-way", "sideways"))
	case 6:
		out, err = form.AddPart(src, pick(s, "rectangle", "waistband", "flounce", "gored-skirt"))
	case 7:
		out, err = form.Remove(src, part)
	case 8:
		out, err = form.Move(src, edit.Of("part"), s.dice.IntN(2), s.dice.IntN(2))
	}
	if err != nil {
		return src
	}
	return out
}

func (s *somebody) holds() bool {
	s.server.mu.Lock()
	defer s.server.mu.Unlock()
	o := s.server.open["gown.toml"]
	return o == nil || o.State().Holds
}

// act does one thing: mostly types, and sometimes goes a step back or forth, saves, or
// writes the file by another program.
func (s *somebody) act() {
	s.step++
	file := filepath.Join(s.dir, "gown.toml")
	what := s.dice.IntN(12)
	if !s.holds() && s.dice.IntN(3) > 0 {
		what = 0 // most mistakes are taken back
	}
	switch what {
	case 0:
		s.post("/job/gown.toml/undo", nil)
	case 1:
		s.post("/job/gown.toml/redo", nil)
	case 2:
		s.post("/job/gown.toml/save", nil)
	case 3:
		if s.dice.IntN(4) == 0 {
			if err := os.WriteFile(file, s.cleverly([]byte(s.disk())), 0o644); err != nil {
				s.Fatal(err)
			}
		}
		s.post("/job/gown.toml/"+pick(s, "mine", "theirs"), nil)
	case 4, 5, 6: // in the form
		_, shown := s.get("/job/gown.toml/text")
		path := pick(s, edit.Of("body", "hip_girth"), edit.Of("title"), edit.Of("allowance", "hem"),
			edit.Of("part").Item(s.dice.IntN(3)).Key("name"), edit.Of("cloth").Item(s.dice.IntN(2)).Key("price"))
		status, text := s.post("/job/gown.toml/measures/set", url.Values{"version": {versionIn(s.T, shown)},
			"path": {path.String()}, "value": {pick(s, "38", "1 1/2", "12.50/yd", "over skirt", "it's \"so\"", "")}})
		if status != http.StatusOK && status != http.StatusUnprocessableEntity && status != http.StatusConflict {
			s.Fatalf("step %d: %d\n%s", s.step, status, text)
		}
	default:
		_, shown := s.get("/job/gown.toml/text")
		text := s.cleverly([]byte(s.now()))
		if s.step%40 == 0 { // or it would become a gown without a part, or of many
			text = job.Starter()
		}
		s.post("/job/gown.toml/text/set", url.Values{"version": {versionIn(s.T, shown)}, "text": {string(text)}})
	}
	for where, text := range map[string]string{"the page": s.now(), "the file": s.disk()} {
		var any map[string]any
		if err := toml.Unmarshal([]byte(text), &any); err != nil {
			s.Fatalf("after step %d %s is no TOML: %v\n%s", s.step, where, err, text)
		}
	}
	if status, text := s.get(jobPath("gown.toml", pick(s, s.server.views...).path)); status != http.StatusOK {
		s.Fatalf("after step %d: %d\n%s", s.step, status, text)
	}
}

// holding is what the program holds once nothing is under way, MB: of the heap, and of steps
// of it that run.
func holding() (heap float64, running int) {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / (1 << 20), runtime.NumGoroutine()
}

// Edits at random, one after the other, with a page that listens and cloths that are laid
// all the while: page and file stay TOML, and no more is held at the end than after the
// first fifth. YARDLAY_LONG makes a thousand of them, and YARDLAY_SOAK=1h spreads them
// over so long.
func TestSoak(t *testing.T) {
	edits, over := often.Full(12, 25), time.Duration(0)
	if os.Getenv("YARDLAY_LONG") != "" {
		edits = 1000
	}
	if text := os.Getenv("YARDLAY_SOAK"); text != "" {
		var err error
		if over, err = time.ParseDuration(text); err != nil {
			t.Fatal(err)
		}
		edits = 1000
	}
	s := &somebody{site: newSite(t), dice: rand.New(rand.NewPCG(1, 2))}
	r, err := http.NewRequest("GET", s.URL+"/job/gown.toml/events", nil)
	if err != nil {
		t.Fatal(err)
	}
	stream, err := s.browser.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Body.Close()
	var told bytes.Buffer
	heard := make(chan struct{})
	go func() {
		defer close(heard)
		io.Copy(&told, io.LimitReader(stream.Body, 1<<24))
	}()
	first, running, held := 0.0, 0, 0
	for n := range edits {
		s.act()
		if s.holds() {
			held++
		}
		time.Sleep(over / time.Duration(edits))
		if n == edits/5 {
			first, running = holding()
		}
		if n%(1+edits/10) == 0 {
			heap, routines := holding()
			t.Logf("after %d edits %.1f MB in %d goroutines, peak of the process %.0f MB", n+1, heap, routines, peak())
		}
	}
	last, routines := holding()
	const more = 24 // MB: layings and steps that are remembered, up to their limits
	if last > first+more || routines > running+40 {
		t.Errorf("%.1f MB in %d goroutines are held, %.1f in %d after the first fifth", last, routines, first, running)
	}
	if held < edits/2 {
		t.Errorf("the job held after %d of %d edits: there was little to lay", held, edits)
	}
	s.server.Close()
	<-heard
	if n := strings.Count(told.String(), "event: document"); n < edits/3 {
		t.Errorf("the page was told of %d versions after %d edits", n, edits)
	}
}
