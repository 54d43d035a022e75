package outline

import "strings"

// dxfLayer is a layer, as its table or its first entity names it.
type dxfLayer struct {
	name     string
	off      bool // not shown
	frozen   bool // not shown, nor what is inserted on it
	colour   string
	linetype string
}

// layer finds a layer by its name, or makes one that no table names.
func (f *dxfFile) layer(t dxfTag) (*dxfLayer, error) {
	name, err := f.name(t, "layer")
	if err != nil {
		return nil, err
	}
	key := strings.ToUpper(name)
	if l := f.layers[key]; l != nil {
		return l, nil
	}
	if len(f.layers) >= maxDXFNames {
		return nil, dxfErrorf(t.line, "over %d layers, the most that are read", maxDXFNames).
			Hint("save the pieces alone")
	}
	l := &dxfLayer{name: name}
	f.layers[key] = l
	return l, nil
}

// tables reads those of layers and line types.
func (f *dxfFile) tables(s *dxfScanner) error {
	for {
		t, err := s.next()
		if err != nil {
			return err
		}
		switch {
		case t.code != 0:
		case t.word() == "ENDSEC":
			return nil
		case t.word() == "LAYER":
			err = f.readLayer(s)
		case t.word() == "LTYPE":
			err = f.readLinetype(s)
		case t.word() == "SECTION" || t.word() == "EOF":
			return dxfErrorf(t.line, "the TABLES have no end (ENDSEC)").
				Hint("the file may be damaged: save it again where it was drawn")
		}
		if err != nil {
			return err
		}
	}
}

// fields hands the groups up to the next code 0 over, one by one.
func fields(s *dxfScanner, take func(dxfTag) error) error {
	for {
		t, err := s.next()
		if err != nil {
			return err
		}
		if t.code == 0 {
			s.putBack(t)
			return nil
		}
		if err := take(t); err != nil {
			return err
		}
	}
}

func (f *dxfFile) readLayer(s *dxfScanner) error {
	var l *dxfLayer
	var made dxfLayer
	colour, trueColour := 7, -1
	err := fields(s, func(t dxfTag) (err error) {
		switch t.code {
		case 2:
			l, err = f.layer(t)
		case 70:
			var flags int
			flags, err = t.whole()
			made.frozen = flags&1 != 0
		case 62:
			colour, err = t.whole()
			made.off = colour < 0
			colour = max(colour, -colour)
		case 420:
			trueColour, err = t.whole()
		case 6:
			made.linetype, err = f.linetype(t)
		}
		return err
	})
	if err != nil || l == nil {
		return err
	}
	made.name, made.colour = l.name, colourName(colour)
	if trueColour >= 0 {
		made.colour = colourName(dxfTrueColor | trueColour&(dxfTrueColor-1))
	}
	*l = made
	return nil
}

// linetype reads the name of a line type, in capitals.
func (f *dxfFile) linetype(t dxfTag) (string, error) {
	name, err := f.name(t, "line type")
	return strings.ToUpper(name), err
}

// readLinetype notes whether a line type has gaps: its pattern then has parts.
func (f *dxfFile) readLinetype(s *dxfScanner) error {
	name, parts := "", 0
	err := fields(s, func(t dxfTag) (err error) {
		switch t.code {
		case 2:
			name, err = f.linetype(t)
		case 73:
			parts, err = t.whole()
		}
		return err
	})
	if err != nil {
		return err
	}
	if len(f.dashed) < maxDXFNames {
		f.dashed[name] = parts > 0
	}
	return nil
}

// isDashed tells whether a line type has gaps. One that no table describes has, unless it
// is that of whole lines.
func (f *dxfFile) isDashed(linetype string) bool {
	dashed, known := f.dashed[linetype]
	return dashed || !known && linetype != "" && linetype != "CONTINUOUS"
}
