package form

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/edit"
)

// A new name is followed by all that names the table, in one step, and by nothing else.
func TestNamesAreFollowed(t *testing.T) {
	const src = `unit = "in"
[[body]]
name = "alto"
waist_girth = 28
[[cloth]]
id = "satin"
width = 58
repeat = { along = 12 }
supplier = "mill"
offers = [ { supplier = "mill", price = "1.00/yd" } ]
[[cloth]]
id = "net"
title = "satin"
width = 58
[[part]]
name = "skirt"
cloth = ["satin", "net"]
lining = { cloth = "satin" }
bodies = "alto"
[[part]]
name = "band"
cloth = "satin"
sewn_to = "skirt"
[[match]]
cloth = "satin"
points = [ { piece = "alto skirt side gore" }, { piece = "skirt gore" }, { piece = "skirting gore" } ]
[[supplier]]
name = "mill"
`
	for _, c := range []struct{ path, now, want string }{
		{"cloth[0].id", "silk", `-id = "satin"+id = "silk"-cloth = ["satin", "net"]-lining = { cloth = "satin" }` +
			`+cloth = ["silk", "net"]+lining = { cloth = "silk" }` +
			`-cloth = "satin"+cloth = "silk"-cloth = "satin"+cloth = "silk"`},
		{"part[0].name", "overskirt", `-name = "skirt"+name = "overskirt"-sewn_to = "skirt"+sewn_to = "overskirt"` +
			`-points = [ { piece = "alto skirt side gore" }, { piece = "skirt gore" }, { piece = "skirting gore" } ]` +
			`+points = [ { piece = "alto overskirt side gore" }, { piece = "overskirt gore" }, { piece = "skirting gore" } ]`},
		{"supplier[0].name", "loom", `-supplier = "mill"-offers = [ { supplier = "mill", price = "1.00/yd" } ]` +
			`+supplier = "loom"+offers = [ { supplier = "loom", price = "1.00/yd" } ]-name = "mill"+name = "loom"`},
		{"cloth[1].id", "satin", `-id = "net"+id = "satin"`}, // two of a name: nobody knows which is meant
	} {
		at, err := edit.ParsePath(c.path)
		if err != nil {
			t.Fatal(err)
		}
		out, err := Set([]byte(src), at, c.now)
		if err != nil {
			t.Fatal(err)
		}
		if got := changedLines(src, string(out)); got != c.want {
			t.Errorf("%s = %s (-want +got):\n%s", c.path, c.now, cmp.Diff(c.want, got))
		}
	}
}

// changedLines lists lines that differ, of texts with as many lines.
func changedLines(a, b string) string {
	var gone, come, all strings.Builder
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] == y[i] {
			all.WriteString(gone.String() + come.String())
			gone.Reset()
			come.Reset()
			continue
		}
		gone.WriteString("-" + x[i])
		come.WriteString("+" + y[i])
	}
	return all.String() + gone.String() + come.String()
}
