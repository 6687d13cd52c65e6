package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const goldenSpread = "../../testdata/golden/spread"

// TestSpreadGolden holds the tables and the JSON of two demos against their golden files.
func TestSpreadGolden(t *testing.T) {
	for _, name := range []string{"uncapping-tray", "stand-bracket"} {
		file := "../../assets/" + name + ".dryfold"
		status, text, msg := use("spread", "-samples", "2000", "-seed", "1", file)
		if status != 0 || msg != "" {
			t.Fatalf("%s: status %d, %s", name, status, msg)
		}
		status, out, msg := use("spread", "-json", "-samples", "2000", "-seed", "1", file)
		if status != 0 || msg != "" {
			t.Fatalf("%s: status %d, %s", name, status, msg)
		}
		at := filepath.Join(goldenSpread, name)
		if *update {
			var b bytes.Buffer
			if err := json.Indent(&b, []byte(out), "", " "); err != nil {
				t.Fatal(err)
			}
			if err := os.MkdirAll(goldenSpread, 0o755); err != nil {
				t.Fatal(err)
			}
			for ext, data := range map[string][]byte{".txt": []byte(text), ".json": b.Bytes()} {
				if err := os.WriteFile(at+ext, data, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			continue
		}
		want, err := os.ReadFile(at + ".txt")
		if err != nil {
			t.Fatalf("%v; go test ./cmd/dryfold -update writes it", err)
		}
		if text != string(want) {
			t.Errorf("%s:\n%s\nwant:\n%s", name, text, want)
		}
		want, err = os.ReadFile(at + ".json")
		if err != nil {
			t.Fatal(err)
		}
		if d := differ(tokens(t, out), tokens(t, string(want))); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
}

func TestSpreadStatus(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.dryfold")
	if err := os.WriteFile(bad, []byte(`{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "blank": {"outline": [[0,0],[100,0],[100,50],[0,50]],
		"bends": [{"line": [[50,0],[50,50]], "angle": 90, "radius": 1, "way": "up"}, {"line": [[50.5,0],[50.5,50]], "angle": 90, "radius": 1, "way": "up"}]}}`), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"spread"}, 2, "no file"},
		{[]string{"spread", "no-such-file"}, 2, "no such file"},
		{[]string{"spread", "-samples", "0", parts + "/bracket.dryfold"}, 2, "1 to 100000"},
		{[]string{"spread", "-samples", "100001", parts + "/bracket.dryfold"}, 2, "1 to 100000"},
		{[]string{"spread", "-seed", "x", parts + "/bracket.dryfold"}, 2, "seed"},
		{[]string{"spread", "-samples", "1", parts + "/bracket.dryfold"}, 0, ""},
		{[]string{"spread", bad}, 1, ""},
		{[]string{"spread", "-json", bad}, 1, ""},
	} {
		status, out, msg := use(c.args...)
		if status != c.status || !strings.Contains(msg, c.says) {
			t.Errorf("%q: status %d, %q, %s; want %d, %q", c.args, status, msg, out, c.status, c.says)
		}
	}
	if _, out, _ := use("spread", bad); !strings.Contains(out, "can't be folded") {
		t.Error(out)
	}
	// The same seed, the same figures; another seed, others.
	_, a, _ := use("spread", "-samples", "500", parts+"/tray.dryfold")
	_, b, _ := use("spread", "-samples", "500", parts+"/tray.dryfold")
	_, c, _ := use("spread", "-samples", "500", "-seed", "5", parts+"/tray.dryfold")
	if a != b || strings.ReplaceAll(c, "seed 5", "seed 0") == a {
		t.Error("the seed does not hold the figures")
	}
}
