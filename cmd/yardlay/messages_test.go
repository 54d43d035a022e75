package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// theirs are functions that take apart what a library says, for it says nothing else.
var theirs = []string{
	"syntaxError", // strict: the TOML decoder's errors are text and a place
}

// inMM finds a length that is part of a format.
var inMM = regexp.MustCompile(`(\d|%[-+# 0]*\d*(\.\d+)?[a-z]) mm\b`)

// Messages keep their parts (package say): nothing searches, cuts or rewrites the text
// of an error, hints are put below what is wrong in one place, errors that wrap others
// go by say.Errorf, so that lengths within are said in every unit.
func TestMessagesAreNotTakenApart(t *testing.T) {
	eachSource(t, func(path string, file *ast.File, set *token.FileSet) {
		fault := func(n ast.Node, format string, args ...any) {
			t.Helper()
			t.Errorf("%s: "+format, append([]any{set.Position(n.Pos())}, args...)...)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil && !slices.Contains(theirs, f.Name.Name) {
				takenApart(f.Body, fault)
			}
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BasicLit:
				if text := literal(n); strings.Contains(text, "\n  hint:") && !strings.Contains(path, "shapes/say/") {
					fault(n, "a hint within a text: say.Errorf(...).Hint(...) keeps it apart")
				}
			case *ast.CallExpr:
				if called := nameOf(n.Fun); (called == "fmt.Errorf" || called == "errors.New") &&
					!strings.Contains(path, "shapes/say/") {
					if text := literal(n.Args[0]); strings.Contains(text, "%w") || inMM.MatchString(text) {
						fault(n, "say.Errorf keeps lengths (say.MM) and what is wrapped")
					}
				} else if inMM.MatchString(literalOf(n)) &&
					(strings.HasPrefix(called, "say.") || strings.HasSuffix(called, ".Hint")) {
					fault(n, "a length in mm alone: say.MM brings its unit along")
				}
			}
			return true
		})
	})
}

// takenApart finds within a function what looks into the text of an error.
func takenApart(body ast.Node, fault func(ast.Node, string, ...any)) {
	said := map[string]bool{} // variables that hold such a text
	says := func(e ast.Expr) bool {
		found := false
		ast.Inspect(e, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				name := nameOf(n.Fun)
				found = found || strings.HasSuffix(name, ".Error") && len(n.Args) == 0 ||
					strings.HasSuffix(name, ".Parts")
			case *ast.Ident:
				found = found || said[n.Name]
			}
			return !found
		})
		return found
	}
	ast.Inspect(body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			if len(n.Rhs) == 1 && says(n.Rhs[0]) {
				for _, left := range n.Lhs {
					if name, ok := left.(*ast.Ident); ok && name.Name != "_" && !strings.HasPrefix(name.Name, "err") {
						said[name.Name] = true
					}
				}
			}
		case *ast.SliceExpr:
			if says(n.X) {
				fault(n, "cuts the text of an error")
			}
		case *ast.CallExpr:
			of, _, _ := strings.Cut(nameOf(n.Fun), ".")
			if of != "strings" && of != "bytes" && of != "regexp" && !searches.MatchString(nameOf(n.Fun)) ||
				nameOf(n.Fun) == "strings.Join" {
				return true
			}
			if slices.ContainsFunc(n.Args, says) {
				fault(n, "looks into the text of an error")
			}
		}
		return true
	})
}

// searches are the methods of a regular expression.
var searches = regexp.MustCompile(`\.(Find|ReplaceAll|Match|Split)\w*$`)

func TestTakenApartIsSeen(t *testing.T) {
	for _, code := range []string{
		`strings.Cut(err.Error(), "\n")`,
		`what := err.Error(); i := strings.Index(what, "; ")`,
		`what, _ := say.Parts(err, nil); what = what[:3]`,
		`text := fmt.Sprint("x: ", err.Error()); inMillimetres.ReplaceAllString(text, "in")`,
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "", "package p\nfunc f() {"+code+"}", 0)
		if err != nil {
			t.Fatal(err)
		}
		seen := 0
		takenApart(file, func(ast.Node, string, ...any) { seen++ })
		if seen == 0 {
			t.Errorf("%s passes", code)
		}
	}
}

// eachSource visits the code of the project but tests and benchmarks.
func eachSource(t *testing.T, visit func(path string, file *ast.File, set *token.FileSet)) {
	t.Helper()
	set, seen := token.NewFileSet(), 0
	for _, dir := range []string{"cmd", "cost", "nest", "shapes"} {
		err := filepath.WalkDir(filepath.Join("..", "..", dir), func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			if err == nil {
				visit(filepath.ToSlash(path), file, set)
				seen++
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 100 {
		t.Fatalf("%d files are not the project", seen)
	}
}

// nameOf is how code calls a function: "fmt.Errorf", ".Hint" of what is no name.
func nameOf(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if x, ok := f.X.(*ast.Ident); ok {
			return x.Name + "." + f.Sel.Name
		}
		return "." + f.Sel.Name
	}
	return ""
}

// literalOf is the text that a call begins with.
func literalOf(call *ast.CallExpr) string {
	if len(call.Args) == 0 {
		return ""
	}
	return literal(call.Args[0])
}

// literal is the text of a constant as far as it is written there.
func literal(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, _ := strconv.Unquote(e.Value)
		return text
	case *ast.BinaryExpr:
		return literal(e.X) + literal(e.Y)
	}
	return ""
}
