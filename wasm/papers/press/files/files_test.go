package files

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/paper"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/wasm/papers/press"
	"dryfold/wasm/session/ask"
)

// question is a demo part as the page asks about it: by its blank, with its report.
func question(t testing.TB, name string) (fold.Spec, ask.PaperQuestion) {
	t.Helper()
	var data []byte
	for _, d := range assets.Demos() {
		if d.Name == name {
			data = d.Data
		}
	}
	spec, err := partfile.Read(data)
	require.NoError(t, err)
	if spec.Sizes != nil {
		made, problems := shape.Make(spec)
		require.Empty(t, problems)
		spec = made.Part.Spec
	}
	q := ask.PaperQuestion{Part: ask.WriteQuestion(spec)}
	require.NoError(t, ask.Check(q.Part, func(kind, text string) {
		if kind == "report" {
			q.Report = text
		}
	}))
	q.Options.Units, q.Template.Units = spec.Units, spec.Units
	return spec, q
}

func TestEveryKind(t *testing.T) {
	for i, d := range assets.Demos() {
		_, q := question(t, d.Name)
		for _, kind := range paper.Kinds {
			q.Want, q.Ending = kind, ""
			made, err := press.Sheets(q, nil)
			require.NoError(t, err, "%s %s", d.Name, kind)
			require.NotEmpty(t, made.Pages)
			for _, svg := range made.Pages {
				assert.True(t, strings.HasPrefix(svg, "<svg "))
			}
			q.Ending = "pdf"
			made, err = Make(q, nil)
			require.NoError(t, err)
			assert.True(t, bytes.HasPrefix(made.File, []byte("%PDF-")))
		}
		q.Picture = ask.PictureQuestion{W: 200, H: 150, Done: -1}
		for _, f := range []struct{ want, ending, begins string }{{"blank", "svg", "<svg "}, {"machine", "dxf", "999\r\n"}, {"machine", "svg", "<svg "},
			{"picture", "png", "\x89PNG"}, {"run", "gif", "GIF89a"}, {"solid", "stl", ""}, {"solid", "glb", "glTF"}} {
			if f.want == "run" && i > 0 {
				continue // the tray's tells of all
			}
			q.Want, q.Ending = f.want, f.ending
			made, err := Make(q, nil)
			require.NoError(t, err, f)
			assert.True(t, bytes.HasPrefix(made.File, []byte(f.begins)), "%v begins with %q", f, made.File[:min(20, len(made.File))])
		}
	}
}

// What can't be read or made is an error, never a panic.
func TestMakeRefuses(t *testing.T) {
	_, q := question(t, assets.Demos()[0].Name)
	for _, bad := range []func(*ask.PaperQuestion){
		func(q *ask.PaperQuestion) { q.Part = "{" },
		func(q *ask.PaperQuestion) { q.Report = "[" },
		func(q *ask.PaperQuestion) { q.Want = "nothing" },
	} {
		b := q
		b.Want = "marking"
		bad(&b)
		_, err := Make(b, nil)
		assert.Error(t, err)
		_, err = press.Sheets(b, nil)
		assert.Error(t, err)
	}
}

// BenchmarkMake is what the page waits for: each sheet of each demo part as SVG, as PDF, and each file.
func BenchmarkMake(b *testing.B) {
	for _, d := range assets.Demos() {
		_, q := question(b, d.Name)
		q.Picture = ask.PictureQuestion{W: 1600, H: 1200, Done: -1}
		one := func(name, want, ending string) {
			b.Run(strings.ReplaceAll(d.Name, " ", "-")+"/"+name, func(b *testing.B) {
				q := q
				q.Want, q.Ending = want, ending
				if want == "run" {
					q.Picture = ask.PictureQuestion{W: 480, H: 360}
				}
				maker := Make
				if ending == "" {
					maker = press.Sheets
				}
				for b.Loop() {
					if _, err := maker(q, nil); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		for _, kind := range paper.Kinds {
			one(kind, kind, "")
			one(kind+".pdf", kind, "pdf")
		}
		for _, f := range [][2]string{{"machine", "dxf"}, {"machine", "svg"}, {"picture", "png"}, {"run", "gif"}, {"solid", "stl"}, {"solid", "glb"}} {
			one(f[1], f[0], f[1])
		}
	}
}
