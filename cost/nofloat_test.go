package cost

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// lengthFile is the one file in which a float64 may become an exact fraction
// and back: lengths, never money.
const lengthFile = "lengths.go"

// floatsInMoney type-checks files and lists where a float gets near money:
//   - a float turned into a whole number, or read out of or into a big number
//     anywhere but in lengthFile;
//   - an expression of the type Money, or anything put into a Money literal,
//     with a float in it, but for lengths given to functions of this package;
//   - the minor units of a Money turned into a float.
func floatsInMoney(fset *token.FileSet, files []*ast.File, imp types.Importer) ([]string, error) {
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{},
		Selections: map[*ast.SelectorExpr]*types.Selection{}}
	pkg, err := (&types.Config{Importer: imp}).Check("yardlay/cost", fset, files, info)
	if err != nil {
		return nil, err
	}
	w := &floatWalk{info: info, money: pkg.Scope().Lookup("Money").Type(), pkg: pkg, fset: fset}
	for _, f := range files {
		inLengths := filepath.Base(fset.Position(f.Pos()).Filename) == lengthFile
		ast.Inspect(f, func(n ast.Node) bool {
			e, ok := n.(ast.Expr)
			if !ok {
				return true
			}
			if call, ok := n.(*ast.CallExpr); ok {
				w.call(call, inLengths)
			}
			if t := info.TypeOf(e); t != nil && types.Identical(t, w.money) {
				w.floatless(e)
			}
			return true
		})
	}
	return w.found, nil
}

type floatWalk struct {
	info  *types.Info
	money types.Type
	pkg   *types.Package
	fset  *token.FileSet
	found []string
}

func (w *floatWalk) report(n ast.Node, why string) {
	w.found = append(w.found, fmt.Sprintf("%v: %s", w.fset.Position(n.Pos()), why))
}

func (w *floatWalk) is(e ast.Expr, flag types.BasicInfo) bool {
	t := w.info.TypeOf(e)
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&flag != 0
}

// call judges conversions, and methods of big numbers with float in their name.
func (w *floatWalk) call(call *ast.CallExpr, inLengths bool) {
	if w.info.Types[call.Fun].IsType() && len(call.Args) == 1 {
		switch {
		case w.is(call, types.IsInteger) && w.is(call.Args[0], types.IsFloat):
			w.report(call, "a float is turned into a whole number")
		case w.is(call, types.IsFloat) && w.minor(call.Args[0]):
			w.report(call, "money is turned into a float")
		}
		return
	}
	if sel, ok := call.Fun.(*ast.SelectorExpr); ok && !inLengths {
		name := sel.Sel.Name
		if obj := w.info.Uses[sel.Sel]; obj != nil && obj.Pkg() != nil && obj.Pkg().Path() == "math/big" &&
			name != "FloatString" && strings.Contains(name, "Float") {
			w.report(call, name+" outside "+lengthFile)
		}
	}
}

// minor tells whether a Money's minor units are read in an expression.
func (w *floatWalk) minor(e ast.Expr) (found bool) {
	ast.Inspect(e, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if s := w.info.Selections[sel]; s != nil && sel.Sel.Name == "Minor" {
				found = true
			}
		}
		return !found
	})
	return found
}

// floatless wants no float in an expression that makes money.
func (w *floatWalk) floatless(e ast.Expr) {
	ast.Inspect(e, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			var name *ast.Ident
			switch f := call.Fun.(type) {
			case *ast.Ident:
				name = f
			case *ast.SelectorExpr:
				name = f.Sel
			}
			if name != nil {
				if fn, ok := w.info.Uses[name].(*types.Func); ok && fn.Pkg() == w.pkg {
					return false // judged where it is written
				}
			}
		}
		if x, ok := n.(ast.Expr); ok && w.is(x, types.IsFloat) {
			w.report(x, "a float in an amount of money")
			return false
		}
		return true
	})
}

// exports lists the compiled packages in the build cache, by import path.
var exports = sync.OnceValues(func() (map[string]string, error) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}={{.Export}}", ".").Output()
	files := map[string]string{}
	for line := range strings.Lines(string(out)) {
		path, file, _ := strings.Cut(strings.TrimSpace(line), "=")
		files[path] = file
	}
	return files, err
})

// exportData lets the type checker read compiled packages.
func exportData(t *testing.T, fset *token.FileSet) types.Importer {
	t.Helper()
	files, err := exports()
	if err != nil {
		t.Fatal(err)
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(files[path]) })
}

func TestNoFloatInMoney(t *testing.T) {
	fset := token.NewFileSet()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	found, err := floatsInMoney(fset, files, exportData(t, fset))
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files: %v", len(files), err)
	}
	for _, f := range found {
		t.Error(f)
	}
}

// The check above sees what it is there to see.
func TestFloatsInMoneyAreSeen(t *testing.T) {
	for _, tt := range []struct{ body, why string }{
		{`func f(x float64) int64 { return int64(x) }`, "turned into a whole number"},
		{`func f(x float32) Money { return Money{Minor: int64(x * 100)} }`, "a float in an amount"},
		{`func f(m Money) float64 { return float64(m.Minor) / 100 }`, "turned into a float"},
		{`func f(r *big.Rat) float64 { x, _ := r.Float64(); return x }`, "Float64 outside"},
		{`func f(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }`, "SetFloat64 outside"},
		{`func f(m Money, x float64) Money { if m.Minor > 0 { return g(x) }; return m }; ` +
			`func g(x float64) Money { return Money{int64(len("a")), ""} }`, ""},
		{`func f(m Money, n int) float64 { return float64(n) }`, ""},
	} {
		fset := token.NewFileSet()
		var src bytes.Buffer
		fmt.Fprintf(&src, "package cost\nimport \"math/big\"\nvar _ big.Rat\ntype Money struct { Minor int64; "+
			"Currency string }\n%s\n", tt.body)
		f, err := parser.ParseFile(fset, "made.go", &src, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		found, err := floatsInMoney(fset, []*ast.File{f}, exportData(t, fset))
		if err != nil || (len(found) > 0) != (tt.why != "") || !strings.Contains(strings.Join(found, "\n"), tt.why) {
			t.Errorf("%s\nfound %q, %v; want %q", tt.body, found, err, tt.why)
		}
	}
}
