// Package sealing answers: what closes the box again? It holds plugs, their
// sealing washers and the torque that sets them: whether a washer fits from
// measured dimensions, what to set a wrench to when an adapter lengthens it,
// and whether a tool can set that torque at all.
//
// A thread decides neither the washer nor the key. A dimension nobody measured
// gives "cannot check", never "fits". The maker's own figure goes before
// anything computed here.
package sealing
