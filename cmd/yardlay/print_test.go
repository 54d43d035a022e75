package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// An outline of more corners than chalk is for is refused where the cloth stands, with what
// helps, and nothing is written.
func TestChalkRefusesAComb(t *testing.T) {
	dir := t.TempDir()
	var ring strings.Builder
	for i := range 201 {
		x := (201 - i) * 9
		fmt.Fprintf(&ring, "[%d,50],[%d,90],[%d,50],", x, x-3, x-6)
	}
	comb := `{"type":"Polygon","coordinates":[[[0,0],[1809,0],` + ring.String() + `[0,50],[0,0]]]}`
	src := "unit = \"cm\"\n[allowance]\nseam = 0\nhem = 0\n[[cloth]]\nid = \"satin\"\nwidth = 250\n[[part]]\n" +
		"name = \"collar\"\ndraft = \"outline\"\ncloth = \"satin\"\nfile = \"comb.geojson\"\ndrawn = \"cut\"\n"
	for name, text := range map[string]string{"comb.geojson": comb, "comb.toml": src} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var out, said strings.Builder
	code := run([]string{"print", filepath.Join(dir, "comb.toml"), "--chalk", "--effort", "quick", "--out",
		filepath.Join(dir, "made")}, strings.NewReader(""), &out, &said)
	if code != exitFailed || !strings.Contains(said.String(), "comb.toml:6:6: piece \"collar outline 1\" is not for "+
		"tape and chalk: it takes more than 400 points\n  hint: print it on paper") {
		t.Errorf("exit %d: %s", code, &said)
	}
	if files, _ := filepath.Glob(filepath.Join(dir, "made", "*.*")); len(files) > 0 {
		t.Errorf("wrote %v", files)
	}
}
