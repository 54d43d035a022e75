// Package often says how often tests try what they try at random, and on how much: little in a run by hand, which is
// not to be waited for long, and more where the environment asks for it, as .ci/run does.
package often

import (
	"flag"
	"os"
	"runtime/debug"
	"testing"

	_ "pgregory.net/rapid" // declares the flag
)

// checks is how many random cases a property is tried on by default, in place of rapid's 100; garbage how much a run by
// hand lets its memory grow between two collections, percent, unless GOGC says so: a tenth less to wait for.
const (
	checks  = "10"
	garbage = 400
)

// A package that imports this one tries its properties on few cases, unless YARDLAY_LONG or YARDLAY_CHECKS is set:
// then on as many as YARDLAY_CHECKS or -rapid.checks says, or rapid by itself.
func init() {
	if ByHand() && os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbage)
	}
	n := os.Getenv("YARDLAY_CHECKS")
	if n == "" && !long() {
		n = checks
	}
	if n != "" {
		if err := flag.Set("rapid.checks", n); err != nil {
			panic("YARDLAY_CHECKS: " + err.Error())
		}
	}
}

// Enough is how often rapid's draws must have met something when of 100 it is n: of fewer draws half of their share
// less two, which is none of what is rare, for chance alone may miss that.
func Enough(n int) int {
	draws := flag.Lookup("rapid.checks").Value.(flag.Getter).Get().(int)
	if testing.Short() { // draws a fifth
		draws /= 5
	}
	if draws < 100 {
		return max(0, n*draws/200-2)
	}
	return n * draws / 100
}

// ByHand says whether this is a run by hand: nothing in the environment asks for more, as .ci/run does for every test.
func ByHand() bool {
	return os.Getenv("YARDLAY_CHECKS") == "" && os.Getenv("YARDLAY_OUTSIDE") == "" && !long()
}

// Full is what, or how much, a test takes: part of it in a run by hand, else all.
func Full[T any](part, all T) T {
	if ByHand() {
		return part
	}
	return all
}

func long() bool { return os.Getenv("YARDLAY_LONG") != "" }

// Seeds are those of random jobs: in a run by hand the ones given, which are soon laid and of every kind that the test
// is about, else the first n.
func Seeds(byHand []int, n int) []int {
	if ByHand() {
		return byHand
	}
	seeds := make([]int, n)
	for i := range seeds {
		seeds[i] = i
	}
	return seeds
}

// Jobs is what, or how much, a test takes: little by default, much with YARDLAY_LONG=1.
func Jobs[T any](few, many T) T {
	if long() {
		return many
	}
	return few
}
