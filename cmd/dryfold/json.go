package main

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"reflect"
)

// jsonPlaces: every number is written to 1e-6 (mm, mm2, kg, degrees), which
// hides the last digits in which processors differ, so that the same input gives
// the same bytes everywhere.
const jsonPlaces = 1e6

// finePlaces is for figures of a table, which hold more digits and are not reckoned; their fields are tagged places:"9".
const finePlaces = 1e9

// writeJSON writes a value as one line.
func writeJSON(w io.Writer, v any) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(tidy(reflect.ValueOf(v), jsonPlaces).Interface()); err != nil {
		panic(err) // a NaN or an infinity in a report is a mistake of ours
	}
	w.Write(b.Bytes())
}

// tidy is a copy of a value with its floats rounded, no -0, and no list nil.
// What JSON leaves out is left out.
func tidy(v reflect.Value, places float64) reflect.Value {
	switch v.Kind() {
	case reflect.Float64:
		out := reflect.New(v.Type()).Elem()
		out.SetFloat(math.Round(v.Float()*places)/places + 0)
		return out
	case reflect.Pointer:
		if v.IsNil() {
			return v
		}
		out := reflect.New(v.Type().Elem())
		out.Elem().Set(tidy(v.Elem(), places))
		return out
	case reflect.Slice:
		out := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := range v.Len() {
			out.Index(i).Set(tidy(v.Index(i), places))
		}
		return out
	case reflect.Array:
		out := reflect.New(v.Type()).Elem()
		for i := range v.Len() {
			out.Index(i).Set(tidy(v.Index(i), places))
		}
		return out
	case reflect.Struct:
		out := reflect.New(v.Type()).Elem()
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Tag.Get("json") != "-" {
				to := places
				if f.Tag.Get("places") == "9" {
					to = finePlaces
				}
				out.Field(i).Set(tidy(v.Field(i), to))
			}
		}
		return out
	}
	return v
}
