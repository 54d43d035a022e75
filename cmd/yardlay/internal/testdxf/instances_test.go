package testdxf_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"yardlay/benchmarks/instance"
)

// instances returns the published instances by the names of their files.
func instances(t *testing.T) map[string]instance.Instance {
	files, err := filepath.Glob("../../../../testdata/instances/*.geojson")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d instances, %v", len(files), err)
	}
	all := map[string]instance.Instance{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if all[name], err = instance.Read(bytes.NewReader(text)); err != nil {
			t.Fatal(err)
		}
	}
	return all
}
