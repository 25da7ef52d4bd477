// path: exchange

// Package panics does.
package panics

func MustParse(s string) string {
	if s == "" {
		panic("blank")
	}
	return s
}

type T struct{}

func (T) MustBe() { panic("no") }

func Parse(s string) string {
	if s == "" {
		panic("blank") // want
	}
	return func() string { panic(s) }() // want
}

func own() {
	panic := func(string) {}
	panic("a name of our own is no panic")
}
