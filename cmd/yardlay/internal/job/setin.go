package job

import (
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
)

// SetIn is a sleeve that may take its armholes from a bodice block of the job.
type SetIn struct {
	shapes.Sleeve
	Bodice *Bodice // nil where the armholes are given
}

// Bodice is the part that a sleeve is sewn into.
type Bodice struct {
	Part   Part // a bodice-block
	called string
	at     strict.Position
}

// Block returns the bodice as drafted in its outer cloth.
func (b Bodice) Block() (shapes.BodiceBlock, error) {
	if len(b.Part.Layers) > 0 {
		if block, ok := b.Part.Layers[0].Draft.(shapes.BodiceBlock); ok {
			return block, nil
		}
	}
	return shapes.BodiceBlock{}, fmt.Errorf("part `%s` is no bodice-block", b.called)
}

// Fitted returns the sleeve with the armholes it is sewn into.
func (s SetIn) Fitted() (shapes.Sleeve, error) {
	if s.Bodice == nil {
		return s.Sleeve, nil
	}
	block, err := s.Bodice.Block()
	if err == nil {
		s.FrontArmhole, s.BackArmhole, err = block.Armhole()
	}
	if err != nil {
		return shapes.Sleeve{}, fmt.Errorf("sleeve: armholes of part `%s`: %w", s.Bodice.called, err)
	}
	return s.Sleeve, nil
}

// Draft drafts the sleeve with its armholes.
func (s SetIn) Draft() (shapes.Drafted, error) {
	fitted, err := s.Fitted()
	if err != nil {
		return shapes.Drafted{}, err
	}
	return fitted.Draft()
}

// bodice reads what the sleeve is sewn into: nil where it gives both armholes.
func (p *partTable) bodice() *Bodice {
	name, at, ok := p.Text("bodice", `"bodice"`)
	front, back := p.Has("front_armhole"), p.Has("back_armhole")
	switch {
	case p.Has("bodice") && (front || back):
		p.Fail(p.Field("bodice").At, "give one of them", "%s has both `bodice` and an armhole", p.Name)
	case !p.Has("bodice") && !front:
		p.Need("front_armhole", "or bodice = \"...\", the name of the part with the armholes")
	case !p.Has("bodice") && !back:
		p.Need("back_armhole", "or bodice = \"...\", the name of the part with the armholes")
	}
	if !ok {
		return nil
	}
	return &Bodice{called: name, at: at}
}

// refer finds the parts that other parts are drafted to, of the same body.
func (r *reader) refer(parts []Part) {
	for _, p := range parts {
		if len(p.Layers) == 0 {
			continue
		}
		s, ok := p.Layers[0].Draft.(SetIn) // all layers share the bodice
		if !ok || s.Bodice == nil {
			continue
		}
		b := s.Bodice
		i := slices.IndexFunc(parts, func(q Part) bool { return q.Called == b.called && q.Body == p.Body })
		switch {
		case i < 0:
			r.Fail(b.at, strict.OneOf(b.called, blocks(parts, p.Body)), "part `%s`: there is no part %q to sew it into", p.Name, b.called)
		case parts[i].Draft != bodiceBlock.name:
			r.Fail(b.at, strict.OneOf("", blocks(parts, p.Body)), "part `%s`: `%s` is no bodice-block and has no armholes", p.Name, b.called)
		default:
			b.Part = parts[i]
		}
	}
}

// blocks names the bodice blocks of a body.
func blocks(parts []Part, body string) []string {
	var names []string
	for _, p := range parts {
		if p.Draft == bodiceBlock.name && p.Body == body {
			names = append(names, p.Called)
		}
	}
	return names
}
