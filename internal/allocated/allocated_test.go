package allocated

import "testing"

var keep []byte

func TestBytes(t *testing.T) {
	for _, n := range []int{1 << 20, 8 << 20} {
		got := Bytes(func() { keep = make([]byte, n) })
		if got < uint64(n) || got > uint64(n)+1<<16 {
			t.Errorf("%d bytes asked for, %d counted", n, got)
		}
	}
}
