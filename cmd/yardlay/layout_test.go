package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// TestKeptWhateverEndsTheRun: killed at any moment, lay --keep leaves the file as it was or as it
// was to be, and it reads.
func TestKeptWhateverEndsTheRun(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "layout.json")
	var texts [2][]byte
	var args [2][]string
	var took time.Duration // by a run that is left alone
	for i, size := range []float64{30, 31} {
		job := filepath.Join(dir, string(rune('a'+i))+".toml")
		src := testjobs.Panelled("width = 90", [3]float64{40, size, 4}, [3]float64{25, 20, 3})
		if err := os.WriteFile(job, []byte(src), 0o644); err != nil {
			t.Fatal(err)
		}
		args[i] = []string{"lay", job, "--effort", "quick", "-q", "--keep", name}
		began := time.Now()
		if p := start(t, args[i]...); p.Wait() != nil {
			t.Fatal(&p.err)
		}
		took = time.Since(began)
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts[i] = text
	}
	changed := 0
	for n := range often.Jobs(5, 12) {
		before, _ := os.ReadFile(name)
		p := start(t, args[n%2]...)
		time.Sleep(took*3/4 + rand.N(took/2))
		p.Process.Kill()
		p.Wait()
		after, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := kept.Read(name, after); err != nil {
			t.Fatal(err)
		}
		switch {
		case bytes.Equal(after, before):
		case bytes.Equal(after, texts[n%2]):
			changed++
		default:
			t.Fatalf("neither as it was nor as it was to be:\n%s", after)
		}
	}
	t.Logf("changed %d times", changed)
}

// TestInterruptKeepsALayoutAroundPins: the best layout so far is kept, with the pins where they
// were, and can be gone on from.
func TestInterruptKeepsALayoutAroundPins(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "layout.json")
	demo := filepath.Join(jobs, "lantern-gown.toml")
	if p := start(t, "lay", demo, "--time", "1ns", "-q", "--keep", name); p.Wait() != nil {
		t.Fatal(&p.err)
	}
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text = bytes.Replace(text, []byte(`"pinned": false`), []byte(`"pinned": true`), 3)
	if err := os.WriteFile(name, text, 0o644); err != nil {
		t.Fatal(err)
	}
	p := start(t, "lay", demo, "--effort", "thorough", "--exact", "--from", name, "--keep", name)
	p.interruptAt(t, often.Full(150*time.Millisecond, 600*time.Millisecond))
	if !p.ProcessState.Success() || !strings.Contains(p.out.String(), "Interrupted") ||
		!strings.Contains(p.out.String(), "Kept the layout in") {
		t.Fatalf("%v\n%s%s", p.ProcessState, &p.out, &p.err)
	}
	after, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		if strings.Contains(line, `"pinned": true`) && !bytes.Contains(after, []byte(strings.TrimSpace(line))) {
			t.Errorf("moved: %s", line)
		}
	}
	if p := start(t, "lay", demo, "--time", "1ns", "--from", name); p.Wait() != nil ||
		!strings.Contains(p.out.String(), "satin: goes on from") {
		t.Errorf("%s%s", &p.out, &p.err)
	}
}
