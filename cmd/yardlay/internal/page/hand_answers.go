package page

import (
	"encoding/json"
	"math"
	"net/http"
	"slices"
	"strconv"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// handAnswers are what the view of the cloths is asked while a hand moves pieces. All say how the cloth
// lies then, but /slide.
func handAnswers() map[string]answerOf {
	return map[string]answerOf{
		"GET /hand":        answeringHand(func(*inHand, *http.Request) error { return nil }),
		"POST /hand/take":  answeringHand((*inHand).take),
		"POST /hand/put":   answeringHand((*inHand).put),
		"POST /hand/pin":   answeringHand((*inHand).pin),
		"POST /hand/back":  answeringHand((*inHand).back),
		"POST /hand/forth": answeringHand((*inHand).forth),
		"POST /hand/go":    answeringHand((*inHand).goOn),
		"POST /hand/anew":  answeringHand((*inHand).anew),
		"POST /hand/slide": slideByHand,
	}
}

// inHand is a cloth that something is asked about.
type inHand struct {
	*opened
	index int
	cloth live.Cloth
	work  *handwork // nil: it is not in hand
	other bool      // what was in hand had other pieces
}

// inHandOf finds the cloth that a request is about. A cloth whose pieces are others by now is not in hand:
// it is laid anew by the search. It is in hand again, steps and all, once the change is taken back.
func (o *opened) inHandOf(r *http.Request) (*inHand, error) {
	now := o.desk.Snapshot()
	i, err := strconv.Atoi(r.FormValue("cloth"))
	if err != nil || i < 0 || i >= len(now.Cloths) {
		return nil, notFound("there is no such cloth")
	}
	c := &inHand{opened: o, index: i, cloth: now.Cloths[i]}
	c.work = o.hand.work[c.cloth.ID]
	if c.work == nil || c.cloth.Picture == nil || c.cloth.Old {
		return c, nil
	}
	if l := c.cloth.Picture.Laid(); c.work.key != l.Task.WithPins(nil).Key() {
		c.work, c.other = nil, true
	}
	return c, nil
}

// answeringHand does something with the cloth in hand and answers how it lies.
func answeringHand(do func(*inHand, *http.Request) error) answerOf {
	return func(o *opened, w http.ResponseWriter, r *http.Request) error {
		o.hand.mu.Lock()
		defer o.hand.mu.Unlock()
		c, err := o.inHandOf(r)
		if err != nil {
			return err
		}
		if err := do(c, r); err != nil {
			return err
		}
		return sendJSON(w, c.shown())
	}
}

func sendJSON(w http.ResponseWriter, v any) error {
	text, err := json.Marshal(v)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.Write(text)
	return nil
}

// take takes a cloth in hand as it lies: its search ends.
func (c *inHand) take(*http.Request) error {
	if c.work != nil {
		return nil
	}
	if err := reachable(c.cloth); err != nil {
		return err
	}
	if err := c.takeNow(); err != nil {
		return err
	}
	return c.keep()
}

func (c *inHand) takeNow() error {
	var pinned kept.Cloth
	if i := slices.IndexFunc(c.hand.file.Cloths, func(k kept.Cloth) bool { return k.ID == c.cloth.ID }); i >= 0 {
		pinned = c.hand.file.Cloths[i]
	}
	was := c.hand.work[c.cloth.ID]
	w, err := takenInHand(c.cloth.Picture, pinned)
	if err != nil {
		return err
	}
	if was != nil {
		w.version = was.version + 1
	}
	c.work, c.other, c.hand.work[c.cloth.ID] = w, false, w
	return nil
}

// keep keeps how the cloth lies, once all its pieces lie as they may, and lets it be shown so.
func (c *inHand) keep() error {
	if !c.work.right() {
		return nil
	}
	layout := c.work.layout()
	if err := c.hand.put(c.cloth.ID, &layout); err != nil {
		return err
	}
	c.hand.lay()
	return nil
}

// asked reads which piece a request is about, of the version that it has seen.
func (c *inHand) asked(r *http.Request) (stretch, piece int, err error) {
	if c.work == nil {
		return 0, 0, &refusal{http.StatusConflict, say.Errorf("%s is not in hand any more", c.cloth.ID)}
	}
	if r.FormValue("version") != strconv.Itoa(c.work.version) {
		return 0, 0, &refusal{http.StatusConflict, say.Errorf("a piece of %s was moved on another page", c.cloth.ID).
			Hint("look where it lies now")}
	}
	stretch, err = strconv.Atoi(r.FormValue("stretch"))
	if err != nil || stretch < 0 || stretch >= len(c.work.now) {
		return 0, 0, notFound("there is no such stretch")
	}
	piece, err = strconv.Atoi(r.FormValue("piece"))
	if err != nil || piece < 0 || piece >= len(c.work.now[stretch]) {
		return 0, 0, notFound("there is no such piece")
	}
	return stretch, piece, nil
}

// placeOf reads where a piece is to lie: along the cloth and across it in mm, its turn in degrees.
func placeOf(r *http.Request) (pl nest.Placed, err error) {
	for name, to := range map[string]*float64{"x": &pl.At[0], "y": &pl.At[1], "turn": &pl.Turn} {
		v, err := strconv.ParseFloat(r.FormValue(name), 64)
		if err != nil || math.IsNaN(v) || math.Abs(v) > nest.Reach {
			return pl, invalid(say.Errorf("%s cannot be %q", name, r.FormValue(name)))
		}
		*to = v
	}
	pl.Mirrored = r.FormValue("mirrored") == "true"
	return pl, nil
}

// put lays a piece somewhere.
func (c *inHand) put(r *http.Request) error {
	stretch, piece, err := c.asked(r)
	if err != nil {
		return err
	}
	pl, err := placeOf(r)
	if err != nil {
		return err
	}
	c.work.move(stretch, piece, pl)
	return c.keep()
}

// pin pins a piece, or lets it go.
func (c *inHand) pin(r *http.Request) error {
	stretch, piece, err := c.asked(r)
	if err != nil {
		return err
	}
	now := c.work.now.clone()
	now[stretch][piece].pinned = !now[stretch][piece].pinned
	c.work.step(now)
	return c.keep()
}

func (c *inHand) back(*http.Request) error {
	if c.work == nil {
		return nil
	}
	c.work.back(&c.work.past, &c.work.future)
	return c.keep()
}

func (c *inHand) forth(*http.Request) error {
	if c.work == nil {
		return nil
	}
	c.work.back(&c.work.future, &c.work.past)
	return c.keep()
}

// goOn lets the cloth go: what is not pinned is laid around what is.
func (c *inHand) goOn(*http.Request) error {
	if c.work == nil {
		return nil
	}
	if !c.work.right() {
		return invalid(say.Errorf("a piece lies where it may not").Hint("move it, or take the step back"))
	}
	delete(c.hand.work, c.cloth.ID)
	c.work = nil
	c.hand.lay()
	return nil
}

// anew forgets what the hand laid: the cloth is laid anew.
func (c *inHand) anew(*http.Request) error {
	if err := c.hand.put(c.cloth.ID, nil); err != nil {
		return err
	}
	delete(c.hand.work, c.cloth.ID)
	c.work, c.other = nil, false
	c.hand.lay()
	return nil
}

// handShown is how a cloth in hand lies, for a script.
type handShown struct {
	Held      bool        `json:"held"`  // in hand
	Other     bool        `json:"other"` // not in hand any more, as its pieces are others by a change of the job
	Kept      bool        `json:"kept"`  // a hand laid it, or pinned something
	Mark      string      `json:"mark"`  // of the markers that drawn is of
	Version   int         `json:"version"`
	Back      bool        `json:"back"` // there is a step to take back
	Forth     bool        `json:"forth"`
	Stretches [][]inPlace `json:"stretches"`
	Told      []string    `json:"told,omitempty"` // all that is wrong, each once
}

// inPlace is a piece of a stretch.
type inPlace struct {
	Of     string   `json:"of"` // its group in the drawing
	Name   string   `json:"name"`
	Now    pose     `json:"now"`
	Drawn  pose     `json:"drawn"`
	Ways   []pose   `json:"ways"` // it may lie
	Pinned bool     `json:"pinned"`
	Wrong  []string `json:"wrong,omitempty"`
	Under  []string `json:"under,omitempty"` // groups that it lies over
}

// shown says how the cloth lies.
func (c *inHand) shown() handShown {
	s := handShown{Held: c.work != nil, Other: c.other, Stretches: [][]inPlace{},
		Kept: slices.ContainsFunc(c.hand.file.Cloths, func(k kept.Cloth) bool { return k.ID == c.cloth.ID })}
	if c.work == nil || c.cloth.Picture == nil {
		return s
	}
	w := c.work
	shown := c.clothNow(c.index, c.cloth, clothLarge, false)
	s.Mark, s.Version, s.Back, s.Forth = shown.Mark(), w.version, len(w.past) > 0, len(w.future) > 0
	for k, m := range c.cloth.Picture.Cloth().Markers {
		if k >= len(w.now) {
			break
		}
		drawn, groups := map[[2]int]nest.Placed{}, map[[2]int]string{}
		for n, pl := range m.Layout.Placed {
			drawn[[2]int{pl.Piece, pl.Copy}] = pl
			groups[[2]int{pl.Piece, pl.Copy}] = depict.CopiesID(c.index, m.Cuts[n]...)
		}
		group := func(p handPiece) string { return groups[[2]int{p.Piece, p.Copy}] }
		list, told := []inPlace{}, []*nest.Broken{}
		for _, p := range w.now[k] {
			one := inPlace{Of: group(p), Name: m.Problem.Pieces[p.Piece].Name, Now: poseOf(p.Placed),
				Drawn: poseOf(drawn[[2]int{p.Piece, p.Copy}]), Pinned: p.pinned}
			for _, way := range m.Problem.Ways(p.Piece, p.Copy) {
				one.Ways = append(one.Ways, poseOf(way))
			}
			for _, b := range p.wrong {
				what, _ := b.Parts(strict.Show(c.cloth.Picture.Report.Unit))
				one.Wrong = append(one.Wrong, what)
				if !slices.ContainsFunc(told, func(o *nest.Broken) bool { return mirrors(o, b) }) {
					s.Told, told = append(s.Told, what), append(told, b)
				}
				if b.Other != "" && b.Pair[1] >= 0 && b.Pair[1] < len(w.now[k]) {
					one.Under = append(one.Under, group(w.now[k][b.Pair[1]]))
				}
			}
			list = append(list, one)
		}
		s.Stretches = append(s.Stretches, list)
	}
	return s
}

// mirrors says whether one of two pieces has broken the same rule with the other as the other with it.
func mirrors(a, b *nest.Broken) bool {
	return a.Rule == b.Rule && a.Other != "" && a.Piece == b.Other && a.Copy == b.OtherCopy && a.Other == b.Piece &&
		a.OtherCopy == b.Copy
}

// slideByHand answers where a piece may slide, turned and mirrored as it is held; with near, where it
// may within so many mm, which is there sooner.
func slideByHand(o *opened, w http.ResponseWriter, r *http.Request) error {
	o.hand.mu.Lock()
	c, err := o.inHandOf(r)
	var stretch, piece int
	if err == nil {
		stretch, piece, err = c.asked(r)
	}
	if err != nil {
		o.hand.mu.Unlock()
		return err
	}
	all, table := placed(c.work.now[stretch]), c.work.tables[stretch]
	o.hand.mu.Unlock()
	pl, err := placeOf(r)
	if err != nil {
		return err
	}
	pl.Piece, pl.Copy = all[piece].Piece, all[piece].Copy
	var known []string
	if err := json.Unmarshal([]byte(r.FormValue("known")), &known); err != nil {
		return invalid(say.Errorf("the list of what is known cannot be read: %w", err))
	}
	within := math.Inf(1)
	if near, err := strconv.ParseFloat(r.FormValue("near"), 64); err == nil && near > 0 {
		within = near
	}
	return sendJSON(w, table.Slide(pl, all, within,
		func(pair string) bool { return slices.Contains(known, pair) }))
}
