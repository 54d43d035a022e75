package main

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// layFiles encodes all that lay writes.
func layFiles(r *plan.Report, asJSON []byte) ([]file, error) {
	var files []file
	for _, c := range r.Cloths {
		svg, err := marker(r, c).Drawing().SVG()
		if err != nil {
			return nil, fmt.Errorf("cannot draw %s: %w", c.ID, err)
		}
		outlines, err := c.GeoJSON()
		if err != nil {
			return nil, fmt.Errorf("cannot encode the outlines of %s: %w", c.ID, err)
		}
		files = append(files, file{c.ID + ".svg", svg}, file{c.ID + ".geojson", outlines})
	}
	return append(files, file{"lay.json", asJSON}), nil
}

// marker describes the drawing of a cloth's marker.
func marker(r *plan.Report, c plan.Cloth) sheet.Marker {
	m := sheet.Marker{
		Title: r.Title, Cloth: c.Title, Nap: c.Nap, OneWay: c.Nap == string(job.OneWay), Width: c.Spread.Cloth.Width, Selvedge: c.Spread.Cloth.Selvedge,
		Used: c.Used, Bought: c.Bought, Unit: r.Unit, Cautions: plan.Cautions([]plan.Spread{c.Spread}),
		Notes: []string{percent(c.Utilisation) + " filled", "no marker is under " + measure.FormatDown(c.Bound, r.Unit)},
	}
	if c.Proved {
		m.Notes = append(m.Notes, "purchase proved minimal")
	}
	for _, placed := range c.Layout.Placed {
		piece := c.Spread.Pieces[placed.Piece]
		m.Pieces = append(m.Pieces, sheet.Placed{
			Name: piece.Name, Copy: copyName(piece, placed.Copy),
			Size:    cutSize(piece.Unfold(), plan.SizeUnit(r.Unit)),
			Outline: placedOutline(c.Problem, placed, piece.Unfold()),
		})
	}
	return m
}

// copyName says which copy of a piece it is; "" when there is one only.
func copyName(p shapes.Piece, copy int) string {
	switch {
	case copy < len(p.Labels):
		return p.Labels[copy]
	case p.Count > 1:
		return fmt.Sprintf("%d of %d", copy+1, p.Count)
	}
	return ""
}

// cutSize shows the cut size of a piece along and across the grain: what is
// measured on the table.
func cutSize(p shapes.Piece, unit measure.Unit) string {
	along, across := p.CutSize()
	return fmt.Sprintf("%s x %s", bare(along, unit), measure.Format(across, unit))
}

// placedOutline moves all lines of a piece to where its copy is cut.
func placedOutline(problem nest.Problem, placed nest.Placed, piece shapes.Piece) sheet.Outline {
	pose := plane.Pose{Mirrored: placed.Mirrored, Turn: placed.Turn, At: placed.At}
	line := func(l orb.LineString) orb.LineString { return orb.LineString(pose.Apply(orb.Ring(l))) }
	o := outlineOf(piece)
	o.Cut, o.Seam = problem.Outline(placed), pose.Apply(o.Seam)
	if o.Grain = line(o.Grain); placed.Mirrored {
		o.Grain.Reverse() // posing a ring keeps it counter-clockwise by reversing it
	}
	for i, l := range o.Inside {
		o.Inside[i] = line(l)
	}
	turn := plane.Pose{Mirrored: placed.Mirrored, Turn: placed.Turn}
	for i, n := range o.Notches {
		o.Notches[i] = sheet.Notch{At: pose.Apply(orb.Ring{n.At})[0], Outward: turn.Apply(orb.Ring{n.Outward})[0]}
	}
	return o
}

// outlineOf takes the lines of a piece over for drawing.
func outlineOf(p shapes.Piece) sheet.Outline {
	o := sheet.Outline{Cut: p.Cut, Seam: p.Seam, Grain: p.Grain}
	o.Inside = append(o.Inside, p.Inside...)
	for _, n := range p.Notches {
		o.Notches = append(o.Notches, sheet.Notch{At: n.At, Outward: n.Outward})
	}
	return o
}

// pieceFiles draws the pieces of each cloth on a sheet.
func pieceFiles(title string, spreads []plan.Spread, unit measure.Unit) ([]file, error) {
	var files []file
	for _, s := range spreads {
		sheet := sheet.Pieces{Title: title + ": " + s.Cloth.Title, Unit: plan.SizeUnit(unit), Cautions: plan.Cautions([]plan.Spread{s})}
		if title == "" {
			sheet.Title = s.Cloth.Title
		}
		for _, p := range s.Pieces {
			sheet.Pieces = append(sheet.Pieces, pattern(p, plan.SizeUnit(unit)))
		}
		svg, err := sheet.Drawing().SVG()
		if err != nil {
			return nil, fmt.Errorf("cannot draw the pieces of %s: %w", s.Cloth.ID, err)
		}
		files = append(files, file{s.Cloth.ID + "-pieces.svg", svg})
	}
	return files, nil
}

// pattern describes the drawing of a piece as drafted.
func pattern(p shapes.Piece, unit measure.Unit) sheet.Pattern {
	drawn := sheet.Pattern{Name: p.Name, Facts: []string{"cut " + copies(p.Count, p.Pair, p.OnFold) + ", cut size " + cutSize(p, unit)}, Outline: outlineOf(p)}
	drawn.Along, drawn.Across = p.Finished()
	for _, e := range p.Edges {
		if e.Kind == shapes.Fold {
			drawn.Fold = e.Line
		}
	}
	return drawn
}
