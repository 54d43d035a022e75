package draft

import (
	"flag"
	"os"
	"testing"
)

// TestMain has properties tried on fewer random cases than rapid's 100, unless -rapid.checks
// says how many or YARDLAY_LONG=1 asks for all, as .ci/run does.
func TestMain(m *testing.M) {
	flag.Parse()
	few := os.Getenv("YARDLAY_LONG") == ""
	flag.Visit(func(f *flag.Flag) { few = few && f.Name != "rapid.checks" })
	if few {
		flag.Set("rapid.checks", "40")
	}
	os.Exit(m.Run())
}
