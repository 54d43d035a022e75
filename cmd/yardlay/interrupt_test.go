package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// An interrupt while the demo is laid at the greatest effort, which takes far
// longer, ends the program soon with a layout for every cloth, and it says so.
func TestInterruptKeepsTheBestLayout(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.Symlink(self, filepath.Join(dir, "yardlay")); err != nil { // TestMain runs it by that name
		t.Fatal(err)
	}
	job := filepath.Join("..", "..", "testdata", "lantern-gown.toml")
	c := exec.Command(filepath.Join(dir, "yardlay"), "lay", job, "--effort", "thorough", "--exact", "--out", filepath.Join(dir, "out"))
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(30*time.Second, func() { c.Process.Kill() })
	defer late.Stop()
	time.Sleep(600 * time.Millisecond) // by then it listens; the search takes many seconds more
	if err := c.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if err := c.Wait(); err != nil {
		t.Fatalf("%v\n%s%s", err, &out, &errs)
	}
	if !strings.Contains(out.String(), "Interrupted: the best layout so far is kept for satin") {
		t.Errorf("it does not say that it was interrupted:\n%s%s", &out, &errs)
	}
	for _, name := range []string{"satin.svg", "lining.geojson", "net.svg", "fusible.svg", "lay.json"} {
		if _, err := os.Stat(filepath.Join(dir, "out", name)); err != nil {
			t.Error(err)
		}
	}
}
