package job

// Landmark is a place on a body, as measures name it.
type Landmark string

// The landmarks: levels of the body first, then points.
const (
	Head      Landmark = "the head, over the brow"
	NeckBase  Landmark = "the base of the neck"
	OverBust  Landmark = "the chest, under the arms and over the bust"
	Bust      Landmark = "the fullest of the bust"
	Underbust Landmark = "the ribs, right under the bust"
	Waist     Landmark = "the waist"
	HighHip   Landmark = "the hip bones"
	Hips      Landmark = "the fullest of the hips"
	Floor     Landmark = "the floor"
	UpperArm  Landmark = "the fullest of the upper arm"
	Wrist     Landmark = "the wrist"
	Hand      Landmark = "the hand at its widest, thumb in"

	BustLine       Landmark = "the level of the bust"
	Nape           Landmark = "the nape"
	NeckPoint      Landmark = "the neck, where the shoulder begins"
	ShoulderTip    Landmark = "the tip of the shoulder"
	BustPoint      Landmark = "the bust point"
	OtherBustPoint Landmark = "the other bust point"
	LeftArmhole    Landmark = "one armhole"
	RightArmhole   Landmark = "the other armhole"
)

// Taken is where a measure of the body is taken: round one landmark, or from one to
// another one. The zero value is of no measure.
type Taken struct {
	Round    Landmark
	From, To Landmark
	Behind   bool // on the back
}

func round(where Landmark) Taken      { return Taken{Round: where} }
func between(from, to Landmark) Taken { return Taken{From: from, To: to} }
func behind(from, to Landmark) Taken  { return Taken{From: from, To: to, Behind: true} }

// String says where: "from the waist to the fullest of the hips".
func (t Taken) String() string {
	switch {
	case t.Round != "":
		return "round " + string(t.Round)
	case t.From == "":
		return ""
	case t.Behind:
		return "behind, from " + string(t.From) + " to " + string(t.To)
	}
	return "from " + string(t.From) + " to " + string(t.To)
}
