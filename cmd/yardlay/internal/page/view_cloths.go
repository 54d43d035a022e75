package page

import (
	"maps"
	"net/http"
	"strconv"

	"yardlay/cmd/yardlay/internal/live"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// clothsView shows the cloths as they are laid, each with its marker and its list.
func clothsView() view {
	answers := handAnswers()
	maps.Copy(answers, map[string]answerOf{
		"GET /now":     clothsChanged,
		"GET /beside":  clothsBeside,
		"POST /search": setSearch,
	})
	return view{path: "cloths", name: "Cloths", template: "cloths", answers: answers,
		show: func(o *opened, _ *http.Request) (any, error) { return o.clothsNow(clothLarge), nil },
	}
}

// clothsBeside shows the cloths beside something else: small, without their lists.
func clothsBeside(o *opened, w http.ResponseWriter, _ *http.Request) error {
	o.server.render(w, http.StatusOK, "cloths", o.clothsNow(clothSmall))
	return nil
}

// clothsChanged brings a page up to date that has seen the cloths as it says: figures, and the
// markers that are others now.
func clothsChanged(o *opened, w http.ResponseWriter, r *http.Request) error {
	size := clothLarge
	if r.URL.Query().Has("small") {
		size = clothSmall
	}
	now := o.clothsNow(size)
	seen := r.URL.Query()["seen"]
	if len(seen) != len(now.Cloths) {
		o.server.render(w, http.StatusOK, "cloths-anew", now)
		return nil
	}
	for i := range now.Cloths {
		c := &now.Cloths[i]
		if c.Shape != shapeSeen(seen[i]) {
			o.server.render(w, http.StatusOK, "cloths-anew", now)
			return nil
		}
		c.Changed = c.Mark() != seen[i]
	}
	o.server.render(w, http.StatusOK, "cloths-now", now)
	return nil
}

// mostGowns is the most that is laid together, as on the command line.
const mostGowns = 100

// setSearch lays the cloths in another way.
func setSearch(o *opened, w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	s, err := searchOf(r.PostForm.Get("effort"), r.PostForm.Get("seed"), r.PostForm.Get("gowns"))
	if err != nil {
		return invalid(err)
	}
	o.desk.Search(s)
	o.server.render(w, http.StatusOK, "cloths-search", o.clothsNow(clothLarge))
	return nil
}

// onAndOn is what the page calls a search that goes on while one watches.
const onAndOn = "on"

// searchOf reads what somebody chose.
func searchOf(effort, seed, gowns string) (live.Search, error) {
	s := live.Search{OnAndOn: effort == onAndOn}
	var err error
	if s.OnAndOn {
		s.Effort = nest.Normal
	} else if s.Effort, err = nest.ParseEffort(effort); err != nil {
		return s, say.Errorf("the search cannot be %q", effort).Hint("quick, normal or thorough")
	}
	if s.Seed, err = strconv.ParseUint(seed, 10, 64); err != nil {
		return s, say.Errorf("the number of the search cannot be %q", seed).Hint("a whole number, as 1")
	}
	if s.Gowns, err = strconv.Atoi(gowns); err != nil || s.Gowns < 1 || s.Gowns > mostGowns {
		return s, say.Errorf("gowns laid together cannot be %q", gowns).Hint("a whole number from 1 to %d", mostGowns)
	}
	return s, nil
}

// searchShown is what the choices of the search show.
type searchShown struct {
	Efforts []effortShown
	Seed    uint64
	Gowns   int
	Same    string // the command that finds the same; "" for none
}

type effortShown struct {
	Value, Words string
	Chosen       bool
}

// sameAs is what the command is given to lay the same.
func (o *opened) sameAs() string {
	if o.hand.kept() {
		return o.Name() + " --from " + o.hand.name
	}
	return o.Name()
}

func shownSearch(s live.Search, name string) searchShown {
	shown := searchShown{Seed: s.Seed, Gowns: max(s.Gowns, 1)}
	for _, e := range []effortShown{
		{Value: nest.Quick.String(), Words: "quick: a try"},
		{Value: nest.Normal.String(), Words: "normal: a second or two, more where less may be bought"},
		{Value: nest.Thorough.String(), Words: "thorough: minutes, before you buy dear cloth"},
		{Value: onAndOn, Words: "for as long as you watch, ten minutes a cloth at the most"},
	} {
		e.Chosen = e.Value == s.Effort.String() && !s.OnAndOn || e.Value == onAndOn && s.OnAndOn
		shown.Efforts = append(shown.Efforts, e)
	}
	if !s.OnAndOn {
		shown.Same = "yardlay lay " + name
		for _, flag := range []struct{ flag, value, usual string }{
			{"--effort", s.Effort.String(), usual.Effort.String()},
			{"--seed", strconv.FormatUint(s.Seed, 10), strconv.FormatUint(usual.Seed, 10)},
			{"--gowns", strconv.Itoa(shown.Gowns), "1"},
		} {
			if flag.value != flag.usual {
				shown.Same += " " + flag.flag + " " + flag.value
			}
		}
	}
	return shown
}
