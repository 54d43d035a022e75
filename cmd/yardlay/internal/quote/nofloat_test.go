package quote

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// Money never becomes a float where quotes are read, made and shown: no minor
// units within a conversion to a float, and none made of one.
func TestMoneyIsNeverAFloat(t *testing.T) {
	var names []string
	for _, dir := range []string{".", "../job", "../sheet", "../.."} {
		found, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil || len(found) == 0 {
			t.Fatal(dir, err)
		}
		names = append(names, found...)
	}
	fset := token.NewFileSet()
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(fset, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range floatsOfMoney(file) {
			t.Errorf("%s: money and a float", fset.Position(at))
		}
	}
	bad, err := parser.ParseFile(fset, "bad.go",
		"package p\nvar x = float64(m.Minor)\nvar y = cost.Money{Minor: int64(z * 100)}\nvar w = math.Round(m.Minor "+
			"/ 2)\n", 0)
	if err != nil || len(floatsOfMoney(bad)) != 3 {
		t.Errorf("what is wrong is not found: %v, %v", floatsOfMoney(bad), err)
	}
}

// floatsOfMoney finds minor units within conversions to floats and functions of
// the package math, and literals of money with a conversion in them.
func floatsOfMoney(file *ast.File) (at []token.Pos) {
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			if converts(n.Fun, "float64", "float32") && mentions(n, "Minor") {
				at = append(at, n.Pos())
			}
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Minor" &&
				mentions(n.Value, "int64", "int", "float64") {
				at = append(at, n.Pos())
			}
		}
		return true
	})
	return at
}

// converts says whether a call is to one of some types, or into the package math.
func converts(f ast.Expr, types ...string) bool {
	if s, ok := f.(*ast.SelectorExpr); ok {
		return mentions(s.X, "math")
	}
	return mentions(f, types...)
}

// mentions says whether one of some names stands in a piece of code.
func mentions(n ast.Node, names ...string) (found bool) {
	ast.Inspect(n, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			for _, name := range names {
				found = found || id.Name == name
			}
		}
		return true
	})
	return found
}
