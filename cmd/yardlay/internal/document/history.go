package document

import "time"

// history is the steps that a text has gone through, each whole: a job is a few
// kilobytes long.
type history struct {
	steps []step
	at    int // of the present one
}

type step struct {
	text  []byte
	field string    // that was typed into; "" where it was not typed
	last  time.Time // it was added to
}

// What is remembered: so many steps, of so many bytes in all.
const mostSteps, mostRemembered = 500, 16 << 20

// pause ends a step of typing: long enough to think about a figure.
const pause = 2 * time.Second

func (h *history) text() []byte { return h.steps[h.at].text }

// push adds a step after the present one; what had been undone is forgotten. Typing
// on in the same field adds to the step.
func (h *history) push(text []byte, field string, now time.Time) {
	h.steps = h.steps[:min(len(h.steps), h.at+1)]
	s := step{text, field, now}
	if n := len(h.steps); n > 1 && field != "" && h.steps[n-1].field == field && now.Sub(h.steps[n-1].last) < pause {
		h.steps[n-1] = s
		return
	}
	h.steps = append(h.steps, s)
	h.forget()
	h.at = len(h.steps) - 1
}

// forget drops the oldest steps beyond what is remembered, never the present and the
// one before.
func (h *history) forget() {
	size := 0
	for _, s := range h.steps {
		size += len(s.text)
	}
	drop := 0
	for len(h.steps)-drop > 2 && (len(h.steps)-drop > mostSteps || size > mostRemembered) {
		size -= len(h.steps[drop].text)
		drop++
	}
	h.steps = append([]step(nil), h.steps[drop:]...)
}

// settle ends a step of typing: what follows is one of its own.
func (h *history) settle() { h.steps[h.at].field = "" }

func (h *history) can(by int) bool { return h.at+by >= 0 && h.at+by < len(h.steps) }

// move goes so many steps back or forth. Typing after that begins a step of its own.
func (h *history) move(by int) bool {
	if !h.can(by) {
		return false
	}
	h.at += by
	h.settle()
	return true
}
