package job

import "testing"

func TestTitleOf(t *testing.T) {
	for src, want := range map[string]string{
		string(starter):                                  "My gown",
		"title = 'Moth \"Lane\"'\nunit = 4\n":            `Moth "Lane"`,
		"unit = 4\n# title = 'no'\ntitle = \"a\\u00e9\"": "a\u00e9",
		"[body]\ntitle = 'of a table'\n":                 "",
		"title.of = 'a table'\ntitle = 4\n":              "",
		"gap = \ntitle = 'below what is no TOML'":        "",
		"": "",
	} {
		if got := TitleOf([]byte(src)); got != want {
			t.Errorf("of %q it is %q, not %q", src, got, want)
		}
	}
}
