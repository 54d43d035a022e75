package processor

import (
	"testing"
	"time"
)

// Waiting takes no processor time, work does; the reference work is the same at any time.
func TestTimeIsThatOfWork(t *testing.T) {
	began := Time()
	time.Sleep(20 * time.Millisecond)
	waited := Time() - began
	began = Time()
	for range 5 {
		if got := reference(); got != reference() || got == 0 {
			t.Errorf("the reference work comes to %d", got)
		}
	}
	worked := Time() - began
	t.Logf("waiting took %v, ten rounds of reference work %v", waited, worked)
	if worked < quiet || waited > worked {
		t.Errorf("waiting took %v, work %v", waited, worked)
	}
}

// A limit holds within what it says, and is exceeded by what no slow machine explains.
func TestExceeds(t *testing.T) {
	if Exceeds(time.Second, time.Second) {
		t.Error("a second exceeds itself")
	}
	if !Exceeds(1000*time.Hour, time.Second) {
		t.Error("any machine may take any time")
	}
	runs := 0
	Least(time.Hour, func() { runs++ })
	if runs != 1 {
		t.Errorf("%d runs within a limit", runs)
	}
	if took := Least(0, func() { runs++; reference() }); runs != 4 || took <= 0 {
		t.Errorf("%d runs beyond a limit, %v", runs-1, took)
	}
}
