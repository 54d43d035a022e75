package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
)

// lace is a job of six copies of an outline of 5,000 corners.
func lace(t *testing.T) string {
	t.Helper()
	const corners = 5000
	ring := make([][2]float64, 0, corners+1)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		r := 300 * (0.8 + 0.2*math.Cos(24*math.Pi*float64(i)/corners))
		ring = append(ring, [2]float64{math.Round(r*cos*1000) / 1000, math.Round(r*sin*1000) / 1000})
	}
	outline, err := json.Marshal(map[string]any{
		"type": "Feature", "properties": map[string]any{"name": "lace"},
		"geometry": map[string]any{"type": "Polygon", "coordinates": [][][2]float64{append(ring, ring[0])}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return jobOf(t, `unit = "cm"
allowance = { seam = 1, hem = 1 }
cloth = [ { id = "silk", width = 150, nap = "two-way" } ]
part = [ { name = "lace", draft = "outline", file = "lace.geojson", cloth = "silk", count = 6 } ]
`, "lace.geojson", outline)
}

// wide is a job of four parts, each cut from 64 cloths.
func wide(t *testing.T) string {
	t.Helper()
	text, ids := "unit = \"cm\"\nallowance = { seam = 1, hem = 2 }\n", []string{}
	for c := range 64 {
		ids = append(ids, fmt.Sprintf("%q", fmt.Sprint("cloth-", c)))
		text += fmt.Sprintf("[[cloth]]\nid = %s\nwidth = 150\n", ids[c])
	}
	for p := range 4 {
		text += fmt.Sprintf("[[part]]\nname = \"part %d\"\ndraft = \"rectangle\"\nwidth = %d\nlength = %d\ncount = "+
			"2\ncloth = [%s]\n",
			p, 23+7*p, 31+11*p, strings.Join(ids, ", "))
	}
	return jobOf(t, text, "", nil)
}

// jobOf writes a job into a folder of its own, with a file beside it if that has a name.
func jobOf(t *testing.T, text, beside string, data []byte) string {
	t.Helper()
	dir := t.TempDir()
	if beside != "" {
		if err := os.WriteFile(filepath.Join(dir, beside), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	name := filepath.Join(dir, "large.toml")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// Large jobs, too, are answered within 0.3 s of two processors: an outline of very many
// corners, and very many cloths.
func TestInterruptOfLargeJobs(t *testing.T) {
	const most = 600 * time.Millisecond
	both := []string{"lay", "compare"}
	for _, c := range []struct {
		name, job string
		commands  []string
	}{
		{"5,000 corners", lace(t), often.Full(both[1:], both)},
		{"64 cloths", wide(t), often.Full(both[:1], both)},
	} {
		for _, command := range c.commands {
			for _, after := range moments([]time.Duration{100, 400, 1000}) {
				t.Run(fmt.Sprintf("%s, %s after %d ms", c.name, command, after), func(t *testing.T) {
					p := start(t, command, c.job, "--effort", "thorough", "--out", filepath.Join(t.TempDir(), "out"))
					took := p.interruptAt(t, after*time.Millisecond)
					t.Logf("it went on for %v", took)
					if processor.Exceeds(took, most) {
						t.Errorf("it went on for %v", took)
					}
					early := strings.Contains(p.err.String(), "interrupted before there was anything to keep") ||
						p.ProcessState.ExitCode() == -1
					if !early && !p.ProcessState.Success() {
						t.Errorf("%v %s", p.ProcessState, &p.err)
					}
				})
			}
		}
	}
}
