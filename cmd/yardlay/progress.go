package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// progress is the one line on a terminal that says how long a command has been at
// it and how far it is, from the start to the end. On anything else, and nil, it
// says nothing.
type progress struct {
	out   io.Writer // nil: silent
	began time.Time

	mu    sync.Mutex
	text  string
	keeps bool // an interrupt keeps a layout
	shown bool
	over  chan struct{} // closed when it is done; nil before the first line
}

func newProgress(out io.Writer, quiet bool) *progress {
	if quiet || !isTerminal(out) {
		return nil
	}
	return &progress{out: out, began: time.Now()}
}

func isTerminal(out io.Writer) bool {
	f, ok := out.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// clearLine goes to the start of the line and wipes what stands there (ECMA-48
// "erase in line").
const clearLine = "\r\x1b[K"

// tick is how often the line is drawn anew, so that it is seen to live.
const tick = 500 * time.Millisecond

// patience is after how long the line says what ends it.
const patience = 10 * time.Second

// stage says what the command does now, with nothing yet that an interrupt would keep.
func (p *progress) stage(text string) { p.tell(text, false) }

// tell says what the command does now, and whether an interrupt keeps a layout.
func (p *progress) tell(text string, keeps bool) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.text, p.keeps = text, keeps
	p.draw()
	if p.over == nil {
		p.over = make(chan struct{})
		go p.live(p.over)
	}
}

// live draws the line from time to time, until it is over.
func (p *progress) live(over chan struct{}) {
	beat := time.NewTicker(tick)
	defer beat.Stop()
	for {
		select {
		case <-over:
			return
		case <-beat.C:
			p.mu.Lock()
			if p.over == over {
				p.draw()
			}
			p.mu.Unlock()
		}
	}
}

// draw prints the line as it stands.
func (p *progress) draw() {
	fmt.Fprint(p.out, clearLine, p.line(time.Since(p.began), columns(p.out)-1))
	p.shown = true
}

// line is what stands on the line after some time, cut to the room there is.
func (p *progress) line(after time.Duration, room int) string {
	line := []rune(fmt.Sprintf("%3.0f s  %s", after.Seconds(), p.text))
	if end := []rune("  Ctrl-C keeps this"); p.keeps && after >= patience && len(line)+len(end) <= room {
		line = append(line, end...)
	}
	return string(line[:min(len(line), room)])
}

// show returns what plan.Options.Progress calls, nil when silent.
func (p *progress) show(unit measure.Unit) func(plan.Progress) {
	if p == nil {
		return nil
	}
	return func(now plan.Progress) {
		cloth := now.Cloth
		if now.Of > 0 {
			cloth = fmt.Sprintf("%d/%d %s", now.Finished, now.Of, cloth)
		}
		switch {
		case now.Cloth == "" && now.Of > 0:
			p.stage(fmt.Sprintf("%s %d/%d", now.Phase, now.Finished+1, now.Of))
		case now.Cloth == "":
			p.stage(now.Phase)
		case now.Length > 0:
			p.tell(fmt.Sprintf("%-16.16s %3.0f %%  %s, %.1f %% filled", cloth,
				100*now.Done, measure.FormatUp(now.Length, unit), 100*now.Utilisation), true)
		case now.Laid > 0:
			p.stage(fmt.Sprintf("%-16.16s %s: %d of %d pieces laid", cloth, now.Phase, now.Laid, now.Pieces))
		default:
			p.stage(fmt.Sprintf("%-16.16s %s", cloth, now.Phase))
		}
	}
}

// clear wipes the line for good, before anything else is printed.
func (p *progress) clear() {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.over != nil {
		close(p.over)
		p.over = nil
	}
	if p.shown {
		fmt.Fprint(p.out, clearLine)
		p.shown = false
	}
}
