package job

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/strict"
)

// bigRoom is a book of so many jobs and leftovers, every second one an outline.
func bigRoom(jobs, leftovers int) string {
	var b strings.Builder
	b.WriteString(aRoom)
	for i := range leftovers {
		fmt.Fprintf(&b, "[[leftover]]\nname = \"left %d\"\ncloth = \"moon-satin\"\non = 2026-11-29\nlot = \"A\"\n", i)
		if i%2 == 0 {
			b.WriteString("length = \"40\"\nwidth = \"30\"\n")
			continue
		}
		var corners []string
		for k := range 40 {
			sin, cos := math.Sincos(float64(k) / 40 * 2 * math.Pi)
			corners = append(corners, fmt.Sprintf("[%.0f, %.0f]", 600+500*cos, 600+500*sin))
		}
		fmt.Fprintf(&b, "outline = [%s]\n", strings.Join(corners, ", "))
	}
	_, gown, _ := strings.Cut(aRoom, "[[gown]]")
	for i := range jobs {
		b.WriteString("[[gown]]" + strings.Replace(gown, "lantern", fmt.Sprint("gown ", i), 1))
	}
	return b.String()
}

// A hundred jobs and five hundred leftovers are read at once, as every command in the room
// does: well under the 0.2 s that a maker notices.
func TestABigWorkroomIsReadAtOnce(t *testing.T) {
	src := []byte(bigRoom(100, 500))
	const limit = 200 * time.Millisecond
	took := processor.Least(limit, func() {
		if _, err := ReadWorkroom(WorkroomFile, src); err != nil {
			t.Fatal(err)
		}
	})
	if t.Logf("%d bytes in %v", len(src), took); processor.Exceeds(took, limit) {
		t.Errorf("reading %d bytes took %v", len(src), took)
	}
}

func FuzzReadWorkroom(f *testing.F) {
	f.Add([]byte(aRoom))
	f.Add([]byte(bigRoom(1, 2)))
	f.Fuzz(func(t *testing.T, src []byte) {
		w, err := ReadWorkroom(WorkroomFile, src)
		if err != nil {
			var wrong strict.Errors
			if !errors.As(err, &wrong) || len(wrong) == 0 {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		for _, l := range w.Leftovers {
			if !(l.Length > 0) || l.Width < 0 {
				t.Errorf("%+v", l)
			}
		}
	})
}
