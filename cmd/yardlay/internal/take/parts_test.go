package take

import (
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"pgregory.net/rapid"

	"yardlay/shapes/outline"
)

// Whatever pieces and files are called, the tables are TOML that has the names again, each part
// with a name of its own.
func TestTablesHoldAnyName(t *testing.T) {
	names := rapid.StringMatching(`[a-b"\\ é'\x01]{1,4}`)
	rapid.Check(t, func(t *rapid.T) {
		f := &Found{File: "drawn.svg"}
		for i, name := range rapid.SliceOfN(names, 1, 5).Draw(t, "names") {
			s := outline.Shape{Number: i + 1, Name: name}
			f.Pieces = append(f.Pieces, Piece{Shape: s, Copies: Copies{Count: 2, Pair: true}})
		}
		parts := f.Parts()
		text, err := f.Tables(parts, "drawn.svg")
		if err != nil {
			t.Fatal(err)
		}
		var read struct {
			Part []struct {
				Name   string
				Shapes []struct {
					Name   string
					Number int
				}
			}
		}
		if err := toml.Unmarshal([]byte(text), &read); err != nil || len(read.Part) != len(parts) {
			t.Fatalf("%v in\n%s", err, text)
		}
		seen := map[string]bool{}
		for i, p := range read.Part {
			if seen[p.Name] {
				t.Fatalf("two parts %q", p.Name)
			}
			seen[p.Name] = true
			for _, s := range p.Shapes {
				if s.Name != "" && s.Name != f.Pieces[i].Name || s.Number != 0 && s.Number != i+1 {
					t.Fatalf("part %d cuts %+v", i, s)
				}
			}
		}
		if strings.Contains(text, "\x01") {
			t.Fatal("a control character stands in it")
		}
	})
}
