package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/format"
	"os"
	"path/filepath"
	"strings"
)

// shaderType is a type of the shading language, as Ebitengine numbers them.
type shaderType struct {
	Main   int
	Sub    []shaderType
	Length int
}

// readyShader is a compiled shader; see wasm/lean/main.go.txt.
type readyShader struct {
	Key, Hash                      [16]byte
	Unit, Textures                 int
	Names                          []string
	Uniforms, Attributes, Varyings []shaderType
	Used                           []int
	Vertex, Fragment               string
}

// leanFiles are the files to be put in Ebitengine's place, by their names in it; made is what wasm/lean's program wrote.
func leanFiles(top, from string, made []byte) (map[string][]byte, error) {
	var all struct {
		Builtin [][][]string
		Shaders []readyShader
	}
	if err := json.Unmarshal(made, &all); err != nil {
		return nil, err
	}
	texts := map[string][]byte{}
	for _, n := range []string{"builtinshader", "graphics", "glsl", "imagedumper"} {
		var err error
		if texts[n], err = os.ReadFile(filepath.Join(top, "wasm", "lean", n+".go.txt")); err != nil {
			return nil, err
		}
	}

	var list, written bytes.Buffer
	list.WriteString("var list = []ready{\n")
	written.WriteString("var texts = []struct {\nhash shaderir.SourceHash\nvertex, fragment string\n}{\n")
	for _, s := range all.Shaders {
		fmt.Fprintf(&list, "{shaderir.SourceHash%s, shaderir.SourceHash%s, %d, %d, %#v, %s, %s, %s, %#v},\n", goBytes(s.Key), goBytes(s.Hash),
			s.Unit, s.Textures, s.Names, goTypes(s.Uniforms), goTypes(s.Attributes), goTypes(s.Varyings), s.Used)
		fmt.Fprintf(&written, "{shaderir.SourceHash%s, %q, %q},\n", goBytes(s.Hash), s.Vertex, s.Fragment)
	}
	list.WriteString("}\n")
	written.WriteString("}\n")

	// Of the built-in shaders' file only the template and what fills it in are replaced.
	builtin, err := os.ReadFile(filepath.Join(from, "internal", "builtinshader", "shader.go"))
	if err != nil {
		return nil, err
	}
	head, rest, ok1 := bytes.Cut(builtin, []byte("import ("))
	_, rest, ok2 := bytes.Cut(rest, []byte("\n)\n"))
	middle, rest, ok3 := bytes.Cut(rest, []byte("\nvar (\n"))
	_, end, ok4 := bytes.Cut(rest, []byte("\nvar ScreenShaderSource"))
	if !ok1 || !ok2 || !ok3 || !ok4 {
		return nil, fmt.Errorf("Ebitengine's built-in shaders are not as they were known")
	}
	sources := fmt.Sprintf("var sources = [FilterCount][AddressCount][2]string%s\n\n", strings.TrimPrefix(fmt.Sprintf("%#v", all.Builtin), "[][][]string"))
	sources = strings.ReplaceAll(sources, "[]string{", "{")
	sources = strings.ReplaceAll(sources, "[]{", "{")

	files := map[string][]byte{
		"imagedumper.go":                   texts["imagedumper"],
		"internal/builtinshader/shader.go": bytes.Join([][]byte{head, middle, []byte("\n"), texts["builtinshader"], []byte(sources), []byte("var ScreenShaderSource"), end}, nil),
		"internal/graphics/shader.go":      append(texts["graphics"], list.Bytes()...),
		"internal/shaderir/glsl/glsl.go":   append(texts["glsl"], written.Bytes()...),
		"internal/shaderir/glsl/type.go":   nil,
	}
	for name, data := range files {
		if data == nil {
			continue
		}
		if files[name], err = format.Source(data); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return files, nil
}

// goBytes is a hash as Go writes it, without its type.
func goBytes(b [16]byte) string {
	return strings.TrimPrefix(fmt.Sprintf("%#v", b), "[16]uint8")
}

// goTypes is a list of types as Go writes it.
func goTypes(list []shaderType) string {
	if len(list) == 0 {
		return "nil"
	}
	var b strings.Builder
	b.WriteString("[]shaderir.Type{")
	for _, t := range list {
		fmt.Fprintf(&b, "{Main: %d, Sub: %s, Length: %d},", t.Main, goTypes(t.Sub), t.Length)
	}
	return b.String() + "}"
}
