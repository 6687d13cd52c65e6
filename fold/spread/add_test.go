package spread

import (
	"encoding/json"
	"os"
	"testing"
)

func TestLook(t *testing.T) {
	p := filePart(t, "../../assets/uncapping-tray.dryfold")
	r := p.Quick()
	Add(p, &r, Options{})
	e := json.NewEncoder(os.Stdout)
	e.SetIndent("", " ")
	e.Encode(r.Spread.Errors)
	e.Encode(r.Spread.Sizes)
	for _, s := range r.Seams {
		t.Log(s.Name, s.Spread.Watch)
		t.Log(s.GapMin, s.GapMax, s.Spread.Least.Low, s.Spread.Least.Mid, s.Spread.Least.High, s.Spread.Widest.Low, s.Spread.Widest.Mid, s.Spread.Widest.High)
		for _, a := range s.Spread.Along {
			t.Log(a.At, a.Low, a.Mid, a.High, a.Shares)
		}
		t.Log(s.Spread.Widest.Shares)
	}
	t.Log(r.Spread.Watch)
	for _, x := range r.Troubles {
		t.Log(x.Message)
	}
}
