package shapes

import "slices"

// MarkStop notches the edges of the piece that are openings where what closes them
// stops, mm from the top. The top is the end away from the hem; edges that do not
// reach down to a hem, and those that are no longer than that, are closed all the way.
func (p *Piece) MarkStop(down float64) error {
	for i, e := range p.Edges {
		before, after := p.Edges[(i+len(p.Edges)-1)%len(p.Edges)], p.Edges[(i+1)%len(p.Edges)]
		length := e.Length()
		if e.Kind != Opening || before.Kind == Hem == (after.Kind == Hem) || down >= length-atSeam {
			continue
		}
		at := down
		if after.Kind != Hem {
			at = length - down // it runs up from the hem
		}
		point, _ := e.At(at)
		if slices.ContainsFunc(p.Notches, func(n Notch) bool { return n.Edge == e.Name && n.At == point }) {
			continue
		}
		if err := p.AddNotch(e.Name, at); err != nil {
			return err
		}
	}
	return nil
}
