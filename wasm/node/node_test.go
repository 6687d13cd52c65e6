package node

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestE(t *testing.T) {
	pressed := 0
	n := E("button.b.main", A("id", "go"), If("disabled", false), If("hidden", true), nil,
		"Start", E("b", "now"), Key("start"), Click(func() { pressed++ }))
	assert.Equal(t, "button", n.Tag)
	assert.Equal(t, "b main", n.Get("class"))
	assert.Equal(t, "start", n.Key)
	assert.True(t, n.Has("hidden"))
	assert.False(t, n.Has("disabled"))
	assert.Equal(t, "Start now", n.Words())
	n.On["click"](Event{})
	assert.Equal(t, 1, pressed)
}

func TestMarkupStaysText(t *testing.T) {
	n := E("p", "<img src=x onerror=alert(1)>")
	assert.Len(t, n.Kids, 1)
	assert.Equal(t, "#", n.Kids[0].Tag)
	assert.Equal(t, "<img src=x onerror=alert(1)>", n.Kids[0].Text)
}

func TestFind(t *testing.T) {
	n := E("div", E("p", "one"), []*Node{E("p", A("id", "two"), "two"), nil})
	assert.Equal(t, "two", n.Find(func(k *Node) bool { return k.Get("id") == "two" }).Words())
	assert.Nil(t, n.Find(func(k *Node) bool { return k.Tag == "table" }))
}

func TestStrangeParts(t *testing.T) {
	assert.Panics(t, func() { E("p", 3) })
}
