// path: exchange

// Package fused leaves products open to fusing.
package fused

type share float64

type number interface{ ~float32 | ~float64 }

type whole interface{ ~int | ~int64 }

func All(a, b, c float64, s share, f float32, i int) float64 {
	x := a*b + c         // want
	x = c - a*b          // want
	x = (a * b) - c      // want
	x = -(a * b) + c     // want
	x = a*b + c*a        // want
	x += a * b           // want
	x -= (a * b)         // want
	x = float64(s*s + s) // want
	f = f*f + 1          // want
	x = a/2 + b          // want
	x = a*b*c +          // want
		b
	return x + float64(f)
}

func Kept(a, b, c float64, s share, i int) float64 {
	const k = 2.0*3.0 + 1.0
	x := float64(a*b) + c
	x = float64(share(a*b)+s) + k
	x = a/3 + b
	x *= a*b*c + 0 // want
	i = i*i + 1
	i += i * i
	x = (a + b) * c
	return x + min(a*b, c)
}

func Generic[T number](a, b, c T) T {
	return a*b + c // want
}

func Whole[T whole](a, b, c T) T {
	return a*b + c
}
