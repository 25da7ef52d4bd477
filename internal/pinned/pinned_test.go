package pinned

import (
	"math"
	"testing"
)

// The digest of nothing, and of 1.0 as eight bytes, little end first, by sha256sum of
// GNU coreutils: printf '\0\0\0\0\0\0\xf0\x3f' | sha256sum.
func TestDigest(t *testing.T) {
	r := Open()
	if got := r.Digest(); got != "e3b0c44298fc1c149afbf4c8996fb924" || r.Count() != 0 {
		t.Errorf("nothing: %s, %d", got, r.Count())
	}
	r.Add(1)
	one := r.Digest()
	if one != "6c3c396ed6b5c36dcae172271f462051" || r.Count() != 1 {
		t.Errorf("1: %s, %d", one, r.Count())
	}
	for _, x := range []float64{math.Nextafter(1, 2), -1, 0} {
		other := Open()
		other.Add(x)
		if other.Digest() == one {
			t.Errorf("%v has the digest of 1", x)
		}
	}
	minus, zero := Open(), Open()
	minus.Add(math.Copysign(0, -1))
	zero.Add(0)
	if minus.Digest() == zero.Digest() {
		t.Error("minus nothing has the digest of nothing")
	}
	bytes := Open()
	bytes.Write([]byte{0, 0, 0, 0, 0, 0, 0xf0, 0x3f})
	if bytes.Digest() != one || bytes.Count() != 0 {
		t.Errorf("the same bytes: %s, %d", bytes.Digest(), bytes.Count())
	}
}
