package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// words that a command line is made of, right and wrong.
var (
	commandWords = []string{"lay", "draft", "compare", "quote", "shop", "help", "new", "lai", ""}
	flagWords    = []string{"--effort", "--seed", "--workers", "--time", "--gowns", "--unit", "--json", "--out", "--vary",
		"--what-if", "--client", "--effort=", "--seed=", "--time=", "-h", "--help", "--", "-", "-x", "--nothing", "--e"}
	valueWords = []string{"quick", "most", "0", "1", "-1", "2", "1e9", "99999999999999999999", "1ms", "-1s", "5", "in",
		"ell", "made", "file.txt", "satin.width=45", "satin.width", "satin.widht=4", "=", "é", "\x00", "%d%s", "\n", " "}
	jobWords = []string{"job.toml", "job.toml", "job.toml", "none.toml", "bad.toml", ".", "-"}
)

// foreign are words of the libraries and the language that nobody who sews should read.
var foreign = regexp.MustCompile(`strconv|pflag|%!|<nil>|goroutine|ParseInt|ParseUint|runtime|errno|` +
	`\bNaN\b|0x[0-9a-f]{4}`)

// Whatever is typed, the program ends with one of its three codes; a line that cannot be
// followed prints nothing to the output, and says on its own line what would mend it; and
// what cannot be done says why. Nothing is written where --out names nothing.
func TestAnyCommandLine(t *testing.T) {
	t.Chdir(t.TempDir())
	job := strings.Replace(inchJob, "gores = 6", "gores = 4", 1)
	for name, text := range map[string]string{"job.toml": job, "bad.toml": "width = \"", "file.txt": "mine"} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	codes := map[int]int{}
	for seed := range often.Jobs(120, 2000) {
		args := rapid.Custom(func(t *rapid.T) []string {
			args := []string{rapid.SampledFrom(commandWords).Draw(t, "command")}
			for range rapid.IntRange(0, 4).Draw(t, "words") {
				args = append(args, rapid.SampledFrom(flagWords).Draw(t, "flag"))
				if rapid.Bool().Draw(t, "with a value") {
					args = append(args, rapid.SampledFrom(valueWords).Draw(t, "value"))
				}
			}
			if rapid.IntRange(0, 5).Draw(t, "with a job") > 0 {
				args = append(args, rapid.SampledFrom(jobWords).Draw(t, "job"))
			}
			return args
		}).Example(seed)
		if args[0] == "lay" || args[0] == "compare" || args[0] == "quote" || args[0] == "shop" {
			args = append([]string{args[0], "--effort", "quick", "--time", "1ms"}, args[1:]...)
		}
		var out, problems bytes.Buffer
		code := run(args, strings.NewReader(job), &out, &problems)
		codes[code]++
		said := problems.String()
		lines := strings.Split(strings.TrimSuffix(said, "\n"), "\n")
		switch {
		case code == exitDone && strings.Contains(said, "yardlay:"),
			code == exitUsage && (out.Len() > 0 || !strings.HasPrefix(said, "yardlay: ") ||
				!strings.HasPrefix(lines[len(lines)-1], "  hint: ")),
			code != exitDone && !strings.HasSuffix(said, "\n"), code < exitDone || code > exitUsage,
			foreign.MatchString(said) || foreign.MatchString(out.String()):
			t.Errorf("%q ends with %d, prints %q and says\n%s", args, code, clipped(out.String()), said)
		}
	}
	if codes[exitDone] < 5 || codes[exitFailed] < 3 || codes[exitUsage] < 40 {
		t.Errorf("too few of some codes: %v", codes)
	}
	if text, err := os.ReadFile("file.txt"); err != nil || string(text) != "mine" {
		t.Errorf("a file of somebody else holds %q, %v", text, err)
	}
	entries, err := filepath.Glob("*")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range entries {
		if name != "job.toml" && name != "bad.toml" && name != "file.txt" && !named(name) {
			t.Errorf("%q was written", name)
		}
	}
}

// named says whether a file or folder has a name that a command line gave.
func named(name string) bool {
	for _, all := range [][]string{flagWords, valueWords, jobWords} {
		for _, word := range all {
			if word == name {
				return true
			}
		}
	}
	return false
}

func clipped(text string) string { return text[:min(len(text), 200)] }
