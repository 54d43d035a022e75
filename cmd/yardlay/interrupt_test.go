package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
)

// jobs is the folder of the jobs that come with the program.
var jobs = filepath.Join("..", "..", "testdata")

// process is the program while it runs.
type process struct {
	*exec.Cmd
	out, err bytes.Buffer
}

func start(t *testing.T, args ...string) *process {
	t.Helper()
	p := &process{Cmd: exec.Command(asProgram(t), args...)}
	p.Stdout, p.Stderr = &p.out, &p.err
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(hangs, func() { p.Process.Kill() })
	t.Cleanup(func() { late.Stop(); p.Process.Kill() })
	return p
}

// hangs is longer than anything takes on a machine that does much else: who takes that long hangs.
const hangs = 10 * time.Minute

// interruptAt interrupts the program once it has worked for some time.
func (p *process) interruptAt(t *testing.T, worked time.Duration) time.Duration {
	t.Helper()
	p.await(worked)
	return p.interrupt(t)
}

// await waits until the program has worked for some time: processor time where the system
// tells, to its 10 ms, else by the clock.
func (p *process) await(worked time.Duration) {
	for until := time.Now().Add(worked); time.Since(until) < hangs; time.Sleep(time.Millisecond) {
		had := processorTime(p.Process.Pid)
		if had > worked-10*time.Millisecond || had < 0 && time.Now().After(until) {
			return
		}
	}
}

// interrupt sends an interrupt and returns how long the program goes
// on, in seconds of one processor where the system tells, else by the clock: other
// programs may keep it from going on.
func (p *process) interrupt(t *testing.T) time.Duration {
	t.Helper()
	had, began := processorTime(p.Process.Pid), time.Now()
	if err := p.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	p.Wait()
	if had < 0 {
		return time.Since(began)
	}
	return p.ProcessState.UserTime() + p.ProcessState.SystemTime() - had
}

// An interrupt while the demo is laid at the greatest effort, which takes far
// longer, ends the program soon with a layout for every cloth, and it says so.
func TestInterruptKeepsTheBestLayout(t *testing.T) {
	dir := t.TempDir()
	p := start(t, "lay", filepath.Join(jobs, "lantern-gown.toml"), "--effort", "thorough", "--exact", "--out",
		filepath.Join(dir, "out"))
	p.interruptAt(t, often.Full(150*time.Millisecond, 600*time.Millisecond))
	if !p.ProcessState.Success() || !strings.Contains(p.out.String(),
		"Interrupted: the best layout so far is kept for satin") {
		t.Errorf("%v: it does not say that it was interrupted:\n%s%s", p.ProcessState, &p.out, &p.err)
	}
	for _, name := range []string{"satin.svg", "lining.geojson", "net.svg", "fusible.svg", "lay.json"} {
		if _, err := os.Stat(filepath.Join(dir, "out", name)); err != nil {
			t.Error(err)
		}
	}
}

// withLeftovers is the demo of a chorus with leftovers of two of its cloths.
func withLeftovers(t *testing.T) string {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(jobs, "chorus-gown.toml"))
	if err != nil {
		t.Fatal(err)
	}
	have := "have = [ { name = \"end of a bolt\", length = \"50\", width = \"40\" }, { name = \"remnant\", length = " +
		"\"30\", width = \"30\" } ]\n"
	text := strings.ReplaceAll(string(src), "[[cloth]]\n", "[[cloth]]\n"+have)
	name := filepath.Join(t.TempDir(), "chorus.toml")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// An interrupt is answered within 0.3 s of two processors, at any moment, in every
// command that searches; what there is by then is printed and written.
func TestInterruptIsAnsweredSoon(t *testing.T) {
	chorus, shelf := filepath.Join(jobs, "chorus-gown.toml"), withLeftovers(t)
	const most = 600 * time.Millisecond
	for _, c := range []struct {
		name  string
		args  []string
		after []time.Duration // in ms
	}{
		{"lay", []string{"lay", chorus, "--effort", "thorough", "--exact"}, []time.Duration{1, 100, 400, 2000}},
		{"lay with leftovers", []string{"lay", shelf, "--effort", "thorough", "--exact"},
			[]time.Duration{150, 700, 1500}},
		{"compare", []string{"compare", chorus, "--effort", "thorough"}, []time.Duration{100, 1000, 2000}},
		{"compare with leftovers", []string{"compare", shelf, "--effort", "thorough"},
			[]time.Duration{150, 400, 700, 1500}},
		{"print", []string{"print", chorus, "--dxf", "--svg", "--markers", "--effort", "thorough"},
			[]time.Duration{1, 150, 400, 700, 1500}},
		{"chalk", []string{"print", chorus, "--chalk", "--effort", "thorough"}, []time.Duration{1, 150, 400, 1500}},
		// which no proof ends before
		{"quote", []string{"quote", chorus, "--effort", "thorough", "--what-if"},
			[]time.Duration{150, 400, 700, 2000}},
		{"several gowns", []string{"lay", chorus, "--gowns", "3", "--effort", "thorough"}, []time.Duration{150, 400, 1000}},
	} {
		for _, after := range moments(c.after) {
			t.Run(fmt.Sprintf("%s after %d ms", c.name, after), func(t *testing.T) {
				dir := filepath.Join(t.TempDir(), "out")
				p := start(t, append(c.args, "--out", dir)...)
				took := p.interruptAt(t, after*time.Millisecond)
				t.Logf("it went on for %v", took)
				if processor.Exceeds(took, most) {
					t.Errorf("it went on for %v", took)
				}
				switch {
				case strings.Contains(p.err.String(), "interrupted before there was anything to keep") ||
					p.ProcessState.ExitCode() == -1:
					if _, err := os.Stat(dir); err == nil || after >= 400 {
						t.Errorf("%v %s", err, &p.err)
					}
				case !p.ProcessState.Success() || !strings.Contains(p.out.String(), "nterrupted") &&
					!strings.Contains(p.out.String(), "ended early"):
					t.Errorf("%v %s%s", p.ProcessState, &p.out, &p.err)
				default:
					if files, _ := os.ReadDir(dir); len(files) < 3 {
						t.Errorf("it wrote %v", files)
					}
				}
			})
		}
	}
}

// moments are those to interrupt a run at: while it reads and lays its first layouts, and
// later ones with YARDLAY_LONG=1, which .ci/run sets. TestInterruptKeepsTheBestLayout
// interrupts a search in any case.
func moments(all []time.Duration) []time.Duration {
	latest := time.Duration(often.Jobs(often.Full(100, 150), 2000))
	return slices.DeleteFunc(all, func(after time.Duration) bool { return after > latest })
}

// A second interrupt ends the program at once, here while nobody takes what it prints.
func TestSecondInterruptEndsAtOnce(t *testing.T) {
	c := exec.Command(asProgram(t), "lay", filepath.Join(jobs, "chorus-gown.toml"), "--effort", "thorough", "--exact",
		"--json", "--gowns", "5")
	out, err := c.StdoutPipe() // which holds less than it prints
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(hangs, func() { c.Process.Kill() })
	defer late.Stop()
	(&process{Cmd: c}).await(often.Full(time.Second/5, time.Second))
	c.Process.Signal(os.Interrupt)
	if _, err := io.ReadFull(out, make([]byte, 1)); err != nil { // from here on it waits for who takes the rest
		t.Fatal(err)
	}
	had := processorTime(c.Process.Pid)
	c.Process.Signal(os.Interrupt)
	state, err := c.Process.Wait()
	if err != nil {
		t.Fatal(err)
	}
	if took := state.UserTime() + state.SystemTime() - had; had >= 0 && processor.Exceeds(took, time.Second) {
		t.Errorf("it went on for %v", took)
	}
	if text, _ := io.ReadAll(out); bytes.HasSuffix(text, []byte("}\n")) || !late.Stop() {
		t.Errorf("%d bytes were printed before it ended", len(text))
	}
}

// Waiting for a job that does not come is ended by an interrupt, too.
func TestInterruptWhileItReads(t *testing.T) {
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	p := &process{Cmd: exec.Command(asProgram(t), "lay", "-")}
	p.Stdin, p.Stderr = in, &p.err
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(hangs, func() { p.Process.Kill() })
	defer late.Stop()
	// More than a pipe holds: it is written once some of it is read.
	if _, err := io.WriteString(out, strings.Repeat("# not the end yet\n", 1<<13)); err != nil {
		t.Fatal(err)
	}
	p.interrupt(t)
	if p.ProcessState.ExitCode() != exitFailed ||
		!strings.Contains(p.err.String(), "interrupted before there was anything to keep") {
		t.Errorf("%v %s", p.ProcessState, &p.err)
	}
}

// A ceiling keeps what there is by then, leftovers and all, and is kept to.
func TestCeilingWithLeftovers(t *testing.T) {
	for _, ceiling := range often.Full([]string{"1ns", "100ms"}, []string{"1ns", "100ms", "400ms"}) {
		dir := filepath.Join(t.TempDir(), "out")
		p := start(t, "lay", withLeftovers(t), "--effort", "thorough", "--exact", "--time", ceiling, "--out", dir)
		p.Wait()
		if !p.ProcessState.Success() || !strings.Contains(p.out.String(),
			"Out of time: the best layout so far is kept for satin") {
			t.Errorf("%s: %v %s%s", ceiling, p.ProcessState, &p.out, &p.err)
		}
		if _, err := os.Stat(filepath.Join(dir, "lay.json")); err != nil {
			t.Error(err)
		}
	}
}

// While one run is at the markers of a folder another is told so before it searches.
// One that is killed leaves the folder to the next.
func TestTwoRunsIntoAFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	chorus := filepath.Join(jobs, "chorus-gown.toml")
	first := start(t, "lay", chorus, "--effort", "thorough", "--exact", "--out", dir)
	for began := time.Now(); time.Since(began) < hangs; time.Sleep(5 * time.Millisecond) {
		if _, err := os.Stat(filepath.Join(dir, ".yardlay", "lay.lock")); err == nil {
			break
		}
	}
	second := start(t, "compare", chorus, "--out", dir)
	second.Wait()
	if second.ProcessState.ExitCode() != exitFailed ||
		!strings.Contains(second.err.String(), "another run is at the lay files in "+dir) {
		t.Errorf("%v %s", second.ProcessState, &second.err)
	}
	other := start(t, "draft", chorus, "--out", dir)
	if other.Wait() != nil {
		t.Errorf("another command: %s", &other.err)
	}
	first.Process.Kill()
	first.Wait()
	third := start(t, "lay", chorus, "--time", "100ms", "--out", dir)
	if third.Wait() != nil || !strings.Contains(third.out.String(), "Wrote into "+dir) {
		t.Errorf("%s%s", &third.out, &third.err)
	}
}
