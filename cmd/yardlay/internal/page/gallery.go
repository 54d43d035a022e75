package page

import (
	"fmt"
	"math"
	"net/http"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/form"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes"
)

// gallery is what the choice of a draft shows.
type gallery struct {
	Name    string
	Version int
	Drafts  []job.Section
}

// showGallery shows all drafts, one of which becomes a new part.
func showGallery(o *opened, w http.ResponseWriter, _ *http.Request) error {
	g := gallery{Name: o.Name(), Version: o.State().Version}
	for _, s := range job.Reference() {
		if s.Draft {
			g.Drafts = append(g.Drafts, s)
		}
	}
	b := o.server.bar(o, "measures")
	o.server.page(w, http.StatusOK, shell{Title: "Add a part: " + b.Title, Job: b, Main: "gallery", Data: g})
	return nil
}

// addPart adds a part of the draft that was taken, and shows it.
func addPart(o *opened, w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	draft := r.PostForm.Get("draft")
	now, err := o.apply(r, "", func(src []byte) ([]byte, error) { return form.AddPart(src, draft) })
	if err != nil {
		return invalidForm(err)
	}
	at := jobPath(o.Name(), "measures")
	if f, err := form.Of(now.Text, nil, nil); err == nil {
		at += "#" + lastPart(f)
	}
	http.Redirect(w, r, at, http.StatusSeeOther)
	return nil
}

// lastPart is the element of the last part.
func lastPart(f form.Form) string {
	for _, g := range f.Groups {
		if g.Name == "part" && len(g.Tables) > 0 {
			return "t-" + g.Tables[len(g.Tables)-1].Path.String()
		}
	}
	return ""
}

// draftPicture sends the picture of a draft: the pieces of its example.
func draftPicture(_ *opened, w http.ResponseWriter, r *http.Request) error {
	svg, err := pictures.of(r.PathValue("draft"))
	if err != nil {
		return notFound("there is no such draft")
	}
	h := w.Header()
	h.Set("Content-Type", "image/svg+xml")
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'") // of the drawing itself
	h.Set("Cache-Control", "private, max-age=3600")
	w.Write(svg)
	return nil
}

// pictures are those of drafts that have been asked for.
var pictures drawn

type drawn struct{ known sync.Map }

// of draws the pieces of a draft's example, once.
func (d *drawn) of(draft string) ([]byte, error) {
	example, err := job.Example(draft)
	if err != nil {
		return nil, err
	}
	once, _ := d.known.LoadOrStore(draft, sync.OnceValues(func() ([]byte, error) { return drawExample(example) }))
	return once.(func() ([]byte, error))()
}

// drawExample draws the pieces of a job opened out, the cut line and the seam line of
// each, in rows that fill a card.
func drawExample(example *job.File) ([]byte, error) {
	spreads, err := plan.Draw(example.Job())
	if err != nil {
		return nil, err
	}
	var pieces []shapes.Piece
	area, longest := 0.0, 0.0
	for _, cloth := range spreads {
		for _, cut := range cloth.Cuts {
			p := cut.Piece.Unfold()
			size := p.Cut.Bound()
			width, height := size.Max[0]-size.Min[0], size.Max[1]-size.Min[1]
			pieces = append(pieces, p)
			area += (width + between) * (height + between)
			longest = max(longest, width)
		}
	}
	row := max(longest, math.Sqrt(area*cardShape))
	var inside strings.Builder
	x, y, deep, wide := 0.0, 0.0, 0.0, 0.0
	for i, p := range pieces {
		size := p.Cut.Bound()
		width, height := size.Max[0]-size.Min[0], size.Max[1]-size.Min[1]
		if x > 0 && x+width > row {
			x, y, deep = 0, y+deep+between, 0
		}
		fmt.Fprintf(&inside, `<g transform="translate(%.0f %.0f)"><path class="c%d" d="%s"/><path class="s" d="%s"/></g>`,
			x-size.Min[0], y+size.Max[1], i%2, ringPath(p.Cut), ringPath(p.Seam))
		wide, deep = max(wide, x+width), max(deep, height)
		x += width + between
	}
	scale := max(wide, (y+deep)*cardShape) / 100 // of a hundredth of the card
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="%.0f %.0f %.0f %.0f"><style>`+
		`path{stroke:#2a2520;stroke-width:%.1f;stroke-linejoin:round}.c0{fill:#f6e9d8}.c1{fill:#e7dfd0}`+
		`.s{fill:none;stroke-width:%.1f;stroke-dasharray:%.1f}</style>%s</svg>`, -between/2, -between/2, wide+between,
		y+deep+between, 0.7*scale, 0.35*scale, 1.5*scale, inside.String()), nil
}

// A card holds pictures so much wider than high, and so much lies between pieces, mm.
const cardShape, between = 1.4, 60.0

// ringPath is an outline as SVG has it, y upwards.
func ringPath(ring orb.Ring) string {
	var b strings.Builder
	for i, p := range ring {
		command := 'L'
		if i == 0 {
			command = 'M'
		}
		fmt.Fprintf(&b, "%c%.1f %.1f", command, p[0], -p[1])
	}
	return b.String() + "Z"
}
