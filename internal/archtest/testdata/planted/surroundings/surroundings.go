// path: units/measure

//go:build !plan9 // want

// Package surroundings asks the machine.
package surroundings

import (
	"fmt"
	"math/rand"
	v2 "math/rand/v2"
	"net/http" // want
	"os"       // want
	"os/exec"  // want
	"time"
	_ "unsafe" // want
)

func Ask() {
	_ = http.StatusOK
	_ = os.Getenv("HOME")
	_ = exec.Command("date")
	_ = time.Now()                        // want
	start := time.Time{}.Add(time.Second) // arithmetic is fine
	_ = time.Since(start)                 // want
	_ = start.Local()                     // want
	clock := time.Now                     // want
	_ = clock
	fmt.Println(start)          // want
	_ = fmt.Sprintln(start)     // returns a string
	println("x")                // want
	_ = rand.Float64()          // want
	_ = v2.IntN(3)              // want
	_ = v2.New(v2.NewPCG(1, 2)) // seeded
	_ = rand.New(rand.NewSource(1)).Intn(3)
}
