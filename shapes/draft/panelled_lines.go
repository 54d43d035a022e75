package draft

import (
	"yardlay/shapes"
	"yardlay/shapes/say"
)

// TopStyle is how the top edge of a close-fitting body runs.
type TopStyle string

// Styles of the top edge; all fall to the side and on to the centre back.
//
//	curved          straight        sweetheart      pointed
//	   _  _                          .-. .-.            .
//	.-' `' `-.      .---------.     /   '   \       .-.' '.-.
const (
	CurvedTop  TopStyle = "curved"     // level at the bust and dipping smoothly between; the zero value is the same
	StraightTo TopStyle = "straight"   // straight from centre front over the bust and the side to the back
	Sweetheart TopStyle = "sweetheart" // a lobe over each bust, meeting in a corner at the centre front, FrontDip deep
	PointedTop TopStyle = "pointed"    // rising to a point at the centre front, FrontPeak high
)

// LowerStyle is how the lower edge of a close-fitting body runs.
type LowerStyle string

// Styles of the lower edge.
//
//	curved          straight        pointed         scooped
//	                                                   _
//	.         .     .         .     '.       .'     .-' '-.
//	 `-.___.-'       `-.   .-'        `'. .'`      (       )
//	                    `.'              v          `     '
const (
	CurvedLower  LowerStyle = "curved"   // smooth, level at centre front, side and back; the zero value is the same
	StraightDown LowerStyle = "straight" // straight from centre front to the side, and to the back
	PointedLower LowerStyle = "pointed"  // hollow from the side down to a point at the centre front
	Scooped      LowerStyle = "scooped"  // cut out at the centre front by FrontRise, lowest over the hip bones
)

// mostPeak is the most that a point stands beyond the levels that are measured, mm: the
// panels keep their width there, and no further than this a body does (common practice).
const mostPeak = 150

// hipBones is where the lower edge is lowest where it is scooped: half way to the side.
const hipBones = sidePosition / 2

// setLines lays the top and the lower edge over the half body.
func (b *panelled) setLines() {
	bust := b.bustPosition()
	b.top = contour{smooth: smooth{{0, b.FrontDip - b.FrontPeak}, {bust, 0}, {sidePosition, b.SideDip}, {1, b.BackDip}}}
	switch b.Top {
	case StraightTo:
		b.top.courses = []course{straightOn, straightOn, straightOn}
	case Sweetheart, PointedTop:
		b.top.courses = []course{levelAtEnd, levelAtBoth, levelAtBoth}
	}
	end := b.levels[len(b.levels)-1].x - b.HemRaise
	b.bottom = contour{smooth: smooth{{0, end + b.FrontPoint}, {sidePosition, end - b.SideRise}, {1, end - b.BackRise}}}
	switch b.Lower {
	case StraightDown:
		b.bottom.courses = []course{straightOn, straightOn}
	case PointedLower:
		b.bottom.courses = []course{levelAtEnd, levelAtBoth}
	case Scooped:
		b.bottom.smooth = smooth{{0, end - b.FrontRise}, {hipBones, end}, {sidePosition, end - b.SideRise},
			{1, end - b.BackRise}}
	}
	b.bottomEdge = side{"lower edge", shapes.Hem, b.Allowance.For(shapes.Hem)}
	if b.Figure.HighHipDown == 0 && !b.Hemmed {
		b.bottomEdge = side{"waist", shapes.Waist, b.Allowance.For(shapes.Waist)}
	}
}

// bustPosition is where the bust lies on the half body: at the first seam, of six panels
// in the middle of the second.
func (b *panelled) bustPosition() float64 {
	if len(b.shares) == 6 {
		return b.position(1) + b.shares[1]/2
	}
	return b.position(1)
}

// sidePosition is where the side lies between centre front and centre back.
const sidePosition = 0.5

// checkStyles refuses what a style of edge lacks, and what belongs to another one.
func (p PanelledBody) checkStyles() error {
	if err := notNegative(measured{"front peak", p.FrontPeak}, measured{"front point", p.FrontPoint},
		measured{"front rise", p.FrontRise}); err != nil {
		return err
	}
	for _, s := range []struct {
		edge, style, of, what string
		mm                    float64
	}{
		{"top", string(p.Top), string(PointedTop), "front peak", p.FrontPeak},
		{"lower edge", string(p.Lower), string(PointedLower), "front point", p.FrontPoint},
		{"lower edge", string(p.Lower), string(Scooped), "front rise", p.FrontRise},
	} {
		if s.mm > 0 && s.style != s.of {
			return say.Errorf("a %s of %.1f is that of a %s %s", s.what, say.MM(s.mm), s.of, s.edge).
				Hint("leave it out, or choose that style")
		}
		if s.mm > mostPeak {
			return say.Errorf("%s is %.1f, must be at most %v", s.what, say.MM(s.mm), say.MM(mostPeak))
		}
	}
	switch {
	case p.Top == PointedTop && p.FrontDip > 0:
		return say.Errorf("a pointed top rises at centre front, and a front dip of %.1f falls there", say.MM(p.FrontDip))
	case p.Top == PointedTop && p.FrontPeak == 0:
		return say.Errorf("a pointed top has a front peak of %v", say.MM(0)).Hint("say how high the point stands")
	case p.Top == Sweetheart && p.FrontDip == 0:
		return say.Errorf("a sweetheart top has a front dip of %v", say.MM(0)).
			Hint("say how deep it falls between the lobes")
	case p.Lower == Scooped && p.FrontRise == 0:
		return say.Errorf("a scooped lower edge has a front rise of %v", say.MM(0)).Hint("say how far it is cut out")
	case p.Lower == PointedLower && p.FrontPoint+p.SideRise == 0:
		return say.Errorf("a pointed lower edge has a front point and a side rise of %v", say.MM(0)).
			Hint("say how far the point lies below the high hip, or the side above it")
	case p.Figure.HighHipDown == 0 && (p.Lower == PointedLower || p.Lower == Scooped):
		return say.Errorf("a %s lower edge on a body that ends at the waist", string(p.Lower)).
			Hint("let it end at the high hip")
	}
	return nil
}
