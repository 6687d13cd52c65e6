package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const goldenMeasure = "../../testdata/golden/measure"

// asCut writes a demo part with measured values added.
func asCut(t *testing.T, demo, values string) string {
	t.Helper()
	data, err := os.ReadFile("../../assets/" + demo + ".dryfold")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.TrimSuffix(strings.TrimSpace(string(data)), "}") + `, "as_cut": [` + values + "]}"
	file := filepath.Join(t.TempDir(), demo+".dryfold")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// TestMeasureGolden holds lists and verdicts against their golden files: two demo parts as they are, and the tray with a notch 2 mm too wide, a back 2 mm too wide and a value
// that fits nothing.
func TestMeasureGolden(t *testing.T) {
	for _, c := range []struct {
		name, file string
		status     int
	}{
		{"press-hopper", "../../assets/press-hopper.dryfold", 0},
		{"stand-bracket", "../../assets/stand-bracket.dryfold", 0},
		{"tray-wrong", asCut(t, "uncapping-tray", `{"from": [142.5746, 187.4496], "to": [142.0774, 196.3422], "is": 10.9},
			{"from": [-119.1375, -2.5106], "to": [119.1375, -2.5106], "is": 240.3}, {"from": [0, 0], "to": [100, 0], "is": 99}`), 1},
		{"bracket-trim", asCut(t, "stand-bracket", `{"from": [-3.28981, 3], "to": [3.28981, 3], "is": 6.64}`), 1},
	} {
		status, text, msg := use("measure", c.file)
		if status != c.status || msg != "" {
			t.Fatalf("%s: status %d, %s", c.name, status, msg)
		}
		status, out, msg := use("measure", "-json", c.file)
		if status != c.status || msg != "" {
			t.Fatalf("%s: status %d, %s", c.name, status, msg)
		}
		at := filepath.Join(goldenMeasure, c.name)
		if *update {
			var b bytes.Buffer
			if err := json.Indent(&b, []byte(out), "", " "); err != nil {
				t.Fatal(err)
			}
			if err := os.MkdirAll(goldenMeasure, 0o755); err != nil {
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
			t.Errorf("%s:\n%s\nwant:\n%s", c.name, text, want)
		}
		want, err = os.ReadFile(at + ".json")
		if err != nil {
			t.Fatal(err)
		}
		if d := differ(tokens(t, out), tokens(t, string(want))); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}

func TestMeasureStatus(t *testing.T) {
	all := asCut(t, "stand-bracket", `{"from": [-3.28981, 3], "to": [3.28981, 3], "is": 6.58}, {"from": [0, 0], "to": [0, 6], "is": 6},
		{"from": [-3.03981, 0], "to": [3.03981, 6], "is": 8.54}, {"from": [-3.03981, 6], "to": [3.03981, 0], "is": 8.54},
		{"from": [-3.28981, 3.00000], "to": [-0.14063, 3.00000], "is": 3.149}, {"from": [0.00000, 6.00000], "to": [0.00000, 4.75000], "is": 1.250}, {"from": [3.28981, 4.75000], "to": [2.14491, 4.75000], "is": 1.145}, {"from": [-2.14491, 6.00000], "to": [-2.14491, 4.75000], "is": 1.250}`)
	some := asCut(t, "stand-bracket", `{"from": [-3.28981, 3], "to": [3.28981, 3], "is": 6.58}`)
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"measure"}, 2, "no file"},
		{[]string{"measure", "nowhere.dryfold"}, 2, "no such file"},
		{[]string{"measure", all}, 0, "Verdict: bend"},
		{[]string{"measure", some}, 1, "Still to measure: sizes 2, 3, 4, 5, 6, 7 and 8."},
		{[]string{"measure", asCut(t, "stand-bracket", `{"from": [0, 0], "to": [0, 6], "is": -6}`)}, 2, "as_cut[0].is"},
	} {
		status, out, msg := use(c.args...)
		if status != c.status || !strings.Contains(out+msg, c.says) {
			t.Errorf("%v: status %d, %s%s", c.args, status, out, msg)
		}
	}
}
