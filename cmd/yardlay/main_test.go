package main

import (
	"flag"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what commands print into the scripts that compare it")

// TestMain lets the scripts run the program by its name.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"yardlay": main})
}

// TestScripts runs the command lines of testdata/script. $JOBS is the folder
// of the jobs that come with the program.
func TestScripts(t *testing.T) {
	jobs, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("testdata", "script"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Setup: func(env *testscript.Env) error {
			env.Setenv("JOBS", jobs)
			return nil
		},
	})
}
